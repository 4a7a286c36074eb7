#include "engine/review/clause_gates.hpp"

#include <algorithm>
#include <utility>

namespace lidlift::logic {
namespace {

/// A question larger than this, in literals of its clauses, is not tried.
constexpr std::size_t most_literals = 5'000'000;

}  // namespace

ClauseGates::ClauseGates() : true_(solver_.new_literal()) { solver_.add({true_}); }

bool ClauseGates::too_large() const { return literals_ > most_literals; }

void ClauseGates::add(std::vector<Literal> clause) {
    literals_ += clause.size();
    if (!too_large()) solver_.add(std::move(clause));
}

Literal ClauseGates::any(std::vector<Literal> parts) {
    std::ranges::sort(parts);
    parts.erase(std::unique(parts.begin(), parts.end()), parts.end());
    std::erase(parts, never());
    if (parts.empty()) return never();
    if (parts.size() == 1) return parts.front();
    if (std::ranges::find(parts, true_) != parts.end()) return true_;
    const Literal result = solver_.new_literal();
    for (const Literal part : parts) add({negated(part), result});
    parts.push_back(negated(result));
    add(std::move(parts));
    return result;
}

Literal ClauseGates::all(std::vector<Literal> parts) {
    for (Literal& part : parts) part = negated(part);
    return negated(any(std::move(parts)));
}

// By counting along the parts.
Literal ClauseGates::at_least_of(std::size_t wanted, const std::vector<Literal>& parts) {
    if (wanted == 0) return true_;
    if (wanted > parts.size()) return never();
    if (wanted == 1) return any(parts);
    if (wanted == parts.size()) return all(parts);
    // reached[j]: at least j + 1 of the parts so far.
    std::vector<Literal> reached(wanted, never());
    for (const Literal part : parts) {
        if (too_large()) return never();
        for (std::size_t j = wanted; j-- > 0;) reached[j] = any({reached[j], j == 0 ? part : both(reached[j - 1], part)});
    }
    return reached.back();
}

void ClauseGates::at_most_one(const std::vector<Literal>& literals) {
    // Along a chain of "one of those so far", so that many cells stay cheap.
    Literal so_far = never();
    for (const Literal literal : literals) {
        add({negated(so_far), negated(literal)});
        so_far = any({so_far, literal});
    }
}

}  // namespace lidlift::logic
