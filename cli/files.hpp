// Files from outside, read whole and within limits.
#pragma once

#include "engine/outcome.hpp"
#include "engine/rule_base_reader.hpp"

#include <cstddef>
#include <optional>
#include <string>
#include <vector>

namespace lidlift::cli {

/// The text of a regular file, or of standard input for "-". Fault when it cannot be read or is larger than `limit` bytes.
[[nodiscard]] Outcome<std::string> read_file(const std::string& path, std::size_t limit);

/// The path of a file, or of every file in a folder whose name ends in .yaml, in the order of their names. Folders within it
/// are not looked into; a link that is called so is a fault, more than `most` files are, and none is.
[[nodiscard]] Outcome<std::vector<std::string>> yaml_files(const std::string& path, std::size_t most);

inline constexpr std::size_t most_rule_files = 1'000;  ///< in one folder

/// A rule file, or every file in a folder whose name ends in .yaml, in the order of their names, as yaml_files has
/// them.
[[nodiscard]] Outcome<std::vector<RuleText>> read_rule_files(const std::string& path);

/// Puts `text` into the file at `path`: into a new file beside it first, which then takes its name, so that nobody ever sees
/// half of it. What is no regular file (a device, a pipe) is written to as it is. A link is followed. Returns what went wrong.
[[nodiscard]] std::optional<Fault> write_file(const std::string& path, const std::string& text);

}  // namespace lidlift::cli
