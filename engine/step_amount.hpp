// How much of what a step needs in one tank, from its formulas and the tank's state: a range with its reasons, never more than
// is physically possible there. What the record lacks gives no number, and what to write into it is said.
#pragma once

#include "engine/rule_base.hpp"
#include "engine/tank_parts.hpp"

#include <optional>
#include <string>
#include <vector>

namespace lidlift {

/// How much of one thing to measure out. All figures are finite and not negative.
struct StepAmount {
    Stuff stuff;
    std::string name;                 ///< "dry fallen leaves", "water"
    std::string what_for;             ///< "to bring the top 20 cm of the bed to 75 % moisture"
    Estimate kg;                      ///< where it is measured by volume and has no density, 0
    bool by_volume = false;           ///< what is wanted is a volume, and its mass follows; otherwise the other way round
    bool kg_known = true;             ///< false: measured by volume, and it has no density
    std::optional<Estimate> litres;   ///< loose; none where it has no density
    std::optional<Estimate> buckets;  ///< of the size that the record states; none where it states none
    double bucket_litres = 0;
    bool a_day = false;
    bool instead = false;  ///< in place of the amount before it, not beside it
    int portions = 1;      ///< in so many lots, one after the other
    std::vector<std::string> because;
    /// Why nothing is needed; then all figures are 0.
    std::string nothing_needed;
    /// Where the wanted amount is more than is possible or good: `most` cuts off the upper end only, `all` what is wanted too.
    enum class Bound { none, most, all };
    Bound bound = Bound::none;
    std::string bound_because;  ///< "more than fits: 210 L are free up to the rim of the left bay; take some out first"
};

struct StepAmounts {
    std::vector<StepAmount> amounts;
    std::vector<std::string> missing;  ///< where something could not be reckoned: what to write into the tank's record
};

/// Worms do not live more crowded than this, kg/m2 (the rare maximum of a grower's bulletin, worms.md 2.1).
inline constexpr double most_worms_on_a_square_metre = 20;
/// Nothing that goes into a bed is heavier, kg/m3 (crushed stone lies at 1600); bounds what has no density of its own.
inline constexpr double heaviest = 1600;

[[nodiscard]] StepAmounts amounts_of(const Step& step, const RuleBase& rule_base, const TankContext& tank);

}  // namespace lidlift
