// How far along one bay is by its own entries, and when worms may go in.
#pragma once

#include "engine/tank/bay_history.hpp"
#include "engine/tank_state.hpp"

namespace lidlift::tank {

/// A bay without worms that nothing went into for this many days is no longer being filled, but rests.
inline constexpr int pause_that_ends_filling = 7;

/// A load that is less than this share of all that lies there is bait or a scrap, and does not begin the rest anew.
inline constexpr double share_of_a_filling = 0.05;

/// The trade's own arithmetic (common practice, no source): a filled bay rests 30 to 45 days before worms go in.
inline constexpr int least_rest = 30;
inline constexpr int usual_most_rest = 45;

/// Worms go in when the core is at most this warm and has been for this many days (our own synthesis of Edwards, Table 18.3).
inline constexpr double coolest_core = 30;
inline constexpr int days_of_cool = 3;

/// A heap that was this hot and is below the second figure has had its hot time and cools.
inline constexpr double was_hot = 45;
inline constexpr double no_longer_hot = 40;

/// A smell of ammonia that was written down within this many days keeps worms out.
inline constexpr int ammonia_remembered = 7;

/// Fills in stage, stage_because, days_since_filling, rest_days and worms_from; after contents, feeding, worms and heat.
void add_stage(BayState& state, const BayHistory& history, const RuleBase& rule_base, Day today);

}  // namespace lidlift::tank
