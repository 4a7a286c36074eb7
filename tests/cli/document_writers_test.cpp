// Documents written out as Markdown, HTML and JSON: what a rule file says may be anything, and none of it becomes a mark.
#include "cli/document.hpp"
#include "cli/render_document.hpp"
#include "tests/catch.hpp"
#include "tests/cli/program.hpp"

#include <algorithm>
#include <random>
#include <regex>
#include <string>
#include <vector>

#include <nlohmann/json.hpp>

namespace cli_document_writers_test {

using namespace lidlift;
using namespace lidlift::cli;
using namespace lidlift::test;

namespace {

const std::vector<std::string> hostile = {
    "<script>alert(1)</script>",
    "\"><img src=x onerror=alert(1)>",
    "' onmouseover='x",
    "[here](javascript:alert(1))",
    "![picture](https://example.org/a.png)",
    "https://example.org www.example.org a@example.org",
    "**not strong** *not* _emphasis_ ~~struck~~ $x$",
    "`code` ``more`` |cell|cell|",
    "a\n\n# heading\n\n- item\n\n    code",
    "- item",
    "1. item",
    "2) item",
    "+ item",
    "=== --- ***",
    "> quoted",
    ": defined",
    "&lt;b&gt; &amp; &#60;",
    "ends with a backslash\\",
    "right to left \xE2\x80\xAE txet \xE2\x81\xA6",
    "bell \x07 escape \x1b[31m",
    "not UTF-8 \xFF\xFE",
    "</style></title><!-- --><![CDATA[",
    "trailing # hashes ##",
    "",
    "   ",
};

Document everywhere(const std::string& text) {
    const Line line = {{text},
                       {text, Span::Look::strong},
                       {text, Span::Look::emphasis},
                       {text, Span::Look::code},
                       {text, Span::Look::plain, "a"},
                       {text, Span::Look::code, "a"}};
    Document document;
    document.title = text;
    document.blocks = {Heading{1, "top", {}, text},
                       Contents{},
                       Heading{2, "a", "1", text},
                       Heading{3, "b", "1.1", text},
                       Heading{4, "c", {}, text},
                       Heading{5, "d", {}, text},
                       Paragraph{line},
                       Paragraph{{{text}}, true},
                       Bullets{{line, {{text}}}, false},
                       Bullets{{line}, true},
                       Table{{text, "two"}, {{line, line}}},
                       Particulars{{{text, line}}},
                       Boxed{Level::stop, line, line}};
    return document;
}

/// `text` without its backslash escapes and without what stands in backticks (as CommonMark pairs them).
std::string without_escapes_and_code(const std::string& text) {
    std::string result;
    for (std::size_t i = 0; i < text.size();) {
        if (text[i] == '\\' && i + 1 < text.size()) {
            i += 2;
            continue;
        }
        if (text[i] != '`') {
            result += text[i++];
            continue;
        }
        std::size_t run = 0;
        while (i + run < text.size() && text[i + run] == '`') ++run;
        std::size_t close = i + run;
        while (close < text.size()) {
            std::size_t length = 0;
            while (close + length < text.size() && text[close + length] == '`') ++length;
            if (length == run) break;
            close += std::max<std::size_t>(length, 1);
        }
        INFO("an unclosed code span in " << text);
        REQUIRE(close < text.size());
        i = close + run;
    }
    return result;
}

std::vector<std::string> lines_of(const std::string& text) {
    std::vector<std::string> lines;
    for (std::size_t begin = 0; begin < text.size();) {
        const std::size_t end = text.find('\n', begin);
        lines.push_back(text.substr(begin, end - begin));
        begin = end + 1;
    }
    return lines;
}

/// The marks that our own writer makes, by the line.
void check_markdown(const std::string& markdown, std::size_t lines_wanted) {
    CHECK(is_tame(markdown));
    const auto lines = lines_of(markdown);
    CHECK(lines.size() == lines_wanted);
    for (const std::string& line : lines) {
        CAPTURE(line);
        std::string left = without_escapes_and_code(line);
        static const std::regex anchor("<a id=\"[A-Za-z0-9_-]+\"></a>");
        static const std::regex link_end("\\]\\(#[A-Za-z0-9_-]+\\)");
        left = std::regex_replace(left, anchor, "");
        CHECK(left.find('<') == std::string::npos);
        left = std::regex_replace(left, link_end, "]");
        CHECK(left.find("](") == std::string::npos);
        CHECK(left.find('~') == std::string::npos);
        CHECK(left.find('$') == std::string::npos);
        CHECK(left.find('&') == std::string::npos);
        CHECK(left.find("://") == std::string::npos);
        CHECK(std::count(left.begin(), left.end(), '[') == std::count(left.begin(), left.end(), ']'));
        CHECK(left.find("![") == std::string::npos);
        if (line.rfind("| ", 0) == 0) CHECK(std::count(left.begin(), left.end(), '|') == 3);
        if (line.rfind("| ", 0) != 0) CHECK(left.find('|') == std::string::npos);
    }
}

void check_html(const std::string& html) {
    CHECK(is_tame(html));
    const std::string body = html.substr(html.find("<body>"));
    static const std::regex tag(
        "<(/?)(body|html|a|h[1-5]|p|ul|ol|li|dl|dt|dd|div|span|strong|em|code|table|thead|tbody|tr|th|td|nav|main|"
        "section|article)((?: (?:id|class|href|scope|role|aria-label)=\"[A-Za-z0-9_# -]*\")*)>");
    std::vector<std::string> open = {"html"};
    for (std::size_t at = body.find('<'); at != std::string::npos; at = body.find('<', at + 1)) {
        std::smatch match;
        const std::string rest = body.substr(at, 200);
        CAPTURE(rest);
        REQUIRE(std::regex_search(rest, match, tag, std::regex_constants::match_continuous));
        const std::string name = match[2];
        if (match[1].length() == 0) {
            open.push_back(name);
        } else {
            REQUIRE_FALSE(open.empty());
            CHECK(open.back() == name);
            open.pop_back();
        }
    }
    CHECK(open.empty());
    const std::string head = html.substr(0, html.find("<body>"));
    CHECK(std::count(head.begin(), head.end(), '<') == 11);
    CHECK_FALSE(holds(html, "<script"));
    CHECK_FALSE(holds(html, "http"));
}

}  // namespace

TEST_CASE("no text of a rule file becomes a mark of Markdown or HTML", "[cli][document]") {
    const std::size_t lines = lines_of(render_markdown(everywhere("harmless"))).size();
    for (const std::string& text : hostile) {
        CAPTURE(text);
        check_markdown(render_markdown(everywhere(text)), lines);
        if (text.find("http") == std::string::npos) check_html(render_html(everywhere(text)));
        const auto json = nlohmann::json::parse(render_document_json(everywhere(text)));
        CHECK(json["blocks"].size() == 13);
        CHECK(is_tame(json.dump()));
    }
}

TEST_CASE("random marks stay text in Markdown and HTML", "[cli][document]") {
    std::mt19937 random(20261125);
    static const std::string characters = "ab 1.)\\`*_{}[]<>()#+-!|~&$:@^=\"'\n\t/;";
    const std::size_t lines = lines_of(render_markdown(everywhere("harmless"))).size();
    for (int i = 0; i < 400; ++i) {
        std::string text;
        for (auto length = random() % 24; length > 0; --length) text += characters[random() % characters.size()];
        CAPTURE(i, text);
        check_markdown(render_markdown(everywhere(text)), lines);
        check_html(render_html(everywhere(text)));
    }
}

TEST_CASE("HTML gives back the text that went in", "[cli][document]") {
    Document document;
    document.blocks = {Paragraph{{{"a < b & \"c\" > 'd'"}}}};
    CHECK(holds(render_html(document), "<p>a &lt; b &amp; &quot;c&quot; &gt; &#39;d&#39;</p>"));
}

TEST_CASE("Markdown keeps plain prose readable", "[cli][document]") {
    Document document;
    document.blocks = {Paragraph{{{"Pour 1.5 L in, up to 2-3 times; it's (nearly) done: see blocked_drain."}}},
                       Paragraph{{{"not ", Span::Look::code},
                                  {"squeeze", Span::Look::code, "sign-squeeze"},
                                  {" is ", Span::Look::code},
                                  {"stream", Span::Look::code}}}};
    CHECK(render_markdown(document) ==
          "Pour 1.5 L in, up to 2-3 times; it's (nearly) done: see blocked_drain.\n\n"
          "`not` [`squeeze`](#sign-squeeze) `is` `stream`\n");
}

TEST_CASE("an HTML page says its language and has its headings, contents and skip link", "[cli][document]") {
    const std::string html = render_html(everywhere("harmless"));
    for (const char* part : {"<html lang=\"en-GB\">", "<a class=\"skip\" href=\"#text\">", "<main id=\"text\">",
                             "<nav aria-label=\"Contents\">", "<th scope=\"col\">", "<th scope=\"row\">", "<article id=\"c\">",
                             "role=\"note\"", "STOP", "@media print", "prefers-color-scheme: dark", "width=device-width"}) {
        CAPTURE(part);
        CHECK(holds(html, part));
    }
}

}  // namespace cli_document_writers_test
