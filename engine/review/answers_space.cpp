#include "engine/review/answers_space.hpp"

#include "engine/answers.hpp"
#include "engine/chaining.hpp"
#include "engine/review/clause_gates.hpp"
#include "engine/review/question_reach.hpp"
#include "engine/review/sayable_number.hpp"

#include <algorithm>
#include <array>
#include <map>
#include <utility>

namespace lidlift::logic {
namespace {

/// Measured: in the time of so many steps of the solver a question is begun, and one part of a condition is put.
constexpr std::size_t work_to_put_a_question = 500;
constexpr std::size_t work_for_one_part = 10;

/// "Surely so" and "surely not so"; neither: unknown.
struct Rails {
    Literal yes = 0;
    Literal no = 0;
};

/// The literals of one sign's answers. One of several and yes/no: `yes` by answer, at most one of them. Several at once: `yes`
/// and `no` by answer. Quantity: `yes` by cell, at most one.
struct SignLiterals {
    std::vector<Literal> yes;
    std::vector<Literal> no;
    Literal known = 0;
};

/// One question as clauses.
class Clauses {
public:
    Clauses(const RuleBase& base, const AnswersQuestion& question, std::span<const std::size_t> rank)
        : base_(base), question_(question), reach_(reach_of(base, question, rank)), beds_(question.edge ? 3 : 1) {
        for (const Handle<Sign> sign : reach_.signs) add_sign(sign);
        add_edge();
        conclusions_.resize(beds_);
        for (const Wish& wish : question.wishes) {
            if (too_large()) return;
            add_conclusions(wish.bed);
            const Rails rails = this->rails(*wish.condition, wish.bed);
            const Literal value = wish.truth == Truth::yes  ? rails.yes
                                  : wish.truth == Truth::no ? rails.no
                                                            : gates_.both(negated(rails.yes), negated(rails.no));
            gates_.add({wish.is ? value : negated(value)});
        }
    }

    [[nodiscard]] bool too_large() const { return gates_.too_large(); }
    /// What it took to put the question, in steps of the solver.
    [[nodiscard]] std::size_t work() const {
        return work_to_put_a_question + work_for_one_part * beds_ * (reach_.parts + reach_.conclusions.size()) +
               gates_.literals();
    }
    /// There is no such bed, whatever the conditions say: the edge is an end of what is plausible.
    [[nodiscard]] bool no_such_edge() const { return no_such_edge_; }
    [[nodiscard]] Decided solve(std::uint64_t& work) { return gates_.solve(work); }

    [[nodiscard]] Facts facts(std::size_t bed) const {
        Facts facts;
        for (const Handle<Sign> handle : reach_.signs) {
            const Sign& sign = base_.signs[handle];
            const SignLiterals& literals = signs_.at(handle);
            Observation seen;
            seen.from = "the review";
            if (sign.sort == SignSort::quantity) {
                const auto& cells = cells_.at(handle);
                const bool edge = question_.edge && question_.edge->sign == handle;
                for (std::size_t i = 0; i < cells.size(); ++i) {
                    if (edge ? i != edge_cells_[bed] : !gates_.holds(literals.yes[i])) continue;
                    seen.measured = Range{cells[i].number, cells[i].number, true, true};
                    seen.possible = sign.bands_meeting(*seen.measured);
                }
                if (!seen.measured) continue;
            } else if (sign.sort == SignSort::several) {
                for (std::size_t i = 0; i < sign.answers.size(); ++i) {
                    if (gates_.holds(literals.yes[i])) seen.present |= answer_set(i);
                    if (gates_.holds(literals.no[i])) seen.absent |= answer_set(i);
                }
                if ((seen.present | seen.absent) == 0) continue;
            } else {
                for (std::size_t i = 0; i < sign.answers.size(); ++i)
                    if (gates_.holds(literals.yes[i])) seen.possible = answer_set(i);
                if (seen.possible == 0) continue;
            }
            facts.set(handle, std::move(seen));
        }
        return facts;
    }

private:
    void add_sign(Handle<Sign> handle) {
        const Sign& sign = base_.signs[handle];
        SignLiterals& literals = signs_[handle];
        std::size_t count = sign.answers.size();
        if (sign.sort == SignSort::quantity) {
            cells_[handle] = cells_of(sign, reach_.cuts[handle]);
            count = cells_[handle].size();
        }
        for (std::size_t i = 0; i < count; ++i) literals.yes.push_back(gates_.new_literal());
        std::vector<Literal> anything = literals.yes;
        if (sign.sort == SignSort::several) {
            for (std::size_t i = 0; i < count; ++i) {
                literals.no.push_back(gates_.new_literal());
                gates_.add({negated(literals.yes[i]), negated(literals.no[i])});
                anything.push_back(literals.no[i]);
                if (question_.all_known) gates_.add({literals.yes[i], literals.no[i]});
            }
            for (std::size_t none = 0; none < count; ++none) {
                if (!sign.answers[none].none_of_these) continue;
                for (std::size_t i = 0; i < count; ++i) {
                    if (i == none) continue;
                    gates_.add({negated(literals.yes[none]), literals.no[i]});
                    gates_.add({negated(literals.yes[i]), literals.no[none]});
                }
                // A bed shows something of it, or "none of these".
                std::vector<Literal> not_all;
                for (const Literal no : literals.no) not_all.push_back(negated(no));
                gates_.add(std::move(not_all));
            }
        } else {
            gates_.at_most_one(literals.yes);
        }
        literals.known = gates_.any(anything);
        if (question_.all_known) gates_.add({literals.known});
    }

    /// In each bed the sign of the edge has its own cell.
    void add_edge() {
        if (!question_.edge) return;
        const auto& cells = cells_[question_.edge->sign];
        const auto at = std::ranges::find_if(cells, [&](const Cell& cell) {
            return cell.range.low == question_.edge->number && cell.range.high == question_.edge->number;
        });
        no_such_edge_ = at == cells.end() || at == cells.begin() || at + 1 == cells.end();
        if (no_such_edge_) return;
        // Only direct neighbours count: cells without a number that can be typed are left out of the row.
        no_such_edge_ = (at - 1)->range.high != at->range.low || (at + 1)->range.low != at->range.high;
        const auto position = static_cast<std::size_t>(at - cells.begin());
        edge_cells_ = {position - 1, position, position + 1};
    }

    void add_conclusions(std::size_t bed) {
        if (!conclusions_[bed].empty()) return;
        conclusions_[bed].resize(base_.conclusions.size());
        for (const Handle<Conclusion> conclusion : reach_.conclusions) {
            if (too_large()) return;
            Rails rails{gates_.never(), gates_.never()};
            if (conclusion.index < question_.free.size() && question_.free[conclusion.index]) {
                rails = {gates_.new_literal(), gates_.new_literal()};
                gates_.add({negated(rails.yes), negated(rails.no)});
            } else if (const auto& rules = base_.rules_for[conclusion.index]; !rules.empty()) {
                std::vector<Literal> yes;
                std::vector<Literal> no;
                for (const auto rule : rules) {
                    const Rails of_rule = this->rails(base_.rules[rule].when, bed);
                    yes.push_back(of_rule.yes);
                    no.push_back(of_rule.no);
                }
                rails = {gates_.any(std::move(yes)), gates_.all(std::move(no))};
            }
            conclusions_[bed][conclusion.index] = rails;
        }
    }

    Rails rails(const Condition& condition, std::size_t bed) {
        return std::visit([&](const auto& node) { return rails_of(node, bed); }, condition.node);
    }

    Rails rails_of(const Says& says, std::size_t bed) {
        const Sign& sign = base_.signs[says.sign];
        const SignLiterals& literals = signs_.at(says.sign);
        std::vector<Literal> yes;
        std::vector<Literal> no;
        if (sign.sort == SignSort::several) {
            for (std::size_t i = 0; i < sign.answers.size(); ++i) {
                if ((says.answers & answer_set(i)) == 0) continue;
                yes.push_back(literals.yes[i]);
                no.push_back(literals.no[i]);
            }
            return {gates_.any(std::move(yes)), gates_.all(std::move(no))};
        }
        if (sign.sort == SignSort::quantity)
            return by_cell(says.sign, bed, [&](double number) {
                return (sign.bands_meeting({number, number, true, true}) & says.answers) != 0;
            });
        for (std::size_t i = 0; i < sign.answers.size(); ++i)
            ((says.answers & answer_set(i)) != 0 ? yes : no).push_back(literals.yes[i]);
        return {gates_.any(std::move(yes)), gates_.any(std::move(no))};
    }
    Rails rails_of(const Lies& lies, std::size_t bed) {
        return by_cell(lies.sign, bed, [&](double number) { return lies.range.contains({number, number, true, true}); });
    }
    template <class Inside>
    Rails by_cell(Handle<Sign> sign, std::size_t bed, const Inside& inside) {
        const auto& cells = cells_.at(sign);
        if (question_.edge && question_.edge->sign == sign) {
            const bool yes = !no_such_edge_ && inside(cells[edge_cells_[bed]].number);
            return yes ? Rails{gates_.always(), gates_.never()} : Rails{gates_.never(), gates_.always()};
        }
        std::vector<Literal> yes;
        std::vector<Literal> no;
        const SignLiterals& literals = signs_.at(sign);
        for (std::size_t i = 0; i < cells.size(); ++i) (inside(cells[i].number) ? yes : no).push_back(literals.yes[i]);
        return {gates_.any(std::move(yes)), gates_.any(std::move(no))};
    }
    Rails rails_of(const Concluded& concluded, std::size_t bed) { return conclusions_[bed][concluded.conclusion.index]; }
    Rails rails_of(const SignKnown& sign, std::size_t) {
        const bool edge = question_.edge && question_.edge->sign == sign.sign;
        const Literal known = edge ? gates_.always() : signs_.at(sign.sign).known;
        return {known, negated(known)};
    }
    Rails rails_of(const ConclusionKnown& settled, std::size_t bed) {
        const Rails rails = conclusions_[bed][settled.conclusion.index];
        const Literal known = gates_.any({rails.yes, rails.no});
        return {known, negated(known)};
    }
    Rails rails_of(const Negation& negation, std::size_t bed) {
        const Rails child = rails(negation.child.front(), bed);
        return {child.no, child.yes};
    }
    Rails rails_of(const Quorum& quorum, std::size_t bed) {
        std::vector<Literal> yes;
        std::vector<Literal> no;
        for (const Condition& child : quorum.children) {
            const Rails of_child = rails(child, bed);
            yes.push_back(of_child.yes);
            no.push_back(of_child.no);
        }
        const auto wanted = static_cast<std::size_t>(std::max(quorum.wanted, 0));
        const std::size_t count = yes.size();
        const Literal so = gates_.at_least_of(wanted, yes);
        return {so, wanted > count ? gates_.always() : gates_.at_least_of(count - wanted + 1, no)};
    }

    const RuleBase& base_;
    const AnswersQuestion& question_;
    Reach reach_;
    std::size_t beds_;
    ClauseGates gates_;
    std::map<Handle<Sign>, SignLiterals> signs_;
    std::map<Handle<Sign>, std::vector<Cell>> cells_;
    std::vector<std::vector<Rails>> conclusions_;  ///< by bed and conclusion; only those that the question reaches are set
    std::array<std::size_t, 3> edge_cells_ = {};
    bool no_such_edge_ = false;
};

bool meets(const Wish& wish, const Facts& facts, const Conclusions& conclusions) {
    return (evaluate(*wish.condition, facts, conclusions.truth) == wish.truth) == wish.is;
}

}  // namespace

AnswersSpace::AnswersSpace(const RuleBase& rule_base, std::uint64_t work)
    : rule_base_(rule_base), work_(work), rank_(rule_base.conclusions.size(), 0) {
    // rule_order holds the rules of one conclusion after those of all that it uses; those without a rule stay in front.
    for (std::size_t i = 0; i < rule_base.rule_order.size(); ++i)
        rank_[rule_base.rules[rule_base.rule_order[i]].then.index] = i + 1;
}

AnswersFound AnswersSpace::find(const AnswersQuestion& question) {
    if (work_ == 0) return {Found::undecided, {}};
    Clauses clauses(rule_base_, question, rank_);
    work_ -= std::min<std::uint64_t>(work_, clauses.work());
    if (clauses.no_such_edge()) return {Found::no, {}};
    if (clauses.too_large()) return {Found::undecided, {}};
    std::uint64_t left = std::min(most_work_for_one, work_);
    const std::uint64_t allowed = left;
    const Decided decided = clauses.solve(left);
    work_ -= allowed - left;
    if (decided == Decided::unsatisfiable) return {Found::no, {}};
    if (decided == Decided::given_up) return {Found::undecided, {}};
    AnswersFound result{Found::yes, {}};
    for (std::size_t bed = 0; bed < (question.edge ? 3U : 1U); ++bed) result.beds.push_back(clauses.facts(bed));
    return result;
}

bool AnswersSpace::possible(const AnswersQuestion& question, bool otherwise) {
    const Found found = find(question).found;
    if (found == Found::undecided) ++undecided_;
    return found == Found::undecided ? otherwise : found == Found::yes;
}

std::vector<Facts> AnswersSpace::shortened(const AnswersQuestion& question, std::vector<Facts> beds) {
    const auto still = [&](const std::vector<Facts>& fewer) {
        work_ -= std::min<std::uint64_t>(work_, fewer.size() * (rule_base_.rules.size() + 1));
        return work_ > 0 && engine_agrees(rule_base_, question, fewer);
    };
    const auto signs = beds.front().known();
    for (const Handle<Sign> sign : signs) {
        if (question.edge && question.edge->sign == sign) continue;
        auto fewer = beds;
        for (Facts& facts : fewer) facts.forget(sign);
        if (still(fewer)) {
            beds = std::move(fewer);
            continue;
        }
        if (rule_base_.signs[sign].sort != SignSort::several) continue;
        // What is denied needs not be denied twice: an answer that stands alone denies the others by itself.
        for (std::size_t i = 0; i < rule_base_.signs[sign].answers.size(); ++i) {
            const Observation seen = *beds.front().find(sign);
            const bool alone = std::ranges::any_of(rule_base_.signs[sign].answers, &Answer::none_of_these);
            Observation less = seen;
            less.present &= ~answer_set(i);
            less.absent &= ~answer_set(i);
            if ((less.present | less.absent) == 0 || (less.present == seen.present && less.absent == seen.absent)) continue;
            // What follows from an answer that stays cannot be left out.
            AnswerSet follows = 0;
            for (std::size_t j = 0; alone && j < rule_base_.signs[sign].answers.size(); ++j) {
                const bool none = rule_base_.signs[sign].answers[j].none_of_these;
                if (none && (less.present & answer_set(j)) != 0)
                    follows |= all_answers(rule_base_.signs[sign].answers.size()) & ~answer_set(j);
                if (none && (less.present & ~answer_set(j)) != 0) follows |= answer_set(j);
            }
            less.absent |= follows;
            auto without = beds;
            for (Facts& facts : without) facts.set(sign, less);
            if (still(without)) beds = std::move(without);
        }
    }
    return beds;
}

std::vector<WitnessAnswer> AnswersSpace::witness(const Facts& facts) const {
    std::vector<WitnessAnswer> answers;
    for (const Handle<Sign> handle : facts.known()) {
        const Sign& sign = rule_base_.signs[handle];
        const Observation& seen = *facts.find(handle);
        std::string value = as_value(sign, seen);
        if (seen.measured && seen.measured->low == seen.measured->high)
            value = exact_text(seen.measured->low, *sign.unit).value_or(value);
        answers.push_back({sign.id, std::move(value)});
    }
    return answers;
}

bool engine_agrees(const RuleBase& rule_base, const AnswersQuestion& question, std::span<const Facts> beds) {
    std::vector<Conclusions> conclusions;
    for (const Facts& facts : beds) conclusions.push_back(chain(rule_base, facts));
    return std::ranges::all_of(question.wishes, [&](const Wish& wish) {
        return wish.bed < beds.size() && meets(wish, beds[wish.bed], conclusions[wish.bed]);
    });
}

}  // namespace lidlift::logic
