// A call, step by step: what the person typed goes in, what to show next comes out. No terminal, no clock, no files.
//
// It begins with the caller's own words, then asks after dangers where there is reason, then asks the question that tells most
// about what to do for its effort, until it has a reason to stop. All that was said is kept as a call record, so that a call
// goes on from its record exactly where it was left.
#pragma once

#include "engine/asking.hpp"
#include "engine/call/follow_up_talk.hpp"
#include "engine/call/shown.hpp"
#include "engine/call/so_far.hpp"
#include "engine/diagnosis.hpp"
#include "engine/phrasebook.hpp"
#include "engine/spoken_reply.hpp"

#include <optional>
#include <string>
#include <string_view>
#include <vector>

namespace lidlift {

class Interview {
public:
    /// `known` is what is known before anybody calls, from the record of `tank`; what the caller says counts for more.
    Interview(const Ranker& ranker, const Phrasebook& phrasebook, Told known = {}, const AskingLimits& limits = {},
              std::optional<TankSeen> tank = {});

    /// Exactly one of these comes first.
    [[nodiscard]] std::vector<Shown> begin(Moment now, std::string tank = {}, std::string bay = {});
    [[nodiscard]] std::vector<Shown> resume(CallRecord record, Moment now);
    [[nodiscard]] std::vector<Shown> follow_up(CallRecord record, Moment now);

    /// The next line that the person typed. Only while the interview has not ended.
    [[nodiscard]] std::vector<Shown> hear(std::string_view line, Moment now);
    /// Nothing more will be typed.
    [[nodiscard]] std::vector<Shown> end_of_input(Moment now);

    [[nodiscard]] bool ended() const { return waiting_ == Waiting::ended; }
    [[nodiscard]] const CallRecord& record() const { return call_.record(); }
    [[nodiscard]] const RuleBase& rule_base() const { return ranker_.rule_base(); }
    /// The causes as they stand now.
    [[nodiscard]] const Ranking& ranking() const { return ranking_; }
    [[nodiscard]] const Told& told() const { return call_.told(); }
    /// What was advised; only once it was.
    [[nodiscard]] const std::optional<Diagnosis>& diagnosis() const { return diagnosis_; }
    [[nodiscard]] std::size_t questions_asked() const { return call_.questions_asked(); }

private:
    enum class Waiting { own_words, news, dangers, question, changed_answer, contradiction, follow_up, ended };

    void weigh_again() { ranking_ = ranker_.rank_in_brief(told().facts); }
    /// One question about one sign is open.
    [[nodiscard]] bool asking() const { return waiting_ == Waiting::question || waiting_ == Waiting::changed_answer; }

    void go_on(Moment now, std::vector<Shown>& out);
    void read_at_once(std::vector<Shown>& out);
    void ask_own_words(bool news, std::vector<Shown>& out);
    void ask(Handle<Sign> sign, bool changing, std::vector<Shown>& out);
    void ask_again(std::vector<Shown>& out);
    void ask_follow_up(std::vector<Shown>& out);
    void finish(StopReason reason, Moment now, std::vector<Shown>& out);
    [[nodiscard]] shown::LookAt what_to_look_at() const;
    void pause(std::vector<Shown>& out);
    void close(std::vector<Shown>& out);

    void hear_wish(const Wish& wish, Moment now, std::vector<Shown>& out);
    void hear_dont_know(Moment now, std::vector<Shown>& out);
    void go_back(Moment now, std::vector<Shown>& out);
    void change(std::optional<std::size_t> number, std::vector<Shown>& out);
    void explain(std::vector<Shown>& out) const;
    void hear_own_words(std::string_view line, Moment now, std::vector<Shown>& out);
    void hear_dangers(std::string_view line, Moment now, std::vector<Shown>& out);
    void hear_answer(std::string_view line, Moment now, std::vector<Shown>& out);
    void hear_follow_up(std::string_view line, Moment now, std::vector<Shown>& out);

    const Ranker& ranker_;
    const Phrasebook& phrasebook_;
    AskingLimits limits_;
    std::optional<TankSeen> tank_;
    CallSoFar call_;
    FollowUpTalk follow_up_;
    Ranking ranking_;
    std::optional<Diagnosis> diagnosis_;
    Waiting waiting_ = Waiting::own_words;
    std::optional<Handle<Sign>> pending_;
    std::string said_;  ///< see AskSign::said
    std::vector<RedFlag> flags_;
    std::vector<Handle<Caution>> read_out_;  ///< cautions that were read out at once
};

}  // namespace lidlift
