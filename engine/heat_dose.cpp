#include "engine/heat_dose.hpp"

#include <algorithm>
#include <cmath>

namespace lidlift {

std::optional<double> days_for_heat_dose(double celsius, double solids_percent) {
    if (!(celsius >= coolest_for_heat_dose)) return std::nullopt;
    const double numerator = solids_percent >= liquid_below_solids ? 131'700'000.0 : 50'070'000.0;
    return std::max(shortest_heat_dose, numerator / std::pow(10.0, 0.14 * celsius));
}

HotTime hot_time(std::span<const HeatReading> readings, std::span<const int> turned, double solids_percent) {
    HotTime time;
    const HeatReading* before = nullptr;
    std::optional<int> first;
    int last = 0;
    int stretch = 0;
    for (const HeatReading& reading : readings) {
        if (reading.celsius < hygienising_celsius) {
            before = nullptr;
            continue;
        }
        ++time.readings;
        if (!first) first = reading.day;
        last = reading.day;
        if (!before || reading.day - before->day > longest_gap_between_hot_readings) {
            stretch = 0;
        } else {
            const int days = reading.day - before->day;
            stretch += days;
            time.days += days;
            time.dose += days / *days_for_heat_dose(std::min(before->celsius, reading.celsius), solids_percent);
        }
        time.longest = std::max(time.longest, stretch);
        before = &reading;
    }
    if (first)
        time.turnings = static_cast<int>(std::ranges::count_if(turned, [&](int day) { return day >= *first && day <= last; }));
    return time;
}

}  // namespace lidlift
