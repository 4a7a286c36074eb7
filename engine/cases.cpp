#include "engine/cases.hpp"

#include "engine/heard_words.hpp"
#include "engine/reader/entry.hpp"
#include "engine/reader/resolve.hpp"
#include "engine/reader/sections.hpp"

#include <algorithm>
#include <iterator>
#include <unordered_map>
#include <utility>

namespace lidlift {
namespace {

using reader::Entry;
using reader::Need;

/// The items of a list under `key`, each once.
std::vector<WrittenName> names(Entry& entry, std::string_view key, Need need = Need::optional) {
    std::vector<WrittenName> result;
    const auto items = entry.list(key, need);
    if (items.empty() && entry.node(key) && entry.node(key)->kind == YamlNode::Kind::list)
        entry.complain(entry.node(key)->place, "'" + std::string(key) + "' is an empty list",
                       need == Need::required ? "say common_practice or from_memory where none was published or read"
                                              : "leave the key out");
    if (items.size() > most_names) {
        entry.complain(items[most_names]->place,
                       "'" + std::string(key) + "' holds more than " + std::to_string(most_names) + " names");
        return result;
    }
    for (const YamlNode* item : items) {
        if (!reader::require_text(*item, "an item of '" + std::string(key) + "'", entry.complaints())) continue;
        if (std::ranges::find(result, item->text, &WrittenName::text) != result.end())
            entry.complain(item->place, "'" + std::string(key) + "' names '" + item->text + "' twice");
        else
            result.push_back({item->text, item->place});
    }
    return result;
}

/// What a case may not say about the causes: two things at once, or nothing that `acceptable` could stand beside.
void check_expectation(Entry& entry, const WrittenCase& written) {
    if (written.nothing_listed && entry.node("expect"))
        entry.complain(entry.node("nothing_listed")->place,
                       "'nothing_listed: yes' stands instead of 'expect'; a case says one of the two");
    if (!entry.node("expect") && entry.node("acceptable"))
        entry.complain(entry.node("acceptable")->place, "'acceptable' stands beside 'expect', which is missing");
    for (const WrittenName& name : written.acceptable)
        if (std::ranges::find(written.expect, name.text, &WrittenName::text) != written.expect.end())
            entry.complain(name.place, "'" + name.text + "' stands under 'expect' already");
}

class CaseReader {
public:
    explicit CaseReader(Complaints& complaints) : complaints_(complaints) {}

    void add_file(const YamlNode& file) {
        Entry entry(file, "a case file", complaints_);
        const YamlNode* cases = entry.node("cases", Need::required);
        entry.finish();
        if (!cases) return;
        if (cases->kind != YamlNode::Kind::map) {
            complaints_.add(cases->place, "'cases' should be a map of named cases");
            return;
        }
        for (const YamlEntry& one : cases->entries) add_case(one);
    }

    [[nodiscard]] std::vector<WrittenCase> take() { return std::move(cases_); }

private:
    void add_case(const YamlEntry& one) {
        if (!reader::is_id(one.key)) {
            complaints_.add(
                one.key_place,
                "'" + one.key +
                    "' cannot name a case: names are lower-case letters, digits and '_', begin with a letter and have at "
                    "most 64 characters");
            return;
        }
        const auto [earlier, is_new] = places_.emplace(one.key, one.key_place);
        if (!is_new) {
            complaints_.add(one.key_place, "the case '" + one.key + "' stands at " + to_text(earlier->second) + " already",
                            "give it another name");
            return;
        }
        if (cases_.size() == most_cases) {
            if (!std::exchange(too_many_, true))
                complaints_.add(one.key_place, "more than " + std::to_string(most_cases) + " cases cannot be tried in one go");
            return;
        }
        cases_.push_back(read_case(one));
    }

    WrittenCase read_case(const YamlEntry& one) {
        WrittenCase written;
        written.id = one.key;
        written.place = one.key_place;
        Entry entry(one.value, "the case '" + one.key + "'", complaints_);
        written.story = entry.text("story", Need::required);
        read_told(entry, written, one.value);
        written.expect = names(entry, "expect");
        written.acceptable = names(entry, "acceptable");
        written.nothing_listed = entry.yes_no("nothing_listed");
        written.must_say = names(entry, "must say");
        written.must_advise = names(entry, "must advise");
        written.never_advise = names(entry, "never advise");
        if (const auto from = entry.word("written from", written_from_words(), Need::required))
            written.written_from = static_cast<WrittenFrom>(*from);
        written.sources = names(entry, "sources", Need::required);
        check_expectation(entry, written);
        const YamlNode* nothing = entry.node("nothing_listed");
        const bool asks = entry.node("expect") || (nothing && nothing->text != "no") || entry.node("must say") ||
                          entry.node("must advise") || entry.node("never advise");
        if (one.value.kind == YamlNode::Kind::map && !one.value.cut_off && !asks)
            entry.complain(one.key_place, entry.what() + " asks for nothing, so it cannot fail",
                           "say at least one of expect, nothing_listed, must say, must advise, never advise");
        entry.finish();
        return written;
    }

    void read_told(Entry& entry, WrittenCase& written, const YamlNode& whole) {
        written.told.kind = YamlNode::Kind::map;
        const YamlNode* told = entry.node("told");
        if (told && told->kind == YamlNode::Kind::map)
            written.told = *told;
        else if (told)
            entry.complain(told->place, "'told' should be a map, one line for each sign: 'squeeze: stream'");
        written.words = entry.text("words");
        const bool tells = told || entry.node("words");
        if (!tells && whole.kind == YamlNode::Kind::map && !whole.cut_off)
            entry.complain(written.place, entry.what() + " tells nothing", "say 'told', or 'words', or both");
    }

    Complaints& complaints_;
    std::vector<WrittenCase> cases_;
    std::unordered_map<std::string, Place> places_;
    bool too_many_ = false;
};

template <class T>
std::vector<Named<T>> resolved(const std::vector<WrittenName>& written, const Catalogue<T>& known, const std::string& one,
                               Complaints& complaints) {
    std::vector<Named<T>> result;
    for (const WrittenName& name : written) {
        result.push_back({name.text, known.find(name.text)});
        if (!result.back().handle)
            complaints.add(name.place, "there is no " + one + " '" + name.text + "'",
                           reader::nearest_of(complaints, name.text, [&] { return known.ids(); }));
    }
    return result;
}

YamlNode as_node(const WrittenName& name) {
    YamlNode node;
    node.text = name.text;
    node.place = name.place;
    return node;
}

}  // namespace

const std::vector<std::string>& written_from_words() {
    static const std::vector<std::string> words = {"published guidance", "the trade", "a recorded call"};
    return words;
}

std::vector<WrittenCase> read_cases(std::span<const RuleText> files, Complaints& complaints) {
    CaseReader reader(complaints);
    std::size_t bytes = 0;
    for (const RuleText& file : files) {
        bytes += file.text.size();
        if (bytes > largest_cases) {
            complaints.add({file.name, 0, 0}, "the case files together are larger than 8 MiB");
            break;
        }
        reader.add_file(read_yaml(file.text, file.name, complaints));
    }
    return reader.take();
}

Case CaseResolver::resolve(const WrittenCase& written, Complaints& complaints) {
    Case result;
    for (const YamlEntry& entry : written.told.entries) {
        // One by one, so that it is known which answers could not be taken.
        Complaints of_this;
        hear_entry(result.told, rule_base_, entry, of_this);
        if (of_this.empty()) continue;
        result.unread.push_back(entry.key);
        for (const Complaint& complaint : of_this.sorted()) complaints.add(complaint.place, complaint.text, complaint.hint);
    }
    if (!written.words.empty()) {
        if (!phrasebook_) phrasebook_.emplace(rule_base_);
        result.not_understood = hear_words(result.told, rule_base_, *phrasebook_, written.words).not_understood;
    }
    result.expect = resolved(written.expect, rule_base_.causes, "cause", complaints);
    result.acceptable = resolved(written.acceptable, rule_base_.causes, "cause", complaints);
    result.must_say = resolved(written.must_say, rule_base_.cautions, "caution", complaints);
    result.must_advise = resolved(written.must_advise, rule_base_.steps, "step", complaints);
    for (const WrittenName& name : written.never_advise)
        if (const auto group = reader::read_step_group(as_node(name), rule_base_, complaints))
            result.never_advise.push_back({name.text, *group});
    for (const WrittenName& name : written.sources) (void)reader::find_source(as_node(name), rule_base_, complaints);
    return result;
}

}  // namespace lidlift
