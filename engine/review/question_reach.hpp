// What a question to the space of answers leads to: the signs and conclusions behind its wishes, and where numbers are cut.
#pragma once

#include "engine/review/answers_space.hpp"

#include <cstddef>
#include <map>
#include <set>
#include <span>
#include <vector>

namespace lidlift::logic {

/// Conclusions that the wishes lead to, in an order in which each comes after those it uses, and the signs behind them.
struct Reach {
    std::vector<Handle<Conclusion>> conclusions;
    std::set<Handle<Sign>> signs;
    std::map<Handle<Sign>, std::set<double>> cuts;
    std::size_t parts = 0;  ///< of all conditions involved
};

/// `rank` by conclusion: where it stands in the order in which they are worked out.
[[nodiscard]] Reach reach_of(const RuleBase& rule_base, const AnswersQuestion& question, std::span<const std::size_t> rank);

/// Numbers that no condition of the question tells apart, and the one that stands for them.
struct Cell {
    Range range;
    double number = 0;
};

/// The cells of a quantity between `cuts`, in order; those without a number that can be typed are left out.
[[nodiscard]] std::vector<Cell> cells_of(const Sign& sign, const std::set<double>& cuts);

}  // namespace lidlift::logic
