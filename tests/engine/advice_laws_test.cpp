// The rules that are never broken (design.md), over the default rule base and thousands of random answers.
#include "engine/advice.hpp"
#include "tests/catch.hpp"
#include "tests/engine/random_answers.hpp"
#include "tests/engine/short_rules.hpp"

#include <algorithm>
#include <map>
#include <set>
#include <string>
#include <variant>
#include <vector>

namespace engine_advice_laws_test {

using namespace lidlift;
using namespace lidlift::test;

namespace {

/// Counts what goes wrong, and keeps the first answers that show each kind of it.
class Faults {
public:
    void add(bool wrong, const std::string& what, const std::vector<std::string>& words) {
        ++checked_[what];
        if (!wrong) return;
        if (first_.count(what) > 0) return;
        std::string line = what + ":";
        for (const std::string& word : words) line += " '" + word + "'";
        first_[what] = line;
    }
    [[nodiscard]] std::string text() const {
        std::string all;
        for (const auto& [what, line] : first_) all += line + "\n";
        return all;
    }
    [[nodiscard]] int checked(const std::string& what) const { return checked_.count(what) > 0 ? checked_.at(what) : 0; }

private:
    std::map<std::string, int> checked_;
    std::map<std::string, std::string> first_;
};

// Written anew here, so that a mistake in the engine's own matching is seen.
bool speaks_of(const StepGroup& group, const Step& step, Handle<Step> handle) {
    if (std::holds_alternative<StepKind>(group)) return std::get<StepKind>(group) == step.kind;
    if (std::holds_alternative<Handle<Step>>(group)) return std::get<Handle<Step>>(group) == handle;
    const Push& wanted = std::get<Push>(group);
    return std::any_of(step.pushes.begin(), step.pushes.end(),
                       [&](const Push& push) { return push.what == wanted.what && push.up == wanted.up; });
}

bool oppose(const RuleBase& base, Handle<Step> a, Handle<Step> b) {
    const Step& first = base.steps[a];
    const Step& second = base.steps[b];
    for (const Push& push : first.pushes)
        for (const Push& other : second.pushes)
            if (push.what == other.what && push.up != other.up) return true;
    for (const Clash& clash : base.clashes) {
        if (clash.between.empty()) continue;
        const auto& one = clash.between[0];
        const auto& two = clash.between[1];
        if (speaks_of(one, first, a) && speaks_of(two, second, b)) return true;
        if (speaks_of(two, first, a) && speaks_of(one, second, b)) return true;
    }
    return false;
}

struct Case {
    std::vector<std::string> words;
    Diagnosis diagnosis;
    Facts sure;
    Conclusions sure_conclusions;
};

class Checker {
public:
    explicit Checker(Faults& faults) : base_(default_base()), faults_(faults) {}

    void check(const Case& told) {
        words_ = told.words;
        const Advice& advice = told.diagnosis.advice;
        steps(told, advice);
        cautions(told, advice);
        left_out(advice);
        verdict(told, advice);
    }

private:
    void expect(bool good, const std::string& what) { faults_.add(!good, what, words_); }

    void steps(const Case& told, const Advice& advice) {
        const auto& conclusions = told.diagnosis.ranking.conclusions.truth;
        int feeding = 0;
        std::set<std::uint32_t> seen;
        for (std::size_t i = 0; i < advice.steps.size(); ++i) {
            const PlannedStep& planned = advice.steps[i];
            const Step& step = base_.steps[planned.step];
            expect(seen.insert(planned.step.index).second, "no step is shown twice");
            feeding += step.kind == StepKind::feed;
            for (std::size_t k = i + 1; k < advice.steps.size(); ++k) {
                expect(!oppose(base_, planned.step, advice.steps[k].step), "no two shown steps oppose each other");
                const Step& later = base_.steps[advice.steps[k].step];
                expect(std::pair(step.when, step.kind) <= std::pair(later.when, later.kind), "steps stand by when and kind");
            }
            expect(planned.needed >= step.needed_chance, "a shown step is sure enough to be needed");
            expect(!planned.for_causes.empty(), "a shown step helps against something");
            std::vector<bool> wanting(base_.causes.size(), false);
            for (std::uint32_t c = 0; c < base_.causes.size(); ++c) {
                const auto& of = base_.causes[Handle<Cause>{c}].steps;
                wanting[c] = std::find(of.begin(), of.end(), planned.step) != of.end();
            }
            for (const auto cause : planned.for_causes)
                expect(wanting[cause.index], "a step is shown for causes that ask for it");
            double surest = told.diagnosis.ranking.chance_of_any(wanting);
            for (const RankedCause& ranked : told.diagnosis.ranking.causes)
                if (wanting[ranked.cause.index]) surest = std::max(surest, ranked.there);
            expect(planned.needed <= surest + 1e-9, "a step is not needed more surely than its causes are there");

            // Everything that may forbid the step.
            std::vector<const Condition*> forbidding;
            if (step.never_when) forbidding.push_back(&*step.never_when);
            for (const Clash& clash : base_.clashes)
                for (const StepGroup& group : clash.never)
                    if (clash.when && speaks_of(group, step, planned.step)) forbidding.push_back(&*clash.when);
            for (const Condition* condition : forbidding) {
                const Truth truth = evaluate(*condition, told.diagnosis.told.facts, conclusions);
                expect(truth != Truth::yes, "no shown step has a true never when or a clash against it");
                const bool proved = evaluate(*condition, told.sure, told.sure_conclusions.truth) == Truth::no;
                expect(proved || !planned.check_first.empty(), "what might be forbidden says what to check first");
            }
            if (step.kind == StepKind::lime ||
                std::find(step.pushes.begin(), step.pushes.end(), Push{Pushed::ph, true}) != step.pushes.end()) {
                expect(!forbidding.empty(), "lime and the like are bound to a condition");
                const bool proved = std::all_of(forbidding.begin(), forbidding.end(), [&](const Condition* condition) {
                    return evaluate(*condition, told.sure, told.sure_conclusions.truth) == Truth::no;
                });
                expect(proved || !planned.check_first.empty(), "lime is never shown without check or proof");
            }
            for (const std::string& check : planned.check_first) expect(!check.empty(), "no check is empty");
        }
        expect(feeding <= 1, "at most one feeding instruction");
    }

    void cautions(const Case& told, const Advice& advice) {
        const std::set<Handle<Caution>> listed(advice.cautions.begin(), advice.cautions.end());
        expect(listed.size() == advice.cautions.size(), "no caution is said twice");
        for (const PlannedStep& planned : advice.steps)
            for (const auto caution : base_.steps[planned.step].cautions)
                expect(listed.count(caution) == 1, "every caution of a shown step is listed");
        for (const auto cause : advice.acted_on)
            for (const auto caution : base_.causes[cause].cautions)
                expect(listed.count(caution) == 1, "every caution of a cause acted on is listed");
        for (std::uint32_t i = 0; i < base_.cautions.size(); ++i) {
            const auto& when = base_.cautions[Handle<Caution>{i}].when;
            if (when && evaluate(*when, told.diagnosis.told.facts, told.diagnosis.ranking.conclusions.truth) == Truth::yes)
                expect(listed.count({i}) == 1, "every caution whose condition holds is listed");
        }
        bool ordinary = false;
        for (std::size_t i = 0; i < advice.cautions.size(); ++i) {
            const Caution& caution = base_.cautions[advice.cautions[i]];
            expect(!(ordinary && caution.emergency), "emergencies are read first");
            ordinary = ordinary || !caution.emergency;
            if (i == 0) continue;
            const Caution& earlier = base_.cautions[advice.cautions[i - 1]];
            expect(earlier.emergency != caution.emergency || earlier.level <= caution.level, "cautions come by level");
        }
    }

    void left_out(const Advice& advice) {
        const bool feeding_shown = std::any_of(advice.steps.begin(), advice.steps.end(), [&](const PlannedStep& planned) {
            return base_.steps[planned.step].kind == StepKind::feed;
        });
        for (const LeftOutStep& out : advice.left_out) {
            expect(!out.reason.empty(), "what is left out has its reason");
            expect(std::none_of(advice.steps.begin(), advice.steps.end(),
                                [&](const PlannedStep& planned) { return planned.step == out.step; }),
                   "nothing is both shown and left out");
            if (out.why == LeftOutStep::Why::milder_feeding)
                expect(feeding_shown, "a milder feeding gives way to one that is shown");
        }
        for (const DoNot& item : advice.do_not) expect(!item.say.empty(), "what to avoid is said in words");
    }

    void verdict(const Case& told, const Advice& advice) {
        const Ranking& ranking = told.diagnosis.ranking;
        const bool emergency = std::any_of(base_.cautions.begin(), base_.cautions.end(), [&](const Caution& caution) {
            return caution.emergency && caution.when &&
                   evaluate(*caution.when, told.diagnosis.told.facts, ranking.conclusions.truth) == Truth::yes;
        });
        expect((advice.verdict == Verdict::emergency) == emergency, "an emergency is told as one");
        if (emergency)
            for (const PlannedStep& planned : advice.steps)
                expect(base_.steps[planned.step].kind == StepKind::people, "in an emergency only people's steps are shown");
        if (advice.verdict == Verdict::nothing_wrong)
            expect(base_.causes[ranking.causes.front().cause].benign, "nothing is wrong where the best is benign");
        if (advice.verdict == Verdict::act) expect(!advice.steps.empty(), "to act there are steps");
        for (const auto cause : advice.acted_on)
            expect(ranking.find(cause)->there >= least_chance_to_act, "what is acted on is likely enough");
    }

    const RuleBase& base_;
    Faults& faults_;
    std::vector<std::string> words_;
};

Case told_of(const Ranker& ranker, const std::vector<std::string>& words) {
    // Without the next questions, which take most of a diagnosis' time.
    Case result{words, {}, {}, {}};
    result.diagnosis.told = told_in(ranker.rule_base(), words);
    result.diagnosis.ranking = ranker.rank(result.diagnosis.told.facts);
    result.diagnosis.advice = advise(ranker.rule_base(), result.diagnosis.told, result.diagnosis.ranking);
    result.sure = sure_only(result.diagnosis.told.facts);
    result.sure_conclusions = chain(ranker.rule_base(), result.sure);
    return result;
}

}  // namespace

TEST_CASE("whatever is told, the rules that are never broken hold", "[advice][property]") {
    const Ranker ranker(default_base());
    Faults faults;
    Checker checker(faults);
    Dice dice(20261107);
    for (int i = 0; i < 400; ++i) checker.check(told_of(ranker, random_answers(dice, default_base(), dice.whole(1, 6))));
    // Random answers hardly ever describe a bed that is well.
    checker.check(
        told_of(ranker, {"smell_earthy=yes", "squeeze=few_drops", "worm_place=in_feed_zone", "worm_young=cocoons_and_young"}));
    CHECK(faults.text() == "");
    // What was never looked at proves nothing.
    for (const std::string what :
         {"no two shown steps oppose each other", "every caution of a shown step is listed",
          "no shown step has a true never when or a clash against it", "what might be forbidden says what to check first",
          "emergencies are read first", "cautions come by level", "what is left out has its reason",
          "in an emergency only people's steps are shown", "nothing is wrong where the best is benign"}) {
        CAPTURE(what);
        CHECK(faults.checked(what) > 0);
    }
}

TEST_CASE("lime is never shown without check or proof, in beds that call for it", "[advice][property]") {
    // Random answers seldom lead to lime, so that everything that speaks for its causes is told, and the rest at random.
    const RuleBase& base = default_base();
    const Ranker ranker(base);
    Faults faults;
    Checker checker(faults);
    Dice dice(20261108);
    for (std::uint32_t c = 0; c < base.causes.size(); ++c) {
        const Cause& cause = base.causes[Handle<Cause>{c}];
        const bool limes = std::any_of(cause.steps.begin(), cause.steps.end(), [&](Handle<Step> step) {
            const auto& pushes = base.steps[step].pushes;
            return base.steps[step].kind == StepKind::lime ||
                   std::find(pushes.begin(), pushes.end(), Push{Pushed::ph, true}) != pushes.end();
        });
        if (!limes) continue;
        for (int i = 0; i < 100; ++i) {
            auto words = random_answers(dice, base, dice.whole(0, 3));
            for (const Link& link : cause.links) {
                const auto* says = std::get_if<Says>(&link.when);
                if (!says || dice.one_in(4)) continue;
                const Sign& sign = base.signs[says->sign];
                const bool told = std::any_of(words.begin(), words.end(),
                                              [&](const std::string& word) { return word.rfind(sign.id + "=", 0) == 0; });
                std::size_t answer = 0;
                while ((says->answers & answer_set(answer)) == 0) ++answer;
                if (!told) words.push_back(sign.id + "=" + sign.answers[answer].id);
            }
            checker.check(told_of(ranker, words));
        }
    }
    CHECK(faults.text() == "");
    CHECK(faults.checked("lime is never shown without check or proof") > 0);
}

TEST_CASE("the order in which answers are told does not change the advice", "[advice][property]") {
    const Ranker ranker(default_base());
    Dice dice(20261109);
    int different = 0;
    for (int i = 0; i < 300; ++i) {
        auto words = random_answers(dice, default_base(), dice.whole(2, 6));
        const Case one = told_of(ranker, words);
        dice.shuffle(words);
        const Case two = told_of(ranker, words);
        const auto ids = [](const Advice& advice) {
            std::vector<std::uint32_t> result;
            for (const PlannedStep& planned : advice.steps) result.push_back(planned.step.index);
            for (const auto caution : advice.cautions) result.push_back(caution.index);
            for (const LeftOutStep& out : advice.left_out) result.push_back(out.step.index);
            return result;
        };
        different += one.diagnosis.advice.verdict != two.diagnosis.advice.verdict ||
                     ids(one.diagnosis.advice) != ids(two.diagnosis.advice);
    }
    CHECK(different == 0);
}

}  // namespace engine_advice_laws_test
