// What is shown, what is left out and why: steps, their conditions, their thresholds and their order.
#include "engine/advice.hpp"

#include "tests/catch.hpp"
#include "tests/engine/plans.hpp"
#include "tests/near.hpp"

#include <string>
#include <vector>

namespace engine_advice_test {

using namespace lidlift;
using namespace lidlift::test;
using Why = LeftOutStep::Why;

namespace {

/// One sure cause with the step `poke`.
Rules poking(const std::string& step) {
    Rules rules;
    with_cause(rules, "x", Likely::very, "steps: [poke]");
    return rules.sign("gas").step("poke", step);
}

}  // namespace

TEST_CASE("a step is shown for the causes that ask for it, likeliest first", "[advice]") {
    Rules rules;
    with_cause(rules, "less", Likely::little, "steps: [poke]");
    with_cause(rules, "more", Likely::rather, "steps: [poke]");
    with_cause(rules, "none", Likely::rather, "steps: [other]");
    const Plan plan(rules.step("poke").step("other"), {"s_less=yes", "s_more=yes"});
    REQUIRE(plan.shown() == Ids{"poke"});
    const PlannedStep& poke = plan.advice().steps.front();
    CHECK(poke.for_causes == std::vector<Handle<Cause>>{{1}, {0}});
    CHECK(poke.needed == near(1 - (1 - 4.0 / 13) * (1 - 32.0 / 41), 1e-9));
    CHECK(plan.acted_on() == Ids{"more", "less"});
    CHECK(plan.verdict() == Verdict::act);
}

TEST_CASE("a step is never shown while its never when is true", "[advice][never_when]") {
    for (const std::string told : {"gas=yes", "gas=yes,unsure", "gas=yes,guess"}) {
        CAPTURE(told);
        const Plan plan(poking("never when: gas, check first: Sniff."), {"s_x=yes", told});
        CHECK(plan.leaves_out("poke", Why::never_when));
        CHECK(plan.left_out("poke")->reason.find("gas: yes") != std::string::npos);
    }
}

TEST_CASE("where never when is unknown the step says what to check first", "[advice][never_when]") {
    for (const std::string told : {"gas=?", "gas=no,unsure", "gas=no,guess"}) {
        CAPTURE(told);
        CHECK(Plan(poking("never when: gas, check first: Sniff."), {"s_x=yes", told}).checks("poke") == Ids{"Sniff."});
        // Without words of its own it asks what the sign asks.
        CHECK(Plan(poking("never when: gas"), {"s_x=yes", told}).checks("poke") == Ids{"Find out first: What of gas"});
    }
    CHECK(Plan(poking("never when: gas, check first: Sniff."), {"s_x=yes"}).checks("poke") == Ids{"Sniff."});
}

TEST_CASE("where never when is surely false there is nothing to check", "[advice][never_when]") {
    CHECK(Plan(poking("never when: gas, check first: Sniff."), {"s_x=yes", "gas=no"}).checks("poke").empty());
    CHECK(Plan(poking(""), {"s_x=yes"}).checks("poke").empty());
}

TEST_CASE("never when works through rules", "[advice][never_when]") {
    Rules rules = poking("never when: danger");
    rules.conclusion("danger").rule("r", "gas", "danger");
    CHECK(Plan(rules, {"s_x=yes", "gas=yes"}).leaves_out("poke", Why::never_when));
    CHECK(Plan(rules, {"s_x=yes", "gas=no"}).checks("poke").empty());
    CHECK(Plan(rules, {"s_x=yes"}).checks("poke") == Ids{"Find out first: What of gas"});
}

TEST_CASE("a one-sided clash forbids its steps while true and asks for a check while unknown", "[advice][clash]") {
    for (const std::string never : {"[air]", "[poke]", "[moisture up]", "[lime, moisture up]"}) {
        CAPTURE(never);
        Rules rules = poking("pushes: [moisture up]");
        rules.clash("X1", "never: " + never + ", when: gas, say: Do not poke., because: It sparks., check first: Sniff well.");
        for (const std::string told : {"gas=yes", "gas=yes,guess"}) {
            const Plan plan(rules, {"s_x=yes", told});
            CHECK(plan.leaves_out("poke", Why::clash));
            CHECK(plan.left_out("poke")->reason ==
                  "It sparks. (gas: yes" + std::string(told == "gas=yes" ? ")" : " (a guess))"));
        }
        CHECK(Plan(rules, {"s_x=yes"}).checks("poke") == Ids{"Sniff well."});
        CHECK(Plan(rules, {"s_x=yes", "gas=no,unsure"}).checks("poke") == Ids{"Sniff well."});
        CHECK(Plan(rules, {"s_x=yes", "gas=no"}).checks("poke").empty());
    }
}

TEST_CASE("a one-sided clash does not touch other steps", "[advice][clash]") {
    Rules rules = poking("pushes: [moisture up]");
    rules.clash("X1", "never: [lime, moisture down, heat up], when: gas, say: Do not., because: It sparks.");
    CHECK(Plan(rules, {"s_x=yes", "gas=yes"}).checks("poke").empty());
    Rules saying = poking("");
    saying.clash("X2", "never: [], when: always, say: Do not.");
    CHECK(Plan(saying, {"s_x=yes"}).checks("poke").empty());
}

namespace {

/// Two causes, one that wants water and one that wants it out.
Rules wet_or_dry(Likely wet, Likely dry, bool named) {
    Rules rules;
    with_cause(rules, "wet", wet, "steps: [drain_it]");
    with_cause(rules, "dry", dry, "steps: [water_it]");
    rules.sign("squeeze")
        .step("drain_it", "kind: drain, pushes: [moisture down]")
        .step("water_it", "kind: water, pushes: [moisture up]");
    if (named) rules.clash("X", "between: [moisture up, moisture down], find out: squeeze, because: It is one or the other.");
    return rules;
}
const std::vector<std::string> both_seen = {"s_wet=yes", "s_dry=yes"};

}  // namespace

TEST_CASE("of two opposite steps the clearly likelier is taken", "[advice][clash]") {
    for (const bool named : {true, false}) {
        CAPTURE(named);
        // 89 % against 31 %: 12.5 dB.
        const Plan plan(wet_or_dry(Likely::very, Likely::little, named), both_seen);
        CHECK(plan.shown() == Ids{"drain_it"});
        CHECK(plan.leaves_out("water_it", Why::opposite));
        CHECK(plan.left_out("water_it")->reason.find("D of drain_it") != std::string::npos);
        CHECK(plan.to_find_out().empty());
        const Plan reverse(wet_or_dry(Likely::little, Likely::very, named), both_seen);
        CHECK(reverse.shown() == Ids{"water_it"});
    }
}

TEST_CASE("of two opposite steps that are about as likely neither is taken, and what to find out is said", "[advice][clash]") {
    // 89 % against 78 %: 3.5 dB; 31 % against 31 %: 0 dB.
    for (const auto& [wet, dry] : {std::pair{Likely::very, Likely::rather}, std::pair{Likely::little, Likely::little}}) {
        const Plan plan(wet_or_dry(wet, dry, true), both_seen);
        CHECK(plan.shown().empty());
        CHECK(plan.leaves_out("water_it", Why::opposite));
        CHECK(plan.leaves_out("drain_it", Why::opposite));
        CHECK(plan.to_find_out() == Ids{"squeeze"});
        const Plan unnamed(wet_or_dry(wet, dry, false), both_seen);
        CHECK(unnamed.shown().empty());
        CHECK(unnamed.left_out("water_it")->reason.find("moisture in opposite directions") != std::string::npos);
    }
}

TEST_CASE("a clash between kinds or single steps counts as well", "[advice][clash]") {
    for (const std::string between : {"[drain, water]", "[water_it, drain_it]", "[water, moisture down]"}) {
        CAPTURE(between);
        Rules rules;
        with_cause(rules, "wet", Likely::rather, "steps: [drain_it]");
        with_cause(rules, "dry", Likely::rather, "steps: [water_it]");
        rules.sign("squeeze").step("drain_it", "kind: drain, pushes: [moisture down]").step("water_it", "kind: water");
        rules.clash("X", "between: " + between + ", find out: squeeze");
        CHECK(Plan(rules, both_seen).shown().empty());
        CHECK(Plan(rules, both_seen).to_find_out() == Ids{"squeeze"});
        CHECK(Plan(rules, {"s_wet=yes"}).shown() == Ids{"drain_it"});
    }
}

TEST_CASE("steps that push the same way, or other things, do not clash", "[advice][clash]") {
    Rules rules;
    with_cause(rules, "a", Likely::rather, "steps: [one, two, three]");
    rules.step("one", "pushes: [moisture down, air up]")
        .step("two", "pushes: [moisture down, heat down]")
        .step("three", "pushes: [air up, cover down]");
    CHECK(Plan(rules, {"s_a=yes"}).shown() == Ids{"one", "two", "three"});
}

TEST_CASE("only the strictest instruction on feeding stays", "[advice][feeding]") {
    Rules rules;
    with_cause(rules, "a", Likely::rather, "steps: [less, none, little]");
    rules.step("less", "kind: feed, strictness: 1")
        .step("none", "kind: feed, strictness: 5")
        .step("little", "kind: feed, strictness: 3");
    const Plan plan(rules, {"s_a=yes"});
    CHECK(plan.shown() == Ids{"none"});
    CHECK(plan.leaves_out("less", Why::milder_feeding));
    CHECK(plan.leaves_out("little", Why::milder_feeding));
}

TEST_CASE("a stricter feeding that is itself forbidden does not silence the milder one", "[advice][feeding]") {
    Rules rules;
    with_cause(rules, "a", Likely::rather, "steps: [less, none]");
    rules.sign("worms_starving")
        .step("less", "kind: feed, strictness: 1")
        .step("none", "kind: feed, strictness: 5, never when: worms_starving");
    CHECK(Plan(rules, {"s_a=yes", "worms_starving=yes"}).shown() == Ids{"less"});
}

TEST_CASE("a stricter feeding that falls to an unsettled clash does not silence the milder one", "[advice][feeding]") {
    Rules rules;
    with_cause(rules, "wet", Likely::rather, "steps: [less, none]");
    with_cause(rules, "dry", Likely::rather, "steps: [water_it]");
    rules.step("less", "kind: feed, strictness: 1")
        .step("none", "kind: feed, strictness: 5, pushes: [moisture down]")
        .step("water_it", "kind: water, pushes: [moisture up]");
    const Plan plan(rules, both_seen);
    CHECK(plan.shown() == Ids{"less"});
    CHECK_FALSE(plan.leaves_out("less", Why::milder_feeding));
}

TEST_CASE("harmless, costly and drastic steps ask for 20, 50 and 80 in a hundred", "[advice][thresholds]") {
    struct Row {
        Likely likely;
        Ids shown;
        Ids not_sure;
    };
    for (const Row& row : std::vector<Row>{{Likely::little, {"harmless"}, {"costly", "drastic"}},
                                           {Likely::rather, {"harmless", "costly"}, {"drastic"}},
                                           {Likely::very, {"harmless", "costly", "drastic"}, {}}}) {
        Rules rules;
        with_cause(rules, "a", row.likely, "steps: [harmless, costly, drastic]");
        rules.step("harmless").step("costly", "if wrong: costly").step("drastic", "if wrong: drastic");
        const Plan plan(rules, {"s_a=yes"});
        CHECK(plan.shown() == row.shown);
        for (const std::string& step : row.not_sure) CHECK(plan.leaves_out(step, Why::not_sure_enough));
    }
}

TEST_CASE("a step needs the chance that any of its causes is there", "[advice][thresholds]") {
    // Two causes at 31 %: one or the other at 52 %.
    Rules rules;
    with_cause(rules, "a", Likely::little, "steps: [both, only_a]");
    with_cause(rules, "b", Likely::little, "steps: [both]");
    rules.step("both", "if wrong: costly").step("only_a", "if wrong: costly");
    const Plan plan(rules, {"s_a=yes", "s_b=yes"});
    CHECK(plan.shown() == Ids{"both"});
    CHECK(plan.advice().steps.front().needed == near(1 - (9.0 / 13) * (9.0 / 13), 1e-9));
    CHECK(plan.leaves_out("only_a", Why::not_sure_enough));
    CHECK(Plan(rules, {"s_a=yes"}).shown().empty());
}

TEST_CASE("a cause that nothing speaks for asks for no steps, however common it is", "[advice][thresholds]") {
    Rules rules;
    rules.sign("s", "seen anyway: sometimes").sign("t", "seen anyway: sometimes").step("poke");
    rules.cause("common_one", "how common: very common, signs: [{when: s, seen: usually}], steps: [poke]");
    rules.cause("other", "signs: [{when: t, seen: usually}]");
    const Plan plan(rules, {"t=yes"});
    CHECK(plan.shown().empty());
    CHECK(plan.acted_on() == Ids{"other"});
}

TEST_CASE("steps stand by when, then by kind in the order of rules/FORMAT.md", "[advice][order]") {
    const Ids kinds = {"people", "air",  "drain", "heat",  "remove", "dry_matter", "water",
                       "feed",   "lime", "pests", "worms", "watch",  "care"};
    CHECK(step_kind_words() == kinds);
    for (std::size_t first = 0; first < kinds.size(); ++first)
        for (std::size_t second = first + 1; second < kinds.size(); ++second) {
            CAPTURE(kinds[first], kinds[second]);
            const auto more = [&](std::size_t kind) {
                return "kind: " + kinds[kind] + (kinds[kind] == "feed" ? ", strictness: 1" : "");
            };
            Rules rules;
            with_cause(rules, "a", Likely::very, "steps: [later, sooner, at_last]");
            rules.step("later", more(second)).step("sooner", more(first)).step("at_last", "kind: people, when: from now on");
            CHECK(Plan(rules, {"s_a=yes"}).shown() == Ids{"sooner", "later", "at_last"});
        }
    Rules rules;
    with_cause(rules, "a", Likely::very, "steps: [habit, week, now]");
    rules.step("habit", "when: from now on, kind: people").step("week", "when: this week, kind: air").step("now", "kind: care");
    CHECK(Plan(rules, {"s_a=yes"}).shown() == Ids{"now", "week", "habit"});
}

TEST_CASE("of one kind the surer step stands first", "[advice][order]") {
    Rules rules;
    with_cause(rules, "a", Likely::little, "steps: [weak]");
    with_cause(rules, "b", Likely::very, "steps: [strong]");
    rules.step("weak").step("strong");
    CHECK(Plan(rules, {"s_a=yes", "s_b=yes"}).shown() == Ids{"strong", "weak"});
}

TEST_CASE("no more steps are shown at once than a person takes in", "[advice][cap]") {
    struct Row {
        std::string when;
        std::size_t most;
    };
    for (const Row& row :
         std::vector<Row>{{"now", most_steps[0]}, {"this week", most_steps[1]}, {"from now on", most_steps[2]}}) {
        CAPTURE(row.when);
        Rules rules;
        std::string steps;
        for (std::size_t i = 0; i < row.most + 2; ++i) {
            steps += "a" + std::to_string(i) + ", ";
            rules.step("a" + std::to_string(i), "when: " + row.when);
        }
        rules.step("safety", "kind: people, when: " + row.when).step("starve", "kind: feed, strictness: 5, when: " + row.when);
        with_cause(rules, "x", Likely::very, "steps: [" + steps + "safety, starve]");
        const Plan plan(rules, {"s_x=yes"});
        CHECK(plan.shown().size() == row.most + 2);
        CHECK(plan.shows("safety"));
        CHECK(plan.shows("starve"));
        CHECK(plan.leaves_out("a" + std::to_string(row.most), Why::less_urgent));
        CHECK(plan.leaves_out("a" + std::to_string(row.most + 1), Why::less_urgent));
    }
}

TEST_CASE("looking and measuring gives way to doing", "[advice][cap]") {
    Rules rules;
    std::string steps = "watch_it";
    rules.step("watch_it", "kind: watch");
    for (std::size_t i = 0; i < most_steps[0]; ++i) {
        steps += ", a" + std::to_string(i);
        rules.step("a" + std::to_string(i));
    }
    with_cause(rules, "x", Likely::very, "steps: [" + steps + "]");
    const Plan plan(rules, {"s_x=yes"});
    CHECK(plan.leaves_out("watch_it", Why::less_urgent));
    CHECK(plan.shown().size() == most_steps[0]);
}

}  // namespace engine_advice_test
