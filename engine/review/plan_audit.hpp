// Looks at one plan anew, without the planner's own functions: does it keep what every plan has to keep?
#pragma once

#include "engine/advice.hpp"
#include "engine/answers.hpp"
#include "engine/rule_base.hpp"

#include <string>
#include <vector>

namespace lidlift {

struct PlanFault {
    std::vector<std::string> about;  ///< ids of steps, and of a clash or caution
    std::string text;
};

/// Two shown steps that a clash or opposite pushes keep apart, a shown step that is forbidden, more than one step of kind feed,
/// a caution that a shown step names and the plan does not.
[[nodiscard]] std::vector<PlanFault> faults_of_plan(const RuleBase& rule_base, const Facts& facts, const Advice& advice);

/// Shown steps that a clash said under "do not" speaks of.
[[nodiscard]] std::vector<PlanFault> said_both_ways(const RuleBase& rule_base, const Advice& advice);

/// The two may not stand in one plan: a two-sided clash, or pushes of one quantity in opposite directions. Of two steps of kind
/// feed the stricter one is taken, so they are never opposite. `clash` receives the clash entry, or null.
[[nodiscard]] bool are_opposite(const RuleBase& rule_base, Handle<Step> a, Handle<Step> b, const Clash** clash = nullptr);

}  // namespace lidlift
