#include "engine/review/review.hpp"

#include "engine/review/amounts.hpp"
#include "engine/review/evidence.hpp"
#include "engine/review/kinds.hpp"
#include "engine/review/logic.hpp"
#include "engine/review/materials.hpp"
#include "engine/review/phrases.hpp"
#include "engine/review/plans.hpp"
#include "engine/review/reviewed.hpp"
#include "engine/review/structure.hpp"

#include <algorithm>
#include <tuple>

namespace lidlift {

std::vector<ReviewFinding> review(const RuleBase& rule_base) {
    std::vector<ReviewFinding> findings;
    review_logic(rule_base, findings);
    review_evidence(rule_base, findings);
    review_structure(rule_base, findings);
    review_phrases(rule_base, findings);
    review_plans(rule_base, findings);
    review_materials(rule_base, findings);
    review_amounts(rule_base, findings);
    apply_reviewed(rule_base, findings);
    sort_findings(findings);
    return findings;
}

std::vector<ReviewFinding> review_of_complaints(std::span<const Complaint> complaints) {
    std::vector<ReviewFinding> findings;
    for (const Complaint& complaint : complaints) {
        ReviewFinding finding =
            finding_of(complaint.kind.empty() ? std::string_view("cannot_be_read") : complaint.kind, complaint.place);
        finding.text = complaint.text;
        finding.mend = complaint.hint;
        findings.push_back(std::move(finding));
    }
    return findings;
}

void sort_findings(std::vector<ReviewFinding>& findings) {
    const auto key = [](const ReviewFinding& finding) {
        return std::tie(finding.level, finding.place, finding.kind, finding.text);
    };
    std::ranges::stable_sort(findings, [&](const ReviewFinding& a, const ReviewFinding& b) { return key(a) < key(b); });
}

}  // namespace lidlift
