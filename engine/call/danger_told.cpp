#include "engine/call/danger_told.hpp"

#include "engine/condition.hpp"
#include "engine/contains.hpp"

#include <algorithm>

namespace lidlift {

std::vector<Handle<Caution>> dangers_told(const RuleBase& base, const Told& told, const Conclusions& conclusions) {
    std::vector<Handle<Sign>> of_people;
    for (const Caution& caution : base.cautions)
        if (caution.emergency && caution.when)
            for (const auto sign : mentioned(*caution.when).signs) of_people.push_back(sign);
    std::vector<Handle<Caution>> result;
    for (std::uint32_t i = 0; i < base.cautions.size(); ++i) {
        const Caution& caution = base.cautions[Handle<Caution>{i}];
        if (!caution.when || evaluate(*caution.when, told.facts, conclusions.truth) != Truth::yes) continue;
        const bool about_people = std::ranges::any_of(mentioned(*caution.when).signs, [&](Handle<Sign> sign) {
            return contains(of_people, sign) && told.facts.find(sign) != nullptr;
        });
        if (caution.level == Level::stop || about_people) result.push_back({i});
    }
    std::ranges::stable_sort(result, {}, [&](Handle<Caution> handle) { return base.cautions[handle].level; });
    return result;
}

}  // namespace lidlift
