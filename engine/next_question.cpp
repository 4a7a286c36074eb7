#include "engine/next_question.hpp"

#include <algorithm>
#include <array>
#include <cmath>
#include <functional>
#include <iterator>
#include <map>
#include <string_view>
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

    /// The answer at `position`, as it would be entered.
    static Observation observation(const Sign& sign, std::size_t position) {
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
    static double background(const Sign& sign, std::size_t position) {
        const Answer& answer = sign.answers[position];
        if (answer.seen_anyway) return *answer.seen_anyway;
        if (!answer.none_of_these) return 1.0 / static_cast<double>(sign.answers.size());
        double none = 1;
        for (const Answer& other : sign.answers) none *= 1 - other.seen_anyway.value_or(0);
        return none;
    }

    /// What an answer would leave of the likely sets.
    struct After {
        double weight = 0;            ///< chance of the answer, up to a factor that all answers share
        std::vector<double> chances;  ///< of the classes of sets
    };

    /// By Bayes' rule the answer's chance is its background times the mean of what it does to the odds of the sets; that holds
    /// for signs, which follow from causes, and for circumstances, which come before them.
    [[nodiscard]] After after(Handle<Sign> handle, const Sign& sign, std::size_t position) const {
        Facts facts = told_.facts;
        facts.set(handle, observation(sign, position));
        const Ranker::Case hypothetical = ranker_.prepare(facts);
        const std::vector<double> scored = scores(hypothetical.model, hypothetical.situation, likely_.sets);
        After result{0, std::vector<double>(class_count_, 0)};
        double sum = 0;
        for (std::size_t i = 0; i < scored.size(); ++i) {
            const CauseSet& set = likely_.sets[i];
            const double chance = set.chance * std::pow(10.0, (scored[i] - set.score) / 10);
            result.chances[class_of_set_[i]] += chance;
            sum += chance;
        }
        if (sum <= 0) return result;
        for (double& chance : result.chances) chance /= sum;
        result.weight = background(sign, position) * sum;
        return result;
    }

    [[nodiscard]] double expected_information(Handle<Sign> handle, const Sign& sign) const {
        std::vector<After> answers;
        double sum = 0;
        for (std::size_t i = 0; i < sign.answers.size(); ++i) {
            answers.push_back(after(handle, sign, i));
            sum += answers.back().weight;
        }
        if (sum <= 0) return 0;
        std::vector<double> mixture(class_count_, 0);
        double within = 0;
        for (const After& answer : answers) {
            const double chance = answer.weight / sum;
            for (std::size_t i = 0; i < mixture.size(); ++i) mixture[i] += chance * answer.chances[i];
            within += chance * entropy(answer.chances);
        }
        return std::max(0.0, entropy(mixture) - within);
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

/// The signs that a cause hangs on, directly or through its conclusions, each once.
std::vector<bool> signs_of(const Cause& cause, const RuleBase& base, const Told& told, const Ranker::Case& now) {
    std::vector<bool> result(base.signs.size(), false);
    for (const Link& link : cause.links) {
        if (const auto* says = std::get_if<Says>(&link.when)) result[says->sign.index] = true;
        if (const auto* concluded = std::get_if<Concluded>(&link.when))
            for (const auto sign : signs_to_settle(Condition{*concluded}, base, told.facts, now.conclusions))
                result[sign.index] = true;
    }
    return result;
}

}  // namespace

std::vector<Question> first_questions(const Ranker& ranker, const Told& told, const Ranking& ranking, std::size_t most) {
    const RuleBase& base = ranker.rule_base();
    std::vector<std::size_t> causes(base.signs.size(), 0);
    const Ranker::Case now = ranker.prepare(told.facts);
    for (const Cause& cause : base.causes) {
        const auto signs = signs_of(cause, base, told, now);
        for (std::size_t i = 0; i < signs.size(); ++i) causes[i] += signs[i];
    }
    std::vector<Question> questions = next_questions(ranker, told, ranking, base.signs.size());
    std::ranges::stable_sort(questions, std::greater{}, [&](const Question& q) { return causes[q.sign.index]; });
    std::vector<std::string_view> topics;
    std::erase_if(questions, [&](const Question& question) {
        const std::string_view topic = base.signs[question.sign].topic;
        if (std::ranges::find(topics, topic) != topics.end()) return true;
        topics.push_back(topic);
        return false;
    });
    if (questions.size() > most) questions.resize(most);
    return questions;
}

std::vector<Question> next_questions(const Ranker& ranker, const Told& told, const Ranking& ranking, std::size_t most) {
    if (ranking.weighed.sets.empty()) return {};
    std::vector<Question> questions = Chooser(ranker, told, ranking).questions();
    std::erase_if(questions, [](const Question& question) { return question.bits < 0.005; });
    if (questions.size() > most) questions.resize(most);
    return questions;
}

}  // namespace lidlift
