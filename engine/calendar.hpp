// Days of the calendar, as people write them into a tank's record: 2026-03-09 (ISO 8601). No clock: today is always told.
#pragma once

#include "engine/outcome.hpp"

#include <chrono>
#include <string>
#include <string_view>

namespace lidlift {

/// A day; the difference of two is a number of days.
using Day = std::chrono::sys_days;

inline constexpr int first_year = 1990;  ///< an earlier or later year is a slip of the pen
inline constexpr int last_year = 2199;

/// "2026-03-09". Fault: what is wrong with it ("there is no 30th of February").
[[nodiscard]] Outcome<Day> read_day(std::string_view text);

/// "2026-03-09".
[[nodiscard]] std::string to_text(Day day);

/// Whole days from `first` to `second`; negative when `second` comes first.
[[nodiscard]] inline int days_between(Day first, Day second) { return static_cast<int>((second - first).count()); }

}  // namespace lidlift
