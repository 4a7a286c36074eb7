// The words for a chance: Intelligence Community Directive 203 (US), read. Almost no chance 1-5 %, very unlikely 5-20, unlikely
// 20-45, roughly even chance 45-55, likely 55-80, very likely 80-95, almost certain 95-99. The lower edge belongs to the word;
// what lies beyond 1-99 % is ours.
#include "engine/words.hpp"
#include "tests/catch.hpp"
#include "tests/near.hpp"

#include <cmath>
#include <string>
#include <utility>
#include <vector>

namespace published_likelihood_words_test {

using namespace lidlift;
using namespace lidlift::test;

namespace {

struct Band {
    double from;
    std::string words;
};

const std::vector<Band>& bands() {
    static const std::vector<Band> rows = {{0.00, "practically ruled out (under 1 %)"},
                                           {0.01, "almost no chance (1-5 %)"},
                                           {0.05, "very unlikely (5-20 %)"},
                                           {0.20, "unlikely (20-45 %)"},
                                           {0.45, "roughly even chance (45-55 %)"},
                                           {0.55, "likely (55-80 %)"},
                                           {0.80, "very likely (80-95 %)"},
                                           {0.95, "almost certain (95-99 %)"},
                                           {0.99, "practically certain (over 99 %)"}};
    return rows;
}

}  // namespace

TEST_CASE("ICD 203: the lower edge belongs to the word, all below it to the word before", "[published]") {
    for (std::size_t i = 0; i < bands().size(); ++i) {
        CAPTURE(bands()[i].from);
        CHECK(likelihood_words(bands()[i].from) == bands()[i].words);
        if (i > 0) CHECK(likelihood_words(std::nextafter(bands()[i].from, 0)) == bands()[i - 1].words);
        const double to = i + 1 < bands().size() ? bands()[i + 1].from : 1;
        CHECK(likelihood_words((bands()[i].from + to) / 2) == bands()[i].words);
    }
    CHECK(likelihood_words(1) == "practically certain (over 99 %)");
}

// Computed: the edges in decibans of odds, symmetrical about even.
TEST_CASE("ICD 203: the edges in decibans", "[published]") {
    const std::vector<std::pair<double, double>> edges = {{0.05, -12.8}, {0.20, -6.0}, {0.45, -0.9},
                                                          {0.55, 0.9},   {0.80, 6.0},  {0.95, 12.8}};
    for (const auto& [chance, db] : edges) {
        CAPTURE(chance);
        CHECK(decibans(chance) == near(db, 0.05));
    }
}

}  // namespace published_likelihood_words_test
