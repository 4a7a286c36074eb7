// lidlift why --tank: the built program with a tank's record.
#include "tests/cli/program.hpp"

#include <algorithm>
#include <string>

#include <nlohmann/json.hpp>

namespace cli_why_tank_test {

using namespace lidlift::test;
using nlohmann::json;

namespace {

/// Fed for weeks on what is too sour, beside a bay that rests.
constexpr const char* sour_tank = R"(tank: The tank behind the wash house
inside: {length: 10 ft, width: 6 ft, height: 2.5 ft}
bays: [left, right]
dividing wall: open
worms: Eisenia fetida
bucket: 10 L
entries:
  - {on: 2026-01-10, bay: left, added: {kitchen waste: 200 kg, dry leaves: 60 kg}}
  - {on: 2026-02-14, bay: left, worms in: 5 kg}
  - {on: 2026-03-01, bay: left, added: {kitchen waste: 19 kg, citrus peel: 10 kg}}
  - {on: 2026-03-05, bay: left, added: {kitchen waste: 20 kg, citrus peel: 10 kg}}
  - {on: 2026-03-06, bay: right, added: {kitchen waste: 150 kg, dry leaves: 50 kg}}
  - {on: 2026-03-09, bay: left, added: {kitchen waste: 20 kg, citrus peel: 11 kg}}
  - {on: 2026-03-12, bay: left, added: {kitchen waste: 20 kg, citrus peel: 10 kg}}
  - {on: 2026-03-13, bay: left, read: {bed_temperature: 24 °C, ph: 4.8}, saw: {smell_sour: strong}}
  - {on: 2026-03-20, bay: left, added: {kitchen waste: 5 kg}}
)";

const std::vector<std::string> on_the_day = {"--on", "2026-03-14"};

std::vector<std::string> why(std::vector<std::string> more) {
    more.insert(more.begin(), "why");
    more.insert(more.end(), on_the_day.begin(), on_the_day.end());
    return more;
}

const json* understood(const json& document, const std::string& sign) {
    const json& list = document.at("understood");
    const auto found = std::ranges::find_if(list, [&](const json& entry) { return entry.at("sign") == sign; });
    return found == list.end() ? nullptr : &*found;
}

}  // namespace

TEST_CASE("a record alone is enough for a diagnosis", "[cli][tank]") {
    const TemporaryFolder folder;
    const std::string tank = folder.write("tank.yaml", sour_tank);
    const Run page = run(why({"--tank", tank}));
    check_answer(page);
    const std::string text = unwrapped(page.out);
    CHECK(holds(text, "The bed has turned acid"));
    CHECK(holds(text, "WHAT THE TANK'S RECORD SAYS"));
    CHECK(
        holds(text, "The tank behind the wash house, bay left (by its record it is the one most in trouble), on 2026-03-14."));
    CHECK(holds(text, "41 kg of citrus peel in 120 kg of feed since 2026-03-01"));
    // In the balance as well, each line marked.
    CHECK(holds(text,
                "citrus in the feed: lots of citrus (from the tank's record: 41 kg of citrus peel in 120 kg of feed since "
                "2026-03-01)"));
    CHECK(holds(text, "1 thing is written down for days after 2026-03-14 and does not count."));
    CHECK_FALSE(holds(text, "WHAT YOU TOLD ME"));
    // What must be read before a step stands before the steps.
    CHECK(text.find("FIRST READ THIS") < text.find("WHAT TO DO"));
}

TEST_CASE("what the record tells and what the person tells stand apart", "[cli][tank]") {
    const TemporaryFolder folder;
    const std::string tank = folder.write("tank.yaml", sour_tank);
    const Run page = run(why({"--tank", tank, "squeeze=stream", "smell_sour=none"}));
    check_answer(page);
    const std::string text = unwrapped(page.out);
    CHECK(holds(text, "WHAT YOU TOLD ME - squeeze test: water runs out without hard squeezing"));
    CHECK(holds(text, "! sour smell: you say \""));
    CHECK(holds(text, "I went by what you say."));
    CHECK(holds(text, "bay left (it has the worms)"));
}

TEST_CASE("the record's facts and the bay's figures in JSON", "[cli][tank]") {
    const TemporaryFolder folder;
    const std::string tank = folder.write("tank.yaml", sour_tank);
    const Run result = run(why({"--tank", tank, "squeeze=stream", "--json"}));
    check_answer(result);
    const json document = json::parse(result.out);
    CHECK(understood(document, "squeeze")->at("from") == "you said: squeeze=stream");
    CHECK(understood(document, "feed_citrus")->at("from") ==
          "the tank's record: 41 kg of citrus peel in 120 kg of feed since 2026-03-01");
    CHECK(understood(document, "feed_citrus")->at("value") == "lots");
    const json& bay = document.at("tank");
    CHECK(bay.at("name") == "The tank behind the wash house");
    CHECK(bay.at("bay") == "left");
    CHECK(bay.at("on") == "2026-03-14");
    CHECK(bay.at("stage") == "worm bed");
    CHECK(bay.at("days_since_worms") == 28);
    CHECK(bay.at("fed_kg").at("typical") == 120.0);
    CHECK(bay.at("fed_kg").at("how").is_string());
    CHECK(bay.at("temperature").at("typical") == 24.0);
    CHECK(bay.at("slurry_water_to_dung").is_null());
    CHECK(bay.at("feed_shares").at(0).at("sign") == "feed_citrus");
    // Without a record there is no such key.
    CHECK_FALSE(json::parse(run({"why", "squeeze=stream", "--json"}).out).contains("tank"));
}

TEST_CASE("a bay by name, and the record as of another day", "[cli][tank]") {
    const TemporaryFolder folder;
    const std::string tank = folder.write("tank.yaml", sour_tank);
    const json right = json::parse(run(why({"--tank", tank, "--bay", "Right", "--json"})).out).at("tank");
    CHECK(right.at("bay") == "right");
    CHECK(right.at("because") == "you named it");
    CHECK(right.at("stage") == "resting");
    const json before = json::parse(run({"why", "--tank", tank, "--on", "2026-01-20", "--json"}).out).at("tank");
    CHECK(before.at("stage") == "resting");
    CHECK(before.at("worms_kg").is_null());
    // Standard input will do.
    CHECK(json::parse(run(why({"--tank", "-", "--json"}), sour_tank).out).at("tank").at("bay") == "left");
}

TEST_CASE("a tank in which nothing happened yet asks instead of guessing", "[cli][tank]") {
    const TemporaryFolder folder;
    const std::string tank = folder.write("tank.yaml", "tank: New\ninside: {length: 3 m, width: 2 m, height: 1 m}\n");
    const Run page = run(why({"--tank", tank}));
    check_answer(page);
    CHECK(holds(unwrapped(page.out), "I cannot tell yet"));
    CHECK(holds(page.out, "WHAT WOULD TELL ME MORE"));
    CHECK(holds(unwrapped(page.out), "Empty: the record names nothing in it."));
}

TEST_CASE("records and bays that cannot be used", "[cli][tank]") {
    const TemporaryFolder folder;
    const std::string tank = folder.write("tank.yaml", sour_tank);
    check_error(run(why({"--tank", tank, "--bay", "rigth"})), 2, "the record has no bay 'rigth' (did you mean 'right'?)");
    check_error(run({"why", "--tank", tank, "--on", "2026-02-30"}), 2, "--on: ");
    check_error(run({"why", "squeeze=stream", "--bay", "left"}), 2, "--tank FILE");
    check_error(run(why({"--tank", folder.path("none.yaml")})), 3, "none.yaml");
    check_error(
        run(why({"--tank", folder.write("bad.yaml", "tank: T\nbays: [a]\nentries:\n  - {on: 2026-03-01, adde: {}}\n")})), 2,
        "bad.yaml:4:");
    check_error(run({"why"}), 2, "--tank FILE");
}

}  // namespace cli_why_tank_test
