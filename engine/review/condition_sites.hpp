// Every condition of a rule base with the place where it stands and what hangs on it.
#pragma once

#include "engine/rule_base.hpp"

#include <optional>
#include <string>
#include <vector>

namespace lidlift::logic {

struct ConditionSite {
    enum class Part { rule, circumstance, link, cannot_be_when, must_be_when, never_when, caution, clash };
    Part part = Part::rule;
    Condition condition;  ///< of a link: its observation
    std::string text;     ///< as written
    Place place;
    std::string owner;     ///< id of the entry
    std::string in_words;  ///< "the rule 'wet'", "a circumstance of the cause 'blocked_drain'"
    std::optional<Handle<Rule>> rule;
    std::optional<Handle<Cause>> cause;
    const Link* link = nullptr;
};

/// In the order of the rule base: rules (so the site of rule i is the i-th), causes, steps, cautions, clashes. Points into
/// `rule_base`.
[[nodiscard]] std::vector<ConditionSite> condition_sites(const RuleBase& rule_base);

/// A resolved condition in the language of the rules: "squeeze is stream and not rained".
[[nodiscard]] std::string condition_text(const Condition& condition, const RuleBase& rule_base);

}  // namespace lidlift::logic
