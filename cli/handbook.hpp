// lidlift handbook: the whole rule base, to be read by a person.
#pragma once

#include "cli/session.hpp"

#include <string>

namespace lidlift::cli {

struct HandbookOptions {
    std::string format;  ///< "markdown", "html", or empty: by the name of `output`, otherwise Markdown
    std::string output;  ///< a file, written whole or not at all; empty or "-": standard output
};

[[nodiscard]] int handbook(const Options& options, const HandbookOptions& handbook_options);

}  // namespace lidlift::cli
