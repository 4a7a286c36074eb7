#include "cli/handover_paper.hpp"

#include "cli/page.hpp"
#include "cli/paper.hpp"

#include <algorithm>
#include <numeric>
#include <utility>
#include <vector>

namespace lidlift::cli {
namespace {

// In points: what margins of 10 mm leave of the narrower (A4) and of the shorter (US Letter).
constexpr double paper_width = (210 - 20) * 72 / 25.4;
constexpr double paper_height = (279.4 - 20) * 72 / 25.4;
/// The heights below come out some 5 % higher than Chromium sets them. So much of that is made use of; the rest is kept for
/// other browsers.
constexpr double reckoned_too_high = 1.02;

// In ems, as in handover_style.
constexpr double line_height = 1.22;
constexpr double caution_gap = 1.2;
constexpr double column_gap = 1.6;
/// Bold letters are wider than the plain ones that cli/paper knows.
constexpr double bold = 1.08;

double text_height(std::string_view words, double width) {
    return line_height * static_cast<double>(lines_on_paper(words, width));
}

/// Pieces that are not broken, set into two columns in order and as even as they allow: how high the columns are.
double height_of_two_columns(const std::vector<double>& pieces) {
    const double all = std::accumulate(pieces.begin(), pieces.end(), 0.0);
    double tallest = all;
    double first = 0;
    for (const double piece : pieces) {
        first += piece;
        tallest = std::min(tallest, std::max(first, all - first));
    }
    return tallest;
}

/// The running text in two columns, piece by piece; widths and heights in ems.
class RunningText {
public:
    RunningText(const Sheet& sheet, double width) : sheet_(sheet), width_(width) {}

    [[nodiscard]] double height(bool apart) {
        said();
        list(sheet_.tank_heading, sheet_.tank);
        causes();
        std::vector<std::string> questions;
        for (const SheetQuestion& question : sheet_.find_out) questions.push_back(question.ask + " " + question.how);
        list("Still worth finding out", questions);
        const auto left = static_cast<std::ptrdiff_t>(pieces_.size());
        steps();
        list("Do not", sheet_.do_not);
        list(sheet_.look_again_heading, sheet_.look_again);
        if (!apart) return height_of_two_columns(pieces_);
        return std::max(std::accumulate(pieces_.begin(), pieces_.begin() + left, 0.0),
                        std::accumulate(pieces_.begin() + left, pieces_.end(), 0.0));
    }

private:
    /// A heading goes with what comes after it.
    void heading(std::string_view text) {
        section_gap();
        with_next_ += 0.16 + 1.1 * (0.2 + 0.25 + 1.2 * static_cast<double>(lines_on_paper(text, width_ / (1.1 * bold))));
    }
    void section_gap() {
        if (!pieces_.empty()) pieces_.back() += 0.7;
    }
    void piece(double height) { pieces_.push_back(std::exchange(with_next_, 0) + height); }
    void words(std::string_view text, double indent = 0, double margin = 0) {
        piece(text_height(text, width_ - indent) + margin);
    }
    void bold_words(std::string_view text) { piece(text_height(text, width_ / bold)); }
    void items(const std::vector<std::string>& list) {
        for (const std::string& item : list) words(item, 0.9, 0.12);
    }
    void list(std::string_view name, const std::vector<std::string>& list) {
        if (list.empty()) return;
        heading(name);
        items(list);
    }

    void said() {
        if (sheet_.own_words.empty() && sheet_.answers.empty()) return;
        heading("What was said");
        for (const std::string& own : sheet_.own_words) words(own, 0, 0.25);
        items(sheet_.answers);
    }

    void causes() {
        if (sheet_.causes_heading.empty()) return;
        heading(sheet_.causes_heading);
        if (!sheet_.in_short.empty()) bold_words(sheet_.in_short);
        for (const SheetCause& cause : sheet_.causes) {
            with_next_ += 0.5 + text_height(cause.name, width_ / bold);
            bold_words(cause.chance + ".");
            words(joined(cause.remarks, " "));
            double table = 0.7 + 0.1 + line_height + line_height + 0.4;
            for (const BalancePoints& line : cause.balance) table += text_height(line.text, width_ - 7.4) + 0.3;
            piece(table);
        }
        items(sheet_.other_causes);
        words(sheet_.nothing_listed);
    }

    void steps() {
        if (sheet_.steps.empty() && sheet_.steps_remark.empty()) return;
        heading(sheet_.steps_heading);
        for (const SheetSteps& group : sheet_.steps) {
            with_next_ += 0.5 + line_height;
            for (const SheetStep& step : group.steps) piece(0.25 + height_of(step, width_ - 1.6));
        }
        if (!sheet_.steps_remark.empty()) words(sheet_.steps_remark);
    }

    [[nodiscard]] static double height_of(const SheetStep& step, double width) {
        double all = 0;
        for (const std::string& check : step.checks) all += text_height("First check: " + check, width);
        const std::string mind = " Mind " + joined(step.mind) + ".";
        all += text_height(step.say + (step.mind.empty() ? "" : "  " + mind), width);
        for (const std::string& amount : step.amounts) all += text_height(amount, width - 0.9);
        return all;
    }

    const Sheet& sheet_;
    double width_;
    double with_next_ = 0;
    std::vector<double> pieces_;
};

double height_of_head(const Sheet& sheet, double width) {
    double all = 1.4 * 1.2;
    for (const std::string& line : sheet.standing) all += text_height(line, width);
    for (const std::string& note : sheet.notes) all += text_height(note, width - 1.2);
    return all + (sheet.notes.empty() ? 0 : 0.3);
}

double height_of_cautions(const Sheet& sheet, double width) {
    if (sheet.cautions.empty()) return 0;
    const bool one = sheet.cautions.size() == 1;
    const double inside = (one ? width : (width - caution_gap) / 2) - 2 * 0.5 - 0.5;
    std::vector<double> pieces;
    for (const SheetCaution& caution : sheet.cautions)
        // Its mark, its level and its name are bold.
        pieces.push_back(text_height("WWW CARE  " + caution.name + ". " + caution.say, inside) + 2 * 0.2 + 2 * 0.2 + 0.35);
    return 0.7 + 0.16 + 1.1 * (0.2 + 0.25 + 1.2) + (one ? pieces.front() : height_of_two_columns(pieces));
}

double height_of_foot(const Sheet& sheet, double width) {
    double all = 0.3 + 0.3 + 0.2 + text_height(sheet.closing, width);
    if (!sheet.left_out.empty()) all += text_height(sheet.left_out, width / bold);
    return all;
}

/// All in ems.
double height_of_sheet(const Sheet& sheet, double width, bool apart) {
    double all = height_of_head(sheet, width) + height_of_cautions(sheet, width) + height_of_foot(sheet, width);
    if (sheet.causes_heading.empty() && !sheet.in_short.empty()) all += 0.7 + text_height(sheet.in_short, width / bold);
    return all + 0.5 + 0.7 + RunningText(sheet, (width - column_gap) / 2).height(apart);
}

}  // namespace

double share_of_paper(const Sheet& sheet, const SheetLayout& layout) {
    const double height = height_of_sheet(sheet, paper_width / layout.letters, layout.apart);
    return height * layout.letters / (reckoned_too_high * paper_height);
}

std::optional<SheetLayout> layout_that_fits(const Sheet& sheet) {
    for (const bool apart : {true, false})
        for (const double letters : letter_sizes)
            if (share_of_paper(sheet, {letters, apart}) <= 1) return SheetLayout{letters, apart};
    return std::nullopt;
}

}  // namespace lidlift::cli
