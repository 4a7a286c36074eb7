#include "engine/next_question.hpp"

#include "engine/contains.hpp"
#include "engine/looking_ahead.hpp"

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

/// Looking ahead ends after so much work, so that a huge rule base still answers at once; the default one needs a hundredth.
constexpr std::size_t most_work = 20'000'000;
/// A cause less likely than this is not worth a question of its own.
constexpr double least_chance = 0.02;
/// A cause that needs mending is asked after from this chance on, even where a harmless one is likelier.
constexpr double likely_enough_to_matter = 0.05;
/// A sign that fewer causes hang on than this share of what hangs on the first one is no general question.
constexpr double general_share = 0.1;

/// What a cause asks for that is not to wait: its steps for now and for this week, and the cautions to be read. Cautions are
/// numbered after the steps.
void add_remedy(const Cause& cause, const RuleBase& base, std::vector<std::uint32_t>& remedy) {
    for (const auto step : cause.steps)
        if (base.steps[step].when != When::from_now_on) remedy.push_back(step.index);
    for (const auto caution : cause.cautions) remedy.push_back(static_cast<std::uint32_t>(base.steps.size()) + caution.index);
}

class Chooser {
public:
    Chooser(const Ranker& ranker, const Told& told, const Ranking& ranking, Aim aim)
        : base_(ranker.rule_base()), told_(told), ahead_(ranker, told, ranking) {
        relevant_.assign(base_.signs.size(), false);
        std::vector<bool> matters(base_.causes.size(), false);
        const bool any_raised = std::ranges::any_of(
            ranking.causes, [](const RankedCause& cause) { return cause.raised() && cause.chance >= least_chance; });
        for (const RankedCause& cause : ranking.causes) {
            if (cause.chance < least_chance || (any_raised && !cause.raised())) continue;
            matters[cause.cause.index] = true;
            mark_relevant(base_.causes[cause.cause]);
        }
        sort_into_classes(matters, aim);
        if (base_.stage) relevant_[base_.stage->index] = true;
    }

    [[nodiscard]] std::vector<Question> questions() {
        std::vector<Question> result;
        for (std::uint32_t i = 0; i < base_.signs.size() && ahead_.work() < most_work; ++i) {
            const Handle<Sign> handle{i};
            const Sign& sign = base_.signs[handle];
            const bool asked = told_.facts.find(handle) || std::ranges::find(told_.not_known, handle) != told_.not_known.end();
            if (asked || !relevant_[i] || sign.answers.empty()) continue;
            const double bits = expected_information(handle);
            result.push_back({handle, bits, bits * (1 - sign.hard_to_tell) / minutes(sign.effort)});
        }
        std::ranges::stable_sort(result, std::greater{}, &Question::value);
        return result;
    }

private:
    /// Sets of causes that differ only in causes which the answers do not speak for are one class: a question that could only
    /// tell those apart is beside the point, however much it would teach. For what is to be done, so are sets that ask for the
    /// same.
    void sort_into_classes(const std::vector<bool>& matters, Aim aim) {
        std::map<std::vector<std::uint32_t>, std::size_t> classes;
        for (const CauseSet& set : ahead_.sets()) {
            std::vector<std::uint32_t> key;
            for (const std::uint16_t member : set.causes()) {
                if (!matters[member]) continue;
                if (aim == Aim::causes)
                    key.push_back(member);
                else
                    add_remedy(base_.causes[{member}], base_, key);
            }
            std::ranges::sort(key);
            key.erase(std::unique(key.begin(), key.end()), key.end());
            class_of_set_.push_back(classes.try_emplace(std::move(key), classes.size()).first->second);
        }
        class_count_ = classes.size();
    }

    void mark_relevant(const Cause& cause) {
        const auto mark = [&](const Condition& condition) {
            for (const auto sign : signs_to_settle(condition, base_, told_.facts, ahead_.now().conclusions))
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

    [[nodiscard]] double expected_information(Handle<Sign> handle) {
        std::vector<double> mixture(class_count_, 0);
        double within = 0;
        for (const LookingAhead::After& answer : ahead_.answers(handle)) {
            std::vector<double> classes(class_count_, 0);
            for (std::size_t s = 0; s < answer.chances.size(); ++s) classes[class_of_set_[s]] += answer.chances[s];
            for (std::size_t i = 0; i < class_count_; ++i) mixture[i] += answer.chance * classes[i];
            within += answer.chance * entropy(classes);
        }
        return std::max(0.0, entropy(mixture) - within);
    }

    const RuleBase& base_;
    const Told& told_;
    LookingAhead ahead_;
    std::vector<bool> relevant_;
    std::vector<std::size_t> class_of_set_;
    std::size_t class_count_ = 0;
};

/// The signs that a cause hangs on, directly or through its conclusions, each once.
std::vector<bool> signs_of(const Cause& cause, const RuleBase& base, const Told& told, const Conclusions& now) {
    std::vector<bool> result(base.signs.size(), false);
    for (const Link& link : cause.links) {
        if (const auto* says = std::get_if<Says>(&link.when)) result[says->sign.index] = true;
        if (const auto* concluded = std::get_if<Concluded>(&link.when))
            for (const auto sign : signs_to_settle(Condition{*concluded}, base, told.facts, now)) result[sign.index] = true;
    }
    return result;
}

}  // namespace

bool points_to_work(const RuleBase& base, const Ranking& ranking) {
    bool first = true;
    for (const RankedCause& ranked : ranking.causes) {
        if (!ranked.raised()) continue;
        if (!base.causes[ranked.cause].benign && (first || ranked.chance >= likely_enough_to_matter)) return true;
        first = false;
    }
    return false;
}

std::vector<Question> first_questions(const Ranker& ranker, const Told& told, const Ranking& ranking, std::size_t most) {
    const RuleBase& base = ranker.rule_base();
    if (ranking.contradictory) return {};
    std::vector<std::size_t> causes(base.signs.size(), 0);
    for (const RankedCause& ranked : ranking.causes) {
        if (base.causes[ranked.cause].benign) continue;
        const auto signs = signs_of(base.causes[ranked.cause], base, told, ranking.conclusions);
        for (std::size_t i = 0; i < signs.size(); ++i) causes[i] += signs[i];
    }
    const std::size_t most_causes = causes.empty() ? 0 : *std::ranges::max_element(causes);
    const auto is_general = [&](Handle<Sign> sign) {
        return causes[sign.index] > 0 &&
               general_share * static_cast<double>(most_causes) <= static_cast<double>(causes[sign.index]);
    };
    std::vector<Handle<Sign>> told_or_asked = told.facts.known();
    told_or_asked.insert(told_or_asked.end(), told.not_known.begin(), told.not_known.end());
    const auto worth = [&](Handle<Sign> handle) {
        const Sign& sign = base.signs[handle];
        const auto of_topic = std::ranges::count_if(
            told_or_asked, [&](Handle<Sign> other) { return is_general(other) && base.signs[other].topic == sign.topic; });
        return static_cast<double>(causes[handle.index]) * (1 - sign.hard_to_tell) /
               ((minutes_to_ask + minutes(sign.effort)) * static_cast<double>(1 + 2 * of_topic));
    };
    const auto telling = next_questions(ranker, told, ranking, base.signs.size());
    std::vector<Question> questions;
    for (std::uint32_t i = 0; i < base.signs.size(); ++i) {
        const Handle<Sign> sign{i};
        if (!is_general(sign) || base.signs[sign].answers.empty() || contains(told_or_asked, sign)) continue;
        const auto found = std::ranges::find(telling, sign, &Question::sign);
        questions.push_back({sign, found == telling.end() ? 0 : found->bits, worth(sign)});
    }
    std::ranges::stable_sort(questions, std::greater{}, &Question::value);
    std::vector<std::string_view> topics;
    std::erase_if(questions, [&](const Question& question) {
        const std::string_view topic = base.signs[question.sign].topic;
        if (contains(topics, topic)) return true;
        topics.push_back(topic);
        return false;
    });
    if (questions.size() > most) questions.resize(most);
    return questions;
}

double minutes(Effort effort) {
    static constexpr std::array<double, 5> by_effort = {1, 2, 2, 5, 20};
    return by_effort[static_cast<std::size_t>(effort)];
}

bool same_remedy(const Cause& a, const Cause& b, const RuleBase& base) {
    const auto remedy = [&](const Cause& cause) {
        std::vector<std::uint32_t> list;
        add_remedy(cause, base, list);
        std::ranges::sort(list);
        return list;
    };
    return remedy(a) == remedy(b);
}

std::vector<Question> next_questions(const Ranker& ranker, const Told& told, const Ranking& ranking, std::size_t most,
                                     Aim aim) {
    if (ranking.contradictory) return {};
    std::vector<Question> questions = Chooser(ranker, told, ranking, aim).questions();
    std::erase_if(questions, [](const Question& question) { return question.bits < 0.005; });
    if (questions.size() > most) questions.resize(most);
    return questions;
}

}  // namespace lidlift
