// How much of what the steps of a diagnosis need in the tank that it is about.
#pragma once

#include "engine/advice.hpp"
#include "engine/step_amount.hpp"

#include <vector>

namespace lidlift {

/// The amounts of `advice.steps`, in their order. What the person says now of the bay counts as written into the record today,
/// so that a squeeze told on the telephone moves the amounts as one in the record does; guesses do not.
[[nodiscard]] std::vector<StepAmounts> amounts_of_plan(const RuleBase& rule_base, const Told& told, const Advice& advice,
                                                       const TankRecord& record, std::size_t bay, Day today);

}  // namespace lidlift
