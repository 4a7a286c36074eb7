// All that was found while causes are added to a set and taken away again, the last one first.
#pragma once

#include "engine/finding_in_play.hpp"
#include "engine/noisy_or.hpp"

#include <array>
#include <cmath>
#include <cstdint>
#include <span>
#include <vector>

namespace lidlift {

/// The findings part into matters: what causes explain together or not at all, which is one finding, or those of one
/// same-observation group. Causes without a common matter do not heed each other.
class FindingsInPlay {
public:
    /// `noisy_ors` are those of the model's features, by feature.
    FindingsInPlay(const EvidenceModel& model, std::span<const NoisyOr> noisy_ors, std::span<const Finding> findings);

    /// What one cause has to do with one matter.
    struct Share {
        std::uint32_t matter;
        std::uint32_t begin;  ///< in `ties_`
        std::uint32_t end;
    };
    [[nodiscard]] std::size_t matter_count() const { return matters_.size(); }
    /// One for each matter that has to do with `cause`.
    [[nodiscard]] std::span<const Share> shares_of(std::uint32_t cause) const {
        return std::span(shares_).subspan(share_begin_[cause], share_begin_[cause + 1] - share_begin_[cause]);
    }
    /// Something found speaks of the cause.
    [[nodiscard]] bool speak_of(std::uint32_t cause) const { return !shares_of(cause).empty(); }

    /// What a matter multiplies the odds of the set by.
    [[nodiscard]] double factor(std::uint32_t matter) const { return matters_[matter].factor[matters_[matter].depth]; }
    /// The same with one cause more, which is not added.
    [[nodiscard]] double factor_with(const Share& share) const {
        const Matter& matter = matters_[share.matter];
        if (matter.end - matter.begin > 1) return of_group(matter, share);
        return findings_[matter.begin].ratio_with(ties_[share.begin].links);
    }
    /// A cause's share in one matter comes to the set. A cause that is in it in one matter only is to be taken back before
    /// anything else is asked.
    void add(const Share& share);
    void take_back(const Share& share);

    /// What the findings multiply the odds of the set by when `cause` comes to it.
    double add(std::uint32_t cause);
    void take_back(std::uint32_t cause);
    /// The same without adding it.
    [[nodiscard]] double gain(std::uint32_t cause) const;
    /// A change of some matters' factors as the model lets it count.
    [[nodiscard]] double as_it_counts(double change) const {
        return model_.shrink == 1 ? change : std::pow(change, model_.shrink);
    }

private:
    struct Tie {
        std::uint32_t finding;
        FindingInPlay::Links links;
    };
    /// Of one same-observation group the strongest for and against count in full, the others in part.
    struct Matter {
        std::uint32_t begin;  ///< of its findings, which stand together
        std::uint32_t end;
        std::array<double, most_in_a_set + 1> factor{1};
        std::size_t depth = 0;
    };

    [[nodiscard]] double of_group(const Matter& matter, const Share& with) const;
    void make_matters(std::span<const NoisyOr> noisy_ors, std::span<const Finding> findings);
    void make_shares(std::span<const NoisyOr> noisy_ors, std::span<const Finding> findings);

    const EvidenceModel& model_;
    std::vector<FindingInPlay> findings_;
    std::vector<std::uint32_t> told_;  ///< by finding: its place among those that were handed in
    std::vector<Matter> matters_;
    std::vector<Tie> ties_;                   ///< by cause, then finding
    std::vector<Share> shares_;               ///< by cause, then matter
    std::vector<std::uint32_t> share_begin_;  ///< by cause, and the end
};

}  // namespace lidlift
