#include "engine/reader/tank_entries.hpp"

#include "engine/answers.hpp"
#include "engine/plain_text.hpp"

#include <algorithm>
#include <cmath>
#include <utility>

namespace lidlift::reader {
namespace {

constexpr double least = 1e-6;              ///< what is weighed or measured out is more than nothing
constexpr double most_on_the_scales = 200;  ///< kg
constexpr double most_kg_to_a_litre = 3;    ///< wet sand weighs two
constexpr double most_seeds = 10'000;
constexpr double longest_root = 1000;  ///< mm

/// A number as one would type it, for sentences.
std::string said(double number, std::string_view unit) { return quantity_to_text(number, *find_unit(unit)); }

/// What stands under `read` beside signs.
bool is_measurement(std::string_view key) { return key == "drying" || key == "bucket weighing" || key == "seed test"; }

bool is_one_word_with_underscore(std::string_view text) {
    return text.find('_') != std::string_view::npos && text.find_first_of(" \t\n") == std::string_view::npos;
}

}  // namespace

std::optional<double> read_measured(const YamlNode& node, std::string_view what, std::string_view unit, const Bounds& bounds,
                                    Complaints& complaints) {
    if (!require_text(node, quoted(what), complaints)) return std::nullopt;
    const Unit& wanted = *find_unit(unit);
    const auto quantity = read_quantity(node.text);
    if (!quantity) {
        complaints.add(node.place, quoted(what) + ": " + quantity.fault().text);
        return std::nullopt;
    }
    if (!quantity->unit) {
        complaints.add(node.place, quoted(what) + " lacks its unit", "for instance " + said(quantity->number, unit));
        return std::nullopt;
    }
    const auto number = convert(*quantity, wanted);
    if (!number) {
        complaints.add(node.place, quoted(what) + ": " + number.fault().text);
        return std::nullopt;
    }
    if (*number < bounds.low || *number > bounds.high) {
        const std::string low = bounds.low == least ? "more than 0" : "at least " + said(bounds.low, unit);
        complaints.add(node.place, quoted(what) + " should be " + low + " and at most " + said(bounds.high, unit) +
                                       ", but is " + quoted(node.text));
        return std::nullopt;
    }
    return *number;
}

/// One item of `entries` while it is read.
class TankEntryReader::One {
public:
    One(TankEntryReader& reader, const YamlNode& node, std::vector<RecordedEntry>& into)
        : record_(reader.record_),
          rule_base_(reader.rule_base_),
          materials_(reader.materials_),
          complaints_(reader.complaints_),
          entry_(node, "an entry", reader.complaints_),
          into_(into) {
        common_.place = node.place;
        const auto says_when_or_where = [](const YamlEntry& one) { return one.key == "on" || one.key == "bay"; };
        only_when_and_where_ =
            node.kind == YamlNode::Kind::map && !node.cut_off && std::ranges::all_of(node.entries, says_when_or_where);
    }

    void read() {
        const std::size_t before = into_.size();
        const YamlNode* on = entry_.node("on", Need::required);
        if (on && require_text(*on, "'on'", complaints_)) {
            const auto day = read_day(on->text);
            if (day)
                common_.on = *day;
            else
                complaints_.add(on->place, day.fault().text);
        }
        common_.note = entry_.text("note");
        read_bay();
        read_contents();
        if (into_.size() == before && said_nothing_ && !common_.note.empty()) add(Remarked{});
        if (said_nothing_ && common_.note.empty() && only_when_and_where_)
            entry_.complain(common_.place, "this entry says nothing",
                            "it takes added, sprinkled, worms in, worms out, read, saw, did, harvested, emptied, note");
        entry_.finish();
    }

private:
    void add(Happening what) {
        into_.push_back(common_);
        into_.back().what = std::move(what);
    }

    /// The value of a key that says something; the key alone keeps the entry from being empty.
    const YamlNode* happened(std::string_view key) {
        const YamlNode* node = entry_.node(key);
        if (node) said_nothing_ = false;
        return node;
    }

    void read_contents() {
        if (const YamlNode* node = happened("added")) {
            Added added{read_materials(*node, "added")};
            if (in_a_bay("added")) {
                check_room(added.materials, node->place);
                if (!added.materials.empty()) add(std::move(added));
            }
        }
        if (const YamlNode* node = happened("sprinkled")) {
            Sprinkled sprinkled{read_materials(*node, "sprinkled")};
            if (!sprinkled.materials.empty()) add(std::move(sprinkled));
        }
        constexpr Bounds worms{least, most_kg_of_worms};
        if (const YamlNode* node = happened("worms in")) {
            const auto kg = read_measured(*node, "worms in", "kg", worms, complaints_);
            if (in_a_bay("worms in") && kg) add(WormsIn{*kg});
        }
        if (const YamlNode* node = happened("worms out")) {
            const auto kg = read_measured(*node, "worms out", "kg", worms, complaints_);
            if (in_a_bay("worms out") && kg) add(WormsOut{*kg});
        }
        if (const YamlNode* node = happened("read")) read_instruments(*node);
        if (const YamlNode* node = happened("saw")) read_seen(*node);
        if (happened("did")) read_works();
        if (const YamlNode* node = happened("harvested")) {
            auto amount = read_some(*node, "harvested");
            if (in_a_bay("harvested") && amount) add(Harvested{std::move(*amount)});
        }
        if (const YamlNode* node = happened("emptied"))
            if (read_yes_no(*node, complaints_).value_or(false) && in_a_bay("emptied")) add(Emptied{});
    }

    void read_bay() {
        if (record_.bays.size() == 1) common_.bay = 0;
        const YamlNode* node = entry_.node("bay");
        if (!node) return;
        has_bay_ = true;
        if (!require_text(*node, "'bay'", complaints_)) return;
        const std::string key = bay_key(node->text);
        const auto found = std::ranges::find(record_.bays, key, [](const RecordedBay& bay) { return bay_key(bay.name); });
        if (found != record_.bays.end()) {
            common_.bay = static_cast<std::size_t>(found - record_.bays.begin());
            return;
        }
        const std::vector<std::string> names = bay_names();
        std::string hint = nearest_of(complaints_, node->text, [&] { return names; });
        if (hint.empty())
            hint = names.size() == 1 ? "its only bay is '" + names.front() + "'" : "its bays are " + listed(names);
        complaints_.add(node->place, "the tank has no bay " + quoted(node->text), std::move(hint));
    }

    [[nodiscard]] std::vector<std::string> bay_names() const {
        std::vector<std::string> names;
        for (const RecordedBay& bay : record_.bays) names.push_back(bay.name);
        return names;
    }

    /// What goes into or out of a bay needs to say which; of a bay that the tank lacks it was complained already.
    bool in_a_bay(std::string_view key) {
        if (common_.bay) return true;
        if (!has_bay_) entry_.complain(common_.place, quoted(key) + " needs the bay", "bay: " + listed(bay_names()));
        return false;
    }

    /// An amount within what one entry may hold.
    std::optional<Amount> read_some(const YamlNode& node, const std::string& what) {
        if (!require_text(node, "the amount of " + quoted(what), complaints_)) return std::nullopt;
        auto amount = read_amount(node.text, record_.vessels);
        if (!amount) {
            complaints_.add(node.place, quoted(what) + ": " + amount.fault().text);
            return std::nullopt;
        }
        const bool by_mass = amount->by == Amount::By::mass;
        const double most = by_mass ? most_kg_at_once : most_litres_at_once;
        if (amount->size < least || amount->size > most) {
            complaints_.add(node.place, quoted(what) + " should be more than 0 and at most " +
                                            (by_mass ? said(most / 1000, "t") : said(most / 1000, "m3")) + ", but is " +
                                            quoted(node.text));
            return std::nullopt;
        }
        return std::move(*amount);
    }

    std::vector<RecordedMaterial> read_materials(const YamlNode& node, const std::string& key) {
        std::vector<RecordedMaterial> result;
        if (node.kind != YamlNode::Kind::map) {
            complaints_.add(node.place, quoted(key) + " should be a map from material to amount",
                            key + ": {kitchen_waste: 3 buckets, dry_leaves: 20 kg}");
            return result;
        }
        if (node.entries.empty()) complaints_.add(node.place, quoted(key) + " names no material");
        if (node.entries.size() > most_materials_at_once) {
            complaints_.add(node.entries[most_materials_at_once].key_place,
                            quoted(key) + " holds more than " + std::to_string(most_materials_at_once) + " materials");
            return result;
        }
        for (const YamlEntry& one : node.entries)
            if (auto material = read_material(one, result)) result.push_back(std::move(*material));
        return result;
    }

    /// Without looking for the nearest name once nobody will read it: of thousands of names that would take its time.
    [[nodiscard]] Outcome<Handle<Material>> find_material(const std::string& name) const {
        if (!complaints_.full()) return materials_.find(name);
        const auto meant = materials_.meant_by(name);
        if (meant.size() == 1) return meant.front();
        return Fault{"there is no material " + quoted(name)};
    }

    std::optional<RecordedMaterial> read_material(const YamlEntry& one, const std::vector<RecordedMaterial>& earlier) {
        const auto handle = find_material(one.key);
        if (!handle) {
            complaints_.add(one.key_place, handle.fault().text);
            return std::nullopt;
        }
        if (std::ranges::find(earlier, *handle, &RecordedMaterial::material) != earlier.end()) {
            complaints_.add(one.key_place, quoted(one.key) + " is named twice here", "add the amounts up");
            return std::nullopt;
        }
        auto amount = read_some(one.value, one.key);
        if (!amount) return std::nullopt;
        RecordedMaterial result{*handle, std::move(*amount), {}};
        const double size = result.amount.size;
        if (result.amount.by == Amount::By::mass) {
            result.kg = Estimate::exactly(size);
        } else if (const auto& density = rule_base_.materials[*handle].density) {
            const Estimate& d = density->value;  // kg/m3
            result.kg = {size * d.low / 1000, size * d.typical / 1000, size * d.high / 1000};
        } else {
            complaints_.add(one.value.place, "nobody has weighed a litre of " + quoted(one.key) + " yet",
                            "give its mass, in kg");
            return std::nullopt;
        }
        return result;
    }

    /// A slip such as 300 buckets for 30: more than a heaped bay can ever take.
    void check_room(const std::vector<RecordedMaterial>& materials, const Place& place) {
        const RecordedBay& bay = record_.bays[*common_.bay];
        const double holds = bay.area * bay.height * 1000;
        if (holds <= 0) return;
        double litres = 0;  // at least
        for (const RecordedMaterial& one : materials) {
            const auto& density = rule_base_.materials[one.material].density;
            if (one.amount.by == Amount::By::volume)
                litres += one.amount.size;
            else if (density && density->value.high > 0)
                litres += one.amount.size / density->value.high * 1000;
        }
        if (litres > times_over_full * holds)
            complaints_.add(place,
                            "this is at least " + said(std::floor(litres), "L") + ", but the bay " + quoted(bay.name) +
                                " holds " + said(std::floor(holds), "L") + " up to the rim",
                            "check the amounts, their units, and the size of the bay");
    }

    /// An answer as answer files have it.
    void read_sign(const YamlEntry& one, bool with_instrument) {
        Told told;
        Complaints of_this;
        hear_entry(told, rule_base_, one, of_this);
        for (const Complaint& complaint : of_this.sorted()) complaints_.add(complaint.place, complaint.text, complaint.hint);
        if (!of_this.empty() || told.order.empty()) return;
        const Handle<Sign> sign = told.order.front();
        const Observation* observation = told.facts.find(sign);
        if (!observation) {
            complaints_.add(one.value.place, "'?' says nothing in a record", "leave it out");
            return;
        }
        if (with_instrument && rule_base_.signs[sign].sort != SignSort::quantity) {
            complaints_.add(one.key_place, quoted(one.key) + " is not read off an instrument", "it belongs under 'saw'");
            return;
        }
        add(Noted{sign, *observation, with_instrument});
    }

    bool is_map_of_signs(const YamlNode& node, const std::string& key, const std::string& hint) {
        if (node.kind == YamlNode::Kind::map && !node.entries.empty()) return true;
        complaints_.add(node.place,
                        node.kind == YamlNode::Kind::map ? quoted(key) + " is empty" : quoted(key) + " should be a map", hint);
        return false;
    }

    void read_seen(const YamlNode& node) {
        if (!is_map_of_signs(node, "saw", "saw: {smell_sour: faint}")) return;
        for (const YamlEntry& one : node.entries)
            if (is_measurement(one.key))
                complaints_.add(one.key_place, quoted(one.key) + " is a measurement", "it belongs under 'read'");
            else
                read_sign(one, false);
    }

    void read_instruments(const YamlNode& node) {
        if (!is_map_of_signs(node, "read", "read: {bed_temperature: 31 °C}")) return;
        for (const YamlEntry& one : node.entries) {
            if (one.key == "drying")
                read_drying(one.value);
            else if (one.key == "bucket weighing")
                read_bucket_weighing(one.value);
            else if (one.key == "seed test")
                read_seed_test(one.value);
            else
                read_sign(one, true);
        }
    }

    std::optional<double> weight(Entry& entry, std::string_view key, Need need) {
        const YamlNode* node = entry.node(key, need);
        if (!node) return std::nullopt;
        return read_measured(*node, key, "kg", {0, most_on_the_scales}, complaints_);
    }

    void read_drying(const YamlNode& node) {
        Entry drying(node, "'drying'", complaints_);
        const auto vessel = weight(drying, "vessel", Need::optional);
        const auto wet = weight(drying, "wet", Need::required);
        const auto dry = weight(drying, "dry", Need::required);
        const bool vessel_is_sound = vessel || !drying.node("vessel");
        drying.finish();
        if (!vessel_is_sound || !wet || !dry) return;
        const Dried dried{vessel.value_or(0), *wet, *dry};
        if (dried.dry > dried.wet)
            complaints_.add(node.place, "the sample is heavier dry than wet", "are the two weights in the right order?");
        else if (dried.dry <= dried.vessel)
            complaints_.add(node.place, "the dry sample weighs nothing once its vessel is taken off",
                            "'wet' and 'dry' are weighed together with the vessel");
        else
            add(dried);
    }

    void read_bucket_weighing(const YamlNode& node) {
        Entry weighing(node, "'bucket weighing'", complaints_);
        const auto vessel = weight(weighing, "vessel", Need::optional);
        const auto full = weight(weighing, "full", Need::required);
        const auto holds = read_holds(weighing);
        const bool vessel_is_sound = vessel || !weighing.node("vessel");
        weighing.finish();
        if (!vessel_is_sound || !full || !holds) return;
        const BucketWeighed weighed{vessel.value_or(0), *full, *holds};
        if (weighed.full <= weighed.vessel)
            complaints_.add(node.place, "the full vessel is no heavier than the empty one");
        else if ((weighed.full - weighed.vessel) / weighed.litres > most_kg_to_a_litre)
            complaints_.add(node.place,
                            "nothing in a tank weighs more than " + said(most_kg_to_a_litre, "kg") + " to the litre",
                            "check the weights, their units, and what the vessel holds");
        else
            add(weighed);
    }

    /// Litres of the vessel that was weighed.
    std::optional<double> read_holds(Entry& weighing) {
        const YamlNode* node = weighing.node("holds");
        if (!node) {
            if (const Vessel* bucket = record_.vessels.find("bucket")) return bucket->litres;
            weighing.complain(weighing.place(), "'bucket weighing' should say what the vessel holds", "holds: 10 L");
            return std::nullopt;
        }
        const auto amount = read_some(*node, "holds");
        if (!amount) return std::nullopt;
        if (amount->by == Amount::By::volume) return amount->size;
        complaints_.add(node->place, "'holds' should be a volume, but is " + quoted(node->text), "holds: 10 L");
        return std::nullopt;
    }

    struct Sprouted {
        double number = 0;
        bool share = false;
    };

    std::optional<Sprouted> sprouted(Entry& test, std::string_view key) {
        const YamlNode* node = test.node(key, Need::required);
        if (!node || !require_text(*node, quoted(key), complaints_)) return std::nullopt;
        const auto quantity = read_quantity(node->text);
        const bool share = quantity && quantity->unit && quantity->unit->dimension == Dimension::share;
        const double most = share ? 100 : most_seeds;
        if (quantity && (share || !quantity->unit) && quantity->number >= 0 && quantity->number <= most)
            return Sprouted{quantity->number, share};
        complaints_.add(node->place,
                        quoted(key) + " should be a number of seeds, or a share of them in %, but is " + quoted(node->text));
        return std::nullopt;
    }

    std::optional<double> root(Entry& test, std::string_view key) {
        const YamlNode* node = test.node(key, Need::required);
        if (!node) return std::nullopt;
        return read_measured(*node, key, "mm", {0, longest_root}, complaints_);
    }

    void read_seed_test(const YamlNode& node) {
        Entry test(node, "'seed test'", complaints_);
        const auto number = sprouted(test, "sprouted");
        const auto length = root(test, "root");
        const auto number_in_water = sprouted(test, "sprouted in water");
        const auto length_in_water = root(test, "root in water");
        test.finish();
        if (!number || !length || !number_in_water || !length_in_water) return;
        if (number->share != number_in_water->share)
            complaints_.add(node.place, "one of the two is a number of seeds and the other a share of them",
                            "say both in the same way");
        else
            add(SeedTested{number->number, *length, number_in_water->number, *length_in_water});
    }

    void read_works() {
        const auto items = entry_.list("did");
        if (items.empty() && entry_.node("did")->kind == YamlNode::Kind::list)
            complaints_.add(entry_.node("did")->place, "'did' is an empty list");
        if (items.size() > most_works_at_once) {
            complaints_.add(items[most_works_at_once]->place,
                            "'did' holds more than " + std::to_string(most_works_at_once) + " works");
            return;
        }
        for (const YamlNode* item : items) {
            if (!require_text(*item, "a work under 'did'", complaints_)) continue;
            const auto step = rule_base_.steps.find(item->text);
            if (!step && is_one_word_with_underscore(item->text)) {
                complaints_.add(item->place, "there is no step " + quoted(item->text),
                                nearest_of(complaints_, item->text, [&] { return rule_base_.steps.ids(); }));
                continue;
            }
            add(Did{step, item->text});
        }
    }

    const TankRecord& record_;
    const RuleBase& rule_base_;
    const MaterialNames& materials_;
    Complaints& complaints_;
    Entry entry_;
    std::vector<RecordedEntry>& into_;
    RecordedEntry common_;
    bool has_bay_ = false;
    bool said_nothing_ = true;
    bool only_when_and_where_ = false;  ///< a misspelt key is told by itself
};

TankEntryReader::TankEntryReader(const TankRecord& record, const RuleBase& rule_base, Complaints& complaints)
    : record_(record), rule_base_(rule_base), complaints_(complaints), materials_(rule_base) {}

void TankEntryReader::read(const YamlNode& node, std::vector<RecordedEntry>& into) { One(*this, node, into).read(); }

}  // namespace lidlift::reader
