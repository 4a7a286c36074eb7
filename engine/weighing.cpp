#include "engine/weighing.hpp"

#include "engine/words.hpp"

#include <algorithm>
#include <bit>
#include <cmath>
#include <limits>
#include <numeric>

namespace lidlift {
namespace {

/// What the values that no cause of a set speaks of keep between them, at the least.
constexpr double least_remainder = 0.01;

/// A feature's links as factors of the noisy-OR, by value and cause: multiplying them over the causes of a set needs no further look-up.
class NoisyOr {
public:
    NoisyOr(const EvidenceModel& model, const Feature& feature)
        : model_(model), feature_(feature), causes_(model.prior.size()), factors_(feature.background.size() * causes_) {
        for (const Feature::Link& link : feature.links) {
            const double background = feature.background[link.value];
            Factor& factor = factors_[link.value * causes_ + link.cause];
            factor.linked = true;
            if (link.chance >= background)
                factor.not_shown = (1 - link.chance) / (1 - background);
            else
                factor.held_back = link.chance / background;
        }
    }

    [[nodiscard]] bool speaks_of(std::span<const std::uint16_t> set) const {
        for (std::size_t value = 0; value < feature_.background.size(); ++value)
            for (const auto cause : set)
                if (factors_[value * causes_ + cause].linked) return true;
        return false;
    }

    /// Chance that the report names one of `values`.
    [[nodiscard]] double chance(AnswerSet values, std::span<const std::uint16_t> set, double error) const {
        const std::size_t count = feature_.background.size();
        if (count == 2) {
            const double yes = shown(0, set).chance;
            double reported = error + (1 - 2 * error) * yes;
            if (values == answer_set(1)) reported = 1 - reported;
            return values == all_answers(2) ? 1 : reported;
        }
        const std::vector<double> chances = all(set);
        double total = 0;
        for (std::size_t value = 0; value < count; ++value)
            if ((values & answer_set(value)) != 0) total += chances[value];
        // A mistaken report is any of the other values alike; for two values this is e + (1 - 2e) P.
        const double others = static_cast<double>(count - 1);
        return total * (1 - error) + error * (std::popcount(values) - total) / others;
    }

    /// Chance of each value, without mistaken reports. Values that no cause of the set is linked to share what the linked ones leave,
    /// in proportion to their background, so that "seen usually" of one value speaks against every other value alike.
    [[nodiscard]] std::vector<double> all(std::span<const std::uint16_t> set) const {
        const std::size_t count = feature_.background.size();
        std::vector<double> result(count);
        if (count == 2) {
            result[0] = shown(0, set).chance;
            result[1] = 1 - result[0];
            return result;
        }
        double linked_sum = 0;
        double unlinked_background = 0;
        std::vector<bool> linked(count);
        for (std::size_t value = 0; value < count; ++value) {
            const Shown shown_value = shown(value, set);
            linked[value] = shown_value.linked;
            result[value] = shown_value.linked ? shown_value.chance : feature_.background[value];
            (shown_value.linked ? linked_sum : unlinked_background) += result[value];
        }
        if (unlinked_background > 0) {
            const double remainder = std::max(least_remainder, 1 - linked_sum);
            for (std::size_t value = 0; value < count; ++value)
                if (!linked[value]) result[value] *= remainder / unlinked_background;
        }
        const double sum = std::accumulate(result.begin(), result.end(), 0.0);
        for (double& chance : result) chance /= sum;
        return result;
    }

private:
    struct Factor {
        double not_shown = 1;
        double held_back = 1;
        bool linked = false;
    };
    struct Shown {
        double chance;
        bool linked;
    };

    [[nodiscard]] Shown shown(std::size_t value, std::span<const std::uint16_t> set) const {
        double not_shown = 1 - feature_.background[value];
        double held_back = 1;
        bool linked = false;
        for (const auto cause : set) {
            const Factor& factor = factors_[value * causes_ + cause];
            not_shown *= factor.not_shown;
            held_back *= factor.held_back;
            linked |= factor.linked;
        }
        return {std::clamp((1 - not_shown) * held_back, model_.lowest, model_.highest), linked};
    }

    const EvidenceModel& model_;
    const Feature& feature_;
    std::size_t causes_;
    std::vector<Factor> factors_;
};

/// One finding, ready to be weighed for any set.
struct Weigher {
    NoisyOr noisy_or;
    Finding finding;
    int group;
    double baseline;

    [[nodiscard]] double weight(std::span<const std::uint16_t> set) const {
        if (!noisy_or.speaks_of(set)) return 0;
        return 10 * std::log10(noisy_or.chance(finding.values, set, finding.error) / baseline);
    }
};

/// The findings in the order of their features, so that the order of answers cannot show, not even in the last bit.
std::vector<Weigher> weighers(const EvidenceModel& model, const Situation& situation) {
    std::vector<Finding> findings = situation.findings;
    std::ranges::sort(findings, {}, &Finding::feature);
    std::vector<Weigher> result;
    result.reserve(findings.size());
    for (const Finding& finding : findings) {
        const Feature& feature = model.features[finding.feature];
        NoisyOr noisy_or(model, feature);
        const double baseline = noisy_or.chance(finding.values, {}, finding.error);
        result.push_back({std::move(noisy_or), finding, feature.group, baseline});
    }
    return result;
}

/// Positions of the findings by same-observation group; a finding without group stands alone.
std::vector<std::vector<std::size_t>> grouped(const std::vector<Weigher>& weighers) {
    std::vector<std::vector<std::size_t>> groups;
    std::vector<std::pair<int, std::size_t>> known;
    for (std::size_t i = 0; i < weighers.size(); ++i) {
        const auto found = std::ranges::find(known, weighers[i].group, &std::pair<int, std::size_t>::first);
        if (weighers[i].group >= 0 && found != known.end()) {
            groups[found->second].push_back(i);
            continue;
        }
        if (weighers[i].group >= 0) known.emplace_back(weighers[i].group, groups.size());
        groups.push_back({i});
    }
    return groups;
}

/// The strongest weight for and the strongest against count in full, every further one of the group by `share`.
void discount(std::vector<double>& weights, const std::vector<std::size_t>& group, double share) {
    if (group.size() < 2) return;
    std::size_t most = group.front();
    std::size_t least = group.front();
    for (const std::size_t i : group) {
        if (weights[i] > weights[most]) most = i;
        if (weights[i] < weights[least]) least = i;
    }
    for (const std::size_t i : group) {
        const bool strongest = (weights[i] > 0 && i == most) || (weights[i] < 0 && i == least);
        if (!strongest) weights[i] *= share;
    }
}

double prior_decibans(const EvidenceModel& model, const Situation& situation, std::uint32_t cause) {
    const double shift = situation.prior_shift.empty() ? 0 : situation.prior_shift[cause];
    return decibans(model.prior[cause]) + shift;
}

bool flag(const std::vector<bool>& flags, std::uint32_t cause) { return !flags.empty() && flags[cause]; }

/// Every allowed set of at most `largest_set` causes, smallest first within each beginning.
class SetMaker {
public:
    SetMaker(const EvidenceModel& model, const Situation& situation)
        : model_(model), count_(static_cast<std::uint32_t>(model.prior.size())), apart_(count_ * count_, false) {
        for (const auto& [a, b] : model.never_together) apart_[a * count_ + b] = apart_[b * count_ + a] = true;
        for (const std::uint32_t a : model.alone)
            for (std::uint32_t b = 0; b < count_; ++b) apart_[a * count_ + b] = apart_[b * count_ + a] = true;
        for (std::uint32_t cause = 0; cause < count_; ++cause) {
            if (flag(situation.certain, cause)) certain_.push_back(cause);
            if (!flag(situation.ruled_out, cause)) candidates_.push_back(cause);
        }
    }

    [[nodiscard]] std::vector<CauseSet> make() {
        CauseSet empty;
        extend(empty, 0);
        return std::move(sets_);
    }

private:
    void extend(const CauseSet& set, std::size_t next) {
        if (std::ranges::all_of(certain_, [&](std::uint32_t cause) { return set.contains(cause); })) sets_.push_back(set);
        if (set.size >= std::min(model_.largest_set, most_in_a_set)) return;
        for (std::size_t i = next; i < candidates_.size(); ++i) {
            const std::uint32_t cause = candidates_[i];
            if (std::ranges::any_of(set.causes(), [&](auto member) { return apart_[member * count_ + cause]; })) continue;
            CauseSet larger = set;
            larger.members[larger.size++] = static_cast<std::uint16_t>(cause);
            extend(larger, i + 1);
        }
    }

    const EvidenceModel& model_;
    std::uint32_t count_;
    std::vector<bool> apart_;
    std::vector<std::uint32_t> certain_;
    std::vector<std::uint32_t> candidates_;
    std::vector<CauseSet> sets_;
};

/// Scores sets of causes against what was found.
class Scorer {
public:
    Scorer(const EvidenceModel& model, const Situation& situation)
        : model_(model), findings_(weighers(model, situation)), groups_(grouped(findings_)), weights_(findings_.size()) {
        for (std::uint32_t cause = 0; cause < model.prior.size(); ++cause) prior_.push_back(prior_decibans(model, situation, cause));
    }

    [[nodiscard]] double score(std::span<const std::uint16_t> set) {
        for (std::size_t i = 0; i < findings_.size(); ++i) weights_[i] = findings_[i].weight(set);
        for (const auto& group : groups_) discount(weights_, group, model_.same_observation_counts);
        double score = model_.shrink * std::accumulate(weights_.begin(), weights_.end(), 0.0);
        for (const auto cause : set) score += prior_[cause];
        return score;
    }

private:
    const EvidenceModel& model_;
    std::vector<Weigher> findings_;
    std::vector<std::vector<std::size_t>> groups_;
    std::vector<double> weights_;
    std::vector<double> prior_;
};

}  // namespace

bool CauseSet::contains(std::uint32_t cause) const { return std::ranges::find(causes(), cause) != causes().end(); }

Weighed weigh(const EvidenceModel& model, const Situation& situation) {
    Weighed result;
    result.chance.assign(model.prior.size(), 0);
    result.sets = SetMaker(model, situation).make();
    Scorer scorer(model, situation);
    double best = -std::numeric_limits<double>::infinity();
    for (CauseSet& set : result.sets) best = std::max(best, set.score = scorer.score(set.causes()));
    double sum = 0;
    for (CauseSet& set : result.sets) sum += set.chance = std::pow(10.0, (set.score - best) / 10);
    for (CauseSet& set : result.sets) {
        set.chance /= sum;
        for (const auto cause : set.causes()) result.chance[cause] += set.chance;
        if (set.size == 0) result.nothing_listed = set.chance;
    }
    return result;
}

std::vector<double> rescore(const EvidenceModel& model, const Situation& situation, std::span<const CauseSet> sets) {
    Scorer scorer(model, situation);
    constexpr double out = -std::numeric_limits<double>::infinity();
    std::vector<double> chances;
    for (const CauseSet& set : sets) {
        bool allowed = std::ranges::none_of(set.causes(), [&](auto cause) { return flag(situation.ruled_out, cause); });
        for (std::uint32_t cause = 0; cause < model.prior.size(); ++cause)
            if (flag(situation.certain, cause)) allowed = allowed && set.contains(cause);
        chances.push_back(allowed ? scorer.score(set.causes()) : out);
    }
    const double best = chances.empty() ? out : *std::ranges::max_element(chances);
    if (best == out) return {};
    double sum = 0;
    for (double& chance : chances) sum += chance = std::pow(10.0, (chance - best) / 10);
    for (double& chance : chances) chance /= sum;
    return chances;
}

double chance_of(const EvidenceModel& model, std::uint32_t feature, AnswerSet values, std::span<const std::uint16_t> set,
                 double error) {
    return NoisyOr(model, model.features[feature]).chance(values, set, error);
}

double Balance::sum() const { return std::accumulate(lines.begin(), lines.end(), prior); }

Balance balance_of(const EvidenceModel& model, const Situation& situation, std::uint32_t cause) {
    const auto findings = weighers(model, situation);
    const std::array<std::uint16_t, 1> alone = {static_cast<std::uint16_t>(cause)};
    std::vector<double> weights;
    for (const Weigher& weigher : findings) weights.push_back(weigher.weight(alone));
    const std::vector<double> full = weights;
    for (const auto& group : grouped(findings)) discount(weights, group, model.same_observation_counts);

    Balance result;
    result.prior = prior_decibans(model, situation, cause);
    for (const Finding& finding : situation.findings) {
        const auto found = std::ranges::find(findings, finding.feature, [](const Weigher& w) { return w.finding.feature; });
        const auto i = static_cast<std::size_t>(found - findings.begin());
        result.lines.push_back(model.shrink * weights[i]);
        result.discounted.push_back(weights[i] != full[i]);
    }
    return result;
}

double entropy(std::span<const double> chances) {
    double bits = 0;
    for (const double chance : chances)
        if (chance > 0) bits -= chance * std::log2(chance);
    return bits;
}

std::vector<double> predicted(const EvidenceModel& model, const Weighed& weighed, std::uint32_t feature, double error) {
    const NoisyOr noisy_or(model, model.features[feature]);
    std::vector<double> mixture(model.features[feature].background.size(), 0);
    for (const CauseSet& set : weighed.sets)
        for (std::size_t value = 0; value < mixture.size(); ++value)
            mixture[value] += set.chance * noisy_or.chance(answer_set(value), set.causes(), error);
    return mixture;
}

double information(const EvidenceModel& model, const Weighed& weighed, std::uint32_t feature, double error) {
    const NoisyOr noisy_or(model, model.features[feature]);
    const std::size_t count = model.features[feature].background.size();
    std::vector<double> mixture(count, 0);
    std::vector<double> chances(count);
    double within = 0;
    for (const CauseSet& set : weighed.sets) {
        for (std::size_t value = 0; value < count; ++value) {
            chances[value] = noisy_or.chance(answer_set(value), set.causes(), error);
            mixture[value] += set.chance * chances[value];
        }
        within += set.chance * entropy(chances);
    }
    return std::max(0.0, entropy(mixture) - within);
}

std::vector<double> scaled_priors(std::vector<double> priors, double expected) {
    if (!(expected > 0) || expected >= static_cast<double>(priors.size())) return priors;
    const auto scaled = [](double prior, double factor) { return prior * factor / (1 - prior + prior * factor); };
    // The sum rises with the factor, so halving the interval of its logarithm finds it; 200 halvings are beyond double's precision.
    double low = -100;
    double high = 100;
    for (int i = 0; i < 200; ++i) {
        const double middle = (low + high) / 2;
        double sum = 0;
        for (const double prior : priors) sum += scaled(prior, std::exp(middle));
        (sum < expected ? low : high) = middle;
    }
    for (double& prior : priors) prior = scaled(prior, std::exp(low));
    return priors;
}

}  // namespace lidlift
