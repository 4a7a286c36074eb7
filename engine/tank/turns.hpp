// What the bays of a tank have to do with one another: worms that cross from one to the next, the hand-over, and the harvest
// after it.
#pragma once

#include "engine/tank/bay_history.hpp"
#include "engine/tank_state.hpp"

#include <vector>

namespace lidlift::tank {

/// A bed with worms that was not fed for so many days is being left, where there is another for the worms to go to.
inline constexpr int days_that_starve = 10;

/// Days from the worms' crossing to the harvest: four to six weeks (the trade's arithmetic, common practice, no source).
inline constexpr int soonest_harvest_after_crossing = 28;
inline constexpr int latest_harvest_after_crossing = 42;

/// Days from the last feed to the harvest: 45 (Kerala's extension page, read); 45 to 60 for the worms' stage as a whole (Kauser
/// & Khwairakpam 2022, read).
inline constexpr int soonest_harvest_after_feed = 45;
inline constexpr int latest_harvest_after_feed = 60;

/// Share of the worms that has crossed when most are said to have: our own bounds.
inline constexpr Estimate most_of_the_worms = {0.5, 0.8, 1};

/// When were worms first seen crossing, and when were most of them across? By what was written down since `since`.
struct Crossing {
    std::optional<Day> begun;
    std::optional<Day> most_across;
};
[[nodiscard]] Crossing crossing_seen(const BayHistory& history, const RuleBase& rule_base, Day since);

/// In a tank of two bays: where most of the worms were seen to have crossed into a bay that had none, moves them there.
void let_worms_cross(std::vector<BayHistory>& histories, const TankRecord& record, const RuleBase& rule_base, Day today);

/// Turns worm beds into migrating ones or such as are due for harvest, and fills in harvest_from and harvest_until; after every
/// bay's own stage.
void add_turns(TankState& state, const std::vector<BayHistory>& histories, const TankRecord& record, const RuleBase& rule_base);

}  // namespace lidlift::tank
