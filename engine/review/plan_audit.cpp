#include "engine/review/plan_audit.hpp"

#include <algorithm>

namespace lidlift {

bool are_opposite(const RuleBase& rule_base, Handle<Step> a, Handle<Step> b, const Clash** found) {
    if (found) *found = nullptr;
    const Step& first = rule_base.steps[a];
    const Step& second = rule_base.steps[b];
    if (a == b || (first.kind == StepKind::feed && second.kind == StepKind::feed)) return false;
    for (const Clash& clash : rule_base.clashes) {
        if (clash.between.size() != 2) continue;
        const bool straight = matches(clash.between[0], first, a) && matches(clash.between[1], second, b);
        const bool crossed = matches(clash.between[1], first, a) && matches(clash.between[0], second, b);
        if (!straight && !crossed) continue;
        if (found) *found = &clash;
        return true;
    }
    return std::ranges::any_of(first.pushes, [&](const Push& push) {
        return std::ranges::find(second.pushes, Push{push.what, !push.up}) != second.pushes.end();
    });
}

std::vector<PlanFault> faults_of_plan(const RuleBase& rule_base, const Facts& facts, const Advice& advice) {
    std::vector<PlanFault> faults;
    const Conclusions conclusions = chain(rule_base, facts);
    const auto holds = [&](const Condition& when) { return evaluate(when, facts, conclusions.truth) == Truth::yes; };
    const Step* feeding = nullptr;
    for (std::size_t i = 0; i < advice.steps.size(); ++i) {
        const Handle<Step> handle = advice.steps[i].step;
        const Step& step = rule_base.steps[handle];
        for (std::size_t k = i + 1; k < advice.steps.size(); ++k) {
            const Step& other = rule_base.steps[advice.steps[k].step];
            if (are_opposite(rule_base, handle, advice.steps[k].step))
                faults.push_back({{step.id, other.id}, "'" + step.id + "' and '" + other.id + "' undo each other"});
        }
        if (step.never_when && holds(*step.never_when))
            faults.push_back({{step.id}, "'" + step.id + "' is shown although its 'never when' is true"});
        for (const Clash& clash : rule_base.clashes)
            if (clash.when && holds(*clash.when) &&
                std::ranges::any_of(clash.never, [&](const StepGroup& group) { return matches(group, step, handle); }))
                faults.push_back({{step.id, clash.id}, "'" + step.id + "' is shown although '" + clash.id + "' forbids it"});
        if (step.kind == StepKind::feed) {
            if (feeding)
                faults.push_back({{feeding->id, step.id}, "'" + feeding->id + "' and '" + step.id + "' both tell how to feed"});
            feeding = &step;
        }
        for (const Handle<Caution> caution : step.cautions)
            if (std::ranges::find(advice.cautions, caution) == advice.cautions.end()) {
                const std::string& id = rule_base.cautions[caution].id;
                faults.push_back({{step.id, id}, "'" + step.id + "' is shown without its caution '" + id + "'"});
            }
    }
    return faults;
}

std::vector<PlanFault> said_both_ways(const RuleBase& rule_base, const Advice& advice) {
    std::vector<PlanFault> faults;
    for (const Clash& clash : rule_base.clashes) {
        if (clash.never.empty() || clash.say.empty()) continue;
        if (std::ranges::find(advice.do_not, clash.say, &DoNot::say) == advice.do_not.end()) continue;
        for (const PlannedStep& planned : advice.steps) {
            const Step& step = rule_base.steps[planned.step];
            if (std::ranges::any_of(clash.never, [&](const StepGroup& group) { return matches(group, step, planned.step); }))
                faults.push_back({{step.id, clash.id},
                                  "'" + step.id + "' stands under 'do', and '" + clash.id + "' under 'do not': " + clash.say});
        }
    }
    return faults;
}

}  // namespace lidlift
