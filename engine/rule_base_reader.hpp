// Rule files -> rule base. The format is described in rules/FORMAT.md.
#pragma once

#include "engine/complaint.hpp"
#include "engine/rule_base.hpp"

#include <span>
#include <string>
#include <vector>

namespace lidlift {

inline constexpr std::size_t largest_rule_base = 8 * 1024 * 1024;  ///< bytes, all files together
inline constexpr std::size_t most_causes = 2'000;
inline constexpr std::size_t most_entries = 20'000;  ///< in any other section

/// A rule file's name, as the user gave it, and its text.
struct RuleText {
    std::string name;
    std::string text;
};

struct RuleBaseReading {
    RuleBase rule_base;                 ///< only to be used when there are no complaints
    std::vector<Complaint> complaints;  ///< sorted; every mistake of every file that could be found in one go
};

/// Later files come after earlier ones: they may add entries, and replace or extend earlier ones where they say so.
[[nodiscard]] RuleBaseReading read_rule_base(std::span<const RuleText> files);

}  // namespace lidlift
