#include "engine/rule_base_changes.hpp"

#include "engine/reader/merge.hpp"

#include <algorithm>
#include <array>
#include <iterator>
#include <string_view>
#include <unordered_map>

namespace lidlift {
namespace {

using reader::NamedEntry;
using reader::Sections;

/// The same in meaning: places and quotes do not count, nor the order of keys.
bool same(const YamlNode& a, const YamlNode& b) {
    if (a.kind != b.kind || a.text != b.text || a.items.size() != b.items.size() || a.entries.size() != b.entries.size())
        return false;
    if (!std::ranges::equal(a.items, b.items, same)) return false;
    return std::ranges::all_of(a.entries, [&](const YamlEntry& entry) {
        const YamlNode* other = b.find(entry.key);
        return other && same(entry.value, *other);
    });
}

using ById = std::unordered_map<std::string_view, const NamedEntry*>;

ById by_id(const std::vector<NamedEntry>& section) {
    ById result;
    for (const NamedEntry& entry : section) result.emplace(entry.id, &entry);
    return result;
}

void compare(const std::string& name, const std::vector<NamedEntry>& before, const std::vector<NamedEntry>& after,
             std::vector<EntryChange>& changes) {
    const ById old_entries = by_id(before);
    const ById new_entries = by_id(after);
    using How = EntryChange::How;
    for (const NamedEntry& entry : after)
        if (!old_entries.contains(entry.id)) changes.push_back({name, entry.id, How::added});
    for (const NamedEntry& entry : before)
        if (!new_entries.contains(entry.id)) changes.push_back({name, entry.id, How::removed});
    for (const NamedEntry& entry : after)
        if (const auto old = old_entries.find(entry.id); old != old_entries.end() && !same(old->second->value, entry.value))
            changes.push_back({name, entry.id, How::changed});
}

}  // namespace

std::vector<EntryChange> entry_changes(std::span<const RuleText> before, std::span<const RuleText> after) {
    struct Section {
        const char* name;
        std::vector<NamedEntry> Sections::*list;
    };
    static constexpr std::array<Section, 9> sections = {{{"sources", &Sections::sources},
                                                         {"signs", &Sections::signs},
                                                         {"conclusions", &Sections::conclusions},
                                                         {"rules", &Sections::rules},
                                                         {"causes", &Sections::causes},
                                                         {"steps", &Sections::steps},
                                                         {"cautions", &Sections::cautions},
                                                         {"clashes", &Sections::clashes},
                                                         {"materials", &Sections::materials}}};
    Complaints ignored;  // both were read before
    const Sections old_sections = reader::merge_files(before, ignored);
    const Sections new_sections = reader::merge_files(after, ignored);
    std::vector<EntryChange> changes;
    if (!same(old_sections.about, new_sections.about)) changes.push_back({"rule base", {}, EntryChange::How::changed});
    if (!same(old_sections.weighing, new_sections.weighing)) changes.push_back({"weighing", {}, EntryChange::How::changed});
    for (const Section& section : sections)
        compare(section.name, old_sections.*section.list, new_sections.*section.list, changes);
    return changes;
}

}  // namespace lidlift
