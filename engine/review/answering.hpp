// Answers that a person could give, put together so that a condition comes out as it is wanted: the witnesses of a review.
#pragma once

#include "engine/chaining.hpp"
#include "engine/facts.hpp"
#include "engine/review/finding.hpp"
#include "engine/rule_base.hpp"

#include <functional>
#include <vector>

namespace lidlift {

/// So many tries are made for one condition; what is not found by then counts as not to be had.
inline constexpr int most_tries_to_settle = 4'000;

/// Which signs may be asked about; none: all of them.
using AllowedSigns = std::function<bool(Handle<Sign>)>;

class Answering {
public:
    explicit Answering(const RuleBase& rule_base);

    /// The answers to `sign` that can make a difference, each alone: every answer, every band, and every number at which some
    /// condition turns, with one from each stretch between.
    [[nodiscard]] const std::vector<Observation>& possible(Handle<Sign> sign) const { return possible_[sign.index]; }

    /// Adds answers to `facts`, without changing what they hold, so that `condition` is `wanted` (yes or no). False, with
    /// `facts` as they were, where none were found within most_tries_to_settle.
    bool settle(Facts& facts, const Condition& condition, Truth wanted, const AllowedSigns& allowed = {}) const;

    [[nodiscard]] const RuleBase& rule_base() const { return rule_base_; }

private:
    class Search;

    const RuleBase& rule_base_;
    std::vector<std::vector<Observation>> possible_;
};

/// Every condition of the rule base: of rules, circumstances, vetoes, steps, cautions and clashes.
void for_each_condition(const RuleBase& rule_base, const std::function<void(const Condition&)>& take);

/// The answers as they would be typed.
[[nodiscard]] std::vector<WitnessAnswer> witness_of(const RuleBase& rule_base, const Facts& facts);

}  // namespace lidlift
