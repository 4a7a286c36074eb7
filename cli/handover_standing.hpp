// How a recorded call stands, in sentences: when it was, what came of it, and what differs from what was advised then.
#pragma once

#include "engine/call_summary.hpp"

#include <string>
#include <vector>

namespace lidlift::cli {

[[nodiscard]] std::vector<std::string> standing_of(const RuleBase& rule_base, const CallSummary& call);

/// One line for each: another rule base or other advice than then; answers that could not be used; a tank that was not read.
[[nodiscard]] std::vector<std::string> notes_on(const RuleBase& rule_base, const CallSummary& call);

}  // namespace lidlift::cli
