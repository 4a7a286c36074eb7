#include "engine/call/danger_told.hpp"

#include "engine/condition.hpp"
#include "engine/contains.hpp"

#include <algorithm>

namespace lidlift {
namespace {

void add_signs(const Condition& condition, std::vector<Handle<Sign>>& signs) {
    if (const auto* says = std::get_if<Says>(&condition.node)) signs.push_back(says->sign);
    if (const auto* quorum = std::get_if<Quorum>(&condition.node))
        for (const Condition& child : quorum->children) add_signs(child, signs);
}

std::vector<Handle<Sign>> signs_in(const Condition& condition) {
    std::vector<Handle<Sign>> signs;
    add_signs(condition, signs);
    return signs;
}

}  // namespace

std::vector<Handle<Caution>> dangers_told(const RuleBase& base, const Told& told, const Conclusions& conclusions) {
    std::vector<Handle<Sign>> of_people;
    for (const Caution& caution : base.cautions)
        if (caution.emergency && caution.when) add_signs(*caution.when, of_people);
    std::vector<Handle<Caution>> result;
    for (std::uint32_t i = 0; i < base.cautions.size(); ++i) {
        const Caution& caution = base.cautions[Handle<Caution>{i}];
        if (!caution.when || evaluate(*caution.when, told.facts, conclusions.truth) != Truth::yes) continue;
        const auto signs = signs_in(*caution.when);
        const bool about_people = std::ranges::any_of(
            signs, [&](Handle<Sign> sign) { return contains(of_people, sign) && contains(told.facts.known(), sign); });
        if (caution.level == Level::stop || about_people) result.push_back({i});
    }
    std::ranges::stable_sort(result, {}, [&](Handle<Caution> handle) { return base.cautions[handle].level; });
    return result;
}

}  // namespace lidlift
