// The cautions, the verdict, what not to do and when to look again.
#include "engine/advice.hpp"
#include "tests/catch.hpp"
#include "tests/engine/plans.hpp"

#include <string>
#include <vector>

namespace engine_advice_words_test {

using namespace lidlift;
using namespace lidlift::test;
using Why = LeftOutStep::Why;

TEST_CASE("cautions are complete and come by level", "[advice][cautions]") {
    Rules rules;
    with_cause(rules, "a", Likely::rather, "steps: [poke, kept_back], cautions: [of_cause]");
    with_cause(rules, "b", Likely::rather, "cautions: [of_other_cause]");
    rules.sign("gas")
        .step("poke", "cautions: [of_step_note, of_step_stop]")
        .step("kept_back", "if wrong: drastic, cautions: [of_left_out]");
    rules.caution("of_step_note", "level: note")
        .caution("of_cause", "level: warn")
        .caution("of_left_out")
        .caution("of_other_cause")
        .caution("of_step_stop", "level: stop");
    rules.caution("of_facts", "level: warn, when: gas").caution("of_nobody", "level: stop");
    CHECK(Plan(rules, {"s_a=yes", "gas=yes"}).cautions() == Ids{"of_step_stop", "of_cause", "of_facts", "of_step_note"});
    CHECK(Plan(rules, {"s_a=yes"}).cautions() == Ids{"of_step_stop", "of_cause", "of_step_note"});
    CHECK(Plan(rules, {"s_a=yes", "gas=no"}).cautions() == Ids{"of_step_stop", "of_cause", "of_step_note"});
    // On the word of anyone, however unsure, and whatever the cause.
    CHECK(Plan(rules, {"gas=yes,guess"}).cautions() == Ids{"of_facts"});
}

TEST_CASE("each caution is said once", "[advice][cautions]") {
    Rules rules;
    with_cause(rules, "a", Likely::rather, "steps: [one, two], cautions: [K1]");
    rules.sign("gas").step("one", "cautions: [K1]").step("two", "cautions: [K1]").caution("K1", "when: gas");
    CHECK(Plan(rules, {"s_a=yes", "gas=yes"}).cautions() == Ids{"K1"});
}

namespace {

Rules emergency() {
    Rules rules;
    with_cause(rules, "a", Likely::very, "steps: [poke, call_help, starve]");
    rules.sign("ill").caution("stop_sign", "level: stop, when: s_a").caution("faint", "level: note, when: ill, emergency: yes");
    return rules.step("poke").step("call_help", "kind: people, when: from now on").step("starve", "kind: feed, strictness: 5");
}

}  // namespace

TEST_CASE("in an emergency people come first and nothing else is done", "[advice][emergency]") {
    for (const std::string told : {"ill=yes", "ill=yes,guess"}) {
        CAPTURE(told);
        const Plan plan(emergency(), {"s_a=yes", told});
        CHECK(plan.verdict() == Verdict::emergency);
        CHECK(plan.shown() == Ids{"call_help"});
        CHECK(plan.leaves_out("poke", Why::emergency));
        CHECK(plan.leaves_out("starve", Why::emergency));
        CHECK(plan.cautions() == Ids{"faint", "stop_sign"});
    }
    for (const std::string told : {"ill=no", "ill=?"}) {
        CAPTURE(told);
        const Plan plan(emergency(), {"s_a=yes", told});
        CHECK(plan.verdict() == Verdict::act);
        CHECK(plan.shown() == Ids{"poke", "starve", "call_help"});
        CHECK(plan.cautions() == Ids{"stop_sign"});
    }
}

TEST_CASE("an emergency is one even when nothing else is known or all is contradictory", "[advice][emergency]") {
    CHECK(Plan(emergency(), {"ill=yes"}).verdict() == Verdict::emergency);
    Rules rules = emergency();
    rules.sign("b").cause("odd", "made likelier by: [{when: b, points: slightly}], must be when: b, cannot be when: b");
    const Plan plan(rules, {"ill=yes", "b=yes"});
    CHECK(plan.diagnosis.ranking.contradictory);
    CHECK(plan.verdict() == Verdict::emergency);
    CHECK(plan.cautions() == Ids{"faint"});
}

TEST_CASE("leave it alone is said when the best explanation needs no mending and is an even bet", "[advice][verdict]") {
    Rules rules;
    with_cause(rules, "healthy", Likely::very, "benign: yes, alone: yes, steps: [enjoy]");
    with_cause(rules, "sick", Likely::little, "steps: [poke]");
    rules.step("enjoy", "kind: care").step("poke");
    const Plan plan(rules, {"s_healthy=yes"});
    CHECK(plan.verdict() == Verdict::nothing_wrong);
    CHECK(plan.shown() == Ids{"enjoy"});
    // A trouble that is likelier takes its place.
    CHECK(Plan(rules, {"s_sick=yes"}).verdict() == Verdict::act);
    Rules doubtful;
    with_cause(doubtful, "healthy", Likely::little, "benign: yes");
    CHECK(Plan(doubtful, {"s_healthy=yes"}).verdict() == Verdict::cannot_tell);
}

TEST_CASE("beside leave it alone no step against a less likely trouble is shown", "[advice][verdict]") {
    Rules rules;
    with_cause(rules, "healthy", Likely::very, "benign: yes");
    with_cause(rules, "sick", Likely::little, "steps: [poke]");
    const Plan plan(rules.step("poke"), {"s_healthy=yes", "s_sick=yes"});
    CHECK(plan.verdict() == Verdict::nothing_wrong);
    CHECK(plan.shown().empty());
    CHECK(plan.left_out("poke").has_value());
}

TEST_CASE("I cannot tell is said when nothing is likely enough to act on", "[advice][verdict]") {
    Rules rules;
    with_cause(rules, "a", Likely::rather, "steps: [poke]");
    rules.sign("else_seen").step("poke");
    for (const Ids& words : std::vector<Ids>{{}, {"else_seen=yes"}, {"s_a=no"}, {"s_a=?"}}) {
        const Plan plan(rules, words);
        CHECK(plan.verdict() == Verdict::cannot_tell);
        CHECK(plan.shown().empty());
        CHECK(plan.acted_on().empty());
        CHECK_FALSE(plan.advice().look_again_days.has_value());
    }
    CHECK_FALSE(Plan(rules, {}).diagnosis.ask_next.empty());
}

TEST_CASE("contradictory answers lead to no steps", "[advice][verdict]") {
    Rules rules;
    with_cause(rules, "a", Likely::rather, "steps: [poke], must be when: s_a, cannot be when: b");
    const Plan plan(rules.sign("b").step("poke"), {"s_a=yes", "b=yes"});
    CHECK(plan.diagnosis.ranking.contradictory);
    CHECK(plan.verdict() == Verdict::cannot_tell);
    CHECK(plan.shown().empty());
}

TEST_CASE("look again when the first of the causes acted on says so", "[advice]") {
    Rules rules;
    with_cause(rules, "slow", Likely::rather, "look again: [2 weeks, 6 days]");
    with_cause(rules, "quick", Likely::little, "look again: 3 days");
    with_cause(rules, "unlikely", Likely::rather, "look again: 1 hours");
    CHECK(Plan(rules, {"s_slow=yes"}).advice().look_again_days == 6.0);
    CHECK(Plan(rules, {"s_slow=yes", "s_quick=yes"}).advice().look_again_days == 3.0);
}

TEST_CASE("what to avoid is said for the causes acted on and for what the facts forbid", "[advice][do_not]") {
    Rules rules;
    with_cause(rules, "a", Likely::rather, "avoid: [X1, Do not jet it.]");
    with_cause(rules, "b", Likely::rather, "avoid: [Never said here.]");
    rules.sign("gas").sign("frost");
    rules.clash("X1", "never: [lime], when: gas, say: Lay no lime., because: It gasses.");
    rules.clash("X2", "never: [water], when: frost, say: Do not water., because: It freezes.");
    rules.clash("X3", "never: [], when: always, say: Do nothing rash.");
    const auto said = [&](const std::vector<std::string>& words) {
        Ids lines;
        const Plan plan(rules, words);
        for (const DoNot& item : plan.advice().do_not)
            lines.push_back(item.say + (item.because.empty() ? "" : " " + item.because));
        return lines;
    };
    CHECK(said({"s_a=yes"}) == Ids{"Lay no lime.", "Do not jet it."});
    CHECK(said({"s_a=yes", "gas=yes"}) == Ids{"Lay no lime. It gasses.", "Do not jet it."});
    CHECK(said({"s_a=yes", "gas=no"}) == Ids{"Do not jet it."});
    CHECK(said({"frost=yes"}) == Ids{"Do not water. It freezes."});
    CHECK(said({"frost=?"}).empty());
}

}  // namespace engine_advice_words_test
