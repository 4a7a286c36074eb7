// Tanks for the tests of amounts: a small rule base with round figures, and a state that is set by hand.
#pragma once

#include "engine/step_amount.hpp"
#include "tests/engine/short_rules.hpp"

#include <string>

namespace lidlift::test {

/// Materials whose figures are easily reckoned with; `bran` and `wood` have ranges.
inline const char* const measured_materials = R"(
materials:
  chaff: {name: Chaff, role: dry matter, moisture: {typical: 15 %, standing: derived}, nitrogen: {typical: 0.5 %, standing: derived},
          carbon to nitrogen: {typical: 80, standing: derived}, density: {typical: 200 kg/m3, standing: derived}, sources: [common_practice]}
  bran:  {name: Bran, role: dry matter, moisture: {typical: 15 %, from: 5 %, to: 25 %, standing: derived},
          density: {typical: 200 kg/m3, from: 100 kg/m3, to: 400 kg/m3, standing: derived}, sources: [common_practice]}
  wood:  {name: Wood, role: dry matter, moisture: {typical: 40 %, from: 20 %, to: 70 %, standing: derived}, sources: [common_practice]}
  slops: {name: Slops, role: feed, moisture: {typical: 85 %, standing: derived}, nitrogen: {typical: 3 %, standing: derived},
          carbon to nitrogen: {typical: 12, standing: derived}, density: {typical: 500 kg/m3, standing: derived}, sources: [common_practice]}
  lime:  {name: Ground limestone, role: mineral, moisture: {typical: 1 %, standing: derived}, nitrogen: {typical: 0 %, standing: derived},
          density: {typical: 1250 kg/m3, standing: derived}, cautions: [], sources: [common_practice]}
)";

/// A rule base with one step that measures out `formula`.
inline RuleBase base_measuring(const std::string& formula) {
    Rules rules;
    rules.step("step", "measured out: \"" + formula + "\"");
    return base_of(rules.text() + measured_materials);
}

/// Two bays of 2 m2 and 0.5 m (1000 L each): on the left a worm bed of 400 kg at 80 %, 800 L and 0.4 m deep with 5 kg of worms,
/// fed 20 kg of slops and 2 kg of chaff on the last day; on the right nothing.
struct MeasuredTank {
    TankRecord record;
    TankState state;
    std::size_t asked = 0;

    explicit MeasuredTank(const RuleBase& rule_base) {
        record.name = "test";
        record.bays = {{"left", 2, 0.5}, {"right", 2, 0.5}};
        record.vessels.state({"bucket", 10});
        state.bays.resize(2);
        BayState& bed = state.bays[0];
        bed.stage = BayStage::worm_bed;
        bed.kg = {Estimate::exactly(400), "weighed"};
        bed.moisture = {Estimate::exactly(80), "dried"};
        bed.litres = {Estimate::exactly(800), "measured"};
        bed.depth = {Estimate::exactly(0.4), "measured"};
        bed.free_litres = 200;
        bed.worms = {Estimate::exactly(5), "weighed"};
        bed.days_since_feed = 1;
        bed.last_load = {portion(rule_base, "slops", 20), portion(rule_base, "chaff", 2)};
        bed.feed = mix(bed.last_load);
        bed.fed = {Estimate::exactly(20), "weighed"};
        bed.feed_per_day = {Estimate::exactly(2), "weighed"};
        bed.filled = bed.last_load;
    }

    static Portion portion(const RuleBase& rule_base, const std::string& material, double kg) {
        return {*ingredient_of(rule_base.materials[*rule_base.materials.find(material)]), Estimate::exactly(kg), std::nullopt};
    }
    [[nodiscard]] TankContext context() const { return {&record, &state, asked}; }
    BayState& left() { return state.bays[0]; }
    BayState& right() { return state.bays[1]; }
};

inline StepAmounts amounts(const RuleBase& rule_base, const MeasuredTank& tank) {
    return amounts_of(rule_base.steps[*rule_base.steps.find("step")], rule_base, tank.context());
}

}  // namespace lidlift::test
