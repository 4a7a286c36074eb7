// One more entry for a tank's record: text in, text out, with everything that a person wrote kept to the byte
// (rules/TANKS.md section 5).
#pragma once

#include "engine/outcome.hpp"
#include "engine/yaml_tree.hpp"

#include <string>
#include <string_view>

namespace lidlift {

/// A record with one entry more.
struct Logged {
    std::string text;     ///< of the whole record
    std::string written;  ///< the entry as it stands there, without the line end after it
    int line = 0;         ///< where it begins, from 1
    YamlNode tree;        ///< of `text`, to be read by read_tank_record
};

/// Puts `entry`, a map as rules/TANKS.md section 2 has it, at the end of the record's `entries`. The new text has been read
/// again and holds all that was there, and the entry. Fault: why that cannot be done; `text` has to be changed by hand then.
[[nodiscard]] Outcome<Logged> with_entry(std::string_view text, const std::string& file, const YamlNode& entry);
/// The same where the tree of `text` is at hand, read without complaints.
[[nodiscard]] Outcome<Logged> with_entry(std::string_view text, const YamlNode& tree, const std::string& file,
                                         const YamlNode& entry);

/// The text of a record that begins with the keys of `heading` and has no entries yet.
[[nodiscard]] std::string new_record(const YamlNode& heading);

}  // namespace lidlift
