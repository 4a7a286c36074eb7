// What one part of a mixture may bring to it, at the corners of its figures' bounds; shared by mixing and by reaching a goal.
#pragma once

#include "engine/mixture.hpp"

#include <vector>

namespace lidlift::mixing {

/// One part's contribution to the upper and to the lower half of a ratio, in any unit.
struct Share {
    double of = 0;
    double in = 0;
};
/// What the contribution may be: the corners of a convex region.
using Corners = std::vector<Share>;

/// kg of carbon and nitrogen in a kg of dry matter: the region that the bounds of N and C:N leave, cut off at most_carbon (or
/// at what the typical figures say, where that is more). One corner (0, 0) for what counts for nothing.
[[nodiscard]] Corners carbon_and_nitrogen(const Ingredient& what);

/// The nitrogen of what is mixed, % of dry mass, without what would make too much carbon even at the least C:N. It has one.
[[nodiscard]] Estimate nitrogen(const Ingredient& what);

/// Each corner times the least and times the greatest `amount`.
[[nodiscard]] Corners scaled(const Corners& corners, double least, double greatest);

/// Least and greatest kg of dry matter.
[[nodiscard]] double least_dry(const Portion& portion);
[[nodiscard]] double greatest_dry(const Portion& portion);

/// Typical kg of dry matter, and of nitrogen and carbon that count for the C:N.
[[nodiscard]] double dry(const Portion& portion);
[[nodiscard]] Share typical_carbon_and_nitrogen(const Portion& portion);

/// Whether it may hold dry matter at all; and if so, whether its nitrogen is known.
[[nodiscard]] bool has_dry_matter(const Ingredient& what);
[[nodiscard]] bool lacks_nitrogen(const Ingredient& what);

}  // namespace lidlift::mixing
