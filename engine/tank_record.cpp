#include "engine/tank_record.hpp"

#include "engine/plain_text.hpp"
#include "engine/reader/entry.hpp"
#include "engine/reader/tank_entries.hpp"

#include <algorithm>
#include <utility>

namespace lidlift {
namespace {

using reader::Bounds;
using reader::Entry;
using reader::Need;
using reader::read_measured;

constexpr Bounds sides{0.1, 100};   ///< m, length and width of the inside
constexpr Bounds heights{0.05, 5};  ///< m
constexpr const char* only_bay = "bed";

class RecordReader {
public:
    RecordReader(const RuleBase& rule_base, Complaints& complaints) : rule_base_(rule_base), complaints_(complaints) {}

    TankRecord read(const YamlNode& tree) {
        Entry tank(tree, "a tank's record", complaints_);
        record_.name = tank.text("tank", Need::required);
        record_.species = tank.text("worms");
        (void)tank.text("note");
        if (const YamlNode* inside = tank.node("inside")) read_inside(*inside);
        read_bays(tank);
        static const std::vector<std::string> openings = {"open", "closed"};
        if (const auto wall = tank.word("dividing wall", openings)) {
            record_.wall_openings = *wall == 0;
            if (record_.bays.size() == 1)
                complaints_.add(tank.node("dividing wall")->place, "a tank of one bay has no dividing wall",
                                "name its bays: 'bays: [left, right]'");
        }
        for (const char* name : {"bucket", "barrow"})
            if (const YamlNode* node = tank.node(name)) read_measure(name, *node);
        if (const YamlNode* more = tank.node("measures")) read_measures(*more);
        if (const YamlNode* entries = tank.node("entries")) read_entries(*entries);
        tank.finish();
        return std::move(record_);
    }

private:
    void read_inside(const YamlNode& node) {
        Entry inside(node, "'inside'", complaints_);
        const auto side = [&](std::string_view key, double& into, const Bounds& bounds) {
            if (const YamlNode* found = inside.node(key, Need::required))
                if (const auto metres = read_measured(*found, key, "m", bounds, complaints_)) into = *metres;
        };
        side("length", record_.length, sides);
        side("width", record_.width, sides);
        side("height", record_.height, heights);
        inside.finish();
    }

    struct WrittenBay {
        std::string name;
        Place place;
        double width = 0;  ///< m; 0: not stated
    };

    void read_bays(Entry& tank) {
        std::vector<WrittenBay> written;
        const YamlNode* node = tank.node("bays");
        if (node && node->kind == YamlNode::Kind::map) {
            for (const YamlEntry& one : node->entries) written.push_back({one.key, one.key_place, read_bay_width(one, tank)});
        } else if (node) {
            for (const YamlNode* item : tank.list("bays"))
                if (reader::require_text(*item, "the name of a bay", complaints_)) written.push_back({item->text, item->place});
        }
        if (node && node->kind != YamlNode::Kind::text && written.empty())
            complaints_.add(node->place, "'bays' names no bay", "leave the key out where the tank has only one");
        if (written.size() > most_bays) {
            complaints_.add(written[most_bays].place, "a tank has at most " + std::to_string(most_bays) + " bays");
            written.resize(most_bays);
        }
        check_names(written);
        share_out(written, node ? node->place : tank.place());
    }

    double read_bay_width(const YamlEntry& one, Entry& tank) {
        if (one.value.kind == YamlNode::Kind::text && one.value.text.empty()) return 0;
        Entry bay(one.value, "the bay " + quoted(one.key), complaints_);
        const YamlNode* width = bay.node("width");
        bay.finish();
        if (!width) return 0;
        const auto metres = read_measured(*width, "width", "m", sides, complaints_);
        if (!tank.node("inside"))
            complaints_.add(width->place, "the width of a bay says nothing without the tank's 'inside'",
                            "inside: {length: 10 ft, width: 6 ft, height: 2.5 ft}");
        return metres.value_or(0);
    }

    void check_names(std::vector<WrittenBay>& written) {
        for (std::size_t i = 0; i < written.size(); ++i) {
            const WrittenBay& bay = written[i];
            if (bay.name.empty())
                complaints_.add(bay.place, "the name of a bay is empty");
            else if (count_characters(bay.name) > longest_bay_name)
                complaints_.add(bay.place, "the name of a bay has at most " + std::to_string(longest_bay_name) + " characters");
            const auto earlier =
                std::find_if(written.begin(), written.begin() + static_cast<std::ptrdiff_t>(i),
                             [&](const WrittenBay& other) { return bay_key(other.name) == bay_key(bay.name); });
            if (earlier != written.begin() + static_cast<std::ptrdiff_t>(i))
                complaints_.add(bay.place, "two bays are called " + quoted(bay.name));
        }
    }

    /// Gives every bay its floor: its own width, or an equal part of what the others leave.
    void share_out(const std::vector<WrittenBay>& written, const Place& place) {
        double taken = 0;
        std::size_t without = 0;
        for (const WrittenBay& bay : written) {
            taken += bay.width;
            without += bay.width == 0 ? 1 : 0;
        }
        const double left = record_.width - taken;
        constexpr double rounding = 1e-9;
        if (record_.width > 0 && (left < -rounding || (without > 0 && left < sides.low * static_cast<double>(without)))) {
            complaints_.add(place,
                            "the bays do not fit into the tank's width of " + quantity_to_text(record_.width, *find_unit("m")),
                            "'width' of the inside is the side that the bays share");
        }
        for (const WrittenBay& bay : written) {
            const double width = bay.width > 0 ? bay.width : left / static_cast<double>(without);
            record_.bays.push_back({bay.name, record_.length * std::max(width, 0.0), record_.height});
        }
        if (record_.bays.empty()) record_.bays.push_back({only_bay, record_.length * record_.width, record_.height});
    }

    void read_measures(const YamlNode& node) {
        if (node.kind != YamlNode::Kind::map) {
            complaints_.add(node.place, "'measures' should be a map", "measures: {crate: 30 L}");
            return;
        }
        if (node.entries.size() > most_measures) {
            complaints_.add(node.entries[most_measures].key_place,
                            "'measures' holds more than " + std::to_string(most_measures) + " measures");
            return;
        }
        for (const YamlEntry& one : node.entries) {
            if (record_.vessels.find(one.key))
                complaints_.add(one.key_place, "the measure " + quoted(one.key) + " was stated already");
            else
                read_measure(one.key, one.value);
        }
    }

    void read_measure(const std::string& name, const YamlNode& node) {
        if (!reader::require_text(node, quoted(name), complaints_)) return;
        auto vessel = read_vessel(name, node.text);
        if (vessel)
            record_.vessels.state(std::move(*vessel));
        else
            complaints_.add(node.place, quoted(name) + ": " + vessel.fault().text);
    }

    void read_entries(const YamlNode& node) {
        if (node.kind == YamlNode::Kind::text && node.plain && node.text.empty()) return;  // "entries:" and nothing more
        if (node.kind != YamlNode::Kind::list) {
            complaints_.add(node.place, "'entries' should be a list, each item beginning with '- '");
            return;
        }
        if (node.items.size() > most_entries_of_a_tank) {
            complaints_.add(node.items[most_entries_of_a_tank].place,
                            "a record holds at most " + std::to_string(most_entries_of_a_tank) + " entries",
                            "begin a new file for this tank");
            return;
        }
        reader::TankEntryReader entries(record_, rule_base_, complaints_);
        record_.entries.reserve(node.items.size());
        for (const YamlNode& item : node.items) entries.read(item, record_.entries);
        std::ranges::stable_sort(record_.entries, {}, &RecordedEntry::on);
    }

    const RuleBase& rule_base_;
    Complaints& complaints_;
    TankRecord record_;
};

}  // namespace

std::string bay_key(std::string_view name) {
    std::string key(name);
    for (char& c : key) {
        if (c >= 'A' && c <= 'Z') c = static_cast<char>(c - 'A' + 'a');
        if (c == ' ' || c == '-') c = '_';
    }
    return key;
}

TankReading read_tank_record(const YamlNode& tree, const RuleBase& rule_base) {
    Complaints complaints;
    TankReading reading;
    reading.record = RecordReader(rule_base, complaints).read(tree);
    reading.complaints = complaints.sorted();
    return reading;
}

TankReading read_tank_record(std::string_view text, const std::string& file, const RuleBase& rule_base) {
    Complaints complaints;
    const YamlNode tree = read_yaml(text, file, complaints);
    TankReading reading;
    reading.record = RecordReader(rule_base, complaints).read(tree);
    reading.complaints = complaints.sorted();
    return reading;
}

}  // namespace lidlift
