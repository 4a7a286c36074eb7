// "measured out" of a step: names -> materials, units -> kilograms, litres and metres.
#include "engine/amount_grammar.hpp"
#include "engine/quantity.hpp"
#include "engine/reader/resolve.hpp"
#include "engine/reader/sections.hpp"

#include <array>
#include <utility>

namespace lidlift::reader {
namespace {

// What no formula asks for; the ends catch slips of the pen.
constexpr double driest_goal = 20;   // %
constexpr double wettest_goal = 90;  // %, the wettest that any source gives worms (worms.md 1.1)
constexpr double lowest_ratio = 5;
constexpr double highest_ratio = 100;
constexpr double deepest_layer = 1;   // m
constexpr double deepest_top = 2;     // m
constexpr double largest_size = 1e6;  // kg or L for one of the basis

constexpr std::array<std::pair<std::string_view, Stuff::Kind>, 3> own_words = {
    {{"water", Stuff::Kind::water}, {"feed", Stuff::Kind::feed}, {"worms", Stuff::Kind::worms}}};

class AmountResolver {
public:
    AmountResolver(const YamlNode& node, const RuleBase& rule_base, Complaints& complaints)
        : node_(node), rule_base_(rule_base), complaints_(complaints) {}

    std::optional<AmountFormula> resolve(const written::Formula& formula) {
        AmountFormula result;
        std::visit([&](const auto& how) { read(how, result); }, formula.how);
        for (const written::Limit& limit : formula.limits) {
            if (limit.each.fill)
                complain(limit.each.column, "a limit cannot be for what fills a place");
            else if (auto rate = rate_of(limit.size, limit.each))
                result.limits.push_back(std::move(*rate));
        }
        result.portions = formula.portions;
        if (!good_) return std::nullopt;
        return result;
    }

private:
    void read(const written::Reach& reach, AmountFormula& result) {
        const bool moisture = reach.goal == written::Reach::Goal::moisture;
        ReachGoal goal{part_of(reach.part), reach.goal, middle_of(reach.to)};
        const double least = moisture ? driest_goal : lowest_ratio;
        const double most = moisture ? wettest_goal : highest_ratio;
        if (reach.to.low < least || reach.to.high > most)
            complain(reach.to.column, std::string(moisture ? "a moisture" : "a carbon to nitrogen ratio") +
                                          " to bring something to lies between " + number_to_text(least) + " and " +
                                          number_to_text(most) + (moisture ? " %" : ""));
        using What = written::Part::What;
        if (reach.part.what == What::wet_part)
            complain(reach.part.column, "only the whole of the last load is brought to anything", "say 'the last load'");
        const bool of_the_bed =
            (reach.part.what == What::all && reach.part.where == Where::bed) || reach.part.what == What::top;
        if (!moisture && of_the_bed)
            complain(reach.part.column, "nobody knows the carbon to nitrogen ratio of a bed at work",
                     "'the last load', 'the feed of a day' and 'the heap' have one as they went in");
        for (const written::Name& name : reach.of)
            if (const auto stuff = stuff_of(name)) {
                check_goal(*stuff, name, goal);
                result.of.push_back(*stuff);
            }
        result.how = goal;
    }

    /// Whether it can bring anything to the goal at all.
    void check_goal(const Stuff& stuff, const written::Name& name, const ReachGoal& goal) {
        if (stuff.kind == Stuff::Kind::worms || stuff.kind == Stuff::Kind::feed) {
            complain(name.column, "no amount of " + name.text + " brings anything to a moisture or a ratio");
            return;
        }
        const bool moisture = goal.goal == ReachGoal::Goal::moisture;
        if (stuff.kind == Stuff::Kind::water) {
            if (!moisture) complain(name.column, "water leaves the carbon to nitrogen ratio as it is");
            return;
        }
        const Material& material = rule_base_.materials[stuff.material];
        const auto& figure = moisture ? material.moisture : material.carbon_to_nitrogen;
        if (!figure || (!moisture && (!material.nitrogen || !material.moisture))) {
            complain(name.column, "the material '" + material.id + "' lacks a figure for its " +
                                      (moisture ? "moisture" : "moisture, nitrogen or carbon to nitrogen") +
                                      ", so nobody can tell how much of it is needed");
        } else if (figure->value.typical >= goal.to.low && figure->value.typical <= goal.to.high) {
            complain(name.column, "the material '" + material.id + "' is itself at " + number_to_text(figure->value.typical) +
                                      (moisture ? " %" : "") + ", so it brings nothing there");
        }
    }

    void read(const written::Layer& layer, AmountFormula& result) {
        for (const written::Name& name : layer.of)
            if (const auto stuff = stuff_of(name)) {
                if (stuff->kind == Stuff::Kind::worms || stuff->kind == Stuff::Kind::water)
                    complain(name.column, "'" + name.text + "' cannot be laid as a layer");
                result.of.push_back(*stuff);
            }
        result.how = LayOver{metres(layer.depth, deepest_layer), layer.half, layer.where};
    }

    void read(const written::Dose& dose, AmountFormula& result) {
        DoseOut out;
        out.in_all = dose.in_all;
        out.a_day = dose.a_day;
        if (auto rate = rate_of(dose.size, dose.each)) out.rate = std::move(*rate);
        const bool of_wet_part =
            std::holds_alternative<written::Part>(dose.each.what) && out.rate.part.what == written::Part::What::wet_part;
        for (const written::Name& name : dose.of)
            if (const auto stuff = stuff_of(name)) {
                const bool worms = stuff->kind == Stuff::Kind::worms;
                if (worms && out.rate.by != MeasuredBy::mass) complain(name.column, "worms are measured out by weight");
                if (dose.in_all && !worms && !of_wet_part)
                    complain(name.column, "'in all' is for worms, or goes by the wet part of the last load");
                if (dose.each.fill && stuff->kind != Stuff::Kind::material && stuff->kind != Stuff::Kind::water)
                    complain(name.column, "'" + name.text + "' do not fill a place");
                result.of.push_back(*stuff);
            }
        result.how = std::move(out);
    }

    std::optional<Rate> rate_of(const written::Measured& size, const written::Basis& basis) {
        Rate rate;
        const bool buckets = is_bucket(size.unit);
        if (buckets != is_bucket(basis.unit)) {
            const written::Name& unit = buckets ? size.unit : basis.unit;
            complain(unit.column, "a bucket has no size here", "say buckets on both sides of 'for each', or litres");
            return std::nullopt;
        }
        const auto factor = factor_of(size.unit, Dimension::mass, Dimension::volume, rate.by);
        if (!factor) return std::nullopt;
        if (!(size.size.high > 0) || size.size.high * *factor > largest_size) {
            complain(size.size.column, "so much for each is no amount that anybody measures out");
            return std::nullopt;
        }
        const auto each = each_of(basis, rate);
        if (!each) return std::nullopt;
        const Estimate middle = middle_of(size.size);
        const double scale = *factor / *each;
        rate.size = {middle.low * scale, middle.typical * scale, middle.high * scale};
        return rate;
    }

    /// How many m2, kg or L the basis is; sets what it is of.
    std::optional<double> each_of(const written::Basis& basis, Rate& rate) {
        const Unit* unit = is_bucket(basis.unit) ? find_unit("L") : unit_of(basis.unit);
        if (!unit) return std::nullopt;
        const double number = basis.number * unit->factor;
        if (const written::Part* part = std::get_if<written::Part>(&basis.what)) {
            rate.part = part_of(*part);
            if (unit->dimension == Dimension::mass) {
                rate.each = Rate::Each::kg;
            } else if (unit->dimension == Dimension::volume) {
                rate.each = Rate::Each::litre;
            } else if (unit->dimension == Dimension::area && part->what == written::Part::What::all) {
                rate.each = Rate::Each::m2;
            } else if (unit->dimension == Dimension::area) {
                complain(basis.unit.column, "only a bed, a heap or a bay has an area");
                return std::nullopt;
            } else {
                complain(basis.unit.column,
                         "'for each' wants an area, a mass or a volume, and '" + basis.unit.text + "' is none");
                return std::nullopt;
            }
            return number;
        }
        const written::Name& name = std::get<written::Name>(basis.what);
        const auto stuff = stuff_of(name);
        if (!stuff) return std::nullopt;
        if (basis.fill) {
            if (stuff->kind != Stuff::Kind::material || unit->dimension != Dimension::volume || rate.by != MeasuredBy::volume) {
                complain(basis.column, "what fills a place is a material, by volume on both sides");
                return std::nullopt;
            }
            rate.each = Rate::Each::litre_of_filling;
            rate.filling = stuff->material;
            rate.part.where = *basis.fill;
            return number;
        }
        if (stuff->kind != Stuff::Kind::worms || unit->dimension != Dimension::mass) {
            complain(name.column, "'for each' goes by kilograms of worms, by a part of the tank, or by what fills it",
                     "for instance 'bucket of " + name.text + " to fill the bay'");
            return std::nullopt;
        }
        rate.each = Rate::Each::kg_of_worms;
        rate.part.where = Where::bed;
        return number;
    }

    static bool is_bucket(const written::Name& unit) { return unit.text == "bucket" || unit.text == "buckets"; }

    /// The unit's value in kg or L, by whichever of the two it is.
    std::optional<double> factor_of(const written::Name& unit_name, Dimension mass, Dimension volume, MeasuredBy& by) {
        by = MeasuredBy::volume;
        if (is_bucket(unit_name)) return 1;
        const Unit* unit = unit_of(unit_name);
        if (!unit) return std::nullopt;
        if (unit->dimension == mass) by = MeasuredBy::mass;
        if (unit->dimension == mass || unit->dimension == volume) return unit->factor;
        complain(unit_name.column, "'" + unit_name.text + "' is neither a mass nor a volume");
        return std::nullopt;
    }

    Estimate metres(const written::Measured& depth, double most) {
        const Unit* unit = unit_of(depth.unit);
        if (!unit) return {};
        if (unit->dimension != Dimension::length) {
            complain(depth.unit.column, "'" + depth.unit.text + "' is no length");
            return {};
        }
        if (!(depth.size.low > 0) || depth.size.high * unit->factor > most)
            complain(depth.size.column, "a depth lies above 0 and is at most " + number_to_text(most) + " m");
        const Estimate middle = middle_of(depth.size);
        return {middle.low * unit->factor, middle.typical * unit->factor, middle.high * unit->factor};
    }

    TankPart part_of(const written::Part& part) {
        TankPart result{part.what, part.where, 0};
        if (part.what == written::Part::What::top) {
            result.depth = metres(part.depth, deepest_top).typical;
            if (part.depth.size.low != part.depth.size.high)
                complain(part.depth.size.column, "the top has one depth", "for instance 'the top 20 cm'");
        }
        return result;
    }

    const Unit* unit_of(const written::Name& name) {
        const Unit* unit = find_unit(name.text);
        if (!unit) {
            std::vector<std::string> known = unit_names();
            known.push_back("buckets");
            complain(name.column, "there is no unit '" + name.text + "'", did_you_mean(name.text, known));
        }
        return unit;
    }

    std::optional<Stuff> stuff_of(const written::Name& name) {
        for (const auto& [word, kind] : own_words)
            if (name.text == word) return Stuff{kind, {}};
        if (const auto material = rule_base_.materials.find(name.text)) return Stuff{Stuff::Kind::material, *material};
        complain(name.column, "there is no material '" + name.text + "'", nearest_of(complaints_, name.text, [&] {
                     std::vector<std::string> known = rule_base_.materials.ids();
                     for (const auto& [word, kind] : own_words) known.emplace_back(word);
                     return known;
                 }));
        return std::nullopt;
    }

    static Estimate middle_of(const written::Span& span) { return {span.low, (span.low + span.high) / 2, span.high}; }

    void complain(int column, std::string text, std::string hint = {}) {
        good_ = false;
        complaints_.add(place_inside(node_, column), std::move(text), std::move(hint));
    }

    const YamlNode& node_;
    const RuleBase& rule_base_;
    Complaints& complaints_;
    bool good_ = true;
};

}  // namespace

std::vector<MeasuredOut> read_measured_out(Entry& entry, const RuleBase& rule_base) {
    std::vector<MeasuredOut> result;
    for (const YamlNode* node : entry.list("measured out")) {
        if (!require_text(*node, "an amount", entry.complaints())) continue;
        if (result.size() == most_measured_out) {
            entry.complain(node->place, "a step measures out at most " + std::to_string(most_measured_out) + " things");
            break;
        }
        const auto formula = read_amount_formula(node->text);
        if (!formula) {
            entry.complain(place_inside(*node, formula.fault().column),
                           "in the amount '" + node->text + "': " + formula.fault().text);
            continue;
        }
        if (auto resolved = AmountResolver(*node, rule_base, entry.complaints()).resolve(*formula))
            result.push_back({std::move(*resolved), node->text, node->place});
    }
    return result;
}

}  // namespace lidlift::reader
