#include "engine/calendar.hpp"

#include "tests/catch.hpp"

#include <string>

namespace engine_calendar_test {

using namespace lidlift;

namespace {

std::string fault_of(const std::string& text) {
    const auto day = read_day(text);
    return day ? "" : day.fault().text;
}

/// Days since 1970, counted one by one.
int counted(int year, int month, int day) {
    const auto leap = [](int y) { return y % 4 == 0 && (y % 100 != 0 || y % 400 == 0); };
    const int lengths[] = {31, 28, 31, 30, 31, 30, 31, 31, 30, 31, 30, 31};
    int days = 0;
    for (int y = 1970; y < year; ++y) days += leap(y) ? 366 : 365;
    for (int m = 1; m < month; ++m) days += lengths[m - 1] + (m == 2 && leap(year) ? 1 : 0);
    return days + day - 1;
}

}  // namespace

TEST_CASE("a day is written as year, month, day and comes back so", "[calendar]") {
    for (const std::string text : {"2026-03-09", "1990-01-01", "2199-12-31", "2024-02-29", "2000-02-29"}) {
        const auto day = read_day(text);
        REQUIRE(day);
        CHECK(to_text(*day) == text);
    }
}

TEST_CASE("days are counted as on a wall calendar", "[calendar]") {
    for (int year = first_year; year <= 2050; ++year)
        for (int month = 1; month <= 12; ++month)
            for (const int day : {1, 15, 28}) {
                const std::string text = std::to_string(year) + (month < 10 ? "-0" : "-") + std::to_string(month) +
                                         (day < 10 ? "-0" : "-") + std::to_string(day);
                const auto read = read_day(text);
                REQUIRE(read);
                REQUIRE(read->time_since_epoch().count() == counted(year, month, day));
            }
    CHECK(days_between(*read_day("2026-02-27"), *read_day("2026-03-02")) == 3);
    CHECK(days_between(*read_day("2024-02-27"), *read_day("2024-03-02")) == 4);
    CHECK(days_between(*read_day("2026-03-02"), *read_day("2026-02-27")) == -3);
}

TEST_CASE("what is no day is said", "[calendar]") {
    CHECK(fault_of("2026-02-30") == "there is no 30th of February");
    CHECK(fault_of("2026-02-29") == "there is no 29th of February 2026");
    CHECK(fault_of("1900-02-29") == "the year 1900 lies outside 1990 to 2199");
    CHECK(fault_of("2100-02-29") == "there is no 29th of February 2100");
    CHECK(fault_of("2026-04-31") == "there is no 31st of April");
    CHECK(fault_of("2026-01-32") == "there is no 32nd of January");
    CHECK(fault_of("2026-01-00") == "there is no 0th of January");
    CHECK(fault_of("2026-13-01") == "there is no 13th month; write year, month, day");
    CHECK(fault_of("2026-00-01") == "there is no 0th month; write year, month, day");
    CHECK(fault_of("1989-12-31") == "the year 1989 lies outside 1990 to 2199");
    CHECK(fault_of("2200-01-01") == "the year 2200 lies outside 1990 to 2199");
    for (const std::string text : {"", "2026", "2026-3-9", "09.03.2026", "2026/03/09", "2026-03-09 ", " 2026-03-09",
                                   "2026-03-09T10:00", "+026-03-09", "today", "2026-03-0\xC3\xA9"}) {
        CAPTURE(text);
        CHECK(fault_of(text) == "'" + text + "' is no day: write year, month and day as in 2026-03-09");
    }
}

}  // namespace engine_calendar_test
