// Laws that every mixture keeps, on random ones; and the bounds against trying out all corners of the figures.
#include "engine/mixture.hpp"

#include "engine/rule_base.hpp"
#include "tests/catch.hpp"
#include "tests/engine/random_mixtures.hpp"
#include "tests/near.hpp"

#include <algorithm>
#include <array>
#include <cmath>
#include <limits>

namespace engine_mixture_test {

using namespace lidlift;
using test::MixtureMaker;
using test::near;
using test::Worst;

namespace {

void compare(Worst& worst, const Estimate& a, const Estimate& b) {
    const double size = std::max(1.0, std::abs(b.high));
    worst.add(a.low / size, b.low / size);
    worst.add(a.typical / size, b.typical / size);
    worst.add(a.high / size, b.high / size);
}
void compare(Worst& worst, const std::optional<Estimate>& a, const std::optional<Estimate>& b) {
    worst.add(a.has_value(), b.has_value());
    if (a && b) compare(worst, *a, *b);
}
void compare(Worst& worst, const Mixture& a, const Mixture& b) {
    compare(worst, a.kg, b.kg);
    compare(worst, a.moisture, b.moisture);
    compare(worst, a.dry_kg, b.dry_kg);
    compare(worst, a.nitrogen, b.nitrogen);
    compare(worst, a.nitrogen_kg, b.nitrogen_kg);
    compare(worst, a.carbon_to_nitrogen, b.carbon_to_nitrogen);
    compare(worst, a.litres, b.litres);
    compare(worst, a.density, b.density);
}

/// Takes in values and keeps the outermost.
struct Seen {
    double low = std::numeric_limits<double>::infinity();
    double high = -std::numeric_limits<double>::infinity();
    void add(double value) {
        low = std::min(low, value);
        high = std::max(high, value);
    }
};

/// One choice of figures for one part.
struct Choice {
    double kg, moisture, nitrogen, carbon;  ///< carbon and nitrogen in % of dry mass
};

/// Every corner that the figures of a part have: the bounds of each, and where the carbon reaches what dry matter can hold.
std::vector<Choice> corners_of(const Portion& portion) {
    std::vector<Choice> result;
    const Estimate& n = *portion.what.nitrogen;
    const Estimate& r = *portion.what.carbon_to_nitrogen;
    const double most = std::max(most_carbon, n.typical * r.typical);
    std::vector<std::pair<double, double>> pairs;  // nitrogen and C:N
    for (const double nitrogen : {n.low, n.high})
        for (const double ratio : {r.low, r.high}) pairs.emplace_back(nitrogen, ratio);
    for (const double ratio : {r.low, r.high}) pairs.emplace_back(most / ratio, ratio);
    for (const double nitrogen : {n.low, n.high}) pairs.emplace_back(nitrogen, most / nitrogen);
    for (const auto& [nitrogen, ratio] : pairs) {
        const double slack = 1e-12;
        if (nitrogen < n.low * (1 - slack) || nitrogen > n.high * (1 + slack) || ratio < r.low * (1 - slack) ||
            ratio > r.high * (1 + slack) || nitrogen * ratio > most * (1 + slack))
            continue;
        for (const double kg : {portion.kg.low, portion.kg.high})
            for (const double moisture : {portion.what.moisture.low, portion.what.moisture.high})
                result.push_back({kg, moisture, nitrogen, nitrogen * ratio});
    }
    return result;
}

struct Found {
    Seen moisture, nitrogen, nitrogen_kg, carbon_to_nitrogen, dry_kg;
};
void add(Found& found, const std::vector<Choice>& chosen) {
    double kg = 0, water = 0, dry = 0, nitrogen = 0, carbon = 0;
    for (const Choice& choice : chosen) {
        const double dry_kg = choice.kg * (1 - choice.moisture / 100);
        kg += choice.kg;
        water += choice.kg * choice.moisture;
        dry += dry_kg;
        nitrogen += dry_kg * choice.nitrogen / 100;
        carbon += dry_kg * choice.carbon / 100;
    }
    found.moisture.add(water / kg);
    found.dry_kg.add(dry);
    found.nitrogen.add(100 * nitrogen / dry);
    found.nitrogen_kg.add(nitrogen);
    found.carbon_to_nitrogen.add(carbon / nitrogen);
}

void all_corners(const std::vector<std::vector<Choice>>& corners, std::vector<Choice>& chosen, Found& found) {
    if (chosen.size() == corners.size()) {
        add(found, chosen);
        return;
    }
    for (const Choice& choice : corners[chosen.size()]) {
        chosen.push_back(choice);
        all_corners(corners, chosen, found);
        chosen.pop_back();
    }
}

Found by_all_corners(const std::vector<Portion>& portions) {
    std::vector<std::vector<Choice>> corners;
    for (const Portion& portion : portions) corners.push_back(corners_of(portion));
    std::vector<Choice> chosen;
    Found found;
    all_corners(corners, chosen, found);
    return found;
}

void compare(Worst& worst, const Estimate& bounds, const Seen& seen) {
    worst.add(bounds.low / seen.low, 1);
    worst.add(bounds.high / seen.high, 1);
}

}  // namespace

TEST_CASE("the order of the parts does not matter", "[mixture]") {
    MixtureMaker maker(1);
    Worst worst;
    for (int i = 0; i < 500; ++i) {
        std::vector<Portion> portions = maker.portions(2, 6);
        const Mixture before = mix(portions);
        std::rotate(portions.begin(), portions.begin() + 1, portions.end());
        compare(worst, mix(portions), before);
        std::reverse(portions.begin(), portions.end());
        compare(worst, mix(portions), before);
    }
    CHECK(worst.value() < 1e-12);
}

TEST_CASE("splitting a load of known figures changes nothing", "[mixture]") {
    MixtureMaker maker(2);
    Worst worst;
    for (int i = 0; i < 500; ++i) {
        std::vector<Portion> portions = maker.portions(1, 5);
        for (Portion& portion : portions) {
            portion.what = test::at_typical(portion.what);
            portion.kg = Estimate::exactly(portion.kg.typical);
        }
        const Mixture before = mix(portions);
        const double share = maker.between(0.01, 0.99);
        Portion split = portions.front();
        split.kg = Estimate::exactly(share * portions.front().kg.typical);
        portions.front().kg = Estimate::exactly((1 - share) * portions.front().kg.typical);
        if (split.litres) {
            split.litres = share * *split.litres;
            portions.front().litres = (1 - share) * *portions.front().litres;
        }
        portions.push_back(split);
        compare(worst, mix(portions), before);
    }
    CHECK(worst.value() < 1e-12);
}

// With ranges too: what is worst for one half is worst for the other.
TEST_CASE("splitting a load into halves changes no range", "[mixture]") {
    MixtureMaker maker(3);
    Worst worst;
    for (int i = 0; i < 500; ++i) {
        std::vector<Portion> portions = maker.portions(1, 4);
        const Mixture before = mix(portions);
        Portion half = portions.front();
        half.kg = {half.kg.low / 2, half.kg.typical / 2, half.kg.high / 2};
        if (half.litres) half.litres = *half.litres / 2;
        portions.front() = half;
        portions.push_back(half);
        const Mixture after = mix(portions);
        compare(worst, after, before);
    }
    CHECK(worst.value() < 1e-12);
}

TEST_CASE("what a mixture has lies between what its parts have", "[mixture]") {
    MixtureMaker maker(4);
    int outside = 0;
    for (int i = 0; i < 1000; ++i) {
        const std::vector<Portion> portions = maker.portions(1, 6);
        const Mixture mixture = mix(portions);
        const auto between = [&](const Estimate& whole, auto figure_of) {
            Seen low, typical, high;
            for (const Portion& portion : portions) {
                const Estimate figure = figure_of(portion);
                low.add(figure.low);
                typical.add(figure.typical);
                high.add(figure.high);
            }
            const double slack = 1e-9;
            if (!(whole.low >= low.low - slack && whole.low <= low.high + slack && whole.typical >= typical.low - slack &&
                  whole.typical <= typical.high + slack && whole.high <= high.high + slack && whole.low <= whole.typical &&
                  whole.typical <= whole.high))
                ++outside;
        };
        between(mixture.moisture, [](const Portion& p) { return p.what.moisture; });
        between(*mixture.nitrogen, [](const Portion& p) { return *p.what.nitrogen; });
        between(*mixture.carbon_to_nitrogen, [](const Portion& p) { return *p.what.carbon_to_nitrogen; });
        between(*mixture.density, [](const Portion& p) { return *p.what.density; });
    }
    CHECK(outside == 0);
}

TEST_CASE("the bounds are those of trying out every corner of the figures", "[mixture]") {
    MixtureMaker maker(5);
    Worst worst;
    for (int i = 0; i < 300; ++i) {
        const std::vector<Portion> portions = maker.portions(1, 3);
        const Mixture mixture = mix(portions);
        const Found found = by_all_corners(portions);
        compare(worst, mixture.moisture, found.moisture);
        compare(worst, mixture.dry_kg, found.dry_kg);
        compare(worst, *mixture.nitrogen, found.nitrogen);
        compare(worst, *mixture.nitrogen_kg, found.nitrogen_kg);
        compare(worst, *mixture.carbon_to_nitrogen, found.carbon_to_nitrogen);
    }
    CHECK(worst.value() < 1e-9);
}

TEST_CASE("no figures within the bounds leave the bounds of the mixture", "[mixture]") {
    MixtureMaker maker(6);
    int outside = 0;
    for (int i = 0; i < 300; ++i) {
        const std::vector<Portion> portions = maker.portions(1, 6);
        const Mixture mixture = mix(portions);
        for (int j = 0; j < 100; ++j) {
            std::vector<Portion> drawn = portions;
            bool possible = true;
            for (Portion& portion : drawn) {
                const auto draw = [&maker](Estimate& figure) {
                    const double end =
                        maker.one_in(2) ? maker.between(figure.low, figure.high) : (maker.one_in(2) ? figure.low : figure.high);
                    figure = Estimate::exactly(end);
                };
                const double most =
                    std::max(most_carbon, portion.what.nitrogen->typical * portion.what.carbon_to_nitrogen->typical);
                draw(portion.what.moisture);
                draw(*portion.what.nitrogen);
                draw(*portion.what.carbon_to_nitrogen);
                draw(*portion.what.density);
                if (portion.what.nitrogen->typical * portion.what.carbon_to_nitrogen->typical > most) possible = false;
                if (portion.litres)
                    portion.kg = Estimate::exactly(*portion.litres * portion.what.density->typical / 1000);
                else
                    draw(portion.kg);
            }
            if (!possible) continue;
            const Mixture one = mix(drawn);
            const auto inside = [](double value, const Estimate& bounds) {
                const double slack = 1e-9 * std::max(1.0, bounds.high);
                return value >= bounds.low - slack && value <= bounds.high + slack;
            };
            if (!inside(one.kg.typical, mixture.kg) || !inside(one.moisture.typical, mixture.moisture) ||
                !inside(one.dry_kg.typical, mixture.dry_kg) || !inside(one.nitrogen->typical, *mixture.nitrogen) ||
                !inside(one.nitrogen_kg->typical, *mixture.nitrogen_kg) ||
                !inside(one.carbon_to_nitrogen->typical, *mixture.carbon_to_nitrogen) ||
                !inside(one.litres->typical, *mixture.litres) || !inside(one.density->typical, *mixture.density))
                ++outside;
        }
    }
    CHECK(outside == 0);
}

TEST_CASE("volume and density come from the litres where those were measured", "[mixture]") {
    const Ingredient leaves{"dry leaves", {30, 38, 45}, Estimate{0.5, 0.9, 1.3}, Estimate{40, 54, 80}, Estimate{60, 100, 180}};
    const Portion portion = *portion_of({Amount::By::volume, 30, "3 buckets"}, leaves);
    CHECK(portion.kg.low == near(1.8, 1e-12));
    CHECK(portion.kg.typical == near(3, 1e-12));
    CHECK(portion.kg.high == near(5.4, 1e-12));
    const Mixture mixture = mix({&portion, 1});
    CHECK(*mixture.litres == Estimate{30, 30, 30});
    CHECK(mixture.density->low == near(60, 1e-9));
    CHECK(mixture.density->typical == near(100, 1e-9));
    CHECK(mixture.density->high == near(180, 1e-9));
    // Light leaves leave air at either end of that range; wet dung is light enough for it at one end only.
    CHECK(mixture.air_space_least == AirSpace::high);
    CHECK(mixture.air_space_most == AirSpace::high);
    const Ingredient dung{"dung", Estimate::exactly(60), Estimate::exactly(1.5), Estimate::exactly(24),
                          Estimate{300, 600, 1'100}};
    const Mixture heap = mix(std::vector<Portion>{*portion_of({Amount::By::mass, 3, "3 kg"}, dung)});
    CHECK(heap.air_space_least == AirSpace::low);
    CHECK(heap.air_space_most == AirSpace::high);

    const Portion weighed = *portion_of({Amount::By::mass, 3, "3 kg"}, leaves);
    const Mixture other = mix({&weighed, 1});
    CHECK(other.litres->low == near(1000 * 3 / 180.0, 1e-9));
    CHECK(other.litres->high == near(50, 1e-9));

    Ingredient unknown = leaves;
    unknown.density.reset();
    CHECK(portion_of({Amount::By::volume, 30, "3 buckets"}, unknown).fault().text ==
          "nobody knows how heavy a litre of dry leaves is: weigh it, and say so many kg of it");
    const Portion parts[] = {weighed, {unknown, Estimate::exactly(1), std::nullopt}};
    CHECK_FALSE(mix(parts).litres.has_value());
    CHECK_FALSE(mix(parts).density.has_value());
    CHECK_FALSE(mix(parts).air_space.has_value());
}

TEST_CASE("water wets and changes nothing else", "[mixture]") {
    const Ingredient dung{"dung", Estimate::exactly(80), Estimate::exactly(1.5), Estimate::exactly(24), Estimate::exactly(950)};
    const Portion slurry[] = {{dung, Estimate::exactly(1), {}}, {water(), Estimate::exactly(1), {}}};
    const Mixture mixture = mix(slurry);
    CHECK(mixture.moisture.typical == near(90, 1e-12));  // as printed for a slurry of one to one
    CHECK(mixture.nitrogen->typical == near(1.5, 1e-12));
    CHECK(mixture.carbon_to_nitrogen->typical == near(24, 1e-12));

    const Portion alone{water(), Estimate::exactly(5), {}};
    const Mixture only_water = mix({&alone, 1});
    CHECK(only_water.moisture == Estimate::exactly(100));
    CHECK(only_water.dry_kg == Estimate::exactly(0));
    CHECK_FALSE(only_water.nitrogen.has_value());
    CHECK_FALSE(only_water.carbon_to_nitrogen.has_value());
}

TEST_CASE("a missing figure makes only what hangs on it unknown", "[mixture]") {
    const Ingredient leaves{"dry leaves", Estimate::exactly(38), Estimate::exactly(0.9), Estimate::exactly(54),
                            Estimate::exactly(100)};
    Ingredient shell{"egg shell", Estimate::exactly(5), Estimate::exactly(0.75), {}, Estimate::exactly(800)};
    const auto with = [&](const Ingredient& other) {
        const Portion parts[] = {{leaves, Estimate::exactly(10), {}}, {other, Estimate::exactly(1), {}}};
        return mix(parts);
    };
    CHECK(with(shell).carbon_to_nitrogen->typical == near(54, 1e-9));  // counts for nothing in it
    CHECK(with(shell).nitrogen->typical < 0.9);
    shell.nitrogen.reset();
    CHECK_FALSE(with(shell).nitrogen.has_value());
    CHECK_FALSE(with(shell).carbon_to_nitrogen.has_value());
    CHECK(with(shell).moisture.typical == near((380 + 5) / 11.0, 1e-9));
}

TEST_CASE("materials become ingredients", "[mixture]") {
    Material material;
    material.name = "garden lime";
    CHECK(ingredient_of(material).fault().text == "there is no moisture figure for garden lime");
    material.moisture = Figure{};
    material.moisture->value = {0, 1, 3};
    material.role = MaterialRole::feed;
    CHECK_FALSE(ingredient_of(material)->nitrogen.has_value());
    material.role = MaterialRole::mineral;
    CHECK(*ingredient_of(material)->nitrogen == Estimate::exactly(0));
    CHECK(ingredient_of(material)->moisture == Estimate{0, 1, 3});
}

TEST_CASE("figures that would make more carbon than dry matter are not taken together", "[mixture]") {
    // 1.3 % of nitrogen at 80:1 would be 104 % of carbon.
    const Ingredient leaves{"dry leaves", Estimate::exactly(0), Estimate{0.5, 0.9, 1.3}, Estimate{40, 54, 80}, {}};
    const Ingredient grass{"grass", Estimate::exactly(0), Estimate::exactly(3), Estimate::exactly(17), {}};
    const Portion parts[] = {{leaves, Estimate::exactly(1), {}}, {grass, Estimate::exactly(1), {}}};
    // Most carbon for its nitrogen: 0.75 % at 80:1, which is 60 %.
    CHECK(mix(parts).carbon_to_nitrogen->high == near((60 + 51) / (0.75 + 3), 1e-9));
    CHECK(mix(parts).carbon_to_nitrogen->low == near((0.5 * 40 + 51) / (0.5 + 3), 0.2));
    // Where the typical figures themselves say more (sawdust: 0.24 % at 442:1) they are let stand.
    const Ingredient sawdust{"sawdust", Estimate::exactly(39), Estimate{0.06, 0.24, 0.8}, Estimate{200, 442, 750}, {}};
    const Portion alone{sawdust, Estimate::exactly(1), {}};
    CHECK(mix({&alone, 1}).carbon_to_nitrogen->typical == near(442, 1e-9));
    CHECK(mix({&alone, 1}).carbon_to_nitrogen->high == near(750, 1e-9));
}

TEST_CASE("a mixture that most likely holds nothing is mixed to an end", "[mixture]") {
    // Nothing by the typical figure, and perhaps some: 0 of 0 is no ratio, and the search for its bounds must stop.
    const std::vector<Portion> portions = {{water(), {0, 0, 5}, {}}};
    const Mixture mixture = mix(portions);
    CHECK(mixture.kg.high == 5);
}

TEST_CASE("what has nitrogen and no carbon that counts leaves the carbon to nitrogen as it was", "[mixture]") {
    // As an egg shell: its nitrogen sits in the skin, and its carbonate feeds nothing.
    const Ingredient grass{"grass", {70, 80, 90}, Estimate{2, 3, 4}, Estimate{12, 17, 25}, {}};
    const Ingredient shell{"shell", Estimate::exactly(2), Estimate{0.5, 0.75, 1}, {}, {}};
    const Portion parts[] = {{grass, Estimate::exactly(10), {}}, {shell, Estimate::exactly(5), {}}};
    const Mixture alone = mix({parts, 1});
    const Mixture both = mix(parts);
    REQUIRE(both.carbon_to_nitrogen);
    CHECK(both.carbon_to_nitrogen->low == near(alone.carbon_to_nitrogen->low, 1e-9));
    CHECK(both.carbon_to_nitrogen->typical == near(alone.carbon_to_nitrogen->typical, 1e-9));
    CHECK(both.carbon_to_nitrogen->high == near(alone.carbon_to_nitrogen->high, 1e-9));
    CHECK(both.nitrogen_kg->typical > alone.nitrogen_kg->typical);  // it is there all the same
}

TEST_CASE("a spoonful has a density and gaps of its own like a cartload", "[mixture]") {
    const Ingredient straw{"straw", {8, 12, 15}, {}, {}, Estimate{50, 80, 120}};
    const Ingredient mud{"mud", {85, 90, 95}, {}, {}, Estimate{900, 1000, 1100}};
    for (const double kg : {0.01, 1.0, 1000.0}) {
        const Portion parts[] = {{straw, Estimate::exactly(kg), {}}, {mud, Estimate::exactly(kg), {}}};
        const Mixture mixture = mix(parts);
        REQUIRE(mixture.density);
        // 1 kg is 12.5 L and 1 L: 2 kg in 13.5 L.
        CHECK(mixture.density->typical == near(2000 / 13.5, 1e-6));
        CHECK(mixture.air_space == air_space_of(mixture.density->typical, mixture.moisture.typical));
        CHECK(mixture.air_space_least == air_space_of(mixture.density->high, mixture.moisture.typical));
    }
    // Mud alone has no gaps to speak of, and straw alone nothing else.
    const Portion wet{mud, Estimate::exactly(1), {}};
    const Portion dry{straw, Estimate::exactly(1), {}};
    CHECK(mix({&wet, 1}).air_space == AirSpace::low);
    CHECK(mix({&dry, 1}).air_space != AirSpace::low);
}

}  // namespace engine_mixture_test
