// The amounts of steps, as the built program says them of a tank's record.
#include "tests/catch.hpp"
#include "tests/cli/program.hpp"

#include <algorithm>
#include <optional>
#include <string>

#include <nlohmann/json.hpp>

namespace cli_amounts_test {

using namespace lidlift::test;
using Json = nlohmann::json;

namespace {

/// A worm bed of which everything that an amount needs is written down, by weight.
const char* const bed_at_work = R"(
tank: By the well
inside: {length: 2 m, width: 1 m, height: 0.6 m}
bays: [bed]
bucket: 10 L
entries:
  - {on: 2026-01-05, added: {vegetable trimmings: 250 kg, dry leaves: 40 kg}}
  - {on: 2026-02-10, worms in: 3 kg}
  - {on: 2026-03-02, added: {vegetable trimmings: 8 kg}}
  - {on: 2026-03-06, added: {vegetable trimmings: 8 kg}}
  - {on: 2026-03-08, saw: {squeeze: stream}}
)";

std::vector<std::string> why(const std::string& record, const std::vector<std::string>& more) {
    std::vector<std::string> arguments = {"why", "--tank", record, "--on", "2026-03-09"};
    arguments.insert(arguments.end(), more.begin(), more.end());
    return arguments;
}

std::optional<Json> step(const Json& document, const std::string& id) {
    for (const Json& each : document["steps"])
        if (each["id"] == id) return each;
    return std::nullopt;
}

}  // namespace

TEST_CASE("why says how much for the tank at hand", "[cli][amounts]") {
    const TemporaryFolder folder;
    const std::string record = folder.write("bed.yaml", bed_at_work);
    const Run text = run(why(record, {"squeeze=stream", "smell_rotten=faint", "standing_water=no"}));
    INFO(text.out << text.err);
    REQUIRE(text.exit == 0);
    const std::string page = unwrapped(text.out);
    CHECK(page.find("How much: dry leaves to bring the top 20 cm of the bed to 75 to 80 % moisture: ") != std::string::npos);
    CHECK(page.find("of your 10 L buckets") != std::string::npos);
    CHECK(page.find("or newspaper to bring the top") != std::string::npos);
    // The rule of hand is for those who have no record.
    CHECK(page.find("Begin with one bucket to every four or five of wet bed") == std::string::npos);
    const Run without = run({"why", "squeeze=stream", "smell_rotten=faint", "standing_water=no"});
    CHECK(unwrapped(without.out).find("How much: Begin with one bucket to every four or five of wet bed.") !=
          std::string::npos);
}

TEST_CASE("why tells amounts as JSON beside the rule of hand", "[cli][amounts]") {
    const TemporaryFolder folder;
    const std::string record = folder.write("bed.yaml", bed_at_work);
    const Run told = run(why(record, {"--json", "squeeze=stream", "smell_rotten=faint", "standing_water=no"}));
    INFO(told.out << told.err);
    REQUIRE(told.exit == 0);
    const Json document = Json::parse(told.out);
    const auto bedding = step(document, "add_dry_bedding");
    REQUIRE(bedding);
    CHECK((*bedding)["amount"].is_string());
    CHECK((*bedding)["amount_lacks"].empty());
    const Json& measured = (*bedding)["amount_measured"];
    REQUIRE(measured.size() == 4);
    CHECK(measured[0]["material"] == "dry_leaves");  // at hand by the record
    CHECK(measured[0]["in_place_of_the_one_before"] == false);
    CHECK(measured[1]["in_place_of_the_one_before"] == true);
    for (const Json& each : measured) {
        INFO(each.dump(2));
        for (const char* measure : {"kg", "litres", "buckets"}) {
            CHECK(each[measure]["low"] >= 0);
            CHECK(each[measure]["low"] <= each[measure]["typical"]);
            CHECK(each[measure]["typical"] <= each[measure]["high"]);
        }
        CHECK(each["buckets"]["typical"].get<double>() == Approx(each["litres"]["typical"].get<double>() / 10));
        CHECK(each["litres"]["high"].get<double>() <= document["tank"]["free_litres"].get<double>() + 1e-9);
        CHECK(each["because"].size() == 3);
        CHECK(each["bounded"].is_boolean());
        CHECK_FALSE(each["text"].get<std::string>().empty());
    }
    // The dust of what is measured out is warned of, before the steps.
    const Json& cautions = document["cautions"];
    CHECK(std::any_of(cautions.begin(), cautions.end(), [](const Json& caution) { return caution["id"] == "K30"; }));

    const Json without = Json::parse(run({"why", "--json", "squeeze=stream"}).out);
    for (const Json& each : without["steps"]) CHECK(each["amount_measured"].is_null());
}

TEST_CASE("why says what the record lacks for an amount, and keeps the rule of hand", "[cli][amounts]") {
    const TemporaryFolder folder;
    const std::string record = folder.write("bare.yaml", R"(
tank: By the well
inside: {length: 2 m, width: 1 m, height: 0.6 m}
bays: [bed]
entries:
  - {on: 2026-02-10, worms in: 3 kg}
)");
    const Run text = run(why(record, {"squeeze=stream", "smell_rotten=faint", "standing_water=no"}));
    INFO(text.out << text.err);
    REQUIRE(text.exit == 0);
    const std::string page = unwrapped(text.out);
    CHECK(page.find("How much: Begin with one bucket to every four or five of wet bed.") != std::string::npos);
    CHECK(page.find("the tank's record should also hold: what goes into the bay, and how much") != std::string::npos);
}

TEST_CASE("show and the handbook say what steps measure out", "[cli][amounts]") {
    const std::string shown = unwrapped(run({"show", "steps", "dust_with_carbonate"}).out);
    CHECK(shown.find("30 to 50 g of ground_limestone or egg_shell for each m2 of the bed") != std::string::npos);
    CHECK(unwrapped(run({"show", "materials", "ground_limestone"}).out).find("dust_with_carbonate") != std::string::npos);
    const std::string handbook = run({"handbook"}).out;
    CHECK(handbook.find("30 to 50 g of ground_limestone or egg_shell for each m2 of the bed") != std::string::npos);
}

}  // namespace cli_amounts_test
