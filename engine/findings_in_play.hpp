// All that was found while causes are added to a set and taken away again, the last one first.
#pragma once

#include "engine/finding_in_play.hpp"
#include "engine/noisy_or.hpp"

#include <array>
#include <cstdint>
#include <span>
#include <vector>

namespace lidlift {

class FindingsInPlay {
public:
    /// `noisy_ors` are those of the model's features, by feature.
    FindingsInPlay(const EvidenceModel& model, std::span<const NoisyOr> noisy_ors, std::span<const Finding> findings);

    /// What the findings multiply the odds of the set by when `cause` comes to it.
    double add(std::uint32_t cause);
    void take_back(std::uint32_t cause);
    /// The same without adding it.
    [[nodiscard]] double gain(std::uint32_t cause) const;

    /// Something found speaks of the cause.
    [[nodiscard]] bool speak_of(std::uint32_t cause) const { return !ties_[cause].empty(); }

    /// What causes explain together or not at all: a finding, or those of one same-observation group. Causes without a common
    /// one do not heed each other.
    [[nodiscard]] std::size_t matter_count() const { return matter_count_; }
    /// Those that speak of `cause`, each once.
    [[nodiscard]] std::span<const std::uint32_t> matters_of(std::uint32_t cause) const { return matters_of_[cause]; }

private:
    struct Tie {
        std::uint32_t finding;
        FindingInPlay::Links links;
    };
    /// Findings of one same-observation group: the strongest for and against count in full, the others in part.
    struct Group {
        std::vector<std::uint32_t> findings;
        std::array<double, most_in_a_set + 1> factor{};
        std::size_t depth = 0;
    };

    void tie(std::span<const NoisyOr> noisy_ors, std::span<const Finding> findings);
    void make_groups();
    void find_matters();
    [[nodiscard]] double factor_with(const Group& group, std::span<const Tie> ties) const;
    [[nodiscard]] double as_it_counts(double gain) const;

    const EvidenceModel& model_;
    std::vector<FindingInPlay> findings_;
    std::vector<std::vector<Tie>> ties_;   ///< by cause
    std::vector<std::uint32_t> group_of_;  ///< by finding
    std::vector<Group> groups_;
    std::vector<std::vector<std::uint32_t>> groups_of_;   ///< by cause
    std::vector<std::vector<std::uint32_t>> matters_of_;  ///< by cause
    std::size_t matter_count_ = 0;
};

}  // namespace lidlift
