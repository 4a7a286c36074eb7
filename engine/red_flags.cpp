#include "engine/red_flags.hpp"

#include "engine/contains.hpp"

#include <algorithm>
#include <bit>
#include <tuple>

namespace lidlift {
namespace {

/// From this chance a cause that the answers speak for gives reason to ask after the dangers it names.
constexpr double possible = 0.05;
/// The same for a danger to life: it is asked after from one bed in a hundred on.
constexpr double possible_in_emergencies = 0.01;

/// The parts of a condition joined by "or" at its top; each alone makes it true.
void alternatives(const Condition& condition, std::vector<const Says*>& result) {
    if (const auto* says = std::get_if<Says>(&condition.node)) result.push_back(says);
    if (const auto* quorum = std::get_if<Quorum>(&condition.node); quorum && quorum->wanted == 1)
        for (const Condition& child : quorum->children) alternatives(child, result);
}

bool speaks_for_a_cause(const RuleBase& base, Handle<Sign> sign) {
    return std::ranges::any_of(base.causes, [&](const Cause& cause) {
        return std::ranges::any_of(cause.links, [&](const Link& link) {
            const auto* says = std::get_if<Says>(&link.when);
            return says && says->sign == sign;
        });
    });
}

bool names(const RuleBase& base, const Cause& cause, Handle<Caution> caution) {
    return contains(cause.cautions, caution) ||
           std::ranges::any_of(cause.steps, [&](Handle<Step> step) { return contains(base.steps[step].cautions, caution); });
}

bool gives_reason(const RuleBase& base, const Told& told, const Ranking& ranking, Handle<Caution> handle) {
    const Caution& caution = base.cautions[handle];
    if (caution.emergency && told.facts.known().empty()) return true;
    if (caution.emergency && std::ranges::any_of(base.cautions, [&](const Caution& other) {
            return other.level == Level::stop && other.when &&
                   evaluate(*other.when, told.facts, ranking.conclusions.truth) == Truth::yes;
        }))
        return true;
    const double least = caution.emergency ? possible_in_emergencies : possible;
    return std::ranges::any_of(ranking.causes, [&](const RankedCause& ranked) {
        return ranked.raised() && ranked.chance >= least && names(base, base.causes[ranked.cause], handle);
    });
}

/// The answers to a sign that alone call for a caution of level stop.
AnswerSet danger_of(const RuleBase& base, Handle<Sign> sign) {
    AnswerSet result = 0;
    for (const Caution& caution : base.cautions) {
        if (caution.level != Level::stop || !caution.when || (!caution.emergency && speaks_for_a_cause(base, sign))) continue;
        std::vector<const Says*> parts;
        alternatives(*caution.when, parts);
        for (const Says* says : parts)
            if (says->sign == sign) result |= says->answers;
    }
    return result;
}

}  // namespace

std::vector<RedFlag> red_flags(const RuleBase& base, const Told& told, const Ranking& ranking) {
    std::vector<RedFlag> result;
    for (std::uint32_t i = 0; i < base.cautions.size(); ++i) {
        const Handle<Caution> handle{i};
        const Caution& caution = base.cautions[handle];
        if (caution.level != Level::stop || !caution.when ||
            evaluate(*caution.when, told.facts, ranking.conclusions.truth) != Truth::unknown ||
            !gives_reason(base, told, ranking, handle))
            continue;
        std::vector<const Says*> parts;
        alternatives(*caution.when, parts);
        for (const Says* says : parts) {
            const bool asked = told.facts.find(says->sign) || contains(told.not_known, says->sign);
            if (asked || (!caution.emergency && speaks_for_a_cause(base, says->sign))) continue;
            for (std::size_t answer = 0; answer < base.signs[says->sign].answers.size(); ++answer) {
                const bool there = std::ranges::any_of(
                    result, [&](const RedFlag& flag) { return flag.sign == says->sign && flag.answer == answer; });
                if ((says->answers & answer_set(answer)) != 0 && !there) result.push_back({says->sign, answer, handle});
            }
        }
    }
    std::ranges::stable_sort(result, {}, [&](const RedFlag& flag) { return !base.cautions[flag.caution].emergency; });
    return result;
}

bool tells_of_danger(const RuleBase& base, Handle<Sign> sign, std::string_view answer) {
    const auto position = base.signs[sign].find_answer(answer);
    return position && (danger_of(base, sign) & answer_set(*position)) != 0;
}

bool asks_after_danger(const RuleBase& base, Handle<Sign> sign) { return danger_of(base, sign) != 0; }

const Caution* emergency(const RuleBase& base, const Told& told, const Conclusions& conclusions) {
    for (const Caution& caution : base.cautions)
        if (caution.emergency && caution.when && evaluate(*caution.when, told.facts, conclusions.truth) == Truth::yes)
            return &caution;
    return nullptr;
}

}  // namespace lidlift
