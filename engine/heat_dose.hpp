// How long material must stay how hot before the rules call it hygienised, and what a row of readings shows of that. A worm bed
// proves nothing of the kind: no reading taken with worms in counts, and worms are no substitute for heat.
#pragma once

#include <optional>
#include <span>

namespace lidlift {

/// Days at `celsius` that the time-temperature equation asks for: 131 700 000 / 10^(0.14 T) from 7 % solids on, 50 070 000 /
/// 10^(0.14 T) below (15A NCAC 02T .1106, which mirrors 40 CFR 503.32; read). Never less than 20 minutes. None below 50 °C,
/// where the equation does not hold.
[[nodiscard]] std::optional<double> days_for_heat_dose(double celsius, double solids_percent);

inline constexpr double coolest_for_heat_dose = 50;        ///< °C
inline constexpr double liquid_below_solids = 7;           ///< % dry matter
inline constexpr double shortest_heat_dose = 20.0 / 1440;  ///< days

/// 40 CFR 503 App. B (read in copies): 55 °C for 3 days in a closed or aerated box; in a turned heap for 15 days, with 5
/// turnings.
inline constexpr double hygienising_celsius = 55;
inline constexpr int box_days = 3;
inline constexpr int heap_days = 15;
inline constexpr int heap_turnings = 5;

/// Between two hot readings further apart than this nobody knows.
inline constexpr int longest_gap_between_hot_readings = 3;

/// One reading; days by any count. Sorted by day.
struct HeatReading {
    int day = 0;
    double celsius = 0;
};

/// What readings of 55 °C or more show. From a reading to the next, no more than three days later and as hot, it is taken to
/// have stayed hot.
struct HotTime {
    int readings = 0;  ///< of 55 °C or more
    int longest = 0;   ///< days of the longest unbroken stretch
    int days = 0;      ///< of all stretches together
    int turnings = 0;  ///< from the first hot reading to the last
    double dose = 0;   ///< share of the equation's time that the stretches make up, each at its cooler end; may exceed 1
    [[nodiscard]] bool as_in_a_box() const { return longest >= box_days; }
    [[nodiscard]] bool as_in_a_heap() const { return days >= heap_days && turnings >= heap_turnings; }
};

/// `turned`: the days on which it was turned.
[[nodiscard]] HotTime hot_time(std::span<const HeatReading> readings, std::span<const int> turned, double solids_percent);

}  // namespace lidlift
