// The logic kinds one by one: what is told, where, and that the engine agrees with every witness.
#include "engine/chaining.hpp"
#include "tests/engine/short_rules.hpp"
#include "tests/review/review_files.hpp"

namespace review_logic_test {

using namespace lidlift;
using namespace lidlift::test;

namespace {

struct Shown {
    RuleBase base;
    ReviewFinding finding;
    Facts facts;
    Conclusions conclusions;

    [[nodiscard]] Truth rule(const std::string& id) const {
        return evaluate(base.rules[*base.rules.find(id)].when, facts, conclusions.truth);
    }
    [[nodiscard]] Truth conclusion(const std::string& id) const { return conclusions.truth[base.conclusions.find(id)->index]; }
};

Shown at(RuleBase base, ReviewFinding finding, const std::vector<std::string>& words) {
    Facts facts = facts_in(base, words);
    Conclusions conclusions = chain(base, facts);
    return {std::move(base), std::move(finding), std::move(facts), std::move(conclusions)};
}

/// The only finding of the kind in its bad file, with its witness told to the engine.
Shown shown(const std::string& kind) {
    auto found = of_kind(findings_in("bad_" + kind), kind);
    REQUIRE(found.size() == 1);
    RuleBase base = read_review_file("bad_" + kind).rule_base;
    const auto words = typed(found.front());
    return at(std::move(base), std::move(found.front()), words);
}

std::vector<ReviewFinding> logic_of(const Rules& rules, const std::string& kind) { return of_kind(review(rules.base()), kind); }

}  // namespace

TEST_CASE("a condition that is never true is told with the parts that exclude each other", "[review][logic]") {
    const auto found = of_kind(findings_in("bad_never_true"), "never_true");
    REQUIRE(found.size() == 1);
    CHECK(found.front().about == std::vector<std::string>{"wet_rain"});
    CHECK(to_text(found.front().place) == "bad_never_true.yaml:35:20");
    CHECK(found.front().mend.find("squeeze is crumbles; squeeze is stream;") != std::string::npos);
    CHECK(found.front().witness.empty());
}

TEST_CASE("a rule that is always true is told once, and what rests on it is not told again", "[review][logic]") {
    const auto found = of_kind(findings_in("bad_always_true"), "always_true");
    REQUIRE(found.size() == 1);
    CHECK(found.front().about == std::vector<std::string>{"wet_hand"});
}

TEST_CASE("two rules that make a conclusion always true between them are told where it is used", "[review][logic]") {
    const auto rules = Rules()
                           .sign("rained", "seen anyway: sometimes")
                           .conclusion("either", "seen anyway: sometimes")
                           .rule("one", "rained", "either")
                           .rule("two", "not rained", "either")
                           .step("wait")
                           .cause("wet", "signs: [{when: either, seen: usually}], expect: e, steps: [wait]");
    const auto found = logic_of(rules, "always_true");
    REQUIRE(found.size() == 1);
    CHECK(found.front().about == std::vector<std::string>{"wet"});
}

TEST_CASE("what is known need not be: 'is known' is no condition that always holds", "[review][logic]") {
    const auto rules = [](const std::string& when) {
        return Rules().sign("rained").conclusion("either").rule("one", when, "either").caution("K", "when: either");
    };
    CHECK(logic_of(rules("rained is known"), "always_true").empty());
    CHECK(logic_of(rules("rained is known or rained is unknown"), "always_true").size() == 1);
    CHECK(logic_of(rules("rained or not rained"), "always_true").size() == 1);
    CHECK(logic_of(rules("always"), "always_true").size() == 1);  // at the caution, which rests on it; the rule says it plainly
    CHECK(logic_of(rules("rained is unknown and rained"), "never_true").size() == 1);
    CHECK(logic_of(rules("rained is unknown or rained"), "always_true").empty());
}

TEST_CASE("of two rules that say the same the later is told, with answers that make both hold", "[review][logic]") {
    const Shown both = shown("doubled_rule");
    CHECK(both.finding.about == std::vector<std::string>{"wet_again", "wet_hand"});
    CHECK(both.rule("wet_hand") == Truth::yes);
    CHECK(both.rule("wet_again") == Truth::yes);
}

TEST_CASE("a rule that others cover between them is told with all of them", "[review][logic]") {
    const Shown covered = shown("swallowed_rule");
    CHECK(covered.finding.about == std::vector<std::string>{"near", "acid", "not_acid"});
    CHECK(covered.rule("near") == Truth::yes);
    CHECK((covered.rule("acid") == Truth::yes || covered.rule("not_acid") == Truth::yes));
}

TEST_CASE("a narrower rule is swallowed by a wider one, in whichever order they stand", "[review][logic]") {
    const auto rules = [](const std::string& first, const std::string& second) {
        return Rules()
            .sign("a")
            .sign("b")
            .conclusion("c")
            .rule("first", first, "c")
            .rule("second", second, "c")
            .caution("K", "when: c");
    };
    auto found = logic_of(rules("a", "a and b"), "swallowed_rule");
    REQUIRE(found.size() == 1);
    CHECK(found.front().about == std::vector<std::string>{"second", "first"});
    found = logic_of(rules("a and b", "a"), "swallowed_rule");
    REQUIRE(found.size() == 1);
    CHECK(found.front().about == std::vector<std::string>{"first", "second"});
}

TEST_CASE("a rule that holds while something is unknown is not swallowed by rules that want it known", "[review][logic]") {
    const auto rules = Rules()
                           .sign("a")
                           .sign("b")
                           .conclusion("c")
                           .rule("wide", "a", "c")
                           .rule("with_b", "a and b", "c")
                           .rule("without_b", "a and not b", "c")
                           .caution("K", "when: c");
    const auto found = logic_of(rules, "swallowed_rule");
    REQUIRE(found.size() == 2);
    CHECK(found[0].about == std::vector<std::string>{"with_b", "wide"});
    CHECK(found[1].about == std::vector<std::string>{"without_b", "wide"});
}

TEST_CASE("conclusions that exclude each other are shown to hold together", "[review][logic]") {
    const Shown both = shown("contradiction");
    CHECK(both.conclusion("wet") == Truth::yes);
    CHECK(both.conclusion("dry") == Truth::yes);
}

TEST_CASE("a cause that must be and cannot be, or must be beside one it never stands beside, is a contradiction",
          "[review][logic]") {
    const std::string more = "expect: e, steps: [wait], signs: [{when: a, seen: usually}]";
    const auto base = [&](const std::string& one, const std::string& two) {
        return Rules()
            .sign("a", "seen anyway: sometimes")
            .sign("b", "seen anyway: sometimes")
            .step("wait")
            .cause("one", one + ", " + more)
            .cause("two", two + ", " + more);
    };
    CHECK(logic_of(base("must be when: a, cannot be when: b", "must be when: b"), "contradiction").size() == 1);
    CHECK(logic_of(base("must be when: a and not b, cannot be when: b", "must be when: b"), "contradiction").empty());
    auto found = logic_of(base("must be when: a, not together with: [two]", "must be when: b"), "contradiction");
    REQUIRE(found.size() == 1);
    CHECK(found.front().about == std::vector<std::string>{"two", "one"});
    CHECK(typed(found.front()) == std::vector<std::string>{"a=yes", "b=yes"});
    CHECK(logic_of(base("must be when: a, alone: yes", "must be when: b"), "contradiction").size() == 1);
    CHECK(logic_of(base("must be when: a, alone: yes", "must be when: b and not a"), "contradiction").empty());
    CHECK(logic_of(base("must be when: a", "must be when: b"), "contradiction").empty());
}

TEST_CASE("what speaks for a cause only while the cause is ruled out can never count", "[review][logic]") {
    const Shown vetoed = shown("cannot_apply");
    const Cause& cause = vetoed.base.causes[*vetoed.base.causes.find("too_wet")];
    CHECK(evaluate(cause.made_likelier_by.front().when, vetoed.facts, vetoed.conclusions.truth) == Truth::yes);
    CHECK(evaluate(*cause.cannot_be_when, vetoed.facts, vetoed.conclusions.truth) == Truth::yes);
}

TEST_CASE("what needs a conclusion that nothing makes true is told, with that conclusion", "[review][logic]") {
    const auto rules = Rules()
                           .sign("a")
                           .conclusion("without_rule")
                           .conclusion("dead")
                           .conclusion("further")
                           .rule("dead_rule", "a and not a", "dead")
                           .rule("needs_dead", "dead and a", "further")
                           .caution("K1", "when: further")
                           .caution("K2", "when: without_rule or without_rule");
    CHECK(logic_of(rules, "never_true").size() == 1);
    const auto found = logic_of(rules, "cannot_apply");
    REQUIRE(found.size() == 3);
    CHECK(found[0].about == std::vector<std::string>{"needs_dead", "dead"});
    CHECK(found[1].about == std::vector<std::string>{"K1", "further"});
    CHECK(found[2].about == std::vector<std::string>{"K2", "without_rule"});
}

TEST_CASE("what speaks for a cause at stages at which it cannot be never counts", "[review][logic]") {
    const auto rules = [](const std::string& when) {
        return Rules()
            .sign("stage",
                  "answers: {resting: {means: r, seen anyway: the rest}, worm_bed: {means: w, seen anyway: sometimes}}")
            .sign("a", "seen anyway: sometimes")
            .step("wait")
            .cause("heap", "stages: [resting], made likelier by: [{when: \"" + when +
                               "\", points: slightly}], signs: [{when: a, seen: usually}], expect: e, steps: [wait]");
    };
    const auto found = logic_of(rules("a and stage is worm_bed"), "cannot_apply");
    REQUIRE(found.size() == 1);
    CHECK(typed(found.front()) == std::vector<std::string>{"stage=worm_bed", "a=yes"});
    CHECK(logic_of(rules("a and not stage is worm_bed"), "cannot_apply").empty());
}

TEST_CASE("a conclusion that only unused ones use is unused as well", "[review][logic]") {
    const auto rules = Rules()
                           .sign("a")
                           .conclusion("first")
                           .conclusion("second")
                           .conclusion("used")
                           .rule("r1", "a", "first")
                           .rule("r2", "first", "second")
                           .rule("r3", "a", "used")
                           .caution("K", "when: used");
    const auto found = logic_of(rules, "unused_conclusion");
    REQUIRE(found.size() == 2);
    CHECK(found[0].about == std::vector<std::string>{"first"});
    CHECK(found[1].about == std::vector<std::string>{"second"});
    CHECK(logic_of(rules, "unused_sign").empty());
    const Shown unused = shown("unused_conclusion");
    CHECK(unused.conclusion("rainy") == Truth::yes);
}

TEST_CASE("a single number left out is told, and its neighbours on both sides do count", "[review][logic]") {
    const Shown gap = shown("edge_gap");
    CHECK(gap.conclusion("off") != Truth::yes);
    auto words = typed(gap.finding);
    for (const char* beside : {"ph=6.99", "ph=7.01"}) {
        std::replace_if(
            words.begin(), words.end(), [](const std::string& word) { return word.starts_with("ph="); }, beside);
        CHECK(at(gap.base, gap.finding, words).conclusion("off") == Truth::yes);
    }
}

TEST_CASE("a single number that counts on both sides is told, and its neighbours count on one each", "[review][logic]") {
    const Shown overlap = shown("edge_overlap");
    CHECK(overlap.conclusion("low") == Truth::yes);
    CHECK(overlap.conclusion("high") == Truth::yes);
    const Shown less = at(overlap.base, overlap.finding, {"ph=6.99"});
    CHECK(less.conclusion("low") == Truth::yes);
    CHECK(less.conclusion("high") == Truth::no);
    const Shown more = at(overlap.base, overlap.finding, {"ph=7.01"});
    CHECK(more.conclusion("low") == Truth::no);
    CHECK(more.conclusion("high") == Truth::yes);
}

TEST_CASE("circumstances of one cause are looked at for gaps and overlaps as well", "[review][logic]") {
    const auto rules = [](const std::string& one, const std::string& two) {
        return Rules()
            .sign("days", "measured in: days, plausible: 0 to 100")
            .sign("a", "seen anyway: sometimes")
            .step("wait")
            .cause("early", "made likelier by: [{when: \"" + one + "\", points: slightly}, {when: \"" + two +
                                "\", points: moderately}], signs: [{when: a, seen: usually}], expect: e, steps: [wait]");
    };
    auto found = logic_of(rules("days between 7 and 20", "days above 20 and a"), "edge_gap");
    CHECK(found.empty());
    found = logic_of(rules("days below 7", "days above 7"), "edge_gap");
    REQUIRE(found.size() == 1);
    CHECK(typed(found.front()) == std::vector<std::string>{"days=7 days"});
    found = logic_of(rules("days at most 7", "days at least 7"), "edge_overlap");
    REQUIRE(found.size() == 1);
    CHECK(typed(found.front()) == std::vector<std::string>{"days=7 days"});
    CHECK(logic_of(rules("days below 7", "days at least 7"), "edge_overlap").empty());
    CHECK(logic_of(rules("days below 7", "days at least 7"), "edge_gap").empty());
    // The end of what is plausible has no other side.
    CHECK(logic_of(rules("days at most 0", "days at least 0"), "edge_overlap").empty());
}

TEST_CASE("a threshold just beside an edge of the bands is told, one well inside a band is not", "[review][logic]") {
    const auto found_for = [](const std::string& when) {
        const auto rules =
            Rules()
                .sign("heat", "measured in: °C, plausible: 0 to 80, bands: {cool: {below: 20}, right: {below: 28}, hot: {}}")
                .caution("K", "when: " + when);
        return logic_of(rules, "edge_beside_band");
    };
    CHECK(found_for("heat above 28").size() == 1);
    CHECK(found_for("heat at most 20").size() == 1);
    CHECK(found_for("heat above 28.5").size() == 1);
    CHECK(found_for("heat at least 28").empty());
    CHECK(found_for("heat below 20").empty());
    CHECK(found_for("heat above 30").empty());
    CHECK(found_for("heat at least 82.4 °F").empty());  // 28 °C
}

TEST_CASE("an edge that is a plain number in another unit is shown in that unit", "[review][logic]") {
    const auto rules = Rules()
                           .sign("heat", "measured in: °C, plausible: 0 to 80")
                           .conclusion("off")
                           .rule("low", "heat below 88 °F", "off")
                           .rule("high", "heat above 88 °F", "off")
                           .caution("K", "when: off");
    const auto found = logic_of(rules, "edge_gap");
    REQUIRE(found.size() == 1);
    CHECK(typed(found.front()) == std::vector<std::string>{"heat=88 °F"});
    const RuleBase base = rules.base();
    CHECK(chain(base, facts_in(base, {"heat=88 °F"})).truth.front() == Truth::no);
}

TEST_CASE("every condition of a rule base is looked at", "[review][logic]") {
    const std::string never = "\"a and not a\"";
    const std::string link = "signs: [{when: a, seen: usually}], expect: e, steps: [wait]";
    const auto with = [&](Rules rules) {
        return logic_of(rules.sign("a", "seen anyway: sometimes").step("wait").cause("other", link), "never_true").size();
    };
    CHECK(with(Rules()) == 0);
    CHECK(with(Rules().conclusion("c").rule("r", "a and not a", "c").caution("K", "when: a or c")) == 1);
    CHECK(with(Rules().cause("c", "made likelier by: [{when: " + never + ", points: slightly}], " + link)) == 1);
    CHECK(with(Rules().cause("c", "cannot be when: " + never + ", " + link)) == 1);
    CHECK(with(Rules().cause("c", "must be when: " + never + ", " + link)) == 1);
    CHECK(with(Rules().step("s", "never when: " + never + ", check first: c")) == 1);
    CHECK(with(Rules().caution("K", "when: " + never)) == 1);
    CHECK(with(Rules().clash("X", "never: [lime], say: s, check first: c, when: " + never)) == 1);
}

}  // namespace review_logic_test
