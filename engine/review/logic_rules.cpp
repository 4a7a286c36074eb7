// Rules that say the same as others or less, and statements that exclude each other.
#include "engine/plain_text.hpp"
#include "engine/review/logic_parts.hpp"

#include <algorithm>
#include <map>
#include <utility>

namespace lidlift::logic {
namespace {

class CoveredRules {
public:
    CoveredRules(const LogicReview& review, const std::vector<bool>& never_true) : review_(review), never_true_(never_true) {}

    void run() {
        for (const auto& rules : review_.base.rules_for) {
            std::vector<Handle<Rule>> left;
            for (const auto rule : rules)
                if (!never_true_[rule.index]) left.push_back(rule);
            // From the last on, so that of two equal rules the later is told of; what is covered covers nothing any more, so
            // that all that is told of can go at once.
            for (std::size_t i = left.size(); i-- > 0;)
                if (tell_if_covered(left, left[i])) left.erase(left.begin() + static_cast<std::ptrdiff_t>(i));
        }
    }

private:
    [[nodiscard]] bool covered(Handle<Rule> rule, const std::vector<Handle<Rule>>& by) {
        AnswersQuestion question{{{&when(rule), Truth::yes}}};
        for (const auto other : by) question.wishes.push_back({&when(other), Truth::yes, false});
        return !review_.space.possible(question, true);
    }
    [[nodiscard]] const Condition& when(Handle<Rule> rule) const { return review_.base.rules[rule].when; }
    [[nodiscard]] const std::string& id(Handle<Rule> rule) const { return review_.base.rules[rule].id; }

    bool tell_if_covered(const std::vector<Handle<Rule>>& rules, Handle<Rule> rule) {
        std::vector<Handle<Rule>> by;
        std::ranges::copy_if(rules, std::back_inserter(by), [&](Handle<Rule> other) { return other != rule; });
        if (by.empty() || !covered(rule, by)) return false;
        // As few of the others as cover it.
        for (std::size_t i = 0; i < by.size() && by.size() > 1;) {
            auto fewer = by;
            fewer.erase(fewer.begin() + static_cast<std::ptrdiff_t>(i));
            if (covered(rule, fewer))
                by = std::move(fewer);
            else
                ++i;
        }
        const Rule& told = review_.base.rules[rule];
        std::vector<std::string> about = {told.id};
        std::string names;
        AnswersQuestion both{{{&when(rule), Truth::yes}}};
        for (const auto other : by) {
            about.push_back(id(other));
            names += (names.empty()        ? ""
                      : other == by.back() ? " and "
                                           : ", ") +
                     quoted(id(other)) + " (" + to_text(review_.base.rules[other].place) + ")";
        }
        if (by.size() == 1) both.wishes.push_back({&when(by.front()), Truth::yes});
        const std::string& conclusion = review_.base.conclusions[told.then].id;
        if (by.size() == 1 && covered(by.front(), {rule}))
            review_.add("doubled_rule", told.place, std::move(about),
                        "the rule " + quoted(told.id) + " concludes " + quoted(conclusion) + " on the same answers as " + names,
                        "keep one of the two", both);
        else
            review_.add("swallowed_rule", told.place, std::move(about),
                        "whenever the rule " + quoted(told.id) + " concludes " + quoted(conclusion) + ", so " +
                            (by.size() == 1 ? "does " : "do, between them, ") + names,
                        "take it out, or narrow what covers it", both);
        return true;
    }

    const LogicReview& review_;
    const std::vector<bool>& never_true_;
};

class Contradictions {
public:
    explicit Contradictions(const LogicReview& review) : review_(review), base_(review.base) {}

    void run() {
        std::vector<Handle<Cause>> musts;
        for (std::uint32_t i = 0; i < base_.causes.size(); ++i) {
            if (!base_.causes[Handle<Cause>{i}].must_be_when) continue;
            musts.push_back({i});
            cannot_and_must({i});
        }
        for (std::size_t i = 0; i < musts.size(); ++i)
            for (std::size_t j = i + 1; j < musts.size(); ++j)
                if (apart(musts[i], musts[j])) both_must(musts[i], musts[j]);
        excluded_conclusions();
    }

private:
    [[nodiscard]] const Cause& cause(Handle<Cause> handle) const { return base_.causes[handle]; }

    [[nodiscard]] std::optional<Condition> stages_of(const Cause& one) const {
        if (!base_.stage) return std::nullopt;
        const AnswerSet known = all_answers(base_.signs[*base_.stage].answers.size());
        if ((one.stages & known) == known) return std::nullopt;
        return Condition{Says{*base_.stage, one.stages & known}};
    }

    void cannot_and_must(Handle<Cause> handle) {
        const Cause& one = cause(handle);
        if (one.cannot_be_when) {
            const AnswersQuestion both{{{&*one.must_be_when, Truth::yes}, {&*one.cannot_be_when, Truth::yes}}};
            if (review_.space.possible(both, false))
                review_.add(
                    "contradiction", one.must_be_when_place, {one.id},
                    "the same answers make 'must be when' and 'cannot be when' of the cause " + quoted(one.id) + " true",
                    "narrow one of the two: " + one.must_be_when_text + "; " + one.cannot_be_when_text, both);
        }
        if (const auto stages = stages_of(one)) {
            const AnswersQuestion both{{{&*one.must_be_when, Truth::yes}, {&*stages, Truth::no}}};
            if (review_.space.possible(both, false))
                review_.add(
                    "contradiction", one.must_be_when_place, {one.id},
                    "'must be when' of the cause " + quoted(one.id) + " can hold at a stage at which the cause cannot be",
                    "add the stage to its 'stages', or to the condition", both);
        }
    }

    [[nodiscard]] bool apart(Handle<Cause> a, Handle<Cause> b) const {
        const auto names = [](const Cause& one, Handle<Cause> other) {
            return one.alone || std::ranges::find(one.not_together_with, other) != one.not_together_with.end();
        };
        return names(cause(a), b) || names(cause(b), a);
    }

    void both_must(Handle<Cause> a, Handle<Cause> b) {
        const AnswersQuestion both{{{&*cause(a).must_be_when, Truth::yes}, {&*cause(b).must_be_when, Truth::yes}}};
        if (!review_.space.possible(both, false)) return;
        review_.add("contradiction", cause(b).must_be_when_place, {cause(b).id, cause(a).id},
                    "the same answers say that the causes " + quoted(cause(a).id) + " and " + quoted(cause(b).id) +
                        " must both be there, and the two never stand together",
                    "narrow one 'must be when', or let the two stand together", both);
    }

    void excluded_conclusions() {
        std::map<std::pair<Handle<Conclusion>, Handle<Conclusion>>, bool> done;
        for (std::uint32_t i = 0; i < base_.conclusions.size(); ++i) {
            const Handle<Conclusion> one{i};
            for (const Handle<Conclusion> other : base_.conclusions[one].excludes) {
                if (std::exchange(done[std::minmax(one, other)], true)) continue;
                const Condition a{Concluded{one}};
                const Condition b{Concluded{other}};
                const AnswersQuestion both{{{&a, Truth::yes}, {&b, Truth::yes}}};
                if (!review_.space.possible(both, false)) continue;
                review_.add("contradiction", base_.conclusions[one].place,
                            {base_.conclusions[one].id, base_.conclusions[other].id},
                            "the same answers make " + quoted(base_.conclusions[one].id) + " and " +
                                quoted(base_.conclusions[other].id) + " hold, which exclude each other",
                            "narrow one of their rules", both);
            }
        }
    }

    const LogicReview& review_;
    const RuleBase& base_;
};

}  // namespace

void review_covered_rules(const LogicReview& review, const std::vector<bool>& never_true) {
    CoveredRules(review, never_true).run();
}

void review_contradictions(const LogicReview& review) { Contradictions(review).run(); }

}  // namespace lidlift::logic
