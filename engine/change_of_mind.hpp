// What single answers would do: to the leading causes, to the first cause and to the steps. For "why do you ask?" and "what
// would change your mind?". Everything here is weighed in full, one answer after the other.
#pragma once

#include "engine/diagnosis.hpp"

#include <optional>
#include <vector>

namespace lidlift {

/// What one answer would do to one cause.
struct MovedChance {
    Handle<Cause> cause;
    double before = 0;
    double after = 0;
};

/// One answer to a question, and what it would do.
struct WhatIf {
    std::size_t answer = 0;          ///< position
    std::vector<MovedChance> moved;  ///< the causes that it moves most, most moved first; at most `most`
};
inline constexpr std::size_t most_moved = 2;

/// By the positions of the answers. Empty where the answers so far contradict one another.
[[nodiscard]] std::vector<WhatIf> what_if(const Ranker& ranker, const Told& told, const Ranking& ranking, Handle<Sign> sign);

/// An answer that would change what is thought or what is to be done.
struct ChangeOfMind {
    Handle<Sign> sign;
    std::size_t answer = 0;
    std::optional<Handle<Cause>> first;  ///< what would then come first, if something else does
    bool steps = false;                  ///< the steps for now or this week would be others
    bool danger = false;                 ///< a caution of level stop would be called for that is not now
};
inline constexpr std::size_t most_changes_of_mind = 3;
/// So many answers are weighed in full at most; the likeliest sets of causes say which are worth it.
inline constexpr std::size_t most_answers_tried = 16;
/// An answer less likely than this is not worth naming.
inline constexpr double least_likely_answer = 0.05;

/// One answer a question, of the questions worth most.
[[nodiscard]] std::vector<ChangeOfMind> changes_of_mind(const Ranker& ranker, const Diagnosis& diagnosis);

}  // namespace lidlift
