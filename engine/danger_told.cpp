#include "engine/danger_told.hpp"

#include "engine/condition.hpp"
#include "engine/contains.hpp"

#include <algorithm>

namespace lidlift {

namespace {

/// The signs of people's own state, and of what is an emergency by itself.
std::vector<Handle<Sign>> signs_of_emergencies(const RuleBase& base) {
    std::vector<Handle<Sign>> result;
    for (const Caution& caution : base.cautions)
        if (caution.emergency && caution.when)
            for (const auto sign : mentioned(*caution.when).signs) result.push_back(sign);
    return result;
}

bool holds(const Caution& caution, const Told& told, const Conclusions& conclusions) {
    return caution.when && evaluate(*caution.when, told.facts, conclusions.truth) == Truth::yes;
}

/// Does it mention one of these signs that something is known of?
bool speaks_of(const Caution& caution, const std::vector<Handle<Sign>>& signs, const Told& told) {
    return std::ranges::any_of(mentioned(*caution.when).signs,
                               [&](Handle<Sign> sign) { return contains(signs, sign) && told.facts.find(sign) != nullptr; });
}

}  // namespace

std::vector<Handle<Caution>> dangers_told(const RuleBase& base, const Told& told, const Conclusions& conclusions) {
    const std::vector<Handle<Sign>> of_people = signs_of_emergencies(base);
    std::vector<Handle<Caution>> result;
    for (std::uint32_t i = 0; i < base.cautions.size(); ++i) {
        const Caution& caution = base.cautions[Handle<Caution>{i}];
        if (holds(caution, told, conclusions) && (caution.level == Level::stop || speaks_of(caution, of_people, told)))
            result.push_back({i});
    }
    std::ranges::stable_sort(result, {}, [&](Handle<Caution> handle) { return base.cautions[handle].level; });
    return result;
}

bool people_come_first(const RuleBase& base, const Told& told, const Conclusions& conclusions) {
    const std::vector<Handle<Sign>> of_people = signs_of_emergencies(base);
    return std::ranges::any_of(base.cautions, [&](const Caution& caution) {
        if (!holds(caution, told, conclusions)) return false;
        // Not "dizzy or it reeks": the part that holds must be the one about people.
        const auto mentions = mentioned(*caution.when).signs;
        return speaks_of(caution, of_people, told) &&
               std::ranges::all_of(mentions, [&](Handle<Sign> sign) { return contains(of_people, sign); });
    });
}

}  // namespace lidlift
