// The default rule base, as it stands in rules/*.yaml, inside the program.
#pragma once

#include "engine/rule_base_reader.hpp"

#include <vector>

namespace lidlift {

[[nodiscard]] std::vector<RuleText> default_rules();

}  // namespace lidlift
