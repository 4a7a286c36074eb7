// The published windows (shared/practice/materials.md, 4.1 and 4.2), and how a figure is judged by them.
#include "engine/windows.hpp"

#include "tests/catch.hpp"

namespace engine_windows_test {

using namespace lidlift;

TEST_CASE("the two stages have windows of their own", "[mixture]") {
    const StageWindows& resting = *find_stage_windows("resting");
    const StageWindows& worms = *find_stage_windows("worms");
    CHECK(find_stage_windows("cooling") == nullptr);
    // LSU AgCenter 3838-D and Cooperband 2002, both read: 40-65 % acceptable, C:N 20-40 acceptable.
    CHECK(resting.moisture.works.low == 40);
    CHECK(resting.moisture.works.high == 65);
    CHECK(resting.carbon_to_nitrogen.works.low == 20);
    CHECK(resting.carbon_to_nitrogen.works.high == 40);
    // Edwards, Earthworm Ecology, table 18.3, read: 60-90 %.
    CHECK(worms.moisture.works.low == 60);
    CHECK(worms.moisture.works.high == 90);
    // The best of the two do not meet: what suits the worms is too wet for the hot stage.
    CHECK(resting.moisture.best.high < worms.moisture.best.low);
}

TEST_CASE("the best lies within what works", "[mixture]") {
    for (const StageWindows& stage : stage_windows())
        for (const Window& window : {stage.moisture, stage.carbon_to_nitrogen}) {
            CHECK(window.works.low <= window.best.low);
            CHECK(window.best.low < window.best.high);
            CHECK(window.best.high <= window.works.high);
            CHECK(std::string_view(window.source).size() > 10);
        }
}

TEST_CASE("a figure is judged by where it lies", "[mixture]") {
    const Window window{{40, 65}, {50, 60}, ""};
    CHECK(judge(39.9, window) == Judgement::below);
    CHECK(judge(40, window) == Judgement::low);
    CHECK(judge(49.9, window) == Judgement::low);
    CHECK(judge(50, window) == Judgement::inside);
    CHECK(judge(60, window) == Judgement::inside);
    CHECK(judge(60.00001, window) == Judgement::inside);  // what rounding leaves of an end that was worked out
    CHECK(judge(60.1, window) == Judgement::high);
    CHECK(judge(65, window) == Judgement::high);
    CHECK(judge(65.1, window) == Judgement::above);
}

}  // namespace engine_windows_test
