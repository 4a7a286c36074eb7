#include "cli/learn.hpp"

#include "cli/case_files.hpp"
#include "cli/files.hpp"
#include "cli/render_learnt.hpp"
#include "engine/call_record_reader.hpp"
#include "engine/closed_calls.hpp"
#include "engine/comparison.hpp"
#include "engine/yaml_tree.hpp"
#include "rules/default_cases.hpp"

#include <algorithm>
#include <cstdio>

namespace lidlift::cli {
namespace {

/// Reads every record; `exit` is not `done` when one cannot be used, after the reasons were printed.
struct Reading {
    std::vector<ClosedCall> calls;
    CallsRead read;
    int exit = done;
};

void read_one(const std::string& path, const RuleBase& rule_base, Reading& reading) {
    const auto text = read_file(path, largest_file);
    if (!text) {
        print_error(text.fault().text);
        reading.exit = cannot_read_or_write;
        return;
    }
    Complaints complaints;
    const CallRecord record = read_call(*text, path, complaints);
    if (print_complaints(complaints.sorted())) {
        ++reading.read.unusable;
        if (reading.exit == done) reading.exit = unusable_input;
        return;
    }
    ClosedReading closed = closed_call(record, rule_base);
    ++reading.read.files;
    if (record.version != rule_base.version || record.rule_base != rule_base.name) ++reading.read.other_version;
    if (closed.call) {
        reading.calls.push_back(std::move(*closed.call));
        for (std::string& misfit : closed.misfits) reading.read.misfits.push_back(path + ": " + std::move(misfit));
    } else {
        reading.read.not_closed.push_back(path + ": " + closed.why_not);
    }
}

Reading read_calls(const std::vector<std::string>& folders, const RuleBase& rule_base) {
    Reading reading;
    for (const std::string& folder : folders) {
        const auto paths = yaml_files(folder, most_calls);
        if (!paths) {
            print_error(paths.fault().text);
            reading.exit = cannot_read_or_write;
            continue;
        }
        for (const std::string& path : *paths) read_one(path, rule_base, reading);
    }
    return reading;
}

/// What the proposals would change among the recorded cases that ship; nothing where nothing is proposed.
std::vector<std::string> cases_that_would_change(const RuleBase& now, const Learnt& learnt) {
    std::vector<std::string> result;
    const bool proposes = std::ranges::any_of(learnt.links, [](const auto& link) { return !link.proposed.empty(); }) ||
                          std::ranges::any_of(learnt.causes, [](const auto& cause) { return !cause.proposed.empty(); });
    if (!proposes) return result;
    const RuleBase then = with_proposals(now, learnt);
    Complaints complaints;
    const auto cases = read_cases(default_cases(), complaints);
    const auto compared = compare_cases(Ranker(now), Ranker(then), cases, complaints);
    for (const ComparedCase* one : by_importance(now, compared))
        if (one->first_changed() || one->newly_fails() || one->newly_passes())
            result.push_back(one->written->id + (one->newly_fails()    ? ": would no longer come out as recorded"
                                                 : one->newly_passes() ? ": would come out as recorded"
                                                                       : ": another cause would stand first"));
    return result;
}

}  // namespace

int learn(const Options& options, const LearnOptions& learn_options) {
    const Loaded loaded = load_rule_base(options);
    if (!loaded.rule_base) return loaded.exit;
    if (learn_options.folders.empty()) {
        print_error("say a folder of call records, for instance: lidlift learn calls");
        return unusable_input;
    }
    const Reading reading = read_calls(learn_options.folders, *loaded.rule_base);
    if (reading.exit == cannot_read_or_write) return reading.exit;
    LearntPage page;
    page.learnt = learn_from(*loaded.rule_base, reading.calls);
    page.read = reading.read;
    page.would_change = cases_that_would_change(*loaded.rule_base, page.learnt);
    const std::string output =
        options.json ? render_learnt_json(*loaded.rule_base, page) : render_learnt(*loaded.rule_base, page, learn_options.full);
    if (!print(output)) return cannot_read_or_write;
    return reading.exit;
}

}  // namespace lidlift::cli
