// A cause's balance sheet in whole points, with what moves it little gathered into one line.
#pragma once

#include "engine/ranking.hpp"

#include <cstddef>
#include <string>
#include <vector>

namespace lidlift::cli {

/// The lines rounded to whole points so that they add up to the rounded total, as a reader adds them up.
[[nodiscard]] std::vector<int> whole_points(const std::vector<BalanceLine>& lines);

struct BalancePoints {
    std::string text;
    int points = 0;
};

/// How common it is, at most `most` lines of evidence that move it by a point or more, the rest of them as one line, and what
/// other causes explain. Lines that read alike are one. Adds up to `sum_of` of the lines.
[[nodiscard]] std::vector<BalancePoints> condensed_balance(const std::vector<BalanceLine>& balance, std::size_t most);

/// Every line, those that read alike as one.
[[nodiscard]] std::vector<BalancePoints> whole_balance(const std::vector<BalanceLine>& balance);

[[nodiscard]] int sum_of(const std::vector<BalancePoints>& lines);

}  // namespace lidlift::cli
