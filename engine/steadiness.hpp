// How far the first cause hangs on the exact strengths: the case weighed again and again with every strength changed a little.
//
// The trainer's words are sensible guesses, so every chance is moved at random by a normal error with a standard deviation of
// 0.5 in (natural) log-odds; in the method's simulations errors of that size cost little, twice as much is felt.
#pragma once

#include "engine/evidence_model.hpp"

#include <cstdint>
#include <vector>

namespace lidlift {

inline constexpr int steadiness_tries = 200;
inline constexpr double strength_spread = 0.5;  ///< standard deviation, in natural log-odds

struct Steadiness {
    struct Instead {
        std::uint32_t cause = 0;
        int times = 0;
    };
    int tries = 0;
    int first_stays = 0;
    std::vector<Instead> instead;  ///< which cause came first in the other tries; most often first, then by number
};

/// A draw from (nearly) the standard normal distribution, the same on every platform for the same key: the sum of twelve equal
/// draws from [0, 1), less 6. Mean 0 and standard deviation 1 to within 1e-5; never beyond 6.
[[nodiscard]] double normal_draw(std::uint64_t key);

/// `model` with every prior, background and link chance moved. Backgrounds of exclusive answers still add up to 1. The same for
/// the same `attempt`; with `spread` 0 nothing changes at all.
[[nodiscard]] EvidenceModel jittered(const EvidenceModel& model, std::uint64_t attempt, double spread = strength_spread);

/// The weights of circumstances moved likewise; circumstances that do not hold stay away.
[[nodiscard]] Situation jittered(const Situation& situation, std::uint64_t attempt, double spread = strength_spread);

/// How often `first` is still likeliest. A tie counts for it.
[[nodiscard]] Steadiness steadiness(const EvidenceModel& model, const Situation& situation, std::uint32_t first,
                                    double spread = strength_spread, int tries = steadiness_tries);

}  // namespace lidlift
