// Forward chaining: what holds, what does not, what stays unknown, and why.
#include "engine/chaining.hpp"

#include "tests/catch.hpp"
#include "tests/engine/random_answers.hpp"
#include "tests/engine/short_rules.hpp"

#include <algorithm>
#include <map>
#include <set>
#include <string>
#include <vector>

namespace engine_chaining_test {

using namespace lidlift;
using namespace lidlift::test;

namespace {

Truth truth_of(const RuleBase& base, const std::vector<std::string>& words, const std::string& conclusion) {
    return chain(base, facts_in(base, words)).truth[base.conclusions.find(conclusion).value().index];
}

std::string reason_of(const RuleBase& base, const std::vector<std::string>& words, const std::string& conclusion) {
    const auto rule = chain(base, facts_in(base, words)).because[base.conclusions.find(conclusion).value().index];
    return rule ? id_of(base.rules, *rule) : "none";
}

Sureness sureness_in(const RuleBase& base, const std::vector<std::string>& words, const std::string& conclusion) {
    return chain(base, facts_in(base, words)).sureness[base.conclusions.find(conclusion).value().index];
}

RuleBase two_rules() {
    return Rules()
        .sign("a")
        .sign("b")
        .conclusion("wet")
        .rule("by_a", "a", "wet")
        .rule("by_b", "b", "wet")
        .conclusion("orphan")
        .base();
}

}  // namespace

TEST_CASE("a conclusion holds when any of its rules does, and fails only when all of them do", "[chaining]") {
    struct Row {
        std::string a;
        std::string b;
        Truth expected;
    };
    const RuleBase base = two_rules();
    for (const Row& row : std::vector<Row>{{"yes", "yes", Truth::yes},
                                           {"yes", "no", Truth::yes},
                                           {"no", "yes", Truth::yes},
                                           {"yes", "?", Truth::yes},
                                           {"?", "yes", Truth::yes},
                                           {"no", "no", Truth::no},
                                           {"no", "?", Truth::unknown},
                                           {"?", "no", Truth::unknown},
                                           {"?", "?", Truth::unknown}}) {
        CAPTURE(row.a, row.b);
        CHECK(truth_of(base, {"a=" + row.a, "b=" + row.b}, "wet") == row.expected);
    }
    CHECK(truth_of(base, {}, "wet") == Truth::unknown);
}

TEST_CASE("a conclusion without a rule stays unknown", "[chaining]") {
    CHECK(truth_of(two_rules(), {"a=yes", "b=no"}, "orphan") == Truth::unknown);
    CHECK(truth_of(two_rules(), {"a=no", "b=no"}, "orphan") == Truth::unknown);
}

TEST_CASE("the reason for a conclusion is a rule that holds", "[chaining]") {
    const RuleBase base = two_rules();
    CHECK(reason_of(base, {"a=yes"}, "wet") == "by_a");
    CHECK(reason_of(base, {"a=no", "b=yes"}, "wet") == "by_b");
    CHECK(reason_of(base, {"a=no", "b=no"}, "wet") == "none");
    CHECK(reason_of(base, {}, "wet") == "none");
}

TEST_CASE("conclusions reach through rules, whatever the order in the file", "[chaining]") {
    const RuleBase base = Rules()
                              .sign("a")
                              .conclusion("last")
                              .conclusion("middle")
                              .conclusion("first")
                              .rule("r3", "middle and not first is no", "last")
                              .rule("r2", "first", "middle")
                              .rule("r1", "a", "first")
                              .base();
    CHECK(truth_of(base, {"a=yes"}, "last") == Truth::yes);
    CHECK(truth_of(base, {"a=no"}, "last") == Truth::no);
    CHECK(truth_of(base, {"a=?"}, "last") == Truth::unknown);
}

TEST_CASE("not, at least and is known are three-valued through rules as well", "[chaining]") {
    const RuleBase base = Rules()
                              .sign("a")
                              .sign("b")
                              .sign("c")
                              .conclusion("wet")
                              .conclusion("dry")
                              .conclusion("told")
                              .conclusion("two_of_three")
                              .conclusion("sure")
                              .rule("r1", "a", "wet")
                              .rule("r2", "not wet", "dry")
                              .rule("r3", "wet is known", "told")
                              .rule("r4", "at least 2 of (a, b, c)", "two_of_three")
                              .rule("r5", "always", "sure")
                              .base();
    CHECK(truth_of(base, {}, "dry") == Truth::unknown);
    CHECK(truth_of(base, {"a=no"}, "dry") == Truth::yes);
    CHECK(truth_of(base, {}, "told") == Truth::no);
    CHECK(truth_of(base, {"a=no"}, "told") == Truth::yes);
    CHECK(truth_of(base, {"a=yes", "b=yes"}, "two_of_three") == Truth::yes);
    CHECK(truth_of(base, {"a=no", "b=no"}, "two_of_three") == Truth::no);
    CHECK(truth_of(base, {"a=no", "b=yes"}, "two_of_three") == Truth::unknown);
    CHECK(truth_of(base, {}, "sure") == Truth::yes);
}

TEST_CASE("a conclusion is as sure as the least sure answer that settled it", "[chaining]") {
    const RuleBase base = Rules()
                              .sign("a")
                              .sign("b")
                              .conclusion("both")
                              .conclusion("either")
                              .rule("r1", "a and b", "both")
                              .rule("r2", "a", "either")
                              .rule("r3", "b", "either")
                              .base();
    CHECK(sureness_in(base, {"a=yes", "b=yes"}, "both") == Sureness::sure);
    CHECK(sureness_in(base, {"a=yes,unsure", "b=yes"}, "both") == Sureness::unsure);
    CHECK(sureness_in(base, {"a=yes,unsure", "b=yes,guess"}, "both") == Sureness::guess);
    // The other answer settles it just as well, and is sure.
    CHECK(sureness_in(base, {"a=yes,guess", "b=yes"}, "either") == Sureness::sure);
    CHECK(sureness_in(base, {"a=yes", "b=yes,guess"}, "either") == Sureness::sure);
    CHECK(sureness_in(base, {"a=no,guess", "b=yes"}, "either") == Sureness::sure);
    CHECK(sureness_in(base, {"a=no,guess", "b=no"}, "either") == Sureness::guess);
    // That b is surely no settles it, whatever a is.
    CHECK(sureness_in(base, {"a=no,guess", "b=no"}, "both") == Sureness::sure);
    CHECK(sureness_in(base, {"a=no", "b=no,guess"}, "both") == Sureness::sure);
}

TEST_CASE("every rule stands once in the order of work, after the rules that it needs", "[chaining]") {
    // So that chaining looks at each rule once: linear in the rule base.
    const RuleBase& base = default_base();
    std::set<std::uint32_t> done;
    std::map<std::uint32_t, int> left;
    for (const Rule& rule : base.rules) ++left[rule.then.index];
    for (const Handle<Rule> handle : base.rule_order) {
        const Rule& rule = base.rules[handle];
        CHECK(done.insert(handle.index).second);
        for (const auto used : mentioned(rule.when).conclusions) {
            CAPTURE(rule.id, id_of(base.conclusions, used));
            CHECK(left[used.index] == 0);
        }
        --left[rule.then.index];
    }
    CHECK(done.size() == base.rules.size());
}

TEST_CASE("what settled a condition is told for every sort of sign", "[chaining]") {
    const RuleBase base = Rules()
                              .sign("wet", "name: Water, answers: {yes: {means: it stands}, no: {means: none stands}}")
                              .sign("warmth", "name: Warmth, measured in: °C, plausible: -20 to 90")
                              .conclusion("hot")
                              .rule("hot_by_number", "warmth above 30 °C and wet", "hot")
                              .base();
    const Facts facts = facts_in(base, {"warmth=41 °C", "wet=yes"});
    const std::string told = settled_in_words(base.rules[Handle<Rule>{0}].when, base, facts, chain(base, facts));
    CHECK(told.find("Warmth: 41 °C") != std::string::npos);
    CHECK(told.find("Water: it stands") != std::string::npos);
}

TEST_CASE("over the default rules every reason holds, and every unsettled conclusion is unsettled", "[chaining][property]") {
    const RuleBase& base = default_base();
    Dice dice(20261117);
    int settled = 0;
    int wrong = 0;
    for (int i = 0; i < 2000; ++i) {
        const Facts facts = facts_in(base, random_answers(dice, base, dice.whole(0, 25)));
        const Conclusions conclusions = chain(base, facts);
        for (std::uint32_t c = 0; c < base.conclusions.size(); ++c) {
            // The definition in rules/FORMAT.md section 4, rule by rule.
            int rules = 0, yes = 0, no = 0;
            for (const Rule& rule : base.rules) {
                if (rule.then.index != c) continue;
                const Truth truth = evaluate(rule.when, facts, conclusions.truth);
                ++rules;
                yes += truth == Truth::yes;
                no += truth == Truth::no;
            }
            const Truth expected = yes > 0 ? Truth::yes : rules > 0 && no == rules ? Truth::no : Truth::unknown;
            wrong += conclusions.truth[c] != expected;
            settled += expected != Truth::unknown;
            wrong += conclusions.because[c].has_value() != (expected == Truth::yes);
            if (!conclusions.because[c]) continue;
            const Rule& reason = base.rules[*conclusions.because[c]];
            wrong += reason.then.index != c || evaluate(reason.when, facts, conclusions.truth) != Truth::yes;
        }
    }
    CHECK(wrong == 0);
    CHECK(settled > 1000);
}

TEST_CASE("what more is told settles more and unsettles nothing, but for is known", "[chaining][property]") {
    const RuleBase& base = default_base();
    Dice dice(20261118);
    // Conclusions that hang on "is known" may turn when something becomes known.
    std::vector<bool> free(base.conclusions.size(), true);
    for (const Handle<Rule> handle : base.rule_order) {
        const Rule& rule = base.rules[handle];
        bool bound = rule.when_text.find("known") != std::string::npos;
        for (const auto used : mentioned(rule.when).conclusions) bound = bound || !free[used.index];
        if (bound) free[rule.then.index] = false;
    }
    int unsettled = 0;
    int compared = 0;
    for (int i = 0; i < 500; ++i) {
        const auto words = random_answers(dice, base, 20);
        std::vector<std::string> fewer(words.begin(), words.begin() + dice.whole(0, 19));
        const Conclusions less = chain(base, facts_in(base, fewer));
        const Conclusions more = chain(base, facts_in(base, words));
        for (std::size_t c = 0; c < free.size(); ++c) {
            if (!free[c] || less.truth[c] == Truth::unknown) continue;
            ++compared;
            unsettled += more.truth[c] != less.truth[c];
        }
    }
    CHECK(unsettled == 0);
    CHECK(compared > 100);
}

TEST_CASE("the order of the files and of the answers changes no conclusion", "[chaining][property]") {
    std::vector<RuleText> files = default_rules();
    Dice dice(20261119);
    const RuleBase& base = default_base();
    for (int i = 0; i < 5; ++i) {
        dice.shuffle(files);
        const RuleBase shuffled = base_of(files);
        for (int k = 0; k < 40; ++k) {
            auto words = random_answers(dice, base, dice.whole(1, 15));
            const Conclusions one = chain(base, facts_in(base, words));
            dice.shuffle(words);
            const Conclusions two = chain(shuffled, facts_in(shuffled, words));
            int different = 0;
            for (std::uint32_t c = 0; c < base.conclusions.size(); ++c) {
                const auto other = shuffled.conclusions.find(base.conclusions[Handle<Conclusion>{c}].id).value();
                different += one.truth[c] != two.truth[other.index] || one.sureness[c] != two.sureness[other.index];
            }
            CHECK(different == 0);
        }
    }
}

TEST_CASE("the signs that could still settle a condition are found through rules", "[chaining]") {
    const RuleBase base = Rules()
                              .sign("a")
                              .sign("b")
                              .sign("c")
                              .conclusion("inner")
                              .conclusion("outer")
                              .rule("r1", "a or b", "inner")
                              .rule("r2", "inner and c", "outer")
                              .base();
    const Condition outer{Concluded{base.conclusions.find("outer").value()}};
    const auto settle = [&](const std::vector<std::string>& words) {
        const Facts facts = facts_in(base, words);
        std::vector<std::string> ids;
        for (const auto sign : signs_to_settle(outer, base, facts, chain(base, facts))) ids.push_back(id_of(base.signs, sign));
        std::sort(ids.begin(), ids.end());
        return ids;
    };
    using Ids = std::vector<std::string>;
    CHECK(settle({}) == Ids{"a", "b", "c"});
    CHECK(settle({"a=yes"}) == Ids{"c"});
    CHECK(settle({"a=no"}) == Ids{"b", "c"});
    CHECK(settle({"c=yes"}) == Ids{"a", "b"});
    CHECK(settle({"c=no"}).empty());
    CHECK(settle({"a=yes", "c=yes"}).empty());
}

TEST_CASE("what settled a condition: each part once, in the order of the condition, and no more than settled it",
          "[chaining]") {
    const RuleBase base = Rules()
                              .sign("wet", "name: Water, answers: {yes: {means: it stands}, no: {means: none stands}}")
                              .sign("roof", "name: Roof, answers: {sound: {means: sound}, leaks: {means: it leaks}}")
                              .sign("warmth", "name: Warmth, measured in: °C, plausible: -20 to 90")
                              .conclusion("soaked", "means: it is soaked")
                              .rule("r1", "wet", "soaked")
                              .rule("both", "wet and (wet or warmth above 10 °C) and warmth below 30 °C", "soaked")
                              .rule("either", "roof is leaks or warmth above 10 °C", "soaked")
                              .rule("told_of", "roof is known or soaked", "soaked_again")
                              .rule("not_told", "not roof is known and not soaked", "soaked_again")
                              .conclusion("soaked_again")
                              .base();
    const auto told = [&](const char* rule, const std::vector<std::string>& words) {
        const Facts facts = facts_in(base, words);
        return settled_in_words(base.rules[base.rules.find(rule).value()].when, base, facts, chain(base, facts));
    };
    CHECK(told("both", {"wet=yes", "warmth=20 °C"}) == "Water: it stands; Warmth: 20 °C");
    CHECK(told("both", {"wet=no", "warmth=20 °C"}) == "Water: none stands");
    CHECK(told("either", {"roof=sound", "warmth=20 °C"}) == "Warmth: 20 °C");
    CHECK(told("either", {"roof=sound", "warmth=5 °C"}) == "Roof: sound; Warmth: 5 °C");
    CHECK(told("either", {}).empty());
    CHECK(told("told_of", {"roof=leaks"}) == "Roof: it leaks");
    CHECK(told("told_of", {"wet=yes"}) == "it is soaked (Water: it stands)");
    CHECK(told("not_told", {"wet=no", "warmth=5 °C"}) == "");  // whether it is soaked hangs on the roof
    CHECK(told("not_told", {"wet=yes"}) == "it is soaked (Water: it stands)");
}

TEST_CASE("an explanation goes four rules deep and then names the conclusion alone", "[chaining]") {
    Rules rules;
    rules.sign("a").conclusion("c0").rule("r0", "a", "c0");
    for (int i = 1; i <= 6; ++i)
        rules.conclusion("c" + std::to_string(i))
            .rule("r" + std::to_string(i), "c" + std::to_string(i - 1), "c" + std::to_string(i));
    const RuleBase base = rules.base();
    const Facts facts = facts_in(base, {"a=yes"});
    const auto told = [&](const char* conclusion) {
        const Condition condition{Concluded{base.conclusions.find(conclusion).value()}};
        return settled_in_words(condition, base, facts, chain(base, facts));
    };
    CHECK(told("c6") == "c6 (c5 (c4 (c3 (c2))))");
    CHECK(told("c3") == "c3 (c2 (c1 (c0 (a: yes))))");
    CHECK(told("c4") == "c4 (c3 (c2 (c1 (c0))))");
}

TEST_CASE("of a quorum the surest that suffice count, through rules as well", "[chaining]") {
    const RuleBase base = Rules()
                              .sign("a")
                              .sign("b")
                              .sign("c")
                              .conclusion("two")
                              .conclusion("after")
                              .conclusion("none")
                              .rule("r1", "at least 2 of (a, b, c)", "two")
                              .rule("r2", "two and a", "after")
                              .rule("r3", "not two", "none")
                              .base();
    CHECK(sureness_in(base, {"a=yes", "b=yes,unsure", "c=yes,guess"}, "two") == Sureness::unsure);
    CHECK(sureness_in(base, {"a=yes", "b=yes", "c=yes,guess"}, "two") == Sureness::sure);
    CHECK(sureness_in(base, {"a=yes", "b=no", "c=yes,guess"}, "two") == Sureness::guess);
    // Two of three have to be no for it to fail.
    CHECK(sureness_in(base, {"a=no", "b=no,unsure", "c=no,guess"}, "two") == Sureness::unsure);
    CHECK(sureness_in(base, {"a=no,unsure", "b=yes", "c=no,guess"}, "two") == Sureness::guess);
    CHECK(sureness_in(base, {"a=yes,guess"}, "two") == Sureness::sure);  // nothing is settled, so nothing is doubtful
    CHECK(sureness_in(base, {"a=yes", "b=yes,unsure"}, "after") == Sureness::unsure);
    CHECK(sureness_in(base, {"a=no", "b=no,guess"}, "none") == Sureness::guess);
}

TEST_CASE("of several rules the surest that holds counts, and where none holds the least sure", "[chaining]") {
    const RuleBase base = two_rules();
    CHECK(sureness_in(base, {"a=yes,unsure", "b=yes,guess"}, "wet") == Sureness::unsure);
    CHECK(sureness_in(base, {"a=yes,guess", "b=yes,unsure"}, "wet") == Sureness::unsure);
    CHECK(sureness_in(base, {"a=yes,unsure", "b=no,guess"}, "wet") == Sureness::unsure);
    CHECK(sureness_in(base, {"a=no,guess", "b=yes,unsure"}, "wet") == Sureness::unsure);
    CHECK(sureness_in(base, {"a=no,unsure", "b=no,guess"}, "wet") == Sureness::guess);
    CHECK(sureness_in(base, {"a=no,guess", "b=no,unsure"}, "wet") == Sureness::guess);
}

TEST_CASE("the reason stays the first rule that held", "[chaining]") {
    CHECK(reason_of(two_rules(), {"a=yes", "b=yes"}, "wet") == "by_a");
}

TEST_CASE("a sign that several rules hang on is to be settled once", "[chaining]") {
    const RuleBase base = Rules()
                              .sign("a")
                              .sign("b")
                              .conclusion("inner")
                              .conclusion("outer")
                              .rule("r1", "a and b", "inner")
                              .rule("r2", "a", "inner")
                              .rule("r3", "inner and a", "outer")
                              .base();
    const Condition outer{Concluded{base.conclusions.find("outer").value()}};
    const auto signs = signs_to_settle(outer, base, {}, chain(base, {}));
    CHECK(signs.size() == 2);
    CHECK(signs.front() != signs.back());
}

TEST_CASE("one part tells where it was recorded in full, several in brief", "[chaining]") {
    const RuleBase base = Rules()
                              .sign("wet", "name: Water, answers: {yes: {means: it stands}, no: {means: none stands}}")
                              .sign("roof", "name: Roof, answers: {sound: {means: sound}, leaks: {means: it leaks}}")
                              .conclusion("soaked")
                              .rule("one", "wet", "soaked")
                              .rule("two", "wet and roof is leaks", "soaked")
                              .base();
    Told told;
    for (const char* sign : {"wet", "roof"})
        REQUIRE_FALSE(
            hear(told, base, sign, sign == std::string("wet") ? "yes" : "leaks", "the tank's record: seen on Monday"));
    const auto words = [&](const char* rule) {
        const Conclusions conclusions = chain(base, told.facts);
        return settled_in_words(base.rules[base.rules.find(rule).value()].when, base, told.facts, conclusions);
    };
    CHECK(words("one") == "Water: it stands (from the tank's record: seen on Monday)");
    CHECK(words("two") == "Water: it stands (record: seen on Monday); Roof: it leaks (record: seen on Monday)");
}

}  // namespace engine_chaining_test
