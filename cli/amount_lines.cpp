#include "cli/amount_lines.hpp"

#include "engine/amount_words.hpp"
#include "engine/contains.hpp"

#include <algorithm>

namespace lidlift::cli {

std::vector<AmountLine> amount_lines(const Step& step, const StepAmounts& measured, std::size_t most_choices) {
    std::vector<AmountLine> lines;
    const bool needed =
        std::ranges::any_of(measured.amounts, [](const StepAmount& amount) { return amount.nothing_needed.empty(); });
    if (!needed && !step.amount.empty()) lines.push_back({"How much: " + step.amount, nullptr});
    std::size_t choices = 0;
    for (const StepAmount& amount : measured.amounts) {
        choices = amount.instead ? choices + 1 : 0;
        if (choices >= most_choices) continue;
        const std::string lead = amount.instead ? "or " : needed ? "How much: " : "By the tank's record, though: ";
        lines.push_back({lead + in_words(amount) + ".", &amount});
    }
    return lines;
}

std::string what_amounts_lack(const std::vector<StepAmounts>& amounts) {
    StepAmounts all;
    for (const StepAmounts& measured : amounts)
        for (const std::string& what : measured.missing)
            if (!contains(all.missing, what)) all.missing.push_back(what);
    return all.missing.empty() ? std::string{} : missing_in_words(all);
}

}  // namespace lidlift::cli
