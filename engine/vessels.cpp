#include "engine/vessels.hpp"

#include "engine/nearest_name.hpp"
#include "engine/plain_text.hpp"

#include <algorithm>
#include <array>
#include <cmath>
#include <utility>

namespace lidlift {
namespace {

/// What people measure out with; a size has to be stated for any of them.
constexpr auto usual_measures =
    std::to_array<std::string_view>({"bucket", "barrow", "wheelbarrow", "pail", "tub", "crate", "sack", "bag", "bin", "basket",
                                     "box", "caddy", "barrel", "load"});

struct Count {
    std::string_view word;
    double number;
};
constexpr auto counts = std::to_array<Count>({{"a", 1},
                                              {"an", 1},
                                              {"one", 1},
                                              {"two", 2},
                                              {"three", 3},
                                              {"four", 4},
                                              {"five", 5},
                                              {"six", 6},
                                              {"seven", 7},
                                              {"eight", 8},
                                              {"nine", 9},
                                              {"ten", 10},
                                              {"half", 0.5},
                                              {"quarter", 0.25}});

std::string lower(std::string_view text) {
    std::string result(text);
    for (char& c : result)
        if (c >= 'A' && c <= 'Z') c = static_cast<char>(c - 'A' + 'a');
    return result;
}

std::string_view trimmed(std::string_view text) {
    while (!text.empty() && text.front() == ' ') text.remove_prefix(1);
    while (!text.empty() && text.back() == ' ') text.remove_suffix(1);
    return text;
}

/// "buckets" -> "bucket", "boxes" -> "box", "caddies" -> "caddy".
std::string singular(std::string_view name) {
    std::string word = lower(trimmed(name));
    if (word.ends_with("ies") && word.size() > 4) return word.substr(0, word.size() - 3) + "y";
    if (word.ends_with("xes")) return word.substr(0, word.size() - 2);
    if (word.ends_with('s') && !word.ends_with("ss") && word.size() > 2) word.pop_back();
    return word;
}

std::string plural(const std::string& name) {
    if (name.ends_with('y') && name.size() > 1 && std::string_view("aeiou").find(name[name.size() - 2]) == std::string::npos)
        return name.substr(0, name.size() - 1) + "ies";
    return name + (name.ends_with('x') ? "es" : "s");
}

/// The measure that `name` is when nobody stated one of that very name.
std::string_view same_measure(std::string_view name) {
    if (name == "wheelbarrow") return "barrow";
    if (name == "barrow") return "wheelbarrow";
    if (name == "pail") return "bucket";
    return {};
}

bool is_plain_word(std::string_view word) {
    return !word.empty() && word.size() <= longest_measure &&
           std::ranges::all_of(word, [](char c) { return (c >= 'a' && c <= 'z') || c == '_' || c == '-'; });
}

bool is_amount(const Unit& unit) { return unit.dimension == Dimension::mass || unit.dimension == Dimension::volume; }

Outcome<Amount> amount_of(double size, Amount::By by, std::string_view written) {
    if (size < 0) return Fault{quoted(written) + " is less than nothing"};
    if (size > largest_amount)
        return Fault{quoted(written) + " is more than anybody can mean: an amount is at most " +
                     number_to_text(largest_amount) + (by == Amount::By::mass ? " kg" : " L")};
    return Amount{by, size, std::string(written)};
}

/// `quantity`, which has a unit, as an amount.
Outcome<Amount> amount_in_units(const Quantity& quantity, std::string_view written) {
    const bool by_mass = quantity.unit->dimension == Dimension::mass;
    const Outcome<double> size = convert(quantity, *find_unit(by_mass ? "kg" : "L"));
    if (!size) return size.fault();
    return amount_of(*size, by_mass ? Amount::By::mass : Amount::By::volume, written);
}

constexpr const char* what_is_wanted = "an amount is a mass (12 kg), a volume (30 L) or a measure (3 buckets of 10 L)";

/// A number in digits or words before a measure: "3 buckets", "half a bucket", "two barrows".
struct Counted {
    double number = 0;
    std::string_view measure;
};
std::optional<Counted> read_counted(std::string_view text) {
    Counted counted{1, text};
    bool any = false;
    while (true) {  // "half", "a": each word of the count multiplies
        const std::size_t end = counted.measure.find(' ');
        if (end == std::string_view::npos) break;
        const std::string word = lower(counted.measure.substr(0, end));
        const auto* const known = std::ranges::find(counts, word, &Count::word);
        const std::optional<double> number = read_number(word);
        if (known == counts.end() && !number) break;
        if (any && word != "a" && word != "an" && !(word == "half" || word == "quarter"))
            return std::nullopt;  // "two three buckets"
        counted.number *= number ? *number : known->number;
        counted.measure = trimmed(counted.measure.substr(end));
        any = true;
    }
    if (!any || counted.measure.find(' ') != std::string_view::npos) return std::nullopt;
    return counted;
}

}  // namespace

Outcome<Vessel> read_vessel(std::string_view name, std::string_view size) {
    const std::string word = singular(name);
    if (!is_plain_word(word))
        return Fault{quoted(name) + " cannot name a measure: take one word of letters, at most " +
                     std::to_string(longest_measure) + " of them, such as bucket"};
    if (find_unit(name) != nullptr || find_unit(word) != nullptr)
        return Fault{quoted(name) + " is a unit already; its size cannot be stated"};
    const Outcome<Quantity> quantity = read_quantity(size);
    if (!quantity) return quantity.fault();
    if (quantity->unit == nullptr) return Fault{"how large is a " + word + "? " + quoted(size) + " has no unit; write 10 L"};
    const Outcome<double> litres = convert(*quantity, *find_unit("L"));
    if (!litres) return litres.fault();
    if (!(*litres > 0 && *litres <= largest_vessel))
        return Fault{"a " + word + " of " + std::string(trimmed(size)) + " cannot be: it holds more than nothing and at most " +
                     number_to_text(largest_vessel) + " L"};
    return Vessel{word, *litres};
}

void Vessels::state(Vessel vessel) {
    const auto known = std::ranges::find(vessels_, vessel.name, &Vessel::name);
    if (known == vessels_.end())
        vessels_.push_back(std::move(vessel));
    else
        *known = std::move(vessel);
}

const Vessel* Vessels::find(std::string_view name) const {
    const std::string word = lower(trimmed(name));
    const std::string one = singular(word);
    for (const std::string_view meant : {std::string_view(word), std::string_view(one), same_measure(one)})
        for (const Vessel& vessel : vessels_)
            if (vessel.name == meant) return &vessel;
    return nullptr;
}

Outcome<Amount> read_amount(std::string_view text, const Vessels& vessels) {
    const std::string_view written = trimmed(text);
    if (written.empty()) return Fault{std::string("an amount is missing: ") + what_is_wanted};

    const std::size_t of = lower(written).find(" of ");
    const std::string_view before = trimmed(written.substr(0, of));
    const Outcome<Quantity> quantity = read_quantity(before);
    if (quantity) {
        if (of != std::string_view::npos && quantity->unit != nullptr)
            return Fault{quoted(written.substr(of + 1)) +
                         " stands after a unit; a size is stated of a measure (3 buckets of 10 L)"};
        if (quantity->unit == nullptr) return Fault{quoted(written) + " has no unit: " + what_is_wanted};
        if (!is_amount(*quantity->unit)) return Fault{quoted(written) + " is neither a mass nor a volume: " + what_is_wanted};
        return amount_in_units(*quantity, written);
    }
    const std::optional<Counted> counted = read_counted(before);
    if (!counted) return quantity.fault();
    const std::string measure = singular(counted->measure);

    if (const Unit* unit = find_unit(counted->measure); unit != nullptr && is_amount(*unit) && of == std::string_view::npos)
        return amount_in_units({counted->number, unit}, written);  // "half a kilo"
    if (of != std::string_view::npos) {
        const std::string_view size = trimmed(written.substr(of + 4));
        if (const Outcome<Quantity> each = read_quantity(size);
            each && each->unit != nullptr && each->unit->dimension == Dimension::mass) {
            Outcome<Amount> one = amount_in_units(*each, written);  // "2 sacks of 15 kg"
            return one ? amount_of(counted->number * one->size, Amount::By::mass, written) : one.fault();
        }
        const Outcome<Vessel> vessel = read_vessel(counted->measure, size);
        if (!vessel) return vessel.fault();
        return amount_of(counted->number * vessel->litres, Amount::By::volume, written);
    }
    if (const Vessel* vessel = vessels.find(counted->measure))
        return amount_of(counted->number * vessel->litres, Amount::By::volume, written);
    if (is_measure(counted->measure, vessels))
        return Fault{"nobody stated how much a " + measure + " holds: write '" + std::string(before) +
                     " of 10 L' with its size"};
    std::vector<std::string> known = unit_names();
    for (const Vessel& vessel : vessels.all()) known.push_back(vessel.name);
    for (const std::string_view usual : usual_measures) known.emplace_back(plural(std::string(usual)));
    const std::string hint = did_you_mean(counted->measure, known);
    if (find_unit(counted->measure) != nullptr || lower(counted->measure).starts_with("gal")) return quantity.fault();
    return Fault{quoted(counted->measure) + " is no unit and no measure" + (hint.empty() ? "" : "; " + hint) + "; " +
                 what_is_wanted};
}

bool is_measure(std::string_view word, const Vessels& vessels) {
    const Unit* unit = find_unit(word);
    return (unit != nullptr && is_amount(*unit)) || vessels.find(word) != nullptr ||
           std::ranges::find(usual_measures, singular(word)) != usual_measures.end();
}

std::string in_vessels(double litres, const Vessel& vessel) {
    const double number = litres / vessel.litres;
    const std::string count =
        number < 1 ? rough_number(number) : number_to_text(number < 10 ? std::round(2 * number) / 2 : std::round(number));
    return count + " " + (count == "1" ? vessel.name : plural(vessel.name));
}

}  // namespace lidlift
