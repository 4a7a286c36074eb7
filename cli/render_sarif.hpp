// What a check found -> SARIF 2.1.0 (OASIS Static Analysis Results Interchange Format), which editors and code review read.
#pragma once

#include "cli/render_check.hpp"

#include <string>

namespace lidlift::cli {

/// One log with one run, ASCII, ending in a line feed. A fault is an error, a piece of advice a note; advice that the rule base
/// answers is there, marked as suppressed with the reason.
[[nodiscard]] std::string render_check_sarif(const Checked& checked);

/// A path as a URI reference (RFC 3986): what may not stand in one is percent-encoded.
[[nodiscard]] std::string uri_of_path(const std::string& path);

}  // namespace lidlift::cli
