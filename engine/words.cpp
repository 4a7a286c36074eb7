#include "engine/words.hpp"

#include <algorithm>
#include <array>
#include <cmath>
#include <utility>

namespace lidlift {
namespace {

using Table = std::vector<std::pair<std::string, double>>;

const Table& frequencies() {
    static const Table table = {{"practically never", 0.005}, {"almost never", 0.025}, {"sometimes", 0.2},
                                {"about half the time", 0.5}, {"usually", 0.8},        {"almost always", highest_chance}};
    return table;
}

const Table& commonnesses() {
    static const Table table = {
        {"very common", 0.2}, {"common", 0.1}, {"occasional", 0.05}, {"uncommon", 0.02}, {"rare", 0.005}};
    return table;
}

const Table& odds() {
    static const double very_strongly = std::pow(10.0, 1.5);
    static const Table table = {{"slightly", 2},
                                {"moderately", 5},
                                {"strongly", 10},
                                {"very strongly", very_strongly},
                                {"slightly against", 1.0 / 2},
                                {"moderately against", 1.0 / 5},
                                {"strongly against", 1.0 / 10},
                                {"very strongly against", 1 / very_strongly}};
    return table;
}

std::optional<double> look_up(const Table& table, std::string_view word) {
    for (const auto& [name, value] : table)
        if (name == word) return value;
    return std::nullopt;
}

std::vector<std::string> names(const Table& table) {
    std::vector<std::string> result;
    for (const auto& row : table) result.push_back(row.first);
    return result;
}

}  // namespace

std::optional<double> frequency(std::string_view word) { return look_up(frequencies(), word); }
std::optional<double> commonness(std::string_view word) { return look_up(commonnesses(), word); }
std::optional<double> odds_factor(std::string_view word) { return look_up(odds(), word); }

const std::vector<std::string>& frequency_words() {
    static const auto words = names(frequencies());
    return words;
}
const std::vector<std::string>& commonness_words() {
    static const auto words = names(commonnesses());
    return words;
}
const std::vector<std::string>& odds_words() {
    static const auto words = names(odds());
    return words;
}

double decibans(double probability) { return 10 * std::log10(probability / (1 - probability)); }

double probability(double decibans) { return 1 / (1 + std::pow(10.0, -decibans / 10)); }

double with_finite_odds(double chance) { return std::clamp(chance, 1e-9, 1 - 1e-9); }

std::string likelihood_words(double chance) {
    struct Grade {
        double from;
        const char* words;
    };
    static constexpr std::array<Grade, 9> grades = {{{0.99, "practically certain (over 99 %)"},
                                                     {0.95, "almost certain (95-99 %)"},
                                                     {0.80, "very likely (80-95 %)"},
                                                     {0.55, "likely (55-80 %)"},
                                                     {0.45, "roughly even chance (45-55 %)"},
                                                     {0.20, "unlikely (20-45 %)"},
                                                     {0.05, "very unlikely (5-20 %)"},
                                                     {0.01, "almost no chance (1-5 %)"},
                                                     {0.00, "practically ruled out (under 1 %)"}}};
    for (const Grade& grade : grades)
        if (chance >= grade.from) return grade.words;
    return grades.back().words;
}

std::string weight_words(double decibans) {
    const double size = std::abs(decibans);
    if (size < 2) return "barely";
    if (size < 5) return "slightly";
    if (size < 9) return "moderately";
    if (size < 13) return "strongly";
    return "very strongly";
}

}  // namespace lidlift
