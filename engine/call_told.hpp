// What the caller told in a recorded call, in the terms of one rule base.
#pragma once

#include "engine/answers.hpp"
#include "engine/call_record.hpp"

#include <cstddef>
#include <string>
#include <vector>

namespace lidlift {

/// How `Observation::from` begins: out of the caller's own words, or as the answer to a question.
inline constexpr std::string_view from_own_words = "you said: ";
inline constexpr std::string_view from_an_answer = "you answered: ";

/// An answer of the record that could not be taken, and why.
struct CallMisfit {
    std::size_t entry;   ///< position in the course
    std::size_t answer;  ///< position in what was heard
    Fault fault;
};

struct CallTold {
    Told told;
    std::vector<CallMisfit> misfits;
};

/// Goes through all that counts of the call, in order. `known` is what was known before anybody called, from a tank's record;
/// what the caller said counts for more.
[[nodiscard]] CallTold told_in(const CallRecord& record, const RuleBase& rule_base, Told known = {});

/// As if nothing had been told of the sign; its place among the things told stays.
void forget(Told& told, Handle<Sign> sign);

/// "smell_rotten=foul: the sign 'smell_rotten' has no answer 'foul'".
[[nodiscard]] std::string in_words(const CallMisfit& misfit, const CallRecord& record);

}  // namespace lidlift
