// How warm a bay is, which way it goes, how hot it has been, and what share of its ammonia that makes a gas.
#pragma once

#include "engine/tank/bay_history.hpp"
#include "engine/tank_state.hpp"

namespace lidlift::tank {

inline constexpr int oldest_temperature = 7;  ///< days; an older reading says nothing of today
inline constexpr int trend_window = 7;        ///< days before the last reading that its trend is taken from
inline constexpr int oldest_ph = 14;          ///< days

/// The temperatures read, one a day: the highest, as the question asks for it. By day.
struct DayHeat {
    Day on;
    Estimate celsius;
};
[[nodiscard]] std::vector<DayHeat> temperatures_of(const BayHistory& history, const RuleBase& rule_base);

/// K a day by least squares; none for less than two days.
[[nodiscard]] std::optional<double> trend_of(const std::vector<DayHeat>& readings);

/// Was the heap turned by this work: a step that mixes, or words that begin with turning?
[[nodiscard]] bool is_turning(const Did& did, const RuleBase& rule_base);

/// Fills in temperature, temperature_trend, peak_temperature, hot and ammonia_share.
void add_heat(BayState& state, const BayHistory& history, const RuleBase& rule_base, Day today);

}  // namespace lidlift::tank
