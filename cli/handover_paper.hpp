// Does the sheet of a call fit on one sheet of paper?
#pragma once

#include "cli/handover_sheet.hpp"

#include <array>
#include <optional>

namespace lidlift::cli {

/// How a sheet is set.
struct SheetLayout {
    double letters = 9;  ///< points
    bool apart = false;  ///< what to do stands in a column of its own; otherwise both columns are filled alike
};

/// Sizes of letters to try, in points, largest first. Smaller ones are not read at arm's length.
inline constexpr std::array<double, 5> letter_sizes = {11, 10.5, 10, 9.5, 9};

/// The height of the page that render_handover_html makes, as a share of what fits on a sheet of A4 as well as of US Letter.
/// Above 1 it may take a second sheet.
[[nodiscard]] double share_of_paper(const Sheet& sheet, const SheetLayout& layout);

/// The layout to take where the sheet fits on paper: the clearest, in the largest letters; none where it does not fit.
[[nodiscard]] std::optional<SheetLayout> layout_that_fits(const Sheet& sheet);

}  // namespace lidlift::cli
