// Texts, lists and maps as YAML, on one line, so that yaml_tree reads them back the same.
#pragma once

#include "engine/yaml_tree.hpp"

#include <string>
#include <string_view>
#include <utility>

namespace lidlift {

/// Where a text stands: between brackets or braces commas and brackets end it.
enum class YamlStyle { block, flow };

/// `text` without quotes where that reads back the same, otherwise in the quotes that need the fewest marks.
[[nodiscard]] std::string yaml_scalar(std::string_view text, YamlStyle style);

/// "{on: 2026-03-09, added: {water: 20 L}}", "[a, b]", or a text.
[[nodiscard]] std::string yaml_on_one_line(const YamlNode& node, YamlStyle style = YamlStyle::flow);

/// Kinds, texts, keys and their order are the same; places and quotes may differ.
[[nodiscard]] bool same_content(const YamlNode& one, const YamlNode& other);

// For making nodes by hand; such nodes have no place.
[[nodiscard]] YamlNode yaml_text(std::string text);
[[nodiscard]] YamlNode yaml_list();
[[nodiscard]] YamlNode yaml_map();
void add_key(YamlNode& map, std::string key, YamlNode value);

}  // namespace lidlift
