#include "engine/trial.hpp"

#include <algorithm>
#include <tuple>
#include <utility>

namespace lidlift {
namespace {

std::vector<std::string> as_typed(const RuleBase& base, const Told& told) {
    std::vector<std::string> words;
    for (const auto handle : told.order) {
        const Sign& sign = base.signs[handle];
        const Observation* seen = told.facts.find(handle);
        const std::string sure = !seen                                ? ""
                                 : seen->sureness == Sureness::unsure ? ",unsure"
                                 : seen->sureness == Sureness::guess  ? ",guess"
                                                                      : "";
        words.push_back(sign.id + "=" + (seen ? as_value(sign, *seen) + sure : "?"));
    }
    return words;
}

bool names(const std::vector<Named<Cause>>& list, Handle<Cause> cause) {
    return std::ranges::find(list, std::optional(cause), &Named<Cause>::handle) != list.end();
}

/// The place, from 1, of the first cause that `wanted` names; 0 if there is none.
std::size_t place_of(const Ranking& ranking, const std::vector<Named<Cause>>& wanted) {
    const auto found =
        std::ranges::find_if(ranking.causes, [&](const RankedCause& ranked) { return names(wanted, ranked.cause); });
    return found == ranking.causes.end() ? 0 : static_cast<std::size_t>(found - ranking.causes.begin()) + 1;
}

/// The lines of both balances, equal ones side by side; what other causes explain as well is one line for both.
std::vector<ContrastLine> contrast(const RankedCause* expected, const RankedCause& winner) {
    struct Key {
        BalanceLine::Kind kind;
        std::string text;
        bool operator==(const Key&) const = default;
    };
    std::vector<Key> keys;
    std::vector<ContrastLine> lines;
    const auto add = [&](const RankedCause& ranked, double ContrastLine::*side) {
        for (const BalanceLine& line : ranked.balance) {
            const bool shared = line.kind == BalanceLine::Kind::shared;
            const Key key{line.kind, shared ? "what other causes explain as well" : line.text};
            const auto found = std::ranges::find(keys, key);
            if (found == keys.end()) {
                keys.push_back(key);
                lines.push_back({key.text, 0, 0});
                lines.back().*side = line.decibans;
            } else {
                lines[static_cast<std::size_t>(found - keys.begin())].*side += line.decibans;
            }
        }
    };
    add(winner, &ContrastLine::winner);
    if (expected) add(*expected, &ContrastLine::expected);
    std::ranges::stable_sort(lines, std::greater{}, [](const ContrastLine& line) { return line.winner - line.expected; });
    return lines;
}

class Trial {
public:
    Trial(const Ranker& ranker, const WrittenCase& written, const Case& resolved)
        : ranker_(ranker),
          base_(ranker.rule_base()),
          written_(written),
          case_(resolved),
          ranking_(ranker.rank_in_brief(resolved.told.facts)),
          advice_(advise(base_, resolved.told, ranking_)) {}

    TrialResult run() {
        report();
        if (written_.nothing_listed)
            judge_nothing_listed();
        else if (!written_.expect.empty())
            judge_first();
        judge_steps();
        judge_cautions();
        return std::move(result_);
    }

private:
    void report() {
        result_.told = as_typed(base_, case_.told);
        result_.not_understood = case_.not_understood;
        for (const RankedCause& ranked : ranking_.causes)
            result_.causes.push_back({base_.causes[ranked.cause].id, ranked.chance});
        result_.nothing_listed = ranking_.nothing_listed;
        result_.verdict = advice_.verdict;
        for (const auto caution : advice_.cautions) result_.cautions.push_back(base_.cautions[caution].id);
        for (const PlannedStep& planned : advice_.steps) result_.steps.push_back(base_.steps[planned.step].id);
    }

    void judge_nothing_listed() {
        result_.expected_chance = ranking_.nothing_listed;
        if (!ranking_.contradictory)
            result_.place = 1 + static_cast<std::size_t>(std::ranges::count_if(ranking_.causes, [&](const RankedCause& r) {
                                return r.chance >= ranking_.nothing_listed;
                            }));
        result_.first = result_.place == 1 ? First::expected : First::wrong;
        if (result_.first == First::wrong && !ranking_.causes.empty()) contrast_with(nullptr);
    }

    void judge_first() {
        result_.expected = case_.expect.front().id;
        result_.place = place_of(ranking_, case_.expect);
        if (result_.place > 0) {
            const RankedCause& expected = ranking_.causes[result_.place - 1];
            result_.expected = base_.causes[expected.cause].id;
            result_.expected_chance = expected.chance;
        }
        result_.first = result_.place == 1                          ? First::expected
                        : place_of(ranking_, case_.acceptable) == 1 ? First::acceptable
                                                                    : First::wrong;
        if (result_.first == First::wrong && !ranking_.causes.empty())
            contrast_with(result_.place > 0 ? &ranking_.causes[result_.place - 1] : nullptr);
    }

    void contrast_with(const RankedCause* expected) {
        const RankedCause& winner = ranking_.causes.front();
        ranker_.explain(ranking_, case_.told.facts,
                        [&](const RankedCause& ranked) { return &ranked == &winner || &ranked == expected; });
        result_.contrast = contrast(expected, winner);
    }

    void judge_steps() {
        for (const PlannedStep& planned : advice_.steps)
            for (const NeverAdvised& never : case_.never_advise)
                if (matches(never.group, base_.steps[planned.step], planned.step))
                    result_.advised_against.push_back({base_.steps[planned.step].id, never.written});
        for (const Named<Step>& step : case_.must_advise)
            if (std::ranges::find(result_.steps, step.id) == result_.steps.end()) result_.not_advised.push_back(step.id);
    }

    void judge_cautions() {
        for (const Named<Caution>& caution : case_.must_say)
            if (std::ranges::find(result_.cautions, caution.id) == result_.cautions.end())
                result_.not_said.push_back(caution.id);
    }

    const Ranker& ranker_;
    const RuleBase& base_;
    const WrittenCase& written_;
    const Case& case_;
    Ranking ranking_;
    Advice advice_;
    TrialResult result_;
};

}  // namespace

TrialResult try_case(const Ranker& ranker, const WrittenCase& written, const Case& resolved) {
    return Trial(ranker, written, resolved).run();
}

}  // namespace lidlift
