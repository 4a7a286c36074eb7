// lidlift round: the example site, the page, the JSON, and folders that cannot be used.
#include "engine/plain_text.hpp"
#include "tests/cli/program.hpp"

#include <algorithm>
#include <filesystem>
#include <sstream>
#include <string>
#include <vector>

#include <nlohmann/json.hpp>

namespace cli_round_test {

using namespace lidlift;
using namespace lidlift::test;
using nlohmann::json;
using Words = std::vector<std::string>;

namespace {

const std::string site = LIDLIFT_TESTS_FOLDER "/../examples/quince_lane";

Run go_round(const std::string& folder, Words more = {}) {
    Words words = {"round", folder, "--on", "2026-06-15"};
    words.insert(words.end(), more.begin(), more.end());
    return run(words);
}

std::string file_name(const json& tank) {
    return std::filesystem::path(tank.at("file").get<std::string>()).filename().string();
}

std::size_t widest(const std::string& text) {
    std::size_t most = 0;
    std::istringstream stream(text);
    for (std::string line; std::getline(stream, line);)
        if (!holds(line, "lidlift why --tank")) most = std::max(most, display_width(line));  // meant to be copied
    return most;
}

const std::string well = R"(tank: Well
inside: {length: 2 m, width: 1 m, height: 0.7 m}
entries:
  - {on: 2026-05-10, added: {kitchen waste: 60 kg, dry leaves: 20 kg}, worms in: 3 kg}
  - {on: 2026-06-14, added: {kitchen waste: 4 kg}, read: {bed_temperature: 21 °C}}
)";

}  // namespace

TEST_CASE("the round of the example site puts the three in trouble first", "[cli][round]") {
    const Run result = go_round(site, {"--json"});
    check_answer(result);
    const json round = json::parse(result.out);
    CHECK(round.at("on") == "2026-06-15");
    CHECK(round.at("site").at("name") == "Quince Lane");
    REQUIRE(round.at("tanks").size() == 6);
    const std::vector<std::pair<std::string, std::string>> troubles = {
        {"tank_3_pump.yaml", "acid_bed"}, {"tank_5_bakery.yaml", "worms_in_too_early"}, {"tank_6_orchard.yaml", "overwatered"}};
    for (std::size_t i = 0; i < 6; ++i) {
        const json& tank = round.at("tanks").at(i);
        const std::string name = file_name(tank);
        CAPTURE(i, name, tank.dump());
        const auto trouble = std::ranges::find(troubles, name, &std::pair<std::string, std::string>::first);
        CHECK((trouble != troubles.end()) == (i < 3));
        if (trouble == troubles.end()) {
            CHECK(tank.at("causes").empty());
            CHECK(tank.at("dangers").empty());
        } else {
            REQUIRE(tank.at("causes").size() == 1);
            CHECK(tank.at("causes").front().at("id") == trouble->second);
        }
        CHECK(tank.at("mistakes").empty());
    }
}

TEST_CASE("the example site shows each stage that its files promise", "[cli][round]") {
    const json round = json::parse(go_round(site, {"--json"}).out);
    const auto stage = [&](const std::string& file, std::size_t bay) {
        for (const json& tank : round.at("tanks"))
            if (file_name(tank) == file) return tank.at("bays").at(bay).at("stage").get<std::string>();
        return std::string("no such tank");
    };
    CHECK(stage("tank_1_gate.yaml", 0) == "resting");
    CHECK(stage("tank_1_gate.yaml", 1) == "worm bed");
    CHECK(stage("tank_2_pear.yaml", 0) == "ready for worms");
    CHECK(stage("tank_2_pear.yaml", 1) == "worms leaving");
    CHECK(stage("tank_3_pump.yaml", 1) == "worm bed");
    CHECK(stage("tank_4_school.yaml", 0) == "harvest due");
    CHECK(stage("tank_4_school.yaml", 1) == "worm bed");
    CHECK(stage("tank_5_bakery.yaml", 0) == "worm bed");
    CHECK(stage("tank_5_bakery.yaml", 1) == "empty");
    CHECK(stage("tank_6_orchard.yaml", 0) == "being filled");
}

TEST_CASE("one of the example tanks was fed for eight weeks almost every day", "[cli][round]") {
    const std::string text = file_text(site + "/tank_3_pump.yaml");
    std::istringstream stream(text);
    int feeds = 0;
    bool worms = false;
    for (std::string line; std::getline(stream, line);) {
        worms = worms || holds(line, "worms in");
        if (worms && holds(line, "added:") && !holds(line, "cardboard") && !holds(line, "barrows")) ++feeds;
    }
    CHECK(feeds >= 42);
    CHECK(feeds <= 56);
}

TEST_CASE("the page of a round fits the screen, with cautions before the work", "[cli][round]") {
    for (const Words& more : {Words{}, Words{"--full"}}) {
        const Run result = go_round(site, more);
        check_answer(result);
        CHECK(widest(result.out) <= 80);
        const auto cautions = result.out.find("BEFORE ANYTHING ELSE");
        const auto work = result.out.find("THE TANKS, MOST URGENT FIRST");
        REQUIRE(cautions != std::string::npos);
        REQUIRE(work != std::string::npos);
        CHECK(cautions < work);
        for (const char* name : {"Tank 1, by the gate", "Tank 2, under the pear", "Tank 3, by the pump",
                                 "Tank 4, behind the school", "Tank 5, by the bakery", "Tank 6, at the orchard wall"})
            CHECK(holds(result.out.substr(work), name));
        CHECK(holds(unwrapped(result.out), "The load: given "));
        CHECK(holds(result.out, "WHAT THE SITE CAN TAKE") == !more.empty());
        CHECK(holds(result.out, "Source") == !more.empty());
    }
}

TEST_CASE("each caution is read out once, before the first work that needs it, and named wherever it is needed again",
          "[cli][round]") {
    const json round = json::parse(go_round(site, {"--json"}).out);
    const std::string page = unwrapped(go_round(site).out);
    const std::size_t list = page.find("THE TANKS, MOST URGENT FIRST");
    std::vector<std::size_t> begins;
    for (std::size_t i = 0; i < round.at("tanks").size(); ++i) {
        begins.push_back(page.find(" " + std::to_string(i + 1) + ". " + round.at("tanks").at(i).at("name").get<std::string>()));
        REQUIRE(begins.back() != std::string::npos);
    }
    begins.push_back(page.size());
    for (const json& caution : round.at("cautions")) {
        const std::string text = unwrapped(caution.at("text").get<std::string>());
        CAPTURE(text);
        const std::size_t at = page.find(text);
        REQUIRE(at != std::string::npos);
        CHECK(page.find(text, at + 1) == std::string::npos);
        CHECK((caution.at("level") != "stop" || at < list));
        for (std::size_t i = 0; i + 1 < begins.size(); ++i) {
            const std::string block = page.substr(begins[i], begins[i + 1] - begins[i]);
            for (const json& due : round.at("tanks").at(i).at("due")) {
                if (std::ranges::find(due.at("cautions"), caution.at("id")) == due.at("cautions").end()) continue;
                const std::string say = due.at("text");
                const std::size_t work = begins[i] + block.find(unwrapped(say.substr(1, say.size() - 2)));
                CAPTURE(say);
                CHECK(at < work);
                CHECK(block.find(caution.at("name").get<std::string>()) < work - begins[i]);
            }
        }
    }
}

TEST_CASE("JSON of a round holds what its page says, and cautions for every step", "[cli][round]") {
    const json round = json::parse(go_round(site, {"--json"}).out);
    std::vector<std::string> read;
    for (const json& caution : round.at("cautions")) {
        read.push_back(caution.at("id"));
        CHECK_FALSE(caution.at("text").get<std::string>().empty());
        CHECK_FALSE(caution.at("tanks").empty());
    }
    const std::string page = unwrapped(go_round(site).out);
    for (const json& tank : round.at("tanks"))
        for (const json& due : tank.at("due")) {
            for (const json& caution : due.at("cautions"))
                CHECK(std::ranges::find(read, caution.get<std::string>()) != read.end());
            const std::string say = due.at("text");
            CAPTURE(say);
            CHECK(holds(page, unwrapped(say.substr(1, say.size() - 2))));
            CHECK(due.at("from") <= due.at("until"));
        }
    for (const char* key :
         {"load", "in_short", "given_kg_per_day", "stated_kg_per_day", "can_take_kg_per_day", "floor_m2", "how"})
        CHECK(round.at("capacity").contains(key));
    CHECK(round.at("capacity").at("stated_kg_per_day") == 42);
}

TEST_CASE("a broken record among good ones is shown, and the others too", "[cli][round]") {
    const TemporaryFolder folder;
    folder.write("good.yaml", well);
    folder.write("bad.yaml", "tank: Bad\nentries:\n  - {on: 2026-02-30, did: it}\n");
    const Run result = go_round(folder.path());
    CHECK(result.exit == 2);
    CHECK(holds(result.err, "bad.yaml:3:10: there is no 30th of February"));
    CHECK(holds(result.out, "bad.yaml"));
    CHECK(holds(result.out, "1 that cannot be read"));
    CHECK(holds(unwrapped(result.out), "3:10: there is no 30th of February"));
    CHECK(holds(result.out, "Well"));
    const json round = json::parse(go_round(folder.path(), {"--json"}).out);
    CHECK(round.at("tanks").at(0).at("urgency") == "unreadable");
    CHECK(round.at("tanks").at(0).at("mistakes").at(0).at("line") == 3);
    CHECK(round.at("tanks").at(0).at("mistakes").at(0).at("column") == 10);
    CHECK(round.at("tanks").size() == 2);
}

TEST_CASE("where people come first nothing else is told to do", "[cli][round]") {
    const TemporaryFolder folder;
    folder.write("good.yaml", well);
    folder.write("smoke.yaml",
                 "tank: Smoky\nentries:\n  - {on: 2026-06-01, added: {kitchen waste: 60 kg}}\n"
                 "  - {on: 2026-06-15, saw: {smell_smoke: yes}}\n  - {on: 2026-06-20, note: later}\n");
    const Run result = go_round(folder.path());
    check_answer(result);
    const std::string page = unwrapped(result.out);
    CHECK(holds(page, "2 tanks: 1 in danger"));
    CHECK(holds(page, "1. Smoky"));
    CHECK(holds(page, "People first. Nothing else matters here until the danger is over."));
    CHECK(page.find("Call the fire service") < page.find("1. Smoky"));
    CHECK(holds(page, "1 thing in its record lies after this day and is left out."));
    const json tank = json::parse(go_round(folder.path(), {"--json"}).out).at("tanks").at(0);
    CHECK(tank.at("emergency") == true);
    CHECK(tank.at("due").empty());
    CHECK(tank.at("ahead") == 1);
}

TEST_CASE("a file that cannot be read is shown too", "[cli][round]") {
    const TemporaryFolder folder;
    folder.write("good.yaml", well);
    std::filesystem::create_symlink(folder.path("nowhere"), folder.path("gone.yaml"));
    const Run result = go_round(folder.path());
    CHECK(result.exit == 3);
    CHECK(holds(result.err, "gone.yaml"));
    CHECK(holds(unwrapped(result.out), "2 tanks: 1 that cannot be read"));
    CHECK(holds(result.out, "Well"));
}

TEST_CASE("a site's file with a slip in it costs nothing but itself", "[cli][round]") {
    const TemporaryFolder folder;
    folder.write("good.yaml", well);
    folder.write("site.yaml", "site: S\nwaste: 3 kg\n");
    const Run result = go_round(folder.path());
    CHECK(result.exit == 2);
    CHECK(holds(result.err, "site.yaml:2:1: unknown key 'waste'"));
    CHECK(holds(result.out, "Well"));
}

TEST_CASE("what is no tank's record is left alone", "[cli][round]") {
    const TemporaryFolder folder;
    folder.write("good.yaml", well);
    folder.write("letter.txt", "not YAML: [");
    folder.write(".good.yaml.lidlift-new", "half a rec");
    folder.write(".hidden.yaml", "half a rec");
    std::filesystem::create_directory(folder.path("old.yaml"));
    const Run result = go_round(folder.path());
    check_answer(result);
    CHECK(holds(result.out, "1 tank:"));
}

TEST_CASE("folders that cannot be used", "[cli][round]") {
    const TemporaryFolder folder;
    check_error(go_round(folder.path()), 2, "holds no tank's record");
    folder.write("site.yaml", "site: S\n");
    check_error(go_round(folder.path()), 2, "holds no tank's record");
    check_error(go_round(folder.path("nowhere")), 3, "there is no such folder");
    check_error(go_round(folder.path("site.yaml")), 2, "is no folder");
    check_error(run({"round"}), 2, "round needs a folder; lidlift round --help shows how");
    check_error(run({"round", site, "--on", "15.6.2026"}), 2, "--on: '15.6.2026' is no day");
    check_error(run({"round", site, "--on", "2026-06-31"}), 2, "there is no 31st of June");
}

TEST_CASE("without --on the round is of today", "[cli][round]") {
    const TemporaryFolder folder;
    folder.write("good.yaml", well);
    const Run result = run({"round", folder.path()});
    CHECK(result.exit == 0);
    CHECK(holds(result.out, "ROUND ON 20"));
}

TEST_CASE("two hundred tanks stay readable, and one too many is refused", "[cli][round][slow]") {
    const TemporaryFolder folder;
    for (int i = 0; i < 200; ++i) {
        std::string text = well;
        text.replace(text.find("Well"), 4, "Tank " + std::to_string(i));
        folder.write("tank_" + std::to_string(i) + ".yaml", text);
    }
    const Run result = go_round(folder.path());
    check_answer(result);
    CHECK(holds(result.out, "200 tanks:"));
    CHECK(holds(result.out, "Tank 199"));
    CHECK(widest(result.out) <= 80);
    CHECK(std::ranges::count(result.out, '\n') < 200 * 8 + 80);
    for (int i = 200; i < 500; ++i) folder.write("tank_" + std::to_string(i) + ".yaml", "tank: T\n");
    CHECK(go_round(folder.path()).exit == 0);
    folder.write("tank_500.yaml", "tank: T\n");
    check_error(go_round(folder.path()), 2, "holds 501 records; a round takes 500 at most");
}

TEST_CASE("the same folder gives the same round", "[cli][round]") {
    CHECK(go_round(site, {"--json"}).out == go_round(site, {"--json"}).out);
}

}  // namespace cli_round_test
