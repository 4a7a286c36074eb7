#include "engine/looking_ahead.hpp"

#include <algorithm>
#include <cmath>
#include <functional>
#include <limits>
#include <utility>

namespace lidlift {
namespace {

bool same(const std::optional<Finding>& a, const std::optional<Finding>& b) {
    if (!a || !b) return !a && !b;
    return a->values == b->values && a->error == b->error;
}

/// Their chances add up to 1 again.
std::vector<CauseSet> likeliest(const Ranking& ranking, const LikelySets& likely) {
    std::vector<CauseSet> sets = ranking.likeliest_sets(likely.share, likely.most);
    double sum = 0;
    for (const CauseSet& set : sets) sum += set.chance;
    for (CauseSet& set : sets) set.chance /= sum;
    return sets;
}

}  // namespace

LookingAhead::LookingAhead(const Ranker& ranker, const Told& told, const Ranking& ranking, const LikelySets& likely)
    : ranker_(ranker),
      told_(told),
      now_(ranker.prepare(told.facts)),
      sure_(sure_only(told.facts)),
      sets_(likeliest(ranking, likely)),
      found_(now_.model.features.size()) {
    for (const Feature& feature : now_.model.features) features_.emplace_back(now_.model, feature);
    for (const Finding& finding : now_.situation.findings) found_[finding.feature] = finding;
}

Observation LookingAhead::observation(const Sign& sign, std::size_t position) {
    Observation result;
    if (sign.sort == SignSort::several) {
        result.present = answer_set(position);
        if (sign.answers[position].none_of_these) result.absent = all_answers(sign.answers.size()) & ~answer_set(position);
    } else {
        result.possible = answer_set(position);
        if (sign.sort == SignSort::quantity) result.measured = sign.band(position);
    }
    return result;
}

/// How often the answer is given when none of the listed causes is there.
double LookingAhead::background(Handle<Sign> handle, std::size_t position) const {
    const Sign& sign = ranker_.rule_base().signs[handle];
    const auto& features = ranker_.features_of(handle);
    const double error = ranker_.rule_base().weighing.wrong_when_sure;
    if (sign.sort != SignSort::several && features.size() == 1)
        return features_[features.front().feature].chance(answer_set(position), {}, error);
    const Answer& answer = sign.answers[position];
    if (answer.seen_anyway) return *answer.seen_anyway;
    if (!answer.none_of_these) return 1.0 / static_cast<double>(sign.answers.size());
    double none = 1;
    for (const Answer& other : sign.answers) none *= 1 - other.seen_anyway.value_or(0);
    return none;
}

double LookingAhead::weight(const Finding& finding, std::span<const std::uint16_t> set) const {
    const NoisyOr& feature = features_[finding.feature];
    if (!feature.speaks_of(set)) return 0;
    return 10 *
           std::log10(feature.chance(finding.values, set, finding.error) / feature.chance(finding.values, {}, finding.error));
}

/// Of one same-observation group: the strongest for and the strongest against in full, the others in part (as in weighing).
double LookingAhead::weight_of_group(std::span<const Finding> findings, std::span<const std::uint16_t> set) const {
    double most = 0;
    double least = 0;
    double sum = 0;
    for (const Finding& finding : findings) {
        const double decibans = weight(finding, set);
        most = std::max(most, decibans);
        least = std::min(least, decibans);
        sum += decibans;
    }
    const double share = now_.model.same_observation_counts;
    return most + least + share * (sum - most - least);
}

void LookingAhead::add_changed_findings(const std::vector<Finding>& findings, std::vector<double>& gains) const {
    std::vector<std::optional<Finding>> after(found_.size());
    for (const Finding& finding : findings) after[finding.feature] = finding;
    std::vector<int> groups;
    for (std::size_t i = 0; i < found_.size(); ++i) {
        if (same(found_[i], after[i])) continue;
        const int group = now_.model.features[i].group;
        if (group >= 0) {
            if (std::ranges::find(groups, group) == groups.end()) groups.push_back(group);
            continue;
        }
        for (std::size_t s = 0; s < sets_.size(); ++s) {
            if (found_[i]) gains[s] -= now_.model.shrink * weight(*found_[i], sets_[s].causes());
            if (after[i]) gains[s] += now_.model.shrink * weight(*after[i], sets_[s].causes());
        }
    }
    for (const int group : groups) {
        std::vector<Finding> before;
        std::vector<Finding> now;
        for (std::size_t i = 0; i < found_.size(); ++i) {
            if (now_.model.features[i].group != group) continue;
            if (found_[i]) before.push_back(*found_[i]);
            if (after[i]) now.push_back(*after[i]);
        }
        for (std::size_t s = 0; s < sets_.size(); ++s)
            gains[s] +=
                now_.model.shrink * (weight_of_group(now, sets_[s].causes()) - weight_of_group(before, sets_[s].causes()));
    }
}

/// Decibans that each set gains, against none of the listed causes.
std::vector<double> LookingAhead::gains(const Facts& facts, const Facts& sure) const {
    const RuleBase& base = ranker_.rule_base();
    const Conclusions conclusions = chain(base, facts);
    const Conclusions sure_conclusions = chain(base, sure);
    std::vector<double> result(sets_.size(), 0);
    add_changed_findings(ranker_.findings(facts, conclusions), result);
    std::vector<double> shift(base.causes.size());
    std::vector<bool> out(base.causes.size());
    std::vector<std::uint32_t> certain;
    for (std::uint32_t i = 0; i < base.causes.size(); ++i) {
        const Ranker::Standing standing = ranker_.standing({i}, facts, conclusions, sure, sure_conclusions);
        shift[i] = standing.prior_shift - now_.situation.prior_shift[i];
        out[i] = standing.ruled_out;
        if (standing.certain) certain.push_back(i);
    }
    for (std::size_t s = 0; s < sets_.size(); ++s) {
        for (const auto cause : sets_[s].causes()) result[s] += shift[cause];
        if (std::ranges::any_of(sets_[s].causes(), [&](auto cause) { return out[cause]; }) ||
            !std::ranges::all_of(certain, [&](auto cause) { return sets_[s].contains(cause); }))
            result[s] = -std::numeric_limits<double>::infinity();
    }
    return result;
}

/// The stage changes how common every cause is, so everything is weighed anew.
std::vector<double> LookingAhead::gains_of_another_stage(const Facts& facts) const {
    const Ranker::Case hypothetical = ranker_.prepare(facts);
    std::vector<double> result = scores(hypothetical.model, hypothetical.situation, sets_);
    for (std::size_t s = 0; s < sets_.size(); ++s) result[s] -= sets_[s].score;
    return result;
}

/// By Bayes' rule the answer's chance is its background times the mean of what it does to the odds of the sets; that holds for
/// signs, which follow from causes, and for circumstances, which come before them.
std::vector<LookingAhead::After> LookingAhead::answers(Handle<Sign> handle) const {
    const Sign& sign = ranker_.rule_base().signs[handle];
    std::vector<After> result;
    Facts facts = told_.facts;
    Facts sure = sure_;
    double all = 0;
    for (std::size_t position = 0; position < sign.answers.size(); ++position) {
        facts.set(handle, observation(sign, position));
        sure.set(handle, observation(sign, position));
        const bool stage = ranker_.rule_base().stage == handle;
        const std::vector<double> gain = stage ? gains_of_another_stage(facts) : gains(facts, sure);
        After after{0, std::vector<double>(sets_.size(), 0)};
        double sum = 0;
        for (std::size_t s = 0; s < sets_.size(); ++s) sum += after.chances[s] = sets_[s].chance * std::pow(10.0, gain[s] / 10);
        if (sum > 0) {
            for (double& chance : after.chances) chance /= sum;
            after.chance = background(handle, position) * sum;
        }
        all += after.chance;
        result.push_back(std::move(after));
    }
    if (all > 0)
        for (After& after : result) after.chance /= all;
    return result;
}

}  // namespace lidlift
