// The model of the weighing a second time: slow, with nothing prepared and nothing skipped, every subset of the causes as a bit
// pattern. It shares with engine/weighing only the plain structs that describe a model, and is written from the method's
// formulas:
//
//     P(value | S) = [1 - (1 - b) * PROD over c in S with p >= b of (1 - p) / (1 - b)] * PROD over c in S with p < b of p / b,
//     clamped L(S)         = SUM over c in S of prior decibans and shift + shrink * SUM over groups of W_G(S) P(S)         =
//     10^(L(S) / 10) / the same summed over all allowed sets
//
// Two values: the formula gives the first, the second is what is left. More than two values: values that some cause of the set
// links to get the formula; the others share what those leave of 1, at least 0.01, in proportion to their backgrounds; then all
// are divided by their sum. A mistaken report names any of the other values alike.
#pragma once

#include "engine/weighing.hpp"

#include <algorithm>
#include <cmath>
#include <cstdint>
#include <functional>
#include <map>
#include <vector>

namespace lidlift::oracle {

/// Causes as bits.
using Subset = std::uint32_t;

inline bool has(Subset set, std::uint32_t cause) { return (set >> cause & 1U) != 0; }

inline int size_of(Subset set) {
    int size = 0;
    for (std::uint32_t cause = 0; cause < 32; ++cause)
        if (has(set, cause)) ++size;
    return size;
}

inline bool linked(const Feature& feature, std::uint32_t value, Subset set) {
    for (const Feature::Link& link : feature.links)
        if (link.value == value && has(set, link.cause)) return true;
    return false;
}

inline double leaky_noisy_or(const EvidenceModel& model, const Feature& feature, std::uint32_t value, Subset set) {
    const double b = feature.background[value];
    double product_for = 1;
    double product_against = 1;
    for (const Feature::Link& link : feature.links) {
        if (link.value != value || !has(set, link.cause)) continue;
        if (link.chance >= b) product_for *= (1 - link.chance) / (1 - b);
        if (link.chance < b) product_against *= link.chance / b;
    }
    const double chance = (1 - (1 - b) * product_for) * product_against;
    return std::min(std::max(chance, model.lowest), model.highest);
}

inline std::vector<double> chances_of_values(const EvidenceModel& model, const Feature& feature, Subset set) {
    const auto count = static_cast<std::uint32_t>(feature.background.size());
    if (count == 2) {
        const double first = leaky_noisy_or(model, feature, 0, set);
        return {first, 1 - first};
    }
    double taken = 0;
    double background_of_the_others = 0;
    for (std::uint32_t value = 0; value < count; ++value) {
        if (linked(feature, value, set)) taken += leaky_noisy_or(model, feature, value, set);
        if (!linked(feature, value, set)) background_of_the_others += feature.background[value];
    }
    std::vector<double> chances;
    for (std::uint32_t value = 0; value < count; ++value) {
        if (linked(feature, value, set))
            chances.push_back(leaky_noisy_or(model, feature, value, set));
        else
            chances.push_back(std::max(0.01, 1 - taken) * feature.background[value] / background_of_the_others);
    }
    double sum = 0;
    for (const double chance : chances) sum += chance;
    for (double& chance : chances) chance /= sum;
    return chances;
}

/// Chance of the report "one of `finding.values`", over every true value and every report.
inline double chance_of_report(const EvidenceModel& model, const Finding& finding, Subset set) {
    const std::vector<double> true_chances = chances_of_values(model, model.features[finding.feature], set);
    const std::size_t count = true_chances.size();
    double chance = 0;
    for (std::size_t truly = 0; truly < count; ++truly) {
        for (std::size_t said = 0; said < count; ++said) {
            if ((finding.values >> said & 1U) == 0) continue;
            const double said_chance = said == truly ? 1 - finding.error : finding.error / static_cast<double>(count - 1);
            chance += true_chances[truly] * said_chance;
        }
    }
    return chance;
}

/// W_G: of the weights for, in falling order, the first counts in full and the others by `share`; likewise of the weights
/// against.
inline double group_weight(std::vector<double> weights, double share) {
    std::sort(weights.begin(), weights.end(), std::greater<>());
    std::vector<double> speak_for;
    std::vector<double> speak_against;
    for (const double weight : weights) {
        if (weight > 0) speak_for.push_back(weight);
        if (weight < 0) speak_against.insert(speak_against.begin(), weight);
    }
    double sum = 0;
    for (std::size_t rank = 0; rank < speak_for.size(); ++rank) sum += rank == 0 ? speak_for[rank] : share * speak_for[rank];
    for (std::size_t rank = 0; rank < speak_against.size(); ++rank)
        sum += rank == 0 ? speak_against[rank] : share * speak_against[rank];
    return sum;
}

inline double score(const EvidenceModel& model, const Situation& situation, Subset set) {
    std::map<int, std::vector<double>> groups;
    double evidence = 0;
    for (const Finding& finding : situation.findings) {
        const double weight = 10 * std::log10(chance_of_report(model, finding, set) / chance_of_report(model, finding, 0));
        const int group = model.features[finding.feature].group;
        if (group < 0) evidence += weight;
        if (group >= 0) groups[group].push_back(weight);
    }
    for (const auto& group : groups) evidence += group_weight(group.second, model.same_observation_counts);
    double total = model.shrink * evidence;
    for (std::uint32_t cause = 0; cause < model.prior.size(); ++cause) {
        if (!has(set, cause)) continue;
        total += 10 * std::log10(model.prior[cause] / (1 - model.prior[cause]));
        if (!situation.prior_shift.empty()) total += situation.prior_shift[cause];
    }
    return total;
}

inline bool allowed(const EvidenceModel& model, const Situation& situation, Subset set) {
    if (size_of(set) > model.largest_set) return false;
    for (const auto& pair : model.never_together)
        if (has(set, pair.first) && has(set, pair.second)) return false;
    for (const std::uint32_t cause : model.alone)
        if (has(set, cause) && size_of(set) > 1) return false;
    for (std::uint32_t cause = 0; cause < model.prior.size(); ++cause) {
        if (!situation.ruled_out.empty() && situation.ruled_out[cause] && has(set, cause)) return false;
        if (!situation.certain.empty() && situation.certain[cause] && !has(set, cause)) return false;
    }
    return true;
}

struct Posterior {
    struct Scored {
        double score = 0;
        double chance = 0;
    };
    std::map<Subset, Scored> sets;  ///< the allowed ones
    std::vector<double> chance;     ///< of each cause; all 0 when no set is allowed
    double nothing_listed = 0;
};

inline Posterior enumerate(const EvidenceModel& model, const Situation& situation) {
    Posterior result;
    result.chance.assign(model.prior.size(), 0);
    double sum = 0;
    for (Subset set = 0; set < Subset{1} << model.prior.size(); ++set) {
        if (!allowed(model, situation, set)) continue;
        result.sets[set].score = score(model, situation, set);
        sum += std::pow(10.0, result.sets[set].score / 10);
    }
    for (auto& [set, scored] : result.sets) {
        scored.chance = std::pow(10.0, scored.score / 10) / sum;
        if (set == 0) result.nothing_listed = scored.chance;
        for (std::uint32_t cause = 0; cause < model.prior.size(); ++cause)
            if (has(set, cause)) result.chance[cause] += scored.chance;
    }
    return result;
}

}  // namespace lidlift::oracle
