#include "engine/advice.hpp"

#include "engine/contains.hpp"
#include "engine/words.hpp"

#include <algorithm>
#include <functional>
#include <tuple>
#include <utility>

namespace lidlift {
namespace {

template <class T>
void add_once(std::vector<T>& list, const T& item) {
    if (!contains(list, item)) list.push_back(item);
}

/// A step is not said to be for a cause less likely than this.
constexpr double least_chance_to_name = 0.05;

bool opposite(const Push& a, const Push& b) { return a.what == b.what && a.up != b.up; }

/// Makes one plan; each member function is one pass over it.
class Planner {
public:
    Planner(const RuleBase& base, const Told& told, const Ranking& ranking)
        : base_(base), ranking_(ranking), told_(told), sure_(base, told.facts, ranking.conclusions) {}

    Advice plan() {
        choose_causes();
        collect_steps();
        if (nothing_wrong()) leave_it_alone();
        if (const Caution* emergency = find_emergency()) keep_only_people_steps(*emergency);
        drop_never_when();
        drop_forbidden();
        settle_opposites();
        keep_strictest_feeding();
        keep_most_urgent();
        put_in_order();
        collect_cautions();
        collect_do_not();
        decide_verdict();
        return std::move(advice_);
    }

private:
    void choose_causes() {
        for (const RankedCause& ranked : ranking_.causes)
            if (ranked.raised() && ranked.there >= least_chance_to_act) advice_.acted_on.push_back(ranked.cause);
        for (const auto cause : advice_.acted_on)
            for (const double days : base_.causes[cause].look_again_days)
                if (!advice_.look_again_days || days < *advice_.look_again_days) advice_.look_again_days = days;
    }

    /// Every step that some cause asks for which the answers speak for, with the chance that it is needed; those not needed
    /// surely enough are put aside. Causes that are only as likely as always ask for nothing, however common they are.
    void collect_steps() {
        std::vector<std::vector<const RankedCause*>> asked_by(base_.steps.size());
        for (const RankedCause& ranked : ranking_.causes)
            if (ranked.raised())
                for (const auto step : base_.causes[ranked.cause].steps) add_once(asked_by[step.index], &ranked);
        std::vector<bool> wanting(base_.causes.size(), false);
        for (std::uint32_t i = 0; i < base_.steps.size(); ++i) {
            const Handle<Step> handle{i};
            PlannedStep planned{handle, 0, {}, {}};
            for (const RankedCause* ranked : asked_by[i])
                if (ranked->there >= least_chance_to_name) planned.for_causes.push_back(ranked->cause);
            if (planned.for_causes.empty()) continue;
            double as_consequence = 0;
            for (const RankedCause* ranked : asked_by[i]) {
                wanting[ranked->cause.index] = true;
                if (ranked->follows_from) as_consequence = std::max(as_consequence, ranked->there);
            }
            const Step& step = base_.steps[handle];
            planned.needed = std::max(ranking_.chance_of_any(wanting), as_consequence);
            for (const RankedCause* ranked : asked_by[i]) wanting[ranked->cause.index] = false;
            if (planned.needed >= step.needed_chance)
                advice_.steps.push_back(std::move(planned));
            else if (std::ranges::any_of(planned.for_causes,
                                         [&](Handle<Cause> cause) { return contains(advice_.acted_on, cause); }))
                leave_out(handle, LeftOutStep::Why::not_sure_enough,
                          "it is not yet sure enough that this is needed; first answer what is asked below");
        }
    }

    /// The best explanation needs no mending, and is at least an even bet.
    [[nodiscard]] bool nothing_wrong() const {
        if (ranking_.causes.empty()) return false;
        const RankedCause& best = ranking_.causes.front();
        return base_.causes[best.cause].benign && best.raised() && best.chance >= 0.5;
    }

    /// Beside "leave it alone" no step against some less likely trouble.
    void leave_it_alone() {
        const Handle<Cause> best = ranking_.causes.front().cause;
        drop([&](const PlannedStep& planned) -> std::optional<LeftOutStep> {
            if (contains(planned.for_causes, best)) return std::nullopt;
            return LeftOutStep{planned.step, LeftOutStep::Why::not_sure_enough,
                               "most likely nothing is wrong, so nothing is to be mended"};
        });
    }

    const Caution* find_emergency() const {
        for (const Caution& caution : base_.cautions)
            if (caution.emergency && caution.when &&
                evaluate(*caution.when, told_.facts, ranking_.conclusions.truth) == Truth::yes)
                return &caution;
        return nullptr;
    }

    void keep_only_people_steps(const Caution& emergency) {
        emergency_ = true;
        drop([&](const PlannedStep& planned) -> std::optional<LeftOutStep> {
            if (base_.steps[planned.step].kind == StepKind::people) return std::nullopt;
            return LeftOutStep{planned.step, LeftOutStep::Why::emergency, "people come first: " + emergency.name};
        });
    }

    /// A condition that forbids: true on the word of anyone; false only on answers that were sure.
    [[nodiscard]] Truth forbidding(const Condition& when) const {
        if (evaluate(when, told_.facts, ranking_.conclusions.truth) == Truth::yes) return Truth::yes;
        return evaluate(when, sure_.facts(), sure_.conclusions().truth) == Truth::no ? Truth::no : Truth::unknown;
    }

    [[nodiscard]] std::string in_words(const Condition& when) const {
        return settled_in_words(when, base_, told_.facts, ranking_.conclusions);
    }

    /// What to make sure of before a step whose forbidding condition is not known to be false.
    [[nodiscard]] std::string check_for(const Condition& when, const std::string& written) const {
        if (!written.empty()) return written;
        std::string text = "Find out first:";
        for (const auto sign : signs_to_settle(when, base_, sure_.facts(), sure_.conclusions()))
            text += " " + base_.signs[sign].ask;
        return text;
    }

    void drop_never_when() {
        drop([&](PlannedStep& planned) -> std::optional<LeftOutStep> {
            const Step& step = base_.steps[planned.step];
            if (!step.never_when) return std::nullopt;
            const Truth forbidden = forbidding(*step.never_when);
            if (forbidden == Truth::yes)
                return LeftOutStep{planned.step, LeftOutStep::Why::never_when, "not while: " + in_words(*step.never_when)};
            if (forbidden == Truth::unknown) add_once(planned.check_first, check_for(*step.never_when, step.check_first));
            return std::nullopt;
        });
    }

    void drop_forbidden() {
        for (const Clash& clash : base_.clashes) {
            if (!clash.when || clash.never.empty()) continue;
            const Truth forbidden = forbidding(*clash.when);
            if (forbidden == Truth::no) continue;
            drop([&](PlannedStep& planned) -> std::optional<LeftOutStep> {
                const Step& step = base_.steps[planned.step];
                if (std::ranges::none_of(clash.never,
                                         [&](const StepGroup& group) { return matches(group, step, planned.step); }))
                    return std::nullopt;
                if (forbidden == Truth::yes) {
                    const std::string facts = in_words(*clash.when);
                    return LeftOutStep{planned.step, LeftOutStep::Why::clash,
                                       clash.because + (facts.empty() ? "" : " (" + facts + ")")};
                }
                // The step's own words on what to check say it better than a general rule's.
                if (step.check_first.empty() || planned.check_first.empty())
                    add_once(planned.check_first, check_for(*clash.when, clash.check_first));
                return std::nullopt;
            });
        }
    }

    void keep_strictest_feeding() {
        const PlannedStep* strictest = nullptr;
        for (const PlannedStep& planned : advice_.steps) {
            const Step& step = base_.steps[planned.step];
            if (step.kind != StepKind::feed) continue;
            if (!strictest || std::tuple(step.strictness, planned.needed) >
                                  std::tuple(base_.steps[strictest->step].strictness, strictest->needed))
                strictest = &planned;
        }
        if (!strictest) return;
        const Handle<Step> kept = strictest->step;
        drop([&](const PlannedStep& planned) -> std::optional<LeftOutStep> {
            if (base_.steps[planned.step].kind != StepKind::feed || planned.step == kept) return std::nullopt;
            return LeftOutStep{planned.step, LeftOutStep::Why::milder_feeding,
                               "a stricter instruction on feeding stands above"};
        });
    }

    /// The clash entry that names both steps, if any; otherwise steps that push one quantity two ways clash all the same.
    struct Opposition {
        bool clash = false;
        const Clash* named = nullptr;
        std::string about;
    };

    [[nodiscard]] Opposition opposition(const PlannedStep& a, const PlannedStep& b) const {
        const Step& first = base_.steps[a.step];
        const Step& second = base_.steps[b.step];
        // Between two instructions on feeding the stricter one is taken, so they never clash.
        if (first.kind == StepKind::feed && second.kind == StepKind::feed) return {};
        for (const Clash& clash : base_.clashes) {
            if (clash.between.size() != 2) continue;
            const auto pair = [&](const StepGroup& x, const StepGroup& y) {
                return matches(x, first, a.step) && matches(y, second, b.step);
            };
            if (pair(clash.between[0], clash.between[1]) || pair(clash.between[1], clash.between[0])) return {true, &clash, {}};
        }
        for (const Push& push : first.pushes)
            for (const Push& other : second.pushes)
                if (opposite(push, other)) return {true, nullptr, std::string(to_word(push.what))};
        return {};
    }

    /// Takes the clearly likelier of two opposite steps, or neither, until no two of the plan oppose each other.
    void settle_opposites() {
        std::ranges::stable_sort(advice_.steps, std::greater{}, &PlannedStep::needed);
        while (settle_one_opposition()) {
        }
    }

    bool settle_one_opposition() {
        for (std::size_t i = 0; i < advice_.steps.size(); ++i)
            for (std::size_t j = i + 1; j < advice_.steps.size(); ++j)
                if (const Opposition found = opposition(advice_.steps[i], advice_.steps[j]); found.clash) {
                    settle(advice_.steps[i], advice_.steps[j], found);
                    return true;
                }
        return false;
    }

    void settle(PlannedStep likelier, PlannedStep other, const Opposition& found) {
        const bool clear = decibans(with_finite_odds(likelier.needed)) - decibans(with_finite_odds(other.needed)) >= clear_lead;
        const std::string because =
            found.named ? found.named->because : "the two would change the " + found.about + " in opposite directions";
        const auto works_against = [&](Handle<Step> step) {
            return "it works against '" + base_.steps[step].say + "': " + because;
        };
        leave_out(other.step, LeftOutStep::Why::opposite, works_against(likelier.step));
        if (!clear) leave_out(likelier.step, LeftOutStep::Why::opposite, works_against(other.step));
        if (!clear && found.named && found.named->find_out) add_find_out({*found.named->find_out, because});
        if (!clear && !(found.named && found.named->find_out)) advice_.unsettled = true;
        std::erase_if(advice_.steps, [&](const PlannedStep& planned) {
            return planned.step == other.step || (!clear && planned.step == likelier.step);
        });
    }

    void add_find_out(FindOut find_out) {
        if (std::ranges::find(advice_.find_out, find_out.sign, &FindOut::sign) == advice_.find_out.end())
            advice_.find_out.push_back(std::move(find_out));
    }

    /// Of what remains, the steps that are needed most surely; looking and measuring gives way to doing.
    void keep_most_urgent() {
        std::ranges::stable_sort(advice_.steps, {}, [&](const PlannedStep& planned) {
            const bool watching = base_.steps[planned.step].kind == StepKind::watch;
            return -planned.needed + (watching ? 0.2 : 0.0);
        });
        std::array<std::size_t, most_steps.size()> counts{};
        drop([&](const PlannedStep& planned) -> std::optional<LeftOutStep> {
            const Step& step = base_.steps[planned.step];
            if (step.kind == StepKind::people || step.kind == StepKind::feed) return std::nullopt;
            const auto when = static_cast<std::size_t>(step.when);
            const bool early_habit = step.when == When::from_now_on && planned.needed < least_chance_for_habits;
            if (!early_habit && counts[when]++ < most_steps[when]) return std::nullopt;
            return LeftOutStep{planned.step, LeftOutStep::Why::less_urgent, "it is less urgent than the other steps"};
        });
    }

    void put_in_order() {
        std::ranges::stable_sort(advice_.steps, {}, [&](const PlannedStep& planned) {
            const Step& step = base_.steps[planned.step];
            return std::tuple(step.when, step.kind, -planned.needed, planned.step.index);
        });
    }

    void collect_cautions() {
        std::vector<Handle<Caution>> found;
        for (std::uint32_t i = 0; i < base_.cautions.size(); ++i) {
            const auto& when = base_.cautions[Handle<Caution>{i}].when;
            if (when && evaluate(*when, told_.facts, ranking_.conclusions.truth) == Truth::yes) add_once(found, {i});
        }
        for (const PlannedStep& planned : advice_.steps)
            for (const auto caution : base_.steps[planned.step].cautions) add_once(found, caution);
        for (const auto cause : advice_.acted_on)
            for (const auto caution : base_.causes[cause].cautions) add_once(found, caution);
        std::ranges::sort(found, {}, [&](Handle<Caution> handle) {
            const Caution& caution = base_.cautions[handle];
            return std::tuple(!caution.emergency, caution.level, handle.index);
        });
        advice_.cautions = std::move(found);
    }

    [[nodiscard]] bool shows_one_of(const std::vector<StepGroup>& groups) const {
        return std::ranges::any_of(advice_.steps, [&](const PlannedStep& planned) {
            return std::ranges::any_of(
                groups, [&](const StepGroup& group) { return matches(group, base_.steps[planned.step], planned.step); });
        });
    }

    /// What the causes acted on say to avoid, and what the facts forbid at this moment.
    void collect_do_not() {
        const auto add = [&](const std::string& say, const std::string& because) {
            if (std::ranges::find(advice_.do_not, say, &DoNot::say) == advice_.do_not.end())
                advice_.do_not.push_back({say, because});
        };
        for (const auto cause : advice_.acted_on)
            for (const Avoided& avoided : base_.causes[cause].avoid) {
                if (const auto* sentence = std::get_if<std::string>(&avoided)) {
                    add(*sentence, {});
                    continue;
                }
                const Clash& clash = base_.clashes[std::get<Handle<Clash>>(avoided)];
                const Truth forbidden = clash.when ? forbidding(*clash.when) : Truth::unknown;
                // While nobody knows, the step that it would forbid is shown with its check; "do not" would only contradict it.
                if (forbidden == Truth::unknown && shows_one_of(clash.never)) continue;
                // The reason speaks of facts, so it is only given where they are known.
                if (!clash.say.empty() && forbidden != Truth::no) add(clash.say, forbidden == Truth::yes ? clash.because : "");
            }
        for (const Clash& clash : base_.clashes) {
            const bool always =
                clash.when && mentioned(*clash.when).signs.empty() && mentioned(*clash.when).conclusions.empty();
            if (clash.when && !always && !clash.say.empty() && forbidding(*clash.when) == Truth::yes)
                add(clash.say, clash.because);
        }
    }

    void decide_verdict() {
        if (emergency_) {
            advice_.verdict = Verdict::emergency;
            return;
        }
        if (nothing_wrong())
            advice_.verdict = Verdict::nothing_wrong;
        else if (!advice_.steps.empty() && !advice_.acted_on.empty())
            advice_.verdict = Verdict::act;
    }

    void leave_out(Handle<Step> step, LeftOutStep::Why why, std::string reason) {
        if (std::ranges::find(advice_.left_out, step, &LeftOutStep::step) == advice_.left_out.end())
            advice_.left_out.push_back({step, why, std::move(reason)});
    }

    /// Moves every step for which `judge` gives a reason to those left out.
    template <class Judge>
    void drop(const Judge& judge) {
        std::vector<PlannedStep> kept;
        for (PlannedStep& planned : advice_.steps) {
            if (auto out = judge(planned))
                leave_out(out->step, out->why, std::move(out->reason));
            else
                kept.push_back(std::move(planned));
        }
        advice_.steps = std::move(kept);
    }

    const RuleBase& base_;
    const Ranking& ranking_;
    const Told& told_;
    KnownForSure sure_;
    bool emergency_ = false;
    Advice advice_;
};

}  // namespace

Advice advise(const RuleBase& rule_base, const Told& told, const Ranking& ranking) {
    return Planner(rule_base, told, ranking).plan();
}

}  // namespace lidlift
