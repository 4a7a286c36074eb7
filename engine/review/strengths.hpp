// What each answer does to each cause, in decibans, as the engine weighs a sure answer.
#pragma once

#include "engine/ranking.hpp"

#include <cstdint>
#include <string>
#include <vector>

namespace lidlift {

/// One feature's weights for one cause: for each of its values, decibans against none of the listed causes.
struct FeatureStrength {
    std::uint32_t feature = 0;
    int group = -1;  ///< same-observation group, -1: none
    std::vector<double> weights;

    [[nodiscard]] double most_for() const;      ///< at least 0
    [[nodiscard]] double most_against() const;  ///< at most 0
};

/// By cause; within a cause by feature.
[[nodiscard]] std::vector<std::vector<FeatureStrength>> strengths_of(const Ranker& ranker);

/// "6.9 dB".
[[nodiscard]] std::string decibans_to_text(double decibans);

/// The feature that a link of the rule base hangs on.
[[nodiscard]] std::uint32_t feature_of(const Ranker& ranker, const Observable& when);

/// The condition under which the feature behind `when` shows `value`.
[[nodiscard]] Condition shows(const Ranker& ranker, const Observable& when, std::size_t value);

}  // namespace lidlift
