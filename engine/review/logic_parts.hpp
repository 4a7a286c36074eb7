// The parts of review_logic, one for each sort of question.
#pragma once

#include "engine/review/answers_space.hpp"
#include "engine/review/condition_sites.hpp"
#include "engine/review/finding.hpp"

#include <span>
#include <string>
#include <vector>

namespace lidlift::logic {

/// What the parts share.
struct LogicReview {
    AnswersSpace& space;
    const RuleBase& base;
    std::span<const ConditionSite> sites;
    std::vector<ReviewFinding>& findings;

    /// Adds a finding with the shortest answers found for `shown_by`; without wishes it needs none.
    void add(std::string_view kind, const Place& place, std::vector<std::string> about, std::string text, std::string mend,
             const AnswersQuestion& shown_by = {}, std::size_t bed = 0) const;
};

/// Conditions that are never true, always true, or cannot count; returns by rule whether nothing makes it true.
[[nodiscard]] std::vector<bool> review_conditions(const LogicReview& review);

/// Rules that say the same as others, or less.
void review_covered_rules(const LogicReview& review, const std::vector<bool>& never_true);

/// Statements that exclude each other on answers that can be given.
void review_contradictions(const LogicReview& review);

/// Conclusions, signs and answers that nothing uses.
void review_uses(const LogicReview& review);

/// Gaps and overlaps where one number is the edge.
void review_edges(const LogicReview& review);

}  // namespace lidlift::logic
