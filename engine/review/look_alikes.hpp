// Causes that the answers do not tell apart, and look-alikes that a person without instruments cannot.
#pragma once

#include "engine/review/tools.hpp"

namespace lidlift {

void review_look_alikes(const ReviewTools& tools, std::vector<ReviewFinding>& findings);

/// How far all answers together can move two causes apart, in decibans: the sum over all observations of the greatest
/// difference that one of its values makes, and over the circumstances that only one of them has, or both differently. Never
/// less than what any answers do, within groups of the same observation neither: there every weight counts in full or in
/// part. Infinite where a stage or a veto tells them apart.
[[nodiscard]] double distance_between(const ReviewTools& tools, Handle<Cause> a, Handle<Cause> b);

}  // namespace lidlift
