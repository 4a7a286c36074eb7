// An amount as a page for people says it: two digits that count, whole buckets, and where it was cut off.
#pragma once

#include "engine/step_amount.hpp"

#include <string>
#include <vector>

namespace lidlift {

/// "dry leaves to bring the top 20 cm of the bed to 75 % moisture: 34 to 48 kg, that is 9 to 12 of your 10 L buckets". Without
/// a stop at its end.
[[nodiscard]] std::string in_words(const StepAmount& amount);

/// "For amounts in kilograms and buckets the tank's record should also hold: a; b.", or nothing.
[[nodiscard]] std::string missing_in_words(const StepAmounts& amounts);

}  // namespace lidlift
