// What the strengths of a rule base can and cannot do: links that say nothing, answers that count twice, causes that nothing
// can raise, lower or tell apart.
#pragma once

#include "engine/review/finding.hpp"
#include "engine/rule_base.hpp"

#include <vector>

namespace lidlift {

/// Two causes that all answers together move apart by less than this (decibans) count as not told apart, and so do look-alikes
/// of which no single sign moves one so far from the other: it is the lead that settles a clash between steps.
inline constexpr double least_distance = 6.0;
/// A cause whose odds all answers together cannot lower by this much (decibans: to a half) counts as one that nothing speaks
/// against.
inline constexpr double least_against = 3.0;
/// A sign that more than this share of the causes is linked to tells little; asked of rule bases with some causes only.
inline constexpr double most_linked = 0.6;
inline constexpr std::size_t fewest_causes_for_shares = 5;
/// More causes than this at once are expected of nobody's bed.
inline constexpr double most_expected = 2.0;
/// So many causes that cannot be acted on are shown with the chance that the whole engine gives; a whole ranking of a large
/// rule base takes long.
inline constexpr int most_whole_rankings = 3;

/// Adds its findings to `findings`. `rule_base` was read without complaints.
void review_evidence(const RuleBase& rule_base, std::vector<ReviewFinding>& findings);

}  // namespace lidlift
