// Diagnosis -> a page that reads like a person who knows the trade talking to one who does not; dangers first.
#pragma once

#include "cli/page.hpp"
#include "engine/diagnosis.hpp"

#include <string>

namespace lidlift::cli {

struct TextOptions {
    bool full = false;  ///< every reported cause with its whole balance, every step left out, every source
    Screen screen = {};
    bool questions = true;           ///< say what would tell more
    std::string in_full = "--full";  ///< what shows all that is left out; empty: nothing does
};

[[nodiscard]] std::string render_text(const RuleBase& rule_base, const Diagnosis& diagnosis, const TextOptions& options);

/// "about 71 in 100"; "under 1 in 100", "over 99 in 100".
[[nodiscard]] std::string in_a_hundred(double chance);

/// "tomorrow", "in 6 hours", "in 3 days".
[[nodiscard]] std::string days_in_words(double days);

}  // namespace lidlift::cli
