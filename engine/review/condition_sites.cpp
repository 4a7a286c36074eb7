#include "engine/review/condition_sites.hpp"

#include "engine/review/sayable_number.hpp"

#include <cmath>

namespace lidlift::logic {
namespace {

std::string number_text(double number, const Sign& sign) {
    return exact_text(number, *sign.unit).value_or(quantity_to_text(number, *sign.unit));
}

/// `inner`: stands inside another condition, so that several parts need parentheses.
std::string text_of(const Condition& condition, const RuleBase& base, bool inner) {
    if (const auto* says = std::get_if<Says>(&condition.node)) {
        const Sign& sign = base.signs[says->sign];
        std::string names;
        std::size_t count = 0;
        for (std::size_t i = 0; i < sign.answers.size(); ++i)
            if ((says->answers & answer_set(i)) != 0) names += (count++ == 0 ? "" : ", ") + sign.answers[i].id;
        if (sign.sort == SignSort::yes_no && says->answers == answer_set(0)) return sign.id;
        return sign.id + (count == 1 ? " is " + names : " is any of (" + names + ")");
    }
    if (const auto* lies = std::get_if<Lies>(&condition.node)) {
        const Sign& sign = base.signs[lies->sign];
        const Range& range = lies->range;
        if (std::isfinite(range.low) && std::isfinite(range.high))
            return sign.id + " between " + number_text(range.low, sign) + " and " + number_text(range.high, sign);
        if (std::isfinite(range.low))
            return sign.id + (range.low_included ? " at least " : " above ") + number_text(range.low, sign);
        return sign.id + (range.high_included ? " at most " : " below ") + number_text(range.high, sign);
    }
    if (const auto* known = std::get_if<SignKnown>(&condition.node)) return base.signs[known->sign].id + " is known";
    if (const auto* concluded = std::get_if<Concluded>(&condition.node)) return base.conclusions[concluded->conclusion].id;
    if (const auto* settled = std::get_if<ConclusionKnown>(&condition.node))
        return base.conclusions[settled->conclusion].id + " is known";
    if (const auto* negation = std::get_if<Negation>(&condition.node))
        return "not " + text_of(negation->child.front(), base, true);
    const auto& quorum = std::get<Quorum>(condition.node);
    if (quorum.children.empty()) return "always";
    const auto count = static_cast<int>(quorum.children.size());
    if (count == 1) return text_of(quorum.children.front(), base, inner);
    const bool conjunction = quorum.wanted == count;
    const bool disjunction = quorum.wanted == 1;
    std::string parts;
    for (const Condition& child : quorum.children) {
        if (!parts.empty()) parts += conjunction ? " and " : disjunction ? " or " : ", ";
        parts += text_of(child, base, conjunction || disjunction);
    }
    if (!conjunction && !disjunction) return "at least " + std::to_string(quorum.wanted) + " of (" + parts + ")";
    return inner ? "(" + parts + ")" : parts;
}

}  // namespace

std::string condition_text(const Condition& condition, const RuleBase& rule_base) {
    return text_of(condition, rule_base, false);
}

std::vector<ConditionSite> condition_sites(const RuleBase& base) {
    using Part = ConditionSite::Part;
    std::vector<ConditionSite> sites;
    const auto add = [&](Part part, const Condition& condition, const std::string& text, const Place& place,
                         const std::string& owner, const std::string& in_words) -> ConditionSite& {
        ConditionSite site;
        site.part = part;
        site.condition = condition;
        site.text = text;
        site.place = place;
        site.owner = owner;
        site.in_words = in_words + " '" + owner + "'";
        sites.push_back(std::move(site));
        return sites.back();
    };
    for (std::uint32_t i = 0; i < base.rules.size(); ++i) {
        const Rule& rule = base.rules[Handle<Rule>{i}];
        add(Part::rule, rule.when, rule.when_text, rule.when_place, rule.id, "the rule").rule = Handle<Rule>{i};
    }
    for (std::uint32_t i = 0; i < base.causes.size(); ++i) {
        const Handle<Cause> handle{i};
        const Cause& cause = base.causes[handle];
        for (const Circumstance& circumstance : cause.made_likelier_by)
            add(Part::circumstance, circumstance.when, circumstance.when_text, circumstance.place, cause.id,
                "a circumstance of the cause")
                .cause = handle;
        for (const Link& link : cause.links) {
            const auto* says = std::get_if<Says>(&link.when);
            ConditionSite& site = add(Part::link, says ? Condition{*says} : Condition{std::get<Concluded>(link.when)},
                                      link.when_text, link.place, cause.id, "a sign of the cause");
            site.cause = handle;
            site.link = &link;
        }
        if (cause.cannot_be_when)
            add(Part::cannot_be_when, *cause.cannot_be_when, cause.cannot_be_when_text, cause.cannot_be_when_place, cause.id,
                "'cannot be when' of the cause")
                .cause = handle;
        if (cause.must_be_when)
            add(Part::must_be_when, *cause.must_be_when, cause.must_be_when_text, cause.must_be_when_place, cause.id,
                "'must be when' of the cause")
                .cause = handle;
    }
    for (const Step& step : base.steps)
        if (step.never_when)
            add(Part::never_when, *step.never_when, step.never_when_text, step.never_when_place, step.id,
                "'never when' of the step");
    for (const Caution& caution : base.cautions)
        if (caution.when) add(Part::caution, *caution.when, caution.when_text, caution.when_place, caution.id, "the caution");
    for (const Clash& clash : base.clashes)
        if (clash.when) add(Part::clash, *clash.when, clash.when_text, clash.when_place, clash.id, "the clash");
    return sites;
}

}  // namespace lidlift::logic
