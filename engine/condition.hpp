// A condition over one rule base's signs and conclusions, and its three-valued value for what is known of one bed.
#pragma once

#include "engine/catalogue.hpp"
#include "engine/truth.hpp"

#include <cstdint>
#include <limits>
#include <span>
#include <variant>
#include <vector>

namespace lidlift {

struct Sign;
struct Conclusion;
class Facts;

/// A set of a sign's answers, by their position; a sign has at most 64.
using AnswerSet = std::uint64_t;
inline constexpr std::size_t most_answers = 64;
[[nodiscard]] constexpr AnswerSet answer_set(std::size_t position) { return AnswerSet{1} << position; }
[[nodiscard]] constexpr AnswerSet all_answers(std::size_t count) {
    return count >= 64 ? ~AnswerSet{0} : (AnswerSet{1} << count) - 1;
}

/// Numbers from `low` to `high`, in the sign's own unit; ends are in it or not.
struct Range {
    double low = -std::numeric_limits<double>::infinity();
    double high = std::numeric_limits<double>::infinity();
    bool low_included = true;
    bool high_included = true;
    friend bool operator==(const Range&, const Range&) = default;

    [[nodiscard]] bool contains(const Range& other) const;
    [[nodiscard]] bool meets(const Range& other) const;
    /// What lies in both; only for ranges that meet.
    [[nodiscard]] Range shared_with(const Range& other) const;
};

struct Condition;

/// The answer to `sign` is one of `answers`; for a several-at-once sign: at least one of them is present.
struct Says {
    Handle<Sign> sign;
    AnswerSet answers = 0;
    friend bool operator==(const Says&, const Says&) = default;
};
/// The measured number lies in `range`.
struct Lies {
    Handle<Sign> sign;
    Range range;
    friend bool operator==(const Lies&, const Lies&) = default;
};
struct Concluded {
    Handle<Conclusion> conclusion;
    friend bool operator==(const Concluded&, const Concluded&) = default;
};
struct SignKnown {
    Handle<Sign> sign;
    friend bool operator==(const SignKnown&, const SignKnown&) = default;
};
struct ConclusionKnown {
    Handle<Conclusion> conclusion;
    friend bool operator==(const ConclusionKnown&, const ConclusionKnown&) = default;
};
struct Negation {
    std::vector<Condition> child;  ///< exactly one
    friend bool operator==(const Negation&, const Negation&);
};
/// At least `wanted` of the children; all of them: and, one of them: or.
struct Quorum {
    int wanted = 0;
    std::vector<Condition> children;
    friend bool operator==(const Quorum&, const Quorum&);
};

/// `wanted` 0 of no children is the condition that always holds.
struct Condition {
    std::variant<Says, Lies, Concluded, SignKnown, ConclusionKnown, Negation, Quorum> node = Quorum{};
    friend bool operator==(const Condition&, const Condition&) = default;
};

inline bool operator==(const Negation& a, const Negation& b) { return a.child == b.child; }
inline bool operator==(const Quorum& a, const Quorum& b) { return a.wanted == b.wanted && a.children == b.children; }

/// Value by strong Kleene logic; conclusions by handle index. A conclusion beyond the span's end is unknown.
[[nodiscard]] Truth evaluate(const Condition& condition, const Facts& facts, std::span<const Truth> conclusions);

/// Signs and conclusions that the condition mentions, each once, in the order of mention.
struct Mentions {
    std::vector<Handle<Sign>> signs;
    std::vector<Handle<Conclusion>> conclusions;
};
[[nodiscard]] Mentions mentioned(const Condition& condition);

/// The parts (without `and`, `or`, `not`, `at least`) that decided a settled condition: enough of them, no more. Empty when it
/// is unknown.
[[nodiscard]] std::vector<const Condition*> deciders(const Condition& condition, const Facts& facts,
                                                     std::span<const Truth> conclusions);

/// Signs and conclusions whose value, if it were known, could still settle an unknown condition.
[[nodiscard]] Mentions undecided(const Condition& condition, const Facts& facts, std::span<const Truth> conclusions);

}  // namespace lidlift
