// From what was told to ranked causes, through the rule base as a trainer writes it.
#include "engine/ranking.hpp"

#include "engine/words.hpp"
#include "tests/catch.hpp"
#include "tests/engine/random_answers.hpp"
#include "tests/engine/short_rules.hpp"
#include "tests/near.hpp"

#include <algorithm>
#include <cmath>
#include <string>
#include <vector>

namespace engine_ranking_test {

using namespace lidlift;
using namespace lidlift::test;

namespace {

Ranking ranked(const RuleBase& base, const std::vector<std::string>& words) { return Ranker(base).rank(facts_in(base, words)); }

const RankedCause& the_cause(const RuleBase& base, const Ranking& ranking, const std::string& id) {
    const RankedCause* found = ranking.find(base.causes.find(id).value());
    if (!found) throw std::runtime_error("not ranked: " + id);
    return *found;
}
bool is_ranked(const RuleBase& base, const Ranking& ranking, const std::string& id) {
    return ranking.find(base.causes.find(id).value()) != nullptr;
}
double chance_of_cause(const RuleBase& base, const std::vector<std::string>& words, const std::string& id) {
    return the_cause(base, ranked(base, words), id).chance;
}

double balance_sum(const RankedCause& cause) {
    double sum = 0;
    for (const BalanceLine& line : cause.balance) sum += line.decibans;
    return sum;
}

std::vector<double> lines_of(const RankedCause& cause, BalanceLine::Kind kind) {
    std::vector<double> result;
    for (const BalanceLine& line : cause.balance)
        if (line.kind == kind) result.push_back(line.decibans);
    return result;
}

void check_same(const Ranking& a, const Ranking& b) {
    CHECK(a.contradictory == b.contradictory);
    CHECK(a.nothing_listed == b.nothing_listed);
    REQUIRE(a.causes.size() == b.causes.size());
    for (std::size_t i = 0; i < a.causes.size(); ++i) {
        CHECK(a.causes[i].cause == b.causes[i].cause);
        CHECK(a.causes[i].chance == b.causes[i].chance);
        CHECK(a.causes[i].balance.size() == b.causes[i].balance.size());
    }
}

/// method.md section 1.2, the worked example, in a trainer's words.
RuleBase golden_example() {
    return Rules()
        .sign("s1", "seen anyway: almost never")
        .sign("s2", "seen anyway: almost never")
        .sign("s3", "seen anyway: sometimes")
        .sign("s4", "seen anyway: almost never")
        .cause("a", "how common: very common, signs: [{when: s1, seen: usually}, {when: s2, seen: sometimes}]")
        .cause("b", "how common: common, signs: [{when: s1, seen: about half the time}, {when: s3, seen: usually}]")
        .cause("d", "how common: occasional, signs: [{when: s3, seen: almost never}, {when: s4, seen: usually}]")
        .base();
}
const std::vector<std::string> golden_answers = {"s1=yes", "s2=yes", "s3=no", "s4=?"};

}  // namespace

TEST_CASE("the worked example of the method comes out of a rule base in words", "[ranking][golden]") {
    const RuleBase base = golden_example();
    const Ranking ranking = ranked(base, golden_answers);

    struct Expected {
        std::string id;
        double prior;
        std::vector<double> signs;  ///< by size
        double shared;
        double total;
        double chance;
    };
    const std::vector<Expected> table = {{"a", -6.0206, {15.0515, 9.0309}, -2.0090, 16.0528, 0.975785},
                                         {"d", -12.7875, {0.8591}, 0.4204, -11.5080, 0.066000},
                                         {"b", -9.5424, {13.0103, -6.0206}, -10.8581, -13.4108, 0.043607}};
    REQUIRE(ranking.causes.size() == table.size());
    for (std::size_t i = 0; i < table.size(); ++i) {
        const Expected& expected = table[i];
        const RankedCause& cause = ranking.causes[i];
        CAPTURE(expected.id);
        CHECK(id_of(base.causes, cause.cause) == expected.id);
        CHECK(cause.chance == near(expected.chance, 1e-6));
        CHECK(cause.balance.front().decibans == near(expected.prior, 1e-4));
        CHECK(cause.balance.back().kind == BalanceLine::Kind::shared);
        CHECK(cause.balance.back().decibans == near(expected.shared, 1e-4));
        CHECK(balance_sum(cause) == near(expected.total, 1e-4));
        const auto signs = lines_of(cause, BalanceLine::Kind::sign);
        REQUIRE(signs.size() == expected.signs.size());
        for (std::size_t k = 0; k < signs.size(); ++k) CHECK(signs[k] == near(expected.signs[k], 1e-4));
    }
    CHECK(ranking.nothing_listed == near(0.013827, 1e-6));
    CHECK(the_cause(base, ranking, "d").answered == 1);
    CHECK(the_cause(base, ranking, "d").of == 2);
}

TEST_CASE("the worked example gives the chances of all eight sets", "[ranking][golden]") {
    const RuleBase base = golden_example();
    const Ranking ranking = ranked(base, golden_answers);
    struct Expected {
        std::vector<std::uint16_t> set;
        double score;
        double chance;
    };
    const std::vector<Expected> table = {{{}, 0, 0.013827},           {{0}, 18.0618, 0.884917},      {{1}, -2.5527, 0.007682},
                                         {{2}, -11.9284, 0.000887},   {{0, 1}, 2.9979, 0.027575},    {{0, 2}, 6.1334, 0.056763},
                                         {{1, 2}, -8.8081, 0.001819}, {{0, 1, 2}, -3.2575, 0.006531}};
    REQUIRE(ranking.weighed.sets.size() == table.size());
    for (const Expected& expected : table) {
        const auto found = std::find_if(ranking.weighed.sets.begin(), ranking.weighed.sets.end(), [&](const CauseSet& set) {
            std::vector<std::uint16_t> members(set.causes().begin(), set.causes().end());
            std::sort(members.begin(), members.end());
            return members == expected.set;
        });
        CAPTURE(expected.set.size(), expected.chance);
        REQUIRE(found != ranking.weighed.sets.end());
        CHECK(found->score == near(expected.score, 1e-4));
        CHECK(found->chance == near(expected.chance, 1e-6));
    }
}

TEST_CASE("the worked example: what s1 does for b when a explains it already, and what s4 would tell", "[ranking][golden]") {
    const RuleBase base = golden_example();
    const Ranker ranker(base);
    const auto log_odds_of_b = [&](const std::vector<std::string>& words) {
        return decibans(chance_of_cause(base, words, "b"));
    };
    CHECK(log_odds_of_b({"s1=yes", "s2=yes", "s3=no"}) - log_odds_of_b({"s2=yes", "s3=no"}) == near(1.4991, 1e-4));

    const auto prepared = ranker.prepare(facts_in(base, golden_answers));
    const Weighed weighed = weigh(prepared.model, prepared.situation);
    const auto feature_of = [&](const std::string& sign) {
        return ranker.features().features_of(base.signs.find(sign).value()).front().feature;
    };
    CHECK(predicted(prepared.model, weighed, feature_of("s4")).front() == near(0.076150, 1e-6));
    CHECK(information(prepared.model, weighed, feature_of("s4")) == near(0.183289, 1e-6));

    const auto nothing_told = ranker.prepare(Facts());
    const Weighed before = weigh(nothing_told.model, nothing_told.situation);
    CHECK(information(nothing_told.model, before, feature_of("s1")) == near(0.419149, 1e-6));
    CHECK(information(nothing_told.model, before, feature_of("s2")) == near(0.048131, 1e-6));
    CHECK(information(nothing_told.model, before, feature_of("s3")) == near(0.113325, 1e-6));
    CHECK(information(nothing_told.model, before, feature_of("s4")) == near(0.145830, 1e-6));
}

TEST_CASE("where nothing is told every cause has its prior", "[ranking]") {
    const RuleBase base = golden_example();
    const Ranking ranking = ranked(base, {});
    CHECK(the_cause(base, ranking, "a").chance == near(0.20, 1e-9));
    CHECK(the_cause(base, ranking, "b").chance == near(0.10, 1e-9));
    CHECK(the_cause(base, ranking, "d").chance == near(0.05, 1e-9));
    CHECK(ranking.nothing_listed == near(0.8 * 0.9 * 0.95, 1e-9));
}

TEST_CASE("priors are scaled down so that a call expects no more causes than the rule base says", "[ranking]") {
    const auto base = [](const std::string& expected) {
        return Rules()
            .weighing("expected causes: " + expected)
            .sign("s", "seen anyway: sometimes")
            .cause("a", "how common: very common, signs: [{when: s, seen: usually}]")
            .cause("b", "how common: rare, signs: [{when: s, seen: usually}]")
            .cause("c", "how common: common, signs: [{when: s, seen: usually}]")
            .base();
    };
    const RuleBase fewer = base("0.1");
    const Ranking ranking = ranked(fewer, {});
    double sum = 0;
    std::vector<double> odds;
    for (const std::string id : {"a", "b", "c"}) {
        const double prior = the_cause(fewer, ranking, id).prior;
        sum += prior;
        odds.push_back(prior / (1 - prior));
    }
    CHECK(sum == near(0.1, 1e-9));
    // One common factor on the odds: their ratios stay.
    CHECK(odds[0] / odds[1] == near((0.2 / 0.8) / (0.005 / 0.995), 1e-6));
    CHECK(odds[0] / odds[2] == near((0.2 / 0.8) / (0.1 / 0.9), 1e-9));
    // 0.305 causes are expected as it is; they are not made more.
    const RuleBase more = base("1");
    CHECK(the_cause(more, ranked(more, {}), "a").prior == near(0.2, 1e-12));
}

TEST_CASE("the balance of every cause adds up, whatever was told", "[ranking][property]") {
    const RuleBase& base = default_base();
    const Ranker ranker(base);
    Dice dice(20261104);
    Worst difference, set_sum, cause_sum;
    for (int i = 0; i < 200; ++i) {
        const auto words = random_answers(dice, base, dice.whole(1, 6));
        const Ranking ranking = ranker.rank(facts_in(base, words));
        if (ranking.contradictory) continue;
        double all = 0;
        for (const CauseSet& set : ranking.weighed.sets) all += set.chance;
        set_sum.add(all, 1);
        for (const RankedCause& cause : ranking.causes) {
            difference.add(balance_sum(cause), 10 * std::log10(cause.chance / (1 - cause.chance)));
            // The same chance, added up over the sets that hold the cause.
            double chance = 0;
            for (const CauseSet& set : ranking.weighed.sets)
                if (set.contains(cause.cause.index)) chance += set.chance;
            cause_sum.add(cause.chance, std::min(std::max(chance, 1e-9), 1 - 1e-9));
        }
    }
    CHECK(difference.value() < 1e-9);
    CHECK(set_sum.value() < 1e-9);
    CHECK(cause_sum.value() < 1e-9);
}

TEST_CASE("causes come by chance, then by prior, then by name", "[ranking][property]") {
    const RuleBase& base = default_base();
    const Ranker ranker(base);
    Dice dice(20261105);
    int wrong = 0;
    for (int i = 0; i < 200; ++i) {
        const Ranking ranking = ranker.rank(facts_in(base, random_answers(dice, base, dice.whole(0, 5))));
        for (std::size_t k = 1; k < ranking.causes.size(); ++k) {
            const RankedCause& a = ranking.causes[k - 1];
            const RankedCause& b = ranking.causes[k];
            const bool in_order =
                a.chance > b.chance || (a.chance == b.chance && a.prior > b.prior) ||
                (a.chance == b.chance && a.prior == b.prior && id_of(base.causes, a.cause) < id_of(base.causes, b.cause));
            wrong += !in_order;
        }
    }
    CHECK(wrong == 0);
    const RuleBase twins = Rules()
                               .sign("s", "seen anyway: sometimes")
                               .cause("zebra", "signs: [{when: s, seen: usually}]")
                               .cause("ant", "signs: [{when: s, seen: usually}]")
                               .base();
    const Ranking ranking = ranked(twins, {"s=yes"});
    CHECK(id_of(twins.causes, ranking.causes[0].cause) == "ant");
}

TEST_CASE("the order in which answers are told changes nothing", "[ranking][property]") {
    const RuleBase& base = default_base();
    const Ranker ranker(base);
    Dice dice(20261106);
    for (int i = 0; i < 60; ++i) {
        auto words = random_answers(dice, base, dice.whole(2, 6));
        const Ranking ranking = ranker.rank(facts_in(base, words));
        dice.shuffle(words);
        CAPTURE(i);
        check_same(ranking, ranker.rank(facts_in(base, words)));
    }
}

TEST_CASE("a cause is only thought of at its stages", "[ranking]") {
    const RuleBase base = Rules()
                              .sign("stage", "answers: {bed: {means: bed}, rest: {means: rest}, move: {means: move}}")
                              .sign("s", "seen anyway: sometimes")
                              .cause("in_bed", "stages: [bed], signs: [{when: s, seen: usually}]")
                              .cause("at_rest", "stages: [rest, move], signs: [{when: s, seen: usually}]")
                              .cause("ever", "signs: [{when: s, seen: usually}]")
                              .base();
    struct Row {
        std::string told;
        bool in_bed;
        bool at_rest;
    };
    for (const Row& row : std::vector<Row>{{"stage=bed", true, false},
                                           {"stage=rest", false, true},
                                           {"stage=move", false, true},
                                           {"stage=bed,unsure", true, false},
                                           {"stage=bed,guess", true, true},
                                           {"stage=?", true, true},
                                           {"stage=not bed", false, true},
                                           {"stage=not move", true, true}}) {
        CAPTURE(row.told);
        const Ranking ranking = ranked(base, {row.told, "s=yes"});
        CHECK(is_ranked(base, ranking, "in_bed") == row.in_bed);
        CHECK(is_ranked(base, ranking, "at_rest") == row.at_rest);
        CHECK(is_ranked(base, ranking, "ever"));
    }
    CHECK(is_ranked(base, ranked(base, {"s=yes"}), "in_bed"));
}

TEST_CASE("a hard veto needs a sure answer", "[ranking]") {
    const RuleBase base =
        Rules()
            .sign("s", "seen anyway: sometimes")
            .sign("drain", "answers: {clear: {means: clear}, blocked: {means: blocked}}")
            .sign("dug")
            .conclusion("open")
            .rule("r", "drain is clear", "open")
            .cause("blocked_drain", "signs: [{when: s, seen: usually}], cannot be when: open, must be when: dug")
            .cause("other", "signs: [{when: s, seen: usually}]")
            .base();
    for (const std::string told : {"drain=clear,unsure", "drain=clear,guess", "drain=?", "drain=blocked"}) {
        CAPTURE(told);
        CHECK(is_ranked(base, ranked(base, {told}), "blocked_drain"));
    }
    CHECK_FALSE(is_ranked(base, ranked(base, {"drain=clear"}), "blocked_drain"));
    CHECK(chance_of_cause(base, {"dug=yes"}, "blocked_drain") == near(1, 1e-8));
    CHECK(chance_of_cause(base, {"dug=yes,unsure"}, "blocked_drain") < 0.5);
    CHECK(chance_of_cause(base, {"dug=no"}, "blocked_drain") < 0.5);
}

TEST_CASE("answers that rule out every explanation are said to be contradictory", "[ranking]") {
    const RuleBase base = Rules()
                              .sign("a", "seen anyway: sometimes")
                              .sign("b")
                              .cause("x", "signs: [{when: a, seen: usually}], must be when: a, cannot be when: b")
                              .base();
    const Ranking ranking = ranked(base, {"a=yes", "b=yes"});
    CHECK(ranking.contradictory);
    CHECK(ranking.causes.empty());
    CHECK(ranking.weighed.sets.empty());
    CHECK_FALSE(ranked(base, {"a=yes", "b=no"}).contradictory);
    CHECK_FALSE(ranked(base, {"a=yes", "b=yes,unsure"}).contradictory);
}

TEST_CASE("causes that exclude each other never stand in one explanation", "[ranking]") {
    const auto rules = [](const std::string& of_wet) {
        return Rules()
            .sign("s", "seen anyway: almost never")
            .sign("t", "seen anyway: almost never")
            .cause("wet", of_wet + "signs: [{when: s, seen: usually}]")
            .cause("dry", "signs: [{when: t, seen: usually}]")
            .base();
    };
    const auto together = [](const Ranking& ranking) {
        double chance = 0;
        for (const CauseSet& set : ranking.weighed.sets)
            if (set.size == 2) chance += set.chance;
        return chance;
    };
    const RuleBase free = rules("");
    CHECK(together(ranked(free, {"s=yes", "t=yes"})) > 0.5);
    CHECK(ranked(free, {"s=yes", "t=yes"}).together.size() == 2);
    for (const std::string key : {"not together with: [dry], ", "alone: yes, "}) {
        CAPTURE(key);
        const RuleBase apart = rules(key);
        const Ranking ranking = ranked(apart, {"s=yes", "t=yes"});
        CHECK(together(ranking) == 0);
        CHECK(ranking.together.empty());
        CHECK(the_cause(apart, ranking, "wet").chance + the_cause(apart, ranking, "dry").chance <= 1);
    }
}

TEST_CASE("the largest set is what the rule base says", "[ranking]") {
    for (const std::size_t largest : {1U, 2U, 3U}) {
        Rules rules;
        rules.weighing("largest set: " + std::to_string(largest)).sign("s", "seen anyway: sometimes");
        for (const std::string id : {"a", "b", "c", "d"}) rules.cause(id, "signs: [{when: s, seen: usually}]");
        const RuleBase base = rules.base();
        std::size_t most = 0;
        for (const CauseSet& set : ranked(base, {"s=yes"}).weighed.sets) most = std::max<std::size_t>(most, set.size);
        CHECK(most == largest);
    }
}

TEST_CASE("in brief the causes come in the same order, and those that stand together are named", "[ranking]") {
    const RuleBase free = Rules()
                              .sign("s", "seen anyway: almost never")
                              .sign("t", "seen anyway: almost never")
                              .sign("u", "seen anyway: almost never")
                              .cause("less_common", "how common: common, signs: [{when: s, seen: usually}]")
                              .cause("common", "how common: very common, signs: [{when: t, seen: usually}]")
                              .cause("other", "how common: occasional, signs: [{when: u, seen: usually}]")
                              .base();
    for (const std::vector<std::string>& words :
         std::vector<std::vector<std::string>>{{}, {"t=yes"}, {"s=yes", "t=yes"}, {"s=yes", "t=no"}}) {
        const Facts facts = facts_in(free, words);
        const Ranking brief = Ranker(free).rank_in_brief(facts);
        const Ranking whole = Ranker(free).rank(facts);
        REQUIRE(brief.causes.size() == whole.causes.size());
        for (std::size_t i = 0; i < whole.causes.size(); ++i) {
            CHECK(brief.causes[i].cause == whole.causes[i].cause);
            if (i > 0) CHECK(brief.causes[i - 1].chance >= brief.causes[i].chance);
        }
        CHECK(brief.together == whole.together);
    }
    CHECK(Ranker(free).rank_in_brief(facts_in(free, {"s=yes", "t=yes"})).together.size() == 2);
    CHECK(Ranker(free).rank_in_brief(facts_in(free, {"s=yes"})).together.empty());
}

}  // namespace engine_ranking_test
