// The germination index: how seeds in an extract of compost do against seeds in clean water.
#pragma once

#include <optional>

namespace lidlift {

/// Seeds that sprouted (counts of as many seeds, or per cent) and the mean length of their roots (any unit, the same in both).
struct SeedsIn {
    double sprouted = 0;
    double root = 0;
};

/// % of what clean water gives: share of sprouted seeds times share of root length, times 100 (Zucconi et al. 1981; the formula
/// from memory, the definition read). None where nothing grew in the water, since then the seeds were bad.
[[nodiscard]] std::optional<double> germination_index(const SeedsIn& extract, const SeedsIn& water);

/// Below 50 % it is strongly toxic to plants, up to 80 % moderately, above that ripe (read); above 100 % it makes them grow
/// (memory).
enum class SeedVerdict { toxic, doubtful, ripe, stimulating };
[[nodiscard]] SeedVerdict seed_verdict(double germination_index);

}  // namespace lidlift
