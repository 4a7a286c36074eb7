// Review of what steps measure out: whether it does what the step is for, and whether its dangers are named.
#pragma once

#include "engine/review/finding.hpp"
#include "engine/rule_base.hpp"

#include <vector>

namespace lidlift {

void review_amounts(const RuleBase& rule_base, std::vector<ReviewFinding>& findings);

}  // namespace lidlift
