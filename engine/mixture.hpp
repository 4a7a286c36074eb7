// Moisture, carbon to nitrogen, mass, volume and density of a mixture; how much of what to add to reach a goal.
// Formulas F3-F21 of shared/practice/materials.md; the published ones are named at their functions.
#pragma once

#include "engine/estimate.hpp"
#include "engine/outcome.hpp"
#include "engine/vessels.hpp"

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
    Estimate kg;                   ///< fresh mass; a range where it was measured out by volume
    std::optional<double> litres;  ///< as measured out; none: it was weighed
};

/// Dry matter holds no more carbon than this, % (F8 for no ash at all is 55.6 %, good to 2-10 %); figures of nitrogen and C:N
/// that together say more cannot both be right, unless the typical ones do.
inline constexpr double most_carbon = 60;

/// Free air space is told in three words only: the formulas disagree by seven points and more.
enum class AirSpace { low, fair, high };
[[nodiscard]] const char* to_word(AirSpace air_space);

struct Mixture {
    Estimate kg;
    Estimate moisture;  ///< % of fresh mass
    Estimate dry_kg;
    std::optional<Estimate> nitrogen;  ///< % of dry mass; none where a part with dry matter has no figure
    std::optional<Estimate> nitrogen_kg;
    std::optional<Estimate> carbon_to_nitrogen;  ///< none where a part with dry matter has no nitrogen, or nothing holds any
    std::optional<Estimate> litres;              ///< without settling, so rather too much; none where a density is missing
    std::optional<Estimate> density;             ///< kg/m3, for the same reason rather too little
    std::optional<AirSpace> air_space;
    std::optional<AirSpace> air_space_least, air_space_most;  ///< at the ends of the density's range
};

/// Water: all moisture, no nitrogen, 1000 kg/m3.
[[nodiscard]] Ingredient water();

/// A material's name as it stands within a sentence: "Dry leaves" -> "dry leaves".
[[nodiscard]] std::string name_in_a_sentence(std::string name);

/// `material` as an ingredient; Fault where it has no moisture figure.
[[nodiscard]] Outcome<Ingredient> ingredient_of(const Material& material);

/// So much of an ingredient (F13). Fault: it was measured by volume and has no density.
[[nodiscard]] Outcome<Portion> portion_of(const Amount& amount, const Ingredient& what);

/// The typical figures mix exactly (F3, F9, F14, F21); the bounds are the least and the greatest that any figures within the
/// portions' own bounds give, with no more carbon than dry matter can hold. C:N is weighted by nitrogen, never by mass or by
/// parts. A part with nitrogen but without C:N (egg shell) counts for nothing in the C:N.
/// Portions: at least one, and together more than 0 kg.
[[nodiscard]] Mixture mix(std::span<const Portion> portions);

/// Free air space by the phase balance (F17, Van Ginkel et al. 1999; F18, Haug 1993), with four fifths of the dry matter
/// organic. Their constants are from memory, and they differ by seven points: `low` when the stricter one falls below the floor
/// of 20 % or the more generous one below 35 %, where the published window (35-60 %, "Technical Note 24") begins; `high` when
/// both are above 60 %.
[[nodiscard]] AirSpace air_space_of(double density, double moisture);

/// The formulas by themselves, as shares of the volume; `density` in kg/m3, `moisture` in %, `organic` 0 to 1 of the dry
/// matter.
[[nodiscard]] double air_space_by_phases(double density, double moisture, double organic);  // F17
[[nodiscard]] double air_space_by_haug(double density, double moisture, double organic);    // F18

/// Where a mixture should come to; low == high is a point, otherwise anything between is good.
struct Goal {
    std::optional<Estimate> moisture;  ///< %
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
[[nodiscard]] Outcome<Estimate> kg_to_carbon_to_nitrogen(std::span<const Portion> portions, const Ingredient& added,
                                                         double goal);

/// The least total of several ingredients that meets the goal with their typical figures, within their stocks (F11, by linear
/// programming). In the order of `on_hand`; 0 where nothing is wanted. Fault: why it cannot be reached, naming the limit.
[[nodiscard]] Outcome<std::vector<double>> least_addition(std::span<const Portion> portions, std::span<const OnHand> on_hand,
                                                          const Goal& goal);

/// How the least additions move when the figures are not the typical ones: for each of `on_hand` the least and the greatest of
/// what least_addition wants with all portions' and then all additions' figures at the low and high ends. `reached` of
/// `tried` such cases can be reached; where none can, the typical amounts alone. `typical` is least_addition's result.
struct AdditionRange {
    std::vector<Estimate> kg;
    int reached = 0;
    int tried = 0;
};
[[nodiscard]] AdditionRange range_of_addition(std::span<const Portion> portions, std::span<const OnHand> on_hand,
                                              const Goal& goal, const std::vector<double>& typical);

/// Ingredients and goals have limits; least_addition refuses more.
inline constexpr std::size_t most_on_hand = 50;

}  // namespace lidlift
