// Review of the materials: figures that contradict one another or claim more than was read, and words that name two of them.
#pragma once

#include "engine/review/finding.hpp"
#include "engine/rule_base.hpp"

#include <vector>

namespace lidlift {

/// Dry matter of plants and dung is 35 to 55 % carbon; pure cellulose has 44 %, lignin some 63 %. Fat has more, but then little
/// nitrogen, so that a typical pair of figures beyond these ends has a slip in one of them.
inline constexpr double most_carbon_of_a_material = 60;   ///< % of dry mass
inline constexpr double least_carbon_of_a_material = 15;  ///< % of dry mass; of feed, dry matter and dung

void review_materials(const RuleBase& rule_base, std::vector<ReviewFinding>& findings);

}  // namespace lidlift
