// Text -> how much of what a step needs. The language is described in rules/FORMAT.md section 7.
#pragma once

#include "engine/outcome.hpp"
#include "engine/written_amount.hpp"

#include <cstddef>
#include <string_view>

namespace lidlift {

inline constexpr std::size_t longest_amount = 1024;       ///< bytes
inline constexpr std::size_t most_choices_of_amount = 8;  ///< materials with "or" between them
inline constexpr std::size_t most_limits_of_amount = 4;   ///< "at most ..."
inline constexpr int most_portions_of_amount = 100;

/// Reads a whole formula. Fault: what was expected, what stands there, and the column (1-based, in code points).
[[nodiscard]] Outcome<written::Formula> read_amount_formula(std::string_view text);

}  // namespace lidlift
