#include "engine/ration.hpp"

#include "engine/tank/ranges.hpp"

#include <algorithm>

namespace lidlift {

std::optional<Ration> ration(const Estimate& area, const std::optional<Estimate>& worms) {
    const Estimate by_floor = tank::times(area, floor_load);
    if (!worms) return area.high > 0 ? std::optional<Ration>({by_floor, false}) : std::nullopt;
    const Estimate by_worms = tank::times(*worms, worm_ration);
    if (area.high <= 0) return Ration{by_worms, true};
    return Ration{{std::min(by_floor.low, by_worms.low), std::min(by_floor.typical, by_worms.typical),
                   std::min(by_floor.high, by_worms.high)},
                  by_worms.typical < by_floor.typical};
}

}  // namespace lidlift
