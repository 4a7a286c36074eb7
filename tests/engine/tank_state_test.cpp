// What a record comes to, over records written by hand.
#include "engine/tank_state.hpp"

#include "tests/catch.hpp"
#include "tests/near.hpp"
#include "tests/tanks.hpp"

#include <string>

using namespace lidlift;
using namespace lidlift::test;

TEST_CASE("the trade's own tank: two bays of 2.787 m2 and 2.124 m3", "[tank]") {
    // Common practice, no source: 10 ft by 6 ft by 2.5 ft, split in two bays 3 ft wide.
    Tank tank;
    CHECK(tank.record().bays[0].area == near(2.787, 0.0005));
    CHECK(tank.record().bays[0].area * tank.record().bays[0].height == near(2.124, 0.0005));
}

TEST_CASE("a bay that nothing is known of is empty", "[tank]") {
    const BayState bay = Tank().on(10, "left");
    CHECK(bay.stage == BayStage::empty);
    CHECK(bay.filled.empty());
    CHECK_FALSE(bay.kg);
    CHECK_FALSE(bay.worms);
    CHECK_FALSE(bay.days_since_feed);
}

TEST_CASE("a filled bay fills, rests and is ready after the trade's thirty days", "[tank]") {
    const int later = GENERATE(0, 6, 7, 29, 30, 45);
    const BayState bay = Tank().added(1, "left", {{"peelings", 300}, {"leaves", 60}}).on(1 + later, "left");
    const BayStage expected = later < 7 ? BayStage::filling : later < 30 ? BayStage::resting : BayStage::ready_for_worms;
    CHECK(bay.stage == expected);
    CHECK(bay.days_since_filling == later);
    CHECK(bay.worms_from == day(31));
    CHECK(bay.kg->value.high <= 360);
}
