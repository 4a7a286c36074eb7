// Causes that the answers do not tell apart, and look-alikes that a person without instruments cannot.
#pragma once

#include "engine/review/tools.hpp"

namespace lidlift {

void review_look_alikes(const ReviewTools& tools, std::vector<ReviewFinding>& findings);

/// How far all answers together can move two causes apart, in decibans: for each feature the greatest difference over its
/// values, further ones of a same-observation group counted by the group's share, and for each circumstance of one of them its
/// difference. Infinite where a stage or a veto tells them apart.
[[nodiscard]] double distance_between(const ReviewTools& tools, Handle<Cause> a, Handle<Cause> b);

}  // namespace lidlift
