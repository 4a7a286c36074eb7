// The whole rule base as a handbook that a person can read, correct on paper, and find their way in.
#pragma once

#include "cli/document.hpp"
#include "engine/rule_base.hpp"

namespace lidlift::cli {

/// Chapters: how to read it, dangers, signs, causes, steps, clashes, materials, conclusions and rules, sources, index. Anchors
/// are KIND-ID
/// ("cause-blocked_drain"). Cautions stand before the steps that need them, in the whole and in every entry.
[[nodiscard]] Document handbook_document(const RuleBase& rule_base);

}  // namespace lidlift::cli
