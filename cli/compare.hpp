// lidlift compare: what an edit of the rules changes, case by case.
#pragma once

#include "cli/session.hpp"

#include <string>
#include <vector>

namespace lidlift::cli {

struct CompareOptions {
    std::string before;  ///< a rule file or folder, `default`, or several joined by '+'
    std::string after;
    std::vector<std::string> cases;  ///< files, folders and "-"; none: the shipped cases
};

[[nodiscard]] int compare(const Options& options, const CompareOptions& compare_options);

}  // namespace lidlift::cli
