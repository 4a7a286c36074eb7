// Each tank of the example site by itself: lidlift why --tank names what its file says it shows.
#include "tests/cli/program.hpp"

#include <algorithm>
#include <string>
#include <utility>

#include <nlohmann/json.hpp>

namespace cli_quince_lane_test {

using namespace lidlift::test;
using nlohmann::json;

namespace {

json diagnosis_of(const std::string& tank) {
    const Run result =
        run({"why", "--tank", LIDLIFT_TESTS_FOLDER "/../examples/quince_lane/" + tank, "--on", "2026-06-15", "--json"});
    check_answer(result);
    return json::parse(result.out);
}

}  // namespace

TEST_CASE("the tanks in trouble show the cause that their files name", "[cli][tank][examples]") {
    for (const auto& [tank, cause] :
         {std::pair("tank_3_pump.yaml", "acid_bed"), std::pair("tank_5_bakery.yaml", "worms_in_too_early"),
          std::pair("tank_6_orchard.yaml", "overwatered")}) {
        CAPTURE(tank);
        const json diagnosis = diagnosis_of(tank);
        // What follows from another cause is mended at its root; the page tells the root first.
        const json& causes = diagnosis.at("causes");
        const auto root = std::ranges::find_if(causes, [](const json& each) { return each.at("follows_from").is_null(); });
        REQUIRE(root != causes.end());
        CHECK(root->at("id") == cause);
        CHECK(root->at("chance") > 0.55);
        for (auto before = causes.begin(); before != root; ++before) CHECK(before->at("follows_from") == cause);
    }
}

TEST_CASE("the healthy tanks show nothing that is likely wrong", "[cli][tank][examples]") {
    for (const char* tank : {"tank_1_gate.yaml", "tank_2_pear.yaml", "tank_4_school.yaml"}) {
        CAPTURE(tank);
        const json diagnosis = diagnosis_of(tank);
        for (const json& cause : diagnosis.at("causes"))
            if (!cause.at("benign").get<bool>()) CHECK(cause.at("chance") < 0.45);
    }
}

}  // namespace cli_quince_lane_test
