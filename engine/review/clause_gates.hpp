// What conditions are built of - any of, all of, at least so many of - as clauses of the solver.
#pragma once

#include "engine/review/clause_solver.hpp"

#include <cstddef>
#include <cstdint>
#include <vector>

namespace lidlift::logic {

class ClauseGates {
public:
    ClauseGates();

    /// Literals that are always and never so.
    [[nodiscard]] Literal always() const { return true_; }
    [[nodiscard]] Literal never() const { return negated(true_); }
    [[nodiscard]] Literal new_literal() { return solver_.new_literal(); }

    /// One of the clause's literals is so.
    void add(std::vector<Literal> clause);
    void at_most_one(const std::vector<Literal>& literals);

    /// A literal that is so exactly when any, all or at least `wanted` of the parts are.
    [[nodiscard]] Literal any(std::vector<Literal> parts);
    [[nodiscard]] Literal all(std::vector<Literal> parts);
    [[nodiscard]] Literal both(Literal a, Literal b) { return all({a, b}); }
    [[nodiscard]] Literal at_least_of(std::size_t wanted, const std::vector<Literal>& parts);

    [[nodiscard]] std::size_t literals() const { return literals_; }
    /// From here on nothing more is added.
    [[nodiscard]] bool too_large() const;
    [[nodiscard]] Decided solve(std::uint64_t& work) { return solver_.solve(work); }
    /// After a question that was found satisfiable.
    [[nodiscard]] bool holds(Literal literal) const { return solver_.holds(literal); }

private:
    ClauseSolver solver_;
    Literal true_ = 0;
    std::size_t literals_ = 0;
};

}  // namespace lidlift::logic
