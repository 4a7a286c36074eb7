// Tried cases as JUnit XML, for the machines that build and test: one suite a file, one testcase a case.
#pragma once

#include "cli/render_trial.hpp"

#include <string>
#include <string_view>

namespace lidlift::cli {

/// The elements that every reader of the format knows: testsuites, testsuite, testcase, failure. The time is always 0, since
/// the same input gives the same output.
[[nodiscard]] std::string render_junit(const TrialReport& report);

/// Text as XML 1.0 may hold it, in an element or an attribute.
[[nodiscard]] std::string xml_text(std::string_view text);

}  // namespace lidlift::cli
