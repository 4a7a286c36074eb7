// Whether the phrases under `heard as` can do their work.
#pragma once

#include "engine/review/finding.hpp"
#include "engine/rule_base.hpp"

#include <vector>

namespace lidlift {

/// Adds its findings to `findings`. `rule_base` was read without complaints.
void review_phrases(const RuleBase& rule_base, std::vector<ReviewFinding>& findings);

}  // namespace lidlift
