// A ranking among a few causes only, for reviews that look at thousands of cases: the engine's own weighing, with the causes
// that the answers do not speak for left out. What is reported to a person is verified with the whole ranking.
#pragma once

#include "engine/ranking.hpp"

#include <span>
#include <vector>

namespace lidlift {

/// Facts that are all sure, and what follows from them.
struct KnownFacts {
    const Facts& facts;
    const Conclusions& conclusions;
};

class FewCauses {
public:
    /// Refers to `ranker`.
    explicit FewCauses(const Ranker& ranker);

    /// The causes and their chances as though no others existed. `causes` rise and each stands once. Without balance sheets.
    [[nodiscard]] Ranking rank(const KnownFacts& known, std::span<const Handle<Cause>> causes) const;

    /// What the cause's balance sheet adds up to before it is shared with other causes, in decibans; minus infinity where it is
    /// ruled out, plus infinity where it must be.
    [[nodiscard]] double balance(const KnownFacts& known, Handle<Cause> cause) const;

    /// `first`, and of the other causes that are touched by the answers the `count` with the highest balance, rising by handle.
    [[nodiscard]] std::vector<Handle<Cause>> with_rivals(const KnownFacts& known, std::span<const Handle<Cause>> first,
                                                         std::size_t count) const;

    [[nodiscard]] const Ranker& ranker() const { return ranker_; }
    /// The prior chance of every cause at the stage that is told; of a cause that the stage excludes, some number.
    [[nodiscard]] const std::vector<double>& priors(const Facts& facts) const;

private:
    struct Small {
        EvidenceModel model;
        Situation situation;
    };
    [[nodiscard]] Small small(const KnownFacts& known, std::span<const Handle<Cause>> causes) const;

    const Ranker& ranker_;
    std::vector<std::vector<double>> priors_;          ///< for each answer to `stage`, then for none
    std::vector<std::vector<std::uint32_t>> touched_;  ///< by sign: causes with a circumstance or veto on it, through rules too
};

}  // namespace lidlift
