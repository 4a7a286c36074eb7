#include "engine/comparison.hpp"

#include <algorithm>
#include <cmath>
#include <iterator>
#include <tuple>
#include <utility>

namespace lidlift {
namespace {

/// What is in `list` but not in `other`.
std::vector<std::string> without(const std::vector<std::string>& list, const std::vector<std::string>& other) {
    std::vector<std::string> result;
    std::ranges::copy_if(list, std::back_inserter(result),
                         [&](const std::string& item) { return std::ranges::find(other, item) == other.end(); });
    return result;
}

std::string first_of(const TrialResult& result) { return result.causes.empty() ? std::string{} : result.causes.front().id; }

double chance_in(const TrialResult& result, const std::string& cause) {
    const auto found = std::ranges::find(result.causes, cause, &PlacedCause::id);
    return found == result.causes.end() ? 0 : found->chance;
}

/// The likely causes in the order of `result`: those that either side gives more than the least chance.
std::vector<std::string> likely_in(const TrialResult& result, const TrialResult& other) {
    std::vector<std::string> ids;
    for (const PlacedCause& cause : result.causes)
        if (cause.chance > least_chance_to_compare || chance_in(other, cause.id) > least_chance_to_compare)
            ids.push_back(cause.id);
    return ids;
}

std::size_t place_in(const std::vector<std::string>& ids, const std::string& id) {
    const auto found = std::ranges::find(ids, id);
    return found == ids.end() ? 0 : static_cast<std::size_t>(found - ids.begin()) + 1;
}

std::vector<Moved> moved_between(const TrialResult& before, const TrialResult& after) {
    const std::vector<std::string> likely_before = likely_in(before, after);
    const std::vector<std::string> likely_after = likely_in(after, before);
    // A newcomer pushes all others down; that alone is no change of places between them.
    const std::vector<std::string> only_before = without(likely_before, likely_after);
    const std::vector<std::string> only_after = without(likely_after, likely_before);
    const std::vector<std::string> both_before = without(likely_before, only_before);
    const std::vector<std::string> both_after = without(likely_after, only_after);
    std::vector<Moved> result;
    const auto add = [&](const std::string& id) {
        result.push_back(
            {id, place_in(likely_before, id), place_in(likely_after, id), chance_in(before, id), chance_in(after, id)});
    };
    const auto apart = [](const TrialResult& side, const std::string& a, const std::string& b) {
        return std::abs(chance_in(side, a) - chance_in(side, b)) >= least_lead_to_compare;
    };
    const auto overtook = [&](const std::string& a, const std::string& b) {
        const bool first_before = place_in(both_before, a) < place_in(both_before, b);
        const bool first_after = place_in(both_after, a) < place_in(both_after, b);
        return first_before != first_after && (apart(before, a, b) || apart(after, a, b));
    };
    for (const std::string& id : likely_after)
        if (place_in(only_after, id) != 0 ||
            std::ranges::any_of(both_after, [&](const std::string& other) { return overtook(id, other); }))
            add(id);
    for (const std::string& id : only_before) add(id);
    return result;
}

bool speaks_of(const std::vector<Complaint>& complaints, const Complaint& complaint) {
    return std::ranges::find(complaints, complaint.place, &Complaint::place) != complaints.end();
}

class Comparer {
public:
    Comparer(const Ranker& before, const Ranker& after, Complaints& complaints)
        : before_(before),
          after_(after),
          resolve_before_(before.rule_base()),
          resolve_after_(after.rule_base()),
          complaints_(complaints) {}

    ComparedCase compare(const WrittenCase& written) {
        ComparedCase result;
        result.written = &written;
        Complaints unread_before;
        Complaints unread_after;
        Case case_before = resolve_before_.resolve(written, unread_before);
        Case case_after = resolve_after_.resolve(written, unread_after);
        share_out(unread_before.sorted(), unread_after.sorted(), result);

        result.not_compared = without(case_before.unread, case_after.unread);
        std::ranges::copy(without(case_after.unread, case_before.unread), std::back_inserter(result.not_compared));
        if (!result.not_compared.empty()) {
            WrittenCase shared = written;
            std::erase_if(shared.told.entries, [&](const YamlEntry& entry) {
                return std::ranges::find(result.not_compared, entry.key) != result.not_compared.end();
            });
            Complaints said_already;
            case_before = resolve_before_.resolve(shared, said_already);
            case_after = resolve_after_.resolve(shared, said_already);
        }
        result.before = try_case(before_, written, case_before);
        result.after = try_case(after_, written, case_after);

        result.cautions_lost = without(result.before.cautions, result.after.cautions);
        result.cautions_gained = without(result.after.cautions, result.before.cautions);
        result.steps_gone = without(result.before.steps, result.after.steps);
        result.steps_come = without(result.after.steps, result.before.steps);
        result.moved = moved_between(result.before, result.after);
        return result;
    }

private:
    /// What neither side can read is a mistake of the case; what only one cannot is said of that side.
    void share_out(const std::vector<Complaint>& before, const std::vector<Complaint>& after, ComparedCase& result) {
        for (const Complaint& complaint : before)
            if (speaks_of(after, complaint))
                complaints_.add(complaint.place, complaint.text, complaint.hint);
            else
                result.unread_before.push_back(complaint);
        std::ranges::copy_if(after, std::back_inserter(result.unread_after),
                             [&](const Complaint& complaint) { return !speaks_of(before, complaint); });
    }

    const Ranker& before_;
    const Ranker& after_;
    CaseResolver resolve_before_;
    CaseResolver resolve_after_;
    Complaints& complaints_;
};

}  // namespace

bool ComparedCase::first_changed() const { return first_of(before) != first_of(after); }

bool ComparedCase::changed() const {
    return newly_fails() || newly_passes() || first_changed() || verdict_changed() || !cautions_lost.empty() ||
           !cautions_gained.empty() || !steps_gone.empty() || !steps_come.empty() || !moved.empty() ||
           before.advised_against.size() != after.advised_against.size();
}

std::vector<ComparedCase> compare_cases(const Ranker& before, const Ranker& after, std::span<const WrittenCase> cases,
                                        Complaints& complaints) {
    Comparer comparer(before, after, complaints);
    std::vector<ComparedCase> result;
    for (const WrittenCase& written : cases) result.push_back(comparer.compare(written));
    return result;
}

std::vector<const ComparedCase*> by_importance(const RuleBase& before, std::span<const ComparedCase> cases) {
    std::vector<const ComparedCase*> result;
    for (const ComparedCase& compared : cases)
        if (compared.changed() || !compared.unread_before.empty() || !compared.unread_after.empty())
            result.push_back(&compared);
    // The gravest caution lost, 3 for "stop"; 0 for none.
    const auto gravest_lost = [&](const ComparedCase& compared) {
        int gravest = 0;
        for (const std::string& id : compared.cautions_lost)
            if (const auto caution = before.cautions.find(id))
                gravest = std::max(gravest, 3 - static_cast<int>(before.cautions[*caution].level));
        return gravest;
    };
    std::ranges::stable_sort(result, std::greater{}, [&](const ComparedCase* compared) {
        const ComparedCase& c = *compared;
        return std::tuple(gravest_lost(c), c.after.advised_against.size() > c.before.advised_against.size(), c.newly_fails(),
                          c.first_changed(), c.verdict_changed(), c.newly_passes(), c.steps_gone.size() + c.steps_come.size(),
                          c.cautions_gained.size(), c.moved.size());
    });
    return result;
}

}  // namespace lidlift
