#include "cli/log.hpp"

#include "cli/record_file.hpp"
#include "cli/render_log.hpp"
#include "cli/today.hpp"
#include "engine/entry_words.hpp"
#include "engine/tank_log.hpp"
#include "engine/tank_record.hpp"
#include "engine/yaml_text.hpp"

#include <algorithm>
#include <array>
#include <csignal>
#include <iterator>
#include <optional>
#include <string_view>
#include <utility>

namespace lidlift::cli {
namespace {

constexpr double usual_wait = 10;     ///< seconds
constexpr double longest_wait = 600;  ///< seconds
constexpr int most_attempts = 20;     ///< while another program keeps changing the record

/// What came of it: nothing more to do but to end with `exit`, or a report.
struct Result {
    int exit = done;
    std::optional<LogReport> report;
};

Result ended(int exit, const std::string& text) {
    print_error(text);
    return {exit, std::nullopt};
}

/// Complaints about a text that is not on the disk: without their places.
Result refused(const std::vector<Complaint>& complaints, const std::string& tank) {
    for (const Complaint& complaint : complaints) print_error(to_text(Complaint{{}, complaint.text, complaint.hint}));
    return ended(unusable_input, "nothing was written to '" + tank + "'");
}

class Logger {
public:
    Logger(const RuleBase& rule_base, const LogOptions& options, Day on) : rule_base_(rule_base), options_(options), on_(on) {}

    Result add_to(RecordFile& file) {
        for (int attempt = 0; attempt < most_attempts; ++attempt) {
            const auto text = file.read(largest_file);
            if (!text) return ended(cannot_read_or_write, text.fault().text);
            const WholeReading before = read(*text);
            if (print_complaints(before.complaints))
                return ended(unusable_input,
                             "nothing was written to '" + options_.tank + "', since its record cannot be read; mend it first");
            Result result = with_entry_of(*text, before.tree, before.record);
            if (!result.report) return result;
            const auto written = file.replace(result.report->logged.text);
            if (!written) return ended(cannot_read_or_write, written.fault().text);
            if (*written) return result;
        }
        return ended(cannot_read_or_write, "another program keeps changing '" + options_.tank + "'; nothing was written");
    }

    Result begin(RecordFile& file) {
        if (file.exists())
            return ended(unusable_input, "'" + options_.tank + "' is there already; leave out --new to add to it");
        const auto head = heading();
        if (!head) return ended(unusable_input, head.fault().text);
        const std::string text = new_record(*head);
        const WholeReading reading = read(text);
        if (!reading.complaints.empty()) return refused(reading.complaints, options_.tank);
        Result result;
        const bool has_entry = !options_.words.empty() || !options_.note.empty();
        if (has_entry) {
            result = with_entry_of(text, reading.tree, reading.record);
            if (!result.report) return result;
        } else {
            result.report = LogReport{options_.tank, reading.record.name, true, false, {text, {}, 0, reading.tree}};
        }
        result.report->begun = true;
        if (const auto fault = file.create(result.report->logged.text)) return ended(cannot_read_or_write, fault->text);
        return result;
    }

private:
    struct WholeReading {
        YamlNode tree;
        TankRecord record;
        std::vector<Complaint> complaints;
    };
    [[nodiscard]] WholeReading read(const std::string& text) const {
        WholeReading result;
        Complaints of_yaml;
        result.tree = read_yaml(text, options_.tank, of_yaml);
        // Of a text that is no sound YAML the tree is not whole, and all its mistakes are told together.
        TankReading reading =
            of_yaml.empty() ? read_tank_record(result.tree, rule_base_) : read_tank_record(text, options_.tank, rule_base_);
        result.record = std::move(reading.record);
        result.complaints = std::move(reading.complaints);
        return result;
    }

    /// The record with the entry in it, not yet on the disk.
    Result with_entry_of(const std::string& text, const YamlNode& tree, const TankRecord& record) {
        auto contents = entry_from_words(options_.words, record.vessels, rule_base_);
        if (!contents) return ended(unusable_input, contents.fault().text);
        YamlNode entry = yaml_map();
        add_key(entry, "on", yaml_text(to_text(on_)));
        if (!options_.bay.empty()) add_key(entry, "bay", yaml_text(bay_as_recorded(record)));
        std::ranges::move(contents->entries, std::back_inserter(entry.entries));
        if (!options_.note.empty()) add_key(entry, "note", yaml_text(options_.note));

        auto logged = with_entry(text, tree, options_.tank, entry);
        if (!logged) return ended(unusable_input, logged.fault().text);
        const TankReading reading = read_tank_record(logged->tree, rule_base_);
        if (!reading.complaints.empty()) return refused(reading.complaints, options_.tank);
        Result result;
        result.report = LogReport{options_.tank, record.name, false, true, std::move(*logged)};
        return result;
    }

    [[nodiscard]] std::string bay_as_recorded(const TankRecord& record) const {
        for (const RecordedBay& bay : record.bays)
            if (bay_key(bay.name) == bay_key(options_.bay)) return bay.name;
        return options_.bay;
    }

    /// The keys of a new record.
    [[nodiscard]] Outcome<YamlNode> heading() const {
        YamlNode head = yaml_map();
        add_key(head, "tank", yaml_text(options_.name.empty() ? stem() : options_.name));
        if (!options_.inside.empty()) {
            auto inside = read_inside();
            if (!inside) return inside.fault();
            add_key(head, "inside", std::move(*inside));
        }
        if (!options_.bays.empty()) {
            YamlNode bays = yaml_list();
            for (std::string& name : parts(options_.bays, ",")) bays.items.push_back(yaml_text(std::move(name)));
            add_key(head, "bays", std::move(bays));
        }
        const auto add = [&](const char* key, const std::string& value) {
            if (!value.empty()) add_key(head, key, yaml_text(value));
        };
        add("dividing wall", options_.wall);
        add("worms", options_.worms);
        add("bucket", options_.bucket);
        add("barrow", options_.barrow);
        return head;
    }

    /// The file's name without folder and ending.
    [[nodiscard]] std::string stem() const {
        std::string name = options_.tank.substr(options_.tank.find_last_of('/') + 1);
        if (const auto point = name.find_last_of('.'); point != std::string::npos && point > 0) name.resize(point);
        return name;
    }

    static std::vector<std::string> parts(std::string text, std::string_view separator) {
        std::vector<std::string> result;
        text += separator;
        for (std::size_t begin = 0; begin < text.size();) {
            const std::size_t end = text.find(separator, begin);
            std::string part = text.substr(begin, end - begin);
            part.erase(0, std::min(part.find_first_not_of(' '), part.size()));
            part.erase(part.find_last_not_of(' ') + 1);
            result.push_back(std::move(part));
            begin = end + separator.size();
        }
        return result;
    }

    /// "10 ft x 6 ft x 2.5 ft"; a unit that stands at the end only holds for all three.
    [[nodiscard]] Outcome<YamlNode> read_inside() const {
        std::string text = options_.inside;
        for (const std::string_view by : {"×", " by ", "X"})
            for (std::size_t at = text.find(by); at != std::string::npos; at = text.find(by, at))
                text.replace(at, by.size(), "x");
        std::vector<std::string> sides = parts(text, "x");
        const auto unit = sides.back().find_first_not_of("0123456789. ");
        if (sides.size() != 3)
            return Fault{"--inside is length, width and height, for instance \"10 ft x 6 ft x 2.5 ft\"; '" + options_.inside +
                             "' is not",
                         0};
        YamlNode inside = yaml_map();
        constexpr std::array<const char*, 3> names = {"length", "width", "height"};
        for (std::size_t i = 0; i < sides.size(); ++i) {
            const bool bare = sides[i].find_first_not_of("0123456789. ") == std::string::npos;
            if (bare && unit != std::string::npos) sides[i] += " " + sides.back().substr(unit);
            add_key(inside, names[i], yaml_text(sides[i]));
        }
        return inside;
    }

    const RuleBase& rule_base_;
    const LogOptions& options_;
    Day on_;
};

/// What can be seen without the record.
std::optional<std::string> wrong_with(const LogOptions& options) {
    if (options.tank.empty()) return "say which record, for instance: lidlift log --tank tank3.yaml did \"turned it\"";
    if (options.tank == "-") return "a record is a file, and not standard input";
    if (options.begin) return std::nullopt;
    if (options.words.empty() && options.note.empty())
        return "say what happened, for instance: added 3 buckets kitchen_waste; lidlift log --help shows more";
    const std::array<std::pair<const char*, const std::string*>, 7> of_new = {{{"--name", &options.name},
                                                                               {"--inside", &options.inside},
                                                                               {"--bays", &options.bays},
                                                                               {"--wall", &options.wall},
                                                                               {"--worms", &options.worms},
                                                                               {"--bucket", &options.bucket},
                                                                               {"--barrow", &options.barrow}}};
    for (const auto& [option, value] : of_new)
        if (!value->empty())
            return std::string(option) + " goes with --new; change what the record says of the tank in the file itself";
    return std::nullopt;
}

}  // namespace

int log(const Options& options, const LogOptions& log_options) {
    const auto stop = [](int exit, const std::string& text) {
        print_error(text);
        return exit;
    };
    if (const auto wrong = wrong_with(log_options)) return stop(unusable_input, *wrong);
    const auto on = told_day_or_today(log_options.on);
    if (!on) return stop(unusable_input, on.fault().text);
    double wait = usual_wait;
    if (!log_options.wait.empty()) {
        const auto seconds = read_number(log_options.wait);
        if (!seconds || *seconds < 0 || *seconds > longest_wait)
            return stop(unusable_input, "--wait takes seconds, 0 to 600, and not '" + log_options.wait + "'");
        wait = *seconds;
    }
    const Loaded loaded = load_rule_base(options);
    if (!loaded.rule_base) return loaded.exit;

    // A file that may not grow further is then an error of writing like any other, and does not end the program.
    (void)std::signal(SIGXFSZ, SIG_IGN);
    auto file = RecordFile::open(log_options.tank, std::chrono::milliseconds(static_cast<long>(wait * 1000)));
    if (!file) return stop(cannot_read_or_write, file.fault().text);
    if (!log_options.begin && !file->exists())
        return stop(cannot_read_or_write, "cannot read '" + log_options.tank +
                                              "': there is no such file; --new begins a record for a tank that has none");
    Logger logger(*loaded.rule_base, log_options, *on);
    const Result result = log_options.begin ? logger.begin(*file) : logger.add_to(*file);
    if (!result.report) return result.exit;

    if (const auto today = told_day_or_today({}); today && *on > *today)
        print_error("note: " + to_text(*on) + " has not come yet by this computer's clock");
    if (print(options.json ? render_log_json(*result.report) : render_log(*result.report))) return done;
    print_error("but the entry is in '" + log_options.tank + "'; do not log it again");
    return cannot_read_or_write;
}

}  // namespace lidlift::cli
