// What follows from the conditions of a rule base alone: conditions that are never or always true, rules that are covered by
// others, statements that contradict each other, what nothing uses, and the edges of numbers.
#pragma once

#include "engine/review/finding.hpp"
#include "engine/rule_base.hpp"

#include <vector>

namespace lidlift {

/// Adds its findings to `findings`. `rule_base` was read without complaints.
void review_logic(const RuleBase& rule_base, std::vector<ReviewFinding>& findings);

}  // namespace lidlift
