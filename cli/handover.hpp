// lidlift handover: one sheet about a recorded call, for whoever goes there.
#pragma once

#include "cli/session.hpp"

#include <string>

namespace lidlift::cli {

struct HandoverOptions {
    std::string call;   ///< its file; "-": standard input
    bool html = false;  ///< a page to print instead of text
    bool full = false;  ///< nothing left out, however many sheets it takes
    std::string tank;   ///< a tank's record; empty: the one that the call was recorded with, if any
    std::string bay;    ///< of the tank; empty: the one that is probably meant
};

[[nodiscard]] int handover(const Options& options, const HandoverOptions& handover_options);

}  // namespace lidlift::cli
