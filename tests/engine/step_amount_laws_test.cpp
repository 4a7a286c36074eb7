#include "engine/amount_words.hpp"
#include "engine/step_amount.hpp"
#include "tests/catch.hpp"
#include "tests/engine/measured_tanks.hpp"

#include <algorithm>
#include <cmath>
#include <random>
#include <string>
#include <vector>

namespace engine_step_amount_laws_test {

using namespace lidlift;
using namespace lidlift::test;

namespace {

/// One formula of every shape, and of what is measured out.
const std::vector<std::string>& formulas() {
    static const std::vector<std::string> all = {
        "bran or wood or chaff to bring the bed to 75 % moisture",
        "bran to bring the top 20 cm of the bed to 70 to 78 % moisture",
        "water to bring the top 20 cm of the bed to 75 % moisture",
        "water to bring the heap to 50 to 60 % moisture, in 3 portions",
        "water to bring the next bay to 75 % moisture",
        "wood to bring the bay to 45 to 55 % moisture, at most 20 kg for each m2 of the bay",
        "chaff to bring the last load to a carbon to nitrogen ratio of 25 to 30",
        "slops to bring the heap to a carbon to nitrogen ratio of 25 to 30",
        "chaff to bring the feed of a day to a carbon to nitrogen ratio of 25 to 30",
        "chaff to bring the feed of a day to 60 to 70 % moisture",
        "a layer of 3 to 5 cm of bran or wood over half of the bed",
        "a layer of 1 to 2 cm of feed over the bed",
        "30 to 50 g of lime for each m2 of the bed",
        "5 kg of slops for each 1000 kg of the heap",
        "1 L of water for each L of the bed, in 10 portions",
        "1 to 2 L of water for each m2 of the bay",
        "1 to 2 buckets of bran in all for each bucket of the wet part of the last load",
        "1 to 2 kg of chaff in all for each kg of the wet part of the last load",
        "0.25 to 0.5 kg of feed a day for each kg of worms, at most 0.7 to 2 kg for each m2 of the bed",
        "1.6 to 5 kg of worms in all for each m2 of the bay",
        "1 to 2 buckets of bran for each bucket of slops to fill the next bay",
    };
    return all;
}

/// Tanks as no sound record would make them: facts missing, empty and brim-full bays, ranges of any width.
class RandomTanks {
public:
    explicit RandomTanks(unsigned seed) : random_(seed) {}

    MeasuredTank tank(const RuleBase& base) {
        MeasuredTank tank(base);
        tank.asked = pick(3);
        for (std::size_t i = 0; i < 2; ++i) {
            tank.record.bays[i].area = rarely() ? 0 : number(0.05, 10);
            tank.record.bays[i].height = rarely() ? 0 : number(0.1, 2);
            tank.state.bays[i] = bay(base);
        }
        if (rarely()) tank.record.vessels = {};
        return tank;
    }
    double number(double low, double high) { return std::uniform_real_distribution<double>(low, high)(random_); }

private:
    std::size_t pick(std::size_t below) { return std::uniform_int_distribution<std::size_t>(0, below - 1)(random_); }
    bool rarely() { return pick(8) == 0; }
    Estimate estimate(double low, double high) {
        double ends[] = {number(low, high), number(low, high), number(low, high)};
        std::ranges::sort(ends);
        if (rarely()) return Estimate::exactly(rarely() ? low : ends[1]);
        return {rarely() ? low : ends[0], ends[1], ends[2]};
    }
    std::optional<Stated> stated(double low, double high) {
        if (rarely()) return std::nullopt;
        return Stated{estimate(low, high), "told"};
    }
    std::vector<Portion> load(const RuleBase& base) {
        std::vector<Portion> result;
        static const char* const known[] = {"chaff", "bran", "wood", "slops", "lime"};
        for (std::size_t i = pick(4); i > 0; --i) {
            Portion portion = MeasuredTank::portion(base, known[pick(5)], 1);
            portion.kg = estimate(0, 200);
            result.push_back(portion);
        }
        return result;
    }
    BayState bay(const RuleBase& base) {
        BayState bay;
        bay.stage = static_cast<BayStage>(pick(8));
        bay.filled = load(base);
        bay.last_load = load(base);
        bay.kg = stated(0, 5000);
        bay.litres = stated(0, 5000);
        bay.depth = stated(0, 2);
        bay.moisture = stated(0, 100);
        if (!rarely()) bay.free_litres = rarely() ? 0 : number(0, 3000);
        if (!rarely()) bay.days_since_feed = static_cast<int>(pick(30));
        if (!rarely()) bay.days_since_filling = static_cast<int>(pick(90));
        bay.worms = stated(0, 100);
        bay.feed_per_day = stated(0, 20);
        bay.fed = stated(0, 280);
        double kg = 0;
        for (const Portion& portion : bay.last_load) kg += portion.kg.typical;
        if (kg > 0 && !rarely()) bay.feed = mix(bay.last_load);
        return bay;
    }

    std::mt19937 random_;
};

bool sound(const Estimate& estimate) {
    return std::isfinite(estimate.low) && std::isfinite(estimate.high) && estimate.low >= 0 &&
           estimate.low <= estimate.typical && estimate.typical <= estimate.high;
}

}  // namespace

TEST_CASE("No tank, however odd, gets an amount that is negative, endless or more than fits", "[amounts]") {
    std::vector<RuleBase> bases;
    for (const std::string& formula : formulas()) bases.push_back(base_measuring(formula));
    RandomTanks random(4);
    int told = 0;
    int cut = 0;
    for (int i = 0; i < 10'000; ++i) {
        const RuleBase& base = bases[static_cast<std::size_t>(i) % bases.size()];
        const MeasuredTank tank = random.tank(base);
        const StepAmounts result = amounts(base, tank);
        INFO("tank " << i << ", " << formulas()[static_cast<std::size_t>(i) % bases.size()]);
        for (const StepAmount& amount : result.amounts) {
            INFO(in_words(amount));
            ++told;
            if (amount.bound != StepAmount::Bound::none) ++cut;
            REQUIRE(sound(amount.kg));
            REQUIRE((!amount.litres || sound(*amount.litres)));
            REQUIRE((!amount.buckets || sound(*amount.buckets)));
            // The largest bay of any of these tanks holds 20 m3, and no gaps hold more than there is of a bay.
            double largest = 0;
            double free = 0;
            for (std::size_t bay = 0; bay < 2; ++bay) {
                const RecordedBay& built = tank.record.bays[bay];
                const double capacity = built.area * built.height * 1000;
                largest =
                    std::max({largest, capacity, tank.state.bays[bay].litres ? tank.state.bays[bay].litres->value.high : 0.0});
                free = std::max(free, std::min(capacity, tank.state.bays[bay].free_litres.value_or(capacity)));
            }
            const bool water = amount.stuff.kind == Stuff::Kind::water;
            for (const Portion& portion : tank.state.bays[std::min<std::size_t>(tank.asked, 1)].last_load)
                largest += portion.what.density ? 1000 * portion.kg.high / portion.what.density->low : 0;
            if (amount.litres) REQUIRE(amount.litres->high <= (water ? largest * amount.portions : free) * (1 + 1e-12));
            if (amount.stuff.kind == Stuff::Kind::worms) {
                REQUIRE(amount.kg.high <= 20 * std::max(tank.record.bays[0].area, tank.record.bays[1].area) + 1e-9);
            } else if (!water) {
                REQUIRE(amount.kg.high <= free * heaviest / 1000 * (1 + 1e-12));
            }
            REQUIRE_FALSE(in_words(amount).empty());
            REQUIRE(in_words(amount).find("nan") == std::string::npos);
            REQUIRE(in_words(amount).find("inf ") == std::string::npos);
        }
    }
    CHECK(told > 2500);  // it was about something
    CHECK(cut > 300);
}

TEST_CASE("What was measured out and mixed in reaches the goal", "[amounts]") {
    struct Case {
        std::string formula;
        double goal;
    };
    const Case cases[] = {{"chaff to bring the bed to 70 to 76 % moisture", 73},
                          {"wood to bring the bed to 75 % moisture", 75},
                          {"water to bring the bed to 85 % moisture", 85}};
    RandomTanks random(5);
    for (const Case& each : cases) {
        const RuleBase base = base_measuring(each.formula);
        int reached = 0;
        for (int i = 0; i < 500; ++i) {
            MeasuredTank tank(base);
            tank.record.bays[0] = {"left", 100, 10};
            tank.left().free_litres = 1e6;
            tank.left().litres->value = Estimate::exactly(2000);
            tank.left().kg->value = Estimate::exactly(random.number(1, 400));
            tank.left().moisture->value = Estimate::exactly(random.number(40, 95));
            const StepAmounts result = amounts(base, tank);
            REQUIRE(result.amounts.size() == 1);
            const StepAmount& amount = result.amounts.front();
            if (!amount.nothing_needed.empty() || amount.bound == StepAmount::Bound::all) continue;
            ++reached;
            const double kg = tank.left().kg->value.typical;
            const double own = amount.stuff.kind == Stuff::Kind::water ? 100 : amount.name == "chaff" ? 15 : 40;
            const double mixed =
                (kg * tank.left().moisture->value.typical + amount.kg.typical * own) / (kg + amount.kg.typical);
            REQUIRE(mixed == Approx(each.goal).epsilon(1e-9));
        }
        CHECK(reached > 100);
    }

    const RuleBase base = base_measuring("chaff to bring the last load to a carbon to nitrogen ratio of 20 to 40");
    for (int i = 0; i < 500; ++i) {
        MeasuredTank tank(base);
        tank.left().free_litres = 1e6;
        tank.record.bays[0] = {"left", 100, 10};
        tank.left().last_load = {MeasuredTank::portion(base, "slops", random.number(0.1, 300)),
                                 MeasuredTank::portion(base, "chaff", random.number(0, 10))};
        const StepAmounts result = amounts(base, tank);
        REQUIRE(result.amounts.size() == 1);
        if (!result.amounts.front().nothing_needed.empty()) continue;
        auto mixed = tank.left().last_load;
        mixed.push_back(MeasuredTank::portion(base, "chaff", result.amounts.front().kg.typical));
        REQUIRE(mix(mixed).carbon_to_nitrogen->typical == Approx(30).epsilon(1e-9));
    }
}

TEST_CASE("A bay twice as large in all takes twice as much", "[amounts]") {
    RandomTanks random(6);
    for (const std::string& formula : formulas()) {
        const RuleBase base = base_measuring(formula);
        for (int i = 0; i < 50; ++i) {
            const MeasuredTank small = random.tank(base);
            MeasuredTank large = small;
            for (std::size_t bay = 0; bay < 2; ++bay) {
                large.record.bays[bay].area *= 2;
                BayState& state = large.state.bays[bay];
                const auto twice = [](Estimate& estimate) {
                    estimate = {2 * estimate.low, 2 * estimate.typical, 2 * estimate.high};
                };
                for (auto* stated : {&state.kg, &state.litres, &state.worms, &state.feed_per_day, &state.fed})
                    if (*stated) twice((*stated)->value);
                for (auto* load : {&state.last_load, &state.filled})
                    for (Portion& portion : *load) twice(portion.kg);
                if (state.feed) twice(state.feed->kg);
                if (state.free_litres) *state.free_litres *= 2;
            }
            const StepAmounts one = amounts(base, small);
            const StepAmounts two = amounts(base, large);
            INFO(formula);
            REQUIRE(one.amounts.size() == two.amounts.size());
            REQUIRE(one.missing == two.missing);
            for (std::size_t k = 0; k < one.amounts.size(); ++k) {
                REQUIRE(two.amounts[k].kg.low == Approx(2 * one.amounts[k].kg.low));
                REQUIRE(two.amounts[k].kg.typical == Approx(2 * one.amounts[k].kg.typical));
                REQUIRE(two.amounts[k].kg.high == Approx(2 * one.amounts[k].kg.high));
                REQUIRE(two.amounts[k].bound == one.amounts[k].bound);
            }
        }
    }
}

}  // namespace engine_step_amount_laws_test
