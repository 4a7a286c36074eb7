// Text from outside: is it sound UTF-8 without tricks, how wide is it, and how to show it safely on a terminal.
#pragma once

#include <cstddef>
#include <optional>
#include <string>
#include <string_view>
#include <vector>

namespace lidlift {

/// Something in a text that must not be there, and where (line and column from 1, column in code points).
struct BadCharacter {
    int line = 1;
    int column = 1;
    std::string what;  ///< "a byte that is not UTF-8", "the control character U+001B", "the bidirectional control U+202E"
};

/// The first byte or character that no file or argument may hold: not UTF-8 (overlong forms and surrogates included), NUL, C0
/// controls but tab, line feed and carriage return before line feed, DEL, C1 controls, bidirectional controls U+202A-202E and
/// U+2066-2069, noncharacters, a byte-order mark other than at the very beginning. (CVE-2021-42574, Boucher & Anderson 2021,
/// for the bidirectional ones.)
[[nodiscard]] std::optional<BadCharacter> find_bad_character(std::string_view text);

/// `text` with every bad character replaced by a visible mark such as "\x1b" or "\u202e"; line feeds kept only if `keep_lines`.
[[nodiscard]] std::string for_terminal(std::string_view text, bool keep_lines = false);

/// `text` in ASCII: letters without their marks, plain quotes and dashes, "31 C" for degrees; '?' for what has no likeness.
[[nodiscard]] std::string as_ascii(std::string_view text);

/// `text` between single quotation marks, for sentences.
[[nodiscard]] std::string quoted(std::string_view text);

/// Number of terminal columns that sound text takes (East Asian wide counts 2, combining marks 0).
[[nodiscard]] std::size_t display_width(std::string_view text);

/// Number of code points in sound text.
[[nodiscard]] std::size_t count_characters(std::string_view text);

/// Words of `text` filled into lines at most `width` columns wide; a longer word stands alone on its line. Never returns an
/// empty list.
[[nodiscard]] std::vector<std::string> wrap(std::string_view text, std::size_t width);

}  // namespace lidlift
