#include "engine/herd.hpp"

#include <algorithm>
#include <cmath>
#include <limits>

namespace lidlift {

double biomass_after(double kg, double days, double doubling) { return kg * std::exp2(days / doubling); }

double net_young(double cocoons_per_week, double hatching_share, double young_per_cocoon) {
    return cocoons_per_week * hatching_share * young_per_cocoon;
}

Estimate herd_after(const Estimate& kg, int days, double area) {
    // Worms that are too many already do not grow fewer by being many; they only stop to multiply.
    const auto grown = [&](double from, double doubling, double most_per_area) {
        const double most = area > 0 ? most_per_area * area : std::numeric_limits<double>::infinity();
        return std::max(from, std::min(biomass_after(from, std::max(days, 0), doubling), most));
    };
    return {kg.low, grown(kg.typical, doubling_days.typical, crowded_per_area.typical),
            grown(kg.high, doubling_days.low, crowded_per_area.high)};
}

}  // namespace lidlift
