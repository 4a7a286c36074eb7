#include "engine/review/strengths.hpp"

#include "engine/noisy_or.hpp"
#include "engine/quantity.hpp"

#include <algorithm>
#include <array>
#include <bit>
#include <cmath>

namespace lidlift {

double FeatureStrength::most_for() const { return std::max(0.0, *std::ranges::max_element(weights)); }
double FeatureStrength::most_against() const { return std::min(0.0, *std::ranges::min_element(weights)); }

std::vector<std::vector<FeatureStrength>> strengths_of(const Ranker& ranker) {
    const EvidenceModel& model = ranker.model();
    const double error = ranker.rule_base().weighing.wrong_when_sure;
    std::vector<std::vector<FeatureStrength>> result(ranker.rule_base().causes.size());
    for (std::uint32_t f = 0; f < model.features.size(); ++f) {
        const Feature& feature = model.features[f];
        const NoisyOr noisy_or(model, feature);
        for (const std::uint32_t cause : noisy_or.causes()) {
            const std::array<std::uint16_t, 1> alone = {static_cast<std::uint16_t>(cause)};
            FeatureStrength strength{f, feature.group, {}};
            for (std::size_t value = 0; value < feature.background.size(); ++value)
                strength.weights.push_back(10 * std::log10(noisy_or.chance(answer_set(value), alone, error) /
                                                           noisy_or.chance(answer_set(value), {}, error)));
            result[cause].push_back(std::move(strength));
        }
    }
    return result;
}

std::string decibans_to_text(double decibans) { return number_to_text(std::round(10 * decibans) / 10) + " dB"; }

std::uint32_t feature_of(const Ranker& ranker, const Observable& when) {
    if (const auto* concluded = std::get_if<Concluded>(&when)) return *ranker.features().feature_of(concluded->conclusion);
    const Says& says = std::get<Says>(when);
    const auto& features = ranker.features().features_of(says.sign);
    const auto found = std::ranges::find_if(features, [&](const RuleFeatures::SignFeature& feature) {
        return feature.answer && answer_set(*feature.answer) == says.answers;
    });
    return found == features.end() ? features.front().feature : found->feature;
}

Condition shows(const Ranker& ranker, const Observable& when, std::size_t value) {
    if (const auto* concluded = std::get_if<Concluded>(&when)) {
        const Condition holds{*concluded};
        return value == 0 ? holds : Condition{Negation{{holds}}};
    }
    const Says& says = std::get<Says>(when);
    if (ranker.rule_base().signs[says.sign].sort != SignSort::several) return {Says{says.sign, answer_set(value)}};
    const Condition holds{says};
    return value == 0 ? holds : Condition{Negation{{holds}}};
}

}  // namespace lidlift
