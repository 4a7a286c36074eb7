// Short ways to write a model for the weighing, and to read its answer.
#pragma once

#include "engine/weighing.hpp"
#include "tests/engine/yes_no.hpp"

#include <cstdint>
#include <stdexcept>
#include <utility>
#include <vector>

namespace lidlift::test {

struct Shows {
    std::uint32_t cause;
    double chance;
};

/// A yes/no sign: how often it is seen anyway, and how often under a cause.
inline Feature sign(double background, const std::vector<Shows>& causes = {}, int group = -1) {
    Feature feature{{background, 1 - background}, {}, group};
    for (const Shows& shows : causes) feature.links.push_back({shows.cause, 0, shows.chance});
    return feature;
}

inline EvidenceModel model_of(std::vector<double> priors, std::vector<Feature> features) {
    EvidenceModel model;
    model.prior = std::move(priors);
    model.features = std::move(features);
    return model;
}

/// Without the clamp, for published networks whose chances lie outside it.
inline EvidenceModel unclamped(std::vector<double> priors, std::vector<Feature> features) {
    EvidenceModel model = model_of(std::move(priors), std::move(features));
    model.lowest = 0;
    model.highest = 1;
    return model;
}

inline Situation found(std::vector<Finding> findings) {
    Situation situation;
    situation.findings = std::move(findings);
    return situation;
}

/// The causes of a set as bits.
inline std::uint32_t bits(const CauseSet& set) {
    std::uint32_t result = 0;
    for (const auto cause : set.causes()) result |= std::uint32_t{1} << cause;
    return result;
}

inline const CauseSet& the_set(const Weighed& weighed, const std::vector<std::uint32_t>& causes) {
    std::uint32_t wanted = 0;
    for (const std::uint32_t cause : causes) wanted |= std::uint32_t{1} << cause;
    for (const CauseSet& set : weighed.sets)
        if (bits(set) == wanted) return set;
    throw std::out_of_range("no such set");
}

inline std::vector<double> set_chances(const Weighed& weighed) {
    std::vector<double> chances;
    for (const CauseSet& set : weighed.sets) chances.push_back(set.chance);
    return chances;
}

/// One cause and one yes/no sign of it: what a textbook calls a test with a sensitivity (`chance`) and a false-positive rate
/// (`background`).
inline EvidenceModel one_test(double prior, double chance, double background) {
    return unclamped({prior}, {sign(background, {{0, chance}})});
}

/// Chance of that one cause after `answer`.
inline double chance_after(const EvidenceModel& model, AnswerSet answer) {
    return weigh(model, found({{0, answer, 0}})).chance[0];
}

/// Decibans that `answer` adds for that one cause.
inline double weight_of(const EvidenceModel& model, AnswerSet answer, double error = 0) {
    return balance_of(model, found({{0, answer, error}}), 0).lines.at(0);
}

}  // namespace lidlift::test
