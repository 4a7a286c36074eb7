// The default rule base, inside the program.
#pragma once

#include "engine/outcome.hpp"
#include "engine/rule_base_image.hpp"
#include "engine/rule_base_reader.hpp"

#include <string_view>
#include <vector>

namespace lidlift {

/// Ready for use: what read_rule_base makes of default_rules(), read when the program was built. Fault: the program's file is
/// damaged.
[[nodiscard]] Outcome<RuleBase> default_rule_base(Extent extent = Extent::whole);

/// As it stands in rules/*.yaml, for whom the written form matters: to merge further files with it, to compare, to check.
[[nodiscard]] std::vector<RuleText> default_rules();

/// What default_rule_base() is made from (engine/rule_base_image).
[[nodiscard]] std::string_view default_rules_image();

}  // namespace lidlift
