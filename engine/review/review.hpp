// The whole review of a rule base: every family of kinds, in one call.
#pragma once

#include "engine/complaint.hpp"
#include "engine/review/finding.hpp"
#include "engine/rule_base.hpp"

#include <span>
#include <vector>

namespace lidlift {

/// Faults first, then advice; within each by place, then kind. `rule_base` was read without complaints.
[[nodiscard]] std::vector<ReviewFinding> review(const RuleBase& rule_base);

/// What the reader could not take, as findings, in its order.
[[nodiscard]] std::vector<ReviewFinding> review_of_complaints(std::span<const Complaint> complaints);

/// The order in which findings are told.
void sort_findings(std::vector<ReviewFinding>& findings);

}  // namespace lidlift
