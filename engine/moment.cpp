#include "engine/moment.hpp"

#include <algorithm>

namespace lidlift {
namespace {

constexpr int in_a_minute = 60;
constexpr int in_an_hour = 3600;

/// A clock time, "14:05:12" or "14:05", in seconds; below 0: it is none.
int read_time(std::string_view text) {
    constexpr std::string_view pattern = "dd:dd:dd";
    if (text.size() != 5 && text.size() != pattern.size()) return -1;
    if (!std::ranges::equal(text, pattern.substr(0, text.size()),
                            [](char c, char wanted) { return wanted == 'd' ? c >= '0' && c <= '9' : c == wanted; }))
        return -1;
    const auto two = [&](std::size_t at) { return (text[at] - '0') * 10 + (text[at + 1] - '0'); };
    const int second = text.size() == pattern.size() ? two(6) : 0;
    if (two(0) > 23 || two(3) > 59 || second > 59) return -1;
    return two(0) * in_an_hour + two(3) * in_a_minute + second;
}

}  // namespace

Outcome<Moment> read_moment(std::string_view text) {
    constexpr std::size_t day_width = 10;
    const auto day = read_day(text.substr(0, std::min(text.size(), day_width)));
    if (!day) return day.fault();
    const int second = text.size() > day_width && text[day_width] == ' ' ? read_time(text.substr(day_width + 1)) : -1;
    if (second < 0) return Fault{"after the day comes the time, as in 2026-03-09 14:05:12", static_cast<int>(day_width) + 1};
    return Moment{*day, second};
}

std::string to_text(const Moment& moment) {
    const auto two = [](int number) { return (number < 10 ? "0" : "") + std::to_string(number); };
    return to_text(moment.day) + " " + two(moment.second / in_an_hour) + ":" + two(moment.second / in_a_minute % 60) + ":" +
           two(moment.second % in_a_minute);
}

}  // namespace lidlift
