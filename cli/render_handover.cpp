#include "cli/render_handover.hpp"

#include "cli/document.hpp"

#include <algorithm>
#include <cstdlib>

#include <fmt/format.h>

namespace lidlift::cli {
namespace {

std::string in_capitals(std::string text) {
    for (char& c : text)
        if (c >= 'a' && c <= 'z') c = static_cast<char>(c - 'a' + 'A');
    return text;
}

class HandoverPage {
public:
    HandoverPage(const Sheet& sheet, const Screen& screen) : sheet_(sheet), screen_(screen), page_(screen) {}

    std::string make() {
        heading(sheet_.title);
        for (const std::string& line : sheet_.standing) page_.paragraph("", line);
        for (const std::string& note : sheet_.notes) page_.paragraph("! ", note);
        cautions();
        if (sheet_.causes_heading.empty() && !sheet_.in_short.empty()) {
            page_.empty_line();
            page_.paragraph("", sheet_.in_short);
        }
        said();
        causes();
        find_out();
        steps();
        list("Do not", sheet_.do_not);
        list(sheet_.look_again_heading, sheet_.look_again);
        page_.empty_line();
        if (!sheet_.left_out.empty()) page_.paragraph("", sheet_.left_out);
        page_.paragraph("", sheet_.closing);
        return page_.take();
    }

private:
    void heading(const std::string& text) { page_.heading(in_capitals(text)); }

    void list(const std::string& name, const std::vector<std::string>& items) {
        if (items.empty()) return;
        heading(name);
        for (const std::string& item : items) page_.paragraph("- ", item);
    }

    void cautions() {
        if (sheet_.cautions.empty()) return;
        heading("Read first");
        for (const SheetCaution& caution : sheet_.cautions)
            page_.paragraph(caution.mark + " ", std::string(called(caution.level)) + " " + caution.name + ". " + caution.say);
    }

    void said() {
        if (!sheet_.own_words.empty() || !sheet_.answers.empty()) heading("What was said");
        for (const std::string& words : sheet_.own_words) page_.paragraph("", words);
        for (const std::string& answer : sheet_.answers) page_.paragraph("- ", answer);
        list(sheet_.tank_heading, sheet_.tank);
    }

    void causes() {
        if (sheet_.causes_heading.empty()) return;
        heading(sheet_.causes_heading);
        if (!sheet_.in_short.empty()) page_.paragraph("", sheet_.in_short);
        for (const SheetCause& cause : sheet_.causes) {
            page_.paragraph("", cause.name + " - " + cause.chance + ".");
            page_.paragraph("  ", joined(cause.remarks, " "));
            balance(cause);
        }
        for (const std::string& other : sheet_.other_causes) page_.paragraph("- ", other);
        page_.paragraph("", sheet_.nothing_listed);
    }

    /// "++++++++ +15": the bar stands beside its number.
    void balance(const SheetCause& cause) {
        const int longest_bar = screen_.columns < 60 ? 4 : 10;
        int most = 10;
        for (const BalancePoints& line : cause.balance) most = std::max(most, std::abs(line.points));
        const auto row = [&](const std::string& text, int points) {
            const int length = (std::abs(points) * longest_bar + most / 2) / most;
            const std::string bar(static_cast<std::size_t>(length), points < 0 ? '-' : '+');
            page_.columns("  ", text, fmt::format("{:>{}} {:+4d}", bar, longest_bar, points));
        };
        for (const BalancePoints& line : cause.balance) row(line.text, line.points);
        row("together, in points", cause.together);
    }

    void steps() {
        if (sheet_.steps.empty() && sheet_.steps_remark.empty()) return;
        heading(sheet_.steps_heading);
        for (const SheetSteps& group : sheet_.steps) {
            page_.paragraph("", group.when);
            for (const SheetStep& step : group.steps) {
                std::string text;
                for (const std::string& check : step.checks) text += "First check: " + check + " ";
                text += step.say;
                for (const std::string& amount : step.amounts) text += " " + amount;
                if (!step.mind.empty()) text += " Mind " + joined(step.mind) + ".";
                page_.paragraph("[ ] ", text);
            }
        }
        if (!sheet_.steps_remark.empty()) page_.paragraph("", sheet_.steps_remark);
    }

    void find_out() {
        if (sheet_.find_out.empty()) return;
        heading("Still worth finding out");
        for (const SheetQuestion& question : sheet_.find_out)
            page_.paragraph("- ", question.ask + (question.how.empty() ? "" : " " + question.how));
    }

    const Sheet& sheet_;
    Screen screen_;
    Page page_;
};

}  // namespace

std::string render_handover(const Sheet& sheet, const Screen& screen) { return HandoverPage(sheet, screen).make(); }

}  // namespace lidlift::cli
