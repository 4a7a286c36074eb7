// The sections "conclusions" and "rules", and the order in which rules are applied.
#include "engine/reader/resolve.hpp"
#include "engine/reader/sections.hpp"
#include "engine/words.hpp"

#include <algorithm>

namespace lidlift::reader {

void read_conclusion(const NamedEntry& named, Conclusion& conclusion, const RuleBase& rule_base, Complaints& complaints) {
    Entry entry(named.value, "the conclusion '" + named.id + "'", complaints);
    conclusion.means = entry.text("means", Need::required);
    if (const auto word = entry.word("seen anyway", frequency_words()))
        conclusion.seen_anyway = frequency(frequency_words()[*word]);
    conclusion.same_observation = entry.text("same observation");
    conclusion.excludes = read_names(entry, "excludes", rule_base.conclusions, "conclusion");
    for (const Handle<Conclusion> other : conclusion.excludes)
        if (rule_base.conclusions[other].id == named.id)
            entry.complain(entry.node("excludes")->place, "the conclusion '" + named.id + "' cannot exclude itself");
    entry.finish();
}

void read_rule(const NamedEntry& named, Rule& rule, const RuleBase& rule_base, Complaints& complaints) {
    Entry entry(named.value, "the rule '" + named.id + "'", complaints);
    if (const YamlNode* when = entry.node("when", Need::required)) {
        rule.when_text = when->text;
        rule.when_place = when->place;
        if (auto condition = read_condition_node(*when, rule_base, complaints)) rule.when = std::move(*condition);
    }
    const YamlNode* then = entry.node("then", Need::required);
    if (then && require_text(*then, "'then'", complaints)) {
        if (const auto conclusion = rule_base.conclusions.find(then->text))
            rule.then = *conclusion;
        else
            complaints.add(then->place, "there is no conclusion '" + then->text + "'",
                           nearest_of(complaints, then->text, [&] { return rule_base.conclusions.ids(); }));
    }
    rule.because = entry.text("because", Need::required);
    rule.sources = read_sources(entry, rule_base);
    entry.finish();
}

namespace {

/// Depth-first over conclusions, without recursion, since a hostile file may chain thousands of them.
class RuleOrder {
public:
    RuleOrder(RuleBase& rule_base, Complaints& complaints) : rule_base_(rule_base), complaints_(complaints) {
        uses_.resize(rule_base.conclusions.size());
        rule_base.rules_for.resize(rule_base.conclusions.size());
        for (std::uint32_t i = 0; i < rule_base.rules.size(); ++i) {
            const Rule& rule = rule_base.rules[Handle<Rule>{i}];
            if (rule.then.index == Handle<Conclusion>::nowhere) continue;
            rule_base.rules_for[rule.then.index].push_back({i});
            for (const auto used : mentioned(rule.when).conclusions) uses_[rule.then.index].push_back(used.index);
        }
    }

    void run() {
        state_.assign(uses_.size(), State::fresh);
        for (std::uint32_t root = 0; root < uses_.size(); ++root)
            if (state_[root] == State::fresh) visit(root);
    }

private:
    enum class State { fresh, open, done };

    void visit(std::uint32_t root) {
        struct Open {
            std::uint32_t conclusion;
            std::size_t next;
        };
        std::vector<Open> path = {{root, 0}};
        state_[root] = State::open;
        while (!path.empty()) {
            Open& top = path.back();
            if (top.next < uses_[top.conclusion].size()) {
                const std::uint32_t used = uses_[top.conclusion][top.next++];
                if (state_[used] == State::fresh) {
                    state_[used] = State::open;
                    path.push_back({used, 0});
                } else if (state_[used] == State::open) {
                    std::vector<std::uint32_t> circle;
                    const auto begin = std::ranges::find(path, used, &Open::conclusion);
                    for (auto step = begin; step != path.end(); ++step) circle.push_back(step->conclusion);
                    complain(circle);
                }
            } else {
                state_[top.conclusion] = State::done;
                for (const auto rule : rule_base_.rules_for[top.conclusion]) rule_base_.rule_order.push_back(rule);
                path.pop_back();
            }
        }
    }

    void complain(const std::vector<std::uint32_t>& circle) {
        const auto id = [&](std::uint32_t i) { return rule_base_.conclusions[Handle<Conclusion>{i}].id; };
        std::string text = "the rules go in a circle: ";
        for (const auto conclusion : circle) text += id(conclusion) + " needs ";
        complaints_.add(rule_base_.rules[rule_base_.rules_for[circle.front()].front()].place, text + id(circle.front()), {},
                        "circle");
    }

    RuleBase& rule_base_;
    Complaints& complaints_;
    std::vector<std::vector<std::uint32_t>> uses_;
    std::vector<State> state_;
};

}  // namespace

void order_rules(RuleBase& rule_base, Complaints& complaints) { RuleOrder(rule_base, complaints).run(); }

}  // namespace lidlift::reader
