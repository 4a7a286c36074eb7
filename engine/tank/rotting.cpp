#include "engine/tank/rotting.hpp"

#include <algorithm>
#include <cmath>

namespace lidlift::tank {
namespace {

/// What is left in the end, and in how many days the rest of it falls to a third (1/e).
struct Course {
    double rest;
    double days;
};

constexpr double typical_rest = 0.35;
constexpr double soares_left = 0.54;
constexpr double soares_days = 29;

double left(const Course& course, int days) {
    return course.rest + (1 - course.rest) * std::exp(-std::max(days, 0) / course.days);
}

/// Low is the fast course.
Estimate left(int days, const Estimate& rest) {
    const double typical_days = soares_days / std::log((1 - typical_rest) / (soares_left - typical_rest));
    return {left({rest.low, typical_days / 1.5}, days), left({rest.typical, typical_days}, days),
            left({rest.high, typical_days * 2}, days)};
}

constexpr Estimate drained = {60, 75, 85};

}  // namespace

Estimate dry_matter_left(int days) { return left(days, {0.30, typical_rest, 0.50}); }

Estimate volume_left(int days) { return left(days, volume_in_the_end()); }

Estimate volume_in_the_end() { return {0.40, 0.55, 0.70}; }

Estimate moisture_settled(const Estimate& as_filled) {
    return {std::min(as_filled.low, drained.low), std::min(as_filled.typical, drained.typical),
            std::min(as_filled.high, drained.high)};
}

}  // namespace lidlift::tank
