#include "engine/reader/resolve.hpp"

#include "engine/condition_grammar.hpp"
#include "engine/nearest_name.hpp"
#include "engine/reader/entry.hpp"

#include <utility>

namespace lidlift::reader {
namespace {

class ConditionResolver {
public:
    ConditionResolver(const YamlNode& node, const RuleBase& rule_base, Complaints& complaints)
        : node_(node), rule_base_(rule_base), complaints_(complaints) {}

    std::optional<Condition> resolve(const written::Condition& condition) {
        return std::visit([this](const auto& part) { return resolve(part); }, condition.node);
    }

private:
    std::optional<Condition> resolve(const written::Always&) { return Condition{}; }

    std::optional<Condition> resolve(const written::Holds& holds) {
        if (const auto conclusion = rule_base_.conclusions.find(holds.name.text)) return Condition{Concluded{*conclusion}};
        const auto sign = find_sign(holds.name);
        if (!sign) return std::nullopt;
        const Sign& found = rule_base_.signs[*sign];
        if (found.sort == SignSort::yes_no) return Condition{Says{*sign, answer_set(0)}};
        complain(holds.name.column, "'" + found.id + "' is not a yes/no sign: say which answer",
                 found.answers.empty() ? std::string{} : "for instance '" + found.id + " is " + found.answers.front().id + "'");
        return std::nullopt;
    }

    std::optional<Condition> resolve(const written::Is& is) {
        if (const auto conclusion = rule_base_.conclusions.find(is.sign.text)) return resolve_conclusion(*conclusion, is);
        const auto sign = find_sign(is.sign);
        if (!sign) return std::nullopt;
        const Sign& found = rule_base_.signs[*sign];
        AnswerSet answers = 0;
        bool good = true;
        for (const written::Name& name : is.answers) {
            const auto position = found.find_answer(name.text);
            if (position) {
                answers |= answer_set(*position);
                continue;
            }
            good = false;
            std::vector<std::string> known;
            for (const Answer& answer : found.answers) known.push_back(answer.id);
            std::string hint = did_you_mean(name.text, known);
            if (hint.empty())
                hint = known.empty() ? "it is a quantity: say above, below, at least, at most or between"
                                     : "it has " + listed(known);
            complain(name.column, "the sign '" + found.id + "' has no answer '" + name.text + "'", std::move(hint));
        }
        if (!good) return std::nullopt;
        return Condition{Says{*sign, answers}};
    }

    std::optional<Condition> resolve_conclusion(Handle<Conclusion> conclusion, const written::Is& is) {
        const bool one = is.answers.size() == 1;
        if (one && is.answers.front().text == "yes") return Condition{Concluded{conclusion}};
        if (one && is.answers.front().text == "no") return Condition{Negation{{Condition{Concluded{conclusion}}}}};
        complain(is.answers.front().column, "'" + is.sign.text + "' is a conclusion: it is yes or no");
        return std::nullopt;
    }

    std::optional<Condition> resolve(const written::Compare& compare) {
        const bool conclusion = rule_base_.conclusions.find(compare.sign.text).has_value();
        const auto sign = conclusion ? std::nullopt : find_sign(compare.sign);
        if (!sign && !conclusion) return std::nullopt;
        if (conclusion || rule_base_.signs[*sign].sort != SignSort::quantity) {
            complain(compare.sign.column,
                     "'" + compare.sign.text + "' is not a quantity, so it cannot be compared with a number");
            return std::nullopt;
        }
        const Sign& found = rule_base_.signs[*sign];
        written::Number low = compare.first;
        // "between 40 and 50 °F": the unit stands for both numbers.
        if (compare.comparison == written::Comparison::between && low.unit.text.empty()) low.unit = compare.second.unit;
        const auto first = number(low, found);
        if (!first) return std::nullopt;
        Range range;
        switch (compare.comparison) {
            case written::Comparison::above:
                range = {.low = *first, .low_included = false};
                break;
            case written::Comparison::at_least:
                range = {.low = *first};
                break;
            case written::Comparison::below:
                range = {.high = *first, .high_included = false};
                break;
            case written::Comparison::at_most:
                range = {.high = *first};
                break;
            case written::Comparison::between: {
                const auto second = number(compare.second, found);
                if (!second) return std::nullopt;
                if (*second < *first) {
                    complain(compare.first.column, "'between' wants the smaller number first");
                    return std::nullopt;
                }
                range = {.low = *first, .high = *second};
                break;
            }
        }
        return Condition{Lies{*sign, range}};
    }

    std::optional<Condition> resolve(const written::IsKnown& is_known) {
        if (const auto conclusion = rule_base_.conclusions.find(is_known.name.text))
            return Condition{ConclusionKnown{*conclusion}};
        const auto sign = find_sign(is_known.name);
        if (!sign) return std::nullopt;
        return Condition{SignKnown{*sign}};
    }

    std::optional<Condition> resolve(const written::Not& negation) {
        auto child = resolve(negation.child.front());
        if (!child) return std::nullopt;
        return Condition{Negation{{std::move(*child)}}};
    }

    std::optional<Condition> resolve(const written::And& both) {
        return quorum(both.children, static_cast<int>(both.children.size()));
    }
    std::optional<Condition> resolve(const written::Or& either) { return quorum(either.children, 1); }
    std::optional<Condition> resolve(const written::AtLeast& some) { return quorum(some.children, some.wanted); }

    /// Goes on after a mistake, so that all mistakes of a condition are found at once.
    std::optional<Condition> quorum(const std::vector<written::Condition>& children, int wanted) {
        Quorum result{wanted, {}};
        bool good = true;
        for (const written::Condition& child : children) {
            auto resolved = resolve(child);
            if (resolved)
                result.children.push_back(std::move(*resolved));
            else
                good = false;
        }
        if (!good) return std::nullopt;
        return Condition{std::move(result)};
    }

    std::optional<Handle<Sign>> find_sign(const written::Name& name) {
        const auto sign = rule_base_.signs.find(name.text);
        if (sign) return sign;
        const auto names = [&] {
            std::vector<std::string> known = rule_base_.signs.ids();
            const auto conclusions = rule_base_.conclusions.ids();
            known.insert(known.end(), conclusions.begin(), conclusions.end());
            return known;
        };
        complain(name.column, "there is no sign or conclusion '" + name.text + "'", nearest_of(complaints_, name.text, names));
        return std::nullopt;
    }

    std::optional<double> number(const written::Number& number, const Sign& sign) {
        Quantity quantity{number.number, nullptr};
        if (!number.unit.text.empty()) {
            quantity.unit = find_unit(number.unit.text);
            if (!quantity.unit) {
                complain(number.unit.column, "there is no unit '" + number.unit.text + "'",
                         did_you_mean(number.unit.text, unit_names()));
                return std::nullopt;
            }
        }
        const auto converted = convert(quantity, *sign.unit);
        if (!converted) {
            complain(number.unit.column, converted.fault().text);
            return std::nullopt;
        }
        if (!sign.plausible.contains({*converted, *converted, true, true})) {
            complain(number.column, quantity_to_text(*converted, *sign.unit) + " is outside the plausible range of '" +
                                        sign.id + "', " + number_to_text(sign.plausible.low) + " to " +
                                        quantity_to_text(sign.plausible.high, *sign.unit));
            return std::nullopt;
        }
        return *converted;
    }

    void complain(int column, std::string text, std::string hint = {}) {
        complaints_.add(place_inside(node_, column), std::move(text), std::move(hint));
    }

    const YamlNode& node_;
    const RuleBase& rule_base_;
    Complaints& complaints_;
};

}  // namespace

Place place_inside(const YamlNode& node, int column) {
    Place place = node.place;
    if (column > 0 && node.inset) place.column += column - 1 + *node.inset;
    return place;
}

std::optional<Condition> read_condition_node(const YamlNode& node, const RuleBase& rule_base, Complaints& complaints) {
    if (!require_text(node, "a condition", complaints)) return std::nullopt;
    const auto condition = read_condition(node.text);
    if (!condition) {
        complaints.add(place_inside(node, condition.fault().column),
                       "in the condition '" + node.text + "': " + condition.fault().text);
        return std::nullopt;
    }
    return ConditionResolver(node, rule_base, complaints).resolve(*condition);
}

std::optional<Handle<Source>> find_source(const YamlNode& node, const RuleBase& rule_base, Complaints& complaints) {
    if (!require_text(node, "a source", complaints)) return std::nullopt;
    const auto source = rule_base.sources.find(node.text);
    if (!source)
        complaints.add(node.place, "there is no source '" + node.text + "'",
                       nearest_of(complaints, node.text, [&] { return rule_base.sources.ids(); }));
    return source;
}

}  // namespace lidlift::reader
