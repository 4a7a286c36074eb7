// How a caution's gravity is said on a page for people.
#pragma once

#include "engine/rule_base.hpp"

namespace lidlift::cli {

/// The words before a caution, with the blanks after them; all equally wide.
[[nodiscard]] inline const char* level_heading(Level level) {
    switch (level) {
        case Level::stop:
            return "STOP  ";
        case Level::warn:
            return "CARE  ";
        case Level::note:
            return "NOTE  ";
    }
    return "";
}

/// Where somebody is hurt or unwell, before anything is said of the bed.
inline constexpr const char* see_to_people_first = "See to the people first. The bed can wait.";

}  // namespace lidlift::cli
