// A condition as the trainer wrote it: names not yet looked up, each with its column. The grammar makes it; the rule base
// reader resolves it.
#pragma once

#include <string>
#include <variant>
#include <vector>

namespace lidlift::written {

/// A word and the column (1-based, in code points) where it stands in the condition's text.
struct Name {
    std::string text;
    int column = 1;
    friend bool operator==(const Name&, const Name&) = default;
};

/// "32 °C": the number, and the unit's name as written (empty text: none).
struct Number {
    double number = 0;
    Name unit;
    int column = 1;
    friend bool operator==(const Number&, const Number&) = default;
};

enum class Comparison { above, below, at_least, at_most, between };

struct Condition;

struct Always {
    friend bool operator==(const Always&, const Always&) = default;
};
/// A bare name: a yes/no sign or a conclusion.
struct Holds {
    Name name;
    friend bool operator==(const Holds&, const Holds&) = default;
};
/// "sign is answer", "sign is any of (answer, answer)". "is not" is Not around it.
struct Is {
    Name sign;
    std::vector<Name> answers;
    friend bool operator==(const Is&, const Is&) = default;
};
/// "sign above 32 °C"; `second` only for between.
struct Compare {
    Name sign;
    Comparison comparison = Comparison::above;
    Number first;
    Number second;
    friend bool operator==(const Compare&, const Compare&) = default;
};
/// "name is known". "is unknown" is Not around it.
struct IsKnown {
    Name name;
    friend bool operator==(const IsKnown&, const IsKnown&) = default;
};
struct Not {
    std::vector<Condition> child;  ///< exactly one
    friend bool operator==(const Not&, const Not&);
};
struct And {
    std::vector<Condition> children;  ///< two or more
    friend bool operator==(const And&, const And&);
};
struct Or {
    std::vector<Condition> children;  ///< two or more
    friend bool operator==(const Or&, const Or&);
};
struct AtLeast {
    int wanted = 1;
    int column = 1;  ///< of the number
    std::vector<Condition> children;
    friend bool operator==(const AtLeast&, const AtLeast&);
};

struct Condition {
    std::variant<Always, Holds, Is, Compare, IsKnown, Not, And, Or, AtLeast> node;
    friend bool operator==(const Condition&, const Condition&) = default;
};

inline bool operator==(const Not& a, const Not& b) { return a.child == b.child; }
inline bool operator==(const And& a, const And& b) { return a.children == b.children; }
inline bool operator==(const Or& a, const Or& b) { return a.children == b.children; }
inline bool operator==(const AtLeast& a, const AtLeast& b) {
    return a.wanted == b.wanted && a.column == b.column && a.children == b.children;
}

/// The condition in the language it was written in, with as few parentheses as keep its meaning; reading it again gives an
/// equal tree but for columns.
[[nodiscard]] std::string to_text(const Condition& condition);

}  // namespace lidlift::written
