#include "cli/session.hpp"

#include "cli/files.hpp"
#include "engine/plain_text.hpp"
#include "engine/rule_base_reader.hpp"
#include "rules/default_rules.hpp"

#include <algorithm>
#include <cstdio>
#include <iterator>
#include <utility>

namespace lidlift::cli {
namespace {

Loaded loaded(RuleBaseReading reading, bool silent) {
    if (print_complaints(reading.complaints)) return {std::nullopt, unusable_input};
    if (!silent)
        for (const std::string& change : reading.rule_base.changes) print_error(change);
    return {std::move(reading.rule_base), done};
}

}  // namespace

Read read_rules(const Options& options) {
    std::vector<RuleText> files;
    const std::vector<std::string>* paths = &options.only_rules;
    if (options.only_rules.empty()) {
        files = default_rules();
        paths = &options.rules;
    }
    for (const std::string& path : *paths) {
        auto more = read_rule_files(path);
        if (!more) {
            print_error(more.fault().text);
            return {std::nullopt, cannot_read_or_write};
        }
        std::ranges::move(*more, std::back_inserter(files));
    }
    return {read_rule_base(files), done};
}

Loaded load_rule_base(const Options& options, Extent extent) {
    if (options.rules.empty() && options.only_rules.empty()) {
        Outcome<RuleBase> ready = default_rule_base(extent);
        if (ready) return {*std::move(ready), done};
        print_error(ready.fault().text);
        return {std::nullopt, cannot_read_or_write};
    }
    Read read = read_rules(options);
    if (!read.reading) return {std::nullopt, read.exit};
    return loaded(std::move(*read.reading), false);
}

Loaded load_rule_texts(const std::vector<RuleText>& files, bool silent) { return loaded(read_rule_base(files), silent); }

void print_error(const std::string& text) {
    const std::string safe = "lidlift: " + for_terminal(text) + "\n";
    std::fwrite(safe.data(), 1, safe.size(), stderr);
}

bool print_complaints(const std::vector<Complaint>& complaints) {
    for (const Complaint& complaint : complaints) print_error(to_text(complaint));
    return !complaints.empty();
}

bool print(const std::string& text) {
    const bool written = std::fwrite(text.data(), 1, text.size(), stdout) == text.size() && std::fflush(stdout) == 0;
    if (!written) print_error("cannot write to standard output");
    return written;
}

}  // namespace lidlift::cli
