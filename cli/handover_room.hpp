// How much of a call finds room on one sheet. What is cut first tells least; cautions, and the checks before a step, are never
// cut.
#pragma once

#include <array>
#include <cstddef>
#include <limits>

namespace lidlift::cli {

inline constexpr std::size_t all_of_it = std::numeric_limits<std::size_t>::max();

struct SheetRoom {
    std::array<std::size_t, 3> steps = {all_of_it, all_of_it, all_of_it};  ///< now, this week, from now on
    std::size_t do_nots = all_of_it;
    bool reasons = true;             ///< why not to do a thing, and why a cause comes about
    std::size_t causes = all_of_it;  ///< with their balance
    std::size_t balance_lines = all_of_it;
    std::size_t other_causes = all_of_it;
    std::size_t words = all_of_it;  ///< bytes of the caller's own words, each time they were said
    std::size_t answers = all_of_it;
    std::size_t tank_lines = all_of_it;
    std::size_t questions = all_of_it;
    bool how_to_check = true;
    std::size_t expectations = all_of_it;  ///< what is to be seen by the day to look again
};

/// From the most to the least; the first leaves nothing out. What is to be done now is cut last.
inline constexpr std::array<SheetRoom, 13> sheet_rooms = {{
    {},
    {{all_of_it, all_of_it, all_of_it}, 6, true, 2, 6, 4, 600, 20, 7, 3, true, 2},
    {{all_of_it, all_of_it, all_of_it}, 5, true, 2, 5, 3, 500, 16, 5, 2, false, 2},
    {{all_of_it, all_of_it, all_of_it}, 4, false, 1, 4, 2, 400, 14, 4, 2, false, 2},
    {{all_of_it, 3, 2}, 4, false, 1, 4, 2, 300, 12, 3, 1, false, 2},
    {{all_of_it, 3, 1}, 3, false, 1, 3, 1, 240, 10, 3, 1, false, 1},
    {{6, 2, 1}, 3, false, 1, 3, 1, 200, 8, 2, 0, false, 1},
    {{6, 2, 0}, 2, false, 1, 3, 0, 160, 7, 2, 0, false, 1},
    {{5, 2, 0}, 2, false, 1, 2, 0, 160, 6, 1, 0, false, 1},
    {{5, 1, 0}, 1, false, 1, 2, 0, 120, 6, 1, 0, false, 1},
    {{4, 1, 0}, 1, false, 1, 2, 0, 120, 5, 1, 0, false, 1},
    {{4, 0, 0}, 1, false, 1, 2, 0, 100, 5, 0, 0, false, 1},
    {{3, 0, 0}, 0, false, 1, 2, 0, 80, 4, 0, 0, false, 0},
}};

}  // namespace lidlift::cli
