// The shipped cases, as they stand in rules/cases/*.yaml, inside the program.
#pragma once

#include "engine/rule_base_reader.hpp"

#include <vector>

namespace lidlift {

[[nodiscard]] std::vector<RuleText> default_cases();

}  // namespace lidlift
