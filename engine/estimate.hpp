// A figure that is known within bounds: what one would take it to be, and how low and how high it may really be.
#pragma once

#include <optional>

namespace lidlift {

/// low <= typical <= high, all finite, in whatever unit the name that holds it says.
struct Estimate {
    double low = 0;
    double typical = 0;
    double high = 0;

    [[nodiscard]] static Estimate exactly(double value) { return {value, value, value}; }
    [[nodiscard]] bool is_exact() const { return low == high; }
    friend bool operator==(const Estimate&, const Estimate&) = default;
};

}  // namespace lidlift
