// Decides whether clauses over yes/no variables can all be true at once: conflict-driven clause learning (Marques-Silva &
// Sakallah, IEEE Trans. Computers 48 (1999) 506-521) with two watched literals and learning at the first unique implication
// point. Knows nothing of signs and rules.
#pragma once

#include <cstddef>
#include <cstdint>
#include <vector>

namespace lidlift::logic {

/// A variable or its negation: 2 * variable, plus 1 when negated.
using Literal = std::uint32_t;
[[nodiscard]] constexpr Literal negated(Literal literal) { return literal ^ 1U; }

enum class Decided { satisfiable, unsatisfiable, given_up };

class ClauseSolver {
public:
    /// A new variable's literal; it is false unless something makes it true.
    [[nodiscard]] Literal new_literal();
    [[nodiscard]] std::size_t variables() const { return value_.size() / 2; }

    /// At least one of `clause` holds. Only before solve().
    void add(std::vector<Literal> clause);

    /// Once only. `work` goes down with every clause looked at; at 0 it gives up.
    [[nodiscard]] Decided solve(std::uint64_t& work);

    /// In the found assignment; only after `satisfiable`.
    [[nodiscard]] bool holds(Literal literal) const { return value_[literal] == Value::yes; }

private:
    enum class Value : signed char { no, yes, open };
    static constexpr std::uint32_t no_clause = ~std::uint32_t{0};

    void assign(Literal literal, std::uint32_t because);
    [[nodiscard]] std::uint32_t propagate(std::uint64_t& work);
    void learn(std::uint32_t conflict);
    void undo_to(std::size_t level);
    void watch(std::uint32_t clause);
    void bump(std::uint32_t variable);
    [[nodiscard]] std::uint32_t next_open();
    void sift_up(std::size_t at);
    void sift_down(std::size_t at);
    void put_back(std::uint32_t variable);

    std::vector<std::vector<Literal>> clauses_;
    std::vector<std::vector<std::uint32_t>> watches_;  ///< by literal: clauses to look at when it becomes false
    std::vector<Value> value_;                         ///< by literal
    std::vector<std::uint32_t> because_;               ///< by variable: the clause that forced it
    std::vector<std::size_t> level_;                   ///< by variable
    std::vector<Literal> trail_;
    std::vector<std::size_t> level_begins_;  ///< positions in the trail
    std::size_t next_to_propagate_ = 0;
    bool impossible_ = false;

    std::vector<double> activity_;  ///< by variable
    double bump_by_ = 1;
    std::vector<std::uint32_t> heap_;        ///< variables, the most active first
    std::vector<std::uint32_t> heap_place_;  ///< by variable; no_clause: not in the heap
    std::vector<bool> seen_;
};

}  // namespace lidlift::logic
