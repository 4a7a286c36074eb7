// The files of examples/our_own_site, which rules/TUTORIAL.md leads up to, with the built program.
#include "tests/cli/program.hpp"

#include <algorithm>
#include <sstream>
#include <string>
#include <vector>

#include <nlohmann/json.hpp>

namespace cli_our_own_site_test {

using namespace lidlift::test;

namespace {

const std::string folder = LIDLIFT_TESTS_FOLDER "/../examples/our_own_site/";

nlohmann::json why(std::vector<std::string> words) {
    std::vector<std::string> arguments = {"why", "--json", "--rules", folder + "crabs.yaml"};
    arguments.insert(arguments.end(), words.begin(), words.end());
    const Run result = run(arguments);
    check_answer(result);
    return nlohmann::json::parse(result.out);
}

std::vector<std::string> ids(const nlohmann::json& list) {
    std::vector<std::string> result;
    for (const auto& item : list) result.push_back(item["id"]);
    return result;
}

bool names(const nlohmann::json& list, const std::string& id) {
    const auto all = ids(list);
    return std::find(all.begin(), all.end(), id) != all.end();
}

}  // namespace

TEST_CASE("what the tutorial adds is found by its signs and by a caller's words", "[cli][our_own_site]") {
    CHECK(holds(run({"why", "there are crabs in the tanks after dark"}).out, "I understood none of your words"));

    const auto seen = why({"land_crabs=seen", "scraps_outside=yes", "big_moon=yes"});
    CHECK(ids(seen["causes"]).front() == "land_crab_raid");
    CHECK(names(seen["cautions"], "S01"));
    CHECK(names(seen["steps"], "carry_crabs_off"));
    CHECK(names(seen["steps"], "smooth_band"));

    const auto words = why({"there are scraps all over the path every morning and I saw crab holes by the wall"});
    CHECK(ids(words["causes"]).front() == "land_crab_raid");
    CHECK(names(words["cautions"], "S01"));
    CHECK(words["understood"].size() == 2);
}

TEST_CASE("what the tutorial adds leaves other troubles where they were", "[cli][our_own_site]") {
    const auto drain = why({"land_crabs=holes", "drain=blocked", "smell_rotten=strong", "squeeze=stream"});
    CHECK(ids(drain["causes"]).front() == "blocked_drain");
    const auto wet = why({"land_crabs=none", "squeeze=stream", "drain=clear", "scraps_outside=no"});
    CHECK(ids(wet["causes"]).front() == "overwatered");
    CHECK_FALSE(names(wet["causes"], "land_crab_raid"));
}

TEST_CASE("every slip of the tutorial's first try is told with its place", "[cli][our_own_site]") {
    const Run result = run({"show", "causes", "--rules", folder + "crabs_first_try.yaml"});
    check_error(result, 2, "did you mean 'effort'?");
    std::istringstream lines(result.err);
    const std::vector<std::string> expected = {
        ":4:5: the sign 'land_crabs' lacks the key 'effort'",
        ":7:5: unknown key 'efort'",
        ":22:5: the cause 'land_crab_raid' lacks the key 'sources'",
        ":23:17: 'sometimes' is not one of: very common",
        ":24:14: 'wormbed' is not one of",
        ":27:16: there is no sign or conclusion 'land_crab' (did you mean 'land_crabs'?)",
        ":28:16: 'land_crabs is holes' is seen anyway in 20 % of beds, so it cannot point 'strongly'",
        ":29:16: the answer 'yes' of the sign 'scraps_outside' has no 'seen anyway'",
        ":29:38: 'usualy' is not one of",
        ":30:30: there is no step 'cover_feeds' (did you mean 'cover_feed'?)",
        ":31:17: a time needs its unit",
        ":36:11: 'tonight' is not one of: now, this week or from now on"};
    std::size_t count = 0;
    for (std::string line; std::getline(lines, line); ++count) {
        REQUIRE(count < expected.size());
        CAPTURE(line, expected[count]);
        CHECK(holds(line, "crabs_first_try.yaml" + expected[count]));
    }
    CHECK(count == expected.size());
}

TEST_CASE("the tutorial's second try is read, and its handbook too", "[cli][our_own_site]") {
    CHECK(run({"show", "causes", "--rules", folder + "crabs_second_try.yaml"}).exit == 0);
    const Run handbook = run({"handbook", "--format", "html", "--rules", folder + "crabs.yaml"});
    check_answer(handbook);
    CHECK(holds(handbook.out, "<article id=\"cause-land_crab_raid\">"));
    CHECK(holds(handbook.out, "href=\"#source-ebb_ness_notebook\""));
}

TEST_CASE("the pieces of the tutorial stand word for word in its finished files", "[cli][our_own_site]") {
    std::istringstream page(file_text(LIDLIFT_TESTS_FOLDER "/../rules/TUTORIAL.md"));
    const std::string finished = file_text(folder + "crabs.yaml") + file_text(folder + "crab_cases.yaml");
    bool inside = false;
    bool extending = false;
    std::size_t lines = 0;
    for (std::string line; std::getline(page, line);) {
        if (line == "## 9. Change what is there") extending = true;
        if (line.rfind("```", 0) == 0)
            inside = line == "```yaml";
        else if (inside && !extending && !line.empty()) {
            CAPTURE(line);
            // A list of phrases may be cut short in the page.
            CHECK(holds(finished, line.substr(0, line.find(", crabs on the lid]"))));
            ++lines;
        }
    }
    CHECK(lines > 80);
}

}  // namespace cli_our_own_site_test
