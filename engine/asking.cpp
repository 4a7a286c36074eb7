#include "engine/asking.hpp"

#include "engine/looking_ahead.hpp"
#include "engine/words.hpp"

#include <algorithm>
#include <utility>

namespace lidlift {
namespace {

/// The steps for now and this week that are needed surely enough, looking and measuring left out.
std::vector<std::uint32_t> needed_steps(const RuleBase& base, const Ranking& ranking, const std::vector<CauseSet>& sets,
                                        const std::vector<double>& chances) {
    std::vector<double> of_cause(base.causes.size(), 0);
    for (std::size_t s = 0; s < sets.size(); ++s)
        for (const auto cause : sets[s].causes()) of_cause[cause] += chances[s];
    std::vector<bool> raised(base.causes.size(), false);
    for (const RankedCause& ranked : ranking.causes)
        raised[ranked.cause.index] = RankedCause{
            .cause = ranked.cause,
            .chance = of_cause[ranked.cause.index],
            .prior = ranked.prior,
            .balance = {},
            .follows_from = {}}.raised();
    std::vector<double> needed(base.steps.size(), 0);
    std::vector<std::size_t> counted(base.steps.size(), sets.size());
    for (std::size_t s = 0; s < sets.size(); ++s)
        for (const auto member : sets[s].causes()) {
            if (!raised[member]) continue;
            for (const auto step : base.causes[Handle<Cause>{member}].steps)
                if (std::exchange(counted[step.index], s) != s) needed[step.index] += chances[s];
        }
    std::vector<std::uint32_t> result;
    for (std::uint32_t i = 0; i < base.steps.size(); ++i) {
        const Step& step = base.steps[Handle<Step>{i}];
        if (step.when != When::from_now_on && step.kind != StepKind::watch && needed[i] >= step.needed_chance)
            result.push_back(i);
    }
    return result;
}

/// The question that tells most for its effort, or one of the last topic that is nearly as good.
std::optional<Handle<Sign>> best(const RuleBase& base, const std::vector<Question>& questions, std::string_view topic,
                                 const AskingLimits& limits) {
    const auto worth = [&](const Question& question) {
        const Sign& sign = base.signs[question.sign];
        return question.bits * (1 - sign.hard_to_tell) / (limits.minutes_to_ask + minutes(sign.effort));
    };
    const Question* first = nullptr;
    const Question* of_topic = nullptr;
    for (const Question& question : questions) {
        if (!first || worth(question) > worth(*first)) first = &question;
        if (base.signs[question.sign].topic == topic && (!of_topic || worth(question) > worth(*of_topic))) of_topic = &question;
    }
    if (!first) return std::nullopt;
    return of_topic && worth(*of_topic) >= limits.near_enough * worth(*first) ? of_topic->sign : first->sign;
}

/// The first cause is likelier for what the caller told unasked; a second trouble that only the questions found does not
/// explain why there was a call.
bool explains_the_call(const Ranker& ranker, const Told& told, const Ranking& ranking,
                       const std::vector<Handle<Sign>>& called_about) {
    if (called_about.empty()) return true;
    Facts without = told.facts;
    for (const auto sign : called_about)
        if (sign != ranker.rule_base().stage) without.forget(sign);
    const Ranking then = ranker.rank_in_brief(without);
    const RankedCause& first = ranking.causes.front();
    return then.contradictory || RankedCause{.cause = first.cause,
                                             .chance = first.chance,
                                             .prior = then.chance_of(first.cause),
                                             .balance = {},
                                             .follows_from = {}}
                                     .raised();
}

}  // namespace

bool sure_enough(const RuleBase& base, const Ranking& ranking, const AskingLimits& limits) {
    if (ranking.causes.empty()) return false;
    const RankedCause& first = ranking.causes.front();
    if (!first.raised() || first.chance < limits.sure) return false;
    for (const RankedCause& other : ranking.causes) {
        if (other.cause == first.cause || other.follows_from == first.cause) continue;
        if (same_remedy(base.causes[first.cause], base.causes[other.cause], base)) continue;
        return decibans(first.chance) - decibans(other.chance) >= limits.lead;
    }
    return true;
}

bool an_answer_may_change_the_steps(const Ranker& ranker, const Told& told, const Ranking& ranking,
                                    const std::vector<Question>& questions, const AskingLimits& limits) {
    LookingAhead ahead(ranker, told, ranking);
    std::vector<double> now;
    for (const CauseSet& set : ahead.sets()) now.push_back(set.chance);
    const auto steps = needed_steps(ranker.rule_base(), ranking, ahead.sets(), now);
    return std::ranges::any_of(questions, [&](const Question& question) {
        return std::ranges::any_of(ahead.answers(question.sign), [&](const LookingAhead::After& after) {
            return after.chance >= limits.possible_answer &&
                   needed_steps(ranker.rule_base(), ranking, ahead.sets(), after.chances) != steps;
        });
    });
}

NextStep next_step(const Ranker& ranker, const Told& told, const Ranking& ranking, std::size_t asked, std::string_view topic,
                   const std::vector<Handle<Sign>>& called_about, const AskingLimits& limits) {
    const RuleBase& base = ranker.rule_base();
    if (sure_enough(base, ranking, limits) && explains_the_call(ranker, told, ranking, called_about))
        return {{}, StopReason::sure_enough};
    if (!points_to_work(base, ranking)) {
        // While nothing speaks for any cause, the question that singles out a rare one would tell most, and be beside the
        // point; where all looks well, so would be one that singles out a harmless one.
        if (asked >= limits.most_questions) return {{}, StopReason::enough_questions};
        const auto first = first_questions(ranker, told, ranking, 1);
        if (first.empty() || asked >= limits.most_general_questions) return {{}, StopReason::nothing_to_ask};
        return {first.front().sign, {}, first};
    }
    auto questions = next_questions(ranker, told, ranking, base.signs.size(), Aim::remedies);
    std::erase_if(questions, [&](const Question& question) {
        return question.bits * (1 - base.signs[question.sign].hard_to_tell) < limits.least_bits;
    });
    if (questions.empty()) return {{}, StopReason::nothing_to_ask};
    if (!an_answer_may_change_the_steps(ranker, told, ranking, questions, limits)) return {{}, StopReason::nothing_changes};
    if (asked >= limits.most_questions) return {{}, StopReason::enough_questions};
    const auto ask = best(base, questions, topic, limits);
    return {ask, {}, std::move(questions)};
}

}  // namespace lidlift
