// The weighing of weighing.hpp in a fraction of its time, and as exact: only sets of causes that something found speaks of are
// gone through, one cause at a time; all others are bystanders, whose sums are known beforehand.
#pragma once

#include "engine/bystanders.hpp"
#include "engine/cause_mask.hpp"
#include "engine/noisy_or.hpp"
#include "engine/weighing.hpp"

#include <array>
#include <cstdint>
#include <span>
#include <vector>

namespace lidlift {

/// What was found, weighed without listing every set.
class TiedSets {
public:
    /// `noisy_ors` are those of the model's features, by feature.
    TiedSets(const EvidenceModel& model, std::span<const NoisyOr> noisy_ors, std::span<const double> prior,
             const Situation& situation);

    [[nodiscard]] const std::vector<double>& chance() const { return chance_; }
    [[nodiscard]] double nothing_listed() const { return nothing_listed_; }
    /// The situation rules out every set.
    [[nodiscard]] bool none_possible() const { return total_ == 0; }
    /// The odds of exactly this one cause against none of the listed ones, as its own balance has it; 0 for one ruled out.
    [[nodiscard]] double odds_alone(std::uint32_t cause) const { return odds_alone_[cause]; }

    /// Chance that at least one of the causes for which `wanted` is set is there; at most `left_out_share` too low.
    [[nodiscard]] double chance_of_any(const std::vector<bool>& wanted) const;
    /// The sets with at least this chance, likeliest first; of equal ones the one with the earlier causes.
    [[nodiscard]] std::vector<CauseSet> sets_from(double chance) const;
    /// The likeliest sets that together reach `share`, at most `most` of them.
    [[nodiscard]] std::vector<CauseSet> likeliest(double share, std::size_t most) const;

    /// Sets too light to be kept weigh no more than this share together. The chances of single causes know them all.
    static constexpr double left_out_share = 1e-8;

private:
    class Walk;

    /// A set of tied causes, and what it weighs by itself and with whatever bystanders may stand beside it.
    struct Kept {
        CauseMask members;
        double weight = 0;
        double with_bystanders = 0;
        std::size_t slots = 0;  ///< places for bystanders
    };
    /// The largest sets that are made of one by each further cause from position `first` on.
    struct Row {
        CauseMask members;
        double weight = 0;  ///< of the one without a further cause
        double sum = 0;     ///< what they weigh together
        std::size_t first = 0;
        std::size_t begin = 0;  ///< in `gains_`
    };

    /// What the weight is multiplied by when the cause at position `i` comes to a row's set.
    [[nodiscard]] double gain(const Row& row, std::size_t i) const { return gains_[row.begin + i - row.first]; }
    [[nodiscard]] CauseSet set_of(const CauseMask& members) const;
    [[nodiscard]] CauseMask neighbours(const CauseMask& members) const;
    void add_with_bystanders(const Kept& kept, double least, std::vector<CauseSet>& into) const;
    [[nodiscard]] std::vector<CauseSet> all_from(double chance) const;
    void add_largest(const Row& row, double least, std::vector<CauseSet>& into) const;
    void take_all(const Weighed& weighed);

    std::vector<double> chance_;
    std::vector<double> odds_alone_;
    double nothing_listed_ = 0;
    double total_ = 0;
    int largest_set_ = 0;
    std::vector<std::uint32_t> tied_;  ///< the cause at each position of a mask
    std::vector<CauseMask> near_;      ///< by tied cause: bystanders that never stand beside it
    std::vector<Kept> kept_;           ///< heavy enough to matter
    std::vector<Row> rows_;
    std::vector<double> gains_;
    std::vector<CauseSet> listed_;                 ///< sets beside which nobody may stand
    std::vector<std::uint32_t> bystander_causes_;  ///< the cause at each position of `bystanders_`
    Bystanders bystanders_ = Bystanders({}, {}, 0);
};

}  // namespace lidlift
