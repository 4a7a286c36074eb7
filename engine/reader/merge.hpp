// Files -> entries by section, later files adding to, extending or replacing what earlier ones said.
#pragma once

#include "engine/rule_base_reader.hpp"
#include "engine/yaml_tree.hpp"

#include <string>
#include <vector>

namespace lidlift::reader {

/// A named entry, as it stands after all files.
struct NamedEntry {
    std::string id;
    Place place;  ///< of its name
    YamlNode value;
};

struct Sections {
    std::vector<NamedEntry> sources, signs, conclusions, rules, causes, steps, cautions, clashes, materials;
    std::vector<YamlNode> reviewed;  ///< the items of all sections "reviewed"
    YamlNode about;                  ///< the section "rule base", or an empty map
    YamlNode weighing;               ///< or an empty map
    std::vector<std::string> changes;
};

[[nodiscard]] Sections merge_files(std::span<const RuleText> files, Complaints& complaints);

}  // namespace lidlift::reader
