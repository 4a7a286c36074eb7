#include "cli/document.hpp"
#include "cli/handover_style.hpp"
#include "cli/html_text.hpp"
#include "cli/render_handover.hpp"

#include <algorithm>
#include <cstdlib>

#include <fmt/format.h>

namespace lidlift::cli {
namespace {

/// Nothing is fetched and no script runs, whatever stands in the page.
constexpr const char* policy =
    "<meta http-equiv=\"Content-Security-Policy\" content=\"default-src 'none'; style-src 'unsafe-inline'; base-uri 'none'; "
    "form-action 'none'\">\n";

std::string with_class(const char* name, const char* look, const std::string& inside) {
    return fmt::format("<{0} class=\"{1}\">{2}</{0}>", name, look, inside);
}

class HandoverHtml {
public:
    explicit HandoverHtml(const Sheet& sheet) : sheet_(sheet) {}

    std::string write(const SheetLayout& layout) {
        const std::string style = fmt::format(":root {{ --letters: {:g}pt; }}", layout.letters) + handover_style;
        text_ = beginning_of_page(sheet_.title, style.c_str(), "light", policy);
        text_ += "<main>\n<header>\n" + element("h1", escaped(sheet_.title)) + "\n";
        text_ += "<div class=\"standing\">\n" + paragraphs(sheet_.standing) + "</div>\n";
        if (!sheet_.notes.empty()) text_ += "<div class=\"notes\">\n" + paragraphs(sheet_.notes) + "</div>\n";
        text_ += "</header>\n";
        cautions();
        if (sheet_.causes_heading.empty() && !sheet_.in_short.empty())
            text_ += "<section>\n" + with_class("p", "handy", escaped(sheet_.in_short)) + "\n</section>\n";
        text_ += layout.apart ? "<div class=\"columns apart\">\n" : "<div class=\"columns\">\n";
        said();
        causes();
        find_out();
        steps();
        list("do-not", "Do not", sheet_.do_not);
        list("again", sheet_.look_again_heading, sheet_.look_again);
        text_ += "</div>\n<footer>\n";
        if (!sheet_.left_out.empty()) text_ += with_class("p", "handy", escaped(sheet_.left_out)) + "\n";
        text_ += element("p", escaped(sheet_.closing)) + "\n</footer>\n</main>\n</body>\n</html>\n";
        return std::move(text_);
    }

private:
    static std::string paragraphs(const std::vector<std::string>& lines) {
        std::string result;
        for (const std::string& line : lines) result += element("p", escaped(line)) + "\n";
        return result;
    }

    /// A section that is named by its heading.
    void begin(const std::string& id, const std::string& heading, const std::string& look = {}) {
        text_ += "<section aria-labelledby=\"" + id + "\"" + (look.empty() ? "" : " class=\"" + look + "\"") + ">\n<h2 id=\"" +
                 id + "\">" + escaped(heading) + "</h2>\n";
    }
    void end() { text_ += "</section>\n"; }

    void items(const std::vector<std::string>& list) {
        text_ += "<ul class=\"dots\">\n";
        for (const std::string& item : list) text_ += element("li", escaped(item)) + "\n";
        text_ += "</ul>\n";
    }

    void list(const std::string& id, const std::string& heading, const std::vector<std::string>& list) {
        if (list.empty()) return;
        begin(id, heading);
        items(list);
        end();
    }

    void cautions() {
        if (sheet_.cautions.empty()) return;
        begin("first", "Read first", sheet_.cautions.size() == 1 ? "cautions one" : "cautions");
        text_ += "<ul>\n";
        for (const SheetCaution& caution : sheet_.cautions) {
            const std::string mark = escaped(caution.mark);
            text_ += "<li class=\"" + std::string(to_word(caution.level)) + "\" id=\"caution-" + mark + "\">" +
                     with_class("span", "mark", mark) + with_class("strong", "level", std::string(called(caution.level))) +
                     " " + element("strong", escaped(caution.name) + ".") + " " + escaped(caution.say) + "</li>\n";
        }
        text_ += "</ul>\n";
        end();
    }

    void said() {
        if (!sheet_.own_words.empty() || !sheet_.answers.empty()) {
            begin("said", "What was said");
            for (const std::string& words : sheet_.own_words) text_ += with_class("p", "words", escaped(words)) + "\n";
            if (!sheet_.answers.empty()) items(sheet_.answers);
            end();
        }
        list("tank", sheet_.tank_heading, sheet_.tank);
    }

    void causes() {
        if (sheet_.causes_heading.empty()) return;
        begin("causes", sheet_.causes_heading);
        if (!sheet_.in_short.empty()) text_ += with_class("p", "handy", escaped(sheet_.in_short)) + "\n";
        for (const SheetCause& cause : sheet_.causes) {
            text_ += element("h3", escaped(cause.name)) + "\n" + with_class("p", "chance", escaped(cause.chance) + ".") + "\n";
            text_ += element("p", escaped(joined(cause.remarks, " "))) + "\n";
            balance(cause);
        }
        if (!sheet_.other_causes.empty()) items(sheet_.other_causes);
        text_ += element("p", escaped(sheet_.nothing_listed)) + "\n";
        end();
    }

    /// Solid to the right: speaks for it; hollow to the left: against. The number stands beside, so the bar is for eyes only.
    static std::string bar(int points, int most) {
        const int length = std::abs(points);
        return fmt::format(
            "<svg viewBox=\"-{0} 0 {1} 8\" preserveAspectRatio=\"none\" aria-hidden=\"true\" focusable=\"false\">"
            "<rect x=\"{2}\" y=\"1\" width=\"{3}\" height=\"6\" fill=\"{4}\" stroke=\"currentColor\" "
            "vector-effect=\"non-scaling-stroke\"/><line x1=\"0\" y1=\"0\" x2=\"0\" y2=\"8\" "
            "stroke=\"currentColor\" vector-effect=\"non-scaling-stroke\"/></svg>",
            most, 2 * most, points < 0 ? -length : 0, length, points < 0 ? "none" : "currentColor");
    }

    void balance(const SheetCause& cause) {
        int most = 10;
        for (const BalancePoints& line : cause.balance) most = std::max(most, std::abs(line.points));
        const auto row = [&](const std::string& text, int points) {
            return "<tr><th scope=\"row\">" + escaped(text) + "</th><td class=\"points\"><span>" +
                   fmt::format("{:+d}", points) + "</span>" + bar(points, most) + "</td></tr>\n";
        };
        text_ += "<table>\n<caption>What speaks for it (+) and against it (\u2212), in points</caption>\n<tbody>\n";
        for (const BalancePoints& line : cause.balance) text_ += row(line.text, line.points);
        text_ += "</tbody>\n<tfoot>\n" + row("together", cause.together) + "</tfoot>\n</table>\n";
    }

    void steps() {
        if (sheet_.steps.empty() && sheet_.steps_remark.empty()) return;
        begin("steps", sheet_.steps_heading, "actions");
        for (const SheetSteps& group : sheet_.steps) {
            text_ += element("h3", escaped(group.when)) + "\n<ul class=\"ticks\">\n";
            for (const SheetStep& one : group.steps) step(one);
            text_ += "</ul>\n";
        }
        if (!sheet_.steps_remark.empty()) text_ += element("p", escaped(sheet_.steps_remark)) + "\n";
        end();
    }

    void step(const SheetStep& step) {
        text_ += "<li><label><input type=\"checkbox\" autocomplete=\"off\"> ";
        for (const std::string& check : step.checks)
            text_ += with_class("span", "check", "First check: " + escaped(check)) + " ";
        text_ += escaped(step.say) + "</label>";
        if (!step.mind.empty()) {
            std::string links;
            for (const std::string& mark : step.mind)
                links += (links.empty() ? "" : ", ") + ("<a href=\"#caution-" + escaped(mark) + "\">" + escaped(mark) + "</a>");
            text_ += " " + with_class("span", "mind", "Mind " + links + ".");
        }
        for (const std::string& amount : step.amounts) text_ += " " + with_class("span", "amount", escaped(amount));
        text_ += "</li>\n";
    }

    void find_out() {
        if (sheet_.find_out.empty()) return;
        begin("find-out", "Still worth finding out");
        text_ += "<ul class=\"dots\">\n";
        for (const SheetQuestion& question : sheet_.find_out)
            text_ += element("li",
                             escaped(question.ask) + (question.how.empty() ? "" : " " + element("em", escaped(question.how)))) +
                     "\n";
        text_ += "</ul>\n";
        end();
    }

    const Sheet& sheet_;
    std::string text_;
};

}  // namespace

std::string render_handover_html(const Sheet& sheet, const SheetLayout& layout) { return HandoverHtml(sheet).write(layout); }

}  // namespace lidlift::cli
