// How a bay is fed: how much in the last two weeks, on what, and when last.
#pragma once

#include "engine/tank/bay_history.hpp"
#include "engine/tank_state.hpp"

namespace lidlift::tank {

/// What "lately" means for feed: today and the days before it, this many together.
inline constexpr int feed_window = 14;

/// With no longer gap between feeds than this, the record is taken to hold every feed of the window; then what it does not name
/// was not fed.
inline constexpr int longest_feed_gap = 7;

/// Fills in days_since_feed, fed, feed, feed_shares, fed_throughout, feed_per_day, feed_per_area, feed_per_worms, slurry and
/// slurry_litres; after the worms.
void add_feeding(BayState& state, const BayHistory& history, const RuleBase& rule_base, Day today);

}  // namespace lidlift::tank
