// `lidlift ask` through pipes, and its records on the command line.
#include "engine/call_record_reader.hpp"
#include "tests/catch.hpp"
#include "tests/cli/program.hpp"

#include <filesystem>
#include <string>
#include <vector>

#include <nlohmann/json.hpp>

namespace cli_ask_test {

using namespace lidlift::test;

namespace {

constexpr const char* story = "it reeks of rotten eggs and the worms are all up the walls\n";

}  // namespace

TEST_CASE("ask works through a pipe and advises where the input ends", "[ask]") {
    const Run run = lidlift::test::run({"ask"}, std::string(story) + "none\n1\n");
    check_answer(run);
    CHECK(holds(run.out, "> none\n"));  // the transcript can be read
    CHECK(holds(run.out, "Nothing more was said."));
    CHECK(run.out.find("STOP") < run.out.find("WHAT TO DO"));
    check_answer(lidlift::test::run({"ask"}, ""));
    check_answer(lidlift::test::run({"ask"}, std::string(story) + "none"));  // no line end
    check_answer(lidlift::test::run({"ask"}, "\r\n" + std::string("none\r\nstop\r\n")));
}

TEST_CASE("ask reads out a danger that was told before it asks on, and again before the steps", "[ask]") {
    const Run run = lidlift::test::run({"ask"}, "i leaned into the pit and got a headache\nnone\nstop\n");
    check_answer(run);
    const std::string page = unwrapped(run.out);
    const auto first = page.find("STOP someone is unwell.");
    REQUIRE(first != std::string::npos);
    CHECK(first < page.find("> none"));
    CHECK(page.find("STOP someone is unwell.", first + 1) < page.find("IN SHORT"));
    const std::string nobody_knows = unwrapped(lidlift::test::run({"ask"}, "\ndon't know\nstop\n").out);
    CHECK(holds(nobody_knows, "Find this out before anything else is done"));
    CHECK(holds(nobody_knows, "WHAT TO LOOK AT"));
    CHECK(holds(nobody_knows, "nothing that was asked is known so far"));
}

TEST_CASE("who finds nothing wrong is asked what tells most of a bed, and told that nothing is wrong", "[ask]") {
    std::string answers = "i only want to know whether all is well\nnone\n";
    for (const char* one :
         {"the worms are in the food", "no bad smell", "under 2 cm", "a few drops", "it is loose and crumbly"})
        answers += std::string(one) + "\n";
    const std::string page = unwrapped(lidlift::test::run({"ask"}, answers).out);
    CHECK(holds(page, "Nothing is wrong that needs mending: leave it alone."));
    for (const char* odd : {"grubs", "slugs", "mushrooms"}) CHECK_FALSE(holds(page, odd));
}

TEST_CASE("ask tells an emergency before anything else", "[ask]") {
    const Run run = lidlift::test::run({"ask"}, "the heap is smoking\n1\n2\n");
    check_answer(run);
    CHECK(holds(run.out, "BEFORE ANYTHING ELSE"));
    CHECK(holds(unwrapped(run.out), "The questions end here. See to the people first."));
    CHECK_FALSE(holds(run.out, "Question 1"));
}

TEST_CASE("ask --json talks on standard error and prints the advice as JSON", "[ask]") {
    const Run run = lidlift::test::run({"ask", "--json"}, std::string(story) + "none\nstop\n");
    CHECK(run.exit == 0);
    CHECK(holds(run.err, "Tell me in your own words"));
    const auto answer = nlohmann::json::parse(run.out);
    CHECK(answer.at("understood").at(0).at("sign") == "smell_rotten");
    CHECK(answer.at("understood").at(0).at("from") == "you said: reeks of rotten eggs");
    CHECK(answer.contains("causes"));
}

TEST_CASE("ask and why give the same advice for the same answers", "[ask]") {
    const Run asked = lidlift::test::run({"ask", "--json"}, std::string(story) + "none\nstop\n");
    const Run told = lidlift::test::run(
        {"why", "--json", "smell_rotten=strong", "worm_place=up_walls_lid", "person_symptom=not collapsed", "smell_smoke=no"});
    const auto one = nlohmann::json::parse(asked.out);
    const auto other = nlohmann::json::parse(told.out);
    for (const char* key : {"causes", "cautions", "steps", "left_out", "ask_next"}) CHECK(one.at(key) == other.at(key));
}

TEST_CASE("a paused call goes on from its record, with the follow-up to its end", "[ask]") {
    const TemporaryFolder folder;
    const std::string path = folder.path("call.yaml");
    Run run = lidlift::test::run({"ask", "--record", path}, std::string(story) + "none\npause\n");
    check_answer(run);
    CHECK(holds(run.out, "lidlift ask --record " + path));
    CHECK_FALSE(holds(run.out, "IN SHORT"));
    run = lidlift::test::run({"ask", "--record", path}, "stop\n");
    check_answer(run);
    CHECK(holds(run.out, "This is what you told me then."));
    CHECK(holds(run.out, "IN SHORT"));
    CHECK(holds(run.out, "lidlift ask --again --record " + path));
    run = lidlift::test::run({"ask", "--again", "--record", path}, "all\nsolved\n1\nseen\n");
    check_answer(run);
    CHECK(run.out.find("gas in pits") == std::string::npos);
    CHECK(holds(unwrapped(run.out), "Gas in pits and closed tanks."));  // cautions before the steps, here as well
    CHECK(run.out.find("Gas in pits") < run.out.find("And then:"));
    CHECK(holds(run.out, "This call is closed."));
    CHECK(holds(file_text(path), "state: closed"));
    check_error(lidlift::test::run({"ask", "--record", path}), 2, "is closed; --again takes it up once more");
    check_answer(lidlift::test::run({"ask", "--again", "--record", path}, ""));
}

TEST_CASE("records that cannot be used are refused before a word is said", "[ask]") {
    const TemporaryFolder folder;
    check_error(run({"ask", "--again"}), 2, "say its file with --record FILE");
    check_error(run({"ask", "--again", "--record", folder.path()}), 2, "is not the file of one");
    check_error(run({"ask", "--again", "--record", folder.path("none.yaml")}), 2, "is not the file of one");
    check_error(run({"ask", "--record", folder.path("no/folder/call.yaml")}), 3, "cannot make the call record");
    const std::string bad = folder.write("bad.yaml", "call: {state: opn}\ncourse: []\n");
    const Run refused = run({"ask", "--record", bad});
    check_error(refused, 2, bad + ":1:15: 'opn' is not one of");
    CHECK(holds(refused.err, "did you mean 'open'?"));
    CHECK(file_text(bad) == "call: {state: opn}\ncourse: []\n");
    check_error(run({"ask", "--record", "/dev/zero"}), 3, "not a regular file");
    check_error(run({"ask", "a word"}), 2, "one word too many");
    // One that was made and never written to is a new call.
    const std::string empty = folder.write("empty.yaml", "");
    check_answer(run({"ask", "--record", empty}, "pause\n"));
    CHECK(holds(file_text(empty), "state: open"));
}

TEST_CASE("a record of another version goes on with what still fits", "[ask]") {
    const TemporaryFolder folder;
    const std::string path =
        folder.write("old.yaml",
                     "call: {state: open, begun: 2020-01-01 10:00, rule base: lidlift default rules, version: \"2019\"}\n"
                     "course:\n"
                     "  - {when: 2020-01-01 10:00, words: x, heard: [{sign: squeeze, is: stream}, {sign: moonlight, is: "
                     "full}]}\n");
    const Run result = run({"ask", "--record", path}, "pause\n");
    check_answer(result);
    CHECK(holds(unwrapped(result.out), "recorded under another version of the rules"));
    CHECK(holds(unwrapped(result.out), "moonlight=full: there is no sign 'moonlight'"));
    CHECK(holds(file_text(path), "moonlight"));  // nothing is lost
}

TEST_CASE("a line without an end does not fill the memory", "[ask]") {
    check_answer(run({"ask"}, std::string(3'000'000, 'x') + "\nnone\nstop\n"));
}

TEST_CASE("ask begins with what a tank's record tells, and the call remembers its tank", "[ask]") {
    const TemporaryFolder folder;
    const std::string tank = folder.write("tank.yaml",
                                          "tank: Tank 3\n"
                                          "inside: {length: 10 ft, width: 6 ft, height: 2.5 ft}\n"
                                          "bays: [left, right]\n"
                                          "entries:\n"
                                          "  - {on: 2026-01-10, bay: left, added: {kitchen_waste: 30 kg}}\n"
                                          "  - {on: 2026-02-20, bay: left, worms in: 5 kg}\n");
    const std::string path = folder.path("call.yaml");
    Run result = run({"ask", "--tank", tank, "--record", path}, "it is too wet\nlist\npause\n");
    check_answer(result);
    CHECK(holds(unwrapped(result.out), "the tank's record: "));
    CHECK(holds(file_text(path), "tank: \"" + tank + "\""));
    result = run({"ask", "--record", path}, "stop\n");
    check_answer(result);
    CHECK(holds(unwrapped(result.out), "the tank's record: "));
    // The bay that was named is that of the whole call.
    const std::string of_bay = folder.path("right.yaml");
    check_answer(run({"ask", "--tank", tank, "--bay", "right", "--record", of_bay}, "it is too wet\npause\n"));
    CHECK(holds(file_text(of_bay), "bay: \"right\""));
    check_answer(run({"ask", "--record", of_bay}, "stop\n"));
    CHECK(holds(file_text(of_bay), "bay: \"right\""));
    CHECK(holds(run({"handover", of_bay}).out, "BAY RIGHT"));
    CHECK(holds(run({"handover", of_bay, "--bay", "left"}).out, "BAY LEFT"));
    std::filesystem::remove(tank);
    result = run({"ask", "--record", path}, "\nstop\n");
    CHECK(result.exit == 0);
    CHECK(holds(unwrapped(result.err), "goes on without what the tank's record tells"));
    check_error(run({"ask", "--tank", tank}), 3, "cannot read");
    check_error(run({"ask", "--bay", "left"}), 2, "name it with --tank FILE");
    check_error(run({"ask", "--tank", "-"}), 2, "standard input is for the answers");
}

}  // namespace cli_ask_test
