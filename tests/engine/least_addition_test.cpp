// How much to add: what is added reaches the goal when it is mixed back, what cannot be reached is recognised, and the least
// total of several materials is that of trying out every vertex.
#include "engine/linear_programme.hpp"
#include "engine/mixture.hpp"
#include "tests/catch.hpp"
#include "tests/engine/random_mixtures.hpp"
#include "tests/near.hpp"

#include <algorithm>
#include <cmath>
#include <limits>
#include <numeric>

namespace engine_least_addition_test {

using namespace lidlift;
using test::MixtureMaker;
using test::near;
using test::Worst;

namespace {

std::vector<Portion> with(std::vector<Portion> portions, const Ingredient& added, double kg) {
    portions.push_back({added, Estimate::exactly(kg), std::nullopt});
    return portions;
}

/// The linear programme in kg, written down from the formulas once more: rows of factors with low and high.
struct Row {
    std::vector<double> factors;
    double low, high;
};

double carbon(const Ingredient& what, double kg) {
    return kg * (1 - what.moisture.typical / 100) * what.nitrogen->typical / 100 * what.carbon_to_nitrogen->typical;
}
double nitrogen(const Ingredient& what, double kg) {
    return kg * (1 - what.moisture.typical / 100) * what.nitrogen->typical / 100;
}

/// All limits on x as "factors * x <= most", bounds of x among them, each scaled to factors of at most 1.
std::vector<Row> rows_of(const std::vector<Portion>& portions, const std::vector<OnHand>& on_hand, const Goal& goal) {
    std::vector<Row> rows;
    const double endless = std::numeric_limits<double>::infinity();
    const auto add = [&](std::vector<double> factors, double most) {
        double largest = 0;
        for (const double factor : factors) largest = std::max(largest, std::abs(factor));
        if (largest == 0) largest = 1;  // water, for a C:N
        for (double& factor : factors) factor /= largest;
        rows.push_back({std::move(factors), -endless, most / largest});
    };
    for (const double sign : {1.0, -1.0}) {
        if (goal.moisture) {
            const double bound = sign > 0 ? goal.moisture->high : goal.moisture->low;
            std::vector<double> factors;
            double most = 0;
            for (const Portion& p : portions) most -= sign * p.kg.typical * (p.what.moisture.typical - bound);
            for (const OnHand& h : on_hand) factors.push_back(sign * (h.what.moisture.typical - bound));
            add(factors, most);
        }
        if (goal.carbon_to_nitrogen) {
            const double bound = sign > 0 ? goal.carbon_to_nitrogen->high : goal.carbon_to_nitrogen->low;
            std::vector<double> factors;
            double most = 0;
            for (const Portion& p : portions)
                most -= sign * (carbon(p.what, p.kg.typical) - bound * nitrogen(p.what, p.kg.typical));
            for (const OnHand& h : on_hand) factors.push_back(sign * (carbon(h.what, 1) - bound * nitrogen(h.what, 1)));
            add(factors, most);
        }
    }
    for (std::size_t i = 0; i < on_hand.size(); ++i) {
        std::vector<double> one(on_hand.size(), 0);
        one[i] = -1;
        rows.push_back({one, -endless, 0});
        if (on_hand[i].stock) {
            one[i] = 1;
            rows.push_back({one, -endless, *on_hand[i].stock});
        }
    }
    return rows;
}

/// x with rows[chosen] * x = their bounds, or nothing where they do not meet in one point. Gauss with the largest pivot.
std::optional<std::vector<double>> meet(const std::vector<Row>& rows, const std::vector<std::size_t>& chosen) {
    const std::size_t n = chosen.size();
    std::vector<std::vector<double>> table;
    for (const std::size_t row : chosen) {
        table.push_back(rows[row].factors);
        table.back().push_back(rows[row].high);
    }
    for (std::size_t column = 0; column < n; ++column) {
        std::size_t pivot = column;
        for (std::size_t row = column; row < n; ++row)
            if (std::abs(table[row][column]) > std::abs(table[pivot][column])) pivot = row;
        if (std::abs(table[pivot][column]) < 1e-12) return std::nullopt;
        std::swap(table[column], table[pivot]);
        for (std::size_t row = 0; row < n; ++row) {
            if (row == column) continue;
            const double factor = table[row][column] / table[column][column];
            for (std::size_t k = column; k <= n; ++k) table[row][k] -= factor * table[column][k];
        }
    }
    std::vector<double> x;
    for (std::size_t i = 0; i < n; ++i) x.push_back(table[i][n] / table[i][i]);
    return x;
}

/// How far x breaks the worst row.
double broken(const std::vector<Row>& rows, const std::vector<double>& x) {
    double worst = 0;
    for (const Row& row : rows)
        worst = std::max(worst, std::inner_product(x.begin(), x.end(), row.factors.begin(), 0.0) - row.high);
    return worst;
}

/// The least total over all vertices: every choice of as many rows as there are unknowns. Infinite where none keeps to the
/// rest.
double least_by_vertices(const std::vector<Row>& rows, std::size_t unknowns, double tolerance) {
    double least = std::numeric_limits<double>::infinity();
    std::vector<std::size_t> chosen;
    const auto choose = [&](auto&& self, std::size_t from) -> void {
        if (chosen.size() == unknowns) {
            const auto x = meet(rows, chosen);
            if (x && broken(rows, *x) <= tolerance) least = std::min(least, std::accumulate(x->begin(), x->end(), 0.0));
            return;
        }
        for (std::size_t row = from; row < rows.size(); ++row) {
            chosen.push_back(row);
            self(self, row + 1);
            chosen.pop_back();
        }
    };
    choose(choose, 0);
    return least;
}

Ingredient plain(const char* name, double moisture, double nitrogen_share, double ratio) {
    return {name, Estimate::exactly(moisture), Estimate::exactly(nitrogen_share), Estimate::exactly(ratio), std::nullopt};
}
Portion kg(double mass, const Ingredient& what) { return {what, Estimate::exactly(mass), std::nullopt}; }

}  // namespace

TEST_CASE("what is added for a moisture reaches it when it is mixed back", "[mixture]") {
    MixtureMaker maker(11);
    Worst worst;
    int reached = 0;
    int wrongly_refused = 0;
    for (int i = 0; i < 2000; ++i) {
        const std::vector<Portion> portions = maker.portions(1, 5);
        const Ingredient added = maker.one_in(4) ? water() : maker.ingredient("added");
        const double goal = maker.between(20, 90);
        const auto result = kg_to_moisture(portions, added, goal);
        const double now = mix(portions).moisture.typical;
        const bool reachable = (goal - now) * (added.moisture.typical - goal) > 0;
        if (reachable != static_cast<bool>(result)) ++wrongly_refused;
        if (!result) continue;
        ++reached;
        worst.add(mix(with(portions, added, result->typical)).moisture.typical / goal, 1);
    }
    CHECK(worst.value() < 1e-9);
    CHECK(wrongly_refused == 0);
    CHECK(reached > 200);
}

TEST_CASE("what is added for a C:N reaches it when it is mixed back", "[mixture]") {
    MixtureMaker maker(12);
    Worst worst;
    int reached = 0;
    int wrongly_refused = 0;
    for (int i = 0; i < 2000; ++i) {
        const std::vector<Portion> portions = maker.portions(1, 5);
        const Ingredient added = maker.ingredient("added");
        const double goal = maker.between(10, 60);
        const auto result = kg_to_carbon_to_nitrogen(portions, added, goal);
        const double now = mix(portions).carbon_to_nitrogen->typical;
        const bool reachable = (goal - now) * (added.carbon_to_nitrogen->typical - goal) > 0;
        if (reachable != static_cast<bool>(result)) ++wrongly_refused;
        if (!result) continue;
        ++reached;
        worst.add(mix(with(portions, added, result->typical)).carbon_to_nitrogen->typical / goal, 1);
    }
    CHECK(worst.value() < 1e-9);
    CHECK(wrongly_refused == 0);
    CHECK(reached > 200);
}

TEST_CASE("the range of what to add holds what any figures within their bounds ask for", "[mixture]") {
    MixtureMaker maker(13);
    int outside = 0;
    int unreachable_but_finite = 0;
    int tried = 0;
    for (int i = 0; i < 300; ++i) {
        const std::vector<Portion> portions = maker.portions(1, 4);
        const Ingredient added = maker.ingredient("added");
        const double moisture = maker.between(30, 80);
        const double ratio = maker.between(15, 50);
        const auto for_moisture = kg_to_moisture(portions, added, moisture);
        const auto for_ratio = kg_to_carbon_to_nitrogen(portions, added, ratio);
        for (int j = 0; j < 50; ++j) {
            bool possible = true;
            const auto drawn = [&](Ingredient what) {
                const double most = std::max(most_carbon, what.nitrogen->typical * what.carbon_to_nitrogen->typical);
                for (Estimate* figure : {&what.moisture, &*what.nitrogen, &*what.carbon_to_nitrogen})
                    *figure = Estimate::exactly(maker.one_in(2) ? maker.between(figure->low, figure->high)
                                                                : (maker.one_in(2) ? figure->low : figure->high));
                if (what.nitrogen->typical * what.carbon_to_nitrogen->typical > most) possible = false;
                return what;
            };
            std::vector<Portion> others;
            for (const Portion& portion : portions)
                others.push_back(kg(maker.between(portion.kg.low, portion.kg.high), drawn(portion.what)));
            const Ingredient other = drawn(added);
            const auto check = [&](const Outcome<Estimate>& range, const Outcome<Estimate>& one, bool nothing_to_do) {
                if (!range) return;
                ++tried;
                if (nothing_to_do) return;  // it is beyond the goal already: nothing of this is to be added
                if (!one) {
                    if (std::isfinite(range->high)) ++unreachable_but_finite;
                } else if (one->typical < range->low * (1 - 1e-9) - 1e-9 || one->typical > range->high * (1 + 1e-9) + 1e-9) {
                    ++outside;
                }
            };
            if (for_moisture) {
                const bool wetter = moisture > mix(portions).moisture.typical;
                check(for_moisture, kg_to_moisture(others, other, moisture),
                      wetter != (moisture > mix(others).moisture.typical));
            }
            if (for_ratio && possible) {
                const bool higher = ratio > mix(portions).carbon_to_nitrogen->typical;
                check(for_ratio, kg_to_carbon_to_nitrogen(others, other, ratio),
                      higher != (ratio > mix(others).carbon_to_nitrogen->typical));
            }
        }
    }
    CHECK(outside == 0);
    CHECK(unreachable_but_finite == 0);
    CHECK(tried > 1000);
}

TEST_CASE("what already is at the goal needs nothing", "[mixture]") {
    const Portion portion = kg(10, plain("heap", 60, 2, 25));
    CHECK(kg_to_moisture({&portion, 1}, water(), 60)->typical == 0);
    CHECK(kg_to_moisture({&portion, 1}, plain("leaves", 38, 0.9, 54), 60)->typical == 0);
    CHECK(kg_to_carbon_to_nitrogen({&portion, 1}, plain("leaves", 38, 0.9, 54), 25)->typical == 0);
    const OnHand leaves{plain("leaves", 38, 0.9, 54), std::nullopt};
    CHECK(*least_addition({&portion, 1}, {&leaves, 1}, {Estimate{50, 55, 60}, Estimate{25, 30, 35}}) == std::vector<double>{0});
    CHECK(*least_addition({&portion, 1}, {&leaves, 1}, {}) == std::vector<double>{0});
    CHECK(least_addition({&portion, 1}, {}, {Estimate{50, 55, 60}, {}})->empty());
}

TEST_CASE("one material at hand gives the same as the formula", "[mixture]") {
    MixtureMaker maker(14);
    Worst worst;
    int differently = 0;
    for (int i = 0; i < 500; ++i) {
        const std::vector<Portion> portions = maker.portions(1, 4);
        const OnHand hand{maker.ingredient("added"), std::nullopt};
        const double moisture = maker.between(30, 80);
        const auto by_formula = kg_to_moisture(portions, hand.what, moisture);
        const auto by_programme = least_addition(portions, {&hand, 1}, {Estimate::exactly(moisture), {}});
        if (static_cast<bool>(by_formula) != static_cast<bool>(by_programme))
            ++differently;
        else if (by_formula)
            worst.add(by_formula->typical / std::max(1.0, by_formula->typical),
                      by_programme->front() / std::max(1.0, by_formula->typical));
        else if (by_formula.fault() != by_programme.fault())
            ++differently;
        const double ratio = maker.between(15, 50);
        const auto ratio_formula = kg_to_carbon_to_nitrogen(portions, hand.what, ratio);
        const auto ratio_programme = least_addition(portions, {&hand, 1}, {{}, Estimate::exactly(ratio)});
        if (static_cast<bool>(ratio_formula) != static_cast<bool>(ratio_programme))
            ++differently;
        else if (ratio_formula)
            worst.add(ratio_formula->typical / std::max(1.0, ratio_formula->typical),
                      ratio_programme->front() / std::max(1.0, ratio_formula->typical));
    }
    CHECK(worst.value() < 1e-9);
    CHECK(differently == 0);
}

TEST_CASE("the least total is that of trying out every vertex, on a thousand problems", "[mixture]") {
    MixtureMaker maker(15);
    int reachable = 0;
    int unreachable = 0;
    int differently = 0;
    Worst total;
    Worst mixed_back;
    double most_broken = 0;
    for (int i = 0; i < 1000; ++i) {
        std::vector<Portion> portions = maker.portions(1, 4);
        double mass = 0;
        for (Portion& portion : portions) mass += portion.kg.typical;
        std::vector<OnHand> on_hand;
        const std::size_t count = 1 + maker.below(5);
        for (std::size_t k = 0; k < count; ++k) {
            on_hand.push_back({maker.ingredient("at hand " + std::to_string(k)), std::nullopt});
            if (maker.one_in(2)) on_hand.back().stock = maker.between(0, mass);
        }
        if (maker.one_in(3)) on_hand.back().what = plain("water", 100, 0, 1);
        Goal goal;
        const auto aim = [&maker](double low, double high, double width) {
            const double at = maker.between(low, high);
            return maker.one_in(2) ? Estimate::exactly(at) : Estimate{at, at + width / 2, at + width};
        };
        const std::size_t which = maker.below(3);
        if (which != 0) goal.moisture = aim(30, 80, 15);
        if (which != 1) goal.carbon_to_nitrogen = aim(12, 45, 10);

        const std::vector<Row> rows = rows_of(portions, on_hand, goal);
        const double least = least_by_vertices(rows, on_hand.size(), 1e-9 * mass);
        const auto kg_of = least_addition(portions, on_hand, goal);
        if (static_cast<bool>(kg_of) != std::isfinite(least)) {
            ++differently;
            continue;
        }
        if (!kg_of) {
            ++unreachable;
            CHECK_FALSE(kg_of.fault().text.empty());
            continue;
        }
        ++reachable;
        const double sum = std::accumulate(kg_of->begin(), kg_of->end(), 0.0);
        total.add(sum / std::max(mass, least), least / std::max(mass, least));
        most_broken = std::max(most_broken, broken(rows, *kg_of) / std::max(mass, sum));
        std::vector<Portion> mixed = portions;
        for (std::size_t k = 0; k < on_hand.size(); ++k) mixed.push_back(kg((*kg_of)[k], on_hand[k].what));
        const Mixture mixture = mix(mixed);
        const auto misses = [](const Estimate& reached, const Estimate& wanted) {
            return std::max({0.0, wanted.low - reached.typical, reached.typical - wanted.high}) / wanted.typical;
        };
        if (goal.moisture) mixed_back.add(misses(mixture.moisture, *goal.moisture), 0);
        if (goal.carbon_to_nitrogen) mixed_back.add(misses(*mixture.carbon_to_nitrogen, *goal.carbon_to_nitrogen), 0);
    }
    INFO(reachable << " reachable, " << unreachable << " not");
    CHECK(differently == 0);
    CHECK(reachable > 200);
    CHECK(unreachable > 200);
    CHECK(total.value() < 1e-9);
    CHECK(most_broken < 1e-9);
    CHECK(mixed_back.value() < 1e-9);
}

TEST_CASE("what cannot be reached is said with the limit", "[mixture]") {
    const Portion waste[] = {kg(30, plain("kitchen waste", 80, 2.4, 15))};
    const Ingredient leaves = plain("dry leaves", 38, 0.9, 54);
    const Ingredient straw = plain("wheat straw", 12, 0.4, 127);
    const auto why = [&](std::vector<OnHand> on_hand, const Goal& goal) {
        const auto kg_of = least_addition(waste, on_hand, goal);
        return kg_of ? "reached" : kg_of.fault().text;
    };
    CHECK(why({{leaves, {}}}, {Estimate::exactly(30), {}}) ==
          "the moisture is 80 % and has to come down to 30 %, and dry leaves, at 38 %, cannot bring it below 38 %, however "
          "much goes "
          "in");
    CHECK(why({{leaves, {}}, {straw, {}}}, {Estimate::exactly(10), {}}) ==
          "the moisture is 80 % and has to come down to 10 %, and the driest of these, wheat straw at 12 %, cannot bring it "
          "below 12 "
          "%, however much goes in");
    CHECK(why({{leaves, 5.0}, {straw, 2.0}}, {Estimate::exactly(60), {}}) ==
          "the moisture is 80 % and has to come down to 60 %, and all the dry leaves (5 kg) and wheat straw (2 kg) at hand "
          "brings it "
          "to 71 % only");
    CHECK(why({{water(), {}}}, {Estimate::exactly(60), {}}) ==
          "the moisture is 80 % and has to come down to 60 %, and water, at 100 %, does not bring it that way at all");
    CHECK(why({}, {Estimate::exactly(60), {}}) ==
          "the moisture is 80 % and has to come down to 60 %, and nothing is at hand that changes it");
    CHECK(why({{water(), {}}}, {{}, Estimate::exactly(25)}) ==
          "the C:N is 15:1 and has to come up to 25:1, and nothing at hand changes it");
    CHECK(why({{leaves, {}}}, {{}, Estimate::exactly(60)}) ==
          "the C:N is 15:1 and has to come up to 60:1, and dry leaves, at 54:1, cannot bring it above 54:1, however much goes "
          "in");
    CHECK(why({{leaves, {}}, {straw, {}}}, {Estimate{70, 75, 85}, Estimate{60, 65, 70}})
              .starts_with("each of the two can be reached by itself, but not both at once: with a moisture of 70 % to 85 % "
                           "the C:N comes to "));
    CHECK(why({{leaves, {}}, {water(), {}}}, {Estimate{70, 75, 85}, Estimate{20, 25, 30}}) == "reached");
}

TEST_CASE("goals and lists beyond the limits are refused", "[mixture]") {
    const Portion portion = kg(10, plain("heap", 60, 2, 25));
    const OnHand leaves{plain("leaves", 38, 0.9, 54), std::nullopt};
    CHECK(kg_to_moisture({&portion, 1}, water(), 100).fault().text == "a moisture to reach lies between 0 and 100 %");
    CHECK(kg_to_moisture({&portion, 1}, water(), 0).fault().text == "a moisture to reach lies between 0 and 100 %");
    CHECK(kg_to_carbon_to_nitrogen({&portion, 1}, leaves.what, 0).fault().text == "a C:N to reach is greater than 0");
    CHECK(least_addition({&portion, 1}, {&leaves, 1}, {Estimate::exactly(101), {}}).fault().text ==
          "a moisture to reach lies between 0 and 100 %");
    CHECK(least_addition({}, {&leaves, 1}, {Estimate::exactly(50), {}}).fault().text ==
          "there is nothing yet to bring to a goal");
    const std::vector<OnHand> many(most_on_hand, leaves);
    CHECK(least_addition({&portion, 1}, many, {Estimate::exactly(50), {}}));
    const std::vector<OnHand> too_many(most_on_hand + 1, leaves);
    CHECK(least_addition({&portion, 1}, too_many, {Estimate::exactly(50), {}}).fault().text ==
          "more than 50 materials at hand are too many");
    Ingredient unknown = leaves.what;
    unknown.nitrogen.reset();
    CHECK(kg_to_carbon_to_nitrogen({&portion, 1}, unknown, 30).fault().text == "nobody knows the nitrogen of leaves");
    const Portion wet = kg(10, water());
    CHECK(kg_to_carbon_to_nitrogen({&wet, 1}, leaves.what, 30).fault().text ==
          "nothing in it holds nitrogen that counts, so it has no C:N");
}

TEST_CASE("the range of several additions holds the typical ones", "[mixture]") {
    MixtureMaker maker(16);
    int outside = 0;
    for (int i = 0; i < 20; ++i) {
        const std::vector<Portion> portions = maker.portions(1, 3);
        const std::vector<OnHand> on_hand{{maker.ingredient("one"), {}}, {maker.ingredient("other"), {}}, {water(), {}}};
        const Goal goal{Estimate{50, 55, 60}, Estimate{20, 28, 40}};
        const auto typical = least_addition(portions, on_hand, goal);
        if (!typical) continue;
        const AdditionRange range = range_of_addition(portions, on_hand, goal, *typical);
        CHECK(range.tried == 128);
        CHECK(range.reached <= range.tried);
        for (std::size_t k = 0; k < on_hand.size(); ++k)
            if (range.kg[k].typical != (*typical)[k] || range.kg[k].low > range.kg[k].typical ||
                range.kg[k].high < range.kg[k].typical)
                ++outside;
    }
    CHECK(outside == 0);
}

TEST_CASE("a linear programme without unknowns or limits is solved too", "[mixture]") {
    CHECK(solve({})->empty());
    CHECK_FALSE(solve({{}, {}, {{{}, 1, 2}}}).has_value());
    CHECK(*solve({{1, 1}, {no_limit, 3}, {}}) == std::vector<double>{0, 0});
    CHECK_FALSE(solve({{1}, {2}, {{{1}, 3, no_limit}}}).has_value());
    CHECK(solve({{1}, {4}, {{{1}, 3, no_limit}}})->front() == near(3, 1e-9));
}

}  // namespace engine_least_addition_test
