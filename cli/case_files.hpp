// The case files that a command names, or the shipped ones.
#pragma once

#include "cli/session.hpp"
#include "engine/rule_base_reader.hpp"

#include <string>
#include <vector>

namespace lidlift::cli {

/// Either case files, or the exit code after the reasons were printed on standard error.
struct LoadedCases {
    std::vector<RuleText> files;
    int exit = done;
};

/// Files, folders of files ending in .yaml, and "-"; without any, the shipped cases.
[[nodiscard]] LoadedCases load_cases(const std::vector<std::string>& paths);

/// Standard input can be read once; false, after saying so, if "-" stands in `words` twice.
[[nodiscard]] bool reads_input_once(const std::vector<std::string>& words);

}  // namespace lidlift::cli
