// What stands in the rule base, as text or JSON: lists and single entries.
#pragma once

#include "cli/page.hpp"
#include "engine/rule_base.hpp"

#include <optional>
#include <string>
#include <vector>

namespace lidlift::cli {

/// signs, conclusions, rules, causes, steps, cautions, clashes, materials, sources, words.
[[nodiscard]] const std::vector<std::string>& show_kinds();

/// The ids of one kind; `kind` is one of show_kinds().
[[nodiscard]] std::vector<std::string> ids_of(const RuleBase& rule_base, const std::string& kind);

[[nodiscard]] std::string show_overview(const RuleBase& rule_base, bool json, const Screen& screen = {});
[[nodiscard]] std::string show_list(const RuleBase& rule_base, const std::string& kind, bool json, const Screen& screen = {});
[[nodiscard]] std::string show_entry(const RuleBase& rule_base, const std::string& kind, const std::string& id, bool json,
                                     const Screen& screen = {});

}  // namespace lidlift::cli
