// lidlift why --steady.
#include "tests/cli/program.hpp"

#include <string>

#include <nlohmann/json.hpp>

namespace cli_steady_test {

using namespace lidlift::test;
using nlohmann::json;

TEST_CASE("how steady the first cause is stands in text and JSON alike", "[cli][steady]") {
    const Run text = run({"why", "squeeze=stream", "--steady"});
    check_answer(text);
    CHECK(holds(text.out, "HOW STEADY THIS IS"));
    CHECK(holds(text.out, "with every strength changed"));
    const json answer = json::parse(run({"why", "squeeze=stream", "--steady", "--json"}).out);
    const json& steady = answer.at("steady");
    CHECK(steady.at("tries") == 200);
    const int stays = steady.at("first_stays");
    CHECK((stays > 0 && stays < 200));
    int sum = stays;
    for (const json& other : steady.at("instead")) {
        CHECK(other.at("id") != answer.at("causes").at(0).at("id"));
        sum += other.at("times").get<int>();
    }
    CHECK(sum == 200);
    std::string unwrapped;
    for (const char c : text.out) unwrapped += c == '\n' ? ' ' : c;
    std::string single;
    for (const char c : unwrapped)
        if (c != ' ' || single.empty() || single.back() != ' ') single += c;
    CHECK(holds(single, "in " + std::to_string(stays) + " of 200 tries with every strength changed a little"));
}

TEST_CASE("without --steady nothing is said of it", "[cli][steady]") {
    CHECK_FALSE(holds(run({"why", "squeeze=stream"}).out, "STEADY"));
    CHECK_FALSE(json::parse(run({"why", "squeeze=stream", "--json"}).out).contains("steady"));
}

TEST_CASE("the same answers in any order are equally steady", "[cli][steady]") {
    const std::string one = run({"why", "squeeze=stream", "smell_rotten=strong", "--steady", "--json"}).out;
    CHECK(run({"why", "squeeze=stream", "smell_rotten=strong", "--steady", "--json"}).out == one);
    CHECK(json::parse(run({"why", "--steady", "smell_rotten=strong", "squeeze=stream", "--json"}).out).at("steady") ==
          json::parse(one).at("steady"));
}

TEST_CASE("contradicting answers have no first cause to be steady", "[cli][steady]") {
    const TemporaryFolder folder;
    const std::string rules = folder.write(
        "rules.yaml",
        "signs:\n  wet: {ask: W, topic: moisture, effort: look, seen anyway: sometimes, sources: [common_practice]}\n"
        "causes:\n"
        "  one: {name: One, how common: common, because: B, must be when: wet, signs: [{when: wet, seen: usually}], look "
        "again: 1 day, sources: [common_practice]}\n"
        "  two: {name: Two, how common: common, because: B, must be when: wet, not together with: [one], signs: [{when: wet, "
        "seen: usually}], look again: 1 day, "
        "sources: [common_practice]}\n");
    const Run result = run({"why", "wet=yes", "--steady", "--only-rules", rules});
    CHECK(result.exit == 0);
    CHECK_FALSE(holds(result.out, "STEADY"));
}

}  // namespace cli_steady_test
