#include "cli/render_document.hpp"

#include <algorithm>

namespace lidlift::cli {
namespace {

bool is_alphanumeric(char c) { return (c >= 'a' && c <= 'z') || (c >= 'A' && c <= 'Z') || (c >= '0' && c <= '9'); }
bool is_digit(char c) { return c >= '0' && c <= '9'; }

/// Running text with a backslash before everything that Markdown, its tables or its automatic links would take for a mark.
std::string escaped(const std::string& raw, bool begins_line) {
    const std::string text = on_one_line(raw);
    std::string result;
    for (std::size_t i = 0; i < text.size(); ++i) {
        const char c = text[i];
        bool mark = std::string_view("\\`*[]<>|~&#$@").find(c) != std::string_view::npos;
        // Between letters an underscore is only a letter.
        if (c == '_') mark = i == 0 || i + 1 == text.size() || !is_alphanumeric(text[i - 1]) || !is_alphanumeric(text[i + 1]);
        if (c == ':') mark = text.compare(i, 3, "://") == 0;
        if (c == '.' && i >= 3) mark = std::string_view("www WWW").find(text.substr(i - 3, 3)) != std::string_view::npos;
        if (begins_line) {
            if (i == 0 && (c == '+' || c == '-' || c == '=' || c == ':')) mark = true;
            const bool after_digits =
                i > 0 && std::all_of(text.begin(), text.begin() + static_cast<std::ptrdiff_t>(i), is_digit);
            if ((c == '.' || c == ')') && after_digits) mark = true;
        }
        if (mark) result += '\\';
        result += c;
    }
    return result;
}

/// A text with the blanks at its ends apart, because marks such as ** and ` must stand next to a letter.
struct Trimmed {
    std::string before, text, after;
};
Trimmed trimmed(const std::string& text) {
    const std::size_t begin = text.find_first_not_of(' ');
    if (begin == std::string::npos) return {text.empty() ? "" : " ", "", ""};
    const std::size_t end = text.find_last_not_of(' ') + 1;
    return {begin > 0 ? " " : "", text.substr(begin, end - begin), end < text.size() ? " " : ""};
}

/// In backticks, as many as the text does not hold itself.
std::string as_code(const std::string& text, bool in_table) {
    std::size_t longest = 0;
    std::size_t run = 0;
    for (const char c : text) longest = std::max(longest, run = c == '`' ? run + 1 : 0);
    const std::string fence(longest + 1, '`');
    const std::string pad = longest > 0 ? " " : "";
    std::string inside;
    for (const char c : text) inside += c == '|' && in_table ? "\\|" : std::string(1, c);
    return fence + pad + inside + pad + fence;
}

std::string written(const Line& line, bool in_table = false) {
    std::string result;
    for (const Span& span : line) {
        const bool begins = result.find_first_not_of(' ') == std::string::npos;
        Trimmed piece = trimmed(on_one_line(span.text));
        if (piece.text.empty()) {
            result += piece.before;
            continue;
        }
        std::string text = span.look == Span::Look::code ? as_code(piece.text, in_table) : escaped(piece.text, begins);
        if (span.look == Span::Look::strong) text = "**" + text + "**";
        if (span.look == Span::Look::emphasis) text = "*" + text + "*";
        if (!span.target.empty()) text = "[" + text + "](#" + span.target + ")";
        result += piece.before + text + piece.after;
    }
    return trimmed(result).text;
}

class MarkdownWriter {
public:
    explicit MarkdownWriter(const Document& document) : document_(document) {}

    std::string write() {
        for (const Block& block : document_.blocks) std::visit([this](const auto& kind) { write(kind); }, block);
        return std::move(text_);
    }

private:
    void line(const std::string& text) { text_ += text + "\n"; }
    void between() {
        if (!text_.empty()) text_ += "\n";
    }

    void write(const Heading& heading) {
        between();
        const std::string anchor = heading.anchor.empty() ? "" : "<a id=\"" + heading.anchor + "\"></a>";
        const std::string number = heading.number.empty() ? "" : heading.number + " ";
        line(std::string(static_cast<std::size_t>(heading.level), '#') + " " + anchor + number + escaped(heading.text, false));
    }
    void write(const Paragraph& paragraph) {
        between();
        line(written(paragraph.text));
    }
    void write(const Bullets& bullets) {
        between();
        int number = 0;
        for (const Line& item : bullets.items)
            line((bullets.numbered ? std::to_string(++number) + ". " : "- ") + written(item));
    }
    void write(const Table& table) {
        between();
        std::string head = "|";
        std::string rule = "|";
        for (const std::string& name : table.header) {
            head += " " + escaped(name, false) + " |";
            rule += " --- |";
        }
        line(head);
        line(rule);
        for (const auto& row : table.rows) {
            std::string cells = "|";
            for (const Line& cell : row) cells += " " + written(cell, true) + " |";
            line(cells);
        }
    }
    void write(const Particulars& particulars) {
        between();
        for (const auto& [label, text] : particulars.rows) line("- **" + escaped(label, false) + ":** " + written(text));
    }
    void write(const Boxed& box) {
        between();
        line("> **" + std::string(called(box.level)) + "** " + written(box.title));
        line(">");
        line("> " + written(box.text));
    }
    void write(const Contents&) {
        between();
        for (const Block& block : document_.blocks) {
            const auto* heading = std::get_if<Heading>(&block);
            if (!heading || heading->level < 2 || heading->level > 3) continue;
            line((heading->level == 3 ? "  - " : "- ") + std::string("[") + heading->number + " " +
                 escaped(heading->text, false) + "](#" + heading->anchor + ")");
        }
    }

    const Document& document_;
    std::string text_;
};

}  // namespace

std::string render_markdown(const Document& document) { return MarkdownWriter(document).write(); }

}  // namespace lidlift::cli
