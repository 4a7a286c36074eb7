#include "engine/reader/merge.hpp"

#include "engine/condition_grammar.hpp"
#include "engine/nearest_name.hpp"
#include "engine/reader/entry.hpp"

#include <algorithm>
#include <iterator>
#include <unordered_map>
#include <utility>

namespace lidlift::reader {
namespace {

const std::string earlier_entry = "earlier entry";

/// A section: its key, what one of its entries is called, and whether ids may be codes in capitals.
struct SectionKind {
    std::string key;
    std::string one;
    bool capitals;
    std::vector<NamedEntry> Sections::*list;
};

const std::vector<SectionKind>& section_kinds() {
    static const std::vector<SectionKind> kinds = {{"sources", "source", false, &Sections::sources},
                                                   {"signs", "sign", false, &Sections::signs},
                                                   {"conclusions", "conclusion", false, &Sections::conclusions},
                                                   {"rules", "rule", false, &Sections::rules},
                                                   {"causes", "cause", false, &Sections::causes},
                                                   {"steps", "step", false, &Sections::steps},
                                                   {"cautions", "caution", true, &Sections::cautions},
                                                   {"clashes", "clash", true, &Sections::clashes},
                                                   {"materials", "material", false, &Sections::materials}};
    return kinds;
}

/// What `later` says on top of `earlier`: new texts take the place of old ones, lists are added at the end, maps are merged key
/// by key.
void extend(YamlNode& earlier, const YamlNode& later) {
    if (earlier.kind != later.kind || later.kind == YamlNode::Kind::text) {
        earlier = later;
    } else if (later.kind == YamlNode::Kind::list) {
        earlier.items.insert(earlier.items.end(), later.items.begin(), later.items.end());
    } else {
        for (const YamlEntry& entry : later.entries) {
            const auto same = std::ranges::find(earlier.entries, entry.key, &YamlEntry::key);
            if (same == earlier.entries.end())
                earlier.entries.push_back(entry);
            else
                extend(same->value, entry.value);
        }
    }
}

class Merger {
public:
    explicit Merger(Complaints& complaints) : complaints_(complaints) {
        sections_.about.kind = sections_.weighing.kind = YamlNode::Kind::map;
    }

    void add_file(const YamlNode& file) {
        if (file.kind != YamlNode::Kind::map) {
            complaints_.add(file.place, "a rule file should be a map of sections (" + listed(section_keys()) + ")");
            return;
        }
        for (const YamlEntry& section : file.entries) add_section(section);
    }

    [[nodiscard]] Sections take() { return std::move(sections_); }

private:
    static std::vector<std::string> section_keys() {
        std::vector<std::string> keys = {"rule base", "weighing"};
        for (const SectionKind& kind : section_kinds()) keys.push_back(kind.key);
        keys.emplace_back("reviewed");
        return keys;
    }

    void add_section(const YamlEntry& section) {
        if (section.key == "rule base" || section.key == "weighing") {
            YamlNode& whole = section.key == "rule base" ? sections_.about : sections_.weighing;
            if (whole.entries.empty())
                whole = section.value;
            else
                extend(whole, section.value);
            return;
        }
        if (section.key == "reviewed") {
            add_reviewed(section.value);
            return;
        }
        const auto kind = std::ranges::find(section_kinds(), section.key, &SectionKind::key);
        if (kind == section_kinds().end()) {
            complaints_.add(section.key_place, "unknown section '" + section.key + "'",
                            did_you_mean(section.key, section_keys()));
            return;
        }
        if (section.value.kind != YamlNode::Kind::map) {
            complaints_.add(section.value.place, "the section '" + section.key + "' should be a map of named entries");
            return;
        }
        for (const YamlEntry& entry : section.value.entries) add_entry(*kind, entry);
    }

    /// Answers to the review have no names, so that those of every file stand side by side.
    void add_reviewed(const YamlNode& section) {
        if (section.kind != YamlNode::Kind::list) {
            complaints_.add(section.place, "the section 'reviewed' should be a list");
            return;
        }
        for (const YamlNode& item : section.items) {
            if (sections_.reviewed.size() == most_entries) {
                complaints_.add(item.place,
                                "a rule base holds at most " + std::to_string(most_entries) + " items of 'reviewed'");
                return;
            }
            sections_.reviewed.push_back(item);
        }
    }

    void add_entry(const SectionKind& kind, const YamlEntry& entry) {
        if (!is_id(entry.key, kind.capitals)) {
            complaints_.add(
                entry.key_place,
                "'" + entry.key + "' cannot name a " + kind.one +
                    ": names are lower-case letters, digits and '_', begin with a letter and have at most 64 characters");
            return;
        }
        if (is_word_of_the_language(entry.key)) {
            complaints_.add(entry.key_place, "'" + entry.key + "' is a word of the conditions and cannot name a " + kind.one);
            return;
        }
        std::vector<NamedEntry>& list = sections_.*kind.list;
        const YamlNode* how = entry.value.find(earlier_entry);
        const auto place_in_list = positions_.find(kind.key + "/" + entry.key);
        if (place_in_list == positions_.end()) {
            if (how)
                complaints_.add(how->place, "there is no earlier " + kind.one + " '" + entry.key + "'",
                                nearest_of(complaints_, entry.key, [&] { return ids(list); }));
            const std::size_t most = kind.list == &Sections::causes ? most_causes : most_entries;
            if (list.size() == most) {
                const bool first = positions_.emplace(kind.key + "/", 0).second;
                if (first)
                    complaints_.add(entry.key_place, "a rule base holds at most " + std::to_string(most) + " " + kind.key);
                return;
            }
            positions_.emplace(kind.key + "/" + entry.key, list.size());
            list.push_back({entry.key, entry.key_place, without_how(entry.value)});
            return;
        }
        NamedEntry& earlier = list[place_in_list->second];
        if (!how) {
            complaints_.add(entry.key_place,
                            "the " + kind.one + " '" + entry.key + "' is already defined at " + to_text(earlier.place),
                            "say 'earlier entry: extend' or 'earlier entry: replace'");
            return;
        }
        const auto word = read_word(*how, {"extend", "replace"}, complaints_);
        if (!word) return;
        sections_.changes.push_back(to_text(entry.key_place) + ": " + (*word == 0 ? "extends" : "replaces") + " the " +
                                    kind.one + " '" + entry.key + "' of " + to_text(earlier.place));
        if (*word == 0)
            extend(earlier.value, without_how(entry.value));
        else
            earlier = {entry.key, entry.key_place, without_how(entry.value)};
    }

    static YamlNode without_how(YamlNode node) {
        std::erase_if(node.entries, [](const YamlEntry& entry) { return entry.key == earlier_entry; });
        return node;
    }

    static std::vector<std::string> ids(const std::vector<NamedEntry>& list) {
        std::vector<std::string> result;
        std::ranges::transform(list, std::back_inserter(result), &NamedEntry::id);
        return result;
    }

    Complaints& complaints_;
    Sections sections_;
    std::unordered_map<std::string, std::size_t> positions_;
};

}  // namespace

Sections merge_files(std::span<const RuleText> files, Complaints& complaints) {
    Merger merger(complaints);
    std::size_t bytes = 0;
    for (const RuleText& file : files) {
        bytes += file.text.size();
        if (bytes > largest_rule_base) {
            complaints.add({file.name, 0, 0}, "the rule files together are larger than 8 MiB");
            break;
        }
        merger.add_file(read_yaml(file.text, file.name, complaints));
    }
    return merger.take();
}

}  // namespace lidlift::reader
