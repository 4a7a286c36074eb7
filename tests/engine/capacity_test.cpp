// What a site can take in a day, added up by hand beside each figure.
#include "engine/capacity.hpp"

#include "engine/ration.hpp"
#include "tests/catch.hpp"
#include "tests/engine/short_rules.hpp"
#include "tests/near.hpp"

#include <string>

namespace engine_capacity_test {

using namespace lidlift;
using namespace lidlift::test;

namespace {

const Day today = *read_day("2026-06-15");

/// 10 ft by 6 ft: two bays of 30 square feet each, 2.787 m2.
std::string two_bays(const std::string& entries) {
    return "tank: T\ninside: {length: 10 ft, width: 6 ft, height: 2.5 ft}\nbays: [left, right]\nentries:\n" + entries;
}

TankRecord record_of(const std::string& text) {
    TankReading reading = read_tank_record(text, "tank.yaml", default_base());
    for (const Complaint& complaint : reading.complaints) FAIL_CHECK(to_text(complaint));
    return std::move(reading.record);
}

/// The sum for one tank whose bays hold what `worms` say, kg; 0: no worms.
Capacity sum_of(const TankRecord& record, const std::vector<double>& worms, std::optional<double> stated = {}) {
    TankState state{today, std::vector<BayState>(record.bays.size())};
    for (std::size_t i = 0; i < worms.size(); ++i)
        if (worms[i] > 0) state.bays[i].worms = Stated{Estimate::exactly(worms[i]), "counted"};
    const TankRecord* const records[] = {&record};
    const TankState* const states[] = {&state};
    return capacity_of(records, states, default_base(), stated, today);
}

}  // namespace

TEST_CASE("a bed takes what floor and worms both allow", "[capacity]") {
    // 2 m2 at 0.7, 1.2 and 2 kg; 10 kg of worms at 0.5 to 0.75 kg would eat 5 to 7.5 kg, so the floor is less.
    const auto by_floor = ration(Estimate::exactly(2), Estimate::exactly(10));
    REQUIRE(by_floor);
    CHECK(by_floor->per_day.low == near(1.4, 1e-9));
    CHECK(by_floor->per_day.typical == near(2.4, 1e-9));
    CHECK(by_floor->per_day.high == near(4, 1e-9));
    CHECK_FALSE(by_floor->by_worms);

    // 2 kg of worms eat 1 to 1.5 kg; the floor would take more.
    const auto by_worms = ration(Estimate::exactly(2), Estimate::exactly(2));
    REQUIRE(by_worms);
    CHECK(by_worms->per_day.low == near(1, 1e-9));
    CHECK(by_worms->per_day.high == near(1.5, 1e-9));
    CHECK(by_worms->by_worms);

    CHECK_FALSE(ration(Estimate{}, std::nullopt));
    CHECK(ration(Estimate::exactly(1), std::nullopt)->per_day.high == near(2, 1e-9));
    CHECK(ration(Estimate{}, Estimate::exactly(4))->per_day.low == near(2, 1e-9));
}

TEST_CASE("the published loads are those of their sources", "[capacity][published]") {
    const double pound_per_square_foot = 0.45359237 / (0.3048 * 0.3048);
    CHECK(pound_per_square_foot / 7 == near(floor_load.low, 0.01));      // 1 lb a week on a square foot
    CHECK(3 * pound_per_square_foot / 7 == near(floor_load.high, 0.1));  // 3 lb a week on a square foot
    CHECK(1.6 * 0.75 == near(floor_load.typical, 1e-9));                 // Ndegwa 2000
}

TEST_CASE("of two bays one works at a time", "[capacity]") {
    // 60 square feet are 5.574 m2. 28 of 73 days to 42 of 72 days: 2.138 to 3.252 m2; times 0.7 and 2 kg: 1.497 to 6.503 kg.
    const Capacity sum = sum_of(record_of(two_bays("  - {on: 2026-06-01, note: begun}\n")), {});
    CHECK(sum.floor == near(5.574, 0.001));
    CHECK(sum.working_floor.low == near(2.138, 0.001));
    CHECK(sum.working_floor.high == near(3.252, 0.001));
    REQUIRE(sum.can_take);
    CHECK(sum.can_take->low == near(1.497, 0.001));
    CHECK(sum.can_take->high == near(6.503, 0.001));
    CHECK_FALSE(sum.worms);
}

TEST_CASE("a tank of one bay works with all its floor", "[capacity]") {
    // 2 m by 1 m: 2 m2 at 0.7 to 2 kg.
    const Capacity sum = sum_of(record_of("tank: T\ninside: {length: 2 m, width: 1 m, height: 0.5 m}\n"), {});
    REQUIRE(sum.can_take);
    CHECK(sum.can_take->low == near(1.4, 1e-9));
    CHECK(sum.can_take->high == near(4, 1e-9));
}

TEST_CASE("what comes in is counted over the last fortnight", "[capacity]") {
    // The 1st is 15 days back with today, so it does not count; 14 + 28 kg over 14 days are 3 kg a day.
    const Capacity sum =
        sum_of(record_of(two_bays("  - {on: 2026-06-01, bay: left, added: {vegetable trimmings: 100 kg}}\n"
                                  "  - {on: 2026-06-02, bay: left, worms in: 4 kg}\n"
                                  "  - {on: 2026-06-02, bay: left, added: {vegetable trimmings: 14 kg, dry leaves: 50 kg}}\n"
                                  "  - {on: 2026-06-15, bay: left, added: {vegetable trimmings: 28 kg}}\n"
                                  "  - {on: 2026-06-16, bay: left, added: {vegetable trimmings: 500 kg}}\n")),
               {4, 0});
    CHECK(sum.over_days == 14);
    REQUIRE(sum.given);
    CHECK(sum.given->typical == near(3, 1e-9));
    CHECK(sum.rests_first == near(0, 1e-9));  // all of it went to worms; what was sprinkled or dry is no feed
    // 4 kg of worms at 0.5 to 0.75 kg eat 2 to 3 kg a day; the floor allows 1.497 to 6.503. The lesser: 1.497 to 3 kg.
    CHECK(sum.can_take->low == near(1.497, 0.001));
    CHECK(sum.can_take->high == near(3, 1e-9));
    CHECK(sum.load == Loading::perhaps_too_much);
}

TEST_CASE("a record of three days is counted over three days", "[capacity]") {
    const Capacity sum =
        sum_of(record_of(two_bays("  - {on: 2026-06-13, bay: left, added: {vegetable trimmings: 60 kg}}\n")), {});
    CHECK(sum.over_days == 3);
    CHECK(sum.given->typical == near(20, 1e-9));
    CHECK(sum.load == Loading::too_much);
}

TEST_CASE("what rests first reaches the worms lighter", "[capacity]") {
    // All of it goes into a bay without worms: of each kg 0.54 to 0.67 kg is left, so 1.497 / 0.67 to 6.503 / 0.54 may come in.
    const Capacity sum =
        sum_of(record_of(two_bays("  - {on: 2026-06-10, bay: right, added: {vegetable trimmings: 12 kg}}\n")), {});
    CHECK(sum.rests_first == near(1, 1e-9));
    CHECK(sum.can_take->low == near(1.497 / 0.67, 0.001));
    CHECK(sum.can_take->high == near(6.503 / 0.54, 0.002));
    CHECK(sum.load == Loading::within);
}

TEST_CASE("worms that were emptied out eat nothing more", "[capacity]") {
    const Capacity sum = sum_of(record_of(two_bays("  - {on: 2026-06-03, bay: right, worms in: 3 kg}\n"
                                                   "  - {on: 2026-06-05, bay: right, emptied: yes}\n"
                                                   "  - {on: 2026-06-10, bay: right, added: {vegetable trimmings: 12 kg}}\n")),
                                {});
    CHECK(sum.rests_first == near(1, 1e-9));
}

TEST_CASE("the site's own count weighs where it is more", "[capacity]") {
    const TankRecord record = record_of(two_bays("  - {on: 2026-06-02, bay: left, added: {vegetable trimmings: 14 kg}}\n"));
    CHECK(sum_of(record, {}).load == Loading::within);
    const Capacity sum = sum_of(record, {}, 50.0);
    CHECK(sum.load == Loading::too_much);
    CHECK(in_short(sum) ==
          "given 1 kg a day by the records of the last 14 days, 50 kg a day by the site's own count; can take 2.2 to 12 kg: "
          "too much");
    CHECK(in_full(sum).back().find("Is everything written down?") != std::string::npos);
}

TEST_CASE("what is not known is said to be so", "[capacity]") {
    const Capacity sum = sum_of(record_of("tank: T\n"), {});
    CHECK_FALSE(sum.can_take);
    CHECK_FALSE(sum.given);
    CHECK(sum.without_floor == 1);
    CHECK(sum.load == Loading::too_little_known);
    CHECK(in_short(sum) == "nothing tells what it is given; what it can take is not known");
    CHECK(in_full(sum) == std::vector<std::string>{"Not counted: 1 bay whose size no record states."});
}

}  // namespace engine_capacity_test
