#include "engine/step_amount.hpp"

#include "engine/amount_words.hpp"
#include "tests/catch.hpp"
#include "tests/engine/measured_tanks.hpp"

#include <cmath>
#include <string>

namespace engine_step_amount_test {

// Every figure here was reckoned by hand; the arithmetic stands beside it. Formulas F4-F6, F10 and F13 of materials.md.

using namespace lidlift;
using namespace lidlift::test;

namespace {

/// The only amount of the formula in the tank that `change` made of the usual one.
template <class Change>
StepAmount one(const std::string& formula, Change change) {
    const RuleBase base = base_measuring(formula);
    MeasuredTank tank(base);
    change(tank);
    const StepAmounts result = amounts(base, tank);
    INFO(formula << ": " << missing_in_words(result));
    REQUIRE(result.amounts.size() == 1);
    REQUIRE(result.missing.empty());
    return result.amounts.front();
}
StepAmount one(const std::string& formula) {
    return one(formula, [](MeasuredTank&) {});
}

template <class Change>
std::string missing(const std::string& formula, Change change) {
    const RuleBase base = base_measuring(formula);
    MeasuredTank tank(base);
    change(tank);
    const StepAmounts result = amounts(base, tank);
    CHECK(result.amounts.empty());
    std::string text;
    for (const std::string& what : result.missing) text += (text.empty() ? "" : "; ") + what;
    return text;
}

void check(const Estimate& estimate, double low, double typical, double high) {
    CHECK(estimate.low == Approx(low));
    CHECK(estimate.typical == Approx(typical));
    CHECK(estimate.high == Approx(high));
}

}  // namespace

TEST_CASE("Dry matter to a moisture, from the tank's own figures", "[amounts]") {
    // F6: A = Q (M - G) / (G - Ma) = 400 * (80 - 75) / (75 - 15) = 33.3 kg; at 200 kg/m3 that is 167 L, 16.7 buckets.
    const StepAmount bed = one("chaff to bring the bed to 75 % moisture");
    check(bed.kg, 100.0 / 3, 100.0 / 3, 100.0 / 3);
    check(*bed.litres, 500.0 / 3, 500.0 / 3, 500.0 / 3);
    check(*bed.buckets, 50.0 / 3, 50.0 / 3, 50.0 / 3);
    CHECK(bed.bound == StepAmount::Bound::none);
    CHECK(in_words(bed) == "chaff to bring the bed to 75 % moisture: about 33 kg, that is about 17 of your 10 L buckets");

    // The top 20 of 40 cm are half of it.
    const StepAmount top = one("chaff to bring the top 20 cm of the bed to 75 % moisture");
    check(top.kg, 50.0 / 3, 50.0 / 3, 50.0 / 3);
    CHECK(in_words(top) ==
          "chaff to bring the top 20 cm of the bed to 75 % moisture: about 17 kg, that is about 8 of your 10 L buckets");
    // The top 80 of 40 cm are all of it.
    CHECK(one("chaff to bring the top 80 cm of the bed to 75 % moisture").kg.typical == Approx(100.0 / 3));
}

TEST_CASE("What is not known exactly becomes a range", "[amounts]") {
    // Bed at 80 (78 to 82) %, bran at 15 (5 to 25) %, 200 (100 to 400) kg/m3, goal 75 %:
    // least 400*(78-75)/(75-5) = 17.1 kg, most 400*(82-75)/(75-25) = 56 kg; volume 17.1/0.4 = 42.9 L to 56/0.1 = 560 L,
    // of which no more fit than 200 L; 56 kg would fit even so, at 400 kg/m3.
    const StepAmount range = one("bran to bring the bed to 75 % moisture", [](MeasuredTank& tank) {
        tank.left().moisture->value = {78, 80, 82};
    });
    check(range.kg, 400 * 3 / 70.0, 100.0 / 3, 56);
    CHECK(range.kg.high <= 200 * 0.4);
    check(*range.litres, 1000 * 400 * 3 / 70.0 / 400, 500.0 / 3, 200);
    CHECK(range.bound == StepAmount::Bound::most);
    CHECK(in_words(range) ==
          "bran to bring the bed to 75 % moisture: most likely 33 kg (17 to 56), that is most likely 16 of your 10 L buckets "
          "(4 to 20); the upper end is all that is possible there");

    // The middle of a goal is aimed at, and all of it is good: to 75 %, from 400*(80-78)/(78-15) = 12.7 for 78 % to
    // 400*(80-72)/(72-15) = 56.1 kg for 72 %, of which 200 L * 0.2 = 40 kg fit.
    const StepAmount goal = one("chaff to bring the bed to 72 to 78 % moisture");
    check(goal.kg, 800 / 63.0, 100.0 / 3, 40);
}

TEST_CASE("Where nothing is needed, that is said", "[amounts]") {
    const auto at = [](double percent) {
        return [percent](MeasuredTank& tank) { tank.left().moisture->value = Estimate::exactly(percent); };
    };
    const StepAmount right = one("chaff or bran to bring the bed to 72 to 78 % moisture", at(74));
    check(right.kg, 0, 0, 0);
    CHECK(in_words(right) == "chaff to bring the bed to 72 to 78 % moisture: none is needed; at 74 % it is right already");
    CHECK(in_words(one("chaff to bring the bed to 75 % moisture", at(60))) ==
          "chaff to bring the bed to 75 % moisture: none is needed; at 60 % it is drier than that already");
    CHECK(in_words(one("water to bring the bed to 75 % moisture", at(80))) ==
          "water to bring the bed to 75 % moisture: none is needed; at 80 % it is wetter than that already");
}

TEST_CASE("What is too vague to help gives no number", "[amounts]") {
    const auto at = [](double low, double typical, double high) {
        return [=](MeasuredTank& tank) { tank.left().moisture->value = {low, typical, high}; };
    };
    // The guess is right already, but only the guess.
    CHECK(in_words(one("chaff to bring the bed to 72 to 78 % moisture", at(60, 76, 85))) ==
          "chaff to bring the bed to 72 to 78 % moisture: none is needed; at 76 %, the likeliest figure (it may be 60 to 85 "
          "%), it is "
          "right already");
    CHECK(in_words(one("water to bring the bed to 60 to 65 % moisture", at(50, 76, 85))) ==
          "water to bring the bed to 60 to 65 % moisture: none is needed; at 76 %, the likeliest figure (it may be 50 to 85 "
          "%), it is "
          "wetter than that already");
    // From none at 74 % to 400*(95-75)/60 = 133 kg, with 400*(80-75)/60 = 33 kg the guess.
    CHECK(missing("chaff to bring the bed to 75 % moisture", at(74, 80, 95)) ==
          "a squeeze or a drying test, which tells how wet it is");
    // As vague at the lower end, but no more than twice the guess: 400*(84-75)/60 = 60 kg.
    CHECK(one("chaff to bring the bed to 75 % moisture", at(74, 80, 84)).kg.low == 0);
    CHECK(missing("chaff to bring the last load to a carbon to nitrogen ratio of 20", [](MeasuredTank& tank) {
              tank.left().last_load[0].what.carbon_to_nitrogen = Estimate{8, 12, 30};
          }) == "the loads by weight rather than by the bucket");
}

TEST_CASE("Water, and no more of it than the gaps hold", "[amounts]") {
    // F5: W = Q (G - M) / (100 - G) = 400 * (75 - 70) / (100 - 75) = 80 kg, which are 80 L.
    // Gaps by F17: 400 kg in 800 L are 500 kg/m3; at 70 % moisture, organic 0.8:
    // 1 - 500*(0.7/1000 + 0.3*0.8/1600 + 0.3*0.2/2500) = 1 - 0.35 - 0.075 - 0.012 = 0.563 of 800 L: 450 L.
    const auto at70 = [](MeasuredTank& tank) { tank.left().moisture->value = Estimate::exactly(70); };
    const StepAmount some = one("water to bring the bed to 75 % moisture", at70);
    check(some.kg, 80, 80, 80);
    check(*some.litres, 80, 80, 80);
    CHECK(some.bound == StepAmount::Bound::none);
    CHECK(in_words(some) == "water to bring the bed to 75 % moisture: about 80 L");

    const StepAmount much = one("water to bring the bed to 90 % moisture", at70);  // 400 * 20 / 10 = 800
    CHECK(much.litres->typical == Approx(0.563 * 800));
    CHECK(much.bound == StepAmount::Bound::all);
    CHECK(in_words(much) ==
          "water to bring the bed to 90 % moisture: about 450 L; it would take more, but no more goes in: its gaps "
          "hold about "
          "450 L of air; the rest would run out below");

    // In lots only one lot has to find room: 800 L in all, 80 L a lot.
    const StepAmount lots = one("1 L of water for each L of the bed, in 10 portions", at70);
    check(*lots.litres, 800, 800, 800);
    CHECK(lots.bound == StepAmount::Bound::none);
    CHECK(in_words(lots) == "water for the bed: about 800 L, in 10 lots");
}

TEST_CASE("Carbon to nitrogen of the last load", "[amounts]") {
    // Slops: 20 kg * 0.15 dry * 3 % N = 0.09 kg N, 12 * 0.09 = 1.08 kg C. Chaff there: 2 * 0.85 * 0.5 % = 0.0085 N, 0.68 C.
    // Together 1.76 / 0.0985 = 17.9. A kg of chaff brings 0.00425 N and 0.34 C.
    // To 27.5: (27.5*0.0985 - 1.76) / (0.34 - 27.5*0.00425) = 0.94875 / 0.223125 = 4.25 kg;
    // to 25: 0.7025 / 0.23375 = 3.01 kg; to 30: 1.195 / 0.2125 = 5.62 kg.
    const StepAmount chaff = one("chaff to bring the last load to a carbon to nitrogen ratio of 25 to 30");
    check(chaff.kg, 0.7025 / 0.23375, 0.94875 / 0.223125, 1.195 / 0.2125);
    CHECK(in_words(chaff) ==
          "chaff to bring the last load to a carbon to nitrogen ratio of 25 to 30: 3 to 5.6 kg, that is 2 to 3 of your 10 L "
          "buckets");

    // The feed of a day is a tenth of it: 2 of 20 kg.
    const StepAmount day = one("chaff to bring the feed of a day to a carbon to nitrogen ratio of 25 to 30");
    check(day.kg, 0.07025 / 0.23375, 0.094875 / 0.223125, 0.1195 / 0.2125);
    CHECK(day.a_day);
    CHECK(in_words(day).find(" a day") != std::string::npos);

    CHECK(missing("chaff to bring the last load to a carbon to nitrogen ratio of 25 to 30", [](MeasuredTank& tank) {
              tank.left().days_since_feed = days_of_last_load + 1;
          }) == "what was put in last, and on which day");
    CHECK(one("chaff to bring the last load to a carbon to nitrogen ratio of 25 to 30", [](MeasuredTank& tank) {
              tank.left().days_since_feed = days_of_last_load;
          }).kg.typical > 0);
}

TEST_CASE("Layers and doses", "[amounts]") {
    // 3 to 5 cm over 2 m2 are 60 to 100 L, at 200 kg/m3 12 to 20 kg.
    const StepAmount layer = one("a layer of 3 to 5 cm of chaff over the bed");
    check(*layer.litres, 60, 80, 100);
    check(layer.kg, 12, 16, 20);
    CHECK(in_words(layer) == "chaff for a layer of 3 to 5 cm over the bed: 6 to 10 of your 10 L buckets, that is 12 to 20 kg");
    check(*one("a layer of 3 to 5 cm of chaff over half of the bed").litres, 30, 40, 50);
    // No more than fits: 15 cm would be 300 L, and 200 are free.
    const StepAmount thick = one("a layer of 15 cm of chaff over the bed");
    check(*thick.litres, 200, 200, 200);
    check(thick.kg, 40, 40, 40);
    CHECK(thick.bound == StepAmount::Bound::all);
    // Full to the rim: nothing.
    const StepAmount full =
        one("a layer of 15 cm of chaff over the bed", [](MeasuredTank& tank) { tank.left().free_litres = 0; });
    CHECK(in_words(full) ==
          "chaff for a layer of 15 cm over the bed: none for now, nothing fits: the left bay is full to the rim; take some "
          "out first");

    // 30 to 50 g on each of 2 m2.
    const StepAmount lime = one("30 to 50 g of lime for each m2 of the bed");
    check(lime.kg, 0.06, 0.08, 0.1);
    CHECK(in_words(lime) == "lime at 30 to 50 g to a square metre, for all of the bed: 60 to 100 g");

    // 5 kg to a tonne of 400 kg of bed: 2 kg.
    check(one("5 kg of slops for each 1000 kg of the bed").kg, 2, 2, 2);

    // Wet part of the last load: 20 kg of slops at 500 kg/m3 are 40 L; one to two times that in all, less the 10 L of chaff
    // there.
    check(*one("1 to 2 buckets of chaff in all for each bucket of the wet part of the last load").litres, 30, 50, 70);
    check(one("1 kg of chaff in all for each 10 kg of the wet part of the last load").kg, 0, 0, 0);  // 2 kg are there
    check(*one("1 to 2 buckets of chaff for each bucket of the wet part of the last load").litres, 40, 60, 80);
}

TEST_CASE("Worms and what they are fed", "[amounts]") {
    // 5 kg of worms eat 1.25 to 2.5 kg a day; 0.2 to 0.6 kg on each of 2 m2 are 0.4 to 1.2.
    const StepAmount feed = one("0.25 to 0.5 kg of feed a day for each kg of worms");
    check(feed.kg, 1.25, 1.875, 2.5);
    CHECK(feed.a_day);
    const StepAmount limited =
        one("0.25 to 0.5 kg of feed a day for each kg of worms, at most 0.2 to 0.6 kg for each m2 of the bed");
    check(limited.kg, 0.4, 0.8, 1.2);
    CHECK(limited.bound == StepAmount::Bound::all);
    CHECK(in_words(limited).find("it would take more, but 0.4 to 1.2 kg a day for the bed are the most") != std::string::npos);

    // 1.6 to 5 kg on each of 2 m2 are 3.2 to 10 kg, less the 5 that are there.
    const StepAmount worms = one("1.6 to 5 kg of worms in all for each m2 of the bed");
    check(worms.kg, 0, 1.6, 5);
    CHECK_FALSE(worms.litres);
    CHECK(one("1 kg of worms in all for each m2 of the bed").nothing_needed == "there is enough of it already: 5 kg");
    // Of the empty bay none are there; 20 kg/m2 is the most that live anywhere.
    check(one("1.6 to 5 kg of worms in all for each m2 of the next bay").kg, 3.2, 6.6, 10);
    const StepAmount crowd = one("15 to 30 kg of worms for each m2 of the bed");
    check(crowd.kg, 30, 35, 35);  // 2 * 20 - 5
    CHECK(crowd.bound == StepAmount::Bound::all);
}

TEST_CASE("Filling a bay", "[amounts]") {
    // 1000 L: 1 to 1 is 500 L of chaff, 2 to 1 is 667, 1.5 to 1 is 600.
    const StepAmount fill = one("1 to 2 buckets of chaff for each bucket of slops to fill the next bay");
    check(*fill.litres, 500, 600, 2000.0 / 3);
    check(fill.kg, 100, 120, 400.0 / 3);
    CHECK(
        in_words(fill) ==
        "chaff to fill the next bay together with 330 to 500 L of slops: 50 to 67 of your 10 L buckets, that is 100 to 130 kg");
}

TEST_CASE("Which bay a formula speaks of", "[amounts]") {
    // Asked about the empty bay on the right, the bed is still the one on the left, and the next bay is the other one.
    const auto asked_right = [](MeasuredTank& tank) { tank.asked = 1; };
    CHECK(one("a layer of 5 cm of chaff over the bed", asked_right).litres->typical == Approx(100));
    CHECK(missing("chaff to bring the bay to 75 % moisture", asked_right) == "what goes into the bay, and how much");
    CHECK(missing("chaff to bring the heap to 55 % moisture", asked_right) == "");
    CHECK(missing("a layer of 5 cm of chaff over the bed", [](MeasuredTank& tank) {
              tank.asked = 1;
              tank.record.bays.push_back({"third", 2, 0.5});
              tank.state.bays.push_back(tank.left());
          }) == "which bay it is about");
    CHECK(missing("a layer of 5 cm of chaff over the bed", [](MeasuredTank& tank) { tank.asked = 7; }) ==
          "which bay it is about");
    // What may be filled is a bay that is empty or being filled.
    CHECK(missing("1 bucket of chaff for each bucket of slops to fill the bay", [](MeasuredTank&) {}) == "");
    CHECK(missing("1 bucket of chaff for each bucket of slops to fill the next bay",
                  [](MeasuredTank& tank) { tank.right().stage = BayStage::resting; }) == "");
    // The right bay rests: asked about the left one, the heap is on the right.
    CHECK(one("a layer of 5 cm of chaff over the heap", [](MeasuredTank& tank) {
              tank.right().stage = BayStage::resting;
          }).litres->typical == Approx(100));
}

TEST_CASE("What the record lacks gives no number, and what to write is said", "[amounts]") {
    const std::string bed = "chaff to bring the bed to 75 % moisture";
    CHECK(missing(bed, [](MeasuredTank& tank) { tank.left().kg.reset(); }) == "what goes into the bay, and how much");
    CHECK(missing(bed, [](MeasuredTank& tank) { tank.left().moisture.reset(); }) ==
          "a squeeze or a drying test, which tells how wet it is");
    CHECK(missing("chaff to bring the top 20 cm of the bed to 75 % moisture",
                  [](MeasuredTank& tank) { tank.left().depth.reset(); }) == "how deep the bed lies");
    CHECK(missing(bed, [](MeasuredTank& tank) { tank.record.bays[0].height = 0; }) == "the floor and the height of the bay");
    CHECK(missing("0.5 kg of feed a day for each kg of worms", [](MeasuredTank& tank) { tank.left().worms.reset(); }) ==
          "how many kg of worms went in");
    CHECK(missing("chaff to bring the feed of a day to 70 % moisture",
                  [](MeasuredTank& tank) { tank.left().feed_per_day.reset(); }) == "what is fed, day by day");
    const RuleBase base = base_measuring(bed);
    CHECK(amounts_of(base.steps[*base.steps.find("step")], base, {}).amounts.empty());
}

TEST_CASE("Without a bucket of a stated size litres are told, and without a density kilograms", "[amounts]") {
    const StepAmount litres =
        one("chaff to bring the bed to 75 % moisture", [](MeasuredTank& tank) { tank.record.vessels = {}; });
    CHECK_FALSE(litres.buckets);
    CHECK(in_words(litres) == "chaff to bring the bed to 75 % moisture: about 33 kg, that is about 170 L");
    // Wood has no density: 400*(80-75)/(75-40) = 57 kg, 400*5/(75-20) = 36 to 400*5/(75-70) = 400 kg; of the heaviest stuff
    // 200 L would be 320 kg.
    const StepAmount wood = one("wood to bring the bed to 75 % moisture");
    check(wood.kg, 2000.0 / 55, 2000.0 / 35, 320);
    CHECK_FALSE(wood.litres);
    CHECK(wood.bound == StepAmount::Bound::most);
    const StepAmount layer = one("a layer of 5 cm of wood over the bed");
    CHECK_FALSE(layer.kg_known);
    check(*layer.litres, 100, 100, 100);
    CHECK(in_words(layer) == "wood for a layer of 5 cm over the bed: about 10 of your 10 L buckets");
}

TEST_CASE("One of several materials, and several things beside one another", "[amounts]") {
    const RuleBase base = base_measuring("chaff or bran to bring the bed to 75 % moisture");
    const StepAmounts either = amounts(base, MeasuredTank(base));
    REQUIRE(either.amounts.size() == 2);
    CHECK(either.amounts[0].name == "chaff");
    CHECK_FALSE(either.amounts[0].instead);
    CHECK(either.amounts[1].name == "bran");
    CHECK(either.amounts[1].instead);

    Rules rules;
    rules.step("step", "measured out: [5 kg of slops for each 1000 kg of the bed, 100 L of water for each 1000 kg of the bed]");
    const RuleBase both = base_of(rules.text() + measured_materials);
    const StepAmounts slurry = amounts(both, MeasuredTank(both));
    REQUIRE(slurry.amounts.size() == 2);
    check(slurry.amounts[0].kg, 2, 2, 2);
    check(*slurry.amounts[1].litres, 40, 40, 40);
    CHECK_FALSE(slurry.amounts[1].instead);
}

TEST_CASE("What the tank's record shows to be at hand comes first", "[amounts]") {
    const RuleBase base = base_measuring("bran or wood or chaff to bring the bed to 75 % moisture");
    MeasuredTank tank(base);
    CHECK(amounts(base, tank).amounts.front().name == "bran");
    tank.record.entries.push_back(
        {Day{}, std::nullopt, Added{{{*base.materials.find("chaff"), {}, Estimate::exactly(1)}}}, "", {}});
    const StepAmounts result = amounts(base, tank);
    CHECK(result.amounts.front().name == "chaff");
    CHECK(result.amounts[1].name == "bran");
}

TEST_CASE("A limit holds for all that is there in the end", "[amounts]") {
    // 2 kg a day want 4 to 8 kg of worms; no more than 3 kg on each of 2 m2, less the 5 that are there.
    const StepAmount worms =
        one("2 to 4 kg of worms in all for each kg of the feed of a day, at most 3 kg for each m2 of the bay",
            [](MeasuredTank& tank) { tank.left().feed->kg = Estimate::exactly(20); });
    check(worms.kg, 0, 1, 1);
    CHECK_FALSE(worms.a_day);
}

}  // namespace engine_step_amount_test
