// Conditions that no answers make true, that hold whatever is answered, or that can never count.
#include "engine/plain_text.hpp"
#include "engine/review/logic_parts.hpp"
#include "engine/words.hpp"

#include <algorithm>
#include <utility>

namespace lidlift::logic {
namespace {

using Part = ConditionSite::Part;

bool is_always(const Condition& condition) {
    const auto* quorum = std::get_if<Quorum>(&condition.node);
    return quorum && quorum->wanted == 0 && quorum->children.empty();
}

/// Where the single word `always` is a plain way to say "with no condition".
bool may_say_always(Part part) { return part == Part::caution || part == Part::clash || part == Part::rule; }

class Conditions {
public:
    explicit Conditions(const LogicReview& review)
        : review_(review), dead_(review.base.conclusions.size(), false), given_(dead_) {}

    std::vector<bool> run() {
        find_dead_conclusions();
        // Sites begin with the rules, in the order of the rule base; what rests on an always true rule may come before it, so
        // rules are looked at in the order in which they are worked out.
        always_.assign(review_.base.rules.size(), false);
        for (const auto rule : review_.base.rule_order) {
            always_[rule.index] = !never_[rule.index] && always(review_.sites[rule.index]);
            if (always_[rule.index]) given_[review_.base.rules[rule].then.index] = true;
        }
        for (const ConditionSite& site : review_.sites) {
            if (site.part == Part::rule ? never_[site.rule->index] : !can_be(site.condition, Truth::yes)) {
                tell_never(site);
            } else {
                if (site.rule ? always_[site.rule->index] : always(site)) tell_always(site);
                if (site.cause && (site.part == Part::circumstance || speaks_for(site))) look_for_veto(site);
            }
        }
        return never_;
    }

private:
    [[nodiscard]] bool can_be(const Condition& condition, Truth truth) {
        return review_.space.possible({{{&condition, truth}}}, true);
    }

    /// Conclusions that nothing makes true, in an order in which each comes after those it rests on.
    void find_dead_conclusions() {
        const RuleBase& base = review_.base;
        never_.assign(base.rules.size(), false);
        for (std::size_t i = 0; i < base.rules.size(); ++i) {
            const Handle<Rule> rule{static_cast<std::uint32_t>(i)};
            never_[i] = !can_be(base.rules[rule].when, Truth::yes);
        }
        for (std::size_t i = 0; i < dead_.size(); ++i)
            dead_[i] = std::ranges::all_of(base.rules_for[i], [&](Handle<Rule> rule) { return never_[rule.index]; });
    }

    void tell_never(const ConditionSite& site) {
        // Were the dead conclusions alive, could it hold? Then they are what is wrong.
        std::vector<std::string> about = {site.owner};
        if (review_.space.possible({{{&site.condition, Truth::yes}}, false, std::nullopt, dead_}, false)) {
            std::string needs;
            for (const auto conclusion : mentioned(site.condition).conclusions) {
                if (!dead_[conclusion.index]) continue;
                about.push_back(review_.base.conclusions[conclusion].id);
                needs += (needs.empty() ? "" : ", ") + quoted(about.back());
            }
            if (!needs.empty()) {
                review_.add("cannot_apply", site.place, std::move(about),
                            site.in_words + " needs " + needs + ", which nothing makes true",
                            "give it a rule that can hold, mend the rules that it has, or take it out of this condition");
                return;
            }
        }
        review_.add("never_true", site.place, std::move(about),
                    "no answers make the condition of " + site.in_words + " true: " + site.text, what_excludes(site));
    }

    /// Of the parts joined by `and`, a few that cannot hold together.
    [[nodiscard]] std::string what_excludes(const ConditionSite& site) {
        const std::string otherwise = "write what was meant, or take it out";
        const auto* all = std::get_if<Quorum>(&site.condition.node);
        if (!all || all->wanted != static_cast<int>(all->children.size())) return otherwise;
        std::vector<const Condition*> parts;
        for (const Condition& child : all->children) parts.push_back(&child);
        for (std::size_t i = 0; i < parts.size() && parts.size() > 1;) {
            AnswersQuestion question;
            for (const Condition* part : parts)
                if (part != parts[i]) question.wishes.push_back({part, Truth::yes});
            if (review_.space.possible(question, true))
                ++i;
            else
                parts.erase(parts.begin() + static_cast<std::ptrdiff_t>(i));
        }
        std::string text;
        for (const Condition* part : parts) text += (text.empty() ? "" : "; ") + condition_text(*part, review_.base);
        return (parts.size() == 1 ? "this part alone is never true: " : "these exclude each other: ") + text + "; " + otherwise;
    }

    /// Nothing makes it false, and whoever answers every sign in it makes it true; and that for reasons of its own, not because
    /// of a rule that is told of anyway.
    [[nodiscard]] bool always(const ConditionSite& site) {
        if (is_always(site.condition)) return !may_say_always(site.part);
        if (review_.space.possible({{{&site.condition, Truth::no}}, false, {}, given_}, true)) return false;
        return !review_.space.possible({{{&site.condition, Truth::yes, false}}, true, {}, given_}, true);
    }

    void tell_always(const ConditionSite& site) {
        review_.add("always_true", site.place, {site.owner},
                    "the condition of " + site.in_words + " holds whatever is answered: " + site.text,
                    may_say_always(site.part) ? "write what it really depends on; if it is meant so, write 'always'"
                                              : "write what it really depends on");
    }

    /// A link whose observation makes the cause likelier.
    [[nodiscard]] bool speaks_for(const ConditionSite& site) const {
        if (!site.link) return false;
        if (!site.link->seen) return site.link->factor > 1;
        if (const auto* concluded = std::get_if<Concluded>(&site.link->when))
            return *site.link->seen > review_.base.conclusions[concluded->conclusion].seen_anyway.value_or(0);
        const auto& says = std::get<Says>(site.link->when);
        const Sign& sign = review_.base.signs[says.sign];
        for (std::size_t i = 0; i < sign.answers.size(); ++i)
            if ((says.answers & answer_set(i)) != 0 && *site.link->seen > sign.answers[i].seen_anyway.value_or(0)) return true;
        return false;
    }

    /// What speaks for a cause, but never while the cause can be.
    void look_for_veto(const ConditionSite& site) {
        const Cause& cause = review_.base.causes[*site.cause];
        AnswersQuestion question{{{&site.condition, Truth::yes}}};
        if (cause.cannot_be_when) question.wishes.push_back({&*cause.cannot_be_when, Truth::yes, false});
        std::optional<Condition> right_stage;
        if (const auto stage = review_.base.stage) {
            const AnswerSet known = all_answers(review_.base.signs[*stage].answers.size());
            if ((cause.stages & known) != known) right_stage = Condition{Says{*stage, cause.stages & known}};
        }
        if (right_stage) question.wishes.push_back({&*right_stage, Truth::no, false});
        if (question.wishes.size() == 1 || review_.space.possible(question, true)) return;
        review_.add("cannot_apply", site.place, {site.owner},
                    "whenever " + site.in_words + " holds (" + site.text + "), the cause is ruled out by its " +
                        (cause.cannot_be_when ? "'cannot be when: " + cause.cannot_be_when_text + "'" : std::string("stages")) +
                        (cause.cannot_be_when && right_stage ? " or its stages" : ""),
                    "take one of the two out, or narrow it", AnswersQuestion{{{&site.condition, Truth::yes}}});
    }

    const LogicReview& review_;
    std::vector<bool> dead_;    ///< by conclusion: nothing makes it true
    std::vector<bool> given_;   ///< by conclusion: one of its rules is always true, and told of
    std::vector<bool> never_;   ///< by rule
    std::vector<bool> always_;  ///< by rule
};

}  // namespace

std::vector<bool> review_conditions(const LogicReview& review) { return Conditions(review).run(); }

}  // namespace lidlift::logic
