#include "engine/next_question.hpp"

#include <algorithm>
#include <array>
#include <cmath>
#include <functional>
#include <iterator>
#include <map>
#include <numeric>
#include <utility>

namespace lidlift {
namespace {

/// Sets of causes beyond this share of the chance cannot make a question worth asking.
constexpr double share_that_matters = 0.99;
constexpr std::size_t most_sets = 300;
/// Looking ahead ends after so many rules and sets looked at, so that a huge rule base still answers at once; the default one
/// needs a tenth.
constexpr std::size_t most_work = 20'000'000;
/// A cause less likely than this is not worth a question of its own.
constexpr double least_chance = 0.02;

double minutes(Effort effort) {
    static constexpr std::array<double, 5> by_effort = {1, 2, 2, 5, 20};
    return by_effort[static_cast<std::size_t>(effort)];
}

/// The likeliest sets, their chances adding up to 1 again.
Weighed likeliest(const Weighed& weighed) {
    std::vector<CauseSet> sets = weighed.sets;
    std::ranges::stable_sort(sets, std::greater{}, &CauseSet::chance);
    double sum = 0;
    std::size_t kept = 0;
    while (kept < sets.size() && kept < most_sets && sum < share_that_matters) sum += sets[kept++].chance;
    sets.resize(kept);
    Weighed result;
    for (CauseSet& set : sets) set.chance /= sum;
    result.sets = std::move(sets);
    return result;
}

class Chooser {
public:
    Chooser(const Ranker& ranker, const Told& told, const Ranking& ranking)
        : ranker_(ranker),
          base_(ranker.rule_base()),
          told_(told),
          likely_(likeliest(ranking.weighed)),
          now_(ranker.prepare(told.facts)) {
        relevant_.assign(base_.signs.size(), false);
        std::vector<bool> matters(base_.causes.size(), false);
        const bool any_raised = std::ranges::any_of(
            ranking.causes, [](const RankedCause& cause) { return cause.raised() && cause.chance >= least_chance; });
        for (const RankedCause& cause : ranking.causes) {
            if (cause.chance < least_chance || (any_raised && !cause.raised())) continue;
            matters[cause.cause.index] = true;
            mark_relevant(base_.causes[cause.cause]);
        }
        sort_into_classes(matters);
        if (base_.stage) relevant_[base_.stage->index] = true;
    }

    [[nodiscard]] std::vector<Question> questions() const {
        std::vector<Question> result;
        std::size_t work = 0;
        for (std::uint32_t i = 0; i < base_.signs.size() && work < most_work; ++i) {
            const Handle<Sign> handle{i};
            const Sign& sign = base_.signs[handle];
            const bool asked = told_.facts.find(handle) || std::ranges::find(told_.not_known, handle) != told_.not_known.end();
            if (asked || !relevant_[i] || sign.answers.empty()) continue;
            const double bits = expected_information(handle, sign);
            work += sign.answers.size() *
                    (base_.rules.size() + base_.causes.size() + likely_.sets.size() * now_.situation.findings.size());
            result.push_back({handle, bits, bits * (1 - sign.hard_to_tell) / minutes(sign.effort)});
        }
        std::ranges::stable_sort(result, std::greater{}, &Question::value);
        return result;
    }

private:
    /// Sets of causes that differ only in causes which the answers do not speak for are one class: a question that could only
    /// tell those apart is beside the point, however much it would teach.
    void sort_into_classes(const std::vector<bool>& matters) {
        std::map<std::vector<std::uint16_t>, std::size_t> classes;
        for (const CauseSet& set : likely_.sets) {
            std::vector<std::uint16_t> members;
            std::ranges::copy_if(set.causes(), std::back_inserter(members),
                                 [&](std::uint16_t cause) { return matters[cause]; });
            class_of_set_.push_back(classes.try_emplace(members, classes.size()).first->second);
        }
        class_count_ = classes.size();
    }

    void mark_relevant(const Cause& cause) {
        const auto mark = [&](const Condition& condition) {
            for (const auto sign : signs_to_settle(condition, base_, told_.facts, now_.conclusions))
                relevant_[sign.index] = true;
        };
        for (const Link& link : cause.links) {
            if (const auto* says = std::get_if<Says>(&link.when)) relevant_[says->sign.index] = true;
            if (const auto* concluded = std::get_if<Concluded>(&link.when)) mark(Condition{*concluded});
        }
        for (const Circumstance& circumstance : cause.made_likelier_by) mark(circumstance.when);
        if (cause.cannot_be_when) mark(*cause.cannot_be_when);
        if (cause.must_be_when) mark(*cause.must_be_when);
    }

    /// One possible answer and how it would be entered.
    struct Hypothesis {
        Observation observation;
        double chance;
    };

    [[nodiscard]] std::vector<Hypothesis> hypotheses(Handle<Sign> handle, const Sign& sign) const {
        const auto& features = ranker_.features_of(handle);
        std::vector<Hypothesis> result;
        std::vector<double> exclusive;
        if (base_.stage == handle)
            exclusive = predicted_stages(sign);
        else if (sign.sort != SignSort::several && !features.empty())
            exclusive = predicted(now_.model, likely_, features.front().feature);
        for (std::size_t i = 0; i < sign.answers.size(); ++i) {
            Hypothesis hypothesis{{}, 1};
            if (sign.sort == SignSort::several) {
                const bool none = sign.answers[i].none_of_these;
                hypothesis.observation.present = answer_set(i);
                hypothesis.observation.absent = none ? all_answers(sign.answers.size()) & ~answer_set(i) : 0;
                hypothesis.chance = none ? 0.5 : several_chance(features, i, sign);
            } else {
                hypothesis.observation.possible = answer_set(i);
                if (sign.sort == SignSort::quantity) hypothesis.observation.measured = sign.band(i);
                hypothesis.chance = exclusive.empty()
                                        ? sign.answers[i].seen_anyway.value_or(1.0 / static_cast<double>(sign.answers.size()))
                                        : exclusive[i];
            }
            result.push_back(std::move(hypothesis));
        }
        const double sum =
            std::accumulate(result.begin(), result.end(), 0.0, [](double s, const Hypothesis& h) { return s + h.chance; });
        if (sum <= 0) return {};
        for (Hypothesis& hypothesis : result) hypothesis.chance /= sum;
        return result;
    }

    /// A stage filters causes; so the causes that are likely say which stages are.
    [[nodiscard]] std::vector<double> predicted_stages(const Sign& stage) const {
        std::vector<double> chances(stage.answers.size(), 0);
        for (const CauseSet& set : likely_.sets) {
            AnswerSet allowed = all_answers(stage.answers.size());
            for (const auto cause : set.causes()) allowed &= base_.causes[Handle<Cause>{cause}].stages;
            double sum = 0;
            const auto share = [&](std::size_t i) {
                return (allowed & answer_set(i)) != 0 ? stage.answers[i].seen_anyway.value_or(1.0) : 0.0;
            };
            for (std::size_t i = 0; i < chances.size(); ++i) sum += share(i);
            if (sum <= 0) continue;
            for (std::size_t i = 0; i < chances.size(); ++i) chances[i] += set.chance * share(i) / sum;
        }
        return chances;
    }

    [[nodiscard]] double several_chance(const std::vector<Ranker::SignFeature>& features, std::size_t answer,
                                        const Sign& sign) const {
        const auto found = std::ranges::find_if(features, [&](const auto& feature) { return feature.answer == answer; });
        if (found != features.end()) return predicted(now_.model, likely_, found->feature).front();
        return sign.answers[answer].seen_anyway.value_or(0.1);
    }

    [[nodiscard]] double expected_information(Handle<Sign> handle, const Sign& sign) const {
        std::vector<double> mixture(class_count_, 0);
        double within = 0;
        for (const Hypothesis& hypothesis : hypotheses(handle, sign)) {
            Facts facts = told_.facts;
            facts.set(handle, hypothesis.observation);
            const std::vector<double> after = chances_after(facts);
            if (after.empty()) continue;
            for (std::size_t i = 0; i < after.size(); ++i) mixture[i] += hypothesis.chance * after[i];
            within += hypothesis.chance * entropy(after);
        }
        return std::max(0.0, entropy(mixture) - within);
    }

    /// Chances of the classes of sets if `facts` were known; empty if they rule out all of them.
    [[nodiscard]] std::vector<double> chances_after(const Facts& facts) const {
        const Ranker::Case after = ranker_.prepare(facts);
        const std::vector<double> sets = rescore(after.model, after.situation, likely_.sets);
        if (sets.empty()) return {};
        std::vector<double> chances(class_count_, 0);
        for (std::size_t i = 0; i < sets.size(); ++i) chances[class_of_set_[i]] += sets[i];
        return chances;
    }

    const Ranker& ranker_;
    const RuleBase& base_;
    const Told& told_;
    Weighed likely_;
    Ranker::Case now_;
    std::vector<bool> relevant_;
    std::vector<std::size_t> class_of_set_;
    std::size_t class_count_ = 0;
};

}  // namespace

std::vector<Question> next_questions(const Ranker& ranker, const Told& told, const Ranking& ranking, std::size_t most) {
    if (ranking.weighed.sets.empty()) return {};
    std::vector<Question> questions = Chooser(ranker, told, ranking).questions();
    std::erase_if(questions, [](const Question& question) { return question.bits < 0.005; });
    if (questions.size() > most) questions.resize(most);
    return questions;
}

}  // namespace lidlift
