// Numbers that a person can type: the plainest one in a range, and how it is written.
#pragma once

#include "engine/condition.hpp"
#include "engine/quantity.hpp"

#include <optional>
#include <string>

namespace lidlift::logic {

/// The number in `range` with the fewest digits after and then before the point; none when only numbers of more than
/// 15 significant digits lie in it. A range of one number gives that number if it can be written in `unit` or in another unit
/// of its dimension (31.111... °C is 88 °F).
[[nodiscard]] std::optional<double> plainest_number(const Range& range, const Unit& unit);

/// Text that the reader of answers takes for exactly `number`: "31 °C", "88 °F". None when there is no such text.
[[nodiscard]] std::optional<std::string> exact_text(double number, const Unit& unit);

}  // namespace lidlift::logic
