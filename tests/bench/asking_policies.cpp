#include "tests/bench/asking_policies.hpp"

#include "engine/advice.hpp"

#include <algorithm>
#include <string_view>
#include <utility>

namespace lidlift::bench {
namespace {

using test::Dice;

/// Steps for now and this week that are more than looking.
bool counts(const Step& step) { return step.when != When::from_now_on && step.kind != StepKind::watch; }

/// Twice the steps that are both advised and needed, for each one that is advised and each that is needed.
double steps_right(const RuleBase& base, const Told& told, const Ranking& ranking, const std::vector<std::uint16_t>& ailing) {
    std::vector<bool> needed(base.steps.size(), false);
    for (const auto cause : ailing)
        for (const auto step : base.causes[Handle<Cause>{cause}].steps)
            if (counts(base.steps[step])) needed[step.index] = true;
    std::size_t both = 0;
    auto all = static_cast<std::size_t>(std::ranges::count(needed, true));
    for (const PlannedStep& planned : advise(base, told, ranking).steps) {
        if (!counts(base.steps[planned.step])) continue;
        ++all;
        both += needed[planned.step.index];
    }
    return all == 0 ? 1 : 2.0 * static_cast<double>(both) / static_cast<double>(all);
}

class Caller {
public:
    Caller(const Ranker& ranker, const std::vector<Handle<Sign>>& original, Policy policy, const AskingLimits& limits)
        : ranker_(ranker), base_(ranker.rule_base()), original_(original), policy_(policy), limits_(limits) {}

    [[nodiscard]] Course go_through(const DrawnCall& call, Dice& dice) const {
        Course course;
        Told told = call.told;
        std::string_view topic;
        double effort = 0;
        while (true) {
            const Ranking ranking = ranker_.rank_in_brief(told.facts);
            const std::vector<std::uint16_t>& ailing = call.bed.causes;
            course.hit.push_back(!ranking.causes.empty() &&
                                 std::ranges::find(ailing, ranking.causes.front().cause.index) != ailing.end());
            course.effort.push_back(effort);
            course.right.push_back(steps_right(base_, told, ranking, ailing));
            const auto sign = next(told, ranking, course, topic, call.told.order, dice);
            if (!sign) {
                for (const RankedCause& ranked : ranking.causes) {
                    const bool there = std::ranges::find(ailing, ranked.cause.index) != ailing.end();
                    course.brier += (ranked.chance - there) * (ranked.chance - there);
                }
                return course;
            }
            course.asked.push_back(*sign);
            topic = base_.signs[*sign].topic;
            effort += minutes(base_.signs[*sign].effort);
            const std::uint32_t answered = original_.empty() ? sign->index : original_[sign->index].index;
            if (hear(told, base_, base_.signs[*sign].id, call.bed.reply[answered], "drawn"))
                (void)hear(told, base_, base_.signs[*sign].id, "?", "drawn");
        }
    }

private:
    [[nodiscard]] std::optional<Handle<Sign>> next(const Told& told, const Ranking& ranking, Course& course,
                                                   std::string_view topic, const std::vector<Handle<Sign>>& called_about,
                                                   Dice& dice) const {
        if (ranking.contradictory) return std::nullopt;
        const NextStep step = next_step(ranker_, told, ranking, course.questions(), topic, called_about, limits_);
        course.why = step.stop;
        if (policy_ == Policy::ours || step.stop) return step.ask;
        if (policy_ == Policy::fixed_all) {
            for (std::uint32_t i = 0; i < base_.signs.size(); ++i) {
                const bool asked = std::ranges::find(told.order, Handle<Sign>{i}) != told.order.end();
                if (!asked && !base_.signs[{i}].answers.empty()) return Handle<Sign>{i};
            }
            return std::nullopt;
        }
        const std::vector<Question>& questions = step.worth_asking;
        if (questions.empty()) return step.ask;
        switch (policy_) {
            case Policy::no_cost:
                return std::ranges::max_element(questions, {}, &Question::bits)->sign;
            case Policy::fixed_of_worth:
                return std::ranges::min_element(questions, {}, [](const Question& q) { return q.sign.index; })->sign;
            default:
                return questions[dice.whole(0, static_cast<std::uint32_t>(questions.size()) - 1)].sign;
        }
    }

    const Ranker& ranker_;
    const RuleBase& base_;
    const std::vector<Handle<Sign>>& original_;
    Policy policy_;
    AskingLimits limits_;
};

}  // namespace

std::vector<Course> go_through(const std::vector<DrawnCall>& calls, const RuleBase& infer,
                               const std::vector<Handle<Sign>>& original, Policy policy, const AskingLimits& limits,
                               std::uint64_t seed) {
    const Ranker ranker(infer);
    const Caller caller(ranker, original, policy, limits);
    std::vector<Course> result(calls.size());
    for_each(calls.size(), [&](std::size_t i) {
        Dice dice(seed + i);
        result[i] = caller.go_through(calls[i], dice);
    });
    return result;
}

}  // namespace lidlift::bench
