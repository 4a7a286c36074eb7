// The trainer's words and their numbers, and decibans.
#include "engine/words.hpp"

#include "tests/catch.hpp"
#include "tests/near.hpp"

#include <algorithm>
#include <cmath>
#include <limits>
#include <string>
#include <utility>
#include <vector>

namespace engine_words_test {

using namespace lidlift;
using namespace lidlift::test;

namespace {

using Table = std::vector<std::pair<std::string, double>>;

const std::vector<std::string> not_words = {
    "", " ", "Usually", "usually ", " usually", "us", "never", "strongly  against", " against", "against", "0.5", "usually\n"};

template <class LookUp>
void check_table(const Table& expected, const LookUp& look_up, const std::vector<std::string>& words) {
    REQUIRE(words.size() == expected.size());
    for (std::size_t i = 0; i < expected.size(); ++i) {
        CAPTURE(expected[i].first);
        CHECK(words[i] == expected[i].first);
        REQUIRE(look_up(words[i]).has_value());
        CHECK(*look_up(words[i]) == near(expected[i].second, 1e-12));
    }
    for (const std::string& word : not_words) {
        CAPTURE(word);
        if (std::find(words.begin(), words.end(), word) == words.end()) CHECK_FALSE(look_up(word).has_value());
    }
}

}  // namespace

TEST_CASE("how often something is seen", "[words]") {
    check_table({{"practically never", 0.005},
                 {"almost never", 0.025},
                 {"sometimes", 0.2},
                 {"about half the time", 0.5},
                 {"usually", 0.8},
                 {"almost always", 0.985}},
                frequency, frequency_words());
    CHECK(highest_chance == 0.985);
}

TEST_CASE("how common a cause is", "[words]") {
    check_table({{"very common", 0.2}, {"common", 0.1}, {"occasional", 0.05}, {"uncommon", 0.02}, {"rare", 0.005}}, commonness,
                commonness_words());
}

TEST_CASE("how common a cause is, in decibans", "[words]") {
    const Table decibans_of = {
        {"very common", -6.02}, {"common", -9.54}, {"occasional", -12.79}, {"uncommon", -16.90}, {"rare", -22.99}};
    for (const auto& [word, expected] : decibans_of) {
        CAPTURE(word);
        CHECK(decibans(commonness(word).value()) == near(expected, 0.005));
    }
}

TEST_CASE("what seeing a thing does to the odds", "[words]") {
    const double very_strongly = 31.622776601683793;
    check_table({{"slightly", 2},
                 {"moderately", 5},
                 {"strongly", 10},
                 {"very strongly", very_strongly},
                 {"slightly against", 0.5},
                 {"moderately against", 0.2},
                 {"strongly against", 0.1},
                 {"very strongly against", 1 / very_strongly}},
                odds_factor, odds_words());
}

TEST_CASE("words of one table are not words of another", "[words]") {
    CHECK_FALSE(frequency("common").has_value());
    CHECK_FALSE(frequency("strongly").has_value());
    CHECK_FALSE(commonness("usually").has_value());
    CHECK_FALSE(odds_factor("sometimes").has_value());
}

TEST_CASE("decibans and probability undo each other", "[words]") {
    for (const double chance : {0.0001, 0.005, 0.025, 0.2, 0.45, 0.5, 0.8, 0.985, 0.9999}) {
        CAPTURE(chance);
        CHECK(probability(decibans(chance)) == near(chance, 1e-12));
        CHECK(decibans(1 - chance) == near(-decibans(chance), 1e-9));
    }
    CHECK(decibans(0.5) == 0);
    CHECK(probability(0) == 0.5);
}

TEST_CASE("certainty is endless in decibans", "[words]") {
    const double endless = std::numeric_limits<double>::infinity();
    CHECK(decibans(0) == -endless);
    CHECK(decibans(1) == endless);
    CHECK(probability(-endless) == 0);
    CHECK(probability(endless) == 1);
    CHECK(probability(-4000) == 0);
    CHECK(probability(4000) == 1);
}

TEST_CASE("the word for one line of evidence: edges belong to the stronger word", "[words]") {
    const std::vector<std::pair<double, std::string>> edges = {
        {2, "slightly"}, {5, "moderately"}, {9, "strongly"}, {13, "very strongly"}};
    std::string weaker = "barely";
    for (const auto& [edge, word] : edges) {
        CAPTURE(edge);
        CHECK(weight_words(edge) == word);
        CHECK(weight_words(-edge) == word);
        CHECK(weight_words(std::nextafter(edge, 0)) == weaker);
        CHECK(weight_words(-std::nextafter(edge, 0)) == weaker);
        weaker = word;
    }
    CHECK(weight_words(0) == "barely");
    CHECK(weight_words(100) == "very strongly");
}

TEST_CASE("a line written with an odds word is described by the same word", "[words]") {
    for (const std::string word : {"slightly", "moderately", "strongly", "very strongly"}) {
        CAPTURE(word);
        CHECK(weight_words(10 * std::log10(odds_factor(word).value())) == word);
        CHECK(weight_words(10 * std::log10(odds_factor(word + " against").value())) == word);
    }
}

}  // namespace engine_words_test
