#include "engine/looking_ahead.hpp"

#include "engine/contains.hpp"
#include "engine/same_observation.hpp"

#include <algorithm>
#include <array>
#include <cmath>
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

const Finding* finding_of(std::span<const Finding> findings, std::uint32_t feature) {
    const auto found = std::ranges::find(findings, feature, &Finding::feature);
    return found == findings.end() ? nullptr : &*found;
}

std::optional<Observation> kept(const Facts& facts, Handle<Sign> sign) {
    const Observation* seen = facts.find(sign);
    return seen ? std::optional(*seen) : std::nullopt;
}

void restore(Facts& facts, Handle<Sign> sign, const std::optional<Observation>& kept) {
    if (kept)
        facts.set(sign, *kept);
    else
        facts.forget(sign);
}

double odds(double chance) { return chance / (1 - chance); }
double factor_of(double decibans) { return std::pow(10.0, decibans / 10); }

}  // namespace

/// What may change with the answer to one sign.
struct LookingAhead::Change {
    Handle<Sign> sign;
    SignReach reach;
    std::vector<std::uint32_t> features;
    bool is_stage;
};

LookingAhead::LookingAhead(const Ranker& ranker, const Told& told, const Ranking& ranking, const LikelySets& likely)
    : ranker_(ranker),
      facts_(told.facts),
      now_(ranker.know(told.facts)),
      sets_(likeliest(ranking, likely)),
      sets_with_(ranker.rule_base().causes.size()),
      found_(ranker.model().features.size()),
      shown_(ranker.model().features.size()) {
    if (!facts_.all_sure()) {
        sure_ = sure_only(facts_);
        sure_conclusions_ = chain(ranker.rule_base(), *sure_);
    }
    for (std::uint32_t s = 0; s < sets_.size(); ++s)
        for (const auto cause : sets_[s].causes()) sets_with_[cause].push_back(s);
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
    const auto& features = ranker_.features().features_of(handle);
    const double error = ranker_.rule_base().weighing.wrong_when_sure;
    if (sign.sort != SignSort::several && features.size() == 1)
        return ranker_.noisy_or(features.front().feature).chance(answer_set(position), {}, error);
    const Answer& answer = sign.answers[position];
    if (answer.seen_anyway) return *answer.seen_anyway;
    if (!answer.none_of_these) return 1.0 / static_cast<double>(sign.answers.size());
    double none = 1;
    for (const Answer& other : sign.answers) none *= 1 - other.seen_anyway.value_or(0);
    return none;
}

/// Most sets hold one cause that the feature speaks of, so that few rows serve them all.
LookingAhead::Shown LookingAhead::work_out(const NoisyOr& feature) const {
    Shown shown{feature.all({}), {}, std::vector<std::uint32_t>(sets_.size(), no_row), {}};
    std::uint32_t rows = 0;
    const auto add_row = [&](std::span<const std::uint16_t> causes) {
        shown.with.resize((rows + 1) * feature.value_count());
        feature.all(causes, std::span(shown.with).subspan(rows * feature.value_count()));
        return rows++;
    };
    std::vector<std::uint32_t> of_several;
    for (const std::uint32_t cause : feature.causes()) {
        if (sets_with_[cause].empty()) continue;
        const std::array<std::uint16_t, 1> alone = {static_cast<std::uint16_t>(cause)};
        const std::uint32_t row = add_row(alone);
        for (const std::uint32_t s : sets_with_[cause]) {
            (shown.row[s] == no_row ? shown.speaks_of : of_several).push_back(s);
            shown.row[s] = row;
        }
    }
    std::ranges::sort(of_several);
    of_several.erase(std::unique(of_several.begin(), of_several.end()), of_several.end());
    for (const std::uint32_t s : of_several) shown.row[s] = add_row(sets_[s].causes());
    return shown;
}

const LookingAhead::Shown& LookingAhead::shown(std::uint32_t feature) {
    if (!shown_[feature]) shown_[feature] = work_out(ranker_.noisy_or(feature));
    return *shown_[feature];
}

/// By row: how much likelier the report is than under none of the listed causes.
std::vector<double> LookingAhead::ratios(const Finding& finding) {
    const Shown& feature = shown(finding.feature);
    const std::size_t values = feature.without.size();
    const double without = NoisyOr::reported(finding.values, feature.without, finding.error);
    std::vector<double> result;
    for (std::size_t begin = 0; begin < feature.with.size(); begin += values)
        result.push_back(NoisyOr::reported(finding.values, std::span(feature.with).subspan(begin, values), finding.error) /
                         without);
    return result;
}

void LookingAhead::multiply(const Finding& finding, bool comes, std::vector<double>& gains) {
    std::vector<double> by_row = ratios(finding);
    if (!comes)
        for (double& ratio : by_row) ratio = 1 / ratio;
    const Shown& feature = shown(finding.feature);
    for (const std::uint32_t s : feature.speaks_of) gains[s] *= by_row[feature.row[s]];
}

/// By set, of one same-observation group.
std::vector<double> LookingAhead::of_group(std::span<const Finding> findings) {
    std::vector<SameObservation> of_sets(sets_.size());
    for (const Finding& finding : findings) {
        const std::vector<double> by_row = ratios(finding);
        const Shown& feature = shown(finding.feature);
        for (const std::uint32_t s : feature.speaks_of) of_sets[s].take(by_row[feature.row[s]]);
    }
    std::vector<double> result;
    result.reserve(of_sets.size());
    for (const SameObservation& of_set : of_sets) result.push_back(of_set.together(ranker_.model().same_observation_counts));
    return result;
}

void LookingAhead::multiply_group(int group, std::span<const std::uint32_t> features, std::span<const Finding> after,
                                  std::vector<double>& gains) {
    std::vector<Finding> before;
    std::vector<Finding> then;
    for (std::uint32_t i = 0; i < found_.size(); ++i) {
        if (ranker_.model().features[i].group != group) continue;
        if (found_[i]) before.push_back(*found_[i]);
        if (std::ranges::find(features, i) == features.end()) {
            if (found_[i]) then.push_back(*found_[i]);
        } else if (const Finding* changed = finding_of(after, i)) {
            then.push_back(*changed);
        }
    }
    auto was = groups_now_.find(group);
    if (was == groups_now_.end()) was = groups_now_.emplace(group, of_group(before)).first;
    const std::vector<double> is = of_group(then);
    for (std::size_t s = 0; s < gains.size(); ++s) gains[s] *= is[s] / was->second[s];
}

/// Of the group nothing was found up to now, and one thing then; it counts in full.
bool LookingAhead::only_one_of(int group, std::span<const Finding> after) const {
    const auto of_group = [&](const Finding& finding) { return ranker_.model().features[finding.feature].group == group; };
    return std::ranges::none_of(now_.situation.findings, of_group) && std::ranges::count_if(after, of_group) == 1;
}

/// `after` are the findings of `features`, of which the others are not found then.
void LookingAhead::multiply_findings(std::span<const std::uint32_t> features, std::span<const Finding> after,
                                     std::vector<double>& gains) {
    std::vector<int> groups;
    for (const std::uint32_t feature : features) {
        const Finding* found = finding_of(after, feature);
        const std::optional<Finding> now = found ? std::optional(*found) : std::nullopt;
        if (same(found_[feature], now)) continue;
        if (const int group = ranker_.model().features[feature].group; group >= 0 && !only_one_of(group, after)) {
            if (!contains(groups, group)) groups.push_back(group);
            continue;
        }
        if (found_[feature]) multiply(*found_[feature], false, gains);
        if (now) multiply(*now, true, gains);
    }
    for (const int group : groups) multiply_group(group, features, after, gains);
    if (const double shrink = ranker_.model().shrink; shrink != 1)
        for (double& gain : gains) gain = std::pow(gain, shrink);
}

/// `factor` is what the cause's odds are multiplied by.
void LookingAhead::multiply_cause(std::uint32_t cause, double factor, bool ruled_out, bool certain,
                                  std::vector<double>& gains) const {
    if (ruled_out) factor = 0;
    if (factor != 1)
        for (const std::uint32_t s : sets_with_[cause]) gains[s] *= factor;
    if (certain)
        for (std::size_t s = 0; s < sets_.size(); ++s)
            if (!sets_[s].contains(cause)) gains[s] = 0;
}

/// What the odds of each set, against none of the listed causes, are multiplied by when `facts_` holds the answer.
std::vector<double> LookingAhead::gains(const Change& change, const Observation& answer) {
    const RuleBase& base = ranker_.rule_base();
    std::vector<double> result(sets_.size(), 1);
    Conclusions conclusions = now_.conclusions;
    chain_again(base, facts_, change.reach, conclusions);
    std::vector<Finding> after;
    ranker_.features().add_findings(change.sign, answer, after);
    for (const auto conclusion : change.reach.conclusions) ranker_.features().add_finding(conclusion, conclusions, after);
    multiply_findings(change.features, after, result);
    const Situation& now = now_.situation;
    if (change.is_stage) {
        // The stage changes how common every cause is.
        const Ranker::Known then = ranker_.know(facts_);
        for (std::uint32_t i = 0; i < base.causes.size(); ++i)
            multiply_cause(
                i, odds(then.prior[i]) / odds(now_.prior[i]) * factor_of(then.situation.prior_shift[i] - now.prior_shift[i]),
                then.situation.ruled_out[i], then.situation.certain[i], result);
        return result;
    }
    if (change.reach.causes.empty()) return result;
    std::optional<Conclusions> sure_conclusions;
    if (sure_) {
        sure_conclusions = sure_conclusions_;
        chain_again(base, *sure_, change.reach, *sure_conclusions);
    }
    for (const auto cause : change.reach.causes) {
        const Ranker::Standing then = ranker_.standing(cause, facts_, conclusions, sure_ ? *sure_ : facts_,
                                                       sure_conclusions ? *sure_conclusions : conclusions);
        multiply_cause(cause.index, factor_of(then.prior_shift - now.prior_shift[cause.index]), then.ruled_out, then.certain,
                       result);
    }
    return result;
}

LookingAhead::Change LookingAhead::change_with(Handle<Sign> sign) const {
    const RuleBase& base = ranker_.rule_base();
    Change change{sign, ranker_.reaches().of(base, sign), {}, base.stage == sign};
    for (const RuleFeatures::SignFeature& own : ranker_.features().features_of(sign)) change.features.push_back(own.feature);
    for (const auto conclusion : change.reach.conclusions)
        if (const auto feature = ranker_.features().feature_of(conclusion)) change.features.push_back(*feature);
    return change;
}

/// By Bayes' rule the answer's chance is its background times the mean of what it does to the odds of the sets; that holds for
/// signs, which follow from causes, and for circumstances, which come before them.
std::vector<LookingAhead::After> LookingAhead::answers(Handle<Sign> handle) {
    const Sign& sign = ranker_.rule_base().signs[handle];
    const Change change = change_with(handle);
    const std::optional<Observation> known = kept(facts_, handle);
    const std::optional<Observation> known_for_sure = sure_ ? kept(*sure_, handle) : std::nullopt;
    std::vector<After> result;
    double all = 0;
    for (std::size_t position = 0; position < sign.answers.size(); ++position) {
        const Observation answer = observation(sign, position);
        facts_.set(handle, answer);
        if (sure_) sure_->set(handle, answer);
        After after{0, gains(change, answer)};
        work_ += change.reach.rules.size() + change.reach.causes.size() + sets_.size();
        double sum = 0;
        for (std::size_t s = 0; s < sets_.size(); ++s) sum += after.chances[s] *= sets_[s].chance;
        if (sum > 0) {
            for (double& chance : after.chances) chance /= sum;
            after.chance = background(handle, position) * sum;
        }
        all += after.chance;
        result.push_back(std::move(after));
    }
    restore(facts_, handle, known);
    if (sure_) restore(*sure_, handle, known_for_sure);
    if (all > 0)
        for (After& after : result) after.chance /= all;
    return result;
}

}  // namespace lidlift
