// What lidlift log says after it wrote.
#pragma once

#include "engine/tank_log.hpp"

#include <string>

namespace lidlift::cli {

struct LogReport {
    std::string file;
    std::string tank;
    bool begun = false;     ///< the record is new
    bool has_entry = true;  ///< a new record may have none yet
    Logged logged;
};

[[nodiscard]] std::string render_log(const LogReport& report);
[[nodiscard]] std::string render_log_json(const LogReport& report);

}  // namespace lidlift::cli
