// The least of a linear cost under a handful of linear limits.
//
// Our own simplex, and no library: mixtures have a few limits and at most some dozens of materials, and the libraries that
// Debian has cost every start of the program more than all the rest of it (Clp brings ten shared libraries with it).
#pragma once

#include <limits>
#include <optional>
#include <vector>

namespace lidlift {

inline constexpr double no_limit = std::numeric_limits<double>::infinity();

/// low <= factors * x <= high
struct LinearLimit {
    std::vector<double> factors;
    double low = -no_limit;
    double high = no_limit;
};

struct LinearProgramme {
    std::vector<double> cost;  ///< to be made least; one for each x
    std::vector<double> most;  ///< 0 <= x <= most; may be no_limit
    std::vector<LinearLimit> limits;
};

/// The best x, or nothing where no x keeps to the limits. Factors should be of the order of 1; a limit may be missed by 1e-9.
/// The cost must not fall without end, which none does whose factors are all at least 0.
[[nodiscard]] std::optional<std::vector<double>> solve(const LinearProgramme& programme);

}  // namespace lidlift
