// Names in conditions -> handles of signs and conclusions; numbers -> the sign's own unit.
#pragma once

#include "engine/complaint.hpp"
#include "engine/rule_base.hpp"
#include "engine/yaml_tree.hpp"

#include <optional>

namespace lidlift::reader {

/// Reads and resolves the condition in a text node; mistakes become complaints at their column and give no condition.
[[nodiscard]] std::optional<Condition> read_condition_node(const YamlNode& node, const RuleBase& rule_base,
                                                           Complaints& complaints);

/// The handles of the sources that a list of ids names.
[[nodiscard]] std::optional<Handle<Source>> find_source(const YamlNode& node, const RuleBase& rule_base,
                                                        Complaints& complaints);

/// Where column `column` (1-based) of a text node's own text stands in its file, or where that text begins, if it runs over
/// several lines or has escapes in it.
[[nodiscard]] Place place_inside(const YamlNode& node, int column);

}  // namespace lidlift::reader
