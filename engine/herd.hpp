// How worms multiply, as bulletins for growers reckon.
#pragma once

#include "engine/estimate.hpp"

namespace lidlift {

/// kg after `days`, when the mass doubles every `doubling_days` (above 0): M0 2^(t/T2).
[[nodiscard]] double biomass_after(double kg, double days, double doubling_days);

/// Young worms from one adult in a week: cocoons a week, share that hatch (0 to 1), young from one cocoon.
[[nodiscard]] double net_young(double cocoons_per_week, double hatching_share, double young_per_cocoon);

/// Days in which the worms of a bed double: 60 at best, 60 to 90 as a rule (grower bulletin "Worms (Red Wigglers)", read).
inline constexpr Estimate doubling_days = {60, 75, 90};

/// kg on a square metre at which a bed is crowded: working beds hold 5 to 10 (the same bulletin, read).
inline constexpr Estimate crowded_per_area = {5, 7.5, 10};

/// What `kg` put in may have become on `area` m2 (0: not known, so no bound): at the least as many as went in, at the most
/// twice as many every 60 days, but none beyond what the floor carries. Nobody counted, and it says nothing of worms that fared
/// badly.
[[nodiscard]] Estimate herd_after(const Estimate& kg, int days, double area);

}  // namespace lidlift
