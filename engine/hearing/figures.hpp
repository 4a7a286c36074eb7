// Numbers with units next to a clear word: "the bed is at 31 °C", "worms arrived three days ago".
#pragma once

#include "engine/hearing/caller_text.hpp"
#include "engine/rule_base.hpp"

#include <optional>
#include <string>
#include <vector>

namespace lidlift::hearing {

/// A quantity that was told; words [first, last) hold it and the word that says what it is about.
struct HeardFigure {
    std::size_t first = 0;
    std::size_t last = 0;
    Handle<Sign> sign;
    std::string value;     ///< as after '='
    bool negated = false;  ///< it tells of what was not done: "not fed for three weeks"
    bool banded = false;   ///< an answer, not a number: a guess is near enough
};

/// What is told in figures for signs that this rule base has.
[[nodiscard]] std::vector<HeardFigure> find_figures(const RuleBase& rule_base, Words words);

}  // namespace lidlift::hearing
