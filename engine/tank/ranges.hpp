// Sums with figures that are known within bounds. All quantities here are not negative.
#pragma once

#include "engine/estimate.hpp"

#include <algorithm>
#include <cmath>
#include <initializer_list>

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

/// A sum of figures that err independently of one another: their errors add up as squares, since it would take a conspiracy for
/// all of them to err the same way.
class IndependentSum {
public:
    void add(const Estimate& part) {
        typical_ += part.typical;
        below_ += (part.typical - part.low) * (part.typical - part.low);
        above_ += (part.high - part.typical) * (part.high - part.typical);
    }
    [[nodiscard]] Estimate value() const {
        return {std::max(0.0, typical_ - std::sqrt(below_)), typical_, typical_ + std::sqrt(above_)};
    }

private:
    double typical_ = 0;
    double below_ = 0;
    double above_ = 0;
};

/// A product of figures that err independently, by their ratios in the same way. All typical figures above 0.
[[nodiscard]] inline Estimate independent_product(std::initializer_list<Estimate> factors) {
    double typical = 1;
    double below = 0;
    double above = 0;
    constexpr double least = 1e-9;  // so that a figure that may be 0 has a ratio
    for (const Estimate& factor : factors) {
        typical *= factor.typical;
        below += std::pow(std::log(std::max(factor.low, least) / factor.typical), 2);
        above += std::pow(std::log(factor.high / factor.typical), 2);
    }
    return {typical * std::exp(-std::sqrt(below)), typical, typical * std::exp(std::sqrt(above))};
}

}  // namespace lidlift::tank
