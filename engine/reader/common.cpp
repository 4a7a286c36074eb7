// What several sections share, and the two small sections that describe the rule base as a whole.
#include "engine/quantity.hpp"
#include "engine/reader/resolve.hpp"
#include "engine/reader/sections.hpp"
#include "engine/review/kinds.hpp"

#include <utility>

namespace lidlift::reader {
namespace {

std::vector<std::string> advice_kinds() {
    std::vector<std::string> ids;
    for (const ReviewKind& kind : review_kinds())
        if (kind.level == FindingLevel::advice) ids.emplace_back(kind.id);
    return ids;
}

}  // namespace

Sources read_sources(Entry& entry, const RuleBase& rule_base, Need need) {
    Sources result;
    const auto items = entry.list("sources", need);
    for (const YamlNode* item : items)
        if (const auto source = find_source(*item, rule_base, entry.complaints())) result.push_back(*source);
    if (need == Need::required && items.empty() && entry.node("sources"))
        entry.complain(entry.place(), entry.what() + " names no source",
                       "say common_practice or from_memory where none was published or read");
    return result;
}

std::optional<double> read_share(const YamlNode& node, double low, double high, Complaints& complaints) {
    const auto quantity = read_quantity(node.text);
    const bool good =
        node.kind == YamlNode::Kind::text && quantity && quantity->unit && quantity->unit->dimension == Dimension::share;
    if (!good || quantity->number < low || quantity->number > high) {
        complaints.add(node.place, "expected a share from " + number_to_text(low) + " to " + number_to_text(high) +
                                       " %, found '" + node.text + "'");
        return std::nullopt;
    }
    return quantity->number / 100;
}

std::optional<Condition> read_when(Entry& entry, std::string_view key, std::string& text, Place& place,
                                   const RuleBase& rule_base) {
    const YamlNode* node = entry.node(key);
    if (!node) return std::nullopt;
    text = node->text;
    place = node->place;
    return read_condition_node(*node, rule_base, entry.complaints());
}

void read_about(const YamlNode& node, RuleBase& rule_base, Complaints& complaints) {
    Entry entry(node, "the section 'rule base'", complaints);
    if (std::string name = entry.text("name"); !name.empty()) rule_base.name = std::move(name);
    if (std::string version = entry.text("version"); !version.empty()) rule_base.version = std::move(version);
    entry.finish();
}

void read_weighing(const YamlNode& node, RuleBase& rule_base, Complaints& complaints) {
    Entry entry(node, "the section 'weighing'", complaints);
    WeighingFigures& figures = rule_base.weighing;
    figures.place = node.place;
    const auto share = [&](std::string_view key, double& into, double high) {
        if (const YamlNode* found = entry.node(key))
            if (const auto value = read_share(*found, 0, high, complaints)) into = *value;
    };
    share("wrong when sure", figures.wrong_when_sure, 49);
    share("wrong when unsure", figures.wrong_when_unsure, 49);
    share("wrong when a guess", figures.wrong_when_guess, 49);
    share("same observation counts", figures.same_observation_counts, 100);
    if (const auto expected = entry.number("expected causes")) {
        if (*expected > 0 && *expected <= 10)
            figures.expected_causes = *expected;
        else
            complaints.add(entry.node("expected causes")->place, "'expected causes' should be above 0 and at most 10");
    }
    if (const auto largest = entry.number("largest set")) {
        if (*largest >= 1 && *largest <= 4 && *largest == static_cast<int>(*largest))
            figures.largest_set = static_cast<int>(*largest);
        else
            complaints.add(entry.node("largest set")->place, "'largest set' should be 1, 2, 3 or 4");
    }
    if (!node.entries.empty()) figures.sources = read_sources(entry, rule_base);
    entry.finish();
}

void read_source(const NamedEntry& named, Source& source, Complaints& complaints) {
    static const std::vector<std::string> kinds = {"government", "university", "journal", "handbook",
                                                   "standard",   "council",    "trade",   "hobby"};
    static const std::vector<std::string> standings = {"read",          "read in part", "abstract read", "quoted by another",
                                                       "contents only", "from memory"};
    Entry entry(named.value, "the source '" + named.id + "'", complaints);
    source.title = entry.text("title", Need::required);
    source.by = entry.text("by");
    source.year = entry.text("year");
    source.where = entry.text("where");
    if (const auto kind = entry.word("kind", kinds, Need::required)) source.kind = kinds[*kind];
    if (const auto standing = entry.word("standing", standings, Need::required)) source.standing = standings[*standing];
    entry.finish();
}

void read_reviewed(const YamlNode& node, RuleBase& rule_base, Complaints& complaints) {
    Entry entry(node, "an item of 'reviewed'", complaints);
    Reviewed reviewed;
    reviewed.place = node.place;
    if (const YamlNode* kind = entry.node("kind", Need::required); kind && require_text(*kind, "'kind'", complaints)) {
        reviewed.kind = kind->text;
        const ReviewKind* known = find_review_kind(kind->text);
        if (!known)
            complaints.add(kind->place, "there is no kind of advice '" + kind->text + "'",
                           nearest_of(complaints, kind->text, advice_kinds));
        else if (known->level == FindingLevel::fault)
            complaints.add(kind->place, "'" + kind->text + "' is a fault, and a fault is mended, not answered");
    }
    reviewed.about = entry.texts("about");
    if (reviewed.about.empty() && node.kind == YamlNode::Kind::map && !node.cut_off)
        entry.complain(node.place, "an item of 'reviewed' should say what it is about", "about: [blocked_drain, rain_got_in]");
    reviewed.because = entry.text("because", Need::required);
    reviewed.sources = read_sources(entry, rule_base, Need::optional);
    entry.finish();
    rule_base.reviewed.push_back(std::move(reviewed));
}

}  // namespace lidlift::reader
