// Heat that hygienises, against the rules.
#include "engine/heat_dose.hpp"

#include "tests/catch.hpp"
#include "tests/near.hpp"

#include <vector>

namespace published_heat_dose_test {

using namespace lidlift;
using namespace lidlift::test;

TEST_CASE("the time-temperature equation for sewage sludge", "[heat_dose][published]") {
    // 15A NCAC 02T .1106, which mirrors 40 CFR 503.32; the equation read, the table derived from it by hand.
    struct Row {
        double celsius;
        double days;         // from 7 % solids on
        double liquid_days;  // below
        double tolerance;
    };
    const std::vector<Row> rows = {{50, 13.17, 5.007, 0.005},
                                   {55, 2.628, 0.999, 0.0005},
                                   {60, 12.58 / 24, 4.78 / 24, 0.01 / 24},
                                   {65, 2.51 / 24, 0.96 / 24, 0.01 / 24}};
    for (const Row& row : rows) {
        CAPTURE(row.celsius);
        CHECK(days_for_heat_dose(row.celsius, 20).value() == near(row.days, row.tolerance));
        CHECK(days_for_heat_dose(row.celsius, 5).value() == near(row.liquid_days, row.tolerance));
    }
    CHECK(days_for_heat_dose(70, 7).value() == near(30.05 / 1440, 0.01 / 1440));
    // At 55 degrees it comes to 63 hours, which agrees with the flat rule of three days.
    CHECK(24 * days_for_heat_dose(55, 40).value() == near(63.1, 0.05));
    // Never less than 20 minutes, and nothing below 50 degrees, where the equation ends.
    CHECK(days_for_heat_dose(70, 5).value() == near(20.0 / 1440, 1e-12));
    CHECK(days_for_heat_dose(90, 40).value() == near(20.0 / 1440, 1e-12));
    CHECK_FALSE(days_for_heat_dose(49.9, 40));
}

TEST_CASE("hot time: three days in a box, fifteen with five turnings in a heap", "[heat_dose][published]") {
    // 40 CFR 503 App. B, processes to further reduce pathogens; read in copies.
    std::vector<HeatReading> readings;
    for (int day = 0; day <= 15; ++day) readings.push_back({day, 55});
    const std::vector<int> five = {2, 5, 8, 11, 14};
    const std::vector<int> four = {2, 5, 8, 11};
    CHECK(hot_time(readings, five, 40).as_in_a_heap());
    CHECK_FALSE(hot_time(readings, four, 40).as_in_a_heap());
    readings.pop_back();
    CHECK_FALSE(hot_time(readings, five, 40).as_in_a_heap());

    const std::vector<HeatReading> three = {{0, 55}, {1, 60}, {3, 55}};
    CHECK(hot_time(three, {}, 40).as_in_a_box());
    const std::vector<HeatReading> two = {{0, 55}, {1, 60}, {2, 55}};
    CHECK_FALSE(hot_time(two, {}, 40).as_in_a_box());
}

TEST_CASE("hot time counts only what lies between hot readings close enough together", "[heat_dose]") {
    const std::vector<HeatReading> far_apart = {{0, 60}, {4, 60}, {7, 60}, {8, 54.9}, {9, 60}};
    const HotTime time = hot_time(far_apart, std::vector<int>{-1, 0, 5, 9, 10}, 40);
    CHECK(time.readings == 4);
    CHECK(time.days == 3);  // from day 4 to day 7; nobody knows of days 1 to 3, and day 8 was cooler
    CHECK(time.longest == 3);
    CHECK(time.turnings == 3);
    CHECK(time.dose == near(3 / days_for_heat_dose(60, 40).value(), 1e-9));
    CHECK(hot_time({}, {}, 40).readings == 0);
}

}  // namespace published_heat_dose_test
