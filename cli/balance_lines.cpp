#include "cli/balance_lines.hpp"

#include <algorithm>
#include <cmath>
#include <functional>
#include <numeric>

#include <fmt/format.h>

namespace lidlift::cli {
namespace {

std::string balance_text(const BalanceLine& line) {
    return line.text + (line.discounted ? " (counts in part, being much the same observation as another line)" : "");
}

/// Lines that say the same are one: several answers to one question may each count, and all read alike.
std::vector<BalanceLine> merged(const std::vector<BalanceLine>& lines) {
    std::vector<BalanceLine> result;
    for (const BalanceLine& line : lines) {
        const auto same = std::ranges::find_if(result, [&](const BalanceLine& other) {
            return other.kind == line.kind && balance_text(other) == balance_text(line);
        });
        if (same == result.end())
            result.push_back(line);
        else
            same->decibans += line.decibans;
    }
    return result;
}

}  // namespace

std::vector<int> whole_points(const std::vector<BalanceLine>& lines) {
    std::vector<int> points;
    double total = 0;
    for (const BalanceLine& line : lines) {
        points.push_back(static_cast<int>(std::lround(line.decibans)));
        total += line.decibans;
    }
    int missing = static_cast<int>(std::lround(total)) - std::accumulate(points.begin(), points.end(), 0);
    // The lines whose rounding erred most the other way take up what is missing, one point each.
    std::vector<std::size_t> order(lines.size());
    std::iota(order.begin(), order.end(), std::size_t{0});
    const int step = missing > 0 ? 1 : -1;
    std::ranges::stable_sort(order, std::greater{}, [&](std::size_t i) { return step * (lines[i].decibans - points[i]); });
    for (std::size_t i = 0; missing != 0 && i < order.size(); ++i, missing -= step) points[order[i]] += step;
    return points;
}

std::vector<BalancePoints> condensed_balance(const std::vector<BalanceLine>& lines, std::size_t most) {
    const std::vector<BalanceLine> balance = merged(lines);
    const std::vector<int> points = whole_points(balance);
    std::vector<BalancePoints> result;
    std::vector<BalancePoints> at_the_end;
    std::size_t evidence_lines = 0;
    int smaller = 0;
    int smaller_sum = 0;
    for (std::size_t i = 0; i < balance.size(); ++i) {
        const BalanceLine& line = balance[i];
        const BalancePoints here{balance_text(line), points[i]};
        if (line.kind == BalanceLine::Kind::how_common) {
            result.push_back(here);
        } else if (line.kind == BalanceLine::Kind::shared) {
            if (points[i] != 0) at_the_end.push_back(here);
        } else if (points[i] != 0 && evidence_lines < most) {
            ++evidence_lines;
            result.push_back(here);
        } else {
            ++smaller;
            smaller_sum += points[i];
        }
    }
    if (smaller > 0)
        result.push_back({fmt::format("and {} smaller {}", smaller, smaller == 1 ? "point" : "points"), smaller_sum});
    result.insert(result.end(), at_the_end.begin(), at_the_end.end());
    return result;
}

std::vector<BalancePoints> whole_balance(const std::vector<BalanceLine>& lines) {
    const std::vector<BalanceLine> balance = merged(lines);
    const std::vector<int> points = whole_points(balance);
    std::vector<BalancePoints> result;
    for (std::size_t i = 0; i < balance.size(); ++i)
        if (balance[i].kind != BalanceLine::Kind::shared || points[i] != 0)
            result.push_back({balance_text(balance[i]), points[i]});
    return result;
}

int sum_of(const std::vector<BalancePoints>& lines) {
    int sum = 0;
    for (const BalancePoints& line : lines) sum += line.points;
    return sum;
}

}  // namespace lidlift::cli
