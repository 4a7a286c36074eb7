#include "engine/mix_advice.hpp"

#include "tests/catch.hpp"
#include "tests/engine/small_materials.hpp"
#include "tests/near.hpp"

#include <cmath>

namespace engine_mix_advice_test {

using namespace lidlift;
using test::near;

namespace {

const RuleBase& base() {
    static const RuleBase rule_base = test::read_small_materials();
    return rule_base;
}
const MaterialNames& names() {
    static const MaterialNames all(base());
    return all;
}

MixQuestion question(std::string_view loads, std::vector<std::string> hands = {}, const char* target = nullptr) {
    MixQuestion result;
    result.loads = *read_loads(loads, names(), {});
    for (const std::string& hand : hands) result.at_hand.push_back(*read_at_hand(hand, names(), {}));
    if (target) result.target = *read_target(target);
    return result;
}

std::vector<std::string> ids(const std::vector<Handle<Caution>>& cautions) {
    std::vector<std::string> result;
    for (const auto caution : cautions) result.push_back(base().cautions[caution].id);
    return result;
}

}  // namespace

TEST_CASE("one material for one figure is given with its exact range", "[mixture]") {
    const MixAnswer mixed = *answer(base(), question("30 kg kitchen_waste",
                                                     {
                                                         "dry_leaves",
                                                     },
                                                     "60 %"));
    REQUIRE(mixed.plan);
    REQUIRE(*mixed.plan);
    const MixPlan& plan = **mixed.plan;
    REQUIRE(plan.add.size() == 1);
    CHECK(plan.add[0].kg.typical == near(30 * 20 / 30.0, 1e-6));
    CHECK(plan.add[0].kg.low == near(30 * 10 / 40.0, 1e-9));   // waste of 70 % and leaves of 20 %
    CHECK(plan.add[0].kg.high == near(30 * 30 / 20.0, 1e-9));  // waste of 90 % and leaves of 40 %
    CHECK(plan.add[0].litres->typical == near(200, 1e-5));
    CHECK(plan.then.moisture.typical == near(60, 1e-9));
    CHECK(plan.then.kg.typical == near(50, 1e-6));
}

TEST_CASE("both figures may want two materials, and what is not wanted is said", "[mixture]") {
    const MixAnswer mixed = *answer(base(), question("30 kg kitchen_waste", {"dry_leaves", "water", "hydrated_lime"}, "worms"));
    REQUIRE(*mixed.plan);
    const MixPlan& plan = **mixed.plan;
    CHECK(plan.then.moisture.typical <= 85 + 1e-9);
    CHECK(plan.then.carbon_to_nitrogen->typical >= 20 - 1e-9);
    for (const SuitsStage& one : plan.suits)
        if (std::string(one.stage->word) == "worms") {
            CHECK(one.moisture == Judgement::inside);
            CHECK(one.carbon_to_nitrogen == Judgement::inside);
        }
    REQUIRE(mixed.only_at_hand.size() == 2);
    CHECK(base().materials[mixed.only_at_hand[0]].id == "water");
    CHECK(ids(mixed.cautions) == std::vector<std::string>{"K03"});  // not that of the lime, which is not wanted
}

TEST_CASE("cautions of everything in it come, gravest first and each once", "[mixture]") {
    const MixAnswer mixed = *answer(base(), question("30 kg kitchen_waste 5 kg kitchen_waste 1 kg hydrated_lime"));
    CHECK(ids(mixed.cautions) == std::vector<std::string>{"K08", "K03"});
    CHECK(mixed.materials.size() == 2);
    CHECK(mixed.parts.size() == 3);
    CHECK(mixed.mixture.carbon_to_nitrogen->typical == near(16, 1e-9));  // the lime counts for nothing in it
}

TEST_CASE("cautions of what is to be added come too", "[mixture]") {
    const MixAnswer mixed = *answer(base(), question("30 kg dry_leaves", {"kitchen_waste"}, "55 %"));
    REQUIRE(*mixed.plan);
    CHECK(ids(mixed.cautions) == std::vector<std::string>{"K03"});
}

TEST_CASE("a target that cannot be reached keeps the mixture and says why", "[mixture]") {
    const MixAnswer mixed = *answer(base(), question("30 kg kitchen_waste", {"dry_leaves up to 5 kg"}, "60 %"));
    REQUIRE(mixed.plan);
    REQUIRE_FALSE(*mixed.plan);
    CHECK(mixed.plan->fault().text ==
          "the moisture is 80 % and has to come down to 60 %, and all the dry leaves (5 kg) at hand brings it to 73 % only");
    CHECK(mixed.mixture.kg.typical == 30);
}

TEST_CASE("what is at its target already wants nothing", "[mixture]") {
    const MixAnswer mixed = *answer(base(), question("30 kg kitchen_waste", {"water"}, "80 %"));
    REQUIRE(*mixed.plan);
    CHECK((*mixed.plan)->add.empty());
}

TEST_CASE("measured figures count in place of the rule base's, the last of them", "[mixture]") {
    MixQuestion asked = question("30 kg kitchen_waste");
    asked.measured.push_back(*read_measured("kitchen_waste moisture 75 %", names()));
    asked.measured.push_back(*read_measured("slops moisture 82 %", names()));
    asked.measured.push_back(*read_measured("slops density 450 kg/m3", names()));
    const MixAnswer mixed = *answer(base(), asked);
    CHECK(mixed.mixture.moisture.low == near(82, 1e-12));
    CHECK(mixed.mixture.moisture.high == near(82, 1e-12));
    CHECK(mixed.mixture.density->typical == near(450, 1e-9));
}

TEST_CASE("amounts that cannot be used are faults", "[mixture]") {
    CHECK(answer(base(), question("0 kg water")).fault().text == "all the amounts are 0, so there is nothing to mix");
    CHECK(answer(base(), question("2 L hydrated_lime")).fault().text ==
          "nobody knows how heavy a litre of hydrated lime is: weigh it, and say so many kg of it");
    CHECK(answer(base(), question("2 kg water", {"hydrated_lime up to 2 L"}, "60 %")).fault().text ==
          "nobody knows how heavy a litre of hydrated lime is: weigh it, and say so many kg of it");
}

TEST_CASE("what worms must not have is never added for them", "[mixture]") {
    const auto hen = *base().materials.find("hen_manure");
    const MixAnswer for_worms = *answer(base(), question("30 kg dry_leaves", {"hen_manure", "water"}, "worms"));
    CHECK(for_worms.passed_over == std::vector{hen});
    REQUIRE(for_worms.plan);
    REQUIRE_FALSE(*for_worms.plan);  // water alone does not lower a C:N of 50
    CHECK(for_worms.cautions.empty());

    const MixAnswer for_heat = *answer(base(), question("30 kg dry_leaves", {"hen_manure", "water"}, "resting"));
    CHECK(for_heat.passed_over.empty());
    REQUIRE(*for_heat.plan);
    CHECK((*for_heat.plan)->add.front().material == hen);
    CHECK((*for_heat.plan)->suits[0].kept_out.empty());
    CHECK((*for_heat.plan)->suits[1].kept_out == std::vector{hen});  // right by its figures, and not for worms all the same
    CHECK(for_heat.suits[1].kept_out.empty());                       // as long as it is not in
}

TEST_CASE("a range that crosses the window's end is said to be unsure", "[mixture]") {
    const auto suits_resting = [](const Estimate& moisture) {
        Mixture mixture;
        mixture.moisture = moisture;
        return suits(mixture).front();
    };
    CHECK_FALSE(suits_resting({52, 55, 60}).moisture_unsure);
    CHECK_FALSE(suits_resting({70, 80, 90}).moisture_unsure);
    CHECK(suits_resting({60, 80, 90}).moisture_unsure);
    CHECK(suits_resting({52, 55, 70}).moisture_unsure);
    CHECK(suits_resting({30, 70, 70}).moisture_unsure);
    CHECK_FALSE(suits_resting({52, 55, 60}).carbon_to_nitrogen.has_value());
}

}  // namespace engine_mix_advice_test
