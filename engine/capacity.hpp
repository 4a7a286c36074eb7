// What the tanks of a site can take in a day at steady state, against what they are given.
#pragma once

#include "engine/tank_state.hpp"

#include <optional>
#include <span>
#include <string>
#include <vector>

namespace lidlift {

/// Of two bays and more, one after the other is a worm bed while the others are filled and rest: the share of the floor that
/// works at a time. The trade's own arithmetic (common practice, no source): 4 to 6 weeks as a bed and 30 to 45 days of rest,
/// so 28 / (28 + 45) to 42 / (42 + 30); half of it as a rule. The floor of a tank of one bay works all the time.
inline constexpr Estimate share_that_works = {28.0 / 73, 0.5, 42.0 / 72};

/// What is left of the weight of feed that rests before the worms come: dry matter falls by 33 % in 12 days (Kumar 2010,
/// volatile solids, read) to 46 % in 29 days (Soares 2012, read).
inline constexpr Estimate left_after_rest = {0.54, 0.6, 0.67};

/// The days that count as lately, today among them.
inline constexpr int days_of_intake = 14;

enum class Loading { too_little_known, within, perhaps_too_much, too_much };

struct Capacity {
    double floor = 0;                  ///< m2, of all bays whose floor is known
    Estimate working_floor;            ///< m2 that are worm beds at a time
    std::optional<Estimate> by_floor;  ///< kg a day that worm beds of that floor take
    std::optional<Estimate> worms;     ///< kg alive; none: no record names any
    std::optional<Estimate> by_worms;  ///< kg a day that these worms eat
    std::optional<Estimate>
        can_take;  ///< kg of waste a day, as it comes in; the lesser of both, and what rests loses weight first
    bool worms_are_less = false;
    std::optional<Estimate>
        given;  ///< kg of waste and dung a day by the records, over `over_days`; none: no record, or none so long
    int over_days = 0;
    double rests_first = 0;         ///< share of `given` that went into bays without worms
    std::optional<double> stated;   ///< kg a day that the site says comes in
    std::size_t without_floor = 0;  ///< bays whose floor is not known, so not counted
    Loading load = Loading::too_little_known;
};

/// `records` and `states` go together. Feed and dung count as given, bedding and slurry do not.
[[nodiscard]] Capacity capacity_of(std::span<const TankRecord* const> records, std::span<const TankState* const> states,
                                   const RuleBase& rule_base, std::optional<double> stated, Day today);

/// The sum in plain words: "given 62 kg a day; can take 30 to 55: too much".
[[nodiscard]] std::string in_short(const Capacity& capacity);
/// Each figure with where it comes from, a sentence each.
[[nodiscard]] std::vector<std::string> in_full(const Capacity& capacity);

}  // namespace lidlift
