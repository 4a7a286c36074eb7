// How wet a bay is: by the scales, by the squeeze, or no more than a guess from what went in.
#pragma once

#include "engine/tank/bay_history.hpp"
#include "engine/tank_state.hpp"

namespace lidlift::tank {

inline constexpr int oldest_sample = 14;  ///< days; a dried sample that is older says nothing of today
inline constexpr int oldest_squeeze = 7;

/// One sample speaks for the bay no closer than this, in points of per cent: our own bounds.
inline constexpr double spread_of_a_sample = 5;

/// What a handful tells, in % of fresh mass, by the answers of the sign `squeeze`; common practice, no source. None for an
/// answer that is not among them.
[[nodiscard]] std::optional<Estimate> moisture_by_squeeze(std::string_view answer);

/// Sets `moisture` where anything better than the guess of add_contents is known, and `kg` with it; and `density`.
void add_moisture(BayState& state, const BayHistory& history, const RuleBase& rule_base, Day today);

}  // namespace lidlift::tank
