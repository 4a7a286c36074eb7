// A tank's record named on the command line: read, checked, with its bay and its day.
#pragma once

#include "cli/session.hpp"
#include "engine/tank_record.hpp"

#include <optional>
#include <string>

namespace lidlift::cli {

/// The record, or the exit code after the reasons were printed on standard error.
struct LoadedTank {
    std::optional<TankRecord> record;
    Day today{};
    std::optional<std::size_t> bay;  ///< none: none was named
    int exit = done;
};

/// `bay` and `on` may be empty.
[[nodiscard]] LoadedTank load_tank(const std::string& path, const std::string& bay, const std::string& on,
                                   const RuleBase& rule_base);

}  // namespace lidlift::cli
