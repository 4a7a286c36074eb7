// What a call shows next, one thing after the other; whoever shows it finds the words.
#pragma once

#include "engine/asking.hpp"
#include "engine/call_record.hpp"
#include "engine/change_of_mind.hpp"
#include "engine/red_flags.hpp"

#include <cstddef>
#include <optional>
#include <string>
#include <variant>
#include <vector>

namespace lidlift {

namespace shown {

struct AskOwnWords {
    bool news = false;  ///< at a follow-up: what is different now
};
struct AskDangers {
    std::vector<RedFlag> flags;
};
/// The dangers asked after are not known to be absent.
struct DangersNotKnown {
    std::vector<RedFlag> flags;
};
/// What was told calls for these at once.
struct ReadAtOnce {
    std::vector<Handle<Caution>> cautions;
};
struct AskSign {
    Handle<Sign> sign;
    std::size_t number = 0;  ///< how many questions, with this one
    bool changing = false;   ///< it was answered already
    std::string said = {};   ///< what the caller said that may mean several things, where that is why it is asked
};
enum class FollowUpQuestion { done, helped, cause, how, go_on };
struct AskFollowUp {
    FollowUpQuestion what = FollowUpQuestion::done;
    std::vector<Handle<Cause>> causes;  ///< to choose from, for `cause`
};
/// One answer as it was taken.
struct Line {
    std::size_t number = 0;  ///< by which it can be changed
    Handle<Sign> sign;
    std::string words;  ///< the answer in words; empty: not known
    std::string from;   ///< what was said; empty where it is plain
};
struct Understood {
    std::vector<Line> answers;
    std::vector<std::string> not_used;
    bool own_words = false;  ///< they came out of a text, not out of a plain reply
};
/// None of the dangers asked after is there.
struct NoDanger {};
/// What was said now goes against an earlier answer, which stays.
struct Against {
    Line earlier;
    std::string words;
};
/// The reply could not be read as an answer to the question; it is asked once more.
struct NotUsed {
    std::string why;             ///< may be empty
    bool no_answer_yet = false;  ///< the words were understood, but they do not answer the question
};
struct AnswersSoFar {
    std::vector<Line> answers;
};
struct SoFar {};
struct WhyAsked {
    Handle<Sign> sign;
    std::vector<WhatIf> answers;
};
struct WhyDangers {
    std::vector<RedFlag> flags;
};
struct Contradiction {
    std::vector<Line> answers;
};
struct Help {};
struct NothingBefore {};
struct NoSuchAnswer {
    std::size_t there_are = 0;
};
struct WentBack {};
struct TooLong {};
struct Resumed {
    Moment begun;
    std::vector<Line> answers;
    std::vector<std::string> misfits;  ///< what the rule base of today does not know
    bool other_version = false;
    bool advised = false;                ///< advice was given already
    std::vector<RecordedChance> causes;  ///< the last advice, for a follow-up
    std::vector<std::string> cautions;
    std::vector<std::string> steps;
};
struct Paused {};
struct Stopped {
    StopReason reason = StopReason::said_to_stop;
};
/// The page of advice, from the interview's diagnosis.
struct Advised {};
struct WouldChangeMyMind {
    std::vector<ChangeOfMind> changes;
};
/// Where the answers point to nothing: what to look at before the next call.
struct LookAt {
    std::vector<Handle<Sign>> signs;
};
struct CallAgain {
    std::optional<double> days;
};
struct Closed {
    bool solved = false;
};

}  // namespace shown

using Shown =
    std::variant<shown::AskOwnWords, shown::AskDangers, shown::DangersNotKnown, shown::ReadAtOnce, shown::AskSign,
                 shown::AskFollowUp, shown::Understood, shown::NoDanger, shown::Against, shown::NotUsed, shown::AnswersSoFar,
                 shown::SoFar, shown::WhyAsked, shown::WhyDangers, shown::Contradiction, shown::Help, shown::NothingBefore,
                 shown::NoSuchAnswer, shown::WentBack, shown::TooLong, shown::Resumed, shown::Paused, shown::Stopped,
                 shown::Advised, shown::WouldChangeMyMind, shown::LookAt, shown::CallAgain, shown::Closed>;

}  // namespace lidlift
