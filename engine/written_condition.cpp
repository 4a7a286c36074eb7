#include "engine/written_condition.hpp"

#include "engine/written_text.hpp"

#include <string_view>

namespace lidlift::written {
namespace {

/// How tightly a form holds its parts together; a part that binds no tighter than the form around it needs parentheses.
enum class Binding { alternatives, conjunction, negation, whole };

Binding binding(const Condition& condition) {
    if (std::holds_alternative<Or>(condition.node)) return Binding::alternatives;
    if (std::holds_alternative<And>(condition.node)) return Binding::conjunction;
    if (const Not* negated = std::get_if<Not>(&condition.node)) {
        const auto& inner = negated->child.front().node;
        const bool inside = std::holds_alternative<Is>(inner) || std::holds_alternative<IsKnown>(inner);
        return inside ? Binding::whole : Binding::negation;  // "squeeze is not streams": the `not` stands inside
    }
    return Binding::whole;
}

std::string bracketed(const Condition& part) { return "(" + to_text(part) + ")"; }

template <class Part, class Text>
std::string joined(const std::vector<Part>& parts, std::string_view between, Text text) {
    std::string line;
    for (const Part& part : parts) {
        if (&part != &parts.front()) line += between;
        line += text(part);
    }
    return line;
}

std::string number_text(const Number& number) {
    std::string text = number_as_written(number.number);
    if (!number.unit.text.empty()) text += " " + number.unit.text;
    return text;
}

std::string answers_text(const std::vector<Name>& answers) {
    if (answers.size() == 1) return answers.front().text;
    return "any of (" + joined(answers, ", ", [](const Name& answer) { return answer.text; }) + ")";
}

std::string comparison_text(Comparison comparison) {
    switch (comparison) {
        case Comparison::above:
            return "above";
        case Comparison::below:
            return "below";
        case Comparison::at_least:
            return "at least";
        case Comparison::at_most:
            return "at most";
        case Comparison::between:
            return "between";
    }
    return {};
}

struct ConditionText {
    std::string operator()(const Always&) const { return "always"; }
    std::string operator()(const Holds& holds) const { return holds.name.text; }
    std::string operator()(const Is& is) const { return is.sign.text + " is " + answers_text(is.answers); }
    std::string operator()(const IsKnown& is) const { return is.name.text + " is known"; }
    std::string operator()(const Compare& compare) const {
        const std::string first =
            compare.sign.text + " " + comparison_text(compare.comparison) + " " + number_text(compare.first);
        return compare.comparison == Comparison::between ? first + " and " + number_text(compare.second) : first;
    }
    std::string operator()(const Not& negated) const {
        const Condition& child = negated.child.front();
        if (const Is* is = std::get_if<Is>(&child.node)) return is->sign.text + " is not " + answers_text(is->answers);
        if (const IsKnown* is = std::get_if<IsKnown>(&child.node)) return is->name.text + " is unknown";
        return "not " + (binding(child) < Binding::negation ? bracketed(child) : to_text(child));
    }
    std::string operator()(const And& all) const { return chain(all.children, " and ", Binding::conjunction); }
    std::string operator()(const Or& any) const { return chain(any.children, " or ", Binding::alternatives); }
    std::string operator()(const AtLeast& some) const {
        return "at least " + std::to_string(some.wanted) + " of (" +
               joined(some.children, ", ", [](const Condition& part) { return to_text(part); }) + ")";
    }

    static std::string chain(const std::vector<Condition>& parts, std::string_view between, Binding around) {
        return joined(parts, between,
                      [around](const Condition& part) { return binding(part) <= around ? bracketed(part) : to_text(part); });
    }
};

}  // namespace

std::string to_text(const Condition& condition) { return std::visit(ConditionText{}, condition.node); }

}  // namespace lidlift::written
