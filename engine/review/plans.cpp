#include "engine/review/plans.hpp"

#include "engine/advice.hpp"
#include "engine/contains.hpp"
#include "engine/review/best_case.hpp"
#include "engine/review/kinds.hpp"
#include "engine/review/plan_audit.hpp"
#include "engine/review/tools.hpp"

#include <algorithm>
#include <map>
#include <optional>
#include <set>
#include <utility>

namespace lidlift {
namespace {

/// Causes weighed beside the one or two that a plan is made for.
constexpr std::size_t rivals_in_plan = 3;
/// And beside those of a plan that is to be reported.
constexpr std::size_t rivals_in_verification = 12;
/// A finding that does not hold among more rivals is tried on so many other answers.
constexpr int most_tries_to_confirm = 4;

class PlanReview {
public:
    PlanReview(const ReviewTools& tools, std::vector<ReviewFinding>& findings)
        : tools_(tools), base_(tools.base), findings_(findings), shown_(base_.steps.size(), false) {}

    void review() {
        for (std::uint32_t i = 0; i < base_.causes.size(); ++i) best_.push_back(best_cases_.speaking_for({i}));
        plans_of_single_causes();
        find_opposites();
        plans_of_pairs();
        steps_of_one_cause();
        steps_never_shown();
        nothing_settles();
    }

private:
    /// Lets every n-th of `all` pass, so that no more than most_plans do.
    class Stride {
    public:
        explicit Stride(std::size_t all) : stride_((all + most_plans - 1) / most_plans) {}
        bool due() { return next_++ % stride_ == 0; }

    private:
        std::size_t stride_;
        std::size_t next_ = 0;
    };

    struct Opposites {
        Handle<Step> a;
        Handle<Step> b;
        const Clash* clash;
    };

    [[nodiscard]] Advice advice_for(const Facts& facts, std::span<const Handle<Cause>> causes,
                                    std::size_t rivals = rivals_in_plan) const {
        const Conclusions conclusions = chain(base_, facts);
        const KnownFacts known{facts, conclusions};
        return advise(base_, {facts, {}, {}}, tools_.few.rank(known, tools_.few.with_rivals(known, causes, rivals)));
    }

    /// Makes a plan, audits it, and remembers the steps that it shows.
    Advice plan(const Facts& facts, std::span<const Handle<Cause>> causes) {
        Advice advice = advice_for(facts, causes);
        for (const PlannedStep& planned : advice.steps) shown_[planned.step.index] = true;
        for (const LeftOutStep& out : advice.left_out)
            if (out.why == LeftOutStep::Why::less_urgent || out.why == LeftOutStep::Why::milder_feeding)
                shown_[out.step.index] = true;
        for (const PlanFault& fault : faults(facts, advice)) report(facts, causes, fault);
        return advice;
    }

    /// What the plan itself breaks, and what the page would tell to do and not to do.
    [[nodiscard]] std::vector<PlanFault> faults(const Facts& facts, const Advice& advice) const {
        std::vector<PlanFault> found = faults_of_plan(base_, facts, advice);
        for (PlanFault& fault : said_both_ways(base_, advice)) found.push_back(std::move(fault));
        return found;
    }
    [[nodiscard]] bool shows(const Facts& facts, const Advice& advice, const PlanFault& fault) const {
        return std::ranges::any_of(faults(facts, advice), [&](const PlanFault& other) { return other.about == fault.about; });
    }

    /// Each fault once, with as few answers as still show it.
    void report(const Facts& facts, std::span<const Handle<Cause>> causes, const PlanFault& fault) {
        // 0: found and confirmed; otherwise so many more answers may be tried before it counts as no fault of the whole
        // engine's.
        const auto entry = tries_left_.try_emplace(fault.about, most_tries_to_confirm).first;
        if (entry->second == 0) return;
        --entry->second;
        Facts fewer = facts;
        if (shortened_++ < most_shortened)
            for (const Handle<Sign> sign : facts.known()) {
                Facts without = fewer;
                without.forget(sign);
                if (shows(without, advice_for(without, causes), fault)) fewer = std::move(without);
            }
        const bool whole = whole_plans_++ < most_whole_plans;
        const Advice verified = whole ? advise(base_, {fewer, {}, {}}, tools_.ranker.rank(fewer))
                                      : advice_for(fewer, causes, rivals_in_verification);
        if (!shows(fewer, verified, fault)) return;
        entry->second = 0;
        const Step& step = base_.steps[*base_.steps.find(fault.about.front())];
        ReviewFinding finding = finding_of("steps_clash", step.place);
        finding.about = fault.about;
        finding.text = "on these answers " + fault.text;
        finding.witness = witness_of(base_, fewer);
        finding.mend = "name the two in a clash with 'between', give one a 'never when', or take one of them out";
        findings_.push_back(std::move(finding));
    }

    /// What may forbid a step: its own condition, and those of clashes.
    [[nodiscard]] std::vector<const Condition*> forbidding(Handle<Step> handle) const {
        std::vector<const Condition*> result;
        const Step& step = base_.steps[handle];
        if (step.never_when) result.push_back(&*step.never_when);
        for (const Clash& clash : base_.clashes)
            if (clash.when &&
                std::ranges::any_of(clash.never, [&](const StepGroup& group) { return matches(group, step, handle); }))
                result.push_back(&*clash.when);
        return result;
    }

    /// Every cause by itself: on its best answers, and with each condition that forbids one of its steps true and false.
    void plans_of_single_causes() {
        std::vector<std::pair<Handle<Cause>, const Condition*>> all;
        for (std::uint32_t i = 0; i < base_.causes.size(); ++i) {
            const Handle<Cause> cause{i};
            plan(best_[i], std::span(&cause, 1));
            std::set<const Condition*> seen;
            for (const Handle<Step> step : base_.causes[cause].steps)
                for (const Condition* condition : forbidding(step))
                    if (seen.insert(condition).second) all.emplace_back(cause, condition);
        }
        Stride stride(2 * all.size());
        for (const auto& [cause, condition] : all)
            for (const Truth wanted : {Truth::yes, Truth::no}) {
                if (!stride.due()) continue;
                Facts facts = best_[cause.index];
                if (tools_.answering.settle(facts, *condition, wanted)) plan(facts, std::span(&cause, 1));
            }
    }

    void find_opposites() {
        // Only steps of the two sides of a clash, or that push one quantity both ways, can be opposite.
        std::set<std::pair<std::uint32_t, std::uint32_t>> pairs;
        const auto add = [&](const StepGroup& one, const StepGroup& other) {
            for (const std::uint32_t a : steps_of(one))
                for (const std::uint32_t b : steps_of(other))
                    if (a != b) pairs.insert(std::minmax(a, b));
        };
        for (const Clash& clash : base_.clashes)
            if (clash.between.size() == 2) add(clash.between[0], clash.between[1]);
        for (std::size_t what = 0; what < pushed_words().size(); ++what)
            add(Push{static_cast<Pushed>(what), true}, Push{static_cast<Pushed>(what), false});
        for (const auto& [a, b] : pairs) {
            const Clash* clash = nullptr;
            if (are_opposite(base_, {a}, {b}, &clash)) opposites_.push_back({{a}, {b}, clash});
        }
    }

    [[nodiscard]] std::vector<std::uint32_t> steps_of(const StepGroup& group) const {
        std::vector<std::uint32_t> result;
        for (std::uint32_t i = 0; i < base_.steps.size(); ++i)
            if (matches(group, base_.steps[Handle<Step>{i}], {i})) result.push_back(i);
        return result;
    }

    [[nodiscard]] bool can_stand_together(Handle<Cause> a, Handle<Cause> b) const {
        const Cause& first = base_.causes[a];
        const Cause& second = base_.causes[b];
        return !first.alone && !second.alone && !contains(first.not_together_with, b) &&
               !contains(second.not_together_with, a) && (first.stages & second.stages) != 0 && base_.weighing.largest_set >= 2;
    }

    void plans_of_pairs() {
        std::vector<std::vector<Handle<Cause>>> asking(base_.steps.size());
        for (std::uint32_t i = 0; i < base_.causes.size(); ++i)
            for (const Handle<Step> step : base_.causes[Handle<Cause>{i}].steps) asking[step.index].push_back({i});
        // Each pair of causes with the signs that are named to settle between their steps.
        std::map<std::pair<Handle<Cause>, Handle<Cause>>, std::set<Handle<Sign>>> pairs;
        for (const Opposites& opposite : opposites_)
            for (const Handle<Cause> a : asking[opposite.a.index])
                for (const Handle<Cause> b : asking[opposite.b.index]) {
                    if (a == b || !can_stand_together(a, b)) continue;
                    auto& signs = pairs[std::minmax(a, b)];
                    if (opposite.clash && opposite.clash->find_out) signs.insert(*opposite.clash->find_out);
                }
        // First every pair once; then, as far as there is room, each of their further answers.
        Stride first(pairs.size());
        for (const auto& [pair, signs] : pairs) {
            const std::array<Handle<Cause>, 2> causes = {pair.first, pair.second};
            if (first.due()) plan(together(pair.first, pair.second), causes);
        }
        std::size_t further = 0;
        for (const auto& [pair, signs] : pairs) further += variations(signs);
        Stride second(further);
        for (const auto& [pair, signs] : pairs) vary(pair.first, pair.second, signs, second);
    }

    [[nodiscard]] std::size_t variations(const std::set<Handle<Sign>>& signs) const {
        std::size_t count = 1;
        for (const Handle<Sign> sign : signs) count += tools_.answering.possible(sign).size() + 1;
        return count;
    }

    /// The other way round, and with each of `signs` answered in every way and not at all.
    void vary(Handle<Cause> a, Handle<Cause> b, const std::set<Handle<Sign>>& signs, Stride& stride) {
        const std::array<Handle<Cause>, 2> causes = {a, b};
        if (stride.due()) plan(together(b, a), causes);
        for (const Handle<Sign> sign : signs) {
            if (stride.due()) {
                Facts facts = together(a, b);
                facts.forget(sign);
                plan(facts, causes);
            }
            for (const Observation& answer : tools_.answering.possible(sign)) {
                if (!stride.due()) continue;
                Facts facts = together(a, b);
                facts.set(sign, answer);
                plan(facts, causes);
            }
        }
    }

    /// What speaks most for the first, and of what speaks for the second all that it leaves open.
    [[nodiscard]] Facts together(Handle<Cause> first, Handle<Cause> second) const {
        Facts facts = best_[first.index];
        const Facts& more = best_[second.index];
        for (const Handle<Sign> sign : more.known())
            if (!facts.find(sign)) facts.set(sign, *more.find(sign));
        return facts;
    }

    /// Answers that speak for `cause` while `step` is not forbidden and those that oppose it are, as far as that can be had. A
    /// step is shown as well while nobody has looked whether it is forbidden, so that may be left open.
    [[nodiscard]] Facts in_favour_of(Handle<Step> step, Handle<Cause> cause, bool left_open) const {
        Facts facts;
        const std::vector<const Condition*> never = forbidding(step);
        if (!left_open)
            for (const Condition* condition : never) tools_.answering.settle(facts, *condition, Truth::no);
        for (const Handle<Step> other : base_.causes[cause].steps)
            if (are_opposite(base_, step, other))
                for (const Condition* condition : forbidding(other))
                    if (tools_.answering.settle(facts, *condition, Truth::yes)) break;
        facts = best_cases_.speaking_for(cause, std::move(facts), never);
        // What speaks for the cause may have answered what the step waits to be asked ("never when: smell_where is known").
        for (const Condition* condition : forbidding(step))
            for (const Handle<Sign> sign : mentioned(*condition).signs)
                if (evaluate(*condition, facts, chain(base_, facts).truth) == Truth::yes) facts.forget(sign);
        return facts;
    }

    [[nodiscard]] bool found_shown(Handle<Step> step, Handle<Cause> cause) {
        for (const bool left_open : {true, false}) {
            if (shown_[step.index]) return true;
            if (++tries_for_steps_ <= most_plans_for_steps) plan(in_favour_of(step, cause, left_open), std::span(&cause, 1));
        }
        return shown_[step.index];
    }

    /// Steps of one cause that undo each other are asked for equally, so none of them is clearly likelier and both fall, unless
    /// some answers forbid one of them.
    void steps_of_one_cause() {
        for (std::uint32_t i = 0; i < base_.causes.size(); ++i) {
            const Handle<Cause> handle{i};
            const Cause& cause = base_.causes[handle];
            for (std::size_t x = 0; x < cause.steps.size(); ++x)
                for (std::size_t y = x + 1; y < cause.steps.size(); ++y)
                    if (are_opposite(base_, cause.steps[x], cause.steps[y]))
                        undo_each_other(handle, cause.steps[x], cause.steps[y]);
        }
    }

    void undo_each_other(Handle<Cause> handle, Handle<Step> a, Handle<Step> b) {
        const Advice best = plan(best_[handle.index], std::span(&handle, 1));
        const auto falls = [&](Handle<Step> step) {
            const auto out = std::ranges::find(best.left_out, step, &LeftOutStep::step);
            return out != best.left_out.end() && out->why == LeftOutStep::Why::opposite;
        };
        if (!falls(a) || !falls(b)) return;
        for (const Handle<Step> step : {a, b}) {
            for (const bool left_open : {true, false}) {
                const Advice other = plan(in_favour_of(step, handle, left_open), std::span(&handle, 1));
                if (std::ranges::any_of(other.steps, [&](const PlannedStep& planned) { return planned.step == step; })) return;
            }
        }
        shown_[a.index] = shown_[b.index] = true;  // why they are not is told here
        const Cause& cause = base_.causes[handle];
        ReviewFinding finding = finding_of("steps_clash", cause.place);
        finding.about = {cause.id, base_.steps[a].id, base_.steps[b].id};
        finding.text = "the steps '" + base_.steps[a].id + "' and '" + base_.steps[b].id + "' of '" + cause.id +
                       "' undo each other, so neither is ever shown for it";
        finding.witness = witness_of(base_, best_[handle.index]);
        finding.mend = "keep one of the two, or forbid each by 'never when' where the other is right";
        findings_.push_back(std::move(finding));
    }

    [[nodiscard]] bool can_be_acted_on(Handle<Cause> cause) const {
        double least = 1;
        for (const Handle<Step> step : base_.causes[cause].steps) least = std::min(least, base_.steps[step].needed_chance);
        return best_cases_.chance(cause, best_[cause.index]) >= least;
    }

    void steps_never_shown() {
        std::vector<std::vector<Handle<Cause>>> asking(base_.steps.size());
        for (std::uint32_t i = 0; i < base_.causes.size(); ++i)
            for (const Handle<Step> step : base_.causes[Handle<Cause>{i}].steps) asking[step.index].push_back({i});
        for (std::uint32_t i = 0; i < base_.steps.size(); ++i) {
            // Of a cause that never becomes likely the review of the evidence tells.
            if (std::ranges::none_of(asking[i], [&](Handle<Cause> cause) { return can_be_acted_on(cause); })) continue;
            if (std::ranges::any_of(asking[i], [&](Handle<Cause> cause) { return found_shown({i}, cause); })) continue;
            if (tries_for_steps_ > most_plans_for_steps) return;
            const Step& step = base_.steps[Handle<Step>{i}];
            const Facts facts = in_favour_of({i}, asking[i].front(), true);
            ReviewFinding finding = finding_of("step_never_shown", step.place);
            finding.about = {step.id};
            finding.witness = witness_of(base_, facts);
            finding.text = "the step '" + step.id +
                           "' was not shown on any answers that were tried, not even when everything speaks for " + "'" +
                           base_.causes[asking[i].front()].id + "'" + reason(facts, asking[i].front(), {i});
            finding.mend = "look at its 'if wrong', its 'never when' and the clashes that speak of it";
            findings_.push_back(std::move(finding));
        }
    }

    [[nodiscard]] std::string reason(const Facts& facts, Handle<Cause> cause, Handle<Step> step) {
        const Advice advice = plan(facts, std::span(&cause, 1));
        const auto out = std::ranges::find(advice.left_out, step, &LeftOutStep::step);
        return out == advice.left_out.end() ? std::string{} : " (" + out->reason + ")";
    }

    /// One finding for each quantity that steps push both ways without a clash entry that names them.
    void nothing_settles() {
        std::set<Pushed> told;
        for (const Opposites& opposite : opposites_) {
            if (opposite.clash) continue;
            const Step& a = base_.steps[opposite.a];
            const Step& b = base_.steps[opposite.b];
            const auto push = std::ranges::find_if(a.pushes, [&](const Push& one) {
                return contains(b.pushes, Push{one.what, !one.up});
            });
            if (!told.insert(push->what).second) continue;
            const std::string what(to_word(push->what));
            ReviewFinding finding = finding_of("nothing_settles_it", a.place);
            finding.about = {a.id, b.id};
            finding.text = "'" + a.id + "' and '" + b.id + "' push " + what +
                           " in opposite directions, and no clash names the sign that settles which is right";
            finding.mend = "add a clash with 'between: [" + what + " up, " + what + " down]' and 'find out'";
            findings_.push_back(std::move(finding));
        }
    }

    const ReviewTools& tools_;
    const RuleBase& base_;
    std::vector<ReviewFinding>& findings_;
    BestCases best_cases_{tools_.answering, tools_.few, tools_.strengths};
    std::vector<Facts> best_;  ///< by cause: the answers that speak most for it
    std::vector<Opposites> opposites_;
    std::vector<bool> shown_;  ///< by step: some plan has shown it, or would have but for lack of room
    std::map<std::vector<std::string>, int> tries_left_;  ///< by entries
    std::size_t tries_for_steps_ = 0;
    int whole_plans_ = 0;
    int shortened_ = 0;
};

}  // namespace

void review_plans(const RuleBase& rule_base, std::vector<ReviewFinding>& findings) {
    const ReviewTools tools(rule_base);
    PlanReview(tools, findings).review();
}

}  // namespace lidlift
