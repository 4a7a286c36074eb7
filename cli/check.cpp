#include "cli/check.hpp"

#include "cli/render_check.hpp"
#include "cli/render_sarif.hpp"
#include "engine/nearest_name.hpp"
#include "engine/review/review.hpp"

#include <algorithm>
#include <utility>

namespace lidlift::cli {

int check(const Options& options, const CheckOptions& check_options) {
    static const std::vector<std::string> formats = {"text", "json", "sarif"};
    const std::string format = !check_options.format.empty() ? check_options.format : options.json ? "json" : "text";
    if (std::ranges::find(formats, format) == formats.end()) {
        const std::string hint = did_you_mean(format, formats);
        print_error("--format takes text, json or sarif, not '" + format + "'" + (hint.empty() ? "" : " (" + hint + ")"));
        return unusable_input;
    }
    if (options.json && format != "json") {
        print_error("--json and --format " + format + " exclude each other");
        return unusable_input;
    }

    // The files to be checked come after the default rules, or after those that stand in their place.
    Options all = options;
    auto& list = options.only_rules.empty() ? all.rules : all.only_rules;
    list.insert(list.begin() + (options.only_rules.empty() ? 0 : static_cast<std::ptrdiff_t>(list.size())),
                check_options.rules.begin(), check_options.rules.end());
    Read read = read_rules(all);
    if (!read.reading) return read.exit;

    Checked checked;
    checked.readable = read.reading->complaints.empty();
    checked.name = read.reading->rule_base.name;
    checked.version = read.reading->rule_base.version;
    if (checked.readable) {
        for (const std::string& change : read.reading->rule_base.changes) print_error(change);
        checked.findings = review(read.reading->rule_base);
    } else {
        checked.findings = review_of_complaints(read.reading->complaints);
    }
    const std::string page = format == "sarif"  ? render_check_sarif(checked)
                             : format == "json" ? render_check_json(checked)
                                                : render_check_text(checked, check_options.full);
    if (!print(page)) return cannot_read_or_write;
    const Counts counts = count(checked.findings);
    return counts.faults > 0 || (check_options.strict && counts.advice > 0) ? faults_found : done;
}

}  // namespace lidlift::cli
