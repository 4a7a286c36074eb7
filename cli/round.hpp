// lidlift round: every tank of a folder, the most urgent first, and what the site can take in.
#pragma once

#include "cli/session.hpp"

#include <cstddef>
#include <string>

namespace lidlift::cli {

struct RoundOptions {
    std::string folder;
    std::string on;     ///< the day, as typed; empty: today
    bool full = false;  ///< reasons, sources and figures of everything
};

inline constexpr std::size_t most_tanks = 500;  ///< of one folder

[[nodiscard]] int round(const Options& options, const RoundOptions& round_options);

}  // namespace lidlift::cli
