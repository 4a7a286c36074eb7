// A caller's text as words: lower case, one spelling, contractions written out, amounts as one mark; cut where the punctuation
// cuts.
#pragma once

#include <cstddef>
#include <span>
#include <string>
#include <string_view>
#include <vector>

namespace lidlift::hearing {

/// "lots of", "masses of", "many" ... and "a few", "some", "a little" ... each become one word, so that each means the same
/// before any noun.
inline constexpr std::string_view many_of = "<many>";
inline constexpr std::string_view few_of = "<few>";

struct Word {
    std::string text;
    std::size_t begin = 0;  ///< where it stands in the caller's text, in bytes
    std::size_t end = 0;
    bool possessive = false;    ///< "neighbour's"; `text` is then "neighbours"
    std::string corrected;      ///< the phrase word that it is one slip of the finger away from, or empty
    bool past = false;          ///< typed in the past tense, and levelled: "smelled" is "smell"
    std::string kin;            ///< the key that it shares with its inflections and synonyms; see kin_of
    std::string corrected_kin;  ///< that of `corrected`
    bool means_worms = false;   ///< "they", where nothing else was spoken of
};
using Words = std::span<const Word>;

enum class Break { comma, full_stop, question_mark };

/// Words up to a punctuation mark, and which one it was. The end of the text counts as a full stop.
struct Segment {
    std::vector<Word> words;
    std::size_t begin = 0;  ///< where it begins in the caller's text; a first "the" is no word, but stands here
    Break after = Break::full_stop;
};

[[nodiscard]] std::vector<Segment> cut_into_segments(std::string_view text);

/// A phrase of the rule base as the same kind of words; its punctuation does not matter.
[[nodiscard]] std::vector<Word> words_of_phrase(std::string_view phrase);

}  // namespace lidlift::hearing
