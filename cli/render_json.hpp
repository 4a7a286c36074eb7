// Diagnosis -> JSON with the keys that others rely on: more may be added, none renamed.
#pragma once

#include "cli/json_line.hpp"
#include "engine/diagnosis.hpp"

#include <optional>
#include <span>
#include <string>

namespace lidlift::cli {

/// One object, indented by two, ending in a line feed. ASCII only: everything else is escaped, so no text can play tricks on
/// whoever shows it.
[[nodiscard]] std::string render_json(const RuleBase& rule_base, const Diagnosis& diagnosis);

/// Which line of many an object answers.
struct LineHead {
    std::size_t line = 0;
    std::optional<LineId> id;
};

/// The same object in one line, with the number and the id of the line that it answers.
[[nodiscard]] std::string render_json_line(const RuleBase& rule_base, const Diagnosis& diagnosis, const LineHead& head);
/// Ids and chances alone; cautions are there, before the steps.
[[nodiscard]] std::string render_short_line(const RuleBase& rule_base, const Diagnosis& diagnosis, const LineHead& head);
/// What stands in place of an answer to a line that cannot be used.
[[nodiscard]] std::string render_bad_line(const LineHead& head, std::span<const Complaint> complaints);

}  // namespace lidlift::cli
