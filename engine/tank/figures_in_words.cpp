#include "engine/tank/figures_in_words.hpp"

#include "engine/quantity.hpp"

#include <cmath>

namespace lidlift::tank {

std::string rounded(double number, int digits) {
    if (number == 0 || !std::isfinite(number)) return number == 0 ? "0" : number_to_text(number);
    const int places = digits - 1 - static_cast<int>(std::floor(std::log10(std::abs(number))));
    // Divided by a whole power of ten: multiplied by its inverse 0.3 would come out as 0.30000000000000004.
    const double scale = std::pow(10.0, std::abs(places));
    return number_to_text(places > 0 ? std::round(number * scale) / scale : std::round(number / scale) * scale);
}

std::string in_words(const Estimate& estimate, std::string_view unit) {
    const std::string low = rounded(estimate.low);
    const std::string high = rounded(estimate.high);
    const std::string size = estimate.is_exact() ? rounded(estimate.typical, estimate.typical < 100 ? 2 : 3)
                             : low == high       ? low
                                                 : low + " to " + high;
    return unit.empty() ? size : size + " " + std::string(unit);
}

std::string days_in_words(int days) { return counted(days, "day", "days"); }

std::string counted(int number, std::string_view singular, std::string_view plural) {
    return std::to_string(number) + " " + std::string(number == 1 ? singular : plural);
}

}  // namespace lidlift::tank
