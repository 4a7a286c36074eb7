// What the small languages of the rule files share beside their grammars: which bytes make a word, what stands at a place, and
// how "expected ..., found ..." is said of it. Knows no Spirit.
#pragma once

#include "engine/outcome.hpp"

#include <string>
#include <string_view>

namespace lidlift::written {

// ---- Characters. Our own tests, because X3's character classes assert on the bytes of "°".

constexpr bool is_blank(char c) { return c == ' ' || c == '\t' || c == '\r' || c == '\n'; }
constexpr bool is_digit(char c) { return '0' <= c && c <= '9'; }
constexpr bool is_hexadecimal_digit(char c) { return is_digit(c) || ('a' <= c && c <= 'f') || ('A' <= c && c <= 'F'); }
constexpr bool is_sign(char c) { return c == '+' || c == '-'; }
constexpr bool is_small_letter(char c) { return 'a' <= c && c <= 'z'; }
constexpr bool is_capital(char c) { return 'A' <= c && c <= 'Z'; }
constexpr bool is_foreign(char c) { return static_cast<unsigned char>(c) >= 0x80; }
/// Not one of the further bytes of a UTF-8 character.
constexpr bool begins_character(char c) { return (static_cast<unsigned char>(c) & 0xC0) != 0x80; }
constexpr bool is_name_character(char c) { return is_small_letter(c) || is_digit(c) || c == '_'; }
/// What makes a name or word end up as another one if it follows directly: "notable", "Streams", "bed-temperature".
constexpr bool is_word_character(char c) { return is_name_character(c) || is_capital(c) || is_foreign(c) || c == '-'; }
/// What makes digits end up as something else than a number: "5-10", "1.2.3", "5_000".
constexpr bool goes_on_number(char c) { return is_digit(c) || is_sign(c) || c == '.' || c == '_'; }
constexpr bool begins_unit(char c) { return is_small_letter(c) || is_capital(c) || is_foreign(c); }
constexpr bool is_unit_character(char c) { return begins_unit(c) || is_digit(c) || c == '/' || c == '_'; }

[[nodiscard]] bool is_name(std::string_view text);
[[nodiscard]] std::string in_small_letters(std::string_view text);

/// No-break spaces come from word processors and keyboards by accident and mean a blank; one for one, so that columns stay.
[[nodiscard]] std::string with_plain_blanks(std::string_view text);

/// Of `place` inside `text`: 1-based, in code points.
[[nodiscard]] int column_of(std::string_view text, const char* place);

// ---- Numbers, as the languages write them: what the grammar matched, "+2", "0.5".

/// Fault: what was expected instead ("a number of at most 15 digits").
[[nodiscard]] Outcome<double> number_of(std::string_view digits);

/// The shortest decimal that reads as the same number, never with an exponent.
[[nodiscard]] std::string number_as_written(double number);

// ---- Faults: "expected <what> after <the piece before>, found <the piece there>".

/// Thrown inside a grammar's source where something else was expected than stands at `place`.
struct Unmet {
    std::string expected;
    const char* place;
};

/// The word, number or mark that `rest` begins with. Wider than the grammars' words, so that a person sees the whole of what
/// they wrote.
[[nodiscard]] std::string_view first_piece(std::string_view rest);
[[nodiscard]] std::string_view without_leading_blanks(std::string_view text);

/// `piece` in quotation marks, cut off where it is too long to read.
[[nodiscard]] std::string quoted(std::string_view piece);

/// The piece at a place of `text`, or nothing at its end.
[[nodiscard]] std::string_view piece_at(std::string_view text, const char* place);

[[nodiscard]] Fault fault_of(const Unmet& unmet, std::string_view text);

}  // namespace lidlift::written
