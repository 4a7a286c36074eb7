#include "engine/tied_sets.hpp"

#include "engine/findings_in_play.hpp"
#include "engine/gain_rows.hpp"

#include <algorithm>
#include <cmath>
#include <limits>
#include <optional>
#include <utility>

namespace lidlift {
namespace {

bool is_set(const std::vector<bool>& flags, std::uint32_t cause) { return !flags.empty() && flags[cause]; }

CauseMask from(CauseMask mask, std::size_t first) {
    mask.keep_from(first);
    return mask;
}

}  // namespace

/// Goes through the sets of tied causes, each from the one with a cause less. The largest are no more than the rows of those
/// with a cause less.
class TiedSets::Walk {
public:
    Walk(TiedSets& into, const EvidenceModel& model, std::span<const NoisyOr> noisy_ors, std::span<const double> prior,
         const Situation& situation)
        : into_(into),
          model_(model),
          situation_(situation),
          prior_(prior),
          count_(static_cast<std::uint32_t>(prior.size())),
          findings_(model, noisy_ors, situation.findings) {
        into_.largest_set_ = std::clamp(model_.largest_set, 0, most_in_a_set);
        weigh_each_alone();
        part_the_causes();
        find_neighbours();
        std::vector<double> alone;
        alone.reserve(into_.tied_.size());
        for (const std::uint32_t cause : into_.tied_) alone.push_back(into_.odds_alone_[cause]);
        gains_.emplace(findings_, into_.tied_, alone, apart_, static_cast<std::size_t>(into_.largest_set_));
    }

    void go() {
        into_.chance_.assign(count_, 0);
        any_allowed_ = false;
        // As many as there are sets of one and two causes, and rows of threes; of larger sets there may be more.
        const std::size_t tied = into_.tied_.size();
        into_.kept_.reserve(1 + tied);
        into_.rows_.reserve(1 + tied * tied / 2);
        into_.gains_.reserve(tied * tied * (tied + 1) / 6);
        chance_of_tied_.assign(tied, 0);
        sum_ = extend({}, 0, 0, 1);
        for (std::size_t i = 0; i < tied; ++i) into_.chance_[into_.tied_[i]] = chance_of_tied_[i];
        for (const std::uint32_t cause : only_alone_) visit_alone(cause);
        if (any_allowed_ && (!std::isfinite(sum_) || sum_ < std::numeric_limits<double>::min())) {
            // Beyond what a double holds, which only a bed with a hundred answers reaches: in logarithms, set by set.
            EvidenceModel whole = model_;
            whole.prior.assign(prior_.begin(), prior_.end());
            into_.take_all(weigh(whole, situation_));
            return;
        }
        settle();
    }

private:
    void weigh_each_alone() {
        into_.odds_alone_.assign(count_, 0);
        odds_.reserve(count_);
        for (std::uint32_t cause = 0; cause < count_; ++cause) {
            const double shift = situation_.prior_shift.empty() ? 0 : situation_.prior_shift[cause];
            odds_.push_back(prior_[cause] / (1 - prior_[cause]) * (shift == 0 ? 1 : std::pow(10.0, shift / 10)));
            if (!is_set(situation_.ruled_out, cause)) into_.odds_alone_[cause] = odds_[cause] * findings_.gain(cause);
        }
    }

    /// Which causes are tied, which stand by, and which are only ever there by themselves.
    void part_the_causes() {
        std::vector<std::uint32_t> candidates;
        candidates.reserve(count_);
        into_.tied_.reserve(count_);
        into_.bystander_causes_.reserve(count_);
        std::vector<std::pair<double, std::uint32_t>> standing_by;  // the likeliest first
        standing_by.reserve(count_);
        std::vector<bool> never_beside(count_, false);
        for (const std::uint32_t cause : model_.alone) never_beside[cause] = true;
        for (std::uint32_t cause = 0; cause < count_; ++cause) {
            if (is_set(situation_.certain, cause)) ++certain_count_;
            if (!is_set(situation_.ruled_out, cause)) candidates.push_back(cause);
        }
        if (candidates.size() > most_combined) {
            std::vector<std::pair<double, std::uint32_t>> by_odds;
            for (const std::uint32_t cause : candidates)
                by_odds.emplace_back(
                    is_set(situation_.certain, cause) ? -std::numeric_limits<double>::infinity() : -into_.odds_alone_[cause],
                    cause);
            std::ranges::sort(by_odds);
            for (std::size_t i = most_combined; i < by_odds.size(); ++i) never_beside[by_odds[i].second] = true;
        }
        for (const std::uint32_t cause : candidates) {
            if (never_beside[cause])
                only_alone_.push_back(cause);
            else if (findings_.speak_of(cause) || is_set(situation_.certain, cause))
                into_.tied_.push_back(cause);
            else
                standing_by.emplace_back(-odds_[cause], cause);
        }
        std::ranges::sort(standing_by);
        for (const auto& [odds, cause] : standing_by) into_.bystander_causes_.push_back(cause);
    }

    void find_neighbours() {
        constexpr std::uint32_t nowhere = static_cast<std::uint32_t>(-1);
        const std::vector<std::uint32_t>& tied = into_.tied_;
        std::vector<std::uint32_t> tied_at(count_, nowhere);
        std::vector<std::uint32_t> standing_at(count_, nowhere);
        for (std::uint32_t i = 0; i < tied.size(); ++i) tied_at[tied[i]] = i;
        std::vector<double> odds;
        odds.reserve(into_.bystander_causes_.size());
        for (const std::uint32_t cause : into_.bystander_causes_) {
            standing_at[cause] = static_cast<std::uint32_t>(odds.size());
            odds.push_back(odds_[cause]);
        }
        apart_.resize(tied.size());
        into_.near_.resize(tied.size());
        std::vector<Bystanders::Pair> pairs;
        pairs.reserve(model_.never_together.size());
        const auto note_near = [&](std::uint32_t cause, std::uint32_t other) {
            into_.near_[tied_at[cause]].set(standing_at[other]);
        };
        for (const auto& [a, b] : model_.never_together) {
            if (tied_at[a] != nowhere && tied_at[b] != nowhere) {
                apart_[tied_at[a]].set(tied_at[b]);
                apart_[tied_at[b]].set(tied_at[a]);
            } else if (tied_at[a] != nowhere && standing_at[b] != nowhere) {
                note_near(a, b);
            } else if (tied_at[b] != nowhere && standing_at[a] != nowhere) {
                note_near(b, a);
            } else if (standing_at[a] != nowhere && standing_at[b] != nowhere) {
                pairs.emplace_back(standing_at[a], standing_at[b]);
            }
        }
        into_.bystanders_ = Bystanders(std::move(odds), pairs, into_.largest_set_);
        beside_.assign(into_.bystanders_.size(), 0);
        kept_off_.assign(into_.bystanders_.size(), 0);
    }

    /// Visits a set and all that can be made of it by causes from position `next` on; returns what they weigh, bystanders
    /// included.
    double extend(const CauseMask& set, std::size_t size, std::size_t next, double weight) {
        double sum = certain_in_ == certain_count_ ? visit(set, size, weight) : 0;
        const auto largest = static_cast<std::size_t>(into_.largest_set_);
        if (size == largest) return sum;
        if (size + 1 == largest) return sum + visit_largest(set, size, next, weight);
        for (std::size_t i = next; i < into_.tied_.size(); ++i) {
            if (apart_[i].meets(set)) continue;
            const std::uint32_t cause = into_.tied_[i];
            CauseMask larger = set;
            larger.set(i);
            const bool certain = is_set(situation_.certain, cause);
            certain_in_ += certain;
            const double with_one = weight * gains_->beside(size)[i];
            gains_->add(set, size, i);
            const double with_it = extend(larger, size + 1, i + 1, with_one);
            gains_->take_back(size, i);
            certain_in_ -= certain;
            chance_of_tied_[i] += with_it;
            sum += with_it;
        }
        return sum;
    }

    /// What a set weighs with all bystanders that may stand beside it.
    double visit(const CauseMask& set, std::size_t size, double weight) {
        any_allowed_ = true;
        if (size == 0) into_.nothing_listed_ = weight;
        Kept kept{set, weight, weight, static_cast<std::size_t>(into_.largest_set_) - size};
        if (kept.slots > 0) {
            const CauseMask near = into_.neighbours(set);
            kept.with_bystanders = weight * into_.bystanders_.all_without(kept.slots, near);
            if (!near.any() || kept.slots == 1) {
                by_slots_[kept.slots] += weight;
                near.for_each([&](std::size_t one) { kept_off_[one] += weight; });
            } else {
                into_.bystanders_.add_each_without(kept.slots, near, weight, beside_);
            }
        }
        into_.kept_.push_back(kept);
        return kept.with_bystanders;
    }

    /// The sets with one cause more than `set`, which are the largest, so that nobody can stand beside them.
    double visit_largest(const CauseMask& set, std::size_t size, std::size_t next, double weight) {
        const std::size_t missing = certain_count_ - certain_in_;
        if (missing > 1) return 0;
        const std::size_t count = into_.tied_.size();
        const std::span<double> gains = gains_->beside(size);
        if (missing == 1)
            for (std::size_t i = next; i < count; ++i) {
                const bool allowed = is_set(situation_.certain, into_.tied_[i]) && !apart_[i].meets(set);
                any_allowed_ = any_allowed_ || allowed;
                if (!allowed) gains[i] = 0;
            }
        double sum = 0;
        for (std::size_t i = next; i < count; ++i) {
            sum += gains[i];
            chance_of_tied_[i] += weight * gains[i];
        }
        if (sum == 0) return 0;
        into_.rows_.push_back({set, weight, weight * sum, next, into_.gains_.size()});
        into_.gains_.insert(into_.gains_.end(), gains.begin() + static_cast<std::ptrdiff_t>(next), gains.end());
        return weight * sum;
    }

    void visit_alone(std::uint32_t cause) {
        const std::size_t certain_in = is_set(situation_.certain, cause) ? 1 : 0;
        if (into_.largest_set_ < 1 || certain_in != certain_count_) return;
        any_allowed_ = true;
        CauseSet set;
        set.members[set.size++] = static_cast<std::uint16_t>(cause);
        set.chance = into_.odds_alone_[cause];
        into_.chance_[cause] += set.chance;
        sum_ += set.chance;
        into_.listed_.push_back(set);
    }

    /// From weights to chances.
    void settle() {
        into_.total_ = sum_;
        if (sum_ == 0) return;
        const Bystanders& bystanders = into_.bystanders_;
        for (std::size_t i = 0; i < bystanders.size(); ++i) {
            double weight = beside_[i] + bystanders.odds(i) * std::max(0.0, by_slots_[1] - kept_off_[i]);
            for (std::size_t slots = 2; slots <= static_cast<std::size_t>(into_.largest_set_); ++slots)
                weight += by_slots_[slots] * bystanders.with(i, slots);
            into_.chance_[into_.bystander_causes_[i]] = weight;
        }
        for (double& chance : into_.chance_) chance = std::min(1.0, chance / sum_);
        into_.nothing_listed_ /= sum_;
        const double least = left_out_share / 2 * sum_ / static_cast<double>(into_.kept_.size() + into_.rows_.size());
        std::erase_if(into_.kept_, [&](const Kept& kept) { return kept.with_bystanders < least; });
        std::erase_if(into_.rows_, [&](const Row& row) { return row.sum < least; });
        for (CauseSet& set : into_.listed_) {
            set.score = 10 * std::log10(set.chance);
            set.chance /= sum_;
        }
    }

    TiedSets& into_;
    const EvidenceModel& model_;
    const Situation& situation_;
    std::span<const double> prior_;
    std::uint32_t count_;
    FindingsInPlay findings_;
    std::vector<double> odds_;
    std::vector<std::uint32_t> only_alone_;
    std::vector<CauseMask> apart_;        ///< by tied cause: tied causes that never stand beside it
    std::optional<GainRows> gains_;       ///< by position among the tied causes
    std::vector<double> chance_of_tied_;  ///< as yet a weight
    std::size_t certain_count_ = 0;
    std::size_t certain_in_ = 0;
    bool any_allowed_ = false;
    double sum_ = 0;
    /// By number of places for bystanders: the weight of the sets with so many, of which anyone may take them; one place also
    /// where not everyone may.
    std::array<double, most_in_a_set + 1> by_slots_{};
    std::vector<double> kept_off_;  ///< by bystander: the weight of sets with one place which it may not take
    std::vector<double> beside_;    ///< by bystander: what it weighs beside all other sets
};

TiedSets::TiedSets(const EvidenceModel& model, std::span<const NoisyOr> noisy_ors, std::span<const double> prior,
                   const Situation& situation) {
    Walk(*this, model, noisy_ors, prior, situation).go();
}

void TiedSets::take_all(const Weighed& weighed) {
    chance_ = weighed.chance;
    nothing_listed_ = weighed.nothing_listed;
    total_ = weighed.sets.empty() ? 0 : 1;
    kept_.clear();
    rows_.clear();
    listed_ = weighed.sets;
}

CauseSet TiedSets::set_of(const CauseMask& members) const {
    CauseSet set;
    members.for_each([&](std::size_t i) { set.members[set.size++] = static_cast<std::uint16_t>(tied_[i]); });
    return set;
}

/// Bystanders that may not stand beside a set.
CauseMask TiedSets::neighbours(const CauseMask& members) const {
    CauseMask result;
    members.for_each([&](std::size_t i) { result.add(near_[i]); });
    return result;
}

double TiedSets::chance_of_any(const std::vector<bool>& wanted) const {
    if (total_ == 0) return 0;
    CauseMask tied;
    for (std::size_t i = 0; i < tied_.size(); ++i)
        if (wanted[tied_[i]]) tied.set(i);
    CauseMask standing_by;
    for (std::size_t i = 0; i < bystander_causes_.size(); ++i)
        if (wanted[bystander_causes_[i]]) standing_by.set(i);
    double weight = 0;
    for (const Kept& kept : kept_) {
        if (kept.members.meets(tied)) {
            weight += kept.with_bystanders;
        } else if (standing_by.any() && kept.slots != 0) {
            CauseMask none_of = neighbours(kept.members);
            none_of.add(standing_by);
            weight += kept.with_bystanders - kept.weight * bystanders_.all_without(kept.slots, none_of);
        }
    }
    for (const Row& row : rows_) {
        if (row.members.meets(tied))
            weight += row.sum;
        else
            from(tied, row.first).for_each([&](std::size_t i) { weight += row.weight * gain(row, i); });
    }
    double chance = weight / total_;
    for (const CauseSet& set : listed_)
        if (std::ranges::any_of(set.causes(), [&](auto cause) { return wanted[cause]; })) chance += set.chance;
    return std::clamp(chance, 0.0, 1.0);
}

/// `least` is a weight. Bystanders stand in falling order of odds, so the first that is too light ends it.
void TiedSets::add_with_bystanders(const Kept& kept, double least, std::vector<CauseSet>& into) const {
    const auto add = [&](const auto& self, const CauseSet& set, const CauseMask& left_out, double weight, std::size_t next,
                         std::size_t slots) -> void {
        if (weight >= least) {
            into.push_back(set);
            CauseSet& last = into.back();
            std::sort(last.members.begin(), last.members.begin() + last.size);
            last.chance = weight / total_;
            last.score = 10 * std::log10(weight);
        }
        if (slots == 0) return;
        for (std::size_t i = next; i < bystanders_.size(); ++i) {
            const double odds = bystanders_.odds(i);
            // With the further ones at most as likely as this one.
            if (weight * odds * std::pow(std::max(1.0, odds), static_cast<double>(slots - 1)) < least) return;
            if (left_out.has(i)) continue;
            CauseSet larger = set;
            larger.members[larger.size++] = static_cast<std::uint16_t>(bystander_causes_[i]);
            CauseMask further = left_out;
            further.add(bystanders_.apart_from(i));
            self(self, larger, further, weight * odds, i + 1, slots - 1);
        }
    };
    add(add, set_of(kept.members), neighbours(kept.members), kept.weight, 0, kept.slots);
}

void TiedSets::add_largest(const Row& row, double least, std::vector<CauseSet>& into) const {
    for (std::size_t i = row.first; i < tied_.size(); ++i) {
        const double weight = row.weight * gain(row, i);
        if (weight < least) continue;
        CauseMask members = row.members;
        members.set(i);
        CauseSet set = set_of(members);
        set.chance = weight / total_;
        set.score = 10 * std::log10(weight);
        into.push_back(set);
    }
}

/// In no order.
std::vector<CauseSet> TiedSets::all_from(double chance) const {
    std::vector<CauseSet> sets;
    for (const Kept& kept : kept_)
        if (kept.with_bystanders >= chance * total_) add_with_bystanders(kept, chance * total_, sets);
    for (const Row& row : rows_)
        if (row.sum >= chance * total_) add_largest(row, chance * total_, sets);
    for (const CauseSet& set : listed_)
        if (set.chance >= chance) sets.push_back(set);
    return sets;
}

std::vector<CauseSet> TiedSets::sets_from(double chance) const {
    std::vector<CauseSet> sets = all_from(chance);
    std::ranges::sort(sets, likelier);
    return sets;
}

std::vector<CauseSet> TiedSets::likeliest(double share, std::size_t most) const {
    if (total_ == 0) return {};
    constexpr double least = 1e-12;  // so light that millions of them would not matter
    for (double from = 1e-3;; from /= 8) {
        std::vector<CauseSet> sets = all_from(from);
        const std::size_t wanted = std::min(most, sets.size());
        std::ranges::partial_sort(sets, sets.begin() + static_cast<std::ptrdiff_t>(wanted), likelier);
        double sum = 0;
        std::size_t count = 0;
        while (count < wanted && sum < share) sum += sets[count++].chance;
        if (count < most && sum < share && from > least) continue;
        sets.resize(count);
        return sets;
    }
}

}  // namespace lidlift
