// How much feed a worm bed takes in a day, by its floor and by its worms, after published figures.
#pragma once

#include "engine/estimate.hpp"

#include <optional>

namespace lidlift {

/// kg of feed a day on a square metre. Low: a pound a week on a square foot (North Carolina Cooperative Extension, read in a
/// copy). Typical: 1.6 kg of worms on a square metre at 0.75 kg a kilogram (Ndegwa, Thompson & Das 2000, read). High: three
/// pounds a week on a square foot (read), about the same as Ndegwa's bed for the best growth of worms.
inline constexpr Estimate floor_load = {0.7, 1.2, 2.0};

/// kg of feed a day to a kilogram of worms: half is the rule of thumb, three quarters gave the best compost (Ndegwa 2000,
/// read).
inline constexpr Estimate worm_ration = {0.5, 0.625, 0.75};

/// What a bed takes in a day: kg, by whichever of floor and worms allows less.
struct Ration {
    Estimate per_day;
    bool by_worms = false;  ///< the worms allow less than the floor; otherwise it is the floor
};

/// `area` m2 of bed, 0: not known; `worms` kg alive, none: not known. None when neither is known.
[[nodiscard]] std::optional<Ration> ration(const Estimate& area, const std::optional<Estimate>& worms);

}  // namespace lidlift
