#include "cli/render_trial.hpp"

#include "cli/balance_lines.hpp"
#include "cli/page.hpp"
#include "engine/words.hpp"

#include <algorithm>
#include <cmath>
#include <map>

#include <fmt/format.h>

namespace lidlift::cli {
namespace {

/// A share that has not quite reached a hundred, or quite fallen to nothing, is not rounded to it.
std::string share_of(std::size_t part, std::size_t whole) {
    if (whole == 0) return "-";
    double share = 100.0 * static_cast<double>(part) / static_cast<double>(whole);
    if (part < whole) share = std::min(share, 99.0);
    if (part > 0) share = std::max(share, 1.0);
    return fmt::format("{:.0f} %", share);
}

/// "moisture" of "rules/cases/moisture.yaml".
std::string stem(const std::string& file) {
    std::string name = file.substr(file.find_last_of('/') + 1);
    if (name.ends_with(".yaml")) name.resize(name.size() - 5);
    return name;
}

bool reaches(std::size_t part, std::size_t whole, double percents) {
    return 100.0 * static_cast<double>(part) >= percents * static_cast<double>(whole);
}

class TrialPage {
public:
    TrialPage(const RuleBase& base, const TrialReport& report, const TrialTextOptions& options)
        : base_(base), report_(report), scores_(report.scores), options_(options) {}

    std::string make() {
        in_short();
        table();
        list_misses();
        covered();
        return page_.take();
    }

private:
    void in_short() {
        const Score& all = scores_.all;
        page_.heading("CASES TRIED");
        page_.paragraph("", base_.name + ", version " + base_.version + ".");
        if (all.failed == 0)
            page_.paragraph("", all.cases == 1 ? "The one case came out as it should."
                                               : fmt::format("All {} cases came out as they should.", all.cases));
        else
            page_.paragraph("", fmt::format("{} of {} {} did not come out as they should.", all.failed, all.cases,
                                            all.cases == 1 ? "case" : "cases"));
        wanted("The first place is right", all.first, report_.wanted.first);
        wanted("The expected cause is among the first three", all.among_three, report_.wanted.among_three);
    }

    void wanted(const std::string& what, std::size_t part, const std::optional<double>& percents) {
        if (!percents) return;
        const bool enough = reaches(part, scores_.all.asked, *percents);
        page_.paragraph(
            "", fmt::format("{} in {} of {} cases that ask ({}); at least {:g} % is wanted: {}.", what, part, scores_.all.asked,
                            share_of(part, scores_.all.asked), *percents, enough ? "enough" : "too few"));
    }

    void table() {
        page_.empty_line();
        page_.columns("", " ", row("cases", "first right", "first three", "against", "unsaid", "undone"));
        row("all", scores_.all);
        page_.paragraph("", "written from");
        for (const NamedScore& origin : scores_.by_origin) row("  " + origin.name, origin.score);
        page_.paragraph("", "file");
        std::map<std::string, int> times;
        for (const NamedScore& file : scores_.by_file) ++times[stem(file.name)];
        for (const NamedScore& file : scores_.by_file)
            row("  " + (times[stem(file.name)] == 1 ? stem(file.name) : file.name), file.score);
        page_.empty_line();
        if (scores_.all.acceptable > 0)
            page_.paragraph(
                "", fmt::format("first right: {} of them only acceptable, not the expected cause.", scores_.all.acceptable));
        page_.paragraph("",
                        "against: a step was shown that must never be. unsaid: a caution was not read out. undone: a step "
                        "was not shown. Each counts cases.");
    }

    static std::string row(const std::string& cases, const std::string& first, const std::string& three,
                           const std::string& against, const std::string& unsaid, const std::string& undone) {
        return fmt::format("{:>5} {:>13} {:>13} {:>7} {:>6} {:>6}", cases, first, three, against, unsaid, undone);
    }

    void row(const std::string& name, const Score& score) {
        const auto share = [&](std::size_t part) {
            return score.asked == 0 ? std::string("-")
                                    : fmt::format("{}/{} {:>5}", part, score.asked, share_of(part, score.asked));
        };
        const std::size_t indent = std::min(name.find_first_not_of(' '), name.size());
        page_.columns(name.substr(0, indent), name.substr(indent),
                      row(std::to_string(score.cases), share(score.first), share(score.among_three),
                          std::to_string(score.advised_against), std::to_string(score.cautions_missing),
                          std::to_string(score.steps_missing)));
    }

    void list_misses() {
        const std::vector<Tried> missed = misses(report_.tried);
        if (missed.empty()) return;
        page_.heading("WHAT WENT WRONG, WORST FIRST");
        int number = 0;
        for (const Tried& tried : missed) miss(++number, *tried.written, *tried.result);
    }

    void miss(int number, const WrittenCase& written, const TrialResult& result) {
        if (number > 1) page_.empty_line();
        page_.paragraph(fmt::format("{:>2}. ", number), written.id + " (" + to_text(written.place) + ")");
        page_.paragraph("    ", written.story);
        page_.paragraph("    ", "Told: " + (result.told.empty() ? "nothing that could be used" : joined(result.told, " ")));
        if (!written.words.empty()) page_.paragraph("    ", "In words: \"" + written.words + "\"");
        for (const std::string& words : result.not_understood) page_.paragraph("    ", "Not understood: \"" + words + "\"");
        for (const std::string& fault : faults_of(result)) page_.paragraph("  ! ", fault);
        if (result.first == First::wrong && !result.contrast.empty()) contrast(result);
    }

    void contrast(const TrialResult& result) {
        const bool both = result.place > 0 && !result.expected.empty();
        std::vector<BalanceLine> expected;
        std::vector<BalanceLine> winner;
        for (const ContrastLine& line : result.contrast) {
            expected.push_back({.text = line.text, .decibans = line.expected, .sign = {}, .sources = {}});
            winner.push_back({.text = line.text, .decibans = line.winner, .sign = {}, .sources = {}});
        }
        const std::vector<int> of_expected = whole_points(expected);
        const std::vector<int> of_winner = whole_points(winner);
        const auto columns = [&](const std::string& left, const std::string& second, const std::string& third) {
            page_.columns("      ", left, both ? fmt::format("{:>8} {:>8}", second, third) : fmt::format("{:>8}", third));
        };
        columns("What makes the difference, in points", "expected", "winner");
        int sum_expected = 0;
        int sum_winner = 0;
        for (std::size_t i = 0; i < result.contrast.size(); ++i) {
            sum_expected += of_expected[i];
            sum_winner += of_winner[i];
            if ((both && of_expected[i] != 0) || of_winner[i] != 0)
                columns(result.contrast[i].text, fmt::format("{:+d}", of_expected[i]), fmt::format("{:+d}", of_winner[i]));
        }
        columns("together", fmt::format("{:+d}", sum_expected), fmt::format("{:+d}", sum_winner));
    }

    void covered() {
        const Coverage& c = report_.coverage;
        page_.heading("WHAT THE CASES LEAVE UNTRIED");
        if (c.causes_without.empty() && c.causes_with_one.empty())
            page_.paragraph("", fmt::format("Each of the {} causes is expected by two cases or more.", c.causes));
        untried("causes that no case expects", c.causes_without, c.causes);
        untried("causes that only one case expects", c.causes_with_one, c.causes);
        if (c.cautions_not_heard.empty())
            page_.paragraph("", fmt::format("Each of the {} cautions is read out in a case.", c.cautions));
        untried("cautions that are read out in no case", c.cautions_not_heard, c.cautions);
        const bool anything = !c.causes_without.empty() || !c.causes_with_one.empty() || !c.cautions_not_heard.empty();
        if (anything && !options_.coverage) page_.paragraph("", "--coverage names them.");
    }

    void untried(const std::string& what, const std::vector<std::string>& ids, std::size_t of) {
        if (ids.empty()) return;
        page_.paragraph("",
                        fmt::format("{} of {} {}", ids.size(), of, what) + (options_.coverage ? ": " + joined(ids) : "") + ".");
    }

    const RuleBase& base_;
    const TrialReport& report_;
    const Scores& scores_;
    TrialTextOptions options_;
    Page page_;
};

std::string first_fault(const TrialResult& result) {
    const std::string winner = result.causes.empty()
                                   ? std::string("no cause at all, since the answers contradict one another")
                                   : result.causes.front().id + " (" + whole_percent(result.causes.front().chance) + ")";
    const std::string expected = result.expected.empty() ? std::string("nothing listed") : result.expected;
    if (result.place == 0)
        return "Expected first: " + expected + ", which was ruled out by what was told or is not in the rule base. First is " +
               winner + ".";
    return fmt::format("Expected first: {}, which has place {} ({}). First is {}.", expected, result.place,
                       whole_percent(result.expected_chance), winner);
}

}  // namespace

bool TrialReport::good() const {
    const Score& all = scores.all;
    if (all.advised_against > 0 || all.cautions_missing > 0) return false;
    if (!wanted.any()) return all.failed == 0;
    return reaches(all.first, all.asked, wanted.first.value_or(0)) &&
           reaches(all.among_three, all.asked, wanted.among_three.value_or(0));
}

std::vector<std::string> faults_of(const TrialResult& result) {
    std::vector<std::string> faults;
    for (const AdvisedAgainst& item : result.advised_against)
        faults.push_back("Advised, but must never be: " + item.step +
                         (item.step == item.never ? "" : " (it is '" + item.never + "')") + ".");
    if (!result.not_said.empty()) faults.push_back("Not read out, but must be: " + joined(result.not_said) + ".");
    if (result.first == First::wrong) faults.push_back(first_fault(result));
    if (!result.not_advised.empty()) faults.push_back("Not advised, but must be: " + joined(result.not_advised) + ".");
    return faults;
}

std::string render_trial(const RuleBase& rule_base, const TrialReport& report, const TrialTextOptions& options) {
    return TrialPage(rule_base, report, options).make();
}

}  // namespace lidlift::cli
