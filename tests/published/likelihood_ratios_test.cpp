// Likelihood ratios: published bands and what they do to a chance.
// Status of a figure: read (in the source named), memory (source not at hand), computed (our arithmetic from the stated
// inputs).
#include "engine/weighing.hpp"
#include "engine/words.hpp"
#include "tests/catch.hpp"
#include "tests/engine/evidence_models.hpp"
#include "tests/near.hpp"

#include <array>
#include <cmath>
#include <string>
#include <utility>
#include <vector>

namespace published_likelihood_ratios_test {

using namespace lidlift;
using namespace lidlift::test;

namespace {

/// A cause of chance `prior` and a sign whose presence multiplies its odds by `ratio`.
EvidenceModel with_ratio(double prior, double ratio) {
    const double background = ratio > 1 ? 0.5 / ratio : 0.5;
    return one_test(prior, background * ratio, background);
}

/// Percentage points by which seeing the sign moves the chance.
double change(double prior, double ratio) { return 100 * (chance_after(with_ratio(prior, ratio), yes) - prior); }

}  // namespace

// Jaeschke, Guyatt & Sackett, JAMA 271 (1994) 389-391 and 703-707; read, in three independent reproductions:
// above 10 or below 0.1 large; 5-10 or 0.1-0.2 moderate; 2-5 or 0.2-0.5 small; 1-2 or 0.5-1 rarely important; 1 none.
TEST_CASE("Jaeschke 1994: the trainer's words stand on the edges of the bands", "[published]") {
    CHECK(odds_factor("slightly") == 2);       // from rarely important to small
    CHECK(odds_factor("moderately") == 5);     // from small to moderate
    CHECK(odds_factor("strongly") == 10);      // from moderate to large
    CHECK(odds_factor("very strongly") > 10);  // inside large
    CHECK(odds_factor("slightly against") == 0.5);
    CHECK(odds_factor("moderately against") == 0.2);
    CHECK(odds_factor("strongly against") == 0.1);
    CHECK(odds_factor("very strongly against") < 0.1);
    CHECK(weight_of(with_ratio(0.3, 1), yes) == near(0, 1e-12));
    CHECK(chance_after(with_ratio(0.3, 1), yes) == near(0.3, 1e-12));
}

// Computed: what each word makes of an even bet.
TEST_CASE("Jaeschke 1994: what each word makes of an even bet", "[published]") {
    struct Row {
        std::string word;
        double decibans;
        double percent;
    };
    const std::vector<Row> rows = {
        {"slightly", 3.0, 67}, {"moderately", 7.0, 83}, {"strongly", 10.0, 91}, {"very strongly", 15.0, 97}};
    for (const Row& row : rows) {
        CAPTURE(row.word);
        const double ratio = odds_factor(row.word).value();
        CHECK(weight_of(with_ratio(0.5, ratio), yes) == near(row.decibans, 0.05));
        CHECK(100 * chance_after(with_ratio(0.5, ratio), yes) == near(row.percent, 0.5));
        CHECK(100 * chance_after(with_ratio(0.5, 1 / ratio), yes) == near(100 - row.percent, 0.5));
    }
}

// McGee, "Simplifying likelihood ratios", J. Gen. Intern. Med. 17 (2002) 647-650, table 1; read. Its round figures hold near an
// even bet; they are a check by common sense and are never used by the engine.
TEST_CASE("McGee 2002: the round changes are right within seven points at an even bet", "[published]") {
    const std::vector<std::pair<double, double>> table = {{0.1, -45}, {0.2, -30}, {0.3, -25}, {0.4, -20}, {0.5, -15},
                                                          {1, 0},     {2, 15},    {3, 20},    {4, 25},    {5, 30},
                                                          {6, 35},    {8, 40},    {10, 45}};
    for (const auto& [ratio, points] : table) {
        CAPTURE(ratio);
        CHECK(change(0.5, ratio) == near(points, 7));
    }
    // At 40 % too for the ratios that the trainer's words use; the inverse ratios mirror them at 60 %.
    for (const auto& [ratio, points] : std::vector<std::pair<double, double>>{{2, 15}, {5, 30}, {10, 45}}) {
        CAPTURE(ratio);
        CHECK(change(0.4, ratio) == near(points, 7));
        CHECK(change(0.6, 1 / ratio) == near(-points, 7));
    }
    // Computed: elsewhere they are not, for instance a ratio of 10 at 60 %.
    CHECK(45 - change(0.6, 10) == near(11, 0.5));
}

// Computed: exact changes for pre-test chances of 10, 20 ... 90 %.
TEST_CASE("exact change of a chance by likelihood ratio and pre-test chance", "[published]") {
    const std::vector<std::pair<double, std::array<double, 9>>> table = {
        {2, {8.2, 13.3, 16.2, 17.1, 16.7, 15.0, 12.4, 8.9, 4.7}},
        {5, {25.7, 35.6, 38.2, 36.9, 33.3, 28.2, 22.1, 15.2, 7.8}},
        {10, {42.6, 51.4, 51.1, 47.0, 40.9, 33.8, 25.9, 17.6, 8.9}},
        {0.5, {-4.7, -8.9, -12.4, -15.0, -16.7, -17.1, -16.2, -13.3, -8.2}},
        {0.2, {-7.8, -15.2, -22.1, -28.2, -33.3, -36.9, -38.2, -35.6, -25.7}},
        {0.1, {-8.9, -17.6, -25.9, -33.8, -40.9, -47.0, -51.1, -51.4, -42.6}}};
    for (const auto& [ratio, row] : table) {
        for (std::size_t i = 0; i < row.size(); ++i) {
            const double prior = static_cast<double>(i + 1) / 10;
            CAPTURE(ratio, prior);
            CHECK(change(prior, ratio) == near(row[i], 0.0501));
            CHECK(100 * (probability(decibans(prior) + 10 * std::log10(ratio)) - prior) == near(row[i], 0.0501));
        }
    }
}

}  // namespace published_likelihood_ratios_test
