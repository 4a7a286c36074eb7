// Plain text filled into lines of at most 80 columns, or of a terminal's width; the only place where text from files and people
// reaches the screen.
#pragma once

#include <cstddef>
#include <string>
#include <string_view>
#include <vector>

namespace lidlift::cli {

/// The words in a row with something between them.
[[nodiscard]] std::string joined(const std::vector<std::string>& words, std::string_view between = ", ");
/// A chance in whole hundredths: "71 %".
[[nodiscard]] std::string whole_percent(double chance);

/// What the screen can show.
struct Screen {
    std::size_t columns = 80;
    bool ascii = false;  ///< nothing but ASCII
};

class Page {
public:
    explicit Page(const Screen& screen = {}) : screen_(screen) {}

    /// A heading in capitals with an empty line before it.
    void heading(std::string_view text);
    /// A paragraph: `lead` before its first line, as many spaces before the others.
    void paragraph(std::string_view lead, std::string_view text);
    /// `left` filled into the columns before `right`, which stands at the end of the last line.
    void columns(std::string_view lead, std::string_view left, std::string_view right);
    /// One line however long it is: what is meant to be copied and pasted must not be broken.
    void unbroken(std::string_view lead, std::string_view text);
    void empty_line();
    /// A text that a page made already.
    void ready(std::string_view text) { text_ += text; }
    [[nodiscard]] std::string take() { return std::move(text_); }

private:
    [[nodiscard]] std::string safe(std::string_view text) const;

    Screen screen_;
    std::string text_;
};

}  // namespace lidlift::cli
