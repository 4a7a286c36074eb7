// What belongs together in a rule base: causes and steps, what is never used, what people are to be told, cautions that
// hazardous steps call for, and what rests on memory alone.
#pragma once

#include "engine/review/finding.hpp"
#include "engine/rule_base.hpp"

#include <string>
#include <vector>

namespace lidlift {

/// Adds its findings to `findings`. `rule_base` was read without complaints.
void review_structure(const RuleBase& rule_base, std::vector<ReviewFinding>& findings);

/// What of `by` the step has: "is of kind lime", "pushes ph up", "says 'shred...'"; empty: nothing. A word of `by` is the
/// beginning of a word in the step's text or amount; several words stand there one after the other. Capitals are small letters.
[[nodiscard]] std::string calls_for(const CalledForBy& by, const Step& step);

}  // namespace lidlift
