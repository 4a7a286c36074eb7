#include "cli/tank_file.hpp"

#include "cli/files.hpp"
#include "cli/today.hpp"
#include "engine/nearest_name.hpp"
#include "engine/yaml_tree.hpp"

#include <utility>

namespace lidlift::cli {
namespace {

std::optional<std::size_t> find_bay(const TankRecord& record, const std::string& name) {
    for (std::size_t i = 0; i < record.bays.size(); ++i)
        if (bay_key(record.bays[i].name) == bay_key(name)) return i;
    return std::nullopt;
}

std::string no_such_bay(const TankRecord& record, const std::string& name) {
    std::vector<std::string> names;
    std::string list;
    for (const RecordedBay& bay : record.bays) {
        names.push_back(bay.name);
        list += (list.empty() ? "" : ", ") + bay.name;
    }
    const std::string hint = did_you_mean(name, names);
    return "the record has no bay '" + name + "' (" + (hint.empty() ? "it has: " + list : hint) + ")";
}

}  // namespace

LoadedTank load_tank(const std::string& path, const std::string& bay, const std::string& on, const RuleBase& rule_base) {
    LoadedTank tank;
    const auto refuse = [&](const std::string& reason, int exit) {
        print_error(reason);
        tank.exit = exit;
    };
    const auto today = told_day_or_today(on);
    if (!today) {
        refuse(today.fault().text, unusable_input);
        return tank;
    }
    tank.today = *today;
    const auto text = read_file(path, largest_file);
    if (!text) {
        refuse(text.fault().text, cannot_read_or_write);
        return tank;
    }
    TankReading reading = read_tank_record(*text, path == "-" ? "standard input" : path, rule_base);
    for (const Complaint& complaint : reading.complaints) refuse(to_text(complaint), unusable_input);
    if (!reading.complaints.empty()) return tank;
    if (!bay.empty()) {
        tank.bay = find_bay(reading.record, bay);
        if (!tank.bay) {
            refuse(no_such_bay(reading.record, bay), unusable_input);
            return tank;
        }
    }
    tank.record = std::move(reading.record);
    return tank;
}

}  // namespace lidlift::cli
