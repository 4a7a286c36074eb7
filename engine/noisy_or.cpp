#include "engine/noisy_or.hpp"

#include <algorithm>
#include <array>
#include <bit>
#include <numeric>

namespace lidlift {

NoisyOr::NoisyOr(const EvidenceModel& model, const Feature& feature) : model_(model), feature_(feature) {
    for (const Feature::Link& link : feature.links) {
        const double background = feature.background[link.value];
        Factor factor{.cause = link.cause, .value = link.value};
        if (link.chance >= background)
            factor.not_shown = (1 - link.chance) / (1 - background);
        else
            factor.held_back = link.chance / background;
        factors_.push_back(factor);
    }
    std::ranges::sort(
        factors_, [](const Factor& a, const Factor& b) { return std::pair(a.cause, a.value) < std::pair(b.cause, b.value); });
}

bool NoisyOr::speaks_of(std::span<const std::uint16_t> set) const {
    return std::ranges::any_of(
        set, [&](std::uint16_t cause) { return std::ranges::binary_search(factors_, cause, {}, &Factor::cause); });
}

std::vector<std::uint32_t> NoisyOr::causes() const {
    std::vector<std::uint32_t> result;
    for (const Factor& factor : factors_)
        if (result.empty() || result.back() != factor.cause) result.push_back(factor.cause);
    return result;
}

double NoisyOr::chance(AnswerSet values, std::span<const std::uint16_t> set, double error) const {
    std::array<double, most_answers> chances{};
    const std::span<double> each(chances.data(), value_count());
    all(set, each);
    return reported(values, each, error);
}

double NoisyOr::reported(AnswerSet values, std::span<const double> chances, double error) {
    if (values == all_answers(chances.size())) return 1;
    double total = 0;
    for (std::size_t value = 0; value < chances.size(); ++value)
        if ((values & answer_set(value)) != 0) total += chances[value];
    return total * (1 - error) + error * (std::popcount(values) - total) / static_cast<double>(chances.size() - 1);
}

std::vector<double> NoisyOr::all(std::span<const std::uint16_t> set) const {
    std::vector<double> result(value_count());
    all(set, result);
    return result;
}

void NoisyOr::all(std::span<const std::uint16_t> set, std::span<double> into) const {
    if (into.size() == 2) {
        into[0] = shown(0, set).chance;
        into[1] = 1 - into[0];
        return;
    }
    double linked_sum = 0;
    double unlinked_background = 0;
    AnswerSet linked = 0;
    for (std::size_t value = 0; value < into.size(); ++value) {
        const Shown this_value = shown(value, set);
        into[value] = this_value.linked ? this_value.chance : feature_.background[value];
        (this_value.linked ? linked_sum : unlinked_background) += into[value];
        if (this_value.linked) linked |= answer_set(value);
    }
    if (unlinked_background > 0) {
        const double remainder = std::max(least_remainder, 1 - linked_sum);
        for (std::size_t value = 0; value < into.size(); ++value)
            if ((linked & answer_set(value)) == 0) into[value] *= remainder / unlinked_background;
    }
    const double sum = std::accumulate(into.begin(), into.end(), 0.0);
    for (double& chance : into) chance /= sum;
}

NoisyOr::Shown NoisyOr::shown(std::size_t value, std::span<const std::uint16_t> set) const {
    double not_shown = 1 - feature_.background[value];
    double held_back = 1;
    bool linked = false;
    for (const std::uint16_t cause : set) {
        auto factor = std::ranges::lower_bound(factors_, cause, {}, &Factor::cause);
        while (factor != factors_.end() && factor->cause == cause && factor->value < value) ++factor;
        if (factor == factors_.end() || factor->cause != cause || factor->value != value) continue;
        not_shown *= factor->not_shown;
        held_back *= factor->held_back;
        linked = true;
    }
    return {std::clamp((1 - not_shown) * held_back, model_.lowest, model_.highest), linked};
}

}  // namespace lidlift
