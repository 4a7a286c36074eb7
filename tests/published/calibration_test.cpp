// Counting what came true, against the check values of the method's sections 2.9, 2.10 and 5.2. The tables there are computed
// from published formulas unless a row says otherwise.
#include "engine/calibration.hpp"

#include "tests/catch.hpp"
#include "tests/near.hpp"

#include <cmath>
#include <random>
#include <vector>

namespace published_calibration_test {

using namespace lidlift;
using lidlift::test::near;

TEST_CASE("Wilson's interval has the computed ends", "[published][calibration]") {
    struct Row {
        std::size_t hits, count;
        double low, high;
    };
    for (const Row& row :
         {Row{8, 10, .4902, .9433}, Row{0, 10, 0, .2775}, Row{20, 25, .6087, .9114}, Row{18, 20, .6990, .9721}}) {
        CAPTURE(row.hits, row.count);
        const Interval interval = wilson(row.hits, row.count);
        CHECK(interval.low == near(row.low, 5e-5));
        CHECK(interval.high == near(row.high, 5e-5));
    }
    CHECK(wilson(0, 10).low == 0);
    CHECK(wilson(10, 10).high == 1);
    CHECK(wilson(0, 0).low == 0);
    CHECK(wilson(0, 0).high == 1);
}

TEST_CASE("likelihood ratios have the computed intervals", "[published][calibration]") {
    // First row: counts of the ferritin table (ktclearinghouse.ca diagnosis worksheet, read); ratios and intervals computed.
    struct Row {
        TwoByTwo table;
        double seen, seen_low, seen_high, not_seen, not_low, not_high;
        bool corrected;
    };
    for (const Row& row : {Row{{731, 270, 78, 1500}, 5.9235, 5.2954, 6.6261, .11377, .09205, .14062, false},
                           Row{{9, 3, 3, 27}, 7.5, 2.4419, 23.0351, .2778, .1035, .7455, false},
                           Row{{8, 0, 2, 30}, 47.9091, 3.0082, 763.02, .2310, .0776, .6875, true}}) {
        CAPTURE(row.table.a);
        const LikelihoodRatios ratios = likelihood_ratios(row.table);
        CHECK(ratios.corrected == row.corrected);
        const auto close = [](double printed) { return near(printed, 6e-4 * printed); };
        CHECK(ratios.seen.ratio == close(row.seen));
        CHECK(ratios.seen.interval.low == close(row.seen_low));
        CHECK(ratios.seen.interval.high == close(row.seen_high));
        CHECK(ratios.not_seen.ratio == close(row.not_seen));
        CHECK(ratios.not_seen.interval.low == close(row.not_low));
        CHECK(ratios.not_seen.interval.high == close(row.not_high));
    }
    // A page of a statistics package prints the root with plus signs throughout; that would give a wider interval.
    const double wrong = std::exp(std::log(7.5) - 1.96 * std::sqrt(1.0 / 9 + 1.0 / 12 + 1.0 / 3 + 1.0 / 30));
    CHECK(std::abs(likelihood_ratios({9, 3, 3, 27}).seen.interval.low - wrong) > 0.1);
}

TEST_CASE("the Brier score falls into its parts", "[published][calibration]") {
    // Murphy 1973; data of the method's section 2.9, results computed.
    const double f[] = {.1, .1, .1, .1, .3, .3, .3, .7, .7, .7, .9, .9};
    const bool o[] = {false, false, false, true, false, true, false, true, true, false, true, true};
    std::vector<Forecast> forecasts;
    for (std::size_t i = 0; i < std::size(f); ++i) forecasts.push_back({f[i], o[i]});
    const Brier parts = brier(forecasts);
    CHECK(parts.score == near(.183333, 5e-7));
    CHECK(parts.reliability == near(.009722, 5e-7));
    CHECK(parts.resolution == near(.076389, 5e-7));
    CHECK(parts.uncertainty == near(.25, 1e-12));
    CHECK(parts.within == near(0, 1e-12));
    CHECK(parts.reliability - parts.resolution + parts.uncertainty == near(.183333, 5e-7));
    const double edges[] = {.5};
    const Brier two_bins = brier(forecasts, edges);
    CHECK(two_bins.score == near(parts.score, 1e-12));
    CHECK(two_bins.reliability - two_bins.resolution + two_bins.uncertainty + two_bins.within == near(parts.score, 1e-12));
    CHECK(std::abs(two_bins.within) > 1e-3);
    CHECK(brier({}).score == 0);
}

TEST_CASE("a word's share moves with what was counted", "[published][calibration]") {
    CHECK(updated_share(.8, 9, 10, cases_behind_a_link) == near(.85, 1e-12));
    CHECK(updated_share(.8, 2, 10, cases_behind_a_link) == near(.50, 1e-12));
    CHECK(updated_share(.2, 12, 20, cases_behind_a_link) == near(.4667, 5e-5));
    CHECK(updated_share(.025, 3, 20, cases_behind_a_link) == near(.1083, 5e-5));
    CHECK(updated_share(.05, 4, 20, cases_behind_a_prior) == near(.125, 1e-12));
}

TEST_CASE("recalibration finds the shift and slope that spoilt the chances", "[calibration]") {
    std::mt19937 random(11);
    std::vector<Forecast> forecasts;
    for (int i = 0; i < 40'000; ++i) {
        const double x = std::normal_distribution<double>(0, 1.5)(random);
        const double truth = 1 / (1 + std::exp(-(-0.4 + 0.7 * x)));
        forecasts.push_back({1 / (1 + std::exp(-x)), std::bernoulli_distribution(truth)(random)});
    }
    const auto fit = recalibrate(forecasts);
    REQUIRE(fit);
    CHECK(fit->shift == near(-0.4, 0.05));
    CHECK(fit->slope == near(0.7, 0.05));
    // Honest chances need no change.
    for (Forecast& forecast : forecasts) forecast.came_true = std::bernoulli_distribution(forecast.chance)(random);
    const auto honest = recalibrate(forecasts);
    REQUIRE(honest);
    CHECK(honest->shift == near(0, 0.05));
    CHECK(honest->slope == near(1, 0.05));
}

TEST_CASE("recalibration declines what has no answer", "[calibration]") {
    CHECK_FALSE(recalibrate({}));
    const std::vector<Forecast> all_true = {{.2, true}, {.7, true}};
    CHECK_FALSE(recalibrate(all_true));
    const std::vector<Forecast> one_value = {{.2, true}, {.2, false}};
    CHECK_FALSE(recalibrate(one_value));
    const std::vector<Forecast> parted = {{.2, false}, {.3, false}, {.7, true}, {.8, true}};
    CHECK_FALSE(recalibrate(parted));
}

}  // namespace published_calibration_test
