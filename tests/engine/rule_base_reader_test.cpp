// What rules/FORMAT.md promises about every section of a sound rule base.
#include "engine/rule_base_reader.hpp"

#include "engine/words.hpp"
#include "tests/catch.hpp"
#include "tests/engine/short_rules.hpp"
#include "tests/near.hpp"

#include <algorithm>
#include <cmath>
#include <string>
#include <variant>
#include <vector>

namespace engine_rule_base_reader_test {

using namespace lidlift;
using namespace lidlift::test;

namespace {

const Sign& sign_of(const RuleBase& base, const std::string& id) { return base.signs[base.signs.find(id).value()]; }
const Cause& cause_of(const RuleBase& base, const std::string& id) { return base.causes[base.causes.find(id).value()]; }

std::vector<double> backgrounds(const Sign& sign) {
    std::vector<double> result;
    for (const Answer& answer : sign.answers) result.push_back(answer.seen_anyway.value_or(-1));
    return result;
}

void check_near(const std::vector<double>& values, const std::vector<double>& expected) {
    REQUIRE(values.size() == expected.size());
    for (std::size_t i = 0; i < values.size(); ++i) CHECK(values[i] == near(expected[i], 1e-12));
}

}  // namespace

TEST_CASE("nothing at all is a rule base with the two standing sources", "[rule_base_reader]") {
    for (const std::string text : {"", "\n", "# only a remark\n", "signs: {}\n"}) {
        CAPTURE(text);
        const RuleBase base = base_of(text);
        CHECK(base.signs.empty());
        CHECK(base.sources.ids() == std::vector<std::string>{"common_practice", "from_memory"});
        CHECK(base.weighing.wrong_when_sure == 0);
        CHECK_FALSE(base.weighing.expected_causes.has_value());
    }
    CHECK(base_of(std::vector<RuleText>{}).signs.empty());
}

TEST_CASE("the rule base's name, version and figures are read", "[rule_base_reader]") {
    const RuleBase base = base_of(
        "rule base: {name: Ours, version: \"7\"}\n"
        "weighing: {expected causes: 1.5, wrong when sure: 2 %, wrong when unsure: 12.5 %, wrong when a guess: 30 %,\n"
        "  same observation counts: 40 %, largest set: 2, sources: [common_practice]}\n");
    CHECK(base.name == "Ours");
    CHECK(base.version == "7");
    CHECK(base.weighing.expected_causes == 1.5);
    CHECK(base.weighing.wrong_when_sure == near(0.02, 1e-15));
    CHECK(base.weighing.wrong_when_unsure == near(0.125, 1e-15));
    CHECK(base.weighing.wrong_when_guess == near(0.3, 1e-15));
    CHECK(base.weighing.same_observation_counts == near(0.4, 1e-15));
    CHECK(base.weighing.largest_set == 2);
}

TEST_CASE("a source keeps what is known of it", "[rule_base_reader]") {
    const RuleBase base = base_of(
        "sources:\n  metro: {title: Troubles, by: Metro, year: 2009, where: here, kind: government, standing: read in part}\n");
    const Source& source = base.sources[base.sources.find("metro").value()];
    CHECK(source.title == "Troubles");
    CHECK(source.by == "Metro");
    CHECK(source.year == "2009");
    CHECK(source.where == "here");
    CHECK(source.kind == "government");
    CHECK(source.standing == "read in part");
    CHECK(to_text(source.place) == "rules.yaml:2:3");
}

TEST_CASE("the keys of a sign tell which of the four sorts it is", "[rule_base_reader]") {
    const RuleBase base =
        Rules()
            .sign("bare")
            .sign("told", "answers: {no: {means: none}, yes: {means: some, heard as: [lots]}}")
            .sign("choice", "answers: {wet: {means: wet}, dry: {means: dry}}")
            .sign("many", "several at once: yes, answers: {wet: {means: wet}, none: {means: none, none of these: yes}}")
            .sign("number", "measured in: °C, plausible: -20 to 90")
            .base();
    CHECK(sign_of(base, "bare").sort == SignSort::yes_no);
    CHECK(sign_of(base, "told").sort == SignSort::yes_no);
    CHECK(sign_of(base, "choice").sort == SignSort::one_of);
    CHECK(sign_of(base, "many").sort == SignSort::several);
    CHECK(sign_of(base, "number").sort == SignSort::quantity);
    // Whatever their order in the file, yes comes first.
    REQUIRE(sign_of(base, "told").answers.size() == 2);
    CHECK(sign_of(base, "told").answers[0].means == "some");
    CHECK(sign_of(base, "told").answers[0].heard_as == std::vector<std::string>{"lots"});
    CHECK(sign_of(base, "told").answers[1].means == "none");
    CHECK(sign_of(base, "many").answers[1].none_of_these);
    CHECK(sign_of(base, "number").answers.empty());
    CHECK(sign_of(base, "number").unit->name == "°C");
    CHECK(sign_of(base, "number").plausible == Range{-20, 90, true, true});
}

TEST_CASE("how often a sign is seen anyway becomes a share for every answer", "[rule_base_reader]") {
    const RuleBase base = Rules()
                              .sign("plain", "seen anyway: sometimes")
                              .sign("choice",
                                    "answers: {a: {means: a, seen anyway: sometimes}, b: {means: b, seen anyway: the rest}, c: "
                                    "{means: c, seen anyway: almost never}}")
                              .sign("many",
                                    "several at once: yes, answers: {a: {means: a, seen anyway: usually}, b: {means: b, seen "
                                    "anyway: about half the time}}")
                              .sign("number",
                                    "measured in: cm, plausible: 0 to 90, bands: {low: {below: 5, seen anyway: practically "
                                    "never}, high: {seen anyway: the rest}}")
                              .sign("circumstance", "answers: {a: {means: a}, b: {means: b}}")
                              .base();
    check_near(backgrounds(sign_of(base, "plain")), {0.2, 0.8});
    check_near(backgrounds(sign_of(base, "choice")), {0.2, 0.775, 0.025});
    check_near(backgrounds(sign_of(base, "many")), {0.8, 0.5});
    check_near(backgrounds(sign_of(base, "number")), {0.005, 0.995});
    check_near(backgrounds(sign_of(base, "circumstance")), {-1, -1});
}

TEST_CASE("bands tile the plausible range, each with its beginning and without its end", "[rule_base_reader]") {
    const RuleBase base =
        Rules()
            .sign("heat", "measured in: °C, plausible: -20 to 90, bands: {cold: {below: 10}, right: {below: 28.5}, hot: {}}")
            .base();
    const Sign& heat = sign_of(base, "heat");
    CHECK(heat.band(0) == Range{-20, 10, true, false});
    CHECK(heat.band(1) == Range{10, 28.5, true, false});
    CHECK(heat.band(2) == Range{28.5, 90, true, true});
    CHECK(heat.bands_meeting({10, 10}) == answer_set(1));
    CHECK(heat.bands_meeting({9.99, 10}) == (answer_set(0) | answer_set(1)));
    CHECK(heat.bands_meeting({90, 90}) == answer_set(2));
}

TEST_CASE("effort and doubt of a sign are read as words", "[rule_base_reader]") {
    const RuleBase base = Rules()
                              .sign("a")
                              .sign("b", "effort: wait, hard to tell: yes")
                              .sign("c", "effort: measure, hard to tell: perhaps")
                              .base();
    CHECK(sign_of(base, "a").effort == Effort::look);
    CHECK(sign_of(base, "a").hard_to_tell == near(0.02, 1e-12));
    CHECK(sign_of(base, "b").effort == Effort::wait);
    CHECK(sign_of(base, "b").hard_to_tell == near(0.40, 1e-12));
    CHECK(sign_of(base, "c").effort == Effort::measure);
    CHECK(sign_of(base, "c").hard_to_tell == near(0.15, 1e-12));
    CHECK(sign_of(base, "a").name == "a");
}

TEST_CASE("a strength is a chance by its word, or the background times a factor", "[rule_base_reader]") {
    const RuleBase base = Rules()
                              .sign("a", "seen anyway: almost never")
                              .sign("b", "seen anyway: sometimes")
                              .conclusion("c", "seen anyway: sometimes")
                              .cause("x",
                                     "signs: [{when: a, points: very strongly}, {when: b, seen: almost always}, {when: c, "
                                     "points: moderately against}]")
                              .base();
    const auto& links = cause_of(base, "x").links;
    REQUIRE(links.size() == 3);
    CHECK_FALSE(links[0].seen.has_value());
    CHECK(links[0].factor == near(std::pow(10, 1.5), 1e-12));
    CHECK(links[0].words == "points very strongly");
    CHECK(links[1].seen == 0.985);
    CHECK(links[1].words == "seen almost always");
    CHECK(links[2].factor == near(0.2, 1e-12));
    CHECK(std::holds_alternative<Concluded>(links[2].when));
}

TEST_CASE("the strongest words that a background allows are taken, the next are refused", "[rule_base_reader]") {
    // Largest factor by background: 0.985 / background (rules/FORMAT.md section 6).
    for (const std::string& often : frequency_words())
        for (const std::string& word : odds_words()) {
            CAPTURE(often, word);
            const std::string text =
                Rules().sign("a", "seen anyway: " + often).cause("x", "signs: [{when: a, points: " + word + "}]").text();
            const bool feasible = *frequency(often) * *odds_factor(word) <= 0.985 + 1e-9;
            CHECK(complaints_of(text).empty() == feasible);
        }
}

TEST_CASE("a cause keeps everything that is said of it", "[rule_base_reader]") {
    const RuleBase base =
        Rules()
            .sign("stage", "answers: {bed: {means: bed}, rest: {means: rest}, move: {means: move}}")
            .sign("rain", "seen anyway: sometimes")
            .step("dig")
            .caution("K09")
            .clash("X06", "never: [], when: always, say: Do not jet.")
            .cause("other", "signs: [{when: rain, seen: usually}]")
            .cause("x",
                   "code: C18, how common: very common, stages: [bed, move], cannot be when: rain, must be when: rain is no, "
                   "made likelier by: [{when: rain, points: strongly against}], not together with: [other], alone: yes, "
                   "benign: yes, "
                   "brings about: [other], steps: [dig], cautions: [K09], avoid: [X06, Do not poke.], look again: [1 day, 2 "
                   "weeks], "
                   "expect: It dries., told apart by: A look., not to confuse with: [other], guides differ: They do.")
            .base();
    const Cause& cause = cause_of(base, "x");
    CHECK(cause.code == "C18");
    CHECK(cause.how_common == near(0.2, 1e-12));
    CHECK(cause.stages == (answer_set(0) | answer_set(2)));
    CHECK(cause_of(base, "other").stages == ~AnswerSet{0});
    REQUIRE(cause.made_likelier_by.size() == 1);
    CHECK(cause.made_likelier_by[0].weight == near(-10, 1e-12));
    CHECK(cause.cannot_be_when_text == "rain");
    REQUIRE(cause.must_be_when.has_value());
    CHECK(cause.not_together_with == std::vector{base.causes.find("other").value()});
    CHECK(cause.alone);
    CHECK(cause.benign);
    CHECK(cause.brings_about.size() == 1);
    CHECK(cause.steps == std::vector{base.steps.find("dig").value()});
    CHECK(cause.cautions == std::vector{base.cautions.find("K09").value()});
    REQUIRE(cause.avoid.size() == 2);
    CHECK(std::holds_alternative<Handle<Clash>>(cause.avoid[0]));
    CHECK(std::get<std::string>(cause.avoid[1]) == "Do not poke.");
    CHECK(cause.look_again_days == std::vector<double>{1, 14});
    CHECK(cause.expect == "It dries.");
    CHECK(cause.told_apart_by == "A look.");
    CHECK(cause.not_to_confuse_with.size() == 1);
    CHECK(cause.guides_differ == "They do.");
    CHECK(cause.sources == Sources{base.sources.find("common_practice").value()});
}

TEST_CASE("a step keeps everything that is said of it", "[rule_base_reader]") {
    const RuleBase base = Rules()
                              .sign("rain")
                              .caution("K01")
                              .step("feed_none",
                                    "when: from now on, kind: feed, strictness: 5, if wrong: drastic, pushes: [feed down, air "
                                    "up], cautions: [K01], "
                                    "never when: not rain, check first: Look., amount: A cup., because: It rots.")
                              .step("poke", "when: this week, if wrong: costly")
                              .base();
    const Step& step = base.steps[base.steps.find("feed_none").value()];
    CHECK(step.when == When::from_now_on);
    CHECK(step.kind == StepKind::feed);
    CHECK(step.strictness == 5);
    CHECK(step.needed_chance == near(0.8, 1e-12));
    CHECK(step.pushes == std::vector<Push>{{Pushed::feed, false}, {Pushed::air, true}});
    CHECK(step.cautions.size() == 1);
    REQUIRE(step.never_when.has_value());
    CHECK(step.never_when_text == "not rain");
    CHECK(step.check_first == "Look.");
    CHECK(step.amount == "A cup.");
    CHECK(step.because == "It rots.");
    CHECK(base.steps[base.steps.find("poke").value()].needed_chance == near(0.5, 1e-12));
    CHECK(base.steps[base.steps.find("poke").value()].when == When::this_week);
}

TEST_CASE("a clash speaks of kinds, pushes and single steps", "[rule_base_reader]") {
    const RuleBase base = Rules()
                              .sign("rain")
                              .step("lime_it", "kind: lime, pushes: [ph up]")
                              .clash("one", "never: [lime, ph up, lime_it], when: rain, say: No lime., check first: Sniff.")
                              .clash("two", "between: [moisture up, moisture down], find out: rain")
                              .clash("saying", "never: [], when: always, say: Do not.")
                              .base();
    const Clash& one = base.clashes[base.clashes.find("one").value()];
    REQUIRE(one.never.size() == 3);
    const Handle<Step> step = base.steps.find("lime_it").value();
    for (const StepGroup& group : one.never) CHECK(matches(group, base.steps[step], step));
    CHECK(one.check_first == "Sniff.");
    const Clash& two = base.clashes[base.clashes.find("two").value()];
    REQUIRE(two.between.size() == 2);
    CHECK(two.find_out == base.signs.find("rain"));
    CHECK_FALSE(two.when.has_value());
    CHECK(base.clashes[base.clashes.find("saying").value()].never.empty());
}

TEST_CASE("entries may refer to what stands later, or in a later file", "[rule_base_reader]") {
    const RuleText early{"early.yaml",
                         "causes:\n  x: {name: X, how common: rare, because: B, signs: [{when: wet, seen: usually}], steps: "
                         "[s], look again: 1 day, sources: [me]}\n"
                         "rules:\n  r: {when: rain, then: wet, because: B, sources: [me]}\n"};
    const RuleText late{"late.yaml",
                        "steps:\n  s: {do: D, when: now, kind: air, if wrong: harmless, sources: [me]}\n"
                        "conclusions:\n  wet: {means: wet, seen anyway: sometimes}\n"
                        "signs:\n  rain: {ask: Rain, topic: moisture, effort: look, sources: [me]}\n"
                        "sources:\n  me: {title: Me, kind: trade, standing: from memory}\n"};
    CHECK(complaints_of({early, late}).empty());
    CHECK(complaints_of({late, early}).empty());
    CHECK_FALSE(complaints_of(std::vector<RuleText>{early}).empty());
}

TEST_CASE("a number without a unit is in the sign's own, and a range's unit stands for both ends", "[rule_base_reader]") {
    const auto range_of = [](const std::string& when) {
        const RuleBase base =
            Rules().sign("heat", "measured in: °C, plausible: -20 to 90").conclusion("hot").rule("r", when, "hot").base();
        return std::get<Lies>(base.rules[Handle<Rule>{0}].when.node).range;
    };
    CHECK(range_of("heat above 32").low == 32);
    CHECK(range_of("heat above 32 °C").low == 32);
    CHECK(range_of("heat above 95 °F").low == near(35, 1e-9));
    CHECK(range_of("heat between 68 and 95 °F").low == near(20, 1e-9));
    CHECK(range_of("heat between 68 and 95 °F").high == near(35, 1e-9));
    CHECK_FALSE(range_of("heat above 32").low_included);
    CHECK(range_of("heat at least 32").low_included);
    CHECK_FALSE(range_of("heat below 32").high_included);
    CHECK(range_of("heat at most 32").high_included);
    CHECK((range_of("heat between 5 and 10") == Range{5, 10, true, true}));
}

TEST_CASE("the default rule base is read without a complaint", "[rule_base_reader]") {
    CHECK(complaints_of(default_rules()).empty());
    const RuleBase& base = default_base();
    CHECK(base.causes.size() >= 30);
    CHECK(base.stage.has_value());
    CHECK(base.rule_order.size() == base.rules.size());
    CHECK(base.changes.empty());
}

TEST_CASE("the order of the default files changes nothing but the order of entries", "[rule_base_reader]") {
    std::vector<RuleText> files = default_rules();
    std::reverse(files.begin(), files.end());
    const RuleBase reversed = base_of(files);
    const auto sorted = [](std::vector<std::string> ids) {
        std::sort(ids.begin(), ids.end());
        return ids;
    };
    CHECK(sorted(reversed.signs.ids()) == sorted(default_base().signs.ids()));
    CHECK(sorted(reversed.rules.ids()) == sorted(default_base().rules.ids()));
    CHECK(sorted(reversed.causes.ids()) == sorted(default_base().causes.ids()));
    CHECK(sorted(reversed.steps.ids()) == sorted(default_base().steps.ids()));
}

}  // namespace engine_rule_base_reader_test
