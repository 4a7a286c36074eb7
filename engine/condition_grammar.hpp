// Text -> written condition. The language is described in rules/FORMAT.md section 5.
#pragma once

#include "engine/outcome.hpp"
#include "engine/written_condition.hpp"

#include <string_view>

namespace lidlift {

inline constexpr std::size_t longest_condition = 4096;  ///< bytes
inline constexpr int deepest_condition = 50;            ///< nested parentheses and `not`s

/// Words such as "and", "is" and "known", which no condition can use as a name.
[[nodiscard]] bool is_word_of_the_language(std::string_view text);

/// Reads a whole condition. Fault: what was expected, what stands there, and the column (1-based, in code points).
[[nodiscard]] Outcome<written::Condition> read_condition(std::string_view text);

}  // namespace lidlift
