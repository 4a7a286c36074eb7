#include "engine/review/best_case.hpp"

#include "engine/words.hpp"

#include <algorithm>
#include <utility>

namespace lidlift {
namespace {

/// More than any strength gives.
constexpr double must_be = 1'000;
/// A balance has to rise by so many decibans for an answer to be worth telling.
constexpr double least_gain = 0.01;

}  // namespace

BestCases::BestCases(const Answering& answering, const FewCauses& few,
                     const std::vector<std::vector<FeatureStrength>>& strengths)
    : answering_(answering), few_(few), strengths_(strengths) {}

std::vector<BestCases::Wish> BestCases::wishes(Handle<Cause> handle) const {
    const RuleBase& base = answering_.rule_base();
    const Cause& cause = base.causes[handle];
    std::vector<Wish> result;
    std::vector<std::uint32_t> taken;
    for (const Link& link : cause.links) {
        const std::uint32_t feature = feature_of(few_.ranker(), link.when);
        if (std::ranges::find(taken, feature) != taken.end()) continue;
        taken.push_back(feature);
        const auto& all = strengths_[handle.index];
        const auto strength = std::ranges::lower_bound(all, feature, {}, &FeatureStrength::feature);
        if (strength == all.end() || strength->feature != feature) continue;
        for (std::size_t value = 0; value < strength->weights.size(); ++value)
            if (strength->weights[value] > 0)
                result.push_back({strength->weights[value], shows(few_.ranker(), link.when, value)});
    }
    for (const Circumstance& circumstance : cause.made_likelier_by)
        if (circumstance.weight > 0) result.push_back({circumstance.weight, circumstance.when});
    if (cause.must_be_when) result.push_back({must_be, *cause.must_be_when});
    if (base.stage) {
        const double anyway = decibans(few_.priors({})[handle.index]);
        for (std::size_t i = 0; i < base.signs[*base.stage].answers.size(); ++i) {
            if ((cause.stages & answer_set(i)) == 0) continue;
            Facts told;
            Observation stage;
            stage.possible = answer_set(i);
            told.set(*base.stage, std::move(stage));
            result.push_back({decibans(few_.priors(told)[handle.index]) - anyway, {Says{*base.stage, answer_set(i)}}});
        }
    }
    std::ranges::stable_sort(result, std::greater{}, &Wish::weight);
    return result;
}

Facts BestCases::speaking_for(Handle<Cause> cause, Facts facts, std::span<const Condition* const> never) const {
    const RuleBase& base = answering_.rule_base();
    double balance = few_.balance({facts, chain(base, facts)}, cause);
    for (const Wish& wish : wishes(cause)) {
        Facts tried = facts;
        if (!answering_.settle(tried, wish.condition, Truth::yes)) continue;
        const Conclusions conclusions = chain(base, tried);
        const double now = few_.balance({tried, conclusions}, cause);
        if (!(now > balance + least_gain)) continue;
        if (std::ranges::any_of(never, [&](const Condition* condition) {
                return evaluate(*condition, tried, conclusions.truth) == Truth::yes;
            }))
            continue;
        balance = now;
        facts = std::move(tried);
    }
    return facts;
}

double BestCases::chance(Handle<Cause> cause, const Facts& facts) const {
    const Conclusions conclusions = chain(answering_.rule_base(), facts);
    const KnownFacts known{facts, conclusions};
    const auto causes = few_.with_rivals(known, std::span(&cause, 1), rivals_in_best_case);
    const Ranking ranking = few_.rank(known, causes);
    const RankedCause* found = ranking.find(cause);
    return found ? found->there : 0;
}

std::vector<Handle<Sign>> BestCases::signs_that_matter(const std::vector<Handle<Cause>>& causes) const {
    const RuleBase& base = answering_.rule_base();
    const Facts nothing;
    const Conclusions unknown = chain(base, nothing);
    std::vector<Handle<Sign>> result;
    const auto add = [&](const Condition& condition) {
        const auto found = signs_to_settle(condition, base, nothing, unknown);
        result.insert(result.end(), found.begin(), found.end());
    };
    for (const Handle<Cause> handle : causes) {
        const Cause& cause = base.causes[handle];
        for (const Link& link : cause.links) std::visit([&](const auto& when) { add(Condition{when}); }, link.when);
        for (const Circumstance& circumstance : cause.made_likelier_by) add(circumstance.when);
        if (cause.must_be_when) add(*cause.must_be_when);
        if (cause.cannot_be_when) add(*cause.cannot_be_when);
    }
    if (base.stage) result.push_back(*base.stage);
    std::ranges::sort(result);
    result.erase(std::unique(result.begin(), result.end()), result.end());
    return result;
}

std::optional<Facts> BestCases::best_combination(Handle<Cause> cause, const std::vector<Handle<Sign>>& signs, double wanted) {
    std::size_t combinations = 1;
    for (const Handle<Sign> sign : signs) {
        combinations *= answering_.possible(sign).size() + 1;
        if (combinations > most_combinations) return std::nullopt;
    }
    if (combinations_ + combinations > most_combinations_in_all) return std::nullopt;
    combinations_ += combinations;
    Facts best;
    double highest = -1;
    // Counts through all of them; the position behind the last answer stands for "not told".
    std::vector<std::size_t> position(signs.size(), 0);
    for (std::size_t done = 0; done < combinations && highest < wanted; ++done) {
        Facts facts;
        for (std::size_t i = 0; i < signs.size(); ++i)
            if (const auto& possible = answering_.possible(signs[i]); position[i] < possible.size())
                facts.set(signs[i], possible[position[i]]);
        if (const double now = chance(cause, facts); now > highest) {
            highest = now;
            best = std::move(facts);
        }
        for (std::size_t i = 0; i < signs.size(); ++i) {
            if (++position[i] <= answering_.possible(signs[i]).size()) break;
            position[i] = 0;
        }
    }
    return best;
}

Facts BestCases::improved(Handle<Cause> cause, Facts facts, double wanted) {
    // What speaks against a rival speaks for the cause, and what speaks against that rival's rivals may not; so all, if it can
    // be.
    std::vector<Handle<Cause>> all;
    for (std::uint32_t i = 0; i < answering_.rule_base().causes.size(); ++i) all.push_back({i});
    if (auto best = best_combination(cause, signs_that_matter(all), wanted)) return std::move(*best);
    const auto signs = signs_that_matter({cause});
    if (auto best = best_combination(cause, signs, wanted)) return std::move(*best);
    double highest = chance(cause, facts);
    for (bool better = true; better && highest < wanted;) {
        better = false;
        for (const Handle<Sign> sign : signs) {
            std::vector<std::optional<Observation>> choices = {std::nullopt};
            choices.insert(choices.end(), answering_.possible(sign).begin(), answering_.possible(sign).end());
            for (const auto& choice : choices) {
                if (++combinations_ > most_combinations_in_all) return facts;
                Facts tried = facts;
                if (choice)
                    tried.set(sign, *choice);
                else
                    tried.forget(sign);
                const double now = chance(cause, tried);
                if (now <= highest * (1 + 1e-9)) continue;
                highest = now;
                facts = std::move(tried);
                better = true;
            }
        }
    }
    return facts;
}

}  // namespace lidlift
