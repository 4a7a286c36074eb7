#include "engine/review/answering.hpp"

#include "engine/answers.hpp"

#include <algorithm>
#include <cmath>

namespace lidlift {
namespace {

/// Rounded to what is printed, so that a number can be typed as it was meant.
double typed(double number) { return std::round(number * 1e4) / 1e4; }

void collect_edges(const Condition& condition, std::vector<std::vector<double>>& edges) {
    if (const auto* lies = std::get_if<Lies>(&condition.node)) {
        for (const double end : {lies->range.low, lies->range.high})
            if (std::isfinite(end)) edges[lies->sign.index].push_back(end);
    } else if (const auto* negation = std::get_if<Negation>(&condition.node)) {
        collect_edges(negation->child.front(), edges);
    } else if (const auto* quorum = std::get_if<Quorum>(&condition.node)) {
        for (const Condition& child : quorum->children) collect_edges(child, edges);
    }
}

std::vector<Observation> numbers(const Sign& sign, std::vector<double> edges) {
    for (const Answer& band : sign.answers)
        if (band.below) edges.push_back(*band.below);
    edges.push_back(sign.plausible.low);
    edges.push_back(sign.plausible.high);
    std::ranges::sort(edges);
    edges.erase(std::unique(edges.begin(), edges.end()), edges.end());
    std::vector<Observation> result;
    const auto add = [&](double number) {
        if (!sign.plausible.contains({number, number, true, true})) return;
        Observation seen;
        seen.measured = Range{number, number, true, true};
        seen.possible = sign.bands_meeting(*seen.measured);
        result.push_back(std::move(seen));
    };
    for (std::size_t i = 0; i < edges.size(); ++i) {
        add(edges[i]);
        if (i + 1 < edges.size()) add(typed((edges[i] + edges[i + 1]) / 2));
    }
    return result;
}

std::vector<Observation> several(const Sign& sign) {
    std::vector<Observation> result;
    AnswerSet none_of_these = 0;
    for (std::size_t i = 0; i < sign.answers.size(); ++i)
        if (sign.answers[i].none_of_these) none_of_these = answer_set(i);
    for (std::size_t i = 0; i < sign.answers.size(); ++i) {
        Observation seen;
        seen.present = answer_set(i);
        seen.absent = seen.present == none_of_these ? all_answers(sign.answers.size()) & ~none_of_these : none_of_these;
        result.push_back(std::move(seen));
    }
    if (none_of_these == 0)
        for (std::size_t i = 0; i < sign.answers.size(); ++i) {
            Observation seen;
            seen.absent = answer_set(i);
            result.push_back(std::move(seen));
        }
    return result;
}

}  // namespace

void for_each_condition(const RuleBase& rule_base, const std::function<void(const Condition&)>& take) {
    const auto perhaps = [&](const std::optional<Condition>& condition) {
        if (condition) take(*condition);
    };
    for (const Rule& rule : rule_base.rules) take(rule.when);
    for (const Cause& cause : rule_base.causes) {
        for (const Circumstance& circumstance : cause.made_likelier_by) take(circumstance.when);
        perhaps(cause.cannot_be_when);
        perhaps(cause.must_be_when);
    }
    for (const Step& step : rule_base.steps) perhaps(step.never_when);
    for (const Caution& caution : rule_base.cautions) perhaps(caution.when);
    for (const Clash& clash : rule_base.clashes) perhaps(clash.when);
}

Answering::Answering(const RuleBase& rule_base) : rule_base_(rule_base), possible_(rule_base.signs.size()) {
    std::vector<std::vector<double>> edges(rule_base.signs.size());
    for_each_condition(rule_base, [&](const Condition& condition) { collect_edges(condition, edges); });
    for (std::uint32_t i = 0; i < rule_base.signs.size(); ++i) {
        const Sign& sign = rule_base.signs[Handle<Sign>{i}];
        if (sign.sort == SignSort::quantity) {
            possible_[i] = numbers(sign, std::move(edges[i]));
        } else if (sign.sort == SignSort::several) {
            possible_[i] = several(sign);
        } else {
            for (std::size_t answer = 0; answer < sign.answers.size(); ++answer) {
                Observation seen;
                seen.possible = answer_set(answer);
                possible_[i].push_back(std::move(seen));
            }
        }
    }
}

/// Depth first: one goal after the other, each way of reaching it, with all that is still to be reached behind it.
class Answering::Search {
public:
    Search(const Answering& answering, Facts& facts, const Condition& condition, Truth wanted, const AllowedSigns& allowed)
        : answering_(answering),
          base_(answering.rule_base_),
          facts_(facts),
          condition_(condition),
          wanted_(wanted),
          allowed_(allowed) {}

    bool found() {
        const Goal goal{&condition_, wanted_, 0, 0, nullptr};
        return reach(&goal);
    }

private:
    /// `condition` is to be `wanted`; or, of a quorum's children from `from` on, `remaining` are. Then `next`.
    struct Goal {
        const Condition* condition;
        Truth wanted;
        std::size_t from;
        std::size_t remaining;
        const Goal* next;
        bool of_children = false;
    };

    bool reach(const Goal* goal) {
        if (++tries_ > most_tries_to_settle) return false;
        if (!goal) return verified();
        if (goal->of_children) return reach_children(*goal);
        const auto& node = goal->condition->node;
        if (const auto* negation = std::get_if<Negation>(&node)) {
            const Goal turned{&negation->child.front(), !goal->wanted, 0, 0, goal->next};
            return reach(&turned);
        }
        if (const auto* quorum = std::get_if<Quorum>(&node)) {
            const std::size_t count = quorum->children.size();
            const auto wanted = static_cast<std::size_t>(quorum->wanted);
            if (wanted > count) return goal->wanted == Truth::no && reach(goal->next);
            const Goal children{goal->condition, goal->wanted, 0, goal->wanted == Truth::yes ? wanted : count - wanted + 1,
                                goal->next,      true};
            return reach(&children);
        }
        if (const auto* concluded = std::get_if<Concluded>(&node))
            return conclude(concluded->conclusion, goal->wanted, goal->next);
        if (const auto* known = std::get_if<ConclusionKnown>(&node)) {
            if (goal->wanted == Truth::no) return reach(goal->next);
            return conclude(known->conclusion, Truth::yes, goal->next) || conclude(known->conclusion, Truth::no, goal->next);
        }
        if (const auto* says = std::get_if<Says>(&node)) return answer(*goal, says->sign);
        if (const auto* lies = std::get_if<Lies>(&node)) return answer(*goal, lies->sign);
        const Handle<Sign> sign = std::get<SignKnown>(node).sign;
        // What is to stay unknown is looked at once all is together.
        if (goal->wanted == Truth::no) return !facts_.find(sign) && reach(goal->next);
        return answer(*goal, sign);
    }

    bool reach_children(const Goal& goal) {
        if (goal.remaining == 0) return reach(goal.next);
        const auto& children = std::get<Quorum>(goal.condition->node).children;
        for (std::size_t i = goal.from; i + goal.remaining <= children.size(); ++i) {
            const Goal rest{goal.condition, goal.wanted, i + 1, goal.remaining - 1, goal.next, true};
            const Goal first{&children[i], goal.wanted, 0, 0, &rest};
            if (reach(&first)) return true;
        }
        return false;
    }

    bool conclude(Handle<Conclusion> conclusion, Truth wanted, const Goal* next) {
        const auto& rules = base_.rules_for[conclusion.index];
        if (rules.empty()) return false;
        if (wanted == Truth::yes)
            return std::ranges::any_of(rules, [&](Handle<Rule> rule) {
                const Goal goal{&base_.rules[rule].when, Truth::yes, 0, 0, next};
                return reach(&goal);
            });
        std::vector<Goal> goals(rules.size());
        for (std::size_t i = 0; i < rules.size(); ++i)
            goals[i] = {&base_.rules[rules[i]].when, Truth::no, 0, 0, i + 1 < rules.size() ? &goals[i + 1] : next};
        return reach(goals.data());
    }

    bool answer(const Goal& goal, Handle<Sign> sign) {
        const Observation* seen = facts_.find(sign);
        if (seen && evaluate(*goal.condition, facts_, {}) == goal.wanted) return reach(goal.next);
        if (seen && base_.signs[sign].sort != SignSort::several) return false;
        if (allowed_ && !allowed_(sign)) return false;
        const std::optional<Observation> before = seen ? std::optional(*seen) : std::nullopt;
        for (const Observation& possible : answering_.possible(sign)) {
            Observation now = possible;
            if (before) {
                now.present |= before->present;
                now.absent |= before->absent;
                if ((now.present & now.absent) != 0) continue;
            }
            facts_.set(sign, std::move(now));
            if (evaluate(*goal.condition, facts_, {}) == goal.wanted && reach(goal.next)) return true;
        }
        if (before)
            facts_.set(sign, *before);
        else
            facts_.forget(sign);
        return false;
    }

    [[nodiscard]] bool verified() const { return evaluate(condition_, facts_, chain(base_, facts_).truth) == wanted_; }

    const Answering& answering_;
    const RuleBase& base_;
    Facts& facts_;
    const Condition& condition_;
    Truth wanted_;
    const AllowedSigns& allowed_;
    int tries_ = 0;
};

bool Answering::settle(Facts& facts, const Condition& condition, Truth wanted, const AllowedSigns& allowed) const {
    return Search(*this, facts, condition, wanted, allowed).found();
}

std::vector<WitnessAnswer> witness_of(const RuleBase& rule_base, const Facts& facts) {
    std::vector<WitnessAnswer> result;
    for (const Handle<Sign> sign : facts.known())
        result.push_back({rule_base.signs[sign].id, as_value(rule_base.signs[sign], *facts.find(sign))});
    return result;
}

}  // namespace lidlift
