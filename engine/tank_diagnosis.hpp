// The diagnosis of one bay of a tank: what a person said and what the tank's record tells, together.
#pragma once

#include "engine/diagnosis.hpp"
#include "engine/tank_facts.hpp"

#include <optional>
#include <string>
#include <vector>

namespace lidlift {

/// A bay that needs mending at least this surely is in trouble.
inline constexpr double least_trouble = 0.2;

/// The chance of the likeliest cause by these facts; 0 where that needs no mending. Consequences of another cause do not count.
[[nodiscard]] double trouble(const Ranker& ranker, const Facts& facts);

/// Which bay is meant: the one that is named; otherwise, where nothing was said, the one in most trouble by its record;
/// otherwise what bay_meant says.
[[nodiscard]] BayMeant bay_meant(const Ranker& ranker, const TankRecord& record, const TankState& state, const Told& told,
                                 const std::optional<std::size_t>& named);

/// Adds the record's facts of that bay to what was told, and keeps what was overruled.
[[nodiscard]] TankSeen look_into(const Ranker& ranker, TankRecord record, Day today, const std::optional<std::size_t>& named,
                                 Told& told);

/// What the record says of the bay, in a few sentences for people. Two or three digits of a figure, with its range.
[[nodiscard]] std::vector<std::string> in_words(const TankSeen& tank);

}  // namespace lidlift
