// Two rule bases compared over cases, as a page or as JSON: most important first.
#pragma once

#include "engine/comparison.hpp"
#include "engine/rule_base_changes.hpp"
#include "engine/trial_score.hpp"

#include <string>
#include <vector>

namespace lidlift::cli {

struct ComparisonReport {
    std::vector<EntryChange> entries;
    std::vector<ComparedCase> cases;

    /// A case that passed fails, or a caution was lost.
    [[nodiscard]] bool got_worse() const;
    [[nodiscard]] std::size_t unchanged() const;
    [[nodiscard]] Score score_before() const;
    [[nodiscard]] Score score_after() const;
};

[[nodiscard]] std::string render_comparison(const RuleBase& before, const RuleBase& after, const ComparisonReport& report);

/// One object, in ASCII, ending in a line feed.
[[nodiscard]] std::string render_comparison_json(const RuleBase& before, const RuleBase& after, const ComparisonReport& report);

}  // namespace lidlift::cli
