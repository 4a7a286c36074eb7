#include "engine/weighing.hpp"

#include "engine/noisy_or.hpp"
#include "engine/words.hpp"

#include <algorithm>
#include <cmath>
#include <limits>
#include <numeric>
#include <tuple>

namespace lidlift {
namespace {

/// One finding, ready to be weighed for any set.
struct Weigher {
    NoisyOr noisy_or;
    Finding finding;
    int group;
    double baseline;

    [[nodiscard]] double weight(std::span<const std::uint16_t> set) const {
        return 10 * std::log10(noisy_or.chance(finding.values, set, finding.error) / baseline);
    }
};

/// The findings of a same-observation group side by side, otherwise in the order of their features: the order of the answers
/// cannot show, not even in the last bit.
std::vector<Weigher> weighers(const EvidenceModel& model, const Situation& situation) {
    std::vector<Weigher> result;
    result.reserve(situation.findings.size());
    for (const Finding& finding : situation.findings) {
        const Feature& feature = model.features[finding.feature];
        NoisyOr noisy_or(model, feature);
        const double baseline = noisy_or.chance(finding.values, {}, finding.error);
        result.push_back({std::move(noisy_or), finding, feature.group, baseline});
    }
    std::vector<std::size_t> order(result.size());
    std::iota(order.begin(), order.end(), std::size_t{0});
    std::ranges::sort(order, {}, [&](std::size_t i) { return std::pair(result[i].group, result[i].finding.feature); });
    std::vector<Weigher> sorted;
    sorted.reserve(result.size());
    for (const std::size_t i : order) sorted.push_back(std::move(result[i]));
    return sorted;
}

/// The weight of one finding for some set.
struct Weight {
    std::size_t finding;  ///< position among the weighers
    int group;
    double decibans;
};

/// Of each group the strongest weight for and the strongest against count in full, every further one by `share`. Groups stand
/// side by side.
void discount(std::vector<Weight>& weights, double share) {
    for (auto begin = weights.begin(); begin != weights.end();) {
        const auto end = std::find_if(begin, weights.end(), [&](const Weight& weight) { return weight.group != begin->group; });
        if (begin->group >= 0) {
            const auto by_weight = [](const Weight& a, const Weight& b) { return a.decibans < b.decibans; };
            const auto most = std::max_element(begin, end, by_weight);
            const auto least = std::min_element(begin, end, by_weight);
            for (auto weight = begin; weight != end; ++weight) {
                const bool strongest = (weight->decibans > 0 && weight == most) || (weight->decibans < 0 && weight == least);
                if (!strongest) weight->decibans *= share;
            }
        }
        begin = end;
    }
}

double prior_decibans(const EvidenceModel& model, const Situation& situation, std::uint32_t cause) {
    const double shift = situation.prior_shift.empty() ? 0 : situation.prior_shift[cause];
    return decibans(model.prior[cause]) + shift;
}

bool flag(const std::vector<bool>& flags, std::uint32_t cause) { return !flags.empty() && flags[cause]; }

/// Scores sets of causes against what was found. A set is only weighed against findings that speak of one of its causes; for
/// all others it is as good as the baseline.
class Scorer {
public:
    Scorer(const EvidenceModel& model, const Situation& situation)
        : model_(model), weighers_(weighers(model, situation)), findings_of_cause_(model.prior.size()) {
        for (std::uint32_t cause = 0; cause < model.prior.size(); ++cause)
            prior_.push_back(prior_decibans(model, situation, cause));
        for (std::size_t i = 0; i < weighers_.size(); ++i)
            for (const std::uint32_t cause : weighers_[i].noisy_or.causes()) findings_of_cause_[cause].push_back(i);
    }

    [[nodiscard]] double score(std::span<const std::uint16_t> set) {
        weigh(set);
        discount(weights_, model_.same_observation_counts);
        double score = 0;
        for (const Weight& weight : weights_) score += weight.decibans;
        score *= model_.shrink;
        for (const auto cause : set) score += prior_[cause];
        return score;
    }

    /// Lines in the order of the situation's findings.
    [[nodiscard]] Balance balance(std::uint32_t cause, const Situation& situation) {
        const std::array<std::uint16_t, 1> alone = {static_cast<std::uint16_t>(cause)};
        weigh(alone);
        const std::vector<Weight> full = weights_;
        discount(weights_, model_.same_observation_counts);
        Balance result{prior_[cause], std::vector<double>(situation.findings.size(), 0),
                       std::vector<bool>(situation.findings.size(), false)};
        for (std::size_t i = 0; i < weights_.size(); ++i) {
            const std::uint32_t feature = weighers_[weights_[i].finding].finding.feature;
            const auto found = std::ranges::find(situation.findings, feature, &Finding::feature);
            const auto line = static_cast<std::size_t>(found - situation.findings.begin());
            result.lines[line] = model_.shrink * weights_[i].decibans;
            result.discounted[line] = weights_[i].decibans != full[i].decibans;
        }
        return result;
    }

private:
    void weigh(std::span<const std::uint16_t> set) {
        positions_.clear();
        for (const auto cause : set)
            positions_.insert(positions_.end(), findings_of_cause_[cause].begin(), findings_of_cause_[cause].end());
        if (set.size() > 1) {
            std::ranges::sort(positions_);
            positions_.erase(std::unique(positions_.begin(), positions_.end()), positions_.end());
        }
        weights_.clear();
        for (const std::size_t i : positions_) weights_.push_back({i, weighers_[i].group, weighers_[i].weight(set)});
    }

    const EvidenceModel& model_;
    std::vector<Weigher> weighers_;
    std::vector<std::vector<std::size_t>> findings_of_cause_;
    std::vector<double> prior_;
    std::vector<std::size_t> positions_;
    std::vector<Weight> weights_;
};

/// Every allowed set of at most `largest_set` causes, smallest first within each beginning.
class SetMaker {
public:
    SetMaker(const EvidenceModel& model, const Situation& situation, Scorer& scorer)
        : model_(model), count_(static_cast<std::uint32_t>(model.prior.size())), apart_(count_ * count_, false) {
        for (const auto& [a, b] : model.never_together) apart_[a * count_ + b] = apart_[b * count_ + a] = true;
        for (const std::uint32_t a : model.alone)
            for (std::uint32_t b = 0; b < count_; ++b) apart_[a * count_ + b] = apart_[b * count_ + a] = true;
        for (std::uint32_t cause = 0; cause < count_; ++cause) {
            if (flag(situation.certain, cause)) certain_.push_back(cause);
            if (!flag(situation.ruled_out, cause)) candidates_.push_back(cause);
        }
        keep_likeliest(situation, scorer);
    }

    [[nodiscard]] std::vector<CauseSet> make() {
        CauseSet empty;
        extend(empty, 0);
        for (const std::uint32_t cause : alone_only_) {
            CauseSet single;
            single.members[single.size++] = static_cast<std::uint16_t>(cause);
            if (model_.largest_set >= 1) keep(single);
        }
        return std::move(sets_);
    }

private:
    /// Leaves the candidates that may be combined, in their old order; the others are moved to `alone_only_`.
    void keep_likeliest(const Situation& situation, Scorer& scorer) {
        if (candidates_.size() <= most_combined) return;
        std::vector<std::pair<double, std::uint32_t>> by_score;
        for (const std::uint32_t cause : candidates_) {
            const std::array<std::uint16_t, 1> single = {static_cast<std::uint16_t>(cause)};
            const double first =
                flag(situation.certain, cause) ? std::numeric_limits<double>::infinity() : scorer.score(single);
            by_score.emplace_back(-first, cause);
        }
        std::ranges::sort(by_score);
        candidates_.clear();
        for (std::size_t i = 0; i < by_score.size(); ++i)
            (i < most_combined ? candidates_ : alone_only_).push_back(by_score[i].second);
        std::ranges::sort(candidates_);
        std::ranges::sort(alone_only_);
    }

    void keep(const CauseSet& set) {
        if (std::ranges::all_of(certain_, [&](std::uint32_t cause) { return set.contains(cause); })) sets_.push_back(set);
    }

    void extend(const CauseSet& set, std::size_t next) {
        keep(set);
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
    std::vector<std::uint32_t> alone_only_;
    std::vector<CauseSet> sets_;
};

}  // namespace

bool likelier(const CauseSet& a, const CauseSet& b) {
    const double first = std::round(a.chance * 1e13);
    const double second = std::round(b.chance * 1e13);
    return first != second ? first > second : a.members < b.members;
}

bool CauseSet::contains(std::uint32_t cause) const { return std::ranges::find(causes(), cause) != causes().end(); }

Weighed weigh(const EvidenceModel& model, const Situation& situation) {
    Weighed result;
    result.chance.assign(model.prior.size(), 0);
    Scorer scorer(model, situation);
    result.sets = SetMaker(model, situation, scorer).make();
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

std::vector<double> scores(const EvidenceModel& model, const Situation& situation, std::span<const CauseSet> sets) {
    Scorer scorer(model, situation);
    std::vector<std::uint32_t> certain;
    for (std::uint32_t cause = 0; cause < model.prior.size(); ++cause)
        if (flag(situation.certain, cause)) certain.push_back(cause);
    std::vector<double> result;
    for (const CauseSet& set : sets) {
        const bool allowed = std::ranges::none_of(set.causes(), [&](auto cause) { return flag(situation.ruled_out, cause); }) &&
                             std::ranges::all_of(certain, [&](auto cause) { return set.contains(cause); });
        result.push_back(allowed ? scorer.score(set.causes()) : -std::numeric_limits<double>::infinity());
    }
    return result;
}

double chance_of(const EvidenceModel& model, std::uint32_t feature, AnswerSet values, std::span<const std::uint16_t> set,
                 double error) {
    return NoisyOr(model, model.features[feature]).chance(values, set, error);
}

double Balance::sum() const { return std::accumulate(lines.begin(), lines.end(), prior); }

Balance balance_of(const EvidenceModel& model, const Situation& situation, std::uint32_t cause) {
    return Scorer(model, situation).balance(cause, situation);
}

void for_each_balance(const EvidenceModel& model, const Situation& situation, std::span<const std::uint32_t> causes,
                      const std::function<void(std::uint32_t, const Balance&)>& take) {
    Scorer scorer(model, situation);
    for (const std::uint32_t cause : causes) take(cause, scorer.balance(cause, situation));
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
    // The sum rises with the factor, so its logarithm lies between a low and a high; Newton's step is taken where it stays
    // between them, and half the interval otherwise. Some ten steps reach the precision of a double.
    double low = -100;
    double high = 100;
    double at = 0;
    for (int i = 0; i < 200; ++i) {
        const double factor = std::exp(at);
        double sum = 0;
        double slope = 0;
        for (const double prior : priors) {
            const double chance = scaled(prior, factor);
            sum += chance;
            slope += chance * (1 - chance);
        }
        (sum < expected ? low : high) = at;
        double next = at - (sum - expected) / slope;
        if (!(next > low && next < high)) next = (low + high) / 2;
        if (std::abs(next - at) <= 1e-15 * std::max(1.0, std::abs(at)) || next == low || next == high) break;
        at = next;
    }
    for (double& prior : priors) prior = scaled(prior, std::exp(at));
    return priors;
}

}  // namespace lidlift
