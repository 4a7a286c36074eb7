#include "engine/steadiness.hpp"

#include "engine/noisy_or.hpp"
#include "engine/tied_sets.hpp"
#include "engine/words.hpp"

#include <algorithm>
#include <cmath>
#include <numeric>
#include <tuple>

namespace lidlift {
namespace {

/// SplitMix64's finaliser: every bit of the result hangs on every bit of `key`. Steele, Lea & Flood, OOPSLA 2014.
std::uint64_t mixed(std::uint64_t key) {
    key += 0x9E3779B97F4A7C15U;
    key = (key ^ (key >> 30U)) * 0xBF58476D1CE4E5B9U;
    key = (key ^ (key >> 27U)) * 0x94D049BB133111EBU;
    return key ^ (key >> 31U);
}

/// What sort of number is moved; each has draws of its own.
enum class Strength : std::uint64_t { prior = 1, background, link, circumstance };

/// One number of one attempt has one key, however many other numbers there are.
double draw(std::uint64_t attempt, Strength strength, std::uint64_t first, std::uint64_t second = 0) {
    return normal_draw(mixed(mixed(mixed(attempt) ^ static_cast<std::uint64_t>(strength)) ^ first) ^ second);
}

double moved(double chance, double log_odds) {
    const double kept = with_finite_odds(chance);
    return with_finite_odds(1 / (1 + (1 - kept) / kept * std::exp(-log_odds)));
}

void move_background(Feature& feature, std::uint64_t attempt, std::uint64_t number, double spread) {
    // Two answers are one chance seen from both sides.
    if (feature.background.size() == 2) {
        feature.background[0] = moved(feature.background[0], spread * draw(attempt, Strength::background, number));
        feature.background[1] = 1 - feature.background[0];
        return;
    }
    for (std::size_t value = 0; value < feature.background.size(); ++value)
        feature.background[value] =
            moved(feature.background[value], spread * draw(attempt, Strength::background, number, value));
    const double sum = std::accumulate(feature.background.begin(), feature.background.end(), 0.0);
    for (double& chance : feature.background) chance /= sum;
}

/// Of each cause.
std::vector<double> chances(const EvidenceModel& model, const Situation& situation) {
    std::vector<NoisyOr> noisy_ors;
    noisy_ors.reserve(model.features.size());
    for (const Feature& feature : model.features) noisy_ors.emplace_back(model, feature);
    return TiedSets(model, noisy_ors, model.prior, situation).chance();
}

}  // namespace

double normal_draw(std::uint64_t key) {
    // Twelve draws of 16 bits: their sum is exact, so no platform can differ.
    std::uint64_t sum = 0;
    for (std::uint64_t word = 0; word < 3; ++word) {
        const std::uint64_t bits = mixed(key ^ mixed(word + 1));
        for (unsigned part = 0; part < 4; ++part) sum += (bits >> (16U * part)) & 0xFFFFU;
    }
    return (static_cast<double>(sum) + 6) / 65536 - 6;  // each draw stands in the middle of its interval
}

EvidenceModel jittered(const EvidenceModel& model, std::uint64_t attempt, double spread) {
    EvidenceModel result = model;
    if (spread == 0) return result;
    for (std::size_t cause = 0; cause < result.prior.size(); ++cause)
        result.prior[cause] = moved(result.prior[cause], spread * draw(attempt, Strength::prior, cause));
    for (std::size_t number = 0; number < result.features.size(); ++number) {
        Feature& feature = result.features[number];
        move_background(feature, attempt, number, spread);
        for (Feature::Link& link : feature.links) {
            const std::uint64_t which = (std::uint64_t{link.cause} << 32U) | link.value;
            link.chance = moved(link.chance, spread * draw(attempt, Strength::link, number, which));
        }
    }
    return result;
}

Situation jittered(const Situation& situation, std::uint64_t attempt, double spread) {
    Situation result = situation;
    const double decibans_of_one = 10 / std::log(10.0);
    for (std::size_t cause = 0; cause < result.prior_shift.size(); ++cause)
        if (result.prior_shift[cause] != 0)
            result.prior_shift[cause] += decibans_of_one * spread * draw(attempt, Strength::circumstance, cause);
    return result;
}

Steadiness steadiness(const EvidenceModel& model, const Situation& situation, std::uint32_t first, double spread, int tries) {
    Steadiness result;
    std::vector<int> times(model.prior.size(), 0);
    for (result.tries = 0; result.tries < tries; ++result.tries) {
        const auto attempt = static_cast<std::uint64_t>(result.tries) + 1;
        const std::vector<double> chance = chances(jittered(model, attempt, spread), jittered(situation, attempt, spread));
        const auto best = std::ranges::max_element(chance);
        const bool stays = *best <= chance[first];
        ++times[stays ? first : static_cast<std::size_t>(best - chance.begin())];
    }
    result.first_stays = times[first];
    for (std::uint32_t cause = 0; cause < times.size(); ++cause)
        if (cause != first && times[cause] > 0) result.instead.push_back({cause, times[cause]});
    std::ranges::stable_sort(result.instead, std::greater{}, &Steadiness::Instead::times);
    return result;
}

}  // namespace lidlift
