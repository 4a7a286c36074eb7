#include "engine/written_text.hpp"

#include <algorithm>
#include <array>
#include <charconv>
#include <limits>

namespace lidlift::written {
namespace {

constexpr bool is_operator(char c) { return std::string_view("=<>!&|").find(c) != std::string_view::npos; }
constexpr char to_small(char c) { return is_capital(c) ? static_cast<char>(c - 'A' + 'a') : c; }

/// The last piece of `text`, or nothing.
std::string_view last_piece(std::string_view text) {
    std::string_view last;
    for (auto rest = without_leading_blanks(text); !rest.empty(); rest = without_leading_blanks(rest)) {
        last = first_piece(rest);
        rest.remove_prefix(last.size());
    }
    return last;
}

}  // namespace

bool is_name(std::string_view text) {
    return !text.empty() && is_small_letter(text.front()) && std::all_of(text.begin(), text.end(), is_name_character);
}

std::string in_small_letters(std::string_view text) {
    std::string small(text);
    std::transform(small.begin(), small.end(), small.begin(), to_small);
    return small;
}

std::string with_plain_blanks(std::string_view text) {
    std::string plain(text);
    for (const std::string_view no_break : {"\xC2\xA0", "\xE2\x80\xAF"})
        for (auto at = plain.find(no_break); at != plain.npos; at = plain.find(no_break, at))
            plain.replace(at, no_break.size(), " ");
    return plain;
}

int column_of(std::string_view text, const char* place) {
    return 1 + static_cast<int>(std::count_if(text.data(), place, begins_character));
}

Outcome<double> number_of(std::string_view digits) {
    if (!digits.empty() && digits.front() == '+') digits.remove_prefix(1);  // from_chars takes no '+'
    const auto significant = std::find_if(digits.begin(), digits.end(), [](char c) { return '1' <= c && c <= '9'; });
    if (std::count_if(significant, digits.end(), is_digit) > std::numeric_limits<double>::digits10)
        return Fault{"a number of at most 15 digits"};
    double number = 0;
    if (std::from_chars(digits.data(), digits.data() + digits.size(), number).ec != std::errc{})
        return Fault{"a number with fewer decimals"};
    return number + 0.0;  // "-0" is 0
}

std::string number_as_written(double number) {
    std::array<char, 400> digits{};  // the longest double takes 344
    const auto end = std::to_chars(digits.data(), digits.data() + digits.size(), number, std::chars_format::fixed).ptr;
    return {digits.data(), end};
}

std::string_view first_piece(std::string_view rest) {
    const auto belongs_to_word = [&](std::size_t i) {
        const char c = rest[i];
        if (c == ',') return i > 0 && is_digit(rest[i - 1]) && i + 1 < rest.size() && is_digit(rest[i + 1]);  // "1,5"
        return is_word_character(c) || c == '+' || c == '.' || c == '/' || c == '%';
    };
    std::size_t length = 0;
    while (length < rest.size() && belongs_to_word(length)) ++length;
    if (length == 0)
        while (length < rest.size() && is_operator(rest[length])) ++length;
    return rest.substr(0, std::max<std::size_t>(length, 1));
}

std::string_view without_leading_blanks(std::string_view text) {
    return {std::find_if_not(text.begin(), text.end(), is_blank), text.end()};
}

std::string quoted(std::string_view piece) {
    constexpr std::size_t longest = 40;
    std::string shown(piece);
    if (piece.size() > longest) {
        std::size_t kept = longest;
        while (kept > 0 && !begins_character(piece[kept])) --kept;
        shown = shown.substr(0, kept) + "...";
    }
    return shown == "'" ? "\"'\"" : "'" + shown + "'";
}

std::string_view piece_at(std::string_view text, const char* place) {
    return first_piece(without_leading_blanks(text.substr(static_cast<std::size_t>(place - text.data()))));
}

Fault fault_of(const Unmet& unmet, std::string_view text) {
    const std::string_view before = text.substr(0, static_cast<std::size_t>(unmet.place - text.data()));
    const std::string_view rest = without_leading_blanks(text.substr(before.size()));
    const std::string_view previous = last_piece(before);
    const std::string_view there = first_piece(rest);

    const std::string after = previous.empty() ? "" : " after " + quoted(previous);
    const std::string found = !there.empty() ? quoted(there) : previous.empty() ? "nothing" : "the end of the text";
    return {"expected " + unmet.expected + after + ", found " + found, column_of(text, rest.data())};
}

}  // namespace lidlift::written
