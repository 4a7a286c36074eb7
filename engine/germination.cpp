#include "engine/germination.hpp"

namespace lidlift {

std::optional<double> germination_index(const SeedsIn& extract, const SeedsIn& water) {
    if (!(water.sprouted > 0) || !(water.root > 0)) return std::nullopt;
    return 100 * (extract.sprouted / water.sprouted) * (extract.root / water.root);
}

SeedVerdict seed_verdict(double index) {
    if (index < 50) return SeedVerdict::toxic;
    if (index <= 80) return SeedVerdict::doubtful;
    return index <= 100 ? SeedVerdict::ripe : SeedVerdict::stimulating;
}

}  // namespace lidlift
