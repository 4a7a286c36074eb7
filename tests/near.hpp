// Equal within an absolute tolerance that stands in the check itself; Catch2's own comparison adds a relative one.
#pragma once

#include "tests/catch.hpp"

#include <cmath>
#include <limits>

namespace lidlift::test {

inline Approx near(double value, double tolerance) { return Approx(value).epsilon(0).margin(tolerance); }

/// The largest of many differences, for one check in place of thousands. A difference that is not a number counts as endless.
class Worst {
public:
    void add(double a, double b) {
        const double difference = std::abs(a - b);
        if (!(difference <= worst_)) worst_ = std::isnan(difference) ? std::numeric_limits<double>::infinity() : difference;
    }
    [[nodiscard]] double value() const { return worst_; }

private:
    double worst_ = 0;
};

}  // namespace lidlift::test
