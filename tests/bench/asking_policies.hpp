// Ways of choosing the next question, and calls gone through with each.
#pragma once

#include "engine/asking.hpp"
#include "tests/bench/drawn_calls.hpp"

#include <cstddef>
#include <optional>
#include <vector>

namespace lidlift::bench {

/// All but `ours` choose among the same questions and stop for the same reasons; only the order differs.
enum class Policy {
    ours,             ///< as `ask` does: by information for effort, staying on a topic
    no_cost,          ///< by information alone
    fixed_of_worth,   ///< the first of the list that tells enough to be worth asking
    random_of_worth,  ///< any that tells enough to be worth asking
    fixed_all         ///< the whole list from top to bottom, whether a question bears on the likely causes or not
};

/// One call from the first words to the stop.
struct Course {
    std::vector<bool> hit;       ///< by questions asked, from none: the first cause is one of the bed's
    std::vector<double> effort;  ///< minutes, likewise
    std::vector<double>
        right;  ///< likewise: how well the steps advised agree with those that the bed needs, 0 to 1 (see steps_right)
    std::vector<Handle<Sign>> asked;
    double brier = 0;  ///< at the stop: the squared errors of all causes' chances, added up
    std::optional<StopReason> why;

    [[nodiscard]] std::size_t questions() const { return hit.size() - 1; }
};

/// `original` as in WithDuplicates; empty: every sign is itself.
[[nodiscard]] std::vector<Course> go_through(const std::vector<DrawnCall>& calls, const RuleBase& infer,
                                             const std::vector<Handle<Sign>>& original, Policy policy,
                                             const AskingLimits& limits, std::uint64_t seed);

}  // namespace lidlift::bench
