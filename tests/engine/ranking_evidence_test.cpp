// What each sort of evidence does to one cause, against figures worked out by hand.
#include "engine/ranking.hpp"
#include "engine/words.hpp"
#include "tests/catch.hpp"
#include "tests/engine/short_rules.hpp"
#include "tests/near.hpp"

#include <cmath>
#include <string>
#include <vector>

namespace engine_ranking_evidence_test {

using namespace lidlift;
using namespace lidlift::test;

namespace {

/// Ten times the logarithm, as everywhere in the method.
double db(double ratio) { return 10 * std::log10(ratio); }

const RankedCause& only_cause(const Ranking& ranking) {
    REQUIRE(ranking.causes.size() == 1);
    return ranking.causes.front();
}

/// How far `words` move the only cause's log odds.
double moved(const RuleBase& base, const std::vector<std::string>& words) {
    const Ranker ranker(base);
    return decibans(only_cause(ranker.rank(facts_in(base, words))).chance) - decibans(only_cause(ranker.rank(Facts())).chance);
}

RuleBase one_sign(const std::string& weighing = "largest set: 3") {
    return Rules()
        .weighing(weighing)
        .sign("s", "seen anyway: almost never")
        .cause("x", "signs: [{when: s, seen: usually}]")
        .base();
}

}  // namespace

TEST_CASE("seeing a sign and not seeing it weigh as the method's table says", "[ranking]") {
    // method.md section 1.2, derived ledger weights: rows background, columns link.
    struct Row {
        std::string background;
        std::string link;
        double seen;
        double not_seen;
    };
    for (const Row& row : std::vector<Row>{{"practically never", "almost always", 22.9, -18.2},
                                           {"practically never", "almost never", 7.0, -0.1},
                                           {"almost never", "usually", 15.1, -6.9},
                                           {"almost never", "about half the time", 13.0, -2.9},
                                           {"sometimes", "almost always", 6.9, -17.3},
                                           {"sometimes", "usually", 6.0, -6.0},
                                           {"sometimes", "almost never", -9.0, 0.9},
                                           {"about half the time", "sometimes", -4.0, 2.0},
                                           {"about half the time", "almost never", -13.0, 2.9}}) {
        CAPTURE(row.background, row.link);
        const RuleBase base =
            Rules().sign("s", "seen anyway: " + row.background).cause("x", "signs: [{when: s, seen: " + row.link + "}]").base();
        CHECK(moved(base, {"s=yes"}) == near(row.seen, 0.051));
        CHECK(moved(base, {"s=no"}) == near(row.not_seen, 0.051));
        CHECK(moved(base, {"s=?"}) == near(0, 1e-12));
    }
}

TEST_CASE("points move the odds by their factor when seen, and absence counts by itself", "[ranking]") {
    struct Row {
        std::string word;
        double factor;
    };
    for (const Row& row : std::vector<Row>{{"slightly", 2},
                                           {"moderately", 5},
                                           {"strongly", 10},
                                           {"very strongly", std::pow(10, 1.5)},
                                           {"slightly against", 0.5},
                                           {"moderately against", 0.2}}) {
        CAPTURE(row.word);
        const RuleBase base =
            Rules().sign("s", "seen anyway: almost never").cause("x", "signs: [{when: s, points: " + row.word + "}]").base();
        // The chance of a sign under a cause is kept at 0.5 % or more.
        CHECK(moved(base, {"s=yes"}) == near(db(std::max(0.025 * row.factor, 0.005) / 0.025), 1e-9));
        CHECK(moved(base, {"s=no"}) == near(db((1 - std::max(0.025 * row.factor, 0.005)) / 0.975), 1e-9));
    }
}

TEST_CASE("a link to no is one to yes seen from the other side", "[ranking]") {
    const RuleBase base =
        Rules().sign("s", "seen anyway: sometimes").cause("x", "signs: [{when: s is no, seen: almost always}]").base();
    CHECK(moved(base, {"s=no"}) == near(db(0.985 / 0.8), 1e-9));
    CHECK(moved(base, {"s=yes"}) == near(db(0.015 / 0.2), 1e-9));
}

TEST_CASE("an unsure answer moves less, a guess still less, in the same direction", "[ranking]") {
    // method.md section 1.2: b = .025, p = .8, e = .1 -> 7.90 and -5.29 dB (cut off, not rounded, from -5.295).
    const RuleBase base = one_sign("wrong when unsure: 10 %, wrong when a guess: 25 %");
    CHECK(moved(base, {"s=yes,unsure"}) == near(7.90, 0.005));
    CHECK(moved(base, {"s=no,unsure"}) == near(-5.295, 0.005));
    CHECK(moved(base, {"s=yes"}) == near(db(0.8 / 0.025), 1e-9));
    CHECK(moved(base, {"s=yes,guess"}) == near(db((0.25 + 0.5 * 0.8) / (0.25 + 0.5 * 0.025)), 1e-9));
    CHECK(moved(base, {"s=yes,sure"}) == moved(base, {"s=yes"}));
    const RuleBase doubting = one_sign("wrong when sure: 2 %");
    CHECK(moved(doubting, {"s=yes"}) == near(db((0.02 + 0.96 * 0.8) / (0.02 + 0.96 * 0.025)), 1e-9));
}

TEST_CASE("a circumstance moves the prior when true, and nothing when false or unknown", "[ranking]") {
    const RuleBase base =
        Rules()
            .weighing("wrong when unsure: 10 %, wrong when a guess: 25 %")
            .sign("fed", "answers: {citrus: {means: citrus}, bread: {means: bread}}")
            .sign("rain")
            .cause(
                "x",
                "made likelier by: [{when: fed is citrus, points: strongly}, {when: fed is citrus and rain, points: slightly}]")
            .base();
    CHECK(moved(base, {"fed=citrus"}) == near(10, 1e-9));
    CHECK(moved(base, {"fed=citrus", "rain=yes"}) == near(10 + db(2), 1e-9));
    CHECK(moved(base, {"fed=bread", "rain=yes"}) == near(0, 1e-12));
    CHECK(moved(base, {"fed=?"}) == near(0, 1e-12));
    // What may be wrong counts for what is left of it: the factor is mixed with 1.
    CHECK(moved(base, {"fed=citrus,unsure"}) == near(db(0.9 * 10 + 0.1), 1e-9));
    CHECK(moved(base, {"fed=citrus,guess", "rain=yes"}) == near(db(0.75 * 10 + 0.25) + db(0.75 * 2 + 0.25), 1e-9));
}

TEST_CASE("a circumstance that speaks against lowers the prior", "[ranking]") {
    const RuleBase base =
        Rules().sign("rain").cause("x", "made likelier by: [{when: rain, points: moderately against}]").base();
    CHECK(moved(base, {"rain=yes"}) == near(-db(5), 1e-9));
    CHECK(moved(base, {"rain=no"}) == near(0, 1e-12));
}

TEST_CASE("one of several answers is one observation", "[ranking]") {
    // What the linked answers leave is shared out by background among the others.
    const RuleBase base =
        Rules()
            .sign("squeeze",
                  "answers: {dry: {means: dry, seen anyway: sometimes}, right: {means: right, seen anyway: the rest}, wet: "
                  "{means: wet, seen anyway: sometimes}}")
            .cause("x", "signs: [{when: squeeze is wet, seen: usually}, {when: squeeze is dry, seen: almost never}]")
            .base();
    const double rest = 1 - 0.8 - 0.025;
    CHECK(moved(base, {"squeeze=wet"}) == near(db(0.8 / 0.2), 1e-9));
    CHECK(moved(base, {"squeeze=dry"}) == near(db(0.025 / 0.2), 1e-9));
    CHECK(moved(base, {"squeeze=right"}) == near(db(rest / 0.6), 1e-9));
    CHECK(moved(base, {"squeeze=not dry"}) == near(db((1 - 0.025) / 0.8), 1e-9));
}

TEST_CASE("a link to any of several answers shares its chance by background", "[ranking]") {
    const RuleBase base = Rules()
                              .sign("squeeze",
                                    "answers: {dry: {means: dry, seen anyway: sometimes}, right: {means: right, seen anyway: "
                                    "the rest}, wet: {means: wet, seen anyway: almost never}}")
                              .cause("x", "signs: [{when: \"squeeze is any of (dry, wet)\", seen: usually}]")
                              .base();
    CHECK(moved(base, {"squeeze=wet"}) == near(db(0.8 / 0.225), 1e-9));
    CHECK(moved(base, {"squeeze=dry"}) == near(db(0.8 / 0.225), 1e-9));
    CHECK(moved(base, {"squeeze=right"}) == near(db(0.2 / 0.775), 1e-9));
}

TEST_CASE("a number counts by its band, a range by all the bands it meets", "[ranking]") {
    const RuleBase base = Rules()
                              .sign("heat",
                                    "measured in: °C, plausible: 0 to 90, bands: {cool: {below: 15, seen anyway: sometimes}, "
                                    "right: {below: 28, seen anyway: the rest}, "
                                    "hot: {seen anyway: almost never}}")
                              .cause("x", "signs: [{when: heat is hot, seen: usually}]")
                              .base();
    CHECK(moved(base, {"heat=31"}) == near(db(0.8 / 0.025), 1e-9));
    CHECK(moved(base, {"heat=hot"}) == near(db(0.8 / 0.025), 1e-9));
    CHECK(moved(base, {"heat=28"}) == near(db(0.8 / 0.025), 1e-9));
    CHECK(moved(base, {"heat=88 °F"}) == near(db(0.8 / 0.025), 1e-9));
    CHECK(moved(base, {"heat=27.9"}) == near(db(0.2 / 0.975), 1e-9));
    // 20 to 30 °C is right or hot.
    CHECK(moved(base, {"heat=20 to 30"}) == near(db((0.8 + 0.2 * 0.775 / 0.975) / 0.8), 1e-9));
    CHECK(moved(base, {"heat=0 to 90"}) == near(0, 1e-12));
}

TEST_CASE("of several at once every answer stands alone", "[ranking]") {
    const RuleBase base =
        Rules()
            .sign("smell",
                  "several at once: yes, answers: {sour: {means: sour, seen anyway: sometimes}, rotten: {means: rotten, seen "
                  "anyway: almost never}, "
                  "none: {means: none, none of these: yes}}")
            .cause("x", "signs: [{when: smell is sour, seen: usually}, {when: smell is rotten, seen: about half the time}]")
            .base();
    const double sour = db(0.8 / 0.2), not_sour = db(0.2 / 0.8), rotten = db(0.5 / 0.025), not_rotten = db(0.5 / 0.975);
    CHECK(moved(base, {"smell=sour"}) == near(sour, 1e-9));
    CHECK(moved(base, {"smell=sour,rotten"}) == near(sour + rotten, 1e-9));
    CHECK(moved(base, {"smell=sour,not rotten"}) == near(sour + not_rotten, 1e-9));
    CHECK(moved(base, {"smell=none"}) == near(not_sour + not_rotten, 1e-9));
}

TEST_CASE("a conclusion is evidence, with the doubt of the answers that settled it", "[ranking]") {
    const RuleBase base = Rules()
                              .weighing("wrong when unsure: 10 %")
                              .sign("rain")
                              .sign("pool")
                              .conclusion("wet", "seen anyway: sometimes")
                              .rule("r1", "rain", "wet")
                              .rule("r2", "pool", "wet")
                              .cause("x", "signs: [{when: wet, seen: almost always}]")
                              .base();
    const auto damped = [](double chance) { return 0.1 + 0.8 * chance; };
    CHECK(moved(base, {"rain=yes"}) == near(db(0.985 / 0.2), 1e-9));
    CHECK(moved(base, {"rain=no"}) == near(0, 1e-12));
    CHECK(moved(base, {"rain=no", "pool=no"}) == near(db(0.015 / 0.8), 1e-9));
    CHECK(moved(base, {"rain=yes,unsure"}) == near(db(damped(0.985) / damped(0.2)), 1e-9));
    CHECK(moved(base, {"rain=yes,unsure", "pool=yes"}) == near(db(0.985 / 0.2), 1e-9));
    CHECK(moved(base, {"rain=no,unsure", "pool=no"}) == near(db(damped(0.015) / damped(0.8)), 1e-9));
    const Ranking ranking = Ranker(base).rank(facts_in(base, {"rain=yes"}));
    CHECK(only_cause(ranking).balance.at(1).text == "wet (rain: yes)");
}

TEST_CASE("each further sign of the same observation counts by its share", "[ranking]") {
    const RuleBase base = Rules()
                              .weighing("same observation counts: 30 %")
                              .sign("s", "seen anyway: almost never, same observation: wetness")
                              .sign("t", "seen anyway: sometimes, same observation: wetness")
                              .cause("x", "signs: [{when: s, seen: usually}, {when: t, seen: usually}]")
                              .base();
    CHECK(moved(base, {"s=yes", "t=yes"}) == near(db(0.8 / 0.025) + 0.3 * db(4), 1e-9));
    CHECK(moved(base, {"s=yes", "t=no"}) == near(db(0.8 / 0.025) + db(0.25), 1e-9));
    const Ranking ranking = Ranker(base).rank(facts_in(base, {"s=yes", "t=yes"}));
    REQUIRE(only_cause(ranking).balance.size() == 4);
    CHECK_FALSE(only_cause(ranking).balance[1].discounted);
    CHECK(only_cause(ranking).balance[2].discounted);
}

TEST_CASE("what matters for a cause and what of it was told are counted", "[ranking]") {
    const RuleBase base = Rules()
                              .sign("s", "seen anyway: sometimes")
                              .sign("t", "seen anyway: sometimes")
                              .sign("rain")
                              .cause("x",
                                     "signs: [{when: s, seen: usually}, {when: t, seen: usually}], made likelier by: [{when: "
                                     "rain, points: slightly}]")
                              .base();
    const auto counts = [&](const std::vector<std::string>& words) {
        const Ranking ranking = Ranker(base).rank(facts_in(base, words));
        return std::vector<int>{only_cause(ranking).answered, only_cause(ranking).of};
    };
    CHECK(counts({}) == std::vector<int>{0, 3});
    CHECK(counts({"s=?"}) == std::vector<int>{0, 3});
    CHECK(counts({"s=no"}) == std::vector<int>{1, 3});
    CHECK(counts({"s=no", "rain=no"}) == std::vector<int>{2, 3});
    CHECK(counts({"s=no", "rain=yes", "t=yes,guess"}) == std::vector<int>{3, 3});
}

TEST_CASE("the strengths' own sources stand beside a line, else the cause's", "[ranking]") {
    const RuleBase base = Rules()
                              .sign("s", "seen anyway: almost never")
                              .sign("t", "seen anyway: sometimes")
                              .cause("x", "signs: [{when: s, seen: usually, sources: [from_memory]}, {when: t, seen: usually}]")
                              .base();
    const Ranking ranking = Ranker(base).rank(facts_in(base, {"s=yes", "t=yes"}));
    const auto& balance = only_cause(ranking).balance;
    REQUIRE(balance.size() == 4);
    CHECK(balance[1].sources == Sources{base.sources.find("from_memory").value()});
    CHECK(balance[2].sources == Sources{base.sources.find("common_practice").value()});
}

}  // namespace engine_ranking_evidence_test
