// How well stated chances came true, and what a few counted cases say of a share or of a likelihood ratio. Plain statistics;
// nothing here knows rules or calls.
#pragma once

#include <cstddef>
#include <optional>
#include <span>
#include <vector>

namespace lidlift {

/// Lower and upper end of a 95 % interval.
struct Interval {
    double low = 0;
    double high = 1;
    [[nodiscard]] bool holds(double value) const { return low <= value && value <= high; }
};

/// Standard normal quantile of a two-sided 95 % interval, as it is rounded in the published formulas.
inline constexpr double two_sided_95 = 1.96;

/// Wilson's score interval for `hits` of `count`; 0 to 1 where nothing was counted.
[[nodiscard]] Interval wilson(std::size_t hits, std::size_t count);

/// A link's two by two table: a cause there and sign seen, b cause not there and sign seen, c there and not seen, d neither.
struct TwoByTwo {
    double a = 0, b = 0, c = 0, d = 0;
};

struct RatioEstimate {
    double ratio = 1;
    Interval interval;
};

/// Likelihood ratios of seeing and of not seeing the sign, by the log method of Simel, Samsa & Matchar, J. Clin. Epidemiol. 44
/// (1991) 763-770 (formula as given in an equation sheet that was read). Where a cell is empty, 0.5 is added to all four.
struct LikelihoodRatios {
    RatioEstimate seen, not_seen;
    bool corrected = false;
};
[[nodiscard]] LikelihoodRatios likelihood_ratios(TwoByTwo table);

/// One stated chance, and what was the case.
struct Forecast {
    double chance = 0;  ///< 0 to 1
    bool came_true = false;
};

/// Murphy's parts of the Brier score (J. Appl. Meteorol. 12, 1973), the forecasts binned by `edges`: score = reliability -
/// resolution + uncertainty + within. `within` is 0 where each bin holds one value only.
struct Brier {
    double score = 0;
    double reliability = 0;
    double resolution = 0;
    double uncertainty = 0;
    double within = 0;  ///< what differences inside the bins add, or take away
};

/// Bins: below the first of the rising `edges`, from each edge to the next, and from the last on. Without forecasts all parts
/// are 0.
[[nodiscard]] Brier brier(std::span<const Forecast> forecasts, std::span<const double> edges);
/// With one bin for each different chance.
[[nodiscard]] Brier brier(std::span<const Forecast> forecasts);

/// What forecasts of one bin came to.
struct Bin {
    std::size_t count = 0;
    std::size_t came_true = 0;
    double mean_chance = 0;
};
[[nodiscard]] std::vector<Bin> binned(std::span<const Forecast> forecasts, std::span<const double> edges);

/// Logistic recalibration: log odds of the truth = shift + slope * log odds as stated. Slope below 1: the stated chances are
/// too extreme. None where all came true, or none, or where the stated chances do not differ.
struct Recalibration {
    double shift = 0;
    double slope = 1;
};
[[nodiscard]] std::optional<Recalibration> recalibrate(std::span<const Forecast> forecasts);

/// A share that was believed to be `word`, after `hits` of `count`: the belief counts like `equivalent` cases (a Beta prior).
[[nodiscard]] double updated_share(double word, std::size_t hits, std::size_t count, double equivalent);

/// Equivalent cases of a link's word and of a cause's prior: design choices of the method.
inline constexpr double cases_behind_a_link = 10;
inline constexpr double cases_behind_a_prior = 20;

}  // namespace lidlift
