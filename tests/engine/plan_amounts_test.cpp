#include "engine/plan_amounts.hpp"

#include "tests/catch.hpp"
#include "tests/engine/short_rules.hpp"

#include <string>

namespace engine_plan_amounts_test {

using namespace lidlift;
using namespace lidlift::test;

namespace {

const char* const record_text = R"(
tank: By the well
inside: {length: 2 m, width: 1 m, height: 0.6 m}
bays: [bed]
bucket: 10 L
entries:
  - {on: 2026-01-05, added: {vegetable trimmings: 250 kg, dry leaves: 40 kg}}
  - {on: 2026-02-10, worms in: 3 kg}
  - {on: 2026-03-06, added: {vegetable trimmings: 8 kg}}
  - {on: 2026-03-08, saw: {squeeze: few_drops}}
)";

TankRecord record() {
    TankReading reading = read_tank_record(record_text, "bed.yaml", default_base());
    REQUIRE(reading.complaints.empty());
    return std::move(reading.record);
}

/// The amounts of one planned step when a person says `squeeze`.
StepAmounts planned(const std::string& step, const std::string& squeeze, Sureness sureness = Sureness::sure,
                    const std::string& from = "you said") {
    const RuleBase& base = default_base();
    Told told;
    if (!squeeze.empty()) {
        REQUIRE_FALSE(hear(told, base, "squeeze", squeeze, from));
        Observation observation = *told.facts.find(*base.signs.find("squeeze"));
        observation.sureness = sureness;
        told.facts.set(*base.signs.find("squeeze"), observation);
    }
    Advice advice;
    advice.steps.push_back({*base.steps.find("stop_watering"), 1, {}, {}});  // measures nothing out
    advice.steps.push_back({*base.steps.find(step), 1, {}, {}});
    const auto amounts = amounts_of_plan(base, told, advice, record(), 0, *read_day("2026-03-09"));
    REQUIRE(amounts.size() == 2);
    CHECK(amounts[0].amounts.empty());
    CHECK(amounts[0].missing.empty());
    return amounts[1];
}

}  // namespace

TEST_CASE("What a person says now of the bay moves the amounts as the record does", "[amounts]") {
    // By yesterday's squeeze the bed is right.
    const StepAmounts recorded = planned("add_dry_bedding", "");
    REQUIRE(recorded.amounts.size() == 1);
    CHECK_FALSE(recorded.amounts[0].nothing_needed.empty());
    // Today water runs out of it: now dry leaves are wanted, and of all four materials those that the record names come first.
    const StepAmounts told = planned("add_dry_bedding", "stream");
    REQUIRE(told.amounts.size() == 4);
    CHECK(told.amounts[0].name == "dry leaves");
    CHECK(told.amounts[0].nothing_needed.empty());
    CHECK(told.amounts[0].kg.typical > 0);
    CHECK(planned("sprinkle_in_portions", "dry_crumbles").amounts[0].kg.typical > 0);
    // A guess does not, nor what only repeats the record.
    CHECK_FALSE(planned("add_dry_bedding", "stream", Sureness::guess).amounts[0].nothing_needed.empty());
    CHECK_FALSE(planned("add_dry_bedding", "stream", Sureness::sure, std::string(from_the_record) + "by the squeeze")
                    .amounts[0]
                    .nothing_needed.empty());
}

}  // namespace engine_plan_amounts_test
