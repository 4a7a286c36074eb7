// lidlift why: the main job.
#pragma once

#include "cli/session.hpp"
#include "cli/why_lines.hpp"

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

/// One bed, or with `lines_options.cases` as many as that file has lines.
[[nodiscard]] int why(const Options& options, const WhyOptions& why_options, const WhyLinesOptions& lines_options);

}  // namespace lidlift::cli
