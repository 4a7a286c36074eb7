#include "engine/review/sayable_number.hpp"

#include <array>
#include <charconv>
#include <cmath>
#include <system_error>

namespace lidlift::logic {
namespace {

constexpr int most_digits = 15;  ///< significant, as read_number takes them

/// Decimal text with at most 15 significant digits that reads back as `number`.
std::optional<std::string> decimal_text(double number) {
    if (!std::isfinite(number)) return std::nullopt;
    const int before_point = number == 0 ? 1 : static_cast<int>(std::floor(std::log10(std::fabs(number)))) + 1;
    for (int decimals = 0; decimals <= most_digits; ++decimals) {
        if (before_point + decimals > most_digits && before_point > 0) break;
        std::array<char, 64> buffer;
        const auto end =
            std::to_chars(buffer.data(), buffer.data() + buffer.size(), number, std::chars_format::fixed, decimals);
        if (end.ec != std::errc{}) return std::nullopt;
        const std::string text(buffer.data(), end.ptr);
        if (const auto read = read_number(text); read && *read == number) return text;
    }
    return std::nullopt;
}

std::string with_unit(const std::string& number, const Unit& unit) {
    return unit.name.empty() ? number : number + " " + std::string(unit.name);
}

}  // namespace

std::optional<std::string> exact_text(double number, const Unit& unit) {
    const auto reads_back = [&](const std::string& text) {
        const auto quantity = read_quantity(text);
        if (!quantity) return false;
        const auto converted = convert(*quantity, unit);
        return converted && *converted == number;
    };
    if (const std::string plain = quantity_to_text(number, unit); reads_back(plain)) return plain;
    std::optional<std::string> shortest;
    const auto offer = [&](const std::string& text) {
        if (reads_back(text) && (!shortest || text.size() < shortest->size())) shortest = text;
    };
    if (const auto text = decimal_text(number)) offer(with_unit(*text, unit));
    for (const std::string& name : unit_names()) {
        const Unit* other = find_unit(name);
        if (!other || other->dimension != unit.dimension || other->name == unit.name) continue;
        const double there = (number * unit.factor + unit.offset - other->offset) / other->factor;
        offer(quantity_to_text(there, *other));
    }
    return shortest;
}

std::optional<double> plainest_number(const Range& range, const Unit& unit) {
    if (range.low == range.high) {
        if (exact_text(range.low, unit)) return range.low;
        return std::nullopt;
    }
    const auto inside = [&](double number) { return range.contains({number, number, true, true}) && exact_text(number, unit); };
    const bool from = std::isfinite(range.low);
    const bool to = std::isfinite(range.high);
    if (!from && !to) return 0;
    if (!from) return std::floor(range.high) - 1;
    if (!to) return std::ceil(range.low) + 1;
    for (int decimals = 0; decimals <= most_digits; ++decimals) {
        const double grid = std::pow(10.0, decimals);
        // The one nearest to the middle, so that a witness does not sit on the brink.
        const double middle = std::round((range.low + range.high) / 2 * grid) / grid;
        for (const double step : {0.0, 1.0, -1.0})
            if (const double number = middle + step / grid; inside(number)) return number;
    }
    return std::nullopt;
}

}  // namespace lidlift::logic
