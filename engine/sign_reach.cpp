#include "engine/sign_reach.hpp"

#include <algorithm>

namespace lidlift {
namespace {

template <class T>
void in_order_once(std::vector<Handle<T>>& list) {
    std::ranges::sort(list);
    list.erase(std::unique(list.begin(), list.end()), list.end());
}

}  // namespace

SignReaches::SignReaches(const RuleBase& rule_base)
    : of_sign_(rule_base.signs.size()), of_conclusion_(rule_base.conclusions.size()), turn_(rule_base.rules.size()) {
    const auto note = [&](const Condition& condition, const auto& into) {
        const Mentions mentions = mentioned(condition);
        for (const auto sign : mentions.signs) into(of_sign_[sign.index]);
        for (const auto conclusion : mentions.conclusions) into(of_conclusion_[conclusion.index]);
    };
    for (std::uint32_t turn = 0; turn < rule_base.rule_order.size(); ++turn) {
        const Handle<Rule> rule = rule_base.rule_order[turn];
        turn_[rule.index] = turn;
        note(rule_base.rules[rule].when, [&](Mentioning& by) { by.rules.push_back(rule); });
    }
    for (std::uint32_t i = 0; i < rule_base.causes.size(); ++i) {
        const Cause& cause = rule_base.causes[Handle<Cause>{i}];
        const auto note_cause = [&](const Condition& condition) {
            note(condition, [&](Mentioning& by) { by.causes.push_back({i}); });
        };
        for (const Circumstance& circumstance : cause.made_likelier_by) note_cause(circumstance.when);
        if (cause.cannot_be_when) note_cause(*cause.cannot_be_when);
        if (cause.must_be_when) note_cause(*cause.must_be_when);
    }
}

SignReach SignReaches::of(const RuleBase& rule_base, Handle<Sign> sign) const {
    SignReach reach;
    std::vector<bool> reached(of_conclusion_.size(), false);
    const auto follow = [&](const Mentioning& by) {
        for (const auto rule : by.rules) {
            const Handle<Conclusion> then = rule_base.rules[rule].then;
            if (reached[then.index]) continue;
            reached[then.index] = true;
            reach.conclusions.push_back(then);
        }
        reach.causes.insert(reach.causes.end(), by.causes.begin(), by.causes.end());
    };
    follow(of_sign_[sign.index]);
    for (std::size_t i = 0; i < reach.conclusions.size(); ++i) {
        const Handle<Conclusion> next = reach.conclusions[i];
        const auto& rules = rule_base.rules_for[next.index];
        reach.rules.insert(reach.rules.end(), rules.begin(), rules.end());
        follow(of_conclusion_[next.index]);
    }
    std::ranges::sort(reach.rules, {}, [&](Handle<Rule> rule) { return turn_[rule.index]; });
    std::ranges::sort(reach.conclusions);
    in_order_once(reach.causes);
    return reach;
}

}  // namespace lidlift
