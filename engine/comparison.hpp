// What an edit of the rules changes: the same cases under the rule base before it and the one after it, most important first.
#pragma once

#include "engine/trial.hpp"

#include <optional>
#include <span>
#include <string>
#include <vector>

namespace lidlift {

/// A cause counts as moved only where one of the two rule bases gives it more than this.
inline constexpr double least_chance_to_compare = 0.05;
/// Two causes that are this close under both rule bases changed no places that anybody would notice.
inline constexpr double least_lead_to_compare = 0.01;

/// A cause whose place among the likely ones is another than before; 0: it was, or is, not among them.
struct Moved {
    std::string cause;
    std::size_t before = 0;
    std::size_t after = 0;
    double chance_before = 0;
    double chance_after = 0;
};

/// One case under both. Of what only one of the two rule bases can read, neither is told.
struct ComparedCase {
    const WrittenCase* written = nullptr;
    TrialResult before;
    TrialResult after;
    std::vector<Complaint> unread_before;   ///< what the rule base before cannot read of the case, and the one after can
    std::vector<Complaint> unread_after;    ///< the other way round
    std::vector<std::string> not_compared;  ///< signs that were told but are known to one of the two only

    std::vector<std::string> cautions_lost;
    std::vector<std::string> cautions_gained;
    std::vector<std::string> steps_gone;
    std::vector<std::string> steps_come;
    std::vector<Moved> moved;  ///< causes that changed places, came among the likely ones or left them

    [[nodiscard]] bool newly_fails() const { return before.passed() && !after.passed(); }
    [[nodiscard]] bool newly_passes() const { return !before.passed() && after.passed(); }
    [[nodiscard]] bool worse() const { return newly_fails() || !cautions_lost.empty(); }
    [[nodiscard]] bool first_changed() const;
    [[nodiscard]] bool verdict_changed() const { return before.verdict != after.verdict; }
    [[nodiscard]] bool changed() const;
};

/// Every case, in the order in which they were read. What neither rule base can read becomes a complaint.
[[nodiscard]] std::vector<ComparedCase> compare_cases(const Ranker& before, const Ranker& after,
                                                      std::span<const WrittenCase> cases, Complaints& complaints);

/// The cases in which something changed or could not be read on one side, most important first: a caution lost, something newly
/// advised that must never be, a case that newly fails, another first cause, another verdict, other steps, other places.
[[nodiscard]] std::vector<const ComparedCase*> by_importance(const RuleBase& before, std::span<const ComparedCase> cases);

}  // namespace lidlift
