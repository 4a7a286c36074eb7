// Writes the default rules as straight-line C++ to standard output: one statement a rule, in the order of chaining.
#include "engine/rule_base_reader.hpp"
#include "rules/default_rules.hpp"

#include <cmath>
#include <cstdio>
#include <string>
#include <vector>

namespace {

using namespace lidlift;

std::string number(double value) {
    if (std::isinf(value)) return value < 0 ? "-INFINITY" : "INFINITY";
    char text[40];
    std::snprintf(text, sizeof text, "%.17g", value);
    return text;
}

std::string yes_no(bool value) { return value ? "true" : "false"; }

std::string code_of(const Condition& condition) {
    struct Write {
        std::string operator()(const Says& says) const {
            return "says(facts, " + std::to_string(says.sign.index) + ", " + std::to_string(says.answers) + "ULL)";
        }
        std::string operator()(const Lies& lies) const {
            const Range& range = lies.range;
            return "lies(facts, " + std::to_string(lies.sign.index) + ", {" + number(range.low) + ", " + number(range.high) +
                   ", " + yes_no(range.low_included) + ", " + yes_no(range.high_included) + "})";
        }
        std::string operator()(const Concluded& concluded) const {
            return "truth[" + std::to_string(concluded.conclusion.index) + "]";
        }
        std::string operator()(const SignKnown& known) const {
            return "known(facts, " + std::to_string(known.sign.index) + ")";
        }
        std::string operator()(const ConclusionKnown& known) const {
            return "lidlift::truth(truth[" + std::to_string(known.conclusion.index) + "] != Truth::unknown)";
        }
        std::string operator()(const Negation& negation) const { return "(!" + code_of(negation.child.front()) + ")"; }
        std::string operator()(const Quorum& quorum) const {
            const int count = static_cast<int>(quorum.children.size());
            const char* between = quorum.wanted == count ? " & " : quorum.wanted == 1 ? " | " : ", ";
            std::string parts;
            for (const Condition& child : quorum.children) parts += (parts.empty() ? "" : between) + code_of(child);
            if (count > 0 && (quorum.wanted == count || quorum.wanted == 1)) return "(" + parts + ")";
            return "at_least(" + std::to_string(quorum.wanted) + (parts.empty() ? "" : ", " + parts) + ")";
        }
    };
    return std::visit(Write{}, condition.node);
}

}  // namespace

int main() {
    const RuleBaseReading reading = read_rule_base(default_rules());
    if (!reading.complaints.empty()) return 1;
    const RuleBase& base = reading.rule_base;
    std::printf(
        "#include \"tests/bench/straight_line.hpp\"\n\n#include <cmath>\n\nnamespace straight_line {\n\n"
        "void chain(const lidlift::Facts& facts, std::span<Truth> truth) {\n");
    std::vector<bool> has_rule(base.conclusions.size(), false);
    for (const auto handle : base.rule_order) {
        const Rule& rule = base.rules[handle];
        const std::size_t then = rule.then.index;
        std::printf("    truth[%zu] = %s%s;\n", then, has_rule[then] ? ("truth[" + std::to_string(then) + "] | ").c_str() : "",
                    code_of(rule.when).c_str());
        has_rule[then] = true;
    }
    for (std::size_t i = 0; i < has_rule.size(); ++i)
        if (!has_rule[i]) std::printf("    truth[%zu] = Truth::unknown;\n", i);
    std::printf("}\n\n}  // namespace straight_line\n");
}
