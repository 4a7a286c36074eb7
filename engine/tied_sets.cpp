#include "engine/tied_sets.hpp"

#include "engine/contains.hpp"
#include "engine/finding_in_play.hpp"

#include <algorithm>
#include <bit>
#include <cmath>
#include <limits>
#include <utility>

namespace lidlift {
namespace {

bool is_set(const std::vector<bool>& flags, std::uint32_t cause) { return !flags.empty() && flags[cause]; }

}  // namespace

/// Goes through the sets of tied causes, each from the one with a cause less.
class TiedSets::Walk {
public:
    Walk(TiedSets& into, const EvidenceModel& model, std::span<const NoisyOr> noisy_ors, std::span<const double> prior,
         const Situation& situation)
        : into_(into), model_(model), situation_(situation), prior_(prior), count_(static_cast<std::uint32_t>(prior.size())) {
        for (std::uint32_t cause = 0; cause < count_; ++cause) {
            const double shift = situation.prior_shift.empty() ? 0 : situation.prior_shift[cause];
            odds_.push_back(prior[cause] / (1 - prior[cause]) * (shift == 0 ? 1 : std::pow(10.0, shift / 10)));
        }
        put_findings_in_play(noisy_ors);
        weigh_each_alone();
        part_the_causes();
    }

    void go() {
        into_.largest_set_ = std::clamp(model_.largest_set, 0, most_in_a_set);
        find_neighbours();
        into_.chance_.assign(count_, 0);
        any_allowed_ = false;
        sum_ = extend({}, 0, 0, 1);
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
    struct Tie {
        std::size_t finding;
        FindingInPlay::Links links;
    };
    /// Findings of one same-observation group: the strongest for and against count in full, the others in part.
    struct Group {
        std::vector<std::size_t> findings;
        std::array<double, most_in_a_set + 1> factor{};
        std::size_t depth = 0;
    };

    void put_findings_in_play(std::span<const NoisyOr> noisy_ors) {
        ties_.resize(count_);
        for (const Finding& finding : situation_.findings) {
            const NoisyOr& noisy_or = noisy_ors[finding.feature];
            const std::size_t position = findings_.size();
            findings_.emplace_back(model_, noisy_or, finding);
            const auto factors = noisy_or.factors();
            for (auto begin = factors.begin(); begin != factors.end();) {
                auto end = begin;
                while (end != factors.end() && end->cause == begin->cause) ++end;
                ties_[begin->cause].push_back({position, {begin, end}});
                begin = end;
            }
        }
        group_of_.assign(findings_.size(), no_group);
        for (std::size_t i = 0; i < findings_.size(); ++i) {
            if (findings_[i].group() < 0 || group_of_[i] != no_group) continue;
            Group group;
            for (std::size_t j = i; j < findings_.size(); ++j)
                if (findings_[j].group() == findings_[i].group()) group.findings.push_back(j);
            if (group.findings.size() == 1) continue;  // it counts in full
            for (const std::size_t member : group.findings) group_of_[member] = groups_.size();
            group.factor[0] = 1;
            groups_.push_back(std::move(group));
        }
        groups_of_.resize(count_);
        for (std::uint32_t cause = 0; cause < count_; ++cause)
            for (const Tie& tie : ties_[cause])
                if (const std::size_t group = group_of_[tie.finding]; group != no_group && !contains(groups_of_[cause], group))
                    groups_of_[cause].push_back(group);
    }

    [[nodiscard]] double factor_of(const Group& group) const {
        double product = 1;
        double most = 1;
        double least = 1;
        for (const std::size_t finding : group.findings) {
            const double ratio = findings_[finding].ratio();
            product *= ratio;
            most = std::max(most, ratio);
            least = std::min(least, ratio);
        }
        const double share = model_.same_observation_counts;
        return std::exp(share * std::log(product) + (1 - share) * std::log(most * least));
    }

    /// What the odds of the set are multiplied by when `cause` comes to it.
    double add(std::uint32_t cause) {
        double gain = 1;
        for (const Tie& tie : ties_[cause]) {
            FindingInPlay& finding = findings_[tie.finding];
            finding.add(tie.links);
            if (group_of_[tie.finding] == no_group) gain *= finding.ratio() / finding.ratio_before();
        }
        for (const std::size_t g : groups_of_[cause]) {
            Group& group = groups_[g];
            const double before = group.factor[group.depth];
            gain *= (group.factor[++group.depth] = factor_of(group)) / before;
        }
        return odds_[cause] * (model_.shrink == 1 ? gain : std::pow(gain, model_.shrink));
    }

    void take_back(std::uint32_t cause) {
        for (const Tie& tie : ties_[cause]) findings_[tie.finding].take_back();
        for (const std::size_t group : groups_of_[cause]) --groups_[group].depth;
    }

    void weigh_each_alone() {
        into_.odds_alone_.assign(count_, 0);
        for (std::uint32_t cause = 0; cause < count_; ++cause) {
            if (is_set(situation_.ruled_out, cause)) continue;
            into_.odds_alone_[cause] = add(cause);
            take_back(cause);
        }
    }

    /// Which causes are tied, which stand by, and which are only ever there by themselves.
    void part_the_causes() {
        std::vector<std::uint32_t> candidates;
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
            for (std::size_t i = most_combined; i < by_odds.size(); ++i) only_alone_.push_back(by_odds[i].second);
        }
        for (const std::uint32_t cause : candidates) {
            if (contains(only_alone_, cause)) continue;
            if (contains(model_.alone, cause))
                only_alone_.push_back(cause);
            else if (!ties_[cause].empty() || is_set(situation_.certain, cause))
                into_.tied_.push_back(cause);
            else
                into_.bystander_causes_.push_back(cause);
        }
        std::ranges::sort(only_alone_);
        std::ranges::stable_sort(into_.bystander_causes_, [&](auto a, auto b) { return odds_[a] > odds_[b]; });
    }

    void find_neighbours() {
        constexpr std::uint32_t nowhere = static_cast<std::uint32_t>(-1);
        const std::vector<std::uint32_t>& tied = into_.tied_;
        std::vector<std::uint32_t> tied_at(count_, nowhere);
        std::vector<std::uint32_t> standing_at(count_, nowhere);
        for (std::uint32_t i = 0; i < tied.size(); ++i) tied_at[tied[i]] = i;
        std::vector<double> odds;
        for (const std::uint32_t cause : into_.bystander_causes_) {
            standing_at[cause] = static_cast<std::uint32_t>(odds.size());
            odds.push_back(odds_[cause]);
        }
        apart_.resize(tied.size());
        into_.near_.resize(tied.size());
        std::vector<Bystanders::Pair> pairs;
        const auto note_near = [&](std::uint32_t cause, std::uint32_t other) {
            auto& near = into_.near_[tied_at[cause]];
            if (!contains(near, standing_at[other])) near.push_back(standing_at[other]);
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
    }

    /// Visits a set and all that can be made of it by causes from position `next` on; returns what they weigh, bystanders
    /// included.
    double extend(const TiedMask& set, std::size_t size, std::size_t next, double weight) {
        double sum = certain_in_ == certain_count_ ? visit(set, size, weight) : 0;
        if (size == static_cast<std::size_t>(into_.largest_set_)) return sum;
        for (std::size_t i = next; i < into_.tied_.size(); ++i) {
            if (apart_[i].meets(set)) continue;
            const std::uint32_t cause = into_.tied_[i];
            TiedMask larger = set;
            larger.set(i);
            const bool certain = is_set(situation_.certain, cause);
            certain_in_ += certain;
            const double with_it = extend(larger, size + 1, i + 1, weight * add(cause));
            certain_in_ -= certain;
            take_back(cause);
            into_.chance_[cause] += with_it;
            sum += with_it;
        }
        return sum;
    }

    /// What a set weighs with all bystanders that may stand beside it.
    double visit(const TiedMask& set, std::size_t size, double weight) {
        any_allowed_ = true;
        if (size == 0) into_.nothing_listed_ = weight;
        Kept kept{set, weight, weight, static_cast<std::size_t>(into_.largest_set_) - size};
        if (kept.slots > 0) {
            const auto near = into_.neighbours(set);
            kept.with_bystanders = weight * into_.bystanders_.all_without(kept.slots, near);
            if (near.empty())
                by_slots_[kept.slots] += weight;
            else
                into_.bystanders_.add_each_without(kept.slots, near, weight, beside_);
        }
        seen_ += kept.with_bystanders;
        if (kept.with_bystanders >= never_kept * seen_) into_.kept_.push_back(kept);
        return kept.with_bystanders;
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
            double weight = beside_[i];
            for (std::size_t slots = 1; slots <= static_cast<std::size_t>(into_.largest_set_); ++slots)
                weight += by_slots_[slots] * bystanders.with(i, slots);
            into_.chance_[into_.bystander_causes_[i]] = weight;
        }
        for (double& chance : into_.chance_) chance = std::min(1.0, chance / sum_);
        into_.nothing_listed_ /= sum_;
        const double least = left_out_share / 2 * sum_ / static_cast<double>(into_.kept_.size());
        std::erase_if(into_.kept_, [&](const Kept& kept) { return kept.with_bystanders < least; });
        for (CauseSet& set : into_.listed_) {
            set.score = 10 * std::log10(set.chance);
            set.chance /= sum_;
        }
    }

    static constexpr std::size_t no_group = static_cast<std::size_t>(-1);
    /// Of what was seen until then: a thousand million sets as light as that stay below `left_out_share`.
    static constexpr double never_kept = 1e-18;

    TiedSets& into_;
    const EvidenceModel& model_;
    const Situation& situation_;
    std::span<const double> prior_;
    std::uint32_t count_;
    std::vector<double> odds_;
    std::vector<FindingInPlay> findings_;
    std::vector<std::vector<Tie>> ties_;  ///< by cause
    std::vector<std::size_t> group_of_;   ///< by finding
    std::vector<Group> groups_;
    std::vector<std::vector<std::size_t>> groups_of_;  ///< by cause
    std::vector<std::uint32_t> only_alone_;
    std::vector<TiedMask> apart_;  ///< by tied cause: tied causes that never stand beside it
    std::size_t certain_count_ = 0;
    std::size_t certain_in_ = 0;
    bool any_allowed_ = false;
    double sum_ = 0;
    double seen_ = 0;
    std::array<double, most_in_a_set + 1> by_slots_{};  ///< weight of the sets with so many places, which anyone may take
    std::vector<double> beside_;                        ///< by bystander: what it weighs beside all other sets
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
    listed_ = weighed.sets;
}

CauseSet TiedSets::set_of(const Kept& kept) const {
    CauseSet set;
    for (std::size_t i = 0; i < tied_.size(); ++i) {
        TiedMask one;
        one.set(i);
        if (kept.members.meets(one)) set.members[set.size++] = static_cast<std::uint16_t>(tied_[i]);
    }
    return set;
}

/// Bystanders that may not stand beside a set, each once.
Bystanders::Positions TiedSets::neighbours(const TiedMask& members) const {
    Bystanders::Positions result;
    for (std::size_t word = 0; word < members.bits.size(); ++word)
        for (std::uint64_t bits = members.bits[word]; bits != 0; bits &= bits - 1)
            for (const auto one : near_[word * 64 + static_cast<std::size_t>(std::countr_zero(bits))])
                if (!contains(result, one)) result.push_back(one);
    return result;
}

double TiedSets::chance_of_any(const std::vector<bool>& wanted) const {
    if (total_ == 0) return 0;
    TiedMask tied;
    for (std::size_t i = 0; i < tied_.size(); ++i)
        if (wanted[tied_[i]]) tied.set(i);
    Bystanders::Positions standing_by;
    for (std::uint32_t i = 0; i < bystander_causes_.size(); ++i)
        if (wanted[bystander_causes_[i]]) standing_by.push_back(i);
    std::array<double, most_in_a_set + 1> others{};
    for (std::size_t slots = 0; !standing_by.empty() && slots <= static_cast<std::size_t>(largest_set_); ++slots)
        others[slots] = bystanders_.all_without(slots, standing_by);
    double weight = 0;
    for (const Kept& kept : kept_) {
        if (kept.members.meets(tied)) {
            weight += kept.with_bystanders;
        } else if (!standing_by.empty() && kept.slots != 0) {
            Bystanders::Positions none_of = neighbours(kept.members);
            double beside = others[kept.slots];
            if (!none_of.empty()) {
                for (const auto one : standing_by)
                    if (!contains(none_of, one)) none_of.push_back(one);
                beside = bystanders_.all_without(kept.slots, none_of);
            }
            weight += kept.with_bystanders - kept.weight * beside;
        }
    }
    double chance = weight / total_;
    for (const CauseSet& set : listed_)
        if (std::ranges::any_of(set.causes(), [&](auto cause) { return wanted[cause]; })) chance += set.chance;
    return std::clamp(chance, 0.0, 1.0);
}

/// `least` is a weight. Bystanders stand in falling order of odds, so the first that is too light ends it.
void TiedSets::add_with_bystanders(const Kept& kept, double least, std::vector<CauseSet>& into) const {
    const CauseSet tied = set_of(kept);
    const Bystanders::Positions near = neighbours(kept.members);
    Bystanders::Positions added;
    const auto add = [&](const auto& self, double weight, std::uint32_t next, std::size_t slots) -> void {
        if (weight >= least) {
            CauseSet set = tied;
            for (const auto one : added) set.members[set.size++] = static_cast<std::uint16_t>(bystander_causes_[one]);
            std::sort(set.members.begin(), set.members.begin() + set.size);
            set.chance = weight / total_;
            set.score = 10 * std::log10(weight);
            into.push_back(set);
        }
        if (slots == 0) return;
        for (std::uint32_t i = next; i < bystanders_.size(); ++i) {
            const double odds = bystanders_.odds(i);
            // With the further ones at most as likely as this one.
            if (weight * odds * std::pow(std::max(1.0, odds), static_cast<double>(slots - 1)) < least) return;
            if (contains(near, i) || std::ranges::any_of(added, [&](auto other) { return bystanders_.apart(other, i); }))
                continue;
            added.push_back(i);
            self(self, weight * odds, i + 1, slots - 1);
            added.pop_back();
        }
    };
    add(add, kept.weight, 0, kept.slots);
}

std::vector<CauseSet> TiedSets::sets_from(double chance) const {
    std::vector<CauseSet> sets;
    for (const Kept& kept : kept_)
        if (kept.with_bystanders >= chance * total_) add_with_bystanders(kept, chance * total_, sets);
    for (const CauseSet& set : listed_)
        if (set.chance >= chance) sets.push_back(set);
    std::ranges::sort(sets, likelier);
    return sets;
}

std::vector<CauseSet> TiedSets::likeliest(double share, std::size_t most) const {
    if (total_ == 0) return {};
    constexpr double least = 1e-12;  // so light that millions of them would not matter
    for (double from = 1e-3;; from /= 8) {
        std::vector<CauseSet> sets = sets_from(from);
        double sum = 0;
        std::size_t count = 0;
        while (count < sets.size() && count < most && sum < share) sum += sets[count++].chance;
        if (count < most && sum < share && from > least) continue;
        sets.resize(count);
        return sets;
    }
}

}  // namespace lidlift
