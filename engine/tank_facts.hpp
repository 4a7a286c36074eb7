// What a tank's record tells of one of its bays, as answers to signs, each with its reason. What the record does not show stays
// unknown.
#pragma once

#include "engine/answers.hpp"
#include "engine/tank_state.hpp"

#include <cstddef>
#include <string>
#include <vector>

namespace lidlift {

struct TankFact {
    Handle<Sign> sign;
    Observation observation;  ///< `from` begins with `from_the_record`
};

/// In the order of the rule base's signs, each at most once. `state` is the record's on the day that it is about. A sign or an
/// answer that the rule base lacks is not told.
[[nodiscard]] std::vector<TankFact> facts_of(const TankRecord& record, const TankState& state, const RuleBase& rule_base,
                                             std::size_t bay);

/// The bay that is meant where nobody says which, and why that one: the one with worms; of several the one that was fed last;
/// where none has worms, the one that was filled last.
struct BayMeant {
    std::size_t bay = 0;
    std::string because;
};
[[nodiscard]] BayMeant bay_meant(const TankRecord& record, const TankState& state);

/// Adds the facts to what a person told. What the person says now, "?" included, counts for more than what was written down;
/// returns a line for each answer of the record that it contradicts.
std::vector<std::string> add_facts(Told& told, const std::vector<TankFact>& facts, const RuleBase& rule_base);

/// A tank as a diagnosis sees it.
struct TankSeen {
    TankRecord record;
    TankState state;
    std::size_t bay = 0;
    std::string because;                 ///< why this bay
    std::vector<std::string> overruled;  ///< what the person said otherwise
};

}  // namespace lidlift
