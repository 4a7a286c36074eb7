// The weighing on small models whose answers were worked out by hand: the method's worked example, its table of weights, and
// each part of the model alone.
#include "engine/weighing.hpp"

#include "engine/words.hpp"
#include "tests/catch.hpp"
#include "tests/engine/evidence_models.hpp"
#include "tests/near.hpp"

#include <array>
#include <bit>
#include <cmath>
#include <numeric>
#include <string>
#include <utility>
#include <vector>

namespace engine_weighing_test {

using namespace lidlift;
using namespace lidlift::test;

namespace {

constexpr std::uint32_t A = 0;
constexpr std::uint32_t B = 1;
constexpr std::uint32_t D = 2;

constexpr std::uint32_t s1 = 0;
constexpr std::uint32_t s2 = 1;
constexpr std::uint32_t s3 = 2;
constexpr std::uint32_t s4 = 3;

/// The worked example of the method: three causes, four signs.
EvidenceModel worked_example() {
    return model_of({0.20, 0.10, 0.05}, {sign(0.025, {{A, 0.80}, {B, 0.50}}), sign(0.025, {{A, 0.20}}),
                                         sign(0.20, {{B, 0.80}, {D, 0.025}}), sign(0.025, {{D, 0.80}})});
}

/// s1 and s2 seen, s3 looked for and not there, s4 unknown.
Situation worked_answers() { return found({{s1, yes, 0}, {s2, yes, 0}, {s3, no, 0}}); }

/// Chance of each value of feature 0 under the causes of `set`.
std::vector<double> values_under(const EvidenceModel& model, const std::vector<std::uint16_t>& set) {
    std::vector<double> chances;
    for (std::size_t value = 0; value < model.features[0].background.size(); ++value)
        chances.push_back(chance_of(model, 0, answer_set(value), set));
    return chances;
}

double db(double ratio) { return 10 * std::log10(ratio); }

}  // namespace

TEST_CASE("worked example: score and chance of all eight sets", "[weighing]") {
    struct Row {
        std::vector<std::uint32_t> set;
        double score;
        double chance;
    };
    const std::array<Row, 8> rows = {{{{}, 0, 0.013827},
                                      {{A}, 18.0618, 0.884917},
                                      {{B}, -2.5527, 0.007682},
                                      {{D}, -11.9284, 0.000887},
                                      {{A, B}, 2.9979, 0.027575},
                                      {{A, D}, 6.1334, 0.056763},
                                      {{B, D}, -8.8081, 0.001819},
                                      {{A, B, D}, -3.2575, 0.006531}}};
    const Weighed weighed = weigh(worked_example(), worked_answers());
    REQUIRE(weighed.sets.size() == rows.size());
    for (const Row& row : rows) {
        const CauseSet& set = the_set(weighed, row.set);
        CAPTURE(bits(set));
        CHECK(set.score == near(row.score, 1e-4));
        CHECK(set.chance == near(row.chance, 1e-6));
    }
    CHECK(weighed.nothing_listed == near(0.013827, 1e-6));
}

TEST_CASE("worked example: the balance of each cause, what it shares, its total and its chance", "[weighing]") {
    struct Row {
        std::uint32_t cause;
        double prior;
        std::array<double, 3> lines;
        double sum;
        double shared;
        double total;
        double chance;
    };
    const std::array<Row, 3> rows = {{{A, -6.0206, {15.0515, 9.0309, 0}, 18.0618, -2.0090, 16.0528, 0.975785},
                                      {B, -9.5424, {13.0103, 0, -6.0206}, -2.5527, -10.8581, -13.4108, 0.043607},
                                      {D, -12.7875, {0, 0, 0.8591}, -11.9284, 0.4204, -11.5080, 0.066000}}};
    const EvidenceModel model = worked_example();
    const Weighed weighed = weigh(model, worked_answers());
    for (const Row& row : rows) {
        CAPTURE(row.cause);
        const Balance balance = balance_of(model, worked_answers(), row.cause);
        CHECK(balance.prior == near(row.prior, 1e-4));
        REQUIRE(balance.lines.size() == row.lines.size());
        for (std::size_t i = 0; i < row.lines.size(); ++i) {
            CAPTURE(i);
            CHECK(balance.lines[i] == near(row.lines[i], 1e-4));
            CHECK_FALSE(balance.discounted[i]);
        }
        CHECK(balance.sum() == near(row.sum, 1e-4));
        const double total = decibans(weighed.chance[row.cause]);
        CHECK(total - balance.sum() == near(row.shared, 1e-4));
        CHECK(total == near(row.total, 1e-4));
        CHECK(weighed.chance[row.cause] == near(row.chance, 1e-6));
    }
}

TEST_CASE("worked example: s1 counts little for B because A explains it already", "[weighing]") {
    const EvidenceModel model = worked_example();
    const double with_s1 = decibans(weigh(model, worked_answers()).chance[B]);
    const double without_s1 = decibans(weigh(model, found({{s2, yes, 0}, {s3, no, 0}})).chance[B]);
    CHECK(with_s1 - without_s1 == near(1.4991, 1e-4));
    CHECK(balance_of(model, worked_answers(), B).lines[0] == near(13.0103, 1e-4));
}

TEST_CASE("worked example: what asking is worth after three answers and before any", "[weighing]") {
    const EvidenceModel model = worked_example();
    const Weighed after = weigh(model, worked_answers());
    CHECK(entropy(set_chances(after)) == near(0.746190, 1e-6));
    CHECK(predicted(model, after, s4)[0] == near(0.076150, 1e-6));
    CHECK(information(model, after, s4) == near(0.183289, 1e-6));

    const Weighed before = weigh(model, {});
    CHECK(information(model, before, s1) == near(0.419149, 1e-6));
    CHECK(information(model, before, s2) == near(0.048131, 1e-6));
    CHECK(information(model, before, s3) == near(0.113325, 1e-6));
    CHECK(information(model, before, s4) == near(0.145830, 1e-6));
}

TEST_CASE("the table of weights: present and absent, by background and link", "[weighing]") {
    using Weights = std::pair<double, double>;
    const std::array<std::string, 5> links = {"almost always", "usually", "about half the time", "sometimes", "almost never"};
    const std::vector<std::pair<std::string, std::array<Weights, 5>>> table = {
        {"practically never", {{{22.9, -18.2}, {22.0, -7.0}, {20.0, -3.0}, {16.0, -0.9}, {7.0, -0.1}}}},
        {"almost never", {{{16.0, -18.1}, {15.1, -6.9}, {13.0, -2.9}, {9.0, -0.9}, {0, 0}}}},
        {"sometimes", {{{6.9, -17.3}, {6.0, -6.0}, {4.0, -2.0}, {0, 0}, {-9.0, 0.9}}}},
        {"about half the time", {{{2.9, -15.2}, {2.0, -4.0}, {0, 0}, {-4.0, 2.0}, {-13.0, 2.9}}}}};
    for (const auto& [background, row] : table) {
        for (std::size_t i = 0; i < links.size(); ++i) {
            CAPTURE(background, links[i]);
            const EvidenceModel model =
                model_of({0.1}, {sign(frequency(background).value(), {{A, frequency(links[i]).value()}})});
            CHECK(weight_of(model, yes) == near(row[i].first, 0.0501));
            CHECK(weight_of(model, no) == near(row[i].second, 0.0501));
        }
    }
}

TEST_CASE("a cause alone shows a sign as often as its link says, and none of them as often as the background", "[weighing]") {
    const EvidenceModel model = model_of({0.1, 0.1}, {sign(0.2, {{A, 0.8}, {B, 0.05}})});
    CHECK(values_under(model, {})[0] == near(0.2, 1e-12));
    CHECK(values_under(model, {A})[0] == near(0.8, 1e-12));
    CHECK(values_under(model, {B})[0] == near(0.05, 1e-12));
}

TEST_CASE("two causes that bring a sign bring it more often than either", "[weighing]") {
    const EvidenceModel model = model_of({0.1, 0.1}, {sign(0.2, {{A, 0.8}, {B, 0.6}})});
    CHECK(values_under(model, {A, B})[0] == near(1 - 0.2 * 0.4 / 0.8, 1e-12));
}

TEST_CASE("causes that hold a sign back multiply, also with one that brings it", "[weighing]") {
    const EvidenceModel model = model_of({0.1, 0.1, 0.1}, {sign(0.4, {{A, 0.1}, {B, 0.2}, {D, 0.9}})});
    CHECK(values_under(model, {A, B})[0] == near(0.4 * (0.1 / 0.4) * (0.2 / 0.4), 1e-12));
    CHECK(values_under(model, {A, D})[0] == near(0.9 * (0.1 / 0.4), 1e-12));
}

TEST_CASE("a cause without a link to the sign changes nothing", "[weighing]") {
    const EvidenceModel model = model_of({0.1, 0.1}, {sign(0.2, {{A, 0.8}})});
    CHECK(values_under(model, {B}) == values_under(model, {}));
    CHECK(values_under(model, {A, B}) == values_under(model, {A}));
    CHECK(balance_of(model, found({{0, yes, 0}}), B).lines == std::vector<double>{0});
}

TEST_CASE("no chance of a sign is taken as less than the lowest or more than the highest", "[weighing]") {
    EvidenceModel model = model_of({0.1, 0.1}, {sign(0.001, {{A, 0.999}, {B, 0.0002}})});
    CHECK(values_under(model, {})[0] == near(0.005, 1e-12));
    CHECK(values_under(model, {A})[0] == near(0.995, 1e-12));
    CHECK(values_under(model, {B})[0] == near(0.005, 1e-12));
    CHECK(weight_of(model, yes) == near(db(0.995 / 0.005), 1e-9));

    model.lowest = 0;
    model.highest = 1;
    CHECK(values_under(model, {A})[0] == near(0.999, 1e-12));
    CHECK(values_under(model, {B})[0] == near(0.0002, 1e-12));
}

TEST_CASE("an unsure answer weighs less", "[weighing]") {
    const EvidenceModel model = model_of({0.1}, {sign(0.025, {{A, 0.8}})});
    CHECK(chance_of(model, 0, yes, {}, 0.1) == near(0.12, 1e-12));
    CHECK(chance_of(model, 0, yes, std::array<std::uint16_t, 1>{A}, 0.1) == near(0.74, 1e-12));
    CHECK(weight_of(model, yes, 0.1) == near(7.90, 0.005));
    CHECK(weight_of(model, no, 0.1) == near(-5.29, 0.01));  // the method cuts -5.295 off

    CHECK(weight_of(model, yes, 0.02) > weight_of(model, yes, 0.1));
    CHECK(weight_of(model, yes, 0.1) > weight_of(model, yes, 0.25));
    CHECK(weight_of(model, yes, 0.5) == near(0, 1e-12));
}

TEST_CASE("near-duplicate signs: the strongest counts in full, the others in part, for and against apart", "[weighing]") {
    const EvidenceModel model = model_of({0.1}, {sign(0.2, {{A, 0.5}}, 7), sign(0.2, {{A, 0.8}}, 7), sign(0.2, {{A, 0.6}}, 7),
                                                 sign(0.5, {{A, 0.8}}, 7), sign(0.5, {{A, 0.9}}, 7), sign(0.2, {{A, 0.8}})});
    const Situation situation = found({{5, yes, 0}, {0, yes, 0}, {1, yes, 0}, {2, yes, 0}, {3, no, 0}, {4, no, 0}});
    const Balance balance = balance_of(model, situation, A);
    REQUIRE(balance.lines.size() == 6);
    CHECK(balance.lines[0] == near(db(4), 1e-9));
    CHECK(balance.lines[1] == near(0.3 * db(2.5), 1e-9));
    CHECK(balance.lines[2] == near(db(4), 1e-9));
    CHECK(balance.lines[3] == near(0.3 * db(3), 1e-9));
    CHECK(balance.lines[4] == near(0.3 * db(0.4), 1e-9));
    CHECK(balance.lines[5] == near(db(0.2), 1e-9));
    CHECK(balance.discounted == std::vector<bool>{false, true, false, true, true, false});
    CHECK(the_set(weigh(model, situation), {A}).score == near(balance.sum(), 1e-9));
}

TEST_CASE("near-duplicate signs of equal weight: one of them counts in full", "[weighing]") {
    const EvidenceModel model = model_of({0.1}, {sign(0.2, {{A, 0.8}}, 0), sign(0.2, {{A, 0.8}}, 0)});
    const Balance balance = balance_of(model, found({{1, yes, 0}, {0, yes, 0}}), A);
    CHECK(balance.sum() - balance.prior == near(1.3 * db(4), 1e-9));
    CHECK(balance.discounted[0] != balance.discounted[1]);
}

TEST_CASE("near-duplicate signs: share 0 counts the strongest only, share 1 counts all", "[weighing]") {
    EvidenceModel model = model_of({0.1}, {sign(0.2, {{A, 0.8}}, 0), sign(0.2, {{A, 0.5}}, 0)});
    const Situation situation = found({{0, yes, 0}, {1, yes, 0}});
    model.same_observation_counts = 0;
    CHECK(balance_of(model, situation, A).sum() == near(db(0.1 / 0.9) + db(4), 1e-9));
    model.same_observation_counts = 1;
    CHECK(balance_of(model, situation, A).sum() == near(db(0.1 / 0.9) + db(4) + db(2.5), 1e-9));
}

TEST_CASE("signs of two different groups do not discount each other", "[weighing]") {
    const EvidenceModel model = model_of({0.1}, {sign(0.2, {{A, 0.8}}, 0), sign(0.2, {{A, 0.5}}, 1)});
    const Balance balance = balance_of(model, found({{0, yes, 0}, {1, yes, 0}}), A);
    CHECK(balance.sum() - balance.prior == near(db(4) + db(2.5), 1e-9));
}

TEST_CASE("the shrink weakens the evidence and leaves the prior", "[weighing]") {
    EvidenceModel model = worked_example();
    const Balance full = balance_of(model, worked_answers(), A);
    model.shrink = 0.5;
    const Balance half = balance_of(model, worked_answers(), A);
    CHECK(half.prior == full.prior);
    for (std::size_t i = 0; i < full.lines.size(); ++i) CHECK(half.lines[i] == near(full.lines[i] / 2, 1e-12));
    CHECK(the_set(weigh(model, worked_answers()), {A}).score == near(half.sum(), 1e-9));
}

namespace {

/// Too low, fine, too high.
enum Reading : std::uint32_t { low, fine, high };

EvidenceModel reading(std::vector<Feature::Link> links, std::vector<double> background = {0.2, 0.6, 0.2}) {
    return model_of({0.1, 0.1}, {Feature{std::move(background), std::move(links), -1}});
}

}  // namespace

TEST_CASE("a choice: what one value takes, the values without a link give up in proportion", "[weighing]") {
    const EvidenceModel model = reading({{A, low, 0.8}});
    const std::vector<double> chances = values_under(model, {A});
    CHECK(chances[low] == near(0.8, 1e-12));
    CHECK(chances[fine] == near(0.2 * 0.75, 1e-12));
    CHECK(chances[high] == near(0.2 * 0.25, 1e-12));
    CHECK(weight_of(model, answer_set(low)) == near(db(0.8 / 0.2), 1e-9));
    CHECK(weight_of(model, answer_set(fine)) == near(db(0.2 / 0.8), 1e-9));
    CHECK(weight_of(model, answer_set(high)) == near(db(0.2 / 0.8), 1e-9));
}

TEST_CASE("a choice: not one value is all the others together", "[weighing]") {
    const EvidenceModel model = reading({{A, low, 0.8}});
    const AnswerSet not_low = answer_set(fine) | answer_set(high);
    CHECK(chance_of(model, 0, not_low, {}) == near(0.8, 1e-12));
    CHECK(weight_of(model, not_low) == near(db(0.2 / 0.8), 1e-9));
    CHECK(weight_of(model, answer_set(low) | answer_set(fine)) == near(db(0.95 / 0.8), 1e-9));
}

TEST_CASE("a choice: a value that the cause holds back gives to the others", "[weighing]") {
    const EvidenceModel model = reading({{A, fine, 0.2}});
    const std::vector<double> chances = values_under(model, {A});
    CHECK(chances[low] == near(0.4, 1e-12));
    CHECK(chances[fine] == near(0.2, 1e-12));
    CHECK(chances[high] == near(0.4, 1e-12));
}

TEST_CASE("a choice: two causes of one value join by noisy-OR", "[weighing]") {
    const EvidenceModel model = reading({{A, low, 0.6}, {B, low, 0.4}});
    const double joint = 1 - 0.4 * 0.6 / 0.8;
    const std::vector<double> chances = values_under(model, {A, B});
    CHECK(chances[low] == near(joint, 1e-12));
    CHECK(chances[fine] == near((1 - joint) * 0.75, 1e-12));
}

TEST_CASE("a choice: the values without a link keep a hundredth when the others ask for more than all", "[weighing]") {
    const EvidenceModel model = reading({{A, low, 0.8}, {B, high, 0.5}});
    const std::vector<double> chances = values_under(model, {A, B});
    CHECK(chances[low] == near(0.8 / 1.31, 1e-12));
    CHECK(chances[fine] == near(0.01 / 1.31, 1e-12));
    CHECK(chances[high] == near(0.5 / 1.31, 1e-12));
}

TEST_CASE("a choice: when every value is linked they are made to add up", "[weighing]") {
    const EvidenceModel model = reading({{A, low, 0.5}, {A, fine, 0.4}, {A, high, 0.35}});
    const std::vector<double> chances = values_under(model, {A});
    CHECK(chances[low] == near(0.5 / 1.25, 1e-12));
    CHECK(chances[fine] == near(0.4 / 1.25, 1e-12));
    CHECK(chances[high] == near(0.35 / 1.25, 1e-12));
}

TEST_CASE("a choice: a mistaken report names any of the other values alike", "[weighing]") {
    const EvidenceModel model = reading({{A, low, 0.8}});
    CHECK(chance_of(model, 0, answer_set(low), {}, 0.1) == near(0.9 * 0.2 + 0.05 * 0.8, 1e-12));
    const AnswerSet not_low = answer_set(fine) | answer_set(high);
    CHECK(chance_of(model, 0, not_low, {}, 0.1) == near(0.9 * 0.8 + 0.1 * 0.2 + 0.05 * 0.8, 1e-12));
    CHECK(weight_of(model, answer_set(low), 0.1) == near(db((0.9 * 0.8 + 0.05 * 0.2) / (0.9 * 0.2 + 0.05 * 0.8)), 1e-9));
}

namespace {

/// The free posterior of the worked example, cut down to the sets that `keep` keeps: what every hard restriction must come to.
template <class Keep>
void check_conditioned(const Weighed& restricted, const Keep& keep) {
    const Weighed free = weigh(worked_example(), worked_answers());
    double kept = 0;
    std::size_t count = 0;
    for (const CauseSet& set : free.sets) {
        if (!keep(set)) continue;
        kept += set.chance;
        ++count;
    }
    REQUIRE(restricted.sets.size() == count);
    double nothing_listed = 0;
    std::vector<double> chance(3, 0);
    for (const CauseSet& set : restricted.sets) {
        CAPTURE(bits(set));
        REQUIRE(keep(set));
        std::vector<std::uint32_t> members(set.causes().begin(), set.causes().end());
        double expected = 0;
        for (const CauseSet& other : free.sets)
            if (bits(other) == bits(set)) expected = other.chance / kept;
        CHECK(set.chance == near(expected, 1e-12));
        if (members.empty()) nothing_listed = expected;
        for (const std::uint32_t cause : members) chance[cause] += expected;
    }
    CHECK(restricted.nothing_listed == near(nothing_listed, 1e-12));
    for (std::size_t cause = 0; cause < 3; ++cause) CHECK(restricted.chance[cause] == near(chance[cause], 1e-12));
}

}  // namespace

TEST_CASE("a cause that cannot be is in no set, and the others keep their proportions", "[weighing]") {
    Situation situation = worked_answers();
    situation.ruled_out = {true, false, false};
    const Weighed weighed = weigh(worked_example(), situation);
    check_conditioned(weighed, [](const CauseSet& set) { return !set.contains(A); });
    CHECK(weighed.chance[A] == 0);
}

TEST_CASE("a cause that must be is in every set, and the others keep their proportions", "[weighing]") {
    Situation situation = worked_answers();
    situation.certain = {false, true, false};
    const Weighed weighed = weigh(worked_example(), situation);
    check_conditioned(weighed, [](const CauseSet& set) { return set.contains(B); });
    CHECK(weighed.chance[B] == near(1, 1e-12));
    CHECK(weighed.nothing_listed == 0);
}

TEST_CASE("causes that cannot stand together are in no set together", "[weighing]") {
    EvidenceModel model = worked_example();
    model.never_together = {{D, A}};
    check_conditioned(weigh(model, worked_answers()),
                      [](const CauseSet& set) { return !(set.contains(A) && set.contains(D)); });
}

TEST_CASE("a cause that stands alone is in no set with another", "[weighing]") {
    EvidenceModel model = worked_example();
    model.alone = {B};
    check_conditioned(weigh(model, worked_answers()), [](const CauseSet& set) { return !set.contains(B) || set.size == 1; });
}

TEST_CASE("contradicting hard rules leave no set at all", "[weighing]") {
    Situation situation = worked_answers();
    situation.certain = {true, true, false};
    EvidenceModel model = worked_example();
    SECTION("a cause both certain and ruled out") { situation.ruled_out = {true, false, false}; }
    SECTION("two certain causes that never stand together") { model.never_together = {{A, B}}; }
    SECTION("two certain causes of which one stands alone") { model.alone = {A}; }
    SECTION("more certain causes than a set may hold") { model.largest_set = 1; }
    const Weighed weighed = weigh(model, situation);
    CHECK(weighed.sets.empty());
    CHECK(weighed.chance == std::vector<double>{0, 0, 0});
    CHECK(weighed.nothing_listed == 0);
}

TEST_CASE("a set holds no more causes than the largest set", "[weighing]") {
    EvidenceModel model = worked_example();
    for (int largest = 0; largest <= 3; ++largest) {
        CAPTURE(largest);
        model.largest_set = largest;
        check_conditioned(weigh(model, worked_answers()), [&](const CauseSet& set) { return set.size <= largest; });
    }
    model.largest_set = 0;
    CHECK(weigh(model, worked_answers()).nothing_listed == 1);
}

TEST_CASE("every allowed set is there once", "[weighing]") {
    EvidenceModel model = model_of(std::vector<double>(7, 0.1), {});
    model.largest_set = 3;
    const Weighed weighed = weigh(model, {});
    CHECK(weighed.sets.size() == 1 + 7 + 21 + 35);
    std::vector<bool> seen(1U << 7, false);
    for (const CauseSet& set : weighed.sets) {
        CHECK_FALSE(seen[bits(set)]);
        seen[bits(set)] = true;
        CHECK(std::popcount(bits(set)) == set.size);
    }
}

TEST_CASE("a set never holds more causes than there is room for", "[weighing]") {
    EvidenceModel model = model_of(std::vector<double>(most_in_a_set + 1, 0.1), {});
    model.largest_set = most_in_a_set + 5;
    const Weighed weighed = weigh(model, {});
    CHECK(weighed.sets.size() == (std::size_t{1} << (most_in_a_set + 1)) - 1);
    for (const CauseSet& set : weighed.sets)
        if (set.size > most_in_a_set) FAIL("a set of " << set.size);
}

TEST_CASE("no causes at all: nothing listed is certain", "[weighing]") {
    const Weighed weighed = weigh(model_of({}, {sign(0.2)}), found({{0, yes, 0}}));
    CHECK(weighed.nothing_listed == 1);
    CHECK(weighed.chance.empty());
}

TEST_CASE("a circumstance moves the prior and competes with no sign", "[weighing]") {
    const EvidenceModel model = worked_example();
    Situation situation;
    situation.prior_shift = {0, 10, 0};
    const Weighed weighed = weigh(model, situation);
    CHECK(decibans(weighed.chance[B]) == near(decibans(0.10) + 10, 1e-9));
    CHECK(weighed.chance[A] == near(0.20, 1e-12));
    CHECK(weighed.chance[D] == near(0.05, 1e-12));
    CHECK(balance_of(model, situation, B).prior == near(decibans(0.10) + 10, 1e-12));

    Situation answered = worked_answers();
    answered.prior_shift = {0, 10, 0};
    EvidenceModel likelier = worked_example();
    likelier.prior[B] = probability(decibans(0.10) + 10);
    CHECK(weigh(model, answered).chance[B] == near(weigh(likelier, worked_answers()).chance[B], 1e-12));
    CHECK(weigh(model, answered).chance[A] == near(weigh(likelier, worked_answers()).chance[A], 1e-12));
}

TEST_CASE("before any finding each cause has its prior chance", "[weighing]") {
    const Weighed weighed = weigh(worked_example(), {});
    CHECK(weighed.chance[A] == near(0.20, 1e-12));
    CHECK(weighed.chance[B] == near(0.10, 1e-12));
    CHECK(weighed.chance[D] == near(0.05, 1e-12));
    CHECK(weighed.nothing_listed == near(0.8 * 0.9 * 0.95, 1e-12));
}

TEST_CASE("scaled priors add up to the expected number of causes, all odds moved by one factor", "[weighing]") {
    const std::vector<double> written = {0.2, 0.2, 0.1, 0.05, 0.02, 0.005, 0.5};
    for (const double expected : {0.001, 0.3, 1.075, 1.5, 6.0, 6.99}) {
        CAPTURE(expected);
        const std::vector<double> scaled = scaled_priors(written, expected);
        REQUIRE(scaled.size() == written.size());
        CHECK(std::accumulate(scaled.begin(), scaled.end(), 0.0) == near(expected, 1e-9));
        const double shift = decibans(scaled[0]) - decibans(written[0]);
        for (std::size_t i = 0; i < written.size(); ++i) CHECK(decibans(scaled[i]) - decibans(written[i]) == near(shift, 1e-9));
    }
}

TEST_CASE("priors are left as they are when the expected number of causes cannot be", "[weighing]") {
    const std::vector<double> written = {0.2, 0.1, 0.05};
    for (const double expected : {-1.0, 0.0, 3.0, 10.0, std::nan("")}) {
        CAPTURE(expected);
        CHECK(scaled_priors(written, expected) == written);
    }
    CHECK(scaled_priors({}, 1.5).empty());
}

TEST_CASE("a question that no cause speaks of is worth nothing", "[weighing]") {
    const EvidenceModel model = model_of({0.2}, {sign(0.3), sign(0.3, {{A, 0.3}})});
    const Weighed weighed = weigh(model, {});
    CHECK(information(model, weighed, 0) == near(0, 1e-12));
    CHECK(information(model, weighed, 1) == near(0, 1e-12));
    CHECK(predicted(model, weighed, 0)[0] == near(0.3, 1e-12));
}

TEST_CASE("a question whose answer is a guess is worth less", "[weighing]") {
    const EvidenceModel model = worked_example();
    const Weighed weighed = weigh(model, {});
    CHECK(information(model, weighed, s1, 0.1) < information(model, weighed, s1));
    CHECK(information(model, weighed, s1, 0.25) < information(model, weighed, s1, 0.1));
    CHECK(information(model, weighed, s1, 0.5) == near(0, 1e-12));
    CHECK(predicted(model, weighed, s1, 0.5)[0] == near(0.5, 1e-12));
}

}  // namespace engine_weighing_test
