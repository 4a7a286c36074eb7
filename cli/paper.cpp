#include "cli/paper.hpp"

#include "engine/plain_text.hpp"

#include <algorithm>
#include <array>
#include <cmath>
#include <string>

namespace lidlift::cli {
namespace {

/// Widths of the characters from the space to the tilde, in thousandths of an em (Adobe's font metrics of Helvetica).
constexpr std::array<int, 95> widths = {
    278,  278, 355, 556, 556, 889, 667, 191, 333, 333, 389, 584, 278, 333, 278, 278,  // space to /
    556,  556, 556, 556, 556, 556, 556, 556, 556, 556, 278, 278, 584, 584, 584, 556,  // 0 to ?
    1015, 667, 667, 722, 722, 667, 611, 778, 722, 278, 500, 667, 556, 833, 722, 778,  // @ to O
    667,  778, 722, 667, 611, 722, 667, 944, 667, 667, 611, 278, 278, 278, 469, 556,  // P to _
    333,  556, 556, 500, 556, 556, 278, 556, 556, 222, 222, 500, 222, 833, 556, 556,  // ` to o
    556,  556, 333, 500, 278, 556, 500, 722, 500, 500, 500, 334, 260, 334, 584};      // p to ~

/// Any other letter, and one that takes two columns of a terminal.
constexpr int other_width = 700;
constexpr int wide_width = 1050;

}  // namespace

double width_in_ems(std::string_view text) {
    int width = 0;
    for (std::size_t i = 0; i < text.size();) {
        const auto byte = static_cast<unsigned char>(text[i]);
        std::size_t end = i + 1;
        while (end < text.size() && (static_cast<unsigned char>(text[end]) & 0xC0) == 0x80) ++end;
        if (byte >= 0x20 && byte < 0x7F)
            width += widths[byte - 0x20];
        else
            width += display_width(text.substr(i, end - i)) > 1 ? wide_width : other_width;
        i = end;
    }
    return width / 1000.0;
}

std::size_t lines_on_paper(std::string_view text, double width) {
    const double space = width_in_ems(" ");
    std::size_t lines = 1;
    double used = 0;
    for (std::size_t begin = 0; begin < text.size();) {
        const std::size_t end = std::min(text.find(' ', begin), text.size());
        const double word = width_in_ems(text.substr(begin, end - begin));
        begin = end + 1;
        if (word == 0) continue;
        const double with_word = used > 0 ? used + space + word : word;
        if (with_word <= width) {
            used = with_word;
            continue;
        }
        if (used > 0) ++lines;
        constexpr double rounding = 1e-9;
        const double broken = std::max(0.0, std::ceil(word / width - rounding) - 1);
        lines += static_cast<std::size_t>(broken);
        used = word - broken * width;
    }
    return lines;
}

}  // namespace lidlift::cli
