// The worms of a bay: since when, and how many there may be by now.
#pragma once

#include "engine/tank/bay_history.hpp"
#include "engine/tank_state.hpp"

namespace lidlift::tank {

/// The worms of a bay as its own entries tell.
struct Herd {
    Estimate kg;
    Estimate put_in;
    std::optional<Day> since;    ///< none: there are none
    std::optional<Day> gone;     ///< the day on which the last were taken out
    bool by_themselves = false;  ///< some crossed from another bay
};
[[nodiscard]] Herd herd_of(const BayHistory& history, Day today);

/// The last day on which worms were seen alive in the bed itself, whether or not anybody wrote down that they were put in.
[[nodiscard]] std::optional<Day> worms_seen(const BayHistory& history, const RuleBase& rule_base);

/// Fills in days_since_worms, worms, worms_put_in and stocking.
void add_worms(BayState& state, const BayHistory& history, Day today);

}  // namespace lidlift::tank
