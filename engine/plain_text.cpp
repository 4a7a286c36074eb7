#include "engine/plain_text.hpp"

#include <algorithm>
#include <array>
#include <charconv>
#include <cstdint>

#include <utf8proc.h>

namespace lidlift {
namespace {

constexpr std::int32_t not_utf8 = -1;
constexpr std::int32_t byte_order_mark = 0xFEFF;

struct Character {
    std::int32_t code = not_utf8;
    std::size_t bytes = 1;
};

/// The character at the beginning of a text that is not empty; a byte that is not UTF-8 stands alone.
Character first_character(std::string_view text) {
    Character result;
    const auto* bytes = reinterpret_cast<const utf8proc_uint8_t*>(text.data());
    const auto taken = utf8proc_iterate(bytes, static_cast<utf8proc_ssize_t>(text.size()), &result.code);
    if (taken > 0) result.bytes = static_cast<std::size_t>(taken);
    return result;
}

bool is_control(std::int32_t code) { return utf8proc_category(code) == UTF8PROC_CATEGORY_CC; }

bool is_bidirectional_control(std::int32_t code) {
    return (code >= 0x202A && code <= 0x202E) || (code >= 0x2066 && code <= 0x2069);
}

bool is_noncharacter(std::int32_t code) { return (code >= 0xFDD0 && code <= 0xFDEF) || (code & 0xFFFE) == 0xFFFE; }

bool is_space(char c) { return c == ' ' || c == '\t' || c == '\n' || c == '\r'; }

std::string hexadecimal(std::uint32_t number, std::size_t digits) {
    std::array<char, 8> buffer;
    char* const end = std::to_chars(buffer.data(), buffer.data() + buffer.size(), number, 16).ptr;
    const std::string text(buffer.data(), end);
    return text.size() < digits ? std::string(digits - text.size(), '0') + text : text;
}

/// "U+202E", as the Unicode tables write it.
std::string code_name(std::int32_t code) {
    std::string text = hexadecimal(static_cast<std::uint32_t>(code), 4);
    for (char& c : text)
        if (c >= 'a') c = static_cast<char>(c - 'a' + 'A');
    return "U+" + text;
}

/// What is wrong with a character wherever it stands; empty: nothing.
std::string fault_of(std::int32_t code) {
    if (code == not_utf8) return "a byte that is not UTF-8";
    if (code == '\t' || code == '\n') return "";
    if (is_control(code)) return "the control character " + code_name(code);
    if (is_bidirectional_control(code)) return "the bidirectional control " + code_name(code);
    if (is_noncharacter(code)) return "the noncharacter " + code_name(code);
    if (code == byte_order_mark) return "a byte-order mark " + code_name(code) + " inside the text";
    return "";
}

/// "\x1b" for bytes and small codes, "\u202e" and "\U0001ffff" for others.
std::string visible_mark(char first_byte, std::int32_t code) {
    if (code == not_utf8) return "\\x" + hexadecimal(static_cast<unsigned char>(first_byte), 2);
    const auto number = static_cast<std::uint32_t>(code);
    if (number <= 0xFF) return "\\x" + hexadecimal(number, 2);
    return number <= 0xFFFF ? "\\u" + hexadecimal(number, 4) : "\\U" + hexadecimal(number, 8);
}

}  // namespace

std::optional<BadCharacter> find_bad_character(std::string_view text) {
    if (!text.empty() && first_character(text).code == byte_order_mark) text.remove_prefix(first_character(text).bytes);
    BadCharacter here;
    while (!text.empty()) {
        const Character character = first_character(text);
        const bool ends_line = character.code == '\r' && text.substr(1, 1) == "\n";
        if (!ends_line) here.what = fault_of(character.code);
        if (!here.what.empty()) return here;
        ++here.column;
        if (character.code == '\n') {
            ++here.line;
            here.column = 1;
        }
        text.remove_prefix(character.bytes);
    }
    return std::nullopt;
}

std::string for_terminal(std::string_view text, bool keep_lines) {
    std::string result;
    while (!text.empty()) {
        const Character character = first_character(text);
        if (character.code == '\n')
            result += keep_lines ? "\n" : "\\x0a";
        else if (character.code == '\t')
            result += ' ';  // one column, so that a caret below a quoted line still points at its place
        else if (keep_lines && text.starts_with("\r\n"))
            ;  // the line feed says it all, and a carriage return would let the text overwrite itself
        else if (fault_of(character.code).empty())
            result += text.substr(0, character.bytes);
        else
            result += visible_mark(text.front(), character.code);
        text.remove_prefix(character.bytes);
    }
    return result;
}

std::string as_ascii(std::string_view text) {
    struct Likeness {
        std::int32_t code;
        std::string_view ascii;
    };
    static constexpr std::array<Likeness, 24> likenesses = {
        {{0xB0, ""},    {0xB5, "u"},     {0x3BC, "u"},   {0xD7, "x"},    {0xB7, "."},    {0xB1, "+/-"},
         {0xA3, "GBP"}, {0x20AC, "EUR"}, {0x2010, "-"},  {0x2011, "-"},  {0x2013, "-"},  {0x2014, "-"},
         {0x2212, "-"}, {0x2018, "'"},   {0x2019, "'"},  {0x201C, "\""}, {0x201D, "\""}, {0x2026, "..."},
         {0x2044, "/"}, {0x2192, "->"},  {0x2264, "<="}, {0x2265, ">="}, {0xDF, "ss"},   {0x2022, "*"}}};
    std::string result;
    while (!text.empty()) {
        const Character character = first_character(text);
        text.remove_prefix(character.bytes);
        if (character.code >= 0 && character.code < 0x80) {
            result += static_cast<char>(character.code);
            continue;
        }
        const auto likeness =
            std::find_if(likenesses.begin(), likenesses.end(), [&](const Likeness& one) { return one.code == character.code; });
        if (likeness != likenesses.end()) {
            result += likeness->ascii;
            continue;
        }
        constexpr std::size_t longest_decomposition = 18;  // of one character, says Unicode
        std::array<utf8proc_int32_t, longest_decomposition> parts{};
        const auto count =
            character.code < 0
                ? 0
                : utf8proc_decompose_char(
                      character.code, parts.data(), parts.size(),
                      static_cast<utf8proc_option_t>(UTF8PROC_COMPAT | UTF8PROC_DECOMPOSE | UTF8PROC_STRIPMARK), nullptr);
        std::string plain;
        for (std::size_t i = 0; count > 0 && i < static_cast<std::size_t>(count) && i < parts.size(); ++i) {
            if (parts[i] == 0x2044) parts[i] = '/';  // of a fraction
            plain += parts[i] < 0x80 ? static_cast<char>(parts[i]) : '?';
        }
        result += plain.empty() ? "?" : plain;
    }
    return result;
}

std::string quoted(std::string_view text) { return "'" + std::string(text) + "'"; }

std::size_t display_width(std::string_view text) {
    std::size_t width = 0;
    while (!text.empty()) {
        const Character character = first_character(text);
        width += character.code == not_utf8 ? 1 : static_cast<std::size_t>(utf8proc_charwidth(character.code));
        text.remove_prefix(character.bytes);
    }
    return width;
}

std::size_t count_characters(std::string_view text) {
    std::size_t count = 0;
    for (; !text.empty(); ++count) text.remove_prefix(first_character(text).bytes);
    return count;
}

std::vector<std::string> wrap(std::string_view text, std::size_t width) {
    std::vector<std::string> lines(1);
    std::size_t used = 0;
    while (true) {
        while (!text.empty() && is_space(text.front())) text.remove_prefix(1);
        if (text.empty()) return lines;
        std::size_t bytes = 0;
        while (bytes < text.size() && !is_space(text[bytes])) ++bytes;
        const std::string_view word = text.substr(0, bytes);
        const std::size_t word_width = display_width(word);
        if (lines.back().empty()) {
            used = word_width;
        } else if (used + 1 + word_width <= width) {
            lines.back() += ' ';
            used += 1 + word_width;
        } else {
            lines.emplace_back();
            used = word_width;
        }
        lines.back() += word;
        text.remove_prefix(bytes);
    }
}

}  // namespace lidlift
