// What closed calls teach: how often each stated likelihood came true, and which links' words the counts speak against. It
// proposes; a person decides.
#pragma once

#include "engine/calibration.hpp"
#include "engine/facts.hpp"
#include "engine/rule_base.hpp"

#include <optional>
#include <span>
#include <string>
#include <vector>

namespace lidlift {

/// How the cause of a call was found out in the end.
enum class Confirmed { seen, remedy_worked, guess };

/// A cause's chance as it was stated when the call ended.
struct StatedChance {
    Handle<Cause> cause;
    double chance = 0;
};

/// A call whose outcome is known, in the terms of one rule base.
struct ClosedCall {
    Facts facts;
    std::vector<StatedChance> stated;   ///< likeliest first
    std::vector<Handle<Cause>> causes;  ///< that it really was; empty: none of the listed ones
    Confirmed confirmed = Confirmed::seen;
};

/// A word is only called into question by so many calls with that one cause and an answer to that sign (method.md 5.2).
inline constexpr std::size_t least_calls_for_a_link = 20;
/// A general shrinking or stretching of all strengths is only spoken of from so many calls on, and never by more than this.
inline constexpr std::size_t least_calls_for_the_slope = 100;
inline constexpr double least_slope = 0.7;
inline constexpr double greatest_slope = 1.2;

/// "said likely (55-80 %) 31 times, right 22 times".
struct WordCameTrue {
    std::string words;
    Bin bin;
    Interval interval;  ///< of the share that came true
};

/// One link, and what the calls say of it. Calls whose only cause is the link's count as `there`; calls none of whose causes is
/// linked to the same observation count as `without`, which is what a background means.
struct LinkCount {
    Handle<Cause> cause;
    std::size_t link = 0;  ///< position in Cause::links
    std::size_t there = 0, there_seen = 0;
    std::size_t without = 0, without_seen = 0;
    double chance_now = 0;    ///< what the link's word says: how often the cause shows it
    Interval interval;        ///< of there_seen of there
    LikelihoodRatios ratios;  ///< only with `without` above 0
    std::string proposed;     ///< the whole wording, "seen sometimes"; empty: the word stays
    double proposed_chance = 0;
};

/// How often a cause was confirmed, against how common its word makes it.
struct CauseCount {
    Handle<Cause> cause;
    std::size_t confirmed = 0;
    Interval interval;
    std::string proposed;  ///< a word of commonness; empty: the word stays
};

struct Learnt {
    std::size_t closed = 0;       ///< all that were given
    std::size_t guesses = 0;      ///< left out: the cause was only guessed
    std::size_t counted = 0;      ///< the rest
    std::size_t none_listed = 0;  ///< of the counted: it was none of the listed causes
    std::size_t with_cause = 0;   ///< of the counted: at least one listed cause; the following three are of these
    std::size_t first = 0;        ///< a confirmed cause was stated first
    std::size_t among_three = 0;
    double mean_rank = 0;  ///< of the best placed confirmed cause; one that was not stated counts as the place after the last
    std::vector<WordCameTrue> words;     ///< by rising likelihood; only those that were said
    std::size_t forecasts = 0;           ///< stated chances counted
    Brier brier;                         ///< over all stated chances, binned by word
    std::optional<Recalibration> slope;  ///< only from least_calls_for_the_slope on; slope bounded
    std::vector<LinkCount> links;        ///< that have enough calls; those to be changed first
    std::vector<LinkCount> nearest;      ///< the links without enough that lack least, at most so many as `most_nearest`
    std::size_t links_in_all = 0;
    std::vector<CauseCount> causes;  ///< confirmed at least once, most often first
};
inline constexpr std::size_t most_nearest = 5;

/// `rule_base` is the one in whose terms the calls are. Calls from times when another was in use count as they are.
[[nodiscard]] Learnt learn_from(const RuleBase& rule_base, std::span<const ClosedCall> calls);

/// The rule base with every proposed word put in, to be compared with the one in use.
[[nodiscard]] RuleBase with_proposals(RuleBase rule_base, const Learnt& learnt);

}  // namespace lidlift
