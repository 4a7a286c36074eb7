#include "engine/review/few_causes.hpp"

#include "engine/noisy_or.hpp"
#include "engine/words.hpp"

#include <algorithm>
#include <bit>
#include <cmath>
#include <limits>
#include <numeric>

namespace lidlift {

FewCauses::FewCauses(const Ranker& ranker) : ranker_(ranker), touched_(ranker.rule_base().signs.size()) {
    const RuleBase& base = ranker.rule_base();
    const std::size_t stages = base.stage ? base.signs[*base.stage].answers.size() : 0;
    const double expected = base.weighing.expected_causes.value_or(0);
    for (std::size_t stage = 0; stage <= stages; ++stage) {
        std::vector<double> all = ranker.model().prior;
        std::vector<double> allowed;
        for (std::uint32_t i = 0; i < all.size(); ++i)
            if (stage == stages || (base.causes[Handle<Cause>{i}].stages & answer_set(stage)) != 0) allowed.push_back(all[i]);
        if (expected > 0 && std::accumulate(allowed.begin(), allowed.end(), 0.0) > expected) {
            const auto scaled = scaled_priors(allowed, expected);
            for (std::uint32_t i = 0, next = 0; i < all.size(); ++i)
                if (stage == stages || (base.causes[Handle<Cause>{i}].stages & answer_set(stage)) != 0) all[i] = scaled[next++];
        }
        priors_.push_back(std::move(all));
    }
    const Facts nothing;
    const Conclusions unknown = chain(base, nothing);
    for (std::uint32_t i = 0; i < base.causes.size(); ++i) {
        const Cause& cause = base.causes[Handle<Cause>{i}];
        const auto touch = [&](const Condition& condition) {
            for (const Handle<Sign> sign : signs_to_settle(condition, base, nothing, unknown))
                if (touched_[sign.index].empty() || touched_[sign.index].back() != i) touched_[sign.index].push_back(i);
        };
        for (const Circumstance& circumstance : cause.made_likelier_by) touch(circumstance.when);
        if (cause.must_be_when) touch(*cause.must_be_when);
    }
}

const std::vector<double>& FewCauses::priors(const Facts& facts) const {
    const auto& stage = ranker_.rule_base().stage;
    const Observation* seen = stage ? facts.find(*stage) : nullptr;
    // The review tells one stage or none.
    if (!seen || std::popcount(seen->possible) != 1) return priors_.back();
    return priors_[static_cast<std::size_t>(std::countr_zero(seen->possible))];
}

FewCauses::Small FewCauses::small(const KnownFacts& known, std::span<const Handle<Cause>> causes) const {
    const EvidenceModel& whole = ranker_.model();
    Small result;
    EvidenceModel& model = result.model;
    model.same_observation_counts = whole.same_observation_counts;
    model.shrink = whole.shrink;
    model.largest_set = whole.largest_set;
    model.lowest = whole.lowest;
    model.highest = whole.highest;
    const auto position = [&](std::uint32_t cause) -> std::optional<std::uint32_t> {
        const auto found = std::ranges::lower_bound(causes, Handle<Cause>{cause});
        if (found == causes.end() || found->index != cause) return std::nullopt;
        return static_cast<std::uint32_t>(found - causes.begin());
    };
    const std::vector<double>& all_priors = priors(known.facts);
    for (const Handle<Cause> cause : causes) {
        const auto standing = ranker_.standing(cause, known.facts, known.conclusions, known.facts, known.conclusions);
        model.prior.push_back(all_priors[cause.index]);
        result.situation.ruled_out.push_back(standing.ruled_out);
        result.situation.certain.push_back(standing.certain);
        result.situation.prior_shift.push_back(standing.prior_shift);
        const Cause& entry = ranker_.rule_base().causes[cause];
        if (entry.alone) model.alone.push_back(*position(cause.index));
        for (const Handle<Cause> other : entry.not_together_with)
            if (const auto at = position(other.index)) model.never_together.emplace_back(*position(cause.index), *at);
    }
    for (Finding finding : ranker_.features().findings(known.facts, known.conclusions)) {
        const Feature& feature = whole.features[finding.feature];
        std::vector<Feature::Link> links;
        for (const Feature::Link& link : feature.links)
            if (const auto at = position(link.cause)) links.push_back({*at, link.value, link.chance});
        if (links.empty()) continue;
        finding.feature = static_cast<std::uint32_t>(model.features.size());
        model.features.push_back({feature.background, std::move(links), feature.group});
        result.situation.findings.push_back(finding);
    }
    return result;
}

Ranking FewCauses::rank(const KnownFacts& known, std::span<const Handle<Cause>> causes) const {
    const Small few = small(known, causes);
    Ranking ranking;
    ranking.conclusions = known.conclusions;
    ranking.weighed = weigh(few.model, few.situation);
    ranking.nothing_listed = ranking.weighed.nothing_listed;
    ranking.contradictory = ranking.weighed.sets.empty();
    for (std::size_t i = 0; i < causes.size(); ++i) {
        if (few.situation.ruled_out[i] || ranking.contradictory) continue;
        RankedCause ranked;
        ranked.cause = causes[i];
        ranked.chance = with_finite_odds(ranking.weighed.chance[i]);
        ranked.there = ranked.chance;
        ranked.prior = few.model.prior[i];
        ranking.causes.push_back(std::move(ranked));
    }
    ranker_.put_in_order(ranking);
    find_roots(ranker_.rule_base(), ranking, [&](const RankedCause& ranked) {
        const auto position = std::ranges::lower_bound(causes, ranked.cause) - causes.begin();
        return probability(balance_of(few.model, few.situation, static_cast<std::uint32_t>(position)).sum());
    });
    // From here on the sets speak of the rule base's causes, as those of a whole ranking do.
    std::vector<double> chance(ranker_.rule_base().causes.size(), 0);
    for (std::size_t i = 0; i < causes.size(); ++i) chance[causes[i].index] = ranking.weighed.chance[i];
    ranking.weighed.chance = std::move(chance);
    for (CauseSet& set : ranking.weighed.sets)
        for (std::uint16_t k = 0; k < set.size; ++k) set.members[k] = static_cast<std::uint16_t>(causes[set.members[k]].index);
    return ranking;
}

double FewCauses::balance(const KnownFacts& known, Handle<Cause> cause) const {
    const Small one = small(known, std::span(&cause, 1));
    if (one.situation.ruled_out.front()) return -std::numeric_limits<double>::infinity();
    if (one.situation.certain.front()) return std::numeric_limits<double>::infinity();
    return balance_of(one.model, one.situation, 0).sum();
}

std::vector<Handle<Cause>> FewCauses::with_rivals(const KnownFacts& known, std::span<const Handle<Cause>> first,
                                                  std::size_t count) const {
    const EvidenceModel& whole = ranker_.model();
    // Single findings added up without the discount within groups: it only decides who is looked at.
    std::vector<std::pair<std::uint32_t, double>> weights;
    for (const Finding& finding : ranker_.features().findings(known.facts, known.conclusions)) {
        const NoisyOr noisy_or(whole, whole.features[finding.feature]);
        const double anyway = noisy_or.chance(finding.values, {}, finding.error);
        for (const std::uint32_t cause : noisy_or.causes()) {
            const std::array<std::uint16_t, 1> alone = {static_cast<std::uint16_t>(cause)};
            weights.emplace_back(cause, 10 * std::log10(noisy_or.chance(finding.values, alone, finding.error) / anyway));
        }
    }
    for (const Handle<Sign> sign : known.facts.known())
        for (const std::uint32_t cause : touched_[sign.index]) weights.emplace_back(cause, 0);
    std::ranges::sort(weights, {}, &std::pair<std::uint32_t, double>::first);

    const std::vector<double>& prior = priors(known.facts);
    std::vector<std::pair<double, Handle<Cause>>> rivals;
    for (auto begin = weights.begin(); begin != weights.end();) {
        const auto end = std::find_if(begin, weights.end(), [&](const auto& weight) { return weight.first != begin->first; });
        const Handle<Cause> cause{begin->first};
        double sum = std::accumulate(begin, end, 0.0, [](double before, const auto& weight) { return before + weight.second; });
        begin = end;
        if (std::ranges::find(first, cause) != first.end()) continue;
        const auto standing = ranker_.standing(cause, known.facts, known.conclusions, known.facts, known.conclusions);
        if (standing.ruled_out) continue;
        sum += standing.prior_shift + (standing.certain ? 1000 : 0);
        if (sum > 0) rivals.emplace_back(-(sum + decibans(prior[cause.index])), cause);
    }
    std::ranges::sort(rivals);
    std::vector<Handle<Cause>> result(first.begin(), first.end());
    for (std::size_t i = 0; i < std::min(count, rivals.size()); ++i) result.push_back(rivals[i].second);
    std::ranges::sort(result);
    return result;
}

}  // namespace lidlift
