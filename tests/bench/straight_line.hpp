// The default rules as straight-line code, made when the bench is built (generate_straight_line.cpp): what chaining costs where
// the rules are known beforehand. Knows neither why nor how sure.
#pragma once

#include "engine/facts.hpp"
#include "engine/truth.hpp"

#include <cstdint>
#include <span>

namespace straight_line {

using lidlift::Truth;

inline Truth says(const lidlift::Facts& facts, std::uint32_t sign, std::uint64_t answers) {
    const lidlift::Observation* seen = facts.find({sign});
    if (!seen) return Truth::unknown;
    if (seen->present != 0 || seen->absent != 0) {
        if ((seen->present & answers) != 0) return Truth::yes;
        return (answers & ~seen->absent) == 0 ? Truth::no : Truth::unknown;
    }
    if (seen->possible == 0) return Truth::unknown;
    if ((seen->possible & ~answers) == 0) return Truth::yes;
    return (seen->possible & answers) == 0 ? Truth::no : Truth::unknown;
}

inline Truth lies(const lidlift::Facts& facts, std::uint32_t sign, const lidlift::Range& range) {
    const lidlift::Observation* seen = facts.find({sign});
    if (!seen || !seen->measured) return Truth::unknown;
    if (range.contains(*seen->measured)) return Truth::yes;
    return range.meets(*seen->measured) ? Truth::unknown : Truth::no;
}

inline Truth known(const lidlift::Facts& facts, std::uint32_t sign) { return lidlift::truth(facts.find({sign}) != nullptr); }

/// At least `wanted` of the values hold.
template <class... Values>
inline Truth at_least(int wanted, Values... values) {
    const int yes = (0 + ... + (values == Truth::yes));
    const int no = (0 + ... + (values == Truth::no));
    return lidlift::at_least(wanted, static_cast<int>(sizeof...(values)), yes, no);
}

/// By conclusion; `truth` has a place for each.
void chain(const lidlift::Facts& facts, std::span<Truth> truth);

}  // namespace straight_line
