// Which causes a report lists.
#pragma once

#include "engine/ranking.hpp"

#include <algorithm>
#include <vector>

namespace lidlift::cli {

/// Every cause whose chance exceeds its own prior or 5 %, likeliest first.
[[nodiscard]] inline std::vector<const RankedCause*> causes_to_report(const Ranking& ranking) {
    std::vector<const RankedCause*> result;
    for (const RankedCause& ranked : ranking.causes)
        if (ranked.reported()) result.push_back(&ranked);
    return result;
}

/// The same with every consequence after its root, which is what has to be mended.
[[nodiscard]] inline std::vector<const RankedCause*> roots_first(const std::vector<const RankedCause*>& causes) {
    std::vector<const RankedCause*> result;
    const auto placed = [&](const RankedCause* cause) { return std::ranges::find(result, cause) != result.end(); };
    const auto place = [&](const auto& self, const RankedCause* cause, std::size_t depth) -> void {
        if (depth < causes.size() && cause->follows_from)
            for (const RankedCause* root : causes)
                if (root->cause == *cause->follows_from && !placed(root)) self(self, root, depth + 1);
        if (!placed(cause)) result.push_back(cause);
    };
    for (const RankedCause* cause : causes) place(place, cause, 0);
    return result;
}

/// Those that the answers speak for, every consequence after its root.
[[nodiscard]] inline std::vector<const RankedCause*> raised_causes(const Ranking& ranking) {
    auto reported = roots_first(causes_to_report(ranking));
    std::erase_if(reported, [](const RankedCause* cause) { return !cause->raised(); });
    return reported;
}

/// Below this chance the best guess is none.
inline constexpr double least_to_guess = 0.08;

}  // namespace lidlift::cli
