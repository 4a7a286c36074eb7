// Conclusions, signs and answers that nothing uses.
#include "engine/plain_text.hpp"
#include "engine/review/logic_parts.hpp"

#include <algorithm>
#include <bit>
#include <utility>

namespace lidlift::logic {
namespace {

/// So many answers to one question may be alike.
constexpr std::size_t most_alike = 2;

class Uses {
public:
    explicit Uses(const LogicReview& review)
        : review_(review),
          base_(review.base),
          conclusion_used_(base_.conclusions.size(), false),
          sign_used_(base_.signs.size(), false),
          told_apart_(base_.signs.size()) {
        for (std::size_t i = 0; i < told_apart_.size(); ++i)
            told_apart_[i].assign(base_.signs[sign(i)].answers.size(), std::string{});
        for (const ConditionSite& site : review.sites)
            if (site.part != ConditionSite::Part::rule) look_at(site.condition);
        while (!open_.empty()) {
            const auto conclusion = open_.back();
            open_.pop_back();
            for (const auto rule : base_.rules_for[conclusion]) look_at(base_.rules[rule].when);
        }
        for (const Clash& clash : base_.clashes)
            if (clash.find_out) sign_used_[clash.find_out->index] = true;
        if (base_.stage) {
            sign_used_[base_.stage->index] = true;
            for (const Cause& cause : base_.causes) tell_apart(*base_.stage, cause.stages);
        }
    }

    void run() {
        for (std::uint32_t i = 0; i < base_.conclusions.size(); ++i)
            if (!conclusion_used_[i]) tell_conclusion({i});
        for (std::uint32_t i = 0; i < base_.signs.size(); ++i) {
            if (!sign_used_[i])
                tell_sign({i});
            else
                tell_answers({i});
        }
    }

private:
    static Handle<Sign> sign(std::size_t index) { return {static_cast<std::uint32_t>(index)}; }

    /// Answers on the two sides of `answers` are told apart.
    void tell_apart(Handle<Sign> handle, AnswerSet answers) {
        auto& marks = told_apart_[handle.index];
        for (std::size_t i = 0; i < marks.size(); ++i) marks[i] += (answers & answer_set(i)) != 0 ? '1' : '0';
    }

    void look_at(const Condition& condition) {
        if (const auto* negation = std::get_if<Negation>(&condition.node)) {
            look_at(negation->child.front());
        } else if (const auto* quorum = std::get_if<Quorum>(&condition.node)) {
            for (const Condition& child : quorum->children) look_at(child);
        } else if (const auto* says = std::get_if<Says>(&condition.node)) {
            sign_used_[says->sign.index] = true;
            tell_apart(says->sign, says->answers);
        } else if (const auto* lies = std::get_if<Lies>(&condition.node)) {
            sign_used_[lies->sign.index] = true;
            const Sign& quantity = base_.signs[lies->sign];
            // A band that the range cuts is in a class of its own.
            tell_apart(lies->sign, quantity.bands_meeting(lies->range));
            AnswerSet whole = 0;
            for (std::size_t i = 0; i < quantity.answers.size(); ++i)
                if (lies->range.contains(quantity.band(i))) whole |= answer_set(i);
            tell_apart(lies->sign, whole);
        } else if (const auto* known = std::get_if<SignKnown>(&condition.node)) {
            sign_used_[known->sign.index] = true;
        } else if (const auto* concluded = std::get_if<Concluded>(&condition.node)) {
            use(concluded->conclusion);
        } else if (const auto* settled = std::get_if<ConclusionKnown>(&condition.node)) {
            use(settled->conclusion);
        }
    }

    void use(Handle<Conclusion> conclusion) {
        if (conclusion_used_[conclusion.index]) return;
        conclusion_used_[conclusion.index] = true;
        open_.push_back(conclusion.index);
    }

    void tell_conclusion(Handle<Conclusion> handle) {
        const Conclusion& conclusion = base_.conclusions[handle];
        const bool by_unused = std::ranges::any_of(base_.rules, [&](const Rule& rule) {
            const auto used = mentioned(rule.when).conclusions;
            return std::ranges::find(used, handle) != used.end();
        });
        AnswersQuestion holds;
        const Condition it{Concluded{handle}};
        holds.wishes.push_back({&it, Truth::yes});
        review_.add("unused_conclusion", conclusion.place, {conclusion.id},
                    by_unused
                        ? "the conclusion " + quoted(conclusion.id) + " is used only by rules whose conclusions nothing uses"
                        : "nothing uses the conclusion " + quoted(conclusion.id),
                    "let a cause, caution, clash or step use it, or take it out with its rules", holds);
    }

    void tell_sign(Handle<Sign> handle) {
        const Sign& unused = base_.signs[handle];
        review_.add("unused_sign", unused.place, {unused.id},
                    "no cause, rule that counts, caution, clash or step uses the sign " + quoted(unused.id),
                    "let something use it, or take it out");
    }

    void tell_answers(Handle<Sign> handle) {
        const Sign& used = base_.signs[handle];
        const auto& marks = told_apart_[handle.index];
        const auto unnamed = [&](std::size_t i) { return marks[i].find('1') == std::string::npos; };
        // Asked only for whether it is known at all: then its answers need not differ.
        if (marks.empty() || marks.front().empty()) return;
        std::vector<std::string> names;
        for (std::size_t i = 0; i < used.answers.size(); ++i)
            if (unnamed(i) && !used.answers[i].none_of_these) names.push_back(used.answers[i].id);
        // Of several at once each stands alone. Of one of several, one answer may be "all the others", and a scale may have a
        // step beside it ("none", "few") so that people need not exaggerate.
        if (names.empty() || (used.sort != SignSort::several && names.size() <= most_alike)) return;
        std::string listed;
        for (const std::string& name : names)
            listed += (listed.empty() ? "" : name == names.back() ? " and " : ", ") + quoted(name);
        std::vector<std::string> about = {used.id};
        about.insert(about.end(), names.begin(), names.end());
        const bool several = used.sort == SignSort::several;
        review_.add(
            "unused_answer", used.place, std::move(about),
            several ? "nothing uses the answer" + std::string(names.size() == 1 ? " " : "s ") + listed + " of the sign " +
                          quoted(used.id)
                    : "nothing tells the answers " + listed + " of the sign " + quoted(used.id) + " apart",
            several ? "let something use it, or take it out" : "make one answer of them, or let something tell them apart");
    }

    const LogicReview& review_;
    const RuleBase& base_;
    std::vector<bool> conclusion_used_;
    std::vector<bool> sign_used_;
    std::vector<std::vector<std::string>> told_apart_;  ///< by sign and answer: one mark for each condition that names the sign
    std::vector<std::uint32_t> open_;
};

}  // namespace

void review_uses(const LogicReview& review) { Uses(review).run(); }

}  // namespace lidlift::logic
