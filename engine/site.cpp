#include "engine/site.hpp"

#include "engine/quantity.hpp"
#include "engine/reader/entry.hpp"
#include "engine/yaml_tree.hpp"

#include <cmath>

namespace lidlift {
namespace {

void read_households(reader::Entry& entry, Site& site) {
    const auto number = entry.number("households");
    if (!number) return;
    if (*number >= 1 && *number <= most_households && *number == std::floor(*number))
        site.households = static_cast<int>(*number);
    else
        entry.complain(entry.node("households")->place,
                       "'households' is a whole number from 1 to " + std::to_string(most_households));
}

void read_waste(reader::Entry& entry, Site& site) {
    const YamlNode* node = entry.node("waste a day");
    if (!node || !reader::require_text(*node, "'waste a day'", entry.complaints())) return;
    const auto quantity = read_quantity(node->text);
    if (!quantity) return entry.complain(node->place, quantity.fault().text);
    if (!quantity->unit) return entry.complain(node->place, "'waste a day' needs its unit, for instance '42 kg'");
    const auto kg = convert(*quantity, *find_unit("kg"));
    if (!kg) return entry.complain(node->place, "'waste a day' is a weight, for instance '42 kg': " + kg.fault().text);
    if (*kg <= 0 || *kg > most_waste_per_day) return entry.complain(node->place, "'waste a day' lies between 0 and 100 t");
    site.waste_per_day = *kg;
}

}  // namespace

SiteReading read_site(std::string_view text, const std::string& file) {
    SiteReading reading;
    Complaints complaints;
    const YamlNode root = read_yaml(text, file, complaints);
    if (complaints.empty()) {
        if (root.kind == YamlNode::Kind::map) {
            reader::Entry entry(root, "the site's file", complaints);
            reading.site.name = entry.text("site");
            read_households(entry, reading.site);
            read_waste(entry, reading.site);
            reading.site.note = entry.text("note");
            entry.finish();
        } else {
            complaints.add(root.place, "the site's file is a map of keys such as 'site' and 'waste a day'");
        }
    }
    reading.complaints = complaints.sorted();
    return reading;
}

}  // namespace lidlift
