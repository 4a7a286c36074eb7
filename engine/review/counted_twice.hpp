// One answer that reaches a cause by two ways, and signs that stand in two groups of the same observation.
#pragma once

#include "engine/review/tools.hpp"

namespace lidlift {

void review_counted_twice(const ReviewTools& tools, std::vector<ReviewFinding>& findings);

}  // namespace lidlift
