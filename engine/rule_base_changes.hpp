// Which entries of a rule base were added, removed or changed, as they are written; how a file is laid out does not count.
#pragma once

#include "engine/rule_base_reader.hpp"

#include <span>
#include <string>
#include <vector>

namespace lidlift {

struct EntryChange {
    enum class How { added, removed, changed };
    std::string section;  ///< "causes"; "rule base" and "weighing" are sections without entries
    std::string id;       ///< empty for those two
    How how = How::changed;
    friend bool operator==(const EntryChange&, const EntryChange&) = default;
};

/// By section, then added, removed and changed, each in the order of its file. Both rule bases are taken to be readable. Texts
/// are compared as written, maps whatever the order of their keys.
[[nodiscard]] std::vector<EntryChange> entry_changes(std::span<const RuleText> before, std::span<const RuleText> after);

}  // namespace lidlift
