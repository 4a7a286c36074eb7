// Moisture, carbon to nitrogen, mass, volume and density of a mixture; how much of what to add to reach a goal.
// Formulas F1-F17 of shared/practice/materials.md; the published ones are named at their functions.
#pragma once

#include "engine/estimate.hpp"
#include "engine/outcome.hpp"

#include <optional>
#include <span>
#include <string>
#include <vector>

namespace lidlift {

struct Material;

/// What is mixed: the figures of one material, or measured ones.
struct Ingredient {
    std::string name;
    Estimate moisture;                           ///< % of fresh mass
    std::optional<Estimate> nitrogen;            ///< % of dry mass
    std::optional<Estimate> carbon_to_nitrogen;  ///< by mass; none for what holds no nitrogen or no carbon that counts
    std::optional<Estimate> density;             ///< kg/m3, loose, as it is
};

struct Portion {
    Ingredient what;
    Estimate kg;  ///< fresh mass; a range where it was measured out by volume
};

/// Free air space is told in three words only: the formulas disagree by seven points and more.
enum class AirSpace { low, fair, high };

struct Mixture {
    Estimate kg;
    Estimate moisture;                           ///< % of fresh mass
    Estimate dry_kg;
    std::optional<Estimate> nitrogen;            ///< % of dry mass; none where a part with dry matter has no figure
    std::optional<Estimate> nitrogen_kg;
    std::optional<Estimate> carbon_to_nitrogen;
    std::optional<Estimate> litres;              ///< without settling, so rather too much; none where a density is missing
    std::optional<Estimate> density;             ///< kg/m3
    std::optional<AirSpace> air_space;
};

/// Water: all moisture, no nitrogen, 1000 kg/m3.
[[nodiscard]] Ingredient water();

/// `material` as an ingredient; Fault where it has no moisture figure.
[[nodiscard]] Outcome<Ingredient> ingredient_of(const Material& material);

/// The typical figures mix exactly (F3, F9, F14, F21); the bounds are the least and the greatest that any figures within the
/// portions' own bounds give.
[[nodiscard]] Mixture mix(std::span<const Portion> portions);

/// Where a mixture should come to; low == high is a point, otherwise anything between is good.
struct Goal {
    std::optional<Estimate> moisture;            ///< %, typical is aimed at where there is a choice
    std::optional<Estimate> carbon_to_nitrogen;
};

/// A material at hand; `stock` in kg, none: as much as is wanted.
struct OnHand {
    Ingredient what;
    std::optional<double> stock;
};

/// How many kg of one ingredient bring the portions to a moisture of `goal` % (F4, F5, F6). Bounds: what the figures' ranges
/// imply; `high` is infinite where it may not be reached at all. Fault: why it cannot be reached.
[[nodiscard]] Outcome<Estimate> kg_to_moisture(std::span<const Portion> portions, const Ingredient& added, double goal);

/// The same for a carbon to nitrogen ratio (F10).
[[nodiscard]] Outcome<Estimate> kg_to_carbon_to_nitrogen(std::span<const Portion> portions, const Ingredient& added, double goal);

/// The least total of several ingredients that meets the goal with their typical figures, within their stocks (F11, by linear
/// programming). In the order of `on_hand`; 0 where nothing is wanted. Fault: why it cannot be reached, naming the limit.
[[nodiscard]] Outcome<std::vector<double>> least_addition(std::span<const Portion> portions, std::span<const OnHand> on_hand,
                                                          const Goal& goal);

}  // namespace lidlift
