#include "engine/review/logic.hpp"

#include "engine/review/kinds.hpp"
#include "engine/review/logic_parts.hpp"

#include <utility>

namespace lidlift {
namespace logic {

void LogicReview::add(std::string_view kind, const Place& place, std::vector<std::string> about, std::string text,
                      std::string mend, const AnswersQuestion& shown_by, std::size_t bed) const {
    ReviewFinding finding = finding_of(kind, place);
    finding.about = std::move(about);
    finding.text = std::move(text);
    finding.mend = std::move(mend);
    if (!shown_by.wishes.empty())
        if (auto found = space.find(shown_by); found.found == Found::yes)
            finding.witness = space.witness(space.shortened(shown_by, std::move(found.beds))[bed]);
    findings.push_back(std::move(finding));
}

}  // namespace logic

void review_logic(const RuleBase& rule_base, std::vector<ReviewFinding>& findings) {
    logic::AnswersSpace space(rule_base);
    const auto sites = logic::condition_sites(rule_base);
    const logic::LogicReview review{space, rule_base, sites, findings};
    const auto never_true = logic::review_conditions(review);
    logic::review_covered_rules(review, never_true);
    logic::review_contradictions(review);
    logic::review_edges(review);
    logic::review_uses(review);
    if (space.undecided() == 0) return;
    ReviewFinding finding = finding_of("not_decided", {});
    finding.text = std::to_string(space.undecided()) + (space.undecided() == 1 ? " question" : " questions") +
                   " about conditions could not be decided within the limits";
    finding.mend = "break long conditions up into rules with names of their own";
    findings.push_back(std::move(finding));
}

}  // namespace lidlift
