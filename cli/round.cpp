#include "cli/round.hpp"

#include "cli/conversation.hpp"
#include "cli/files.hpp"
#include "cli/render_round.hpp"
#include "cli/today.hpp"
#include "engine/round.hpp"
#include "engine/yaml_tree.hpp"

#include <algorithm>
#include <filesystem>
#include <system_error>
#include <utility>
#include <vector>

namespace lidlift::cli {
namespace {

namespace fs = std::filesystem;

/// The YAML files of a folder by name, links to files among them; what a program hides with a dot is none of its tanks.
Outcome<std::vector<fs::path>> files_of(const std::string& folder, int& exit) {
    exit = cannot_read_or_write;
    std::error_code error;
    const auto status = fs::status(folder, error);
    if (!fs::exists(status))
        return Fault{"cannot read the folder '" + folder +
                         "': " + (status.type() == fs::file_type::not_found ? "there is no such folder" : error.message()),
                     0};
    if (!fs::is_directory(status)) {
        exit = unusable_input;
        return Fault{"'" + folder + "' is no folder; lidlift round takes the folder that holds the records of a site's tanks",
                     0};
    }
    std::vector<fs::path> paths;
    for (auto entry = fs::directory_iterator(folder, error); !error && entry != fs::directory_iterator();
         entry.increment(error)) {
        const fs::path& path = entry->path();
        const bool yaml = path.extension() == ".yaml" || path.extension() == ".yml";
        // What cannot be looked at (a link to itself) is listed all the same: reading it says what is wrong.
        std::error_code hidden;
        if (yaml && !path.filename().string().starts_with('.') && !entry->is_directory(hidden)) paths.push_back(path);
    }
    if (error) return Fault{"cannot read the folder '" + folder + "': " + error.message(), 0};
    exit = done;
    std::ranges::sort(paths);
    return paths;
}

bool is_site_file(const fs::path& path) { return path.stem() == "site"; }

/// Everything of a folder, with what was wrong with it printed; `exit` is the gravest of it.
struct Folder {
    Site site;
    std::vector<TankFile> tanks;
    int exit = done;

    void complain(const std::vector<Complaint>& complaints) {
        if (print_complaints(complaints)) exit = std::max<int>(exit, unusable_input);
    }
    void add_site(const std::string& path) {
        const auto text = read_file(path, largest_file);
        if (!text) {
            print_error(text.fault().text);
            exit = cannot_read_or_write;
            return;
        }
        SiteReading reading = read_site(*text, path);
        complain(reading.complaints);
        if (reading.complaints.empty()) site = std::move(reading.site);
    }
    void add_tank(const std::string& path, const RuleBase& rule_base) {
        TankFile& tank = tanks.emplace_back();
        tank.file = path;
        const auto text = read_file(path, largest_file);
        if (!text) {
            print_error(text.fault().text);
            tank.complaints.push_back({{path, 0, 0}, text.fault().text, {}});
            exit = cannot_read_or_write;
            return;
        }
        TankReading reading = read_tank_record(*text, path, rule_base);
        complain(reading.complaints);
        if (reading.complaints.empty())
            tank.record = std::move(reading.record);
        else
            tank.complaints = std::move(reading.complaints);
    }
};

}  // namespace

int round(const Options& options, const RoundOptions& round_options) {
    const auto today = told_day_or_today(round_options.on);
    if (!today) {
        print_error(today.fault().text);
        return unusable_input;
    }
    int exit = done;
    const auto paths = files_of(round_options.folder, exit);
    if (!paths) {
        print_error(paths.fault().text);
        return exit;
    }
    const auto tanks =
        static_cast<std::size_t>(std::ranges::count_if(*paths, [](const fs::path& path) { return !is_site_file(path); }));
    if (tanks == 0 || tanks > most_tanks) {
        print_error(tanks == 0 ? "the folder '" + round_options.folder + "' holds no tank's record, which is a .yaml file"
                               : "the folder '" + round_options.folder + "' holds " + std::to_string(tanks) +
                                     " records; a round takes " + std::to_string(most_tanks) + " at most");
        return unusable_input;
    }
    const Loaded loaded = load_rule_base(options);
    if (!loaded.rule_base) return loaded.exit;
    Folder folder;
    for (const fs::path& path : *paths) {
        if (is_site_file(path))
            folder.add_site(path.string());
        else
            folder.add_tank(path.string(), *loaded.rule_base);
    }
    const Ranker ranker(*loaded.rule_base);
    const Round round = make_round(ranker, std::move(folder.site), std::move(folder.tanks), *today);
    const std::string output =
        options.json ? render_round_json(*loaded.rule_base, round)
                     : render_round(*loaded.rule_base, round, {.full = round_options.full, .screen = screen_of_output()});
    return print(output) ? folder.exit : cannot_read_or_write;
}

}  // namespace lidlift::cli
