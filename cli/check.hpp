// lidlift check: the faults in a rule base.
#pragma once

#include "cli/session.hpp"

#include <string>
#include <vector>

namespace lidlift::cli {

struct CheckOptions {
    std::vector<std::string> rules;  ///< files or folders, read like those of --rules and before them
    std::string format;              ///< text, json or sarif; empty: text
    bool strict = false;             ///< unanswered advice counts as a fault
    bool full = false;               ///< every finding, and advice that is answered
};

[[nodiscard]] int check(const Options& options, const CheckOptions& check_options);

}  // namespace lidlift::cli
