// Whether what people would be told to do holds together: the plans for single causes and for pairs of causes.
#pragma once

#include "engine/review/finding.hpp"
#include "engine/rule_base.hpp"

#include <cstddef>
#include <vector>

namespace lidlift {

/// So many plans are made of each sort in search of one that clashes: for single causes, for pairs, and for pairs with further
/// answers. Of more, every n-th.
inline constexpr std::size_t most_plans = 2'000;
/// So many tries are made for steps that no plan has shown yet.
inline constexpr std::size_t most_plans_for_steps = 1'000;
/// So many findings are run through the whole engine before they are reported, since a whole ranking of a large rule base takes
/// long; the others are run against more rivals than the search had.
inline constexpr int most_whole_plans = 3;
/// So many findings are shown with as few answers as possible; the others with those on which they were found.
inline constexpr int most_shortened = 40;

/// Adds its findings to `findings`. `rule_base` was read without complaints.
///
/// What is proved, and what is searched. The planner (engine/advice.cpp) goes on taking steps away until no two of them are
/// opposite, drops each step whose `never when` or clash is true before that, keeps one step of kind feed, and collects the
/// cautions of whatever is left at the end; no later pass adds a step. So no plan for any answers shows two opposite steps, a
/// forbidden one, two instructions on feeding, or a step without its cautions: proved by that construction, for every set of
/// causes. The search guards the construction: it makes plans and looks at them anew, with an eye of its own. Two steps can
/// only meet in a plan if some two causes (or one) ask for them; so it goes through every cause by itself and every two causes
/// that can stand together and ask for opposite steps, on the answers that speak most for both, with the sign that is named to
/// settle the clash answered each way and not at all; and, for each single cause, with each condition that forbids one of its
/// steps made true and made false. It ranks among the causes that the answers touch, not among all, and verifies what it
/// reports with the whole engine. It does not try every combination of answers, nor sets of three causes.
///
/// What the construction cannot promise is searched in the same plans: steps of one cause that always undo each other, steps
/// that are never shown, and steps that stand under "do" and under "do not" at once.
void review_plans(const RuleBase& rule_base, std::vector<ReviewFinding>& findings);

}  // namespace lidlift
