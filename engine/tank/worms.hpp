// The worms of a bay: since when, and how many there may be by now.
#pragma once

#include "engine/tank/bay_history.hpp"
#include "engine/tank_state.hpp"

namespace lidlift::tank {

/// Fills in days_since_worms, worms, worms_put_in and stocking.
void add_worms(BayState& state, const BayHistory& history, Day today);

}  // namespace lidlift::tank
