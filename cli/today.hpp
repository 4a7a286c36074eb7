// Which day it is: as the person said with --on, otherwise by the clock. The engine has no clock.
#pragma once

#include "engine/calendar.hpp"

#include <string>

namespace lidlift::cli {

/// The day of `--on`; the system's, in local time, where `on` is empty.
[[nodiscard]] Outcome<Day> told_day_or_today(const std::string& on);

}  // namespace lidlift::cli
