#include "cli/case_files.hpp"

#include "cli/files.hpp"
#include "rules/default_cases.hpp"

#include <algorithm>
#include <iterator>

namespace lidlift::cli {

LoadedCases load_cases(const std::vector<std::string>& paths) {
    if (paths.empty()) {
        LoadedCases shipped{default_cases(), done};
        if (shipped.files.empty()) {
            print_error("say which cases: a file, a folder or -; this program has none inside");
            shipped.exit = unusable_input;
        }
        return shipped;
    }
    LoadedCases loaded;
    for (const std::string& path : paths) {
        auto more = read_rule_files(path);
        if (!more) {
            print_error(more.fault().text);
            return {{}, cannot_read_or_write};
        }
        std::ranges::move(*more, std::back_inserter(loaded.files));
    }
    return loaded;
}

bool reads_input_once(const std::vector<std::string>& words) {
    if (std::ranges::count(words, "-") <= 1) return true;
    print_error("standard input can be read only once, but '-' was said twice");
    return false;
}

}  // namespace lidlift::cli
