// A later file adds to, extends or replaces what earlier files said (rules/FORMAT.md section 1).
#include "engine/rule_base_reader.hpp"
#include "tests/catch.hpp"
#include "tests/engine/short_rules.hpp"

#include <string>
#include <vector>

namespace engine_rule_base_merge_test {

using namespace lidlift;
using namespace lidlift::test;

namespace {

const std::string first =
    "signs:\n"
    "  squeeze:\n"
    "    ask: Squeeze it.\n"
    "    check: With gloves.\n"
    "    topic: moisture\n"
    "    effort: touch\n"
    "    answers:\n"
    "      dry: {means: it is dry, heard as: [dusty]}\n"
    "      wet: {means: it is wet}\n"
    "    sources: [common_practice]\n"
    "steps:\n"
    "  air: {do: Fork it., when: now, kind: air, if wrong: harmless, cautions: [K1], sources: [common_practice]}\n"
    "cautions:\n"
    "  K1: {name: tines, level: warn, say: Mind the tines., sources: [common_practice]}\n"
    "  K2: {name: backs, level: note, say: Mind your back., sources: [common_practice]}\n";

std::vector<RuleText> with(const std::string& second) { return {{"first.yaml", first}, {"second.yaml", second}}; }

const Sign& squeeze_of(const RuleBase& base) { return base.signs[base.signs.find("squeeze").value()]; }
const Step& air_of(const RuleBase& base) { return base.steps[base.steps.find("air").value()]; }

}  // namespace

TEST_CASE("extending puts new texts in place of old ones and keeps the rest", "[merge]") {
    const RuleBase base = base_of(with("signs:\n  squeeze: {earlier entry: extend, ask: Squeeze it hard., effort: dig}\n"));
    CHECK(squeeze_of(base).ask == "Squeeze it hard.");
    CHECK(squeeze_of(base).effort == Effort::dig);
    CHECK(squeeze_of(base).check == "With gloves.");
    CHECK(squeeze_of(base).answers.size() == 2);
}

TEST_CASE("extending adds lists to the end of the earlier lists", "[merge]") {
    const RuleBase base = base_of(with("steps:\n  air: {earlier entry: extend, cautions: [K2], sources: [from_memory]}\n"));
    REQUIRE(air_of(base).cautions.size() == 2);
    CHECK(id_of(base.cautions, air_of(base).cautions[0]) == "K1");
    CHECK(id_of(base.cautions, air_of(base).cautions[1]) == "K2");
    REQUIRE(air_of(base).sources.size() == 2);
    CHECK(id_of(base.sources, air_of(base).sources[1]) == "from_memory");
}

TEST_CASE("extending merges maps key by key, at any depth", "[merge]") {
    const RuleBase base =
        base_of(with("signs:\n  squeeze: {earlier entry: extend, answers: {dry: {heard as: [parched]}, soaked: {means: it "
                     "streams}, wet: {means: it drips}}}\n"));
    const Sign& squeeze = squeeze_of(base);
    REQUIRE(squeeze.answers.size() == 3);
    CHECK(squeeze.answers[0].id == "dry");
    CHECK(squeeze.answers[0].means == "it is dry");
    CHECK(squeeze.answers[0].heard_as == std::vector<std::string>{"dusty", "parched"});
    CHECK(squeeze.answers[1].means == "it drips");
    CHECK(squeeze.answers[2].id == "soaked");
}

TEST_CASE("replacing drops everything that the earlier entry said", "[merge]") {
    const RuleBase base =
        base_of(with("signs:\n  squeeze: {earlier entry: replace, ask: Press it., topic: moisture, effort: look, sources: "
                     "[from_memory]}\n"));
    CHECK(squeeze_of(base).ask == "Press it.");
    CHECK(squeeze_of(base).check.empty());
    CHECK(squeeze_of(base).sort == SignSort::yes_no);
    REQUIRE(squeeze_of(base).sources.size() == 1);
    CHECK(id_of(base.sources, squeeze_of(base).sources[0]) == "from_memory");
    CHECK(to_text(squeeze_of(base).place) == "second.yaml:2:3");
}

TEST_CASE("what changes an earlier entry is told, with both places", "[merge]") {
    const RuleBase base =
        base_of(with("signs:\n  squeeze: {earlier entry: extend, ask: Press it.}\nsteps:\n  air: {earlier entry: extend, "
                     "amount: Twice.}\n"));
    CHECK(base.changes == std::vector<std::string>{"second.yaml:2:3: extends the sign 'squeeze' of first.yaml:2:3",
                                                   "second.yaml:4:3: extends the step 'air' of first.yaml:12:3"});
    const RuleBase replaced =
        base_of(with("cautions:\n  K2: {earlier entry: replace, name: backs, level: stop, say: Lift with two., sources: "
                     "[common_practice]}\n"));
    CHECK(replaced.changes == std::vector<std::string>{"second.yaml:2:3: replaces the caution 'K2' of first.yaml:15:3"});
    CHECK(base_of(first).changes.empty());
}

TEST_CASE("an entry keeps its place among the others when it is replaced", "[merge]") {
    const RuleBase base = base_of(with(
        "cautions:\n  K1: {earlier entry: replace, name: forks, level: note, say: Mind it., sources: [common_practice]}\n"));
    CHECK(base.cautions.ids() == std::vector<std::string>{"K1", "K2"});
}

TEST_CASE("entries can be extended again and again, by files in their order", "[merge]") {
    const std::vector<RuleText> files = {
        {"first.yaml", first},
        {"second.yaml", "steps:\n  air: {earlier entry: extend, do: Fork it twice., cautions: [K2]}\n"},
        {"third.yaml", "steps:\n  air: {earlier entry: extend, do: Fork it thrice., cautions: [K1]}\n"}};
    const RuleBase base = base_of(files);
    CHECK(air_of(base).say == "Fork it thrice.");
    CHECK(air_of(base).cautions.size() == 3);
    CHECK(base.changes.size() == 2);
}

TEST_CASE("the sections that describe the whole are simply extended", "[merge]") {
    const std::vector<RuleText> files = {{"first.yaml",
                                          "rule base: {name: Default, version: \"1\"}\nweighing: {largest set: 3, wrong when "
                                          "sure: 2 %, sources: [common_practice]}\n"},
                                         {"second.yaml", "rule base: {name: Ours}\nweighing: {wrong when sure: 5 %}\n"}};
    const RuleBase base = base_of(files);
    CHECK(base.name == "Ours");
    CHECK(base.version == "1");
    CHECK(base.weighing.largest_set == 3);
    CHECK(base.weighing.wrong_when_sure == Approx(0.05));
}

TEST_CASE("a key that both name in different shapes takes the later shape", "[merge]") {
    // One text counts as a list of one; extending a list by it puts the text in the list's place.
    const RuleBase base = base_of(with("steps:\n  air: {earlier entry: extend, cautions: K2}\n"));
    REQUIRE(air_of(base).cautions.size() == 1);
    CHECK(id_of(base.cautions, air_of(base).cautions[0]) == "K2");
}

}  // namespace engine_rule_base_merge_test
