// Sums with figures that are known within bounds. All quantities here are not negative.
#pragma once

#include "engine/estimate.hpp"

#include <algorithm>

namespace lidlift::tank {

[[nodiscard]] inline Estimate plus(const Estimate& a, const Estimate& b) {
    return {a.low + b.low, a.typical + b.typical, a.high + b.high};
}

/// Of two figures that have nothing to do with one another; neither negative.
[[nodiscard]] inline Estimate times(const Estimate& a, const Estimate& b) {
    return {a.low * b.low, a.typical * b.typical, a.high * b.high};
}

[[nodiscard]] inline Estimate times(const Estimate& a, double factor) {
    return {a.low * factor, a.typical * factor, a.high * factor};
}

/// `b.low` is above 0.
[[nodiscard]] inline Estimate over(const Estimate& a, const Estimate& b) {
    return {a.low / b.high, a.typical / b.typical, a.high / b.low};
}

[[nodiscard]] inline Estimate over(const Estimate& a, double divisor) { return times(a, 1 / divisor); }

[[nodiscard]] inline Estimate at_most(const Estimate& a, double limit) {
    return {std::min(a.low, limit), std::min(a.typical, limit), std::min(a.high, limit)};
}

}  // namespace lidlift::tank
