// The answers that speak most for one cause: how likely it can become at all.
#pragma once

#include "engine/review/answering.hpp"
#include "engine/review/few_causes.hpp"
#include "engine/review/strengths.hpp"

#include <optional>
#include <span>
#include <vector>

namespace lidlift {

/// Rival causes that are weighed beside the one looked at.
inline constexpr std::size_t rivals_in_best_case = 6;
/// All answers of the signs that matter are gone through where there are no more combinations than this.
inline constexpr std::size_t most_combinations = 3'000;
/// So many combinations are looked at for all causes together; beyond it the first good answers stand.
inline constexpr std::size_t most_combinations_in_all = 30'000;

class BestCases {
public:
    /// Refers to all three.
    BestCases(const Answering& answering, const FewCauses& few, const std::vector<std::vector<FeatureStrength>>& strengths);

    /// Answers for `cause`: one by one what counts most for it, as long as its balance by itself rises and none of `never`
    /// comes true. They are added to `start`.
    [[nodiscard]] Facts speaking_for(Handle<Cause> cause, Facts start = {}, std::span<const Condition* const> never = {}) const;

    /// Chance that `cause` is there on these facts, among its rivals.
    [[nodiscard]] double chance(Handle<Cause> cause, const Facts& facts) const;

    /// Better answers than `facts`, sought until `wanted` is reached: all combinations where they are few, otherwise sign by
    /// sign for as long as it helps.
    [[nodiscard]] Facts improved(Handle<Cause> cause, Facts facts, double wanted);

private:
    struct Wish {
        double weight;
        Condition condition;
    };
    [[nodiscard]] std::vector<Wish> wishes(Handle<Cause> cause) const;
    [[nodiscard]] std::vector<Handle<Sign>> signs_that_matter(const std::vector<Handle<Cause>>& causes) const;
    [[nodiscard]] std::optional<Facts> best_combination(Handle<Cause> cause, const std::vector<Handle<Sign>>& signs,
                                                        double wanted);

    const Answering& answering_;
    const FewCauses& few_;
    const std::vector<std::vector<FeatureStrength>>& strengths_;
    std::size_t combinations_ = 0;
};

}  // namespace lidlift
