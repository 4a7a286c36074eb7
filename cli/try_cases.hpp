// lidlift try: recorded cases, and which of them come out differently from what they ask for.
#pragma once

#include "cli/session.hpp"

#include <string>
#include <vector>

namespace lidlift::cli {

struct TryOptions {
    std::vector<std::string> cases;  ///< files, folders and "-"; none: the shipped cases
    std::string at_least_first;      ///< per cent of the cases that ask, as typed; empty: every case must pass
    std::string at_least_three;
    std::string junit;      ///< write JUnit XML there; empty: do not
    bool coverage = false;  ///< name the causes and cautions that the cases leave untried
};

[[nodiscard]] int try_cases(const Options& options, const TryOptions& try_options);

}  // namespace lidlift::cli
