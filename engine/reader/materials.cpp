// The section "materials": figures with their ranges, and what giving a material says of a bed.
#include "engine/quantity.hpp"
#include "engine/reader/resolve.hpp"
#include "engine/reader/sections.hpp"

#include <algorithm>
#include <array>
#include <utility>

namespace lidlift::reader {
namespace {

/// What a figure may be. The ends are far outside anything printed: they catch slips of the pen, not unusual materials.
struct FigureKind {
    const char* key;
    const char* unit;  ///< "plain": a bare number
    double least;
    double most;
    bool zero;  ///< whether `least` itself may be
    std::optional<Figure> Material::*member;
};

constexpr std::array<FigureKind, 4> figure_kinds = {{
    {"moisture", "%", 0, 100, true, &Material::moisture},
    {"nitrogen", "%", 0, 50, true, &Material::nitrogen},                             // urea holds 46 %
    {"carbon to nitrogen", "plain", 0, 5000, false, &Material::carbon_to_nitrogen},  // softwood reaches 1300
    {"density", "kg/m3", 0, 3000, false, &Material::density},                        // crushed stone lies at 1600
}};

const Unit& unit_of(const FigureKind& kind) { return *find_unit(kind.unit); }

std::string in_its_unit(double number, const FigureKind& kind) { return quantity_to_text(number, unit_of(kind)); }

class MaterialReader {
public:
    MaterialReader(const NamedEntry& named, Material& material, const RuleBase& rule_base, Complaints& complaints)
        : material_(material),
          rule_base_(rule_base),
          complaints_(complaints),
          entry_(named.value, "the material '" + named.id + "'", complaints) {}

    void read() {
        material_.name = entry_.text("name", Need::required);
        if (const auto role = entry_.word("role", material_role_words(), Need::required))
            material_.role = static_cast<MaterialRole>(*role);
        material_.heard_as = entry_.texts("heard as");
        for (const FigureKind& kind : figure_kinds)
            if (const YamlNode* node = entry_.node(kind.key)) material_.*kind.member = read_figure(*node, kind);
        for (const YamlNode* item : entry_.list("counts towards")) read_share_sign(*item);
        for (const YamlNode* item : entry_.list("tells")) read_tells(*item);
        material_.cautions = read_names(entry_, "cautions", rule_base_.cautions, "caution");
        material_.keep_from_worms = entry_.text("keep from worms");
        material_.note = entry_.text("note");
        material_.sources = read_sources(entry_, rule_base_);
        entry_.finish();
    }

private:
    std::optional<Figure> read_figure(const YamlNode& node, const FigureKind& kind) {
        Entry entry(node, "'" + std::string(kind.key) + "' of " + entry_.what(), complaints_);
        Figure figure;
        figure.place = node.place;
        const auto typical = read_amount(entry, "typical", kind, Need::required);
        const auto from = read_amount(entry, "from", kind, Need::optional);
        const auto to = read_amount(entry, "to", kind, Need::optional);
        const bool both_ends = (entry.node("from") == nullptr) == (entry.node("to") == nullptr);
        if (!both_ends)
            entry.complain(entry.place(), entry.what() + " has one end of its range only", "say both, 'from' and 'to'");
        if (typical) figure.value = Estimate{from.value_or(*typical), *typical, to.value_or(*typical)};
        if (typical && from && to && !(*from <= *typical && *typical <= *to))
            entry.complain(entry.node("typical")->place, "'typical' should lie between 'from' and 'to', here " +
                                                             number_to_text(*from) + " to " + in_its_unit(*to, kind));
        if (const auto standing = entry.word("standing", standing_words(), Need::required))
            figure.standing = figure.range_standing = static_cast<Standing>(*standing);
        if (const auto standing = entry.word("range standing", standing_words())) {
            figure.range_standing = static_cast<Standing>(*standing);
            if (!entry.node("from"))
                entry.complain(entry.node("range standing")->place,
                               "'range standing' is for 'from' and 'to', which are missing");
        }
        figure.disputed = entry.yes_no("disputed");
        figure.note = entry.text("note");
        figure.sources = read_sources(entry, rule_base_, Need::optional);
        entry.finish();
        if (!typical) return std::nullopt;
        return figure;
    }

    /// A number in the unit of `kind`, within what can be.
    std::optional<double> read_amount(Entry& entry, std::string_view key, const FigureKind& kind, Need need) {
        const YamlNode* node = entry.node(key, need);
        if (!node) return std::nullopt;
        const Unit& wanted = unit_of(kind);
        const bool bare = wanted.dimension == Dimension::plain;
        const auto quantity = read_quantity(node->text);
        std::string what = "'" + std::string(key) + "' should be ";
        what += bare ? "a plain number" : "a number in " + std::string(kind.unit);
        if (node->kind != YamlNode::Kind::text || !quantity) {
            complaints_.add(node->place, what + ", found '" + node->text + "'", quantity ? "" : quantity.fault().text);
            return std::nullopt;
        }
        const auto number = convert(*quantity, wanted);
        if ((quantity->unit == nullptr) != bare || !number) {
            complaints_.add(node->place, what + ", found '" + node->text + "'");
            return std::nullopt;
        }
        if (*number < kind.least || *number > kind.most || (!kind.zero && *number == kind.least)) {
            complaints_.add(node->place, "'" + std::string(key) + "' should lie " + (kind.zero ? "between " : "above ") +
                                             number_to_text(kind.least) + (kind.zero ? " and " : " and be at most ") +
                                             quantity_to_text(kind.most, wanted) + ", found '" + node->text + "'");
            return std::nullopt;
        }
        return *number;
    }

    /// A sign that says none, some or lots of something in the feed.
    void read_share_sign(const YamlNode& node) {
        if (!require_text(node, "the name of a sign", complaints_)) return;
        const auto sign = rule_base_.signs.find(node.text);
        if (!sign) {
            complaints_.add(node.place, "there is no sign '" + node.text + "'",
                            nearest_of(complaints_, node.text, [&] { return rule_base_.signs.ids(); }));
            return;
        }
        const Sign& found = rule_base_.signs[*sign];
        const auto has = [&](const char* answer) { return found.find_answer(answer).has_value(); };
        if (found.sort == SignSort::one_of && has("none") && has("some") && has("lots"))
            material_.shares.push_back(*sign);
        else
            complaints_.add(node.place,
                            "'" + node.text + "' cannot be counted towards: it has not the answers none, some and lots");
    }

    void read_tells(const YamlNode& node) {
        const auto condition = read_condition_node(node, rule_base_, complaints_);
        if (!condition) return;
        const Says* says = std::get_if<Says>(&condition->node);
        if (says && rule_base_.signs[says->sign].sort != SignSort::quantity)
            material_.tells.push_back(*says);
        else
            complaints_.add(node.place,
                            "'tells' should name one answer to a sign that is not measured, found '" + node.text + "'",
                            "for instance 'feed_dung is fresh'");
    }

    Material& material_;
    const RuleBase& rule_base_;
    Complaints& complaints_;
    Entry entry_;
};

}  // namespace

void read_material(const NamedEntry& named, Material& material, const RuleBase& rule_base, Complaints& complaints) {
    MaterialReader(named, material, rule_base, complaints).read();
}

}  // namespace lidlift::reader
