#include "cli/try_cases.hpp"

#include "cli/case_files.hpp"
#include "cli/files.hpp"
#include "cli/render_junit.hpp"
#include "cli/render_trial.hpp"
#include "engine/cases.hpp"
#include "engine/quantity.hpp"
#include "engine/trial_score.hpp"

#include <deque>
#include <optional>
#include <utility>

namespace lidlift::cli {
namespace {

/// A share in per cent as typed, "85" or "85 %"; false, after saying so, if it is none.
bool read_wanted(const std::string& option, std::string typed, std::optional<double>& share) {
    if (typed.empty()) return true;
    if (typed.ends_with('%')) typed.pop_back();
    while (typed.ends_with(' ')) typed.pop_back();
    share = read_number(typed);
    if (share && *share >= 0 && *share <= 100) return true;
    print_error(option + " takes a share in per cent, from 0 to 100, for instance " + option + " 85");
    return false;
}

/// A report is never written over a file of cases or rules, where somebody forgot its name.
bool is_safe_to_write(const std::string& path) {
    if (!path.ends_with(".yaml") && !path.ends_with(".yml") && path != "-") return true;
    print_error("--junit wants the name of a file to write, such as lidlift.xml; it would not write over '" + path + "'");
    return false;
}

bool ask_enough(const Scores& scores, const WantedShares& wanted) {
    if (scores.all.cases == 0) {
        print_error("the files hold no cases");
        return false;
    }
    if (!wanted.any() || scores.all.asked > 0) return true;
    print_error(
        "no case says which cause is expected, so there is no share of them; leave out --at-least-first and "
        "--at-least-three");
    return false;
}

}  // namespace

int try_cases(const Options& options, const TryOptions& try_options) {
    TrialReport report;
    if (!reads_input_once(try_options.cases) || !is_safe_to_write(try_options.junit) ||
        !read_wanted("--at-least-first", try_options.at_least_first, report.wanted.first) ||
        !read_wanted("--at-least-three", try_options.at_least_three, report.wanted.among_three))
        return unusable_input;
    if (try_options.cases.empty() && !options.only_rules.empty()) {
        print_error("the cases inside the program are for its own rules; with --only-rules say which cases to try");
        return unusable_input;
    }
    const Loaded loaded = load_rule_base(options);
    if (!loaded.rule_base) return loaded.exit;
    const LoadedCases files = load_cases(try_options.cases);
    if (files.exit != done) return files.exit;

    Complaints complaints;
    const std::vector<WrittenCase> cases = read_cases(files.files, complaints);
    CaseResolver resolver(*loaded.rule_base);
    std::vector<Case> resolved;
    for (const WrittenCase& written : cases) resolved.push_back(resolver.resolve(written, complaints));
    if (print_complaints(complaints.sorted())) return unusable_input;

    const Ranker ranker(*loaded.rule_base);
    std::deque<TrialResult> results;
    for (std::size_t i = 0; i < cases.size(); ++i) {
        results.push_back(try_case(ranker, cases[i], resolved[i]));
        report.tried.push_back({&cases[i], &results.back()});
    }
    report.scores = score(report.tried);
    report.coverage = coverage(*loaded.rule_base, report.tried);
    if (!ask_enough(report.scores, report.wanted)) return unusable_input;

    if (!try_options.junit.empty())
        if (const auto fault = write_file(try_options.junit, render_junit(report))) {
            print_error(fault->text);
            return cannot_read_or_write;
        }
    const std::string output = options.json ? render_trial_json(*loaded.rule_base, report)
                                            : render_trial(*loaded.rule_base, report, {.coverage = try_options.coverage});
    if (!print(output)) return cannot_read_or_write;
    return report.good() ? done : faults_found;
}

}  // namespace lidlift::cli
