// The main job in one call: what was told -> what it probably is, what to do, and what to look at next.
#pragma once

#include "engine/advice.hpp"
#include "engine/answers.hpp"
#include "engine/next_question.hpp"
#include "engine/open_question.hpp"
#include "engine/ranking.hpp"
#include "engine/steadiness.hpp"
#include "engine/step_amount.hpp"
#include "engine/tank_facts.hpp"

#include <algorithm>
#include <optional>
#include <string>
#include <vector>

namespace lidlift {

struct Diagnosis {
    Told told;
    std::vector<std::string> not_understood;
    std::vector<OpenQuestion> to_ask;  ///< of the person's own words, in the order in which they were said
    Ranking ranking;
    Advice advice;
    std::vector<Question> ask_next;
    std::optional<Steadiness> steadiness;   ///< of the first cause; only where it was asked for and there is one
    std::optional<TankSeen> tank = {};      ///< whose record `told` holds facts of
    std::vector<StepAmounts> amounts = {};  ///< of advice.steps, in their order; empty where there is no tank
};

inline constexpr std::size_t questions_to_show = 3;

/// What is left out of a diagnosis costs nothing.
struct DiagnosisParts {
    bool balances = true;  ///< balance sheets of the causes that a report lists
    bool ask_next = true;
};

[[nodiscard]] inline Diagnosis diagnose(const Ranker& ranker, Told told, std::vector<std::string> not_understood = {},
                                        std::vector<OpenQuestion> to_ask = {}, DiagnosisParts parts = {}) {
    Diagnosis diagnosis{std::move(told), std::move(not_understood), std::move(to_ask), {}, {}, {}, {}};
    std::erase_if(diagnosis.to_ask, [&](const OpenQuestion& open) {
        return std::ranges::any_of(open.signs, [&](Handle<Sign> sign) {
            return std::ranges::find(diagnosis.told.order, sign) != diagnosis.told.order.end();
        });
    });
    diagnosis.ranking = ranker.rank_in_brief(diagnosis.told.facts);
    if (parts.balances) ranker.explain(diagnosis.ranking, diagnosis.told.facts, &RankedCause::reported);
    diagnosis.advice = advise(ranker.rule_base(), diagnosis.told, diagnosis.ranking);
    if (!parts.ask_next) return diagnosis;
    diagnosis.ask_next = points_to_work(ranker.rule_base(), diagnosis.ranking)
                             ? next_questions(ranker, diagnosis.told, diagnosis.ranking, questions_to_show)
                             : first_questions(ranker, diagnosis.told, diagnosis.ranking, questions_to_show);
    // Where the rule base names no sign for it, the question that tells most is what decides between two opposite steps.
    if (diagnosis.advice.unsettled && !diagnosis.ask_next.empty())
        diagnosis.advice.find_out.push_back(
            {diagnosis.ask_next.front().sign, "it may settle which of two opposite steps is right"});
    return diagnosis;
}

/// How steady the first cause of a diagnosis is; nothing where there is none.
[[nodiscard]] inline std::optional<Steadiness> steadiness_of(const Ranker& ranker, const Diagnosis& diagnosis) {
    if (diagnosis.ranking.causes.empty()) return std::nullopt;
    const Ranker::Case prepared = ranker.prepare(diagnosis.told.facts);
    return steadiness(prepared.model, prepared.situation, diagnosis.ranking.causes.front().cause.index);
}

}  // namespace lidlift
