// Tried cases as a page: the table, the misses with both balances side by side, and what the cases leave untried.
#pragma once

#include "engine/rule_base.hpp"
#include "engine/trial_score.hpp"

#include <optional>
#include <span>
#include <string>
#include <vector>

namespace lidlift::cli {

/// Shares, in per cent of the cases that ask which cause comes first, from which on a wrong first place is let pass.
struct WantedShares {
    std::optional<double> first;
    std::optional<double> among_three;

    [[nodiscard]] bool any() const { return first || among_three; }
};

/// Everything that a report of tried cases tells.
struct TrialReport {
    std::vector<Tried> tried;  ///< in the order in which they were read
    Scores scores;
    Coverage coverage;
    WantedShares wanted;

    /// A step that must never be advised and a missing caution are never good; beyond that every case passes, or the wanted
    /// shares are reached.
    [[nodiscard]] bool good() const;
};

struct TrialTextOptions {
    bool coverage = false;  ///< name what is not covered, beside counting it
};

[[nodiscard]] std::string render_trial(const RuleBase& rule_base, const TrialReport& report, const TrialTextOptions& options);

/// One object, in ASCII, ending in a line feed.
[[nodiscard]] std::string render_trial_json(const RuleBase& rule_base, const TrialReport& report);

/// What is wrong with one result, a sentence each; empty where it passed. Also what JUnit XML says.
[[nodiscard]] std::vector<std::string> faults_of(const TrialResult& result);

}  // namespace lidlift::cli
