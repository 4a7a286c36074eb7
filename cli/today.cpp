#include "cli/today.hpp"

#include <ctime>

namespace lidlift::cli {

Outcome<Day> told_day_or_today(const std::string& on) {
    if (!on.empty()) {
        const auto day = read_day(on);
        if (!day) return Fault{"--on: " + day.fault().text, 0};
        return *day;
    }
    const std::time_t now = std::time(nullptr);
    std::tm local{};
    if (!::localtime_r(&now, &local)) return Fault{"the clock tells no day; say one with --on 2026-03-09", 0};
    const auto year = std::chrono::year(local.tm_year + 1900);
    return Day(year / (local.tm_mon + 1) / local.tm_mday);
}

}  // namespace lidlift::cli
