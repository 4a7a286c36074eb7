// Which sign is most worth looking at next: the expected information about the causes, for the effort of looking.
#pragma once

#include "engine/answers.hpp"
#include "engine/ranking.hpp"

#include <vector>

namespace lidlift {

/// What a question is to tell apart: all causes, or only those that ask for different steps and cautions.
enum class Aim { causes, remedies };

struct Question {
    Handle<Sign> sign;
    double bits = 0;   ///< expected drop in uncertainty about which of the causes that the answers speak for are there
    double value = 0;  ///< bits, times the chance that the person can tell, for each minute of effort
};

/// The questions most worth asking, best first, at most `most`. Signs already told or asked are left out, and so are those that
/// cannot move any likely cause. The expected information is the mutual information between the answer and the set of causes;
/// for signs that act through rules and circumstances, that between the answer and the sets as they would be after it.
[[nodiscard]] std::vector<Question> next_questions(const Ranker& ranker, const Told& told, const Ranking& ranking,
                                                   std::size_t most, Aim aim = Aim::causes);

/// What looking costs, in minutes of a caller's patience (design choice of the method): look 1, touch or dig 2, measure 5, wait
/// for a day 20.
[[nodiscard]] double minutes(Effort effort);

/// What asking, taking in and answering cost by themselves, beside the looking. With less, easy questions that tell little came
/// before better ones, and the same calls took as long with fewer hits (tests/bench).
inline constexpr double minutes_to_ask = 3;

/// Both ask for the same steps now and this week, and for the same cautions; which of the two it is changes nothing soon.
[[nodiscard]] bool same_remedy(const Cause& a, const Cause& b, const RuleBase& rule_base);

/// The answers speak for a cause that needs mending: most for it, or with some chance beside a harmless one.
[[nodiscard]] bool points_to_work(const RuleBase& rule_base, const Ranking& ranking);

/// What to ask of someone whose answers point to no such cause: the signs that most causes to be mended hang on, for the effort
/// of looking, each of another topic, and before others those of a topic that was not spoken of. The expected information alone
/// would ask for whatever singles out one rare cause; `bits` is 0 where it would not have asked at all.
[[nodiscard]] std::vector<Question> first_questions(const Ranker& ranker, const Told& told, const Ranking& ranking,
                                                    std::size_t most);

}  // namespace lidlift
