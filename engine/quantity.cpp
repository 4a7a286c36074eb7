#include "engine/quantity.hpp"

#include "engine/nearest_name.hpp"
#include "engine/plain_text.hpp"

#include <algorithm>
#include <array>
#include <charconv>
#include <cmath>
#include <limits>

namespace lidlift {
namespace {

struct SpelledUnit {
    Unit unit;
    std::string_view spellings;  ///< separated by '|'
};

constexpr double days_per_month = 365.25 / 12;
constexpr double metres_per_foot = 0.3048;
constexpr double litres_per_cubic_foot = 28.316846592;
constexpr double litres_per_cubic_yard = 27 * litres_per_cubic_foot;
constexpr double litres_per_us_gallon = 3.785411784;
constexpr double square_metres_per_square_foot = 0.09290304;
constexpr double kilograms_per_pound = 0.45359237;
constexpr double celsius_per_fahrenheit = 5.0 / 9;

// Factors: NIST Special Publication 811, appendix B; for the imperial gallon the UK Weights and Measures Act (both from
// memory).
constexpr auto units = std::to_array<SpelledUnit>({
    {{"", Dimension::plain, 1, 0}, "plain"},
    {{"%", Dimension::share, 1, 0}, "%|percent|per cent|pct"},
    {{"°C", Dimension::temperature, 1, 0}, "°C|C|c|celsius|deg C|degC|degree celsius|degrees C|degrees celsius|° C|ºC|℃"},
    {{"°F", Dimension::temperature, celsius_per_fahrenheit, -32 * celsius_per_fahrenheit},
     "°F|F|f|fahrenheit|deg F|degF|degree fahrenheit|degrees F|degrees fahrenheit|° F|ºF|℉"},
    {{"K", Dimension::temperature, 1, -273.15}, "K|kelvin|kelvins"},
    {{"minutes", Dimension::time, 1.0 / (24 * 60), 0}, "minutes|minute|min|mins"},
    {{"hours", Dimension::time, 1.0 / 24, 0}, "hours|hour|h|hr|hrs"},
    {{"days", Dimension::time, 1, 0}, "days|day|d"},
    {{"weeks", Dimension::time, 7, 0}, "weeks|week|wk|wks"},
    {{"months", Dimension::time, days_per_month, 0}, "months|month"},
    {{"mm", Dimension::length, 0.001, 0}, "mm|millimetre|millimetres|millimeter|millimeters"},
    {{"cm", Dimension::length, 0.01, 0}, "cm|centimetre|centimetres|centimeter|centimeters"},
    {{"m", Dimension::length, 1, 0}, "m|metre|metres|meter|meters"},
    {{"in", Dimension::length, metres_per_foot / 12, 0}, "in|inch|inches"},
    {{"ft", Dimension::length, metres_per_foot, 0}, "ft|foot|feet"},
    {{"m2", Dimension::area, 1, 0}, "m2|m²|sq m|sqm|square metre|square metres|square meter|square meters"},
    {{"ft2", Dimension::area, square_metres_per_square_foot, 0}, "ft2|ft²|sq ft|sqft|square foot|square feet"},
    {{"mL", Dimension::volume, 0.001, 0}, "mL|millilitre|millilitres|milliliter|milliliters"},
    {{"L", Dimension::volume, 1, 0}, "L|l|litre|litres|liter|liters"},
    {{"m3", Dimension::volume, 1000, 0}, "m3|m³|cubic metre|cubic metres|cubic meter|cubic meters"},
    {{"ft3", Dimension::volume, litres_per_cubic_foot, 0}, "ft3|ft³|cu ft|cubic foot|cubic feet"},
    {{"yd3", Dimension::volume, litres_per_cubic_yard, 0}, "yd3|yd³|cu yd|cubic yard|cubic yards"},
    {{"gal_us", Dimension::volume, litres_per_us_gallon, 0}, "gal_us|gal us|us gal|US gallon|US gallons"},
    {{"gal_imp", Dimension::volume, 4.54609, 0},
     "gal_imp|gal imp|imp gal|imperial gallon|imperial gallons|UK gallon|UK gallons"},
    {{"g", Dimension::mass, 0.001, 0}, "g|gram|grams|gramme|grammes"},
    {{"kg", Dimension::mass, 1, 0}, "kg|kilo|kilos|kilogram|kilograms|kilogramme|kilogrammes"},
    {{"t", Dimension::mass, 1000, 0}, "t|tonne|tonnes|metric ton|metric tons"},
    {{"lb", Dimension::mass, kilograms_per_pound, 0}, "lb|lbs|pound|pounds"},
    {{"oz", Dimension::mass, 0.028349523125, 0}, "oz|ounce|ounces"},
    {{"kg/m3", Dimension::density, 1, 0}, "kg/m3|kg/m³|g/L"},
    {{"kg/L", Dimension::density, 1000, 0}, "kg/L|t/m3|t/m³"},
    {{"g/cm3", Dimension::density, 1000, 0}, "g/cm3|g/cm³|g/mL|g/cc"},
    {{"lb/ft3", Dimension::density, 1000 * kilograms_per_pound / litres_per_cubic_foot, 0}, "lb/ft3|lb/ft³|lb/cu ft"},
    {{"lb/yd3", Dimension::density, 1000 * kilograms_per_pound / litres_per_cubic_yard, 0}, "lb/yd3|lb/yd³|lb/cu yd"},
    {{"lb/gal_us", Dimension::density, 1000 * kilograms_per_pound / litres_per_us_gallon, 0}, "lb/gal_us|lb/us gal"},
    {{"kg/m2", Dimension::load, 1, 0}, "kg/m2|kg/m²"},
    {{"lb/ft2", Dimension::load, kilograms_per_pound / square_metres_per_square_foot, 0}, "lb/ft2|lb/ft²|lb/sq ft"},
    {{"dS/m", Dimension::conductivity, 1, 0}, "dS/m"},
    {{"mS/cm", Dimension::conductivity, 1, 0}, "mS/cm"},
    {{"mg/g", Dimension::content, 1, 0}, "mg/g"},
    {{"g/kg", Dimension::content, 1, 0}, "g/kg"},
    {{"pH", Dimension::acidity, 1, 0}, "pH"},
});

constexpr int most_digits = std::numeric_limits<double>::digits10;  // 15

bool is_digit(char c) { return c >= '0' && c <= '9'; }

/// Digits, with at most one point between them.
bool is_decimal(std::string_view text) {
    if (text.empty() || !is_digit(text.front()) || !is_digit(text.back())) return false;
    const std::size_t point = text.find('.');
    return std::ranges::all_of(text.substr(0, point), is_digit) &&
           (point == std::string_view::npos || std::ranges::all_of(text.substr(point + 1), is_digit));
}

char lower(char c) { return c >= 'A' && c <= 'Z' ? static_cast<char>(c - 'A' + 'a') : c; }

bool same_but_for_case(std::string_view a, std::string_view b) {
    return std::ranges::equal(a, b, [](char x, char y) { return lower(x) == lower(y); });
}

/// A single letter is taken as it stands ("m" is no "M"); longer spellings in any letter case.
bool same_spelling(std::string_view a, std::string_view b) { return a.size() == 1 ? a == b : same_but_for_case(a, b); }

std::string_view trimmed(std::string_view text) {
    while (!text.empty() && (text.front() == ' ' || text.front() == '\t')) text.remove_prefix(1);
    while (!text.empty() && (text.back() == ' ' || text.back() == '\t')) text.remove_suffix(1);
    return text;
}

/// Calls `use` with every spelling until it returns true; says whether it did.
template <class Use>
bool any_spelling(std::string_view spellings, Use use) {
    while (true) {
        const std::size_t bar = spellings.find('|');
        if (use(spellings.substr(0, bar))) return true;
        if (bar == std::string_view::npos) return false;
        spellings.remove_prefix(bar + 1);
    }
}

std::string_view name_of(Dimension dimension) {
    switch (dimension) {
        case Dimension::plain:
            return "a plain number";
        case Dimension::share:
            return "a share";
        case Dimension::temperature:
            return "a temperature";
        case Dimension::time:
            return "a time";
        case Dimension::length:
            return "a length";
        case Dimension::area:
            return "an area";
        case Dimension::volume:
            return "a volume";
        case Dimension::mass:
            return "a mass";
        case Dimension::density:
            return "a density";
        case Dimension::load:
            return "a load on an area";
        case Dimension::conductivity:
            return "a conductivity";
        case Dimension::content:
            return "a content";
        case Dimension::acidity:
            return "an acidity";
    }
    return "a number";
}

/// "a temperature (°C)"
std::string described(const Unit& unit) {
    std::string text(name_of(unit.dimension));
    if (!unit.name.empty()) text += " (" + std::string(unit.name) + ")";
    return text;
}

Fault not_plain(std::string_view number, int column) {
    return {quoted(number) + " is not a plain decimal number: digits, at most " + std::to_string(most_digits) +
                ", with '.' for the fraction",
            column};
}

Fault unknown_unit(std::string_view name, int column) {
    for (const std::string_view gallon : {"gal", "gals", "gallon", "gallons"})
        if (same_but_for_case(name, gallon))
            return {quoted(name) + " may be a US or an imperial gallon: write gal_us or gal_imp", column};
    for (const std::string_view per_gallon : {"lb/gal", "lbs/gal", "lb/gallon"})
        if (same_but_for_case(name, per_gallon))
            return {quoted(name) + " may be a US or an imperial gallon: write lb/gal_us, or kg/L", column};
    const std::string hint = did_you_mean(name, unit_names());
    return {quoted(name) + " is not a unit" + (hint.empty() ? "" : "; " + hint), column};
}

/// `number` to the last decimal place that a double as large as `largest` can carry: 95 °F is 35 °C and meets a limit of 35.
double without_rounding_noise(double number, double largest) {
    if (largest <= 0) return number;
    const int places = 13 - static_cast<int>(std::floor(std::log10(largest)));
    if (places <= 0) return number;
    const double scale = std::pow(10, places);
    const double rounded = std::round(number * scale) / scale;
    return std::isfinite(rounded) ? rounded + 0.0 : number;
}

}  // namespace

const Unit* find_unit(std::string_view text) {
    const auto is_meant = [text](std::string_view spelling) { return same_spelling(spelling, text); };
    for (const SpelledUnit& known : units)
        if (any_spelling(known.spellings, is_meant)) return &known.unit;
    return nullptr;
}

const Unit* unit_printed_as(std::string_view name) {
    for (const SpelledUnit& known : units)
        if (known.unit.name == name) return &known.unit;
    return nullptr;
}

const std::vector<std::string>& unit_names() {
    static const std::vector<std::string> names = [] {
        std::vector<std::string> result;
        const auto collect = [&result](std::string_view spelling) {
            result.emplace_back(spelling);
            return false;
        };
        for (const SpelledUnit& known : units) any_spelling(known.spellings, collect);
        return result;
    }();
    return names;
}

std::optional<double> read_number(std::string_view text) {
    const bool negative = text.starts_with('-');
    if (negative || text.starts_with('+')) text.remove_prefix(1);
    if (!is_decimal(text)) return std::nullopt;
    const std::string_view significant = text.substr(std::min(text.find_first_of("123456789"), text.size()));
    if (std::ranges::count_if(significant, is_digit) > most_digits) return std::nullopt;
    double number = 0;
    const auto result = std::from_chars(text.data(), text.data() + text.size(), number, std::chars_format::fixed);
    if (result.ec != std::errc{}) return std::nullopt;  // nearer to zero than any double
    return negative ? 0.0 - number : number;            // "-0" is 0
}

Outcome<Quantity> read_quantity(std::string_view text) {
    // What stands before a unit is ASCII, so bytes are columns.
    const auto column_of = [text](std::string_view part) { return static_cast<int>(part.data() - text.data()) + 1; };
    std::string_view rest = trimmed(text);
    Quantity quantity;
    if (same_but_for_case(rest.substr(0, 2), "pH")) {
        quantity.unit = find_unit("pH");
        rest = trimmed(rest.substr(2));
    }
    if (rest.empty()) return Fault{"a number is missing", 1};
    const std::string_view digits = rest.substr(0, rest.find_first_not_of("0123456789.,_+-"));
    if (digits.empty()) return Fault{quoted(rest) + " does not begin with a number", column_of(rest)};
    const std::optional<double> number = read_number(digits);
    if (!number) return not_plain(digits, column_of(digits));
    quantity.number = *number;

    const std::string_view unit = trimmed(rest.substr(digits.size()));
    if (unit.empty()) return quantity;
    if (quantity.unit != nullptr) return Fault{quoted(unit) + " stands after a pH value", column_of(unit)};
    quantity.unit = find_unit(unit);
    if (quantity.unit != nullptr) return quantity;
    const std::string_view word = unit.substr(0, unit.find(' '));
    const bool is_attached = unit.data() == digits.data() + digits.size();
    const bool is_number = is_digit(word.back()) && (is_attached || is_digit(word.front()));  // "1e3", "0x10", "1 000"
    if (is_number) return not_plain(rest.substr(0, rest.find(word, digits.size()) + word.size()), column_of(digits));
    return unknown_unit(unit, column_of(unit));
}

Outcome<double> convert(const Quantity& quantity, const Unit& unit) {
    if (quantity.unit == nullptr || quantity.unit == &unit) return quantity.number;
    const Unit& from = *quantity.unit;
    if (from.dimension != unit.dimension) return Fault{described(from) + " was given where " + described(unit) + " is wanted"};
    const double base = quantity.number * from.factor + from.offset;
    const double number = (base - unit.offset) / unit.factor;
    const double sizes[] = {quantity.number, quantity.number * from.factor, from.offset, unit.offset, number};
    double largest = 0;
    for (const double size : sizes) largest = std::max(largest, std::abs(size));
    return without_rounding_noise(number, largest);
}

std::string number_to_text(double number) {
    // First to 6 significant digits, then the shortest text of what is left, never with an exponent.
    std::array<char, 400> buffer;  // the longest double without exponent has 327 characters
    char* const begin = buffer.data();
    char* const end = begin + buffer.size();
    const char* rounded_end = std::to_chars(begin, end, number, std::chars_format::scientific, 5).ptr;
    double rounded = 0;
    std::from_chars(begin, rounded_end, rounded);
    return {begin, std::to_chars(begin, end, rounded + 0.0, std::chars_format::fixed).ptr};
}

std::string rough_number(double number) {
    if (number == 0) return "0";
    const double unit = std::pow(10, std::floor(std::log10(std::abs(number))) - 1);  // of the second digit
    const double step = std::abs(number) < 19.5 * unit ? unit / 10 : unit;
    return number_to_text(std::round(number / step) * step);
}

std::string quantity_to_text(double number, const Unit& unit) {
    const std::string digits = number_to_text(number);
    if (unit.dimension == Dimension::acidity) return std::string(unit.name) + " " + digits;
    if (unit.name.empty()) return digits;
    const bool is_one = unit.dimension == Dimension::time && digits == "1";
    return digits + " " + std::string(is_one ? unit.name.substr(0, unit.name.size() - 1) : unit.name);  // "1 day"
}

}  // namespace lidlift
