// Causes that nothing found speaks of: beside any set of other causes they are as likely as by themselves, so they are summed
// up instead of being listed in thousands of sets.
#pragma once

#include "engine/cause_mask.hpp"
#include "engine/evidence_model.hpp"

#include <array>
#include <cstdint>
#include <utility>
#include <vector>

namespace lidlift {

/// Bystanders are named by their positions from 0; there are no more than causes that are combined. A set of them weighs the
/// product of their odds, the empty set 1.
class Bystanders {
public:
    using Pair = std::pair<std::uint32_t, std::uint32_t>;

    /// Two that are never together stand in no set; no set has more than `most` members.
    Bystanders(std::vector<double> odds, const std::vector<Pair>& never_together, int most);

    [[nodiscard]] std::size_t size() const { return odds_.size(); }
    [[nodiscard]] double odds(std::size_t one) const { return odds_[one]; }
    /// Those that never stand beside this one.
    [[nodiscard]] const CauseMask& apart_from(std::size_t one) const { return apart_from_[one]; }

    /// What all sets of at most `slots` members weigh together.
    [[nodiscard]] double all(std::size_t slots) const { return up_to_[slots]; }
    /// Those of them that hold this one.
    [[nodiscard]] double with(std::size_t one, std::size_t slots) const { return with_[one * stride_ + slots]; }
    /// Those of them that hold none of `left_out`.
    [[nodiscard]] double all_without(std::size_t slots, const CauseMask& left_out) const;
    /// Adds `weight` times what the sets with this one weigh that hold none of `left_out`, for each that is not left out.
    void add_each_without(std::size_t slots, const CauseMask& left_out, double weight, std::vector<double>& into) const;

private:
    /// By number of members up to most_: what the sets of exactly so many weigh together.
    using Polynomial = std::array<double, most_in_a_set + 1>;
    struct Block {
        CauseMask members;
        Polynomial sets{};
    };

    void find_blocks();
    void add_larger(const CauseMask& left, std::size_t size, double weight, Polynomial& sums,
                    std::vector<Polynomial>* with) const;
    [[nodiscard]] Polynomial sum_of(const CauseMask& block, std::vector<Polynomial>* with) const;
    void multiply(Polynomial& by, const Polynomial& factor) const;
    void sum_up();

    std::vector<double> odds_;
    std::vector<CauseMask> apart_from_;
    std::vector<Block> blocks_;        ///< of bystanders that are not free of one another
    std::vector<std::uint32_t> free_;  ///< those that are apart from none
    std::size_t most_;
    std::size_t stride_;        ///< most_ + 1
    Polynomial up_to_{};        ///< by slots
    std::vector<double> with_;  ///< by bystander, then slots
};

}  // namespace lidlift
