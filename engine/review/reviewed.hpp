// What a rule base answers to the advice of its review.
#pragma once

#include "engine/review/finding.hpp"
#include "engine/rule_base.hpp"

#include <vector>

namespace lidlift {

/// Writes into every piece of advice that an item of `reviewed` answers why it stays. An item answers the advice of its kind
/// that is about the same entries, in any order. An item that answers nothing is itself a finding, `stale_review`.
void apply_reviewed(const RuleBase& rule_base, std::vector<ReviewFinding>& findings);

}  // namespace lidlift
