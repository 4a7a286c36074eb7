// Words that say the same in a caller's sentence: inflections, and the everyday synonyms of the trade ("bin", "box", "tank").
#pragma once

#include <string>
#include <string_view>

namespace lidlift::hearing {

/// One key for all words that may stand for one another within a phrase: the first word of its group of synonyms, or its stem.
[[nodiscard]] std::string kin_of(std::string_view word);

/// Has the word synonyms? A phrase of one such word is not stretched: "brandlings" names a kind of worm, "worms" does not.
[[nodiscard]] bool has_synonyms(std::string_view word);

/// "Is", "a", "of", "have": in a phrase of several words these may be there or not.
[[nodiscard]] bool may_be_left_out(std::string_view word);

/// Words that may stand between the words of a phrase and change nothing: the above, "very", "up", "got".
[[nodiscard]] bool may_stand_between(std::string_view word);

/// "Is", "was", "got", "looks": does the word join a thing and its quality?
[[nodiscard]] bool joins(std::string_view word);
/// Stands for any of them in a phrase that was turned round.
inline constexpr std::string_view joining_verb = "<is>";

}  // namespace lidlift::hearing
