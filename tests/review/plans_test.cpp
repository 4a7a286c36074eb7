// Plans: the audit sees every fault that a plan can have, and what the review tells of plans holds in the whole engine.
#include "engine/review/plans.hpp"

#include "engine/review/plan_audit.hpp"
#include "tests/engine/plans.hpp"
#include "tests/engine/random_answers.hpp"
#include "tests/review/review_files.hpp"

#include <set>

namespace review_plans_test {

using namespace lidlift;
using namespace lidlift::test;

namespace {

std::vector<ReviewFinding> plans_of(const RuleBase& base, std::string_view kind) {
    std::vector<ReviewFinding> findings;
    review_plans(base, findings);
    return of_kind(std::move(findings), kind);
}

/// A plan as a broken planner might make it.
Advice broken_plan(const RuleBase& base, const std::vector<std::string>& steps, const std::vector<std::string>& cautions = {}) {
    Advice advice;
    for (const std::string& id : steps) advice.steps.push_back({*base.steps.find(id), 1, {}, {}});
    for (const std::string& id : cautions) advice.cautions.push_back(*base.cautions.find(id));
    return advice;
}

std::vector<Ids> faults(const RuleBase& base, const std::vector<std::string>& words, const Advice& advice) {
    std::vector<Ids> result;
    for (const PlanFault& fault : faults_of_plan(base, facts_in(base, words), advice)) result.push_back(fault.about);
    return result;
}

/// The only finding of the kind in its bad file, and what the engine advises on its witness.
struct Shown {
    RuleBase base;
    ReviewFinding finding;
    Advice advice;

    [[nodiscard]] bool shows(const std::string& step) const {
        return std::any_of(advice.steps.begin(), advice.steps.end(),
                           [&](const PlannedStep& planned) { return base.steps[planned.step].id == step; });
    }
    [[nodiscard]] bool leaves_out_as_opposite(const std::string& step) const {
        return std::any_of(advice.left_out.begin(), advice.left_out.end(), [&](const LeftOutStep& out) {
            return base.steps[out.step].id == step && out.why == LeftOutStep::Why::opposite;
        });
    }
};
Shown shown(const std::string& kind) {
    auto found = of_kind(findings_in("bad_" + kind), kind);
    REQUIRE(found.size() == 1);
    RuleBase base = read_review_file("bad_" + kind).rule_base;
    Advice advice = diagnosed(base, typed(found.front())).advice;
    return {std::move(base), std::move(found.front()), std::move(advice)};
}

}  // namespace

TEST_CASE("the audit sees every fault that a plan can have", "[review][plans]") {
    const RuleBase base = Rules()
                              .sign("a")
                              .caution("K1")
                              .step("wet", "pushes: [moisture up]")
                              .step("dry", "pushes: [moisture down]")
                              .step("open", "kind: air")
                              .step("close", "kind: heat")
                              .step("fast", "kind: feed, strictness: 5, pushes: [feed down]")
                              .step("feed", "kind: feed, strictness: 1, pushes: [feed up]")
                              .step("careful", "cautions: [K1]")
                              .step("not_while_a", "never when: a")
                              .step("chalk", "kind: lime")
                              .clash("x", "never: [lime], when: a, say: No lime.")
                              .clash("y", "between: [open, heat], find out: a")
                              .base();
    const auto plan = [&](const std::vector<std::string>& steps) { return broken_plan(base, steps); };
    CHECK(faults(base, {"a=yes"}, plan({"wet", "open"})).empty());
    CHECK(faults(base, {}, plan({"wet", "dry"})) == std::vector<Ids>{{"wet", "dry"}});
    CHECK(faults(base, {}, plan({"close", "open"})) == std::vector<Ids>{{"close", "open"}});
    CHECK(faults(base, {}, plan({"fast", "feed"})) == std::vector<Ids>{{"fast", "feed"}});
    CHECK(faults(base, {}, plan({"careful"})) == std::vector<Ids>{{"careful", "K1"}});
    CHECK(faults(base, {}, broken_plan(base, {"careful"}, {"K1"})).empty());
    CHECK(faults(base, {"a=yes"}, plan({"not_while_a"})) == std::vector<Ids>{{"not_while_a"}});
    CHECK(faults(base, {"a=no"}, plan({"not_while_a"})).empty());
    CHECK(faults(base, {"a=yes"}, plan({"chalk"})) == std::vector<Ids>{{"chalk", "x"}});
    CHECK(faults(base, {}, plan({"chalk"})).empty());
    CHECK(faults(base, {"a=yes"}, plan({"wet", "dry", "not_while_a"})).size() == 2);
}

TEST_CASE("a plan that says do and do not of one step is seen", "[review][plans]") {
    const RuleBase base =
        Rules().sign("a").step("chalk", "kind: lime").clash("x", "never: [lime], when: a, say: No lime.").base();
    Advice advice = broken_plan(base, {"chalk"});
    CHECK(said_both_ways(base, advice).empty());
    advice.do_not.push_back({"No lime.", ""});
    REQUIRE(said_both_ways(base, advice).size() == 1);
    CHECK(said_both_ways(base, advice).front().about == Ids{"chalk", "x"});
    advice.steps.clear();
    CHECK(said_both_ways(base, advice).empty());
}

TEST_CASE("the planner's plans for random answers have no fault", "[review][plans][property]") {
    const Ranker ranker(default_base());
    Dice dice(20261129);
    for (int i = 0; i < 60; ++i) {
        const auto words = random_answers(dice, default_base(), dice.whole(1, 8));
        const Told told = told_in(default_base(), words);
        const auto found = faults_of_plan(default_base(), told.facts, advise(default_base(), told, ranker.rank(told.facts)));
        const std::string text = found.empty() ? "" : found.front().text;
        CHECK(text == "");
    }
}

TEST_CASE("steps of one cause that undo each other both fall in the engine too", "[review][plans][witness]") {
    const Shown found = shown("steps_clash");
    CHECK(found.finding.about == Ids{"uneven", "add_leaves", "water_it"});
    CHECK(found.leaves_out_as_opposite("add_leaves"));
    CHECK(found.leaves_out_as_opposite("water_it"));
    CHECK(found.advice.steps.empty());
    // Where each is forbidden while the other is right, each is shown in its turn.
    const RuleBase good = read_review_file("good_steps_clash").rule_base;
    CHECK(diagnosed(good, {"squeeze=stream"}).advice.steps.size() == 1);
    CHECK(diagnosed(good, {"squeeze=crumbles"}).advice.steps.size() == 1);
}

TEST_CASE("a step said to be never shown is not shown on the answers that are told", "[review][plans][witness]") {
    const Shown found = shown("step_never_shown");
    CHECK(found.finding.about == Ids{"empty_it"});
    CHECK_FALSE(found.shows("empty_it"));
    CHECK(found.shows("add_leaves"));
}

TEST_CASE("a step is never shown where what forbids it holds whenever its cause is likely, and only then", "[review][plans]") {
    const auto never_shown = [](const std::string& never) {
        std::set<std::string> ids;
        for (const ReviewFinding& finding :
             plans_of(Rules()
                          .sign("a", "seen anyway: almost never")
                          .sign("b", "seen anyway: almost never")
                          .step("s", "never when: " + never)
                          .step("t")
                          .cause("c", "signs: [{when: a, seen: almost always}, {when: b, seen: almost always}], steps: [s, t]")
                          .base(),
                      "step_never_shown"))
            ids.insert(finding.about.front());
        return ids;
    };
    CHECK(never_shown("a").empty());  // b alone makes the cause likely
    CHECK(never_shown("a and b").empty());
    CHECK(never_shown("a or b") == std::set<std::string>{"s"});
    CHECK(never_shown("always") == std::set<std::string>{"s"});
}

TEST_CASE("opposite pushes that no clash names are told once for each quantity", "[review][plans]") {
    const auto rules = [] {
        return Rules()
            .sign("a", "seen anyway: almost never")
            .step("wet", "pushes: [moisture up, air down]")
            .step("dry", "pushes: [moisture down]")
            .step("drier", "pushes: [moisture down]")
            .step("airy", "pushes: [air up]")
            .cause("c", "signs: [{when: a, seen: usually}], steps: [wet]")
            .cause("d", "signs: [{when: a, seen: usually}], steps: [dry, drier, airy]");
    };
    const auto found = plans_of(rules().base(), "nothing_settles_it");
    REQUIRE(found.size() == 2);
    CHECK(found[0].about == Ids{"wet", "dry"});
    CHECK(found[1].about == Ids{"wet", "airy"});
    const auto settled = rules().clash("x", "between: [moisture up, moisture down], find out: a").base();
    CHECK(plans_of(settled, "nothing_settles_it").size() == 1);
}

TEST_CASE("no plan for the default rules clashes or says a thing both ways", "[review][plans]") {
    CHECK(plans_of(default_base(), "steps_clash").empty());
}

}  // namespace review_plans_test
