// One YAML document as a tree in which every key and value knows its place; refuses what rule files may not hold
// (rules/FORMAT.md section 1).
#pragma once

#include "engine/complaint.hpp"

#include <optional>
#include <string>
#include <string_view>
#include <vector>

namespace lidlift {

inline constexpr std::size_t largest_file = 1024 * 1024;  ///< bytes
inline constexpr int deepest_nesting = 20;
inline constexpr std::size_t most_nodes = 100'000;     ///< in one file
inline constexpr std::size_t longest_text = 8 * 1024;  ///< bytes of one scalar

struct YamlEntry;

/// A scalar, a list or a map. Nothing is interpreted: "yes", "010" and "1e3" are texts until someone asks.
struct YamlNode {
    enum class Kind { text, list, map };
    Kind kind = Kind::text;
    Place place;           ///< where the value begins
    bool cut_off = false;  ///< reading broke off inside it, so what it lacks may only be unread
    std::string text;      ///< kind text
    bool plain = false;    ///< kind text: written without quotes or block marks
    /// Kind text: columns from `place` to its first letter, where the whole of it stands there letter for letter; nothing: it
    /// runs over several lines or was written with escapes.
    std::optional<int> inset;
    std::vector<YamlNode> items;     ///< kind list
    std::vector<YamlEntry> entries;  ///< kind map, in the order of the file, keys unique

    /// The value of `key`, or null. Linear in the number of entries.
    [[nodiscard]] const YamlNode* find(std::string_view key) const;
};

struct YamlEntry {
    std::string key;
    Place key_place;
    YamlNode value;
};

/// Reads one document. Every mistake goes to `complaints` with its place; where any was found the tree holds what could be read
/// (for a syntax error, what stood before it). Duplicate keys: the first is kept. An empty document is an empty map. Throws
/// nothing but std::bad_alloc.
[[nodiscard]] YamlNode read_yaml(std::string_view text, const std::string& file, Complaints& complaints);

}  // namespace lidlift
