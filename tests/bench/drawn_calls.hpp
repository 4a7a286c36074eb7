// Beds drawn from a rule base, and what their owners tell unasked: what the asking is tried on.
#pragma once

#include "engine/answers.hpp"
#include "engine/rule_base.hpp"
#include "tests/engine/random_models.hpp"

#include <cstddef>
#include <cstdint>
#include <functional>
#include <string>
#include <vector>

namespace lidlift::bench {

/// A bed: what ails it, and what a person would say to every question.
struct Bed {
    Told told;  ///< the stage
    std::vector<std::uint16_t> causes;
    std::vector<std::string> reply;  ///< by sign: as after '='; "?" where the person cannot tell
    std::vector<bool> striking;      ///< by sign: the reply is rare otherwise, and the bed's causes make it likelier
};

/// A drawn bed and what its owner tells unasked: two things that stand out, are of the bed's causes and need no tool.
struct DrawnCall {
    Bed bed;
    Told told;
};

/// Causes by their chances at a stage, answers by the model of `generate`; told in the signs of `infer`, whose first signs are
/// those of `generate`. Each call has dice of its own, so that the same ones are drawn however many are wanted.
[[nodiscard]] std::vector<DrawnCall> draw_calls(const RuleBase& generate, const RuleBase& infer, std::size_t calls,
                                                std::uint64_t seed);

/// Every link, circumstance and commonness changed by noise of the given SD in log-odds.
[[nodiscard]] RuleBase with_changed_strengths(const RuleBase& base, double deviation, std::uint64_t seed);

/// One in so many signs stands there twice under two names, with the same links, as two observations that have nothing to do
/// with each other; whoever answers the one gives the same answer to the other.
struct WithDuplicates {
    RuleBase base;
    std::vector<Handle<Sign>> original;  ///< by sign: itself, or the one it is a copy of
};
[[nodiscard]] WithDuplicates with_duplicated_signs(const RuleBase& base, std::uint32_t one_in, std::uint64_t seed);

/// Calls `work` for 0 to `count` - 1, on all processors.
void for_each(std::size_t count, const std::function<void(std::size_t)>& work);

[[noreturn]] void stop(const std::string& why);

}  // namespace lidlift::bench
