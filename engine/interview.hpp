// A call, step by step: what the person typed goes in, what to show next comes out. No terminal, no clock, no files.
//
// It begins with the caller's own words, then asks after dangers where there is reason, then asks the question that tells most
// about what to do for its effort, until it has a reason to stop. All that was said is kept as a call record, so that a call
// goes on from its record exactly where it was left.
#pragma once

#include "engine/asking.hpp"
#include "engine/call_record.hpp"
#include "engine/call_record_reader.hpp"
#include "engine/change_of_mind.hpp"
#include "engine/phrasebook.hpp"
#include "engine/red_flags.hpp"
#include "engine/spoken_reply.hpp"

#include <optional>
#include <string>
#include <string_view>
#include <variant>
#include <vector>

namespace lidlift {

/// What is to be shown, one thing after the other; whoever shows it finds the words.
namespace shown {

struct AskOwnWords {
    bool news = false;  ///< at a follow-up: what is different now
};
struct AskDangers {
    std::vector<RedFlag> flags;
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
struct CallAgain {
    std::optional<double> days;
};
struct Closed {
    bool solved = false;
};

}  // namespace shown

using Shown = std::variant<shown::AskOwnWords, shown::AskDangers, shown::AskSign, shown::AskFollowUp, shown::Understood,
                           shown::NoDanger, shown::Against, shown::NotUsed, shown::AnswersSoFar, shown::SoFar, shown::WhyAsked,
                           shown::WhyDangers, shown::Contradiction, shown::Help, shown::NothingBefore, shown::NoSuchAnswer,
                           shown::WentBack, shown::TooLong, shown::Resumed, shown::Paused, shown::Stopped, shown::Advised,
                           shown::WouldChangeMyMind, shown::CallAgain, shown::Closed>;

class Interview {
public:
    /// `known` is what is known before anybody calls, from the record of `tank`; what the caller says counts for more.
    Interview(const Ranker& ranker, const Phrasebook& phrasebook, Told known = {}, const AskingLimits& limits = {},
              std::optional<TankSeen> tank = {});

    /// Exactly one of these comes first.
    [[nodiscard]] std::vector<Shown> begin(Moment now, std::string tank = {});
    [[nodiscard]] std::vector<Shown> resume(CallRecord record, Moment now);
    [[nodiscard]] std::vector<Shown> follow_up(CallRecord record, Moment now);

    /// The next line that the person typed. Only while the interview has not ended.
    [[nodiscard]] std::vector<Shown> hear(std::string_view line, Moment now);
    /// Nothing more will be typed.
    [[nodiscard]] std::vector<Shown> end_of_input(Moment now);

    [[nodiscard]] bool ended() const { return waiting_ == Waiting::ended; }
    [[nodiscard]] const CallRecord& record() const { return record_; }
    [[nodiscard]] const RuleBase& rule_base() const { return ranker_.rule_base(); }
    /// The causes as they stand now.
    [[nodiscard]] const Ranking& ranking() const { return ranking_; }
    [[nodiscard]] const Told& told() const { return told_; }
    /// What was advised; only once it was.
    [[nodiscard]] const std::optional<Diagnosis>& diagnosis() const { return diagnosis_; }
    [[nodiscard]] std::size_t questions_asked() const;

private:
    enum class Waiting { own_words, news, dangers, question, changed_answer, contradiction, follow_up, ended };

    /// An answer of the record that could not be taken, and why.
    struct Misfit {
        std::size_t entry;   ///< position in the course
        std::size_t answer;  ///< position in what was heard
        Fault fault;
    };
    [[nodiscard]] std::vector<Misfit> tell_all();
    [[nodiscard]] std::vector<Misfit> add(CallEntry entry);
    void weigh_again() { ranking_ = ranker_.rank_in_brief(told_.facts); }

    void go_on(Moment now, std::vector<Shown>& out);
    void ask_own_words(bool news, std::vector<Shown>& out);
    void ask(Handle<Sign> sign, bool changing, std::vector<Shown>& out);
    [[nodiscard]] std::optional<OpenQuestion> left_open() const;
    void ask_again(std::vector<Shown>& out);
    void ask_follow_up(shown::FollowUpQuestion what, std::vector<Shown>& out);
    void finish(StopReason reason, Moment now, std::vector<Shown>& out);
    void close(std::vector<Shown>& out);

    void hear_wish(const Wish& wish, Moment now, std::vector<Shown>& out);
    void go_back(Moment now, std::vector<Shown>& out);
    void change(std::optional<std::size_t> number, std::vector<Shown>& out);
    void explain(std::vector<Shown>& out) const;
    void hear_own_words(std::string_view line, Moment now, std::vector<Shown>& out);
    void hear_dangers(std::string_view line, Moment now, std::vector<Shown>& out);
    void hear_answer(std::string_view line, Moment now, std::vector<Shown>& out);
    void hear_follow_up(std::string_view line, Moment now, std::vector<Shown>& out);
    void hear_cause(std::string_view line, Moment now, std::vector<Shown>& out);

    /// Adds an exchange. An answer that contradicts an earlier one is said and left out of it.
    void take(CallEntry entry, std::vector<std::string> not_used, std::vector<Shown>& out);
    [[nodiscard]] shown::Line line_of(Handle<Sign> sign) const;
    [[nodiscard]] std::vector<shown::Line> lines() const;
    [[nodiscard]] std::vector<Handle<Cause>> causes_advised() const;

    const Ranker& ranker_;
    const Phrasebook& phrasebook_;
    Told known_;
    AskingLimits limits_;
    std::optional<TankSeen> tank_;
    CallRecord record_;
    Told told_;
    Ranking ranking_;
    std::optional<Diagnosis> diagnosis_;
    Waiting waiting_ = Waiting::own_words;
    std::optional<Handle<Sign>> pending_;
    std::string said_;  ///< see AskSign::said
    std::vector<RedFlag> flags_;
    shown::FollowUpQuestion follow_up_question_ = shown::FollowUpQuestion::done;
    ConfirmedCause confirmed_;
    std::vector<Handle<Cause>> causes_offered_;
};

}  // namespace lidlift
