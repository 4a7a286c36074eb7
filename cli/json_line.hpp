// One line of told beds (rules/LINES.md): a JSON object to what was told of one bed. (nlohmann-json)
#pragma once

#include "engine/complaint.hpp"
#include "engine/yaml_tree.hpp"

#include <cstdint>
#include <optional>
#include <string>
#include <string_view>
#include <variant>
#include <vector>

namespace lidlift::cli {

inline constexpr std::size_t longest_json_line = 64 * 1024;  ///< bytes
inline constexpr int deepest_line = 4;                       ///< {"told": {"squeeze": {"is": ["stream"]}}}
inline constexpr std::size_t most_in_a_line = 1'000;         ///< keys of one object, or items of one list
inline constexpr std::size_t longest_line_id = 200;          ///< bytes

using LineId = std::variant<std::string, std::int64_t>;

/// What stands in a line, before any rule base looks at it.
struct JsonLine {
    std::optional<LineId> id;
    YamlNode told;      ///< a map, as `told` of a case
    std::string words;  ///< the caller's own
};

/// `text` is one line without its end. Mistakes become complaints at line `number` of no file in particular; what could be read
/// of the id is there all the same.
[[nodiscard]] JsonLine read_json_line(std::string_view text, int number, Complaints& complaints);

}  // namespace lidlift::cli
