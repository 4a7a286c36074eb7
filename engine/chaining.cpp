#include "engine/chaining.hpp"

#include "engine/answers.hpp"

#include <algorithm>

namespace lidlift {
namespace {

/// The answers behind a settled condition, for one of its deciding parts.
std::string part_in_words(const Condition& part, const RuleBase& rule_base, const Facts& facts, bool in_brief) {
    const auto sign_in_words = [&](Handle<Sign> handle) {
        const Sign& sign = rule_base.signs[handle];
        const Observation* seen = facts.find(handle);
        return sign.name + ": " +
               (seen ? in_words(sign, *seen) + (in_brief ? as_recorded_in_brief(*seen) : as_recorded(*seen))
                     : std::string("not known"));
    };
    if (const auto* says = std::get_if<Says>(&part.node)) return sign_in_words(says->sign);
    if (const auto* lies = std::get_if<Lies>(&part.node)) return sign_in_words(lies->sign);
    if (const auto* known = std::get_if<SignKnown>(&part.node)) return sign_in_words(known->sign);
    return {};
}

void append(std::string& list, const std::string& item) {
    if (item.empty() || list.find(item) != std::string::npos) return;
    list += (list.empty() ? "" : "; ") + item;
}

/// A person follows so many "because of"s; a hostile chain of rules may have thousands.
constexpr int deepest_explanation = 4;

std::string settled_in_words(const Condition& condition, const RuleBase& rule_base, const Facts& facts,
                             const Conclusions& conclusions, int depth) {
    std::string words;
    const auto parts = deciders(condition, facts, conclusions.truth);
    for (const Condition* part : parts) {
        append(words, part_in_words(*part, rule_base, facts, depth > 0 || parts.size() > 1));
        for (const auto conclusion : mentioned(*part).conclusions) {
            const auto rule = conclusions.because[conclusion.index];
            const bool holds = conclusions.truth[conclusion.index] == Truth::yes;
            const std::string& means = rule_base.conclusions[conclusion].means;
            if (!holds || !rule || depth == deepest_explanation)
                append(words, (holds ? "" : "not so: ") + means);
            else
                append(words, means + " (" +
                                  settled_in_words(rule_base.rules[*rule].when, rule_base, facts, conclusions, depth + 1) +
                                  ")");
        }
    }
    return words;
}

Conclusions none_concluded(std::size_t count) {
    return {std::vector<Truth>(count, Truth::unknown), std::vector<std::optional<Handle<Rule>>>(count),
            std::vector<Sureness>(count, Sureness::sure)};
}

/// How sure a conclusion is after a further rule for it, which came to `truth`: of the rules that make it true the surest
/// counts, and while none does, the least sure.
void weigh_sureness(Sureness sureness, Truth truth, Conclusions& so_far, std::size_t conclusion) {
    Sureness& known = so_far.sureness[conclusion];
    if (truth == Truth::yes)
        known = so_far.truth[conclusion] == Truth::yes ? std::min(known, sureness) : sureness;
    else if (so_far.truth[conclusion] != Truth::yes)
        known = std::max(known, sureness);
}

/// Applies rules in an order in which they can be chained. They are all the rules for whatever they conclude, and nothing is
/// known of that yet.
void fire(const RuleBase& rule_base, std::span<const Handle<Rule>> rules, const Facts& facts, Conclusions& result) {
    std::vector<bool> has_rule(result.truth.size(), false);
    const bool all_sure = facts.all_sure();
    for (const Handle<Rule> handle : rules) {
        const Rule& rule = rule_base.rules[handle];
        const std::size_t then = rule.then.index;
        const Truth truth = evaluate(rule.when, facts, result.truth);
        if (truth == Truth::yes && result.truth[then] != Truth::yes) result.because[then] = handle;
        if (!all_sure) weigh_sureness(sureness_of(rule.when, facts, result), truth, result, then);
        result.truth[then] = has_rule[then] ? (result.truth[then] | truth) : truth;
        has_rule[then] = true;
    }
}

}  // namespace

Sureness sureness_of(const Condition& condition, const Facts& facts, const Conclusions& conclusions) {
    if (const auto* negation = std::get_if<Negation>(&condition.node))
        return sureness_of(negation->child.front(), facts, conclusions);
    if (const auto* quorum = std::get_if<Quorum>(&condition.node)) {
        // Of the children that settle it, the surest that suffice count; the least sure of those is the weakest link.
        const Truth whole = evaluate(condition, facts, conclusions.truth);
        const int count = static_cast<int>(quorum->children.size());
        const int needed = whole == Truth::yes ? quorum->wanted : count - quorum->wanted + 1;
        std::vector<Sureness> settling;
        for (const Condition& child : quorum->children)
            if (evaluate(child, facts, conclusions.truth) == whole) settling.push_back(sureness_of(child, facts, conclusions));
        if (needed <= 0 || static_cast<int>(settling.size()) < needed) return Sureness::sure;
        std::ranges::sort(settling);
        return settling[static_cast<std::size_t>(needed - 1)];
    }
    Sureness worst = Sureness::sure;
    const Mentions mentions = mentioned(condition);
    for (const auto sign : mentions.signs)
        if (const Observation* seen = facts.find(sign)) worst = std::max(worst, seen->sureness);
    for (const auto conclusion : mentions.conclusions) worst = std::max(worst, conclusions.sureness[conclusion.index]);
    return worst;
}

Conclusions chain(const RuleBase& rule_base, const Facts& facts) {
    Conclusions result = none_concluded(rule_base.conclusions.size());
    fire(rule_base, rule_base.rule_order, facts, result);
    return result;
}

void chain_again(const RuleBase& rule_base, const Facts& facts, const SignReach& reach, Conclusions& conclusions) {
    for (const auto conclusion : reach.conclusions) {
        conclusions.truth[conclusion.index] = Truth::unknown;
        conclusions.because[conclusion.index].reset();
        conclusions.sureness[conclusion.index] = Sureness::sure;
    }
    fire(rule_base, reach.rules, facts, conclusions);
}

std::string settled_in_words(const Condition& condition, const RuleBase& rule_base, const Facts& facts,
                             const Conclusions& conclusions) {
    return settled_in_words(condition, rule_base, facts, conclusions, 0);
}

std::vector<Handle<Sign>> signs_to_settle(const Condition& condition, const RuleBase& rule_base, const Facts& facts,
                                          const Conclusions& conclusions) {
    std::vector<Handle<Sign>> signs;
    std::vector<bool> visited(rule_base.conclusions.size(), false);
    std::vector<const Condition*> open = {&condition};
    while (!open.empty()) {
        const Condition* next = open.back();
        open.pop_back();
        const Mentions mentions = undecided(*next, facts, conclusions.truth);
        for (const auto sign : mentions.signs)
            if (std::ranges::find(signs, sign) == signs.end()) signs.push_back(sign);
        for (const auto conclusion : mentions.conclusions) {
            if (visited[conclusion.index]) continue;
            visited[conclusion.index] = true;
            for (const auto rule : rule_base.rules_for[conclusion.index]) open.push_back(&rule_base.rules[rule].when);
        }
    }
    return signs;
}

}  // namespace lidlift
