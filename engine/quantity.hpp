// A number with its unit, from text and back, and from one unit to another of the same dimension.
#pragma once

#include "engine/outcome.hpp"

#include <optional>
#include <string>
#include <string_view>
#include <vector>

namespace lidlift {

enum class Dimension {
    plain,
    share,
    temperature,
    time,
    length,
    area,
    volume,
    mass,
    density,
    load,
    conductivity,
    content,
    acidity
};

/// A unit: its value in the dimension's base unit is `number * factor + offset`.
/// Base units: plain number, per cent, degree Celsius, day, metre, square metre, litre, kilogram, kg/m3, kg/m2, dS/m, mg/g, pH.
struct Unit {
    std::string_view name;  ///< as printed: "°C", "kg", "" for a plain number
    Dimension dimension;
    double factor;
    double offset;
};

/// The unit that `text` names ("°C", "C", "celsius", "day", "days", "%", "gal_us" ...; letter case matters only for L/l-like
/// single letters as the trade writes them), or null. "gal" alone is refused by returning null: US and imperial gallons differ
/// by a fifth.
[[nodiscard]] const Unit* find_unit(std::string_view text);

/// The unit that is printed as `name`, or null.
[[nodiscard]] const Unit* unit_printed_as(std::string_view name);

/// All unit names that find_unit takes, for "did you mean".
[[nodiscard]] const std::vector<std::string>& unit_names();

struct Quantity {
    double number = 0;           ///< finite
    const Unit* unit = nullptr;  ///< null: no unit was written
};

/// A decimal number: optional sign, digits, optional fraction with '.'. No exponent, hexadecimal, infinity, not-a-number or
/// thousands marks; at most 15 significant digits, so that every accepted number is exact. Leading zeros are decimal.
[[nodiscard]] std::optional<double> read_number(std::string_view text);

/// "31 °C", "31C", "31", "7 days", "12.5 %". Fault: what is wrong, with the nearest unit name.
[[nodiscard]] Outcome<Quantity> read_quantity(std::string_view text);

/// `quantity` in `unit`; a quantity without unit is taken to be in `unit` already. Fault when the dimensions differ, naming
/// both.
[[nodiscard]] Outcome<double> convert(const Quantity& quantity, const Unit& unit);

/// Number with as few digits as needed, at most 6 significant: "31", "12.5", "0.2".
[[nodiscard]] std::string number_to_text(double number);

/// For a page that people act on: two significant digits, three where the first is a 1, and no more than that of an estimate:
/// "34", "127", "340", "0.25". Neither infinite nor not-a-number.
[[nodiscard]] std::string rough_number(double number);

/// "31 °C", "12.5 %", "1 day", "7 days".
[[nodiscard]] std::string quantity_to_text(double number, const Unit& unit);

}  // namespace lidlift
