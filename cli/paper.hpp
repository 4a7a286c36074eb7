// How much paper a text takes, set in a face with the widths of Helvetica (Arial, Liberation Sans and Nimbus Sans have the
// same).
#pragma once

#include <cstddef>
#include <string_view>

namespace lidlift::cli {

/// How wide `text` is on one line, in ems.
[[nodiscard]] double width_in_ems(std::string_view text);

/// How many lines `text` fills where a line is `width` ems wide. A word that is longer than a line is broken. At least 1.
[[nodiscard]] std::size_t lines_on_paper(std::string_view text, double width);

}  // namespace lidlift::cli
