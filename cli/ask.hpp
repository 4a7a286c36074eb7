// lidlift ask: a diagnosis by question and answer.
#pragma once

#include "cli/session.hpp"

#include <string>

namespace lidlift::cli {

struct AskOptions {
    std::string record;  ///< file or folder; empty: nothing is written down
    bool again = false;  ///< the follow-up of a recorded call
    std::string tank;    ///< a tank's record; empty: the one that the call was recorded with, if any
    std::string bay;     ///< of the tank; empty: the one that is probably meant
};

[[nodiscard]] int ask(const Options& options, const AskOptions& ask_options);

}  // namespace lidlift::cli
