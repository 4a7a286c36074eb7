// A moment of the local clock, as a call record writes it: 2026-03-09 14:05:12. No clock here: what time it is is always told.
#pragma once

#include "engine/calendar.hpp"

#include <compare>
#include <string>
#include <string_view>

namespace lidlift {

struct Moment {
    Day day;
    int second = 0;  ///< of the day, 0 to 86399
    friend auto operator<=>(const Moment&, const Moment&) = default;
};

/// "2026-03-09 14:05:12", or without the seconds.
[[nodiscard]] Outcome<Moment> read_moment(std::string_view text);

/// "2026-03-09 14:05:12".
[[nodiscard]] std::string to_text(const Moment& moment);

}  // namespace lidlift
