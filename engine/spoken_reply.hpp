// What a person types in reply to a question: an answer by its number or by a word, or a wish such as "back".
#pragma once

#include "engine/outcome.hpp"
#include "engine/rule_base.hpp"

#include <cstddef>
#include <optional>
#include <string>
#include <string_view>
#include <vector>

namespace lidlift {

/// Something other than an answer.
struct Wish {
    enum class What { dont_know, why, so_far, back, change, list, repeat, stop, pause, help };
    What what = What::help;
    std::optional<std::size_t> number;  ///< change: which of the answers so far, from 1
};

/// Only where the whole line is the wish, so that a sentence with "why" or "stop" in it stays a sentence.
[[nodiscard]] std::optional<Wish> read_wish(std::string_view line);

/// What stands after '=' for `line` as an answer to `sign`: "2", "1, 3", "not 2", "1 or 2", "few drops", "yes, I think", "28 to
/// 32 °C". Bands of a quantity are lettered, since a number is a measurement. A slip of one letter in a word of five or more is
/// forgiven. Fault: the line is no such answer. Whether a measurement is plausible is for `hear` to say.
[[nodiscard]] Outcome<std::string> read_reply(const Sign& sign, std::string_view line);

/// Position of the option that `line` names by its number or by its word; none: it names none of them.
[[nodiscard]] std::optional<std::size_t> read_option(const std::vector<std::string>& options, std::string_view line);

/// "1", "2", ... or, for the bands of a quantity, "a", "b", ...
[[nodiscard]] std::string option_mark(const Sign& sign, std::size_t position);

/// Takes the words of doubt off both ends of plain words, and gives what `hear` understands: "", ",unsure" or ",guess".
[[nodiscard]] std::string take_doubt(std::string_view& text);

/// Small letters, single blanks, straight quotes, no full stop at the end: what is compared.
[[nodiscard]] std::string plain_words(std::string_view text);

}  // namespace lidlift
