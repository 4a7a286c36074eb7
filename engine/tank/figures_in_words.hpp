// Figures as a page for people says them: two or three digits that count, a range where it is one.
#pragma once

#include "engine/calendar.hpp"
#include "engine/estimate.hpp"

#include <string>
#include <string_view>

namespace lidlift::tank {

/// Rounded to `digits` digits that count: 41.37 -> "41".
[[nodiscard]] std::string rounded(double number, int digits = 2);

/// "34 to 48 kg"; "41 kg" where both ends read alike; "118 kg", with a third digit from 100 on, when it is exact.
[[nodiscard]] std::string in_words(const Estimate& estimate, std::string_view unit);

/// "1 day", "9 days".
[[nodiscard]] std::string days_in_words(int days);

/// "6 bags", "1 bag".
[[nodiscard]] std::string counted(int number, std::string_view singular, std::string_view plural);

}  // namespace lidlift::tank
