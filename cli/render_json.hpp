// Diagnosis -> JSON with the keys that others rely on: more may be added, none renamed.
#pragma once

#include "engine/diagnosis.hpp"

#include <string>

namespace lidlift::cli {

/// One object, indented by two, ending in a line feed. ASCII only: everything else is escaped, so no text can play tricks on
/// whoever shows it.
[[nodiscard]] std::string render_json(const RuleBase& rule_base, const Diagnosis& diagnosis);

}  // namespace lidlift::cli
