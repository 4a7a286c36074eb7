#include "engine/plan_amounts.hpp"

namespace lidlift {
namespace {

TankRecord with_told(TankRecord record, const Told& told, std::size_t bay, Day today) {
    for (const Handle<Sign> sign : told.facts.known()) {
        const Observation& observation = *told.facts.find(sign);
        if (observation.from.starts_with(from_the_record) || observation.sureness == Sureness::guess) continue;
        record.entries.push_back({today, bay, Noted{sign, observation, false}, {}, {}});
    }
    return record;
}

}  // namespace

std::vector<StepAmounts> amounts_of_plan(const RuleBase& rule_base, const Told& told, const Advice& advice,
                                         const TankRecord& record, std::size_t bay, Day today) {
    // What is noted tomorrow does not count today, so the told facts come after all that does.
    const TankRecord told_record = with_told(record, told, bay, today);
    const TankState state = state_of(told_record, rule_base, today);
    std::vector<StepAmounts> amounts;
    for (const PlannedStep& planned : advice.steps)
        amounts.push_back(amounts_of(rule_base.steps[planned.step], rule_base, {&told_record, &state, bay}));
    return amounts;
}

}  // namespace lidlift
