#include "cli/render_comparison.hpp"

#include "cli/page.hpp"
#include "cli/render_trial.hpp"
#include "cli/verdict_word.hpp"

#include <algorithm>
#include <cmath>

#include <fmt/format.h>

namespace lidlift::cli {
namespace {

std::string first_in_words(const TrialResult& result) {
    if (result.causes.empty()) return "no cause (the answers contradict one another)";
    return result.causes.front().id + " (" + whole_percent(result.causes.front().chance) + ")";
}

std::string place_in_words(std::size_t place) { return place == 0 ? "not among the likely" : "place " + std::to_string(place); }

template <class Result>
Score score_of(const std::vector<ComparedCase>& cases, const Result& result) {
    Score score;
    for (const ComparedCase& compared : cases) score.add({compared.written, &result(compared)});
    return score;
}

class ComparisonPage {
public:
    ComparisonPage(const RuleBase& before, const RuleBase& after, const ComparisonReport& report)
        : before_(before), after_(after), report_(report) {}

    std::string make() {
        page_.heading("TWO RULE BASES COMPARED");
        page_.paragraph("old: ", before_.name + ", version " + before_.version);
        page_.paragraph("new: ", after_.name + ", version " + after_.version);
        entries();
        cases();
        summary();
        return page_.take();
    }

private:
    void entries() {
        page_.heading("ENTRIES");
        if (report_.entries.empty()) page_.paragraph("", "None was added, removed or changed.");
        using How = EntryChange::How;
        for (const auto& [how, word] :
             {std::pair(How::removed, "removed: "), {How::added, "added: "}, {How::changed, "changed: "}}) {
            std::string text;
            std::string section;
            for (const EntryChange& change : report_.entries) {
                if (change.how != how) continue;
                if (change.section != section) {
                    text += (text.empty() ? "" : "; ") + change.section;
                    section = change.section;
                    text += change.id.empty() ? "" : " " + change.id;
                } else {
                    text += ", " + change.id;
                }
            }
            if (!text.empty()) page_.paragraph(word, text + ".");
        }
    }

    void cases() {
        const auto changed = by_importance(before_, report_.cases);
        if (changed.empty()) return;
        page_.heading("CASES, MOST IMPORTANT FIRST");
        int number = 0;
        for (const ComparedCase* compared : changed) one(++number, *compared);
    }

    void one(int number, const ComparedCase& compared) {
        const WrittenCase& written = *compared.written;
        if (number > 1) page_.empty_line();
        page_.paragraph(fmt::format("{:>2}. ", number), written.id + " (" + to_text(written.place) + ")");
        page_.paragraph("    ", written.story);
        if (!compared.cautions_lost.empty()) line("Caution lost: ", cautions(before_, compared.cautions_lost), true);
        if (compared.newly_fails()) {
            line("It passed, and now fails.", "", true);
            for (const std::string& fault : faults_of(compared.after)) page_.paragraph("        ", fault);
        }
        if (compared.newly_passes()) line("It failed, and now passes.");
        if (!compared.newly_fails() && compared.after.advised_against.size() > compared.before.advised_against.size())
            for (const AdvisedAgainst& item : compared.after.advised_against)
                line("Advised, but must never be: ", item.step, true);
        if (compared.first_changed())
            line("First cause: ", first_in_words(compared.before) + " -> " + first_in_words(compared.after));
        if (compared.verdict_changed())
            line("Verdict: ",
                 std::string(verdict_word(compared.before.verdict)) + " -> " + verdict_word(compared.after.verdict));
        if (!compared.cautions_gained.empty()) line("Caution come: ", cautions(after_, compared.cautions_gained));
        if (!compared.steps_gone.empty()) line("Steps gone: ", joined(compared.steps_gone));
        if (!compared.steps_come.empty()) line("Steps come: ", joined(compared.steps_come));
        for (const Moved& moved : compared.moved)
            line(moved.cause + ": ", place_in_words(moved.before) + " (" + whole_percent(moved.chance_before) + ") -> " +
                                         place_in_words(moved.after) + " (" + whole_percent(moved.chance_after) + ")");
        unread("old", compared.unread_before);
        unread("new", compared.unread_after);
        if (!compared.not_compared.empty()) line("Compared on what both know, without: ", joined(compared.not_compared) + ".");
    }

    void line(const std::string& what, const std::string& text = {}, bool grave = false) {
        page_.paragraph(grave ? "  ! " : "    ", what + text);
    }

    void unread(const std::string& which, const std::vector<Complaint>& complaints) {
        for (const Complaint& complaint : complaints) line("The " + which + " rule base cannot read: ", to_text(complaint));
    }

    static std::string cautions(const RuleBase& base, const std::vector<std::string>& ids) {
        std::string text;
        for (const std::string& id : ids) {
            const auto caution = base.cautions.find(id);
            text += (text.empty() ? "" : ", ") + id +
                    (caution ? " (" + std::string(to_word(base.cautions[*caution].level)) + ", " +
                                   base.cautions[*caution].name + ")"
                             : "");
        }
        return text;
    }

    void summary() {
        const Score before = report_.score_before();
        const Score after = report_.score_after();
        page_.heading("ALTOGETHER");
        page_.paragraph("", fmt::format("{} {}, {} of them unchanged.", report_.cases.size(),
                                        report_.cases.size() == 1 ? "case" : "cases", report_.unchanged()));
        if (before.asked > 0)
            page_.paragraph("",
                            fmt::format("First place right in {} of {} before, in {} now; the expected cause among the first "
                                        "three in {} before, in {} now.",
                                        before.first, before.asked, after.first, before.among_three, after.among_three));
        page_.paragraph("", fmt::format("{} passed before, {} now.", before.cases - before.failed, after.cases - after.failed));
        std::size_t fails = 0;
        std::size_t lost = 0;
        for (const ComparedCase& compared : report_.cases) {
            fails += compared.newly_fails() ? 1 : 0;
            lost += compared.cautions_lost.empty() ? 0 : 1;
        }
        page_.paragraph("", report_.got_worse() ? fmt::format("Worse: {} newly {}, a caution was lost in {}.", fails,
                                                              fails == 1 ? "fails" : "fail", lost)
                                                : "Nothing got worse.");
    }

    const RuleBase& before_;
    const RuleBase& after_;
    const ComparisonReport& report_;
    Page page_;
};

}  // namespace

bool ComparisonReport::got_worse() const { return std::ranges::any_of(cases, &ComparedCase::worse); }

std::size_t ComparisonReport::unchanged() const {
    return static_cast<std::size_t>(std::ranges::count_if(cases, [](const ComparedCase& c) { return !c.changed(); }));
}

Score ComparisonReport::score_before() const {
    return score_of(cases, [](const ComparedCase& c) -> const TrialResult& { return c.before; });
}
Score ComparisonReport::score_after() const {
    return score_of(cases, [](const ComparedCase& c) -> const TrialResult& { return c.after; });
}

std::string render_comparison(const RuleBase& before, const RuleBase& after, const ComparisonReport& report) {
    return ComparisonPage(before, after, report).make();
}

}  // namespace lidlift::cli
