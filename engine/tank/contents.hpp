// What lies in a bay: what went into it, and what is left of that.
#pragma once

#include "engine/tank/bay_history.hpp"
#include "engine/tank_state.hpp"

#include <span>

namespace lidlift::tank {

/// How a moisture is told that nobody looked at.
inline constexpr const char* guessed_moisture = "as it went in, drained and dried since: no more than a guess";

/// The loads as portions of a mixture, one for each material, in the order of the rule base: a load written as two entries is
/// the same as one.
[[nodiscard]] std::vector<Portion> portions_of(std::span<const Load> loads, const RuleBase& rule_base);

/// None where there is nothing to mix.
[[nodiscard]] std::optional<Mixture> mixture_of(std::span<const Portion> portions);

/// What is left of the loads on a day. The bounds take it that the materials' figures, the pace of rotting and the water err
/// independently of one another.
struct Left {
    Estimate kg;
    Estimate litres;
    Estimate moisture;  ///< %; as measured, otherwise drained and dried as is usual
};
/// `measured` moisture in %, below 100.
[[nodiscard]] Left left_of(std::span<const Load> loads, const RuleBase& rule_base, Day on,
                           const std::optional<Estimate>& measured = std::nullopt);

/// Fills in what the loads alone tell: filled, as_filled, kg, litres, depth, moisture, free_litres, shrinks_to, last_load,
/// layer.
void add_contents(BayState& state, const BayHistory& history, const RuleBase& rule_base, Day today);

}  // namespace lidlift::tank
