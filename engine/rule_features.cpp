#include "engine/rule_features.hpp"

#include "engine/words.hpp"

#include <algorithm>
#include <utility>

namespace lidlift {
namespace {

/// The answers of a subject that a link speaks of, and their background together.
double background_of(const Feature& feature, AnswerSet answers) {
    double sum = 0;
    for (std::size_t value = 0; value < feature.background.size(); ++value)
        if ((answers & answer_set(value)) != 0) sum += feature.background[value];
    return sum;
}

}  // namespace

RuleFeatures::RuleFeatures(const RuleBase& rule_base)
    : rule_base_(rule_base), features_of_sign_(rule_base.signs.size()), feature_of_conclusion_(rule_base.conclusions.size()) {
    model_.same_observation_counts = rule_base.weighing.same_observation_counts;
    model_.largest_set = rule_base.weighing.largest_set;
    for (std::uint32_t i = 0; i < rule_base.causes.size(); ++i) {
        const Cause& cause = rule_base.causes[Handle<Cause>{i}];
        model_.prior.push_back(cause.how_common);
        if (cause.alone) model_.alone.push_back(i);
        for (const auto other : cause.not_together_with) model_.never_together.emplace_back(i, other.index);
    }
    add_features();
    add_links();
}

void RuleFeatures::add_feature(Feature feature, const Subject& subject, const std::string& group) {
    if (!group.empty()) feature.group = groups_.emplace(group, static_cast<int>(groups_.size())).first->second;
    const auto index = static_cast<std::uint32_t>(model_.features.size());
    if (subject.sign) features_of_sign_[subject.sign->index].push_back({index, subject.answer});
    if (subject.conclusion) feature_of_conclusion_[subject.conclusion->index] = index;
    model_.features.push_back(std::move(feature));
    subjects_.push_back(subject);
}

void RuleFeatures::add_features() {
    for (std::uint32_t i = 0; i < rule_base_.signs.size(); ++i) {
        const Handle<Sign> handle{i};
        const Sign& sign = rule_base_.signs[handle];
        if (sign.sort == SignSort::several) {
            for (std::size_t answer = 0; answer < sign.answers.size(); ++answer)
                if (const auto background = sign.answers[answer].seen_anyway)
                    add_feature({.background = {*background, 1 - *background}, .links = {}}, {handle, answer, {}},
                                sign.same_observation);
        } else if (std::ranges::all_of(sign.answers, [](const Answer& a) { return a.seen_anyway.has_value(); }) &&
                   !sign.answers.empty()) {
            Feature feature;
            for (const Answer& answer : sign.answers) feature.background.push_back(*answer.seen_anyway);
            add_feature(std::move(feature), {handle, {}, {}}, sign.same_observation);
        }
    }
    for (std::uint32_t i = 0; i < rule_base_.conclusions.size(); ++i) {
        const Conclusion& conclusion = rule_base_.conclusions[Handle<Conclusion>{i}];
        if (const auto background = conclusion.seen_anyway)
            add_feature({.background = {*background, 1 - *background}, .links = {}}, {{}, {}, Handle<Conclusion>{i}},
                        conclusion.same_observation);
    }
}

void RuleFeatures::add_links() {
    for (std::uint32_t cause = 0; cause < rule_base_.causes.size(); ++cause)
        for (const Link& link : rule_base_.causes[Handle<Cause>{cause}].links) add_link(cause, link);
}

void RuleFeatures::add_link(std::uint32_t cause, const Link& link) {
    if (const auto* concluded = std::get_if<Concluded>(&link.when)) {
        Feature& feature = model_.features[*feature_of_conclusion_[concluded->conclusion.index]];
        feature.links.push_back({cause, 0, with_finite_odds(link.seen.value_or(feature.background[0] * link.factor))});
        return;
    }
    const Says& says = std::get<Says>(link.when);
    const Sign& sign = rule_base_.signs[says.sign];
    const auto& features = features_of_sign_[says.sign.index];
    if (sign.sort == SignSort::several) {
        const auto found =
            std::ranges::find_if(features, [&](const SignFeature& f) { return answer_set(*f.answer) == says.answers; });
        if (found == features.end()) return;
        Feature& feature = model_.features[found->feature];
        feature.links.push_back({cause, 0, with_finite_odds(link.seen.value_or(feature.background[0] * link.factor))});
        return;
    }
    Feature& feature = model_.features[features.front().feature];
    const double background = background_of(feature, says.answers);
    const double factor = link.seen ? *link.seen / background : link.factor;
    if (feature.background.size() == 2) {
        // A link to "no" is one to "yes" seen from the other side.
        if (says.answers == answer_set(0)) feature.links.push_back({cause, 0, with_finite_odds(background * factor)});
        if (says.answers == answer_set(1)) feature.links.push_back({cause, 0, with_finite_odds(1 - background * factor)});
        return;
    }
    for (std::uint32_t value = 0; value < feature.background.size(); ++value)
        if ((says.answers & answer_set(value)) != 0)
            feature.links.push_back({cause, value, with_finite_odds(feature.background[value] * factor)});
}

double RuleFeatures::error(Sureness sureness) const {
    switch (sureness) {
        case Sureness::sure:
            return rule_base_.weighing.wrong_when_sure;
        case Sureness::unsure:
            return rule_base_.weighing.wrong_when_unsure;
        case Sureness::guess:
            return rule_base_.weighing.wrong_when_guess;
    }
    return 0;
}

void RuleFeatures::add_findings(Handle<Sign> sign, const Observation& seen, std::vector<Finding>& into) const {
    for (const SignFeature& feature : features_of_sign_[sign.index]) {
        if (feature.answer) {
            const AnswerSet answer = answer_set(*feature.answer);
            if ((seen.present & answer) != 0) into.push_back({feature.feature, answer_set(0), error(seen.sureness)});
            if ((seen.absent & answer) != 0) into.push_back({feature.feature, answer_set(1), error(seen.sureness)});
        } else if (seen.possible != 0 && seen.possible != all_answers(model_.features[feature.feature].background.size())) {
            into.push_back({feature.feature, seen.possible, error(seen.sureness)});
        }
    }
}

void RuleFeatures::add_finding(Handle<Conclusion> conclusion, const Conclusions& conclusions,
                               std::vector<Finding>& into) const {
    const std::size_t i = conclusion.index;
    if (!feature_of_conclusion_[i] || conclusions.truth[i] == Truth::unknown) return;
    const AnswerSet value = answer_set(conclusions.truth[i] == Truth::yes ? 0 : 1);
    into.push_back({*feature_of_conclusion_[i], value, error(conclusions.sureness[i])});
}

std::vector<Finding> RuleFeatures::findings(const Facts& facts, const Conclusions& conclusions) const {
    std::vector<Finding> result;
    for (const auto sign : facts.known()) add_findings(sign, *facts.find(sign), result);
    for (std::uint32_t i = 0; i < conclusions.truth.size(); ++i) add_finding({i}, conclusions, result);
    return result;
}

}  // namespace lidlift
