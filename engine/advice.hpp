// Ranked causes -> what to do, in which order, with what care; what was left out and why; and when to look again.
#pragma once

#include "engine/answers.hpp"
#include "engine/ranking.hpp"

#include <array>
#include <optional>
#include <string>
#include <vector>

namespace lidlift {

/// A step to take. `for_causes` are those it helps against, likeliest first.
struct PlannedStep {
    Handle<Step> step;
    double needed = 0;  ///< chance that at least one of its causes is there
    std::vector<Handle<Cause>> for_causes;
    std::vector<std::string> check_first;  ///< what to make sure of before, in sentences
};

/// A step that a likely cause asks for but that is not to be taken now.
struct LeftOutStep {
    enum class Why { never_when, clash, opposite, milder_feeding, not_sure_enough, emergency, less_urgent };
    Handle<Step> step;
    Why why = Why::not_sure_enough;
    std::string reason;
};

/// Something to keep from doing.
struct DoNot {
    std::string say;
    std::string because;
};

/// Two ways to go, and what to look at to know which.
struct FindOut {
    Handle<Sign> sign;
    std::string because;
};

enum class Verdict {
    nothing_wrong,  ///< the best explanation needs no mending: leave it alone
    act,            ///< there are steps to take
    cannot_tell,    ///< look at the next question first; the steps, if any, do no harm meanwhile
    emergency       ///< people first; nothing else until it is over
};

struct Advice {
    Verdict verdict = Verdict::cannot_tell;
    std::vector<Handle<Caution>> cautions;  ///< in the order in which they must be read
    std::vector<PlannedStep> steps;         ///< in the order in which they are taken
    std::vector<LeftOutStep> left_out;
    std::vector<DoNot> do_not;
    std::vector<FindOut> find_out;
    bool unsettled = false;                 ///< two opposite steps fell, and no clash entry says which sign would settle it
    std::vector<Handle<Cause>> acted_on;    ///< causes likely enough to act on, likeliest first
    std::optional<double> look_again_days;  ///< the soonest of the causes acted on
};

/// A cause is acted on from this chance: a harmless remedy pays from 1 in 5 (threshold approach, Pauker & Kassirer, NEJM 302
/// (1980) 1109, formula from memory).
inline constexpr double least_chance_to_act = 0.20;
/// Of two opposite steps the one whose causes are likelier by so many decibans is taken; otherwise neither.
inline constexpr double clear_lead = 6.0;

/// A lasting habit is recommended from this chance; a person who is told everything at once does nothing.
inline constexpr double least_chance_for_habits = 0.35;
/// At most so many steps for now, for this week and from now on, people's safety and the feeding instruction not counted.
inline constexpr std::array<std::size_t, 3> most_steps = {6, 3, 3};

[[nodiscard]] Advice advise(const RuleBase& rule_base, const Told& told, const Ranking& ranking);

}  // namespace lidlift
