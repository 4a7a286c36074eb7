// Every way in which the signs of a rule base can be answered, and the search in it for answers that make conditions what is
// wished.
//
// What counts as answering: a sign is unknown, or it has one answer (yes/no, one of several), or one number within its
// plausible range (quantity); of several-at-once each answer is there, not there or unknown, and an answer with
// `none of these` stands alone. Answers that leave more than one possibility open ("not streams", "28 to 32 °C") make true and
// false only what all their possibilities do, so they are not searched.
//
// Numbers fall into cells between the cut points of the conditions involved; every number of a cell does the same. Conditions
// become clauses over "is surely so" and "is surely not so" of each part (strong Kleene logic on two rails), conclusions those
// of their rules; a clause solver decides.
#pragma once

#include "engine/facts.hpp"
#include "engine/review/finding.hpp"
#include "engine/rule_base.hpp"

#include <cstdint>
#include <optional>
#include <span>
#include <string>
#include <vector>

namespace lidlift::logic {

/// `condition` has the value `truth`, or with `is` false has another one.
struct Wish {
    const Condition* condition = nullptr;
    Truth truth = Truth::yes;
    bool is = true;
    /// In which of several beds that differ in one measurement alone (AnswersQuestion::edge).
    std::size_t bed = 0;
};

/// Beds with the same answers but for one quantity: bed 0 reads just below `number`, bed 1 `number` itself, bed 2 just above.
struct Edge {
    Handle<Sign> sign;
    double number = 0;
};

struct AnswersQuestion {
    std::vector<Wish> wishes;
    bool all_known = false;         ///< every sign that the wishes lead to is answered
    std::optional<Edge> edge = {};  ///< without one there is only bed 0
    /// Conclusions that may be anything, whatever their rules say; by index, may be shorter than the conclusions.
    std::vector<bool> free = {};
};

enum class Found { yes, no, undecided };

struct AnswersFound {
    Found found = Found::no;
    std::vector<Facts> beds;  ///< for `yes`: the answers, one for each bed (three with an edge, otherwise one)
};

class AnswersSpace {
public:
    /// Steps of the solver and clauses, for one question and for all of them together; then the rest is undecided.
    static constexpr std::uint64_t most_work_for_one = 20'000'000;
    static constexpr std::uint64_t most_work = 1'000'000'000;

    explicit AnswersSpace(const RuleBase& rule_base, std::uint64_t work = most_work);

    [[nodiscard]] AnswersFound find(const AnswersQuestion& question);

    /// Are there such answers? An undecided question is counted and taken for `otherwise`.
    [[nodiscard]] bool possible(const AnswersQuestion& question, bool otherwise);

    /// The same answers without those that the wishes can do without; every wish is still met. Not for
    /// `all_known`.
    [[nodiscard]] std::vector<Facts> shortened(const AnswersQuestion& question, std::vector<Facts> beds);

    /// As typed, in the order of the rule base.
    [[nodiscard]] std::vector<WitnessAnswer> witness(const Facts& facts) const;

    [[nodiscard]] const RuleBase& rule_base() const { return rule_base_; }
    /// How many questions were too large to decide.
    [[nodiscard]] std::size_t undecided() const { return undecided_; }

private:
    const RuleBase& rule_base_;
    std::uint64_t work_;
    std::vector<std::size_t> rank_;  ///< by conclusion: where it stands in the order in which they are worked out
    std::size_t undecided_ = 0;
};

/// Whether the engine itself, chaining and evaluating, finds every wish met. `free` conclusions are not looked at.
[[nodiscard]] bool engine_agrees(const RuleBase& rule_base, const AnswersQuestion& question, std::span<const Facts> beds);

}  // namespace lidlift::logic
