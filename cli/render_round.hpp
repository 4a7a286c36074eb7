// A round of a site as a page and as JSON.
#pragma once

#include "cli/page.hpp"
#include "engine/round.hpp"

#include <string>

namespace lidlift::cli {

struct RoundTextOptions {
    bool full = false;  ///< reasons, sources and figures of everything
    Screen screen = {};
};

[[nodiscard]] std::string render_round(const RuleBase& rule_base, const Round& round, const RoundTextOptions& options);
[[nodiscard]] std::string render_round_json(const RuleBase& rule_base, const Round& round);

/// "resting", "worm bed": what JSON output relies upon.
[[nodiscard]] const char* to_word(Urgency urgency);
[[nodiscard]] const char* to_word(Pressing pressing);
[[nodiscard]] const char* to_word(Loading load);

/// The record's name, or that of its file where it could not be read.
[[nodiscard]] std::string name_of(const TankToday& tank);

}  // namespace lidlift::cli
