// Which causes a report lists.
#pragma once

#include "engine/ranking.hpp"

#include <vector>

namespace lidlift::cli {

/// Every cause whose chance exceeds its own prior or 5 %, likeliest first.
[[nodiscard]] inline std::vector<const RankedCause*> causes_to_report(const Ranking& ranking) {
    std::vector<const RankedCause*> result;
    for (const RankedCause& ranked : ranking.causes)
        if (ranked.chance > ranked.prior || ranked.chance > 0.05) result.push_back(&ranked);
    return result;
}

}  // namespace lidlift::cli
