#include "cli/compare.hpp"

#include "cli/case_files.hpp"
#include "cli/files.hpp"
#include "cli/render_comparison.hpp"
#include "engine/comparison.hpp"
#include "rules/default_rules.hpp"

#include <algorithm>
#include <filesystem>
#include <iterator>
#include <system_error>
#include <utility>

namespace lidlift::cli {
namespace {

/// "default+site.yaml" is the rules inside the program with a site's own after them; a file whose name holds a '+' is meant
/// where there is one.
std::vector<std::string> parts_of(const std::string& name) {
    std::error_code ignored;
    if (std::filesystem::exists(name, ignored)) return {name};
    std::vector<std::string> parts;
    for (std::size_t begin = 0; begin <= name.size();) {
        const std::size_t plus = std::min(name.find('+', begin), name.size());
        parts.push_back(name.substr(begin, plus - begin));
        begin = plus + 1;
    }
    return parts;
}

struct Side {
    std::vector<RuleText> files;
    std::optional<RuleBase> rule_base;
    int exit = done;
};

/// One of the two rule bases, with what --rules adds to both.
Side load_side(const std::string& name, const std::vector<std::string>& more_rules) {
    Side side;
    // `default` is always the one inside the program; a file of that name is ./default.
    std::vector<std::string> paths = name == "default" ? std::vector<std::string>{name} : parts_of(name);
    paths.insert(paths.end(), more_rules.begin(), more_rules.end());
    for (const std::string& path : paths) {
        auto files = path == "default" ? Outcome<std::vector<RuleText>>(default_rules()) : read_rule_files(path);
        if (!files) {
            print_error(files.fault().text);
            side.exit = cannot_read_or_write;
            return side;
        }
        std::ranges::move(*files, std::back_inserter(side.files));
    }
    Loaded loaded = load_rule_texts(side.files, true);
    side.rule_base = std::move(loaded.rule_base);
    side.exit = loaded.exit;
    return side;
}

}  // namespace

int compare(const Options& options, const CompareOptions& compare_options) {
    if (compare_options.after.empty()) {
        print_error("say two rule bases, the old and the new: lidlift compare default my_rules/ my_cases.yaml");
        return unusable_input;
    }
    if (!options.only_rules.empty()) {
        print_error("compare takes its two rule bases as OLD and NEW, so --only-rules has no place here");
        return unusable_input;
    }
    std::vector<std::string> words = compare_options.cases;
    words.insert(words.end(), {compare_options.before, compare_options.after});
    if (!reads_input_once(words)) return unusable_input;
    const Side before = load_side(compare_options.before, options.rules);
    if (!before.rule_base) return before.exit;
    const Side after = load_side(compare_options.after, options.rules);
    if (!after.rule_base) return after.exit;
    const LoadedCases files = load_cases(compare_options.cases);
    if (files.exit != done) return files.exit;

    Complaints complaints;
    const std::vector<WrittenCase> cases = read_cases(files.files, complaints);
    const Ranker ranker_before(*before.rule_base);
    const Ranker ranker_after(*after.rule_base);
    ComparisonReport report;
    if (complaints.empty()) report.cases = compare_cases(ranker_before, ranker_after, cases, complaints);
    if (print_complaints(complaints.sorted())) return unusable_input;
    if (report.cases.empty()) {
        print_error("the files hold no cases");
        return unusable_input;
    }
    report.entries = entry_changes(before.files, after.files);
    const std::string output = options.json ? render_comparison_json(*before.rule_base, *after.rule_base, report)
                                            : render_comparison(*before.rule_base, *after.rule_base, report);
    if (!print(output)) return cannot_read_or_write;
    return report.got_worse() ? faults_found : done;
}

}  // namespace lidlift::cli
