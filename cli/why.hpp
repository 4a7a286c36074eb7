// lidlift why: the main job.
#pragma once

#include "cli/session.hpp"

#include <string>
#include <vector>

namespace lidlift::cli {

struct WhyOptions {
    std::vector<std::string> words;  ///< sign=value, "-", or the caller's own words
    std::vector<std::string> told;   ///< answer files; "-" is standard input
    std::string tank;                ///< a tank's record; "-" is standard input; empty: none
    std::string bay;                 ///< of it; empty: whichever is meant
    std::string on;                  ///< the day that it is about; empty: today
    bool full = false;               ///< print every cause with its whole balance, and all that is usually left out
    bool steady = false;             ///< say how far the first cause hangs on the exact strengths
};

[[nodiscard]] int why(const Options& options, const WhyOptions& why_options);

}  // namespace lidlift::cli
