// Which question comes next in a call, or why no more is asked.
#pragma once

#include "engine/next_question.hpp"

#include <optional>
#include <string_view>
#include <vector>

namespace lidlift {

/// Why the asking ends. The first four are the call's own reasons; the others come from outside.
enum class StopReason {
    sure_enough,       ///< the first cause is likely enough to act on, and clearly ahead of the next with another remedy
    nothing_to_ask,    ///< no question left would tell enough to be worth the caller's time
    nothing_changes,   ///< no answer to any single question left would change what to do
    enough_questions,  ///< as many as a caller has patience for
    said_to_stop,
    end_of_input,
    emergency
};

struct AskingLimits {
    double sure = 0.80;  ///< chance of the first cause from which it is acted on without further questions
    double lead = 6;     ///< decibans before the next cause with another remedy
    /// Expected information that is worth a question, the caller's not knowing counted in. At half of it a third of the calls
    /// went on to a dozen questions and more, and ended with no better hits or steps (tests/bench).
    double least_bits = 0.10;
    std::size_t most_questions = 10;
    /// So many questions are enough where no answer points to anything that needs mending: all looks well, or the caller does
    /// not know and does better to look and call again.
    std::size_t most_general_questions = 5;
    double minutes_to_ask = lidlift::minutes_to_ask;
    double near_enough = 0.9;       ///< a question of the same topic is preferred from this share of the best one's value
    double possible_answer = 0.02;  ///< an answer less likely than this is not reckoned with
};

struct NextStep {
    std::optional<Handle<Sign>> ask;
    std::optional<StopReason> stop;           ///< exactly one of the two is there
    std::vector<Question> worth_asking = {};  ///< what was chosen from
};

/// `asked` questions were asked so far, the last one of `topic` (empty: none yet). `called_about` is what the caller told
/// unasked: a cause of which none of that speaks is no reason to stop, however sure it is.
[[nodiscard]] NextStep next_step(const Ranker& ranker, const Told& told, const Ranking& ranking, std::size_t asked,
                                 std::string_view topic, const std::vector<Handle<Sign>>& called_about = {},
                                 const AskingLimits& limits = {});

/// The first cause is sure enough to act on, by the rule of StopReason::sure_enough.
[[nodiscard]] bool sure_enough(const RuleBase& rule_base, const Ranking& ranking, const AskingLimits& limits = {});

/// An answer to one of `questions` might change which steps are needed now or this week; judged on the likely sets of causes
/// only, so that it costs no more than choosing a question.
[[nodiscard]] bool an_answer_may_change_the_steps(const Ranker& ranker, const Told& told, const Ranking& ranking,
                                                  const std::vector<Question>& questions, const AskingLimits& limits = {});

}  // namespace lidlift
