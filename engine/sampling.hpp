// Figures of one's own from a scale, an oven and a bucket, in place of a table's: moisture, bulk density, carbon.
#pragma once

#include "engine/estimate.hpp"
#include "engine/outcome.hpp"

namespace lidlift {

/// Moisture of a sample, % of fresh mass, from three weighings in one unit: the empty container, with the fresh sample, and
/// with the sample dried until it loses no more (F1; Cornell's moisture calculation). Fault: they cannot all be right.
[[nodiscard]] Outcome<double> moisture_by_drying(double container, double with_fresh, double with_dried);

/// Moisture as % of fresh mass from % of dry mass, and back (F2). `dry_basis` at least 0; `wet_basis` from 0 to below 100.
[[nodiscard]] double wet_from_dry_basis(double dry_basis);
[[nodiscard]] double dry_from_wet_basis(double wet_basis);

/// Bulk density, kg/m3, from the empty and the full bucket in kg and what it holds in L (F15: filled by thirds, dropped or
/// tapped after each, topped up without tapping). Fault: the figures cannot be right.
[[nodiscard]] Outcome<double> density_by_bucket(double empty_kg, double full_kg, double litres);

/// Carbon, % of dry mass, from ash, % of dry mass (F8, Gotaas 1956, who has it good to 2 to 10 %; the bounds take 10 %).
[[nodiscard]] Outcome<Estimate> carbon_from_ash(double ash);

/// What comes out, % of the fresh mass that went in, when `kept` (0 to 1) of the dry matter is left; moistures in % of fresh
/// mass, that of the product below 100.
[[nodiscard]] double yield_of(double kept, double moisture_in, double moisture_out);

}  // namespace lidlift
