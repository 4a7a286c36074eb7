// "Did you mean ...?": the known name nearest to a mistyped one.
#pragma once

#include <optional>
#include <string>
#include <string_view>
#include <vector>

namespace lidlift {

/// Number of inserted, deleted, replaced or swapped neighbouring characters (bytes) that turn `a` into `b` (optimal string
/// alignment).
[[nodiscard]] std::size_t edit_distance(std::string_view a, std::string_view b);

/// The known name nearest to `name`, if at most a third of its characters (at least one) would have to change, or if one is the
/// other's beginning (3 characters or more); letter case, spaces, '-' and '_' count as equal. Ties go to the one that comes
/// first. Where no name is that near, the shortest one that has `name` for one of its words.
[[nodiscard]] std::optional<std::string> nearest_name(std::string_view name, const std::vector<std::string>& known);

/// "did you mean 'x'?" or "".
[[nodiscard]] std::string did_you_mean(std::string_view name, const std::vector<std::string>& known);

}  // namespace lidlift
