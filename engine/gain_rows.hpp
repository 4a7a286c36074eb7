// What each further cause would multiply the odds of a set by, kept for all causes at once, as a row, while the set grows and
// shrinks.
//
// With one more member a row changes by what that member and each cause mean to each other as a pair; only where both and an
// earlier member have to do with the same matter is that matter weighed anew.
#pragma once

#include "engine/cause_mask.hpp"
#include "engine/findings_in_play.hpp"

#include <cstdint>
#include <span>
#include <vector>

namespace lidlift {

/// Causes are named by their positions from 0; only those behind the last member of a set count in its row.
class GainRows {
public:
    /// `causes` by position. `odds_alone`: what each makes of the odds of the empty set. `apart`: those that never stand beside
    /// it. No set has more than `largest_set` members. All are referred to, and `findings` is moved along with the set.
    GainRows(FindingsInPlay& findings, std::span<const std::uint32_t> causes, std::span<const double> odds_alone,
             std::span<const CauseMask> apart, std::size_t largest_set);

    /// The row of the set at hand, which has `size` members.
    [[nodiscard]] std::span<double> beside(std::size_t size) {
        return std::span(gains_).subspan(size * causes_.size(), causes_.size());
    }
    /// `one` comes to `set`, which has `size` members: fills the row of the larger set, and brings the findings to it, except
    /// where one cause more makes the largest set, so that the row is all that is needed.
    void add(const CauseMask& set, std::size_t size, std::size_t one);
    void take_back(std::size_t size, std::size_t one);

private:
    /// One cause's share in one matter. Its slot counts the shares of all causes.
    struct Concern {
        std::uint32_t position = 0;
        std::size_t slot = 0;
        const FindingsInPlay::Share* share = nullptr;
    };

    void find_concerns();
    void weigh_pairs(std::span<const CauseMask> apart);
    [[nodiscard]] std::span<const FindingsInPlay::Share> shares_of(std::size_t position) const {
        return findings_.shares_of(causes_[position]);
    }
    [[nodiscard]] std::span<const Concern> concerns_behind(std::uint32_t matter, std::size_t one) const;
    [[nodiscard]] double* inverses_beside(std::size_t size) { return inverses_.data() + size * slot_count_; }
    /// Only the row of the larger set is needed, since what a third cause makes of it is the largest.
    [[nodiscard]] bool only_row_needed(std::size_t size) const { return size + 2 == largest_set_; }

    FindingsInPlay& findings_;
    std::span<const std::uint32_t> causes_;
    std::size_t largest_set_;
    std::vector<CauseMask> concerned_;       ///< by matter: the causes that have to do with it
    std::vector<Concern> concerns_;          ///< by matter, then rising position
    std::vector<std::size_t> concerns_end_;  ///< by matter
    std::vector<std::size_t> first_slot_;    ///< by position
    std::size_t slot_count_ = 0;
    /// What a pair means to each other, over what both mean by themselves: by two positions, the first before the second.
    std::vector<double> pairs_;
    /// By slot: where in `shares_taken_` those behind it begin, which are the matter's factor with the other cause alone, over
    /// that with both.
    std::vector<std::size_t> first_pair_;
    std::vector<double> shares_taken_;
    std::vector<double> inverses_;  ///< by size of a set, then slot: 1 over the matter's factor with that cause beside the set
    std::vector<double> gains_;     ///< by size of a set, then position
};

}  // namespace lidlift
