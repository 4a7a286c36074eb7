// The weighing itself, free of words and files: which sets of causes explain what was found, and how likely each is.
//
// Leaky noisy-OR over all sets of at most `largest_set` causes, in decibans against the one baseline "none of the listed
// causes". A single cause's balance is a sum of lines; causes that occur together and findings that another cause already
// explains are exact. Heckerman & Shwe (UAI 1993) found noisy-OR closest to the confirmed answers on hard multi-disease cases;
// adding up separate balances overstates, letting causes compete for 100 % understates.
#pragma once

#include "engine/evidence_model.hpp"

#include <array>
#include <cstdint>
#include <functional>
#include <span>
#include <vector>

namespace lidlift {

struct CauseSet {
    std::array<std::uint16_t, most_in_a_set> members{};
    std::uint16_t size = 0;
    double score = 0;   ///< decibans against the empty set
    double chance = 0;  ///< among all allowed sets

    [[nodiscard]] std::span<const std::uint16_t> causes() const { return {members.data(), size}; }
    [[nodiscard]] bool contains(std::uint32_t cause) const;
};

/// The likelier set first; of two whose chances differ in their last digits only, the one with the earlier causes.
[[nodiscard]] bool likelier(const CauseSet& a, const CauseSet& b);

struct Weighed {
    std::vector<CauseSet> sets;  ///< every allowed set, in a fixed order; empty when the situation rules out all of them
    std::vector<double> chance;  ///< of each cause
    double nothing_listed = 0;   ///< chance of the empty set
};

[[nodiscard]] Weighed weigh(const EvidenceModel& model, const Situation& situation);

/// Scores of the given sets in decibans, minus infinity for those that the situation rules out. For looking ahead: a few
/// hundred likely sets cost far less than all.
[[nodiscard]] std::vector<double> scores(const EvidenceModel& model, const Situation& situation,
                                         std::span<const CauseSet> sets);

/// Chance that `feature` has one of `values` under exactly the causes of `set`, reports being wrong with chance `error`.
[[nodiscard]] double chance_of(const EvidenceModel& model, std::uint32_t feature, AnswerSet values,
                               std::span<const std::uint16_t> set, double error = 0);

/// The balance of one cause alone: its prior (with shift) and, for each finding in order, its weight in decibans after the
/// discount within groups.
struct Balance {
    double prior = 0;
    std::vector<double> lines;
    std::vector<bool> discounted;  ///< the line counts only in part
    [[nodiscard]] double sum() const;
};
[[nodiscard]] Balance balance_of(const EvidenceModel& model, const Situation& situation, std::uint32_t cause);

/// The balances of many causes, one after the other, without making everything ready anew for each.
void for_each_balance(const EvidenceModel& model, const Situation& situation, std::span<const std::uint32_t> causes,
                      const std::function<void(std::uint32_t cause, const Balance&)>& take);

/// Bits that learning the value of `feature` is expected to give about which set of causes it is: mutual information
/// h(sum P(S) q_S) - sum P(S) h(q_S), which equals the expected drop in entropy.
[[nodiscard]] double information(const EvidenceModel& model, const Weighed& weighed, std::uint32_t feature, double error = 0);

/// Chance of each value of `feature`, given all that was found.
[[nodiscard]] std::vector<double> predicted(const EvidenceModel& model, const Weighed& weighed, std::uint32_t feature,
                                            double error = 0);

/// -sum p log2 p, in bits.
[[nodiscard]] double entropy(std::span<const double> chances);

/// Prior chances scaled by one common factor on their odds so that they add up to `expected`. The method's answer to priors
/// that were written one by one and are only relative. `expected` must be above 0 and below the number of priors; otherwise
/// they are returned unchanged.
[[nodiscard]] std::vector<double> scaled_priors(std::vector<double> priors, double expected);

}  // namespace lidlift
