#include "engine/change_of_mind.hpp"

#include "engine/looking_ahead.hpp"

#include <algorithm>
#include <cmath>
#include <functional>

namespace lidlift {
namespace {

/// Chances that differ by less than this look nearly the same on a page.
constexpr double least_to_tell = 0.015;

Facts with(const Facts& facts, const RuleBase& base, Handle<Sign> sign, std::size_t answer) {
    Facts result = facts;
    result.set(sign, LookingAhead::observation(base.signs[sign], answer));
    return result;
}

/// The steps for now and this week, looking left out, in the order of the rule base.
std::vector<Handle<Step>> steps_soon(const RuleBase& base, const Advice& advice) {
    std::vector<Handle<Step>> result;
    for (const PlannedStep& planned : advice.steps)
        if (const Step& step = base.steps[planned.step]; step.when != When::from_now_on && step.kind != StepKind::watch)
            result.push_back(planned.step);
    std::ranges::sort(result);
    return result;
}

bool new_danger(const RuleBase& base, const Advice& before, const Advice& after) {
    return std::ranges::any_of(after.cautions, [&](Handle<Caution> caution) {
        return base.cautions[caution].level == Level::stop &&
               std::ranges::find(before.cautions, caution) == before.cautions.end();
    });
}

std::optional<Handle<Cause>> first_raised(const Ranking& ranking) {
    if (ranking.causes.empty() || !ranking.causes.front().raised()) return std::nullopt;
    return ranking.causes.front().cause;
}

}  // namespace

std::vector<WhatIf> what_if(const Ranker& ranker, const Told& told, const Ranking& ranking, Handle<Sign> sign) {
    std::vector<WhatIf> result;
    const RuleBase& base = ranker.rule_base();
    if (ranking.contradictory) return result;
    for (std::size_t answer = 0; answer < base.signs[sign].answers.size(); ++answer) {
        WhatIf what{answer, {}};
        const Ranking then = ranker.rank_in_brief(with(told.facts, base, sign, answer));
        for (const RankedCause& now : ranking.causes) {
            const double after = then.contradictory ? now.chance : then.chance_of(now.cause);
            if (std::abs(after - now.chance) >= least_to_tell) what.moved.push_back({now.cause, now.chance, after});
        }
        std::ranges::stable_sort(what.moved, std::greater{}, [](const MovedChance& m) { return std::abs(m.after - m.before); });
        if (what.moved.size() > most_moved) what.moved.resize(most_moved);
        result.push_back(std::move(what));
    }
    return result;
}

std::vector<ChangeOfMind> changes_of_mind(const Ranker& ranker, const Diagnosis& diagnosis) {
    std::vector<ChangeOfMind> result;
    const RuleBase& base = ranker.rule_base();
    if (diagnosis.ranking.contradictory) return result;
    const auto steps = steps_soon(base, diagnosis.advice);
    const auto first = first_raised(diagnosis.ranking);
    LookingAhead ahead(ranker, diagnosis.told, diagnosis.ranking);
    std::size_t tried = 0;
    for (const Question& question : next_questions(ranker, diagnosis.told, diagnosis.ranking, base.signs.size())) {
        if (result.size() == most_changes_of_mind || tried >= most_answers_tried) break;
        std::optional<ChangeOfMind> best;
        const auto answers = ahead.answers(question.sign);
        // The likeliest answer mostly bears out what is thought already, so the others come first.
        std::vector<std::size_t> order;
        for (std::size_t i = 0; i < answers.size(); ++i)
            if (answers[i].chance >= least_likely_answer) order.push_back(i);
        std::ranges::stable_sort(order, {}, [&](std::size_t i) { return answers[i].chance; });
        for (const std::size_t answer : order) {
            if (tried++ >= most_answers_tried) break;
            Told told = diagnosis.told;
            told.facts = with(told.facts, base, question.sign, answer);
            const Ranking ranking = ranker.rank_in_brief(told.facts);
            if (ranking.contradictory) continue;
            const Advice advice = advise(base, told, ranking);
            ChangeOfMind change{
                question.sign, answer, {}, steps_soon(base, advice) != steps, new_danger(base, diagnosis.advice, advice)};
            if (first_raised(ranking) != first) change.first = first_raised(ranking);
            if (!change.first && !change.steps && !change.danger) continue;
            if (!best || (change.first && !best->first)) best = change;
            if (best->first) break;
        }
        if (best) result.push_back(*best);
    }
    return result;
}

}  // namespace lidlift
