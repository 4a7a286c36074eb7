// Diagnosis -> a page that reads like a person who knows the trade talking to one who does not; dangers first.
#pragma once

#include "engine/diagnosis.hpp"

#include <string>
#include <vector>

namespace lidlift::cli {

struct TextOptions {
    bool full = false;  ///< every reported cause with its whole balance, every step left out, every source
};

[[nodiscard]] std::string render_text(const RuleBase& rule_base, const Diagnosis& diagnosis, const TextOptions& options);

/// The lines rounded to whole points so that they add up to the rounded total, as a reader adds them up.
[[nodiscard]] std::vector<int> whole_points(const std::vector<BalanceLine>& lines);

}  // namespace lidlift::cli
