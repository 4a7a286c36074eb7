// Random small models and situations for the weighing, the same on every machine for the same seed.
#pragma once

#include "engine/weighing.hpp"

#include <array>
#include <cstddef>
#include <cstdint>
#include <random>
#include <utility>
#include <vector>

namespace lidlift::test {

class Dice {
public:
    explicit Dice(std::uint64_t seed) : engine_(seed) {}

    /// In [0, 1).
    [[nodiscard]] double share() { return static_cast<double>(engine_() >> 11) * 0x1.0p-53; }
    [[nodiscard]] double between(double low, double high) { return low + (high - low) * share(); }
    /// From `low` to `high`, both included.
    [[nodiscard]] std::uint32_t whole(std::uint32_t low, std::uint32_t high) {
        return low + static_cast<std::uint32_t>(engine_() % (high - low + 1U));
    }
    [[nodiscard]] bool one_in(std::uint32_t times) { return whole(1, times) == 1; }
    template <std::size_t count>
    [[nodiscard]] double of(const std::array<double, count>& choices) {
        return choices[whole(0, static_cast<std::uint32_t>(count) - 1)];
    }
    template <class T>
    void shuffle(std::vector<T>& list) {
        for (std::size_t i = list.size(); i > 1; --i) std::swap(list[i - 1], list[whole(0, static_cast<std::uint32_t>(i) - 1)]);
    }

private:
    std::mt19937_64 engine_;
};

inline constexpr std::array<double, 6> frequencies = {0.005, 0.025, 0.2, 0.5, 0.8, 0.985};

/// What a random model may hold besides causes, signs and links.
struct Extras {
    std::uint32_t most_causes = 10;
    std::uint32_t most_features = 6;
    std::uint32_t most_values = 5;
    std::uint32_t one_link_in = 3;  ///< of the possible ones
    bool groups = true;
    bool apart = true;   ///< never_together and alone
    bool shrink = true;  ///< sometimes another shrink than 1
};

inline Feature random_feature(Dice& dice, std::uint32_t causes, const Extras& extras) {
    Feature feature;
    const std::uint32_t values = dice.one_in(2) ? 2 : dice.whole(2, extras.most_values);
    double sum = 0;
    for (std::uint32_t value = 0; value < values; ++value) {
        feature.background.push_back(dice.between(0.005, 1));
        sum += feature.background.back();
    }
    for (double& chance : feature.background) chance /= sum;
    const std::uint32_t links_may_speak_of = values == 2 ? 1 : values;
    for (std::uint32_t cause = 0; cause < causes; ++cause)
        for (std::uint32_t value = 0; value < links_may_speak_of; ++value)
            if (dice.one_in(extras.one_link_in))
                feature.links.push_back({cause, value, dice.one_in(2) ? dice.of(frequencies) : dice.between(0.001, 0.999)});
    if (extras.groups && dice.one_in(2)) feature.group = static_cast<int>(dice.whole(0, 1));
    return feature;
}

inline EvidenceModel random_model(Dice& dice, const Extras& extras = {}) {
    EvidenceModel model;
    const std::uint32_t causes = dice.whole(1, extras.most_causes);
    for (std::uint32_t cause = 0; cause < causes; ++cause) model.prior.push_back(dice.between(0.005, 0.4));
    const std::uint32_t features = dice.whole(1, extras.most_features);
    for (std::uint32_t i = 0; i < features; ++i) model.features.push_back(random_feature(dice, causes, extras));
    if (extras.apart && causes > 1) {
        while (dice.one_in(2)) {
            const std::uint32_t first = dice.whole(0, causes - 2);
            model.never_together.emplace_back(first, dice.whole(first + 1, causes - 1));
        }
        if (dice.one_in(4)) model.alone.push_back(dice.whole(0, causes - 1));
    }
    model.same_observation_counts = dice.of(std::array{0.0, 0.3, 0.3, 1.0});
    if (extras.shrink) model.shrink = dice.of(std::array{1.0, 1.0, 0.7});
    if (dice.one_in(4)) {
        model.lowest = 0;
        model.highest = 1;
    }
    return model;
}

/// Some of the values of a feature, at least one of them.
inline AnswerSet random_values(Dice& dice, const Feature& feature) {
    const auto count = static_cast<std::uint32_t>(feature.background.size());
    if (count == 2) return answer_set(dice.whole(0, 1));
    return dice.whole(1, (1U << count) - 1);
}

/// Findings for about three in four features, in any order, some of them unsure.
inline std::vector<Finding> random_findings(Dice& dice, const EvidenceModel& model) {
    std::vector<Finding> findings;
    for (std::uint32_t feature = 0; feature < model.features.size(); ++feature)
        if (!dice.one_in(4))
            findings.push_back(
                {feature, random_values(dice, model.features[feature]), dice.of(std::array{0.0, 0.0, 0.02, 0.1, 0.25})});
    dice.shuffle(findings);
    return findings;
}

/// Findings, and now and then shifted priors, causes ruled out and causes that are certain.
inline Situation random_situation(Dice& dice, const EvidenceModel& model) {
    Situation situation;
    situation.findings = random_findings(dice, model);
    const std::size_t causes = model.prior.size();
    if (dice.one_in(2))
        for (std::size_t cause = 0; cause < causes; ++cause)
            situation.prior_shift.push_back(dice.one_in(2) ? 0 : dice.between(-15, 15));
    if (dice.one_in(3))
        for (std::size_t cause = 0; cause < causes; ++cause) situation.ruled_out.push_back(dice.one_in(4));
    if (dice.one_in(3))
        for (std::size_t cause = 0; cause < causes; ++cause) situation.certain.push_back(dice.one_in(5));
    return situation;
}

}  // namespace lidlift::test
