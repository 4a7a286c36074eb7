#include "engine/review/question_reach.hpp"

#include "engine/review/sayable_number.hpp"

#include <algorithm>
#include <cmath>
#include <utility>

namespace lidlift::logic {
namespace {

class Reaching {
public:
    Reaching(const RuleBase& base, const AnswersQuestion& question, std::span<const std::size_t> rank)
        : base_(base), question_(question) {
        found_.resize(base.conclusions.size(), false);
        for (const Wish& wish : question.wishes) look_at(*wish.condition);
        while (!open_.empty()) {
            const Handle<Conclusion> conclusion = open_.back();
            open_.pop_back();
            if (!is_free(conclusion))
                for (const auto rule : base.rules_for[conclusion.index]) look_at(base.rules[rule].when);
        }
        if (question.edge) {
            reach_.signs.insert(question.edge->sign);
            reach_.cuts[question.edge->sign].insert(question.edge->number);
        }
        std::ranges::sort(reach_.conclusions, {}, [&](Handle<Conclusion> conclusion) { return rank[conclusion.index]; });
    }
    [[nodiscard]] Reach take() { return std::move(reach_); }

private:
    [[nodiscard]] bool is_free(Handle<Conclusion> conclusion) const {
        return conclusion.index < question_.free.size() && question_.free[conclusion.index];
    }
    void conclusion(Handle<Conclusion> conclusion) {
        if (found_[conclusion.index]) return;
        found_[conclusion.index] = true;
        reach_.conclusions.push_back(conclusion);
        open_.push_back(conclusion);
    }
    void bands(Handle<Sign> sign) {
        for (const Answer& band : base_.signs[sign].answers)
            if (band.below) reach_.cuts[sign].insert(*band.below);
    }
    void look_at(const Condition& condition) {
        ++reach_.parts;
        if (const auto* negation = std::get_if<Negation>(&condition.node)) {
            look_at(negation->child.front());
        } else if (const auto* quorum = std::get_if<Quorum>(&condition.node)) {
            for (const Condition& child : quorum->children) look_at(child);
        } else if (const auto* says = std::get_if<Says>(&condition.node)) {
            reach_.signs.insert(says->sign);
            if (base_.signs[says->sign].sort == SignSort::quantity) bands(says->sign);
        } else if (const auto* lies = std::get_if<Lies>(&condition.node)) {
            reach_.signs.insert(lies->sign);
            reach_.cuts[lies->sign].insert(lies->range.low);
            reach_.cuts[lies->sign].insert(lies->range.high);
        } else if (const auto* known = std::get_if<SignKnown>(&condition.node)) {
            reach_.signs.insert(known->sign);
        } else if (const auto* concluded = std::get_if<Concluded>(&condition.node)) {
            conclusion(concluded->conclusion);
        } else if (const auto* settled = std::get_if<ConclusionKnown>(&condition.node)) {
            conclusion(settled->conclusion);
        }
    }

    const RuleBase& base_;
    const AnswersQuestion& question_;
    Reach reach_;
    std::vector<bool> found_;
    std::vector<Handle<Conclusion>> open_;
};

}  // namespace

Reach reach_of(const RuleBase& rule_base, const AnswersQuestion& question, std::span<const std::size_t> rank) {
    return Reaching(rule_base, question, rank).take();
}

std::vector<Cell> cells_of(const Sign& sign, const std::set<double>& cuts) {
    std::vector<Cell> cells;
    const auto add = [&](const Range& range) {
        if (range.low > range.high || (range.low == range.high && !(range.low_included && range.high_included))) return;
        if (const auto number = plainest_number(range, *sign.unit)) cells.push_back({range, *number});
    };
    Range rest = sign.plausible;
    for (const double cut : cuts) {
        if (!std::isfinite(cut) || !sign.plausible.contains({cut, cut, true, true})) continue;
        Range before = rest;
        before.high = cut;
        before.high_included = false;
        add(before);
        add({cut, cut, true, true});
        rest.low = cut;
        rest.low_included = false;
    }
    add(rest);
    return cells;
}

}  // namespace lidlift::logic
