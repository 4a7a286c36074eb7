#include "engine/plain_text.hpp"

#include "tests/catch.hpp"

#include <cstdint>
#include <string>
#include <string_view>

namespace engine_plain_text_test {

using namespace lidlift;
using namespace std::string_view_literals;
using Lines = std::vector<std::string>;

namespace {

std::string bad(std::string_view text) {
    const auto found = find_bad_character(text);
    return found ? std::to_string(found->line) + ":" + std::to_string(found->column) + " " + found->what : "sound";
}

/// UTF-8 as RFC 3629 defines it, written out here so that it does not rest on the library under test.
std::string encoded(std::uint32_t code) {
    const auto byte = [](std::uint32_t value) { return static_cast<char>(static_cast<unsigned char>(value)); };
    const auto tail = [&](int shift) { return byte(0x80 | ((code >> shift) & 0x3F)); };
    if (code < 0x80) return {byte(code)};
    if (code < 0x800) return {byte(0xC0 | (code >> 6)), tail(0)};
    if (code < 0x10000) return {byte(0xE0 | (code >> 12)), tail(6), tail(0)};
    return {byte(0xF0 | (code >> 18)), tail(12), tail(6), tail(0)};
}

bool must_be_bad(std::uint32_t code) {
    const bool is_control = (code < 0x20 && code != '\t' && code != '\n') || (code >= 0x7F && code <= 0x9F);
    const bool is_bidirectional = (code >= 0x202A && code <= 0x202E) || (code >= 0x2066 && code <= 0x2069);
    const bool is_surrogate = code >= 0xD800 && code <= 0xDFFF;
    const bool is_noncharacter = (code >= 0xFDD0 && code <= 0xFDEF) || code % 0x10000 >= 0xFFFE;
    return is_control || is_bidirectional || is_surrogate || is_noncharacter || code == 0xFEFF || code > 0x10FFFF;
}

}  // namespace

TEST_CASE("sound text is let pass", "[plain_text]") {
    CHECK(bad("") == "sound");
    CHECK(bad("a tab\tand\nlines\r\nof both sorts\n") == "sound");
    CHECK(bad("\xEF\xBB\xBF"
              "a byte-order mark at the very beginning") == "sound");
    CHECK(bad("31 °C, Würmer, 蚯蚓, 🪱") == "sound");
}

TEST_CASE("every code point is judged as documented", "[plain_text]") {
    int wrong = 0;
    for (std::uint32_t code = 0; code <= 0x110000; ++code) {
        const std::string text = "x" + encoded(code) + "x";
        const bool is_bad = find_bad_character(text).has_value();
        const bool is_shown_changed = for_terminal(text) != text;
        wrong += is_bad != must_be_bad(code);
        wrong += is_shown_changed != (must_be_bad(code) || code == '\t' || code == '\n');
    }
    CHECK(wrong == 0);
}

TEST_CASE("what is not UTF-8 is refused", "[plain_text]") {
    const std::string expected = "1:2 a byte that is not UTF-8";
    CHECK(bad("a\xC0\xAF") == expected);          // overlong '/'
    CHECK(bad("a\xC1\xBF") == expected);          // overlong
    CHECK(bad("a\xE0\x80\xAF") == expected);      // overlong in three bytes
    CHECK(bad("a\xF0\x80\x80\xAF") == expected);  // overlong in four
    CHECK(bad("a\xED\xA0\x80") == expected);      // a surrogate
    CHECK(bad("a\xF4\x90\x80\x80") == expected);  // beyond U+10FFFF
    CHECK(bad("a\xE2\x82") == expected);          // cut off
    CHECK(bad("a\x80") == expected);              // a tail alone
    CHECK(bad("a\xFF") == expected);
    CHECK(bad("\xFF\xFEk\0:\0"sv) == "1:1 a byte that is not UTF-8");  // UTF-16 with its byte-order mark
    CHECK(bad("\xFE\xFF\0k\0:"sv) == "1:1 a byte that is not UTF-8");
    CHECK(bad("k\0:\0"sv) == "1:2 the control character U+0000");  // UTF-16 without
}

TEST_CASE("a bad character is named with its place in code points", "[plain_text]") {
    CHECK(bad("é蚓\x1b[31m") == "1:3 the control character U+001B");
    CHECK(bad("one\ntwo\r\nab\u202e") == "3:3 the bidirectional control U+202E");
    CHECK(bad("a\x7f") == "1:2 the control character U+007F");
    CHECK(bad("a\u0085") == "1:2 the control character U+0085");
    CHECK(bad("a\u2069") == "1:2 the bidirectional control U+2069");
    CHECK(bad("a\uFFFE") == "1:2 the noncharacter U+FFFE");
    CHECK(bad("a\U0010FFFF") == "1:2 the noncharacter U+10FFFF");
    CHECK(bad("a\uFEFF") == "1:2 a byte-order mark U+FEFF inside the text");
    CHECK(bad("\uFEFF\uFEFF") == "1:1 a byte-order mark U+FEFF inside the text");
    CHECK(bad("one\rtwo") == "1:4 the control character U+000D");
    CHECK(bad("one\r") == "1:4 the control character U+000D");
    CHECK(bad("one\r\r\n") == "1:4 the control character U+000D");
}

TEST_CASE("what is shown on a terminal cannot command it", "[plain_text]") {
    CHECK(for_terminal("plain é 蚓") == "plain é 蚓");
    CHECK(for_terminal("\x1b]0;title\x07") == "\\x1b]0;title\\x07");
    CHECK(for_terminal("a\0b"sv) == "a\\x00b");
    CHECK(for_terminal("a\u202eb\u009bc") == "a\\u202eb\\x9bc");
    CHECK(for_terminal("a\xFFz") == "a\\xffz");
    CHECK(for_terminal("a\xE2\x82") == "a\\xe2\\x82");
    CHECK(for_terminal("\U0001FFFF") == "\\U0001ffff");
    CHECK(for_terminal("\uFEFFx") == "\\ufeffx");
    CHECK(for_terminal("a\tb") == "a b");
}

TEST_CASE("line feeds are kept on a terminal only when asked for", "[plain_text]") {
    CHECK(for_terminal("a\nb") == "a\\x0ab");
    CHECK(for_terminal("a\nb", true) == "a\nb");
    CHECK(for_terminal("a\r\nb") == "a\\x0d\\x0ab");
    CHECK(for_terminal("a\r\nb", true) == "a\nb");
    CHECK(for_terminal("good\rbad", true) == "good\\x0dbad");
}

TEST_CASE("what is shown on a terminal has no bad character left, whatever came in", "[plain_text]") {
    for (unsigned first = 0; first < 256; ++first)
        for (unsigned second = 0; second < 256; ++second) {
            const char text[] = {static_cast<char>(first), static_cast<char>(second), '\xA9'};
            const std::string shown = for_terminal({text, 3}, true);
            if (find_bad_character(shown) || shown.find('\r') != std::string::npos) FAIL(first << " " << second);
        }
    SUCCEED();
}

TEST_CASE("width counts columns and characters count code points", "[plain_text]") {
    CHECK(display_width("") == 0);
    CHECK(display_width("worm") == 4);
    CHECK(display_width("31 °C") == 5);
    CHECK(display_width("蚯蚓") == 4);
    CHECK(display_width("e\u0301") == 1);  // e and a combining acute
    CHECK(count_characters("") == 0);
    CHECK(count_characters("31 °C") == 5);
    CHECK(count_characters("蚯蚓") == 2);
    CHECK(count_characters("e\u0301") == 2);
}

TEST_CASE("text is filled into lines", "[plain_text]") {
    CHECK(wrap("", 10) == Lines{""});
    CHECK(wrap(" \n\t ", 10) == Lines{""});
    CHECK(wrap("put dry leaves on top", 10) == Lines{"put dry", "leaves on", "top"});
    CHECK(wrap("  one\n two\r\n\tthree  ", 80) == Lines{"one two three"});
}

TEST_CASE("a line is filled up to the width and not beyond", "[plain_text]") {
    CHECK(wrap("ab cd", 5) == Lines{"ab cd"});
    CHECK(wrap("ab cd", 4) == Lines{"ab", "cd"});
    CHECK(wrap("蚯 蚓", 5) == Lines{"蚯 蚓"});
    CHECK(wrap("蚯 蚓", 4) == Lines{"蚯", "蚓"});
}

TEST_CASE("a word wider than the line stands alone", "[plain_text]") {
    CHECK(wrap("a longer b", 3) == Lines{"a", "longer", "b"});
    CHECK(wrap("longer", 0) == Lines{"longer"});
    CHECK(wrap("a b", 0) == Lines{"a", "b"});
}

TEST_CASE("in ASCII everything stays readable, and nothing else is left", "[plain_text]") {
    struct Row {
        std::string text, ascii;
    };
    for (const Row& row : std::vector<Row>{{"31 \u00b0C", "31 C"},
                                           {"caf\u00e9 na\u00efve", "cafe naive"},
                                           {"\u201cit\u2019s\u201d \u2013 so \u2026", "\"it's\" - so ..."},
                                           {"5 m\u00b3, \u00bd", "5 m3, 1/2"},
                                           {"\u00b5S, 3 \u00d7 4, \u2265 2", "uS, 3 x 4, >= 2"},
                                           {"\u4f60", "?"},
                                           {"plain\ntext", "plain\ntext"},
                                           {"", ""}})
        CHECK(as_ascii(row.text) == row.ascii);
}

}  // namespace engine_plain_text_test
