// How much of what a step needs, as a page for people says it.
#pragma once

#include "engine/step_amount.hpp"

#include <cstddef>
#include <string>
#include <vector>

namespace lidlift::cli {

struct AmountLine {
    std::string text;
    const StepAmount* measured = nullptr;  ///< null: a rule of hand
};

/// For this tank, where its record tells enough; otherwise the rule of hand. At most `most_choices` of materials that may take
/// each other's place.
[[nodiscard]] std::vector<AmountLine> amount_lines(const Step& step, const StepAmounts& measured, std::size_t most_choices);

/// What the tanks' records lack for measured amounts, in a sentence; empty where they lack nothing.
[[nodiscard]] std::string what_amounts_lack(const std::vector<StepAmounts>& amounts);

}  // namespace lidlift::cli
