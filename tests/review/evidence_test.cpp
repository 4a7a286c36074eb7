// What the strengths can and cannot do: against trying every answer, and every witness told to the engine.
#include "engine/review/evidence.hpp"

#include "engine/quantity.hpp"
#include "engine/review/best_case.hpp"
#include "engine/review/look_alikes.hpp"
#include "tests/near.hpp"
#include "tests/review/random_bases.hpp"
#include "tests/review/review_files.hpp"

#include <cmath>
#include <map>
#include <set>

namespace review_evidence_test {

using namespace lidlift;
using namespace lidlift::test;

namespace {

std::vector<ReviewFinding> evidence_of(const RuleBase& base, std::string_view kind) {
    std::vector<ReviewFinding> findings;
    review_evidence(base, findings);
    return of_kind(std::move(findings), kind);
}

/// The balance of one cause by itself, before it is shared with others, and what of it is prior and circumstances.
struct Alone {
    double sum;
    double prior;
};
Alone alone(const Ranker& ranker, const Facts& facts, std::uint32_t cause) {
    const auto prepared = ranker.prepare(facts);
    const Balance balance = balance_of(prepared.model, prepared.situation, cause);
    return {balance.sum(), balance.prior};
}

}  // namespace

TEST_CASE("a cause is said to be out of reach exactly where no answers at all make it likely enough", "[review][evidence]") {
    Dice dice(20261125);
    int reached = 0;
    int not_reached = 0;
    for (int i = 0; i < 120; ++i) {
        const RuleBase base = random_base(dice);
        const Ranker ranker(base);
        std::vector<double> highest(base.causes.size(), 0);
        for (const Facts& facts : all_facts(base))
            for (const RankedCause& ranked : ranker.rank(facts).causes)
                highest[ranked.cause.index] = std::max(highest[ranked.cause.index], ranked.there);
        std::set<std::string> told;
        for (const ReviewFinding& finding : evidence_of(base, "cannot_reach_action")) told.insert(finding.about.front());
        for (std::uint32_t c = 0; c < base.causes.size(); ++c) {
            const double wanted = base.steps[Handle<Step>{c}].needed_chance;
            const std::string& id = base.causes[Handle<Cause>{c}].id;
            CAPTURE(i, id, highest[c], wanted);
            CHECK((told.count(id) == 1) == (highest[c] < wanted));
            (highest[c] < wanted ? not_reached : reached) += 1;
        }
    }
    CHECK(reached > 50);
    CHECK(not_reached > 50);
}

TEST_CASE("the answers shown for a cause out of reach give the chance that is told", "[review][evidence][witness]") {
    Dice dice(7);
    int shown = 0;
    for (int i = 0; i < 60; ++i) {
        const RuleBase base = random_base(dice);
        for (const ReviewFinding& finding : evidence_of(base, "cannot_reach_action")) {
            const auto ranking = Ranker(base).rank(facts_in(base, typed(finding)));
            const RankedCause* ranked = ranking.find(*base.causes.find(finding.about.front()));
            if (!ranked) continue;
            const double told = std::round(1000 * ranked->there) / 10;
            CAPTURE(finding.text, told);
            CHECK(finding.text.find("reaches a chance of " + number_to_text(told) + " %") != std::string::npos);
            ++shown;
        }
    }
    CHECK(shown > 20);
}

TEST_CASE("more causes out of reach than are run through the whole engine are told without a figure", "[review][limits]") {
    Rules rules;
    rules.sign("a", "seen anyway: sometimes");
    for (int i = 0; i <= most_whole_rankings; ++i)
        rules.cause("c" + std::to_string(i), "how common: rare, signs: [{when: a, points: slightly}]");
    const auto found = evidence_of(rules.base(), "cannot_reach_action");
    REQUIRE(found.size() == most_whole_rankings + 1);
    for (std::size_t i = 0; i < found.size(); ++i)
        CHECK((found[i].text.find("stays below the 20 %") != std::string::npos) == (i == most_whole_rankings));
}

TEST_CASE("how far two causes can be told apart is the sum of what each sign does, measured one by one", "[review][evidence]") {
    Dice dice(20261126);
    int close = 0;
    for (int i = 0; i < 150; ++i) {
        RandomBase wanted;
        wanted.conclusions = false;
        const RuleBase base = random_base(dice, wanted);
        const Ranker ranker(base);
        const ReviewTools tools(base);
        std::set<std::vector<std::string>> told;
        for (const ReviewFinding& finding : evidence_of(base, "cannot_be_told_apart")) told.insert(finding.about);
        const std::vector<Alone> nothing_told = [&] {
            std::vector<Alone> result;
            for (std::uint32_t c = 0; c < base.causes.size(); ++c) result.push_back(alone(ranker, {}, c));
            return result;
        }();
        for (std::uint32_t x = 0; x < base.causes.size(); ++x)
            for (std::uint32_t y = x + 1; y < base.causes.size(); ++y) {
                const Cause& first = base.causes[Handle<Cause>{x}];
                const Cause& second = base.causes[Handle<Cause>{y}];
                CAPTURE(i, first.id, second.id);
                const double distance = distance_between(tools, {x}, {y});
                if (first.cannot_be_when_text != second.cannot_be_when_text) {
                    CHECK(std::isinf(distance));
                    continue;
                }
                // One sign at a time, each answer alone; the circumstances hang on the sign s, one answer each.
                double sum = 0;
                for (std::uint32_t s = 0; s < base.signs.size(); ++s) {
                    const Sign& sign = base.signs[Handle<Sign>{s}];
                    double most = 0;
                    double both = 0;
                    for (const Answer& answer : sign.answers) {
                        const Facts facts = facts_in(base, {sign.id + "=" + answer.id});
                        const Alone one = alone(ranker, facts, x);
                        const Alone two = alone(ranker, facts, y);
                        const double apart = std::abs((one.sum - nothing_told[x].sum) - (two.sum - nothing_told[y].sum));
                        most = std::max(most, apart);
                        both += apart;
                    }
                    sum += sign.id == "s" ? both : most;
                }
                CHECK(distance == near(sum, 1e-9));
                CHECK((told.count({first.id, second.id}) == 1) == (sum < least_distance));
                close += sum < least_distance;
            }
    }
    CHECK(close > 10);
}

TEST_CASE("no answers move two causes further apart than their distance", "[review][evidence]") {
    Dice dice(20261127);
    for (int i = 0; i < 40; ++i) {
        const RuleBase base = random_base(dice);
        const Ranker ranker(base);
        const ReviewTools tools(base);
        const Alone before0 = alone(ranker, {}, 0);
        const Alone before1 = alone(ranker, {}, 1);
        const double distance = distance_between(tools, {0}, {1});
        double most = 0;
        for (const Facts& facts : all_facts(base)) {
            const double apart = (alone(ranker, facts, 0).sum - before0.sum) - (alone(ranker, facts, 1).sum - before1.sum);
            most = std::max(most, std::abs(apart));
        }
        CAPTURE(i, most, distance);
        CHECK(most <= distance + 1e-9);
    }
}

TEST_CASE("an answer said to count twice moves two lines of the cause's balance", "[review][evidence][witness]") {
    const RuleBase base = read_review_file("bad_counted_twice").rule_base;
    const auto found = evidence_of(base, "counted_twice");
    REQUIRE(found.size() == 1);
    CHECK(found.front().about == std::vector<std::string>{"too_wet", "squeeze", "waterlogged"});
    const auto ranking = Ranker(base).rank(facts_in(base, typed(found.front())));
    int lines = 0;
    for (const BalanceLine& line : ranking.find(*base.causes.find("too_wet"))->balance)
        lines += line.kind == BalanceLine::Kind::sign && std::abs(line.decibans) > 1 && !line.discounted;
    CHECK(lines == 2);
}

TEST_CASE("an answer counts twice as sign and circumstance, and by a conclusion that needs more, but not on a ladder",
          "[review][evidence]") {
    const auto count = [](const Rules& rules) { return evidence_of(rules.base(), "counted_twice").size(); };
    const auto with = [](const std::string& cause) {
        return Rules()
            .sign("q",
                  "answers: {low: {means: l, seen anyway: the rest}, mid: {means: m, seen anyway: almost never}, "
                  "high: {means: h, seen anyway: almost never}}")
            .sign("b", "seen anyway: sometimes")
            .conclusion("k", "seen anyway: almost never")
            .rule("r", "q is high and b", "k")
            .cause("c", cause);
    };
    CHECK(count(with("made likelier by: [{when: q is high, points: slightly}], signs: [{when: q is high, seen: usually}]")) ==
          1);
    CHECK(count(with("signs: [{when: k, seen: usually}, {when: q is high, seen: usually}]")) == 1);
    CHECK(count(with("signs: [{when: k, seen: usually}, {when: q is high, points: strongly against}]")) == 0);
    CHECK(count(with(
              "made likelier by: [{when: 'q is any of (mid, high)', points: slightly}, {when: q is high, points: slightly}], "
              "signs: [{when: b, seen: usually}]")) == 1);
    // A ladder is only taken where no single word could say as much.
    CHECK(count(with("made likelier by: [{when: 'q is any of (mid, high)', points: strongly}, {when: q is high, points: "
                     "very strongly}], signs: [{when: b, seen: usually}]")) == 0);
    // A combination says more than its parts, and stands as a circumstance of its own.
    CHECK(count(with("made likelier by: [{when: q is high and b, points: slightly}], signs: [{when: b, seen: usually}]")) == 0);
}

TEST_CASE("a link says nothing where taking it away changes no weight, however it is written", "[review][evidence]") {
    const auto count = [](const std::string& links) {
        return evidence_of(Rules()
                               .sign("a", "seen anyway: sometimes")
                               .sign("q",
                                     "answers: {x: {means: x, seen anyway: the rest}, y: {means: y, seen anyway: sometimes}, "
                                     "z: {means: z, seen anyway: sometimes}}")
                               .cause("c", "signs: [" + links + "]")
                               .base(),
                           "says_nothing")
            .size();
    };
    CHECK(count("{when: a, seen: sometimes}") == 1);
    CHECK(count("{when: a is no, seen: usually}") == 1);
    CHECK(count("{when: a, seen: almost never}") == 0);
    CHECK(count("{when: q is y, seen: sometimes}") == 1);
    // Beside a stronger link it keeps y from sharing what z leaves.
    CHECK(count("{when: q is y, seen: sometimes}, {when: q is z, seen: about half the time}") == 0);
}

TEST_CASE("look-alikes may be told apart by a conclusion or a circumstance that bare hands can check", "[review][evidence]") {
    const auto count = [](const std::string& effort, const std::string& cause) {
        return evidence_of(Rules()
                               .sign("a", "seen anyway: almost never")
                               .sign("m", "effort: " + effort + ", seen anyway: almost never")
                               .conclusion("k", "seen anyway: almost never")
                               .rule("r", "m", "k")
                               .cause("c", "not to confuse with: [d], signs: [{when: a, seen: usually}]")
                               .cause("d", cause)
                               .base(),
                           "look_alikes_need_instruments")
            .size();
    };
    const std::string by_conclusion = "signs: [{when: a, seen: usually}, {when: k, seen: usually}]";
    const std::string by_circumstance = "made likelier by: [{when: m, points: strongly}], signs: [{when: a, seen: usually}]";
    for (const std::string& cause : {by_conclusion, by_circumstance}) {
        CHECK(count("dig", cause) == 0);
        CHECK(count("measure", cause) == 1);
        CHECK(count("wait", cause) == 1);
    }
}

TEST_CASE("answers that a condition needs are found where there are any, and then make it so", "[review][answering]") {
    const std::array conditions = {"a and q is q1 and not b",
                                   "k",
                                   "not k",
                                   "at least 2 of (a, b, q is q2)",
                                   "not (at least 2 of (a, b, q is q2))",
                                   "q is any of (q0, q2) and (k or s)",
                                   "k is known and a",
                                   "a and not a",
                                   "k and not q is q1",
                                   "s is known",
                                   "always"};
    for (const std::string when : {"a and q is q1", "b or q is q2", "not a", "at least 2 of (a, b, q is q0)"}) {
        const RuleBase base = [&] {
            Rules rules;
            rules.sign("a").sign("b").sign("q", "answers: {q0: {means: q}, q1: {means: q}, q2: {means: q}}").sign("s");
            rules.conclusion("k").rule("r", when, "k");
            for (std::size_t i = 0; i < conditions.size(); ++i)
                rules.cause("c" + std::to_string(i),
                            "made likelier by: [{when: \"" + std::string(conditions[i]) + "\", points: slightly}]");
            return rules.base();
        }();
        const Answering answering(base);
        for (const Cause& cause : base.causes)
            for (const Truth wanted : {Truth::yes, Truth::no}) {
                const Condition& condition = cause.made_likelier_by.front().when;
                bool possible = false;
                for (const Facts& facts : all_facts(base))
                    possible = possible || evaluate(condition, facts, chain(base, facts).truth) == wanted;
                Facts found;
                CAPTURE(when, cause.made_likelier_by.front().when_text, static_cast<int>(wanted));
                REQUIRE(answering.settle(found, condition, wanted) == possible);
                if (possible) CHECK(evaluate(condition, found, chain(base, found).truth) == wanted);
                if (!possible) CHECK(found.known().empty());
            }
    }
}

TEST_CASE("the search for answers keeps what was told, and gives up after so many tries", "[review][answering][limits]") {
    Rules rules;
    std::string one_each;
    for (int i = 0; i < 40; ++i) {
        rules.sign("s" + std::to_string(i));
        one_each += (i == 0 ? "" : " and ") + ("(s" + std::to_string(i) + " or s0)");
    }
    rules.cause("c", "made likelier by: [{when: s0 and s1, points: slightly}, {when: \"not s0 and " + one_each +
                         "\", points: slightly}, {when: \"" + one_each + " and not s39 and not s0\", points: slightly}]");
    const RuleBase base = rules.base();
    const Answering answering(base);
    const auto& circumstances = base.causes.begin()->made_likelier_by;
    Facts facts = facts_in(base, {"s0=no"});
    CHECK_FALSE(answering.settle(facts, circumstances[0].when, Truth::yes));
    CHECK(facts.known().size() == 1);
    Facts open;
    CHECK_FALSE(answering.settle(open, circumstances[1].when, Truth::yes));  // 2 to the 40th ways, none of them right
    CHECK(open.known().empty());
    // The same with one sign allowed only.
    const AllowedSigns only_s1 = [&](Handle<Sign> sign) { return base.signs[sign].id == "s1"; };
    CHECK_FALSE(answering.settle(open, circumstances[0].when, Truth::yes, only_s1));
    CHECK(answering.settle(facts = facts_in(base, {"s0=yes"}), circumstances[0].when, Truth::yes, only_s1));
}

TEST_CASE("a ranking among all causes is that of the whole engine", "[review][few]") {
    Dice dice(20261128);
    int consequences = 0;
    for (int i = 0; i < 60; ++i) {
        const RuleBase base = random_base(dice);
        const Ranker ranker(base);
        const FewCauses few(ranker);
        std::vector<Handle<Cause>> all;
        for (std::uint32_t c = 0; c < base.causes.size(); ++c) all.push_back({c});
        for (const Facts& facts : all_facts(base)) {
            if (!dice.one_in(20)) continue;
            const Ranking whole = ranker.rank(facts);
            const Ranking same = few.rank({facts, chain(base, facts)}, all);
            REQUIRE(whole.causes.size() == same.causes.size());
            CHECK(whole.nothing_listed == near(same.nothing_listed, 1e-12));
            for (std::size_t k = 0; k < whole.causes.size(); ++k) {
                CHECK(whole.causes[k].cause == same.causes[k].cause);
                CHECK(whole.causes[k].chance == near(same.causes[k].chance, 1e-12));
                CHECK(whole.causes[k].prior == near(same.causes[k].prior, 1e-12));
                CHECK(whole.causes[k].there == near(same.causes[k].there, 1e-9));
                CHECK(whole.causes[k].follows_from == same.causes[k].follows_from);
                consequences += whole.causes[k].follows_from.has_value();
            }
            CHECK(whole.chance_of_any({true, false, true}) == near(same.chance_of_any({true, false, true}), 1e-12));
        }
    }
    CHECK(consequences > 0);
}

}  // namespace review_evidence_test
