// Random materials, portions and goals for the tests of mixtures; the same on every machine for the same seed.
#pragma once

#include "engine/mixture.hpp"

#include <cstdint>
#include <random>
#include <string>
#include <vector>

namespace lidlift::test {

class MixtureMaker {
public:
    explicit MixtureMaker(std::uint32_t seed) : generator_(seed) {}

    double between(double low, double high) { return low + (high - low) * (static_cast<double>(generator_()) / 4294967296.0); }
    std::size_t below(std::size_t end) { return static_cast<std::size_t>(generator_()) % end; }
    bool one_in(std::size_t n) { return below(n) == 0; }

    /// Round `typical`, at most `spread` of it to either side and within the limits; now and then exact.
    Estimate round(double typical, double spread, double least, double most) {
        if (one_in(5)) return Estimate::exactly(typical);
        return {std::max(least, typical * (1 - between(0, spread))), typical,
                std::min(most, typical * (1 + between(0, spread)))};
    }

    Ingredient ingredient(const std::string& name) {
        Ingredient result;
        result.name = name;
        result.moisture = round(between(5, 95), 0.3, 0, 99);
        result.nitrogen = round(between(0.1, 5), 0.5, 0, 50);
        result.carbon_to_nitrogen = round(between(6, 45 / result.nitrogen->typical + 8), 0.6, 1, 2000);
        result.density = round(between(50, 1000), 0.5, 10, 2000);
        return result;
    }

    Portion portion(const std::string& name) {
        Portion result{ingredient(name), round(between(0.5, 100), 0.4, 0.1, 1000), std::nullopt};
        if (one_in(3)) {
            const double litres = between(1, 500);
            result = *portion_of({Amount::By::volume, litres, ""}, result.what);
        }
        return result;
    }

    std::vector<Portion> portions(std::size_t least, std::size_t most) {
        std::vector<Portion> result;
        const std::size_t count = least + below(most - least + 1);
        for (std::size_t i = 0; i < count; ++i) result.push_back(portion("part " + std::to_string(i)));
        return result;
    }

private:
    std::mt19937 generator_;
};

/// Everything at its typical figure.
inline Ingredient at_typical(Ingredient what) {
    what.moisture = Estimate::exactly(what.moisture.typical);
    for (auto* figure : {&what.nitrogen, &what.carbon_to_nitrogen, &what.density})
        if (*figure) *figure = Estimate::exactly((*figure)->typical);
    return what;
}

}  // namespace lidlift::test
