#include "engine/calibration.hpp"

#include "engine/words.hpp"

#include <algorithm>
#include <cmath>

namespace lidlift {
namespace {

RatioEstimate ratio_of(double with_cause, double all_with, double without, double all_without) {
    const double ratio = (with_cause / all_with) / (without / all_without);
    const double spread = two_sided_95 * std::sqrt((all_with - with_cause) / (with_cause * all_with) +
                                                   (all_without - without) / (without * all_without));
    return {ratio, {ratio * std::exp(-spread), ratio * std::exp(spread)}};
}

double square(double x) { return x * x; }

double log_odds(double chance) {
    const double bounded = with_finite_odds(chance);
    return std::log(bounded / (1 - bounded));
}

}  // namespace

Interval wilson(std::size_t hits, std::size_t count) {
    if (count == 0) return {};
    const auto n = static_cast<double>(count);
    const double share = static_cast<double>(hits) / n;
    const double z2 = square(two_sided_95);
    const double middle = (share + z2 / (2 * n)) / (1 + z2 / n);
    const double half = two_sided_95 / (1 + z2 / n) * std::sqrt(share * (1 - share) / n + z2 / (4 * n * n));
    // None or all of them: the interval begins or ends exactly there.
    return {hits == 0 ? 0 : middle - half, hits == count ? 1 : middle + half};
}

LikelihoodRatios likelihood_ratios(TwoByTwo table) {
    LikelihoodRatios result;
    auto& [a, b, c, d] = table;
    result.corrected = std::min({a, b, c, d}) <= 0;
    if (result.corrected)
        for (double* cell : {&a, &b, &c, &d}) *cell += 0.5;
    result.seen = ratio_of(a, a + c, b, b + d);
    result.not_seen = ratio_of(c, a + c, d, b + d);
    return result;
}

std::vector<Bin> binned(std::span<const Forecast> forecasts, std::span<const double> edges) {
    std::vector<Bin> bins(edges.size() + 1);
    for (const Forecast& forecast : forecasts) {
        const auto bin =
            static_cast<std::size_t>(std::upper_bound(edges.begin(), edges.end(), forecast.chance) - edges.begin());
        ++bins[bin].count;
        bins[bin].came_true += forecast.came_true ? 1 : 0;
        bins[bin].mean_chance += forecast.chance;
    }
    for (Bin& bin : bins)
        if (bin.count > 0) bin.mean_chance /= static_cast<double>(bin.count);
    return bins;
}

Brier brier(std::span<const Forecast> forecasts, std::span<const double> edges) {
    Brier result;
    if (forecasts.empty()) return result;
    const auto n = static_cast<double>(forecasts.size());
    double true_ones = 0;
    for (const Forecast& forecast : forecasts) {
        result.score += square(forecast.chance - (forecast.came_true ? 1 : 0)) / n;
        true_ones += forecast.came_true ? 1 : 0;
    }
    const double base = true_ones / n;
    result.uncertainty = base * (1 - base);
    for (const Bin& bin : binned(forecasts, edges)) {
        if (bin.count == 0) continue;
        const double weight = static_cast<double>(bin.count) / n;
        const double share = static_cast<double>(bin.came_true) / static_cast<double>(bin.count);
        result.reliability += weight * square(bin.mean_chance - share);
        result.resolution += weight * square(share - base);
    }
    result.within = result.score - (result.reliability - result.resolution + result.uncertainty);
    return result;
}

Brier brier(std::span<const Forecast> forecasts) {
    std::vector<double> edges;
    for (const Forecast& forecast : forecasts) edges.push_back(forecast.chance);
    std::ranges::sort(edges);
    edges.erase(std::unique(edges.begin(), edges.end()), edges.end());
    return brier(forecasts, edges);
}

std::optional<Recalibration> recalibrate(std::span<const Forecast> forecasts) {
    if (forecasts.empty()) return std::nullopt;
    const auto is_true = [](const Forecast& forecast) { return forecast.came_true; };
    if (std::ranges::all_of(forecasts, is_true) || std::ranges::none_of(forecasts, is_true)) return std::nullopt;
    const double first = forecasts.front().chance;
    if (std::ranges::all_of(forecasts, [&](const Forecast& f) { return f.chance == first; })) return std::nullopt;
    // Newton's method on the log likelihood, which is concave; halved steps keep it from leaping.
    const auto likelihood = [&](const Recalibration& at) {
        double sum = 0;
        for (const Forecast& forecast : forecasts) {
            const double x = at.shift + at.slope * log_odds(forecast.chance);
            // log(1 / (1 + e^-x)), written so that nothing overflows
            const double log_true = x > 0 ? -std::log1p(std::exp(-x)) : x - std::log1p(std::exp(x));
            sum += forecast.came_true ? log_true : log_true - x;
        }
        return sum;
    };
    Recalibration at;
    constexpr int most_rounds = 100;
    constexpr double steepest = 100;  // chances that part the true from the false have no finite slope
    for (int round = 0; round < most_rounds; ++round) {
        double g0 = 0, g1 = 0, h00 = 0, h01 = 0, h11 = 0;
        for (const Forecast& forecast : forecasts) {
            const double x = log_odds(forecast.chance);
            const double p = 1 / (1 + std::exp(-(at.shift + at.slope * x)));
            const double error = (forecast.came_true ? 1 : 0) - p;
            g0 += error;
            g1 += error * x;
            h00 += p * (1 - p);
            h01 += p * (1 - p) * x;
            h11 += p * (1 - p) * x * x;
        }
        const double determinant = h00 * h11 - h01 * h01;
        if (!(determinant > 1e-12)) return std::nullopt;
        double step0 = (h11 * g0 - h01 * g1) / determinant;
        double step1 = (h00 * g1 - h01 * g0) / determinant;
        const double before = likelihood(at);
        while (likelihood({at.shift + step0, at.slope + step1}) < before && std::abs(step0) + std::abs(step1) > 1e-12) {
            step0 /= 2;
            step1 /= 2;
        }
        at.shift += step0;
        at.slope += step1;
        if (std::abs(at.slope) > steepest) return std::nullopt;
        if (std::abs(step0) + std::abs(step1) < 1e-10) break;
    }
    return at;
}

double updated_share(double word, std::size_t hits, std::size_t count, double equivalent) {
    return (equivalent * word + static_cast<double>(hits)) / (equivalent + static_cast<double>(count));
}

}  // namespace lidlift
