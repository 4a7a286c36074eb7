// Short ways to write a condition and what is known of a bed.
#pragma once

#include "engine/condition.hpp"
#include "engine/facts.hpp"
#include "tests/engine/yes_no.hpp"

#include <cstdint>
#include <initializer_list>
#include <utility>
#include <vector>

namespace lidlift::test {

inline constexpr Truth T = Truth::yes;
inline constexpr Truth U = Truth::unknown;
inline constexpr Truth F = Truth::no;

inline Condition says(std::uint32_t sign, AnswerSet answers = yes) { return {Says{{sign}, answers}}; }
inline Condition lies(std::uint32_t sign, Range range) { return {Lies{{sign}, range}}; }
inline Condition concluded(std::uint32_t conclusion) { return {Concluded{{conclusion}}}; }
inline Condition sign_known(std::uint32_t sign) { return {SignKnown{{sign}}}; }
inline Condition conclusion_known(std::uint32_t conclusion) { return {ConclusionKnown{{conclusion}}}; }
inline Condition negation(Condition child) { return {Negation{{std::move(child)}}}; }
inline Condition at_least_of(int wanted, std::vector<Condition> children) { return {Quorum{wanted, std::move(children)}}; }
inline Condition all_of(std::vector<Condition> children) {
    const auto count = static_cast<int>(children.size());
    return at_least_of(count, std::move(children));
}
inline Condition any_of(std::vector<Condition> children) { return at_least_of(1, std::move(children)); }

inline Observation one_of(AnswerSet possible) {
    Observation observation;
    observation.possible = possible;
    return observation;
}
inline Observation several(AnswerSet present, AnswerSet absent) {
    Observation observation;
    observation.present = present;
    observation.absent = absent;
    return observation;
}
inline Observation measured(Range range) {
    Observation observation;
    observation.measured = range;
    return observation;
}
inline Facts knowing(std::initializer_list<std::pair<std::uint32_t, Observation>> observations) {
    Facts facts;
    for (const auto& [sign, observation] : observations) facts.set({sign}, observation);
    return facts;
}

inline Truth value(const Condition& condition, const Facts& facts, const std::vector<Truth>& conclusions = {}) {
    return evaluate(condition, facts, conclusions);
}

/// Ranges without and with their ends.
inline Range open(double low, double high) { return {low, high, false, false}; }
inline Range closed(double low, double high) { return {low, high, true, true}; }

}  // namespace lidlift::test
