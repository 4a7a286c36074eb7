// lidlift ask: a diagnosis by question and answer.
#pragma once

#include "cli/session.hpp"

#include <string>

namespace lidlift::cli {

struct AskOptions {
    std::string record;  ///< file or folder; empty: nothing is written down
    bool again = false;  ///< the follow-up of a recorded call
};

[[nodiscard]] int ask(const Options& options, const AskOptions& ask_options);

}  // namespace lidlift::cli
