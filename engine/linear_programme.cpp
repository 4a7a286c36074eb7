#include "engine/linear_programme.hpp"

#include <algorithm>
#include <cmath>
#include <cstddef>

namespace lidlift {
namespace {

constexpr double smallest_pivot = 1e-11;  ///< what is smaller counts as 0
constexpr double largest_miss = 1e-9;
constexpr int most_pivots = 10'000;  ///< far more than any mixture takes; rounding could undo what Bland's rule promises

/// The two-phase simplex method on a dense tableau, with Bland's rule, under which it cannot run in circles (Bland, Math. Oper.
/// Res. 2 (1977) 103-107, from memory).
class Tableau {
public:
    explicit Tableau(const LinearProgramme& programme) : variables_(programme.cost.size()) {
        for (const LinearLimit& limit : programme.limits) {
            if (limit.low == limit.high) {
                add(limit.factors, limit.high, 0);
                continue;
            }
            if (limit.high < no_limit) add(limit.factors, limit.high, 1);
            if (limit.low > -no_limit) add(limit.factors, limit.low, -1);
        }
        for (std::size_t i = 0; i < variables_; ++i) {
            if (programme.most[i] == no_limit) continue;
            std::vector<double> factors(variables_, 0);
            factors[i] = 1;
            add(factors, programme.most[i], 1);
        }
        lay_out();
    }

    /// Some x that keeps to the limits, as the basis to begin with; false where there is none.
    bool find_any() {
        std::vector<double> artificial(columns_, 0);
        std::fill(artificial.begin() + static_cast<std::ptrdiff_t>(first_artificial_), artificial.end(), 1.0);
        minimise(artificial, columns_);
        double missed = 0;
        for (std::size_t r = 0; r < rows_.size(); ++r)
            if (basis_[r] >= first_artificial_) missed += rows_[r].back();
        if (missed > largest_miss) return false;
        // An artificial column that stays in the basis at 0 leaves it, unless its row says nothing of the others.
        for (std::size_t r = 0; r < rows_.size(); ++r) {
            if (basis_[r] < first_artificial_) continue;
            for (std::size_t c = 0; c < first_artificial_; ++c)
                if (std::abs(rows_[r][c]) > smallest_pivot) {
                    pivot(r, c);
                    break;
                }
        }
        return true;
    }

    std::vector<double> find_best(const std::vector<double>& cost) {
        std::vector<double> all(columns_, 0);
        std::ranges::copy(cost, all.begin());
        minimise(all, first_artificial_);
        std::vector<double> x(variables_, 0);
        for (std::size_t r = 0; r < rows_.size(); ++r)
            if (basis_[r] < variables_) x[basis_[r]] = std::max(0.0, rows_[r].back());
        return x;
    }

private:
    struct Line {
        std::vector<double> factors;
        double right;
        int slack;  ///< 1: at most, -1: at least, 0: equal
    };

    void add(const std::vector<double>& factors, double right, int slack) {
        Line line{factors, right, slack};
        if (right < 0) {
            for (double& factor : line.factors) factor = -factor;
            line.right = -right;
            line.slack = -slack;
        }
        lines_.push_back(std::move(line));
    }

    /// Columns: the variables, a slack for each inequality, an artificial one for each line without a slack to begin from, and
    /// the right side.
    void lay_out() {
        const auto slacks = std::ranges::count_if(lines_, [](const Line& line) { return line.slack != 0; });
        const auto artificials = std::ranges::count_if(lines_, [](const Line& line) { return line.slack != 1; });
        first_artificial_ = variables_ + static_cast<std::size_t>(slacks);
        columns_ = first_artificial_ + static_cast<std::size_t>(artificials);
        std::size_t slack = variables_;
        std::size_t artificial = first_artificial_;
        for (const Line& line : lines_) {
            std::vector<double> row(columns_ + 1, 0);
            std::ranges::copy(line.factors, row.begin());
            row.back() = line.right;
            if (line.slack != 0) row[slack] = line.slack;
            basis_.push_back(line.slack == 1 ? slack : artificial);
            row[basis_.back()] = 1;
            slack += line.slack != 0 ? 1 : 0;
            artificial += line.slack != 1 ? 1 : 0;
            rows_.push_back(std::move(row));
        }
    }

    /// Over the columns before `usable`.
    void minimise(const std::vector<double>& cost, std::size_t usable) {
        for (int pivots = 0; pivots < most_pivots; ++pivots) {
            const auto entering = falling_column(cost, usable);
            if (entering == usable) return;
            const auto leaving = tightest_row(entering);
            if (leaving == rows_.size()) return;  // falls without end, which the header rules out
            pivot(leaving, entering);
        }
    }

    /// The first column that makes the cost fall, or `usable`.
    [[nodiscard]] std::size_t falling_column(const std::vector<double>& cost, std::size_t usable) const {
        for (std::size_t c = 0; c < usable; ++c) {
            double reduced = cost[c];
            for (std::size_t r = 0; r < rows_.size(); ++r) reduced -= cost[basis_[r]] * rows_[r][c];
            if (reduced < -smallest_pivot) return c;
        }
        return usable;
    }

    /// The row that limits `column` first; of equal ones the one with the first basic column.
    [[nodiscard]] std::size_t tightest_row(std::size_t column) const {
        std::size_t best = rows_.size();
        double best_ratio = no_limit;
        for (std::size_t r = 0; r < rows_.size(); ++r) {
            if (rows_[r][column] <= smallest_pivot) continue;
            const double ratio = rows_[r].back() / rows_[r][column];
            if (ratio < best_ratio || (ratio == best_ratio && basis_[r] < basis_[best])) {
                best = r;
                best_ratio = ratio;
            }
        }
        return best;
    }

    void pivot(std::size_t row, std::size_t column) {
        const double divisor = rows_[row][column];
        for (double& value : rows_[row]) value /= divisor;
        for (std::size_t r = 0; r < rows_.size(); ++r) {
            const double factor = rows_[r][column];
            if (r == row || factor == 0) continue;
            for (std::size_t c = 0; c <= columns_; ++c) rows_[r][c] -= factor * rows_[row][c];
            rows_[r][column] = 0;
        }
        basis_[row] = column;
    }

    std::size_t variables_;
    std::size_t first_artificial_ = 0;
    std::size_t columns_ = 0;
    std::vector<Line> lines_;
    std::vector<std::vector<double>> rows_;  ///< the right side stands last
    std::vector<std::size_t> basis_;         ///< by row: its basic column
};

}  // namespace

std::optional<std::vector<double>> solve(const LinearProgramme& programme) {
    Tableau tableau(programme);
    if (!tableau.find_any()) return std::nullopt;
    return tableau.find_best(programme.cost);
}

}  // namespace lidlift
