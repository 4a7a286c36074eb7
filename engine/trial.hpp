// One recorded case tried: what the advice was, where it differs from what the case asks for, and which lines made the
// difference. Everything by name, so that results under two rule bases can be laid side by side.
#pragma once

#include "engine/advice.hpp"
#include "engine/cases.hpp"
#include "engine/ranking.hpp"

#include <string>
#include <vector>

namespace lidlift {

/// What stands first in the ranking, against what the case asks for.
enum class First { not_asked, expected, acceptable, wrong };

struct PlacedCause {
    std::string id;
    double chance = 0;
};

/// One line of two balances side by side, in decibans; 0 where it does not stand in one of them.
struct ContrastLine {
    std::string text;
    double expected = 0;
    double winner = 0;
};

/// A shown step that the case says must never be advised, and the word of the case that it matches.
struct AdvisedAgainst {
    std::string step;
    std::string never;
};

struct TrialResult {
    // What the advice was.
    std::vector<std::string> told;            ///< "sign=value", as it can be typed again
    std::vector<std::string> not_understood;  ///< of the caller's words
    std::vector<PlacedCause> causes;          ///< likeliest first; empty when the answers contradict one another
    double nothing_listed = 0;
    Verdict verdict = Verdict::cannot_tell;
    std::vector<std::string> cautions;  ///< in the order in which they are read out
    std::vector<std::string> steps;     ///< in the order in which they are taken

    // How that meets what the case asks for.
    First first = First::not_asked;
    /// The expected cause that stands highest, "" for "nothing listed". When none is there, the first that is expected.
    std::string expected;
    /// Its place, from 1. "Nothing listed" has a place among the causes by its chance. 0: it is not in the ranking at all.
    std::size_t place = 0;
    double expected_chance = 0;
    /// For a wrong first place: the lines of the expected cause and of the winner; what puts the winner ahead most comes first.
    std::vector<ContrastLine> contrast;
    std::vector<AdvisedAgainst> advised_against;
    std::vector<std::string> not_said;     ///< cautions that had to be read out
    std::vector<std::string> not_advised;  ///< steps that had to be shown

    [[nodiscard]] bool first_is_right() const { return first == First::expected || first == First::acceptable; }
    /// An expected cause is among the first `most`, or the first place is right.
    [[nodiscard]] bool among_first(std::size_t most) const { return first_is_right() || (place >= 1 && place <= most); }
    /// Something was advised that must not be, or a caution is missing.
    [[nodiscard]] bool dangerous() const { return !advised_against.empty() || !not_said.empty(); }
    [[nodiscard]] bool passed() const { return first != First::wrong && !dangerous() && not_advised.empty(); }
};

/// `ranker` is of the rule base that `resolved` is in the terms of.
[[nodiscard]] TrialResult try_case(const Ranker& ranker, const WrittenCase& written, const Case& resolved);

}  // namespace lidlift
