// lidlift why --cases: as many beds as there are lines, on all cores. (rules/LINES.md)
#pragma once

#include "cli/session.hpp"

#include <string>

namespace lidlift::cli {

struct WhyLinesOptions {
    std::string cases;      ///< a file; "-" is standard input
    bool in_short = false;  ///< ids and chances alone
    std::string threads;    ///< how many; empty: as many as there are cores
};

inline constexpr unsigned most_threads = 1'024;

[[nodiscard]] int why_lines(const Options& options, const WhyLinesOptions& lines_options);

}  // namespace lidlift::cli
