#include "cli/html_style.hpp"
#include "cli/html_text.hpp"
#include "cli/render_document.hpp"

namespace lidlift::cli {
namespace {

std::string written(const Line& line) {
    std::string result;
    for (const Span& span : line) {
        std::string text = escaped(span.text);
        if (text.empty()) continue;
        if (span.look == Span::Look::strong) text = element("strong", text);
        if (span.look == Span::Look::emphasis) text = element("em", text);
        if (span.look == Span::Look::code) text = element("code", text);
        if (!span.target.empty()) text = "<a href=\"#" + escaped(span.target) + "\">" + text + "</a>";
        result += text;
    }
    return result;
}

class HtmlWriter {
public:
    explicit HtmlWriter(const Document& document) : document_(document) {}

    std::string write() {
        text_ = beginning_of_page(document_.title, html_style, "light dark");
        text_ += "<a class=\"skip\" href=\"#text\">Skip the contents</a>\n";
        for (const Block& block : document_.blocks) std::visit([this](const auto& kind) { write(kind); }, block);
        close_down_to(2);
        if (main_is_open_) text_ += "</main>\n";
        text_ += "</body>\n</html>\n";
        return std::move(text_);
    }

private:
    /// Chapters, groups and entries each get an element of their own, so that paper breaks and screen readers know them.
    void close_down_to(int level) {
        for (; !open_.empty() && open_.back() >= level; open_.pop_back())
            text_ += open_.back() == 4 ? "</article>\n" : "</section>\n";
    }
    void open_main() {
        if (main_is_open_) return;
        main_is_open_ = true;
        text_ += "<main id=\"text\">\n";
    }

    void write(const Heading& heading) {
        if (heading.level >= 2) open_main();
        close_down_to(heading.level);
        const std::string id = heading.anchor.empty() ? "" : " id=\"" + escaped(heading.anchor) + "\"";
        const bool own_element = heading.level >= 2 && heading.level <= 4;
        if (own_element) {
            text_ += heading.level == 4 ? "<article" + id + ">\n"
                                        : (heading.level == 2 ? "<section class=\"chapter\"" : "<section") + id + ">\n";
            open_.push_back(heading.level);
        }
        const std::string number = heading.number.empty() ? "" : "<span class=\"number\">" + heading.number + "</span> ";
        const std::string name = "h" + std::to_string(heading.level);
        text_ += "<" + name + (own_element ? "" : id) + ">" + number + escaped(heading.text) + "</" + name + ">\n";
    }
    void write(const Paragraph& paragraph) {
        text_ += (paragraph.aside ? "<p class=\"aside\">" : "<p>") + written(paragraph.text) + "</p>\n";
    }
    void write(const Bullets& bullets) {
        const char* name = bullets.numbered ? "ol" : "ul";
        text_ += std::string("<") + name + ">\n";
        for (const Line& item : bullets.items) text_ += element("li", written(item)) + "\n";
        text_ += std::string("</") + name + ">\n";
    }
    void write(const Table& table) {
        text_ += "<div class=\"wide\">\n<table>\n<thead><tr>";
        for (const std::string& name : table.header) text_ += "<th scope=\"col\">" + escaped(name) + "</th>";
        text_ += "</tr></thead>\n<tbody>\n";
        for (const auto& row : table.rows) {
            text_ += "<tr>";
            for (std::size_t i = 0; i < row.size(); ++i)
                text_ += i == 0 ? "<th scope=\"row\">" + written(row[i]) + "</th>" : element("td", written(row[i]));
            text_ += "</tr>\n";
        }
        text_ += "</tbody>\n</table>\n</div>\n";
    }
    void write(const Particulars& particulars) {
        text_ += "<dl>\n";
        for (const auto& [label, line] : particulars.rows)
            text_ += "<div>" + element("dt", escaped(label)) + element("dd", written(line)) + "</div>\n";
        text_ += "</dl>\n";
    }
    void write(const Boxed& box) {
        text_ += "<div class=\"caution " + std::string(to_word(box.level)) + "\" role=\"note\">\n<p class=\"word\"><strong>" +
                 std::string(called(box.level)) + "</strong> " + written(box.title) + "</p>\n" +
                 element("p", written(box.text)) + "\n</div>\n";
    }
    void write(const Contents&) {
        text_ += "<nav aria-label=\"Contents\">\n<p class=\"label\">Contents</p>\n<ul>\n";
        bool inner = false;
        bool outer = false;
        for (const Block& block : document_.blocks) {
            const auto* heading = std::get_if<Heading>(&block);
            if (!heading || heading->level < 2 || heading->level > 3) continue;
            if (heading->level == 2) {
                if (inner) text_ += "</ul>";
                if (outer) text_ += "</li>\n";
                inner = false;
                outer = true;
            } else if (!inner) {
                text_ += "\n<ul>\n";
                inner = true;
            }
            const std::string link = "<a href=\"#" + escaped(heading->anchor) + "\"><span class=\"number\">" + heading->number +
                                     "</span> " + escaped(heading->text) + "</a>";
            text_ += heading->level == 2 ? "<li>" + link : element("li", link) + "\n";
        }
        if (inner) text_ += "</ul>";
        if (outer) text_ += "</li>\n";
        text_ += "</ul>\n</nav>\n";
    }

    const Document& document_;
    std::string text_;
    std::vector<int> open_;
    bool main_is_open_ = false;
};

}  // namespace

std::string render_html(const Document& document) { return HtmlWriter(document).write(); }

}  // namespace lidlift::cli
