#include "engine/calendar.hpp"

#include <algorithm>
#include <array>

namespace lidlift {
namespace {

constexpr std::array<std::string_view, 12> month_names = {
    "January", "February", "March", "April", "May", "June", "July", "August", "September", "October", "November", "December"};

/// "1st", "22nd", "30th".
std::string ordinal(unsigned number) {
    const unsigned last = number % 10;
    const bool teen = number / 10 % 10 == 1;
    const char* ending = teen ? "th" : last == 1 ? "st" : last == 2 ? "nd" : last == 3 ? "rd" : "th";
    return std::to_string(number) + ending;
}

int number_at(std::string_view text, std::size_t begin, std::size_t count) {
    int number = 0;
    for (const char c : text.substr(begin, count)) number = number * 10 + (c - '0');
    return number;
}

bool is_written_as_a_day(std::string_view text) {
    constexpr std::string_view pattern = "dddd-dd-dd";
    return std::ranges::equal(text, pattern,
                              [](char c, char wanted) { return wanted == 'd' ? c >= '0' && c <= '9' : c == wanted; });
}

}  // namespace

Outcome<Day> read_day(std::string_view text) {
    if (!is_written_as_a_day(text))
        return Fault{"'" + std::string(text) + "' is no day: write year, month and day as in 2026-03-09", 0};
    const int year = number_at(text, 0, 4);
    const auto month = static_cast<unsigned>(number_at(text, 5, 2));
    const auto day = static_cast<unsigned>(number_at(text, 8, 2));
    if (year < first_year || year > last_year)
        return Fault{"the year " + std::to_string(year) + " lies outside " + std::to_string(first_year) + " to " +
                         std::to_string(last_year),
                     1};
    if (month < 1 || month > 12) return Fault{"there is no " + ordinal(month) + " month; write year, month, day", 6};
    const std::chrono::year_month_day date{std::chrono::year(year), std::chrono::month(month), std::chrono::day(day)};
    if (!date.ok())
        return Fault{"there is no " + ordinal(day) + " of " + std::string(month_names[month - 1]) +
                         (month == 2 && day == 29 ? " " + std::to_string(year) : ""),
                     9};
    return Day(date);
}

std::string to_text(Day day) {
    const std::chrono::year_month_day date(day);
    const auto two = [](unsigned number) { return (number < 10 ? "0" : "") + std::to_string(number); };
    return std::to_string(static_cast<int>(date.year())) + "-" + two(static_cast<unsigned>(date.month())) + "-" +
           two(static_cast<unsigned>(date.day()));
}

}  // namespace lidlift
