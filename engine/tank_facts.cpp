#include "engine/tank_facts.hpp"

#include "engine/tank/facts.hpp"
#include "engine/tank/figures_in_words.hpp"
#include "engine/tank/turns.hpp"

#include <algorithm>
#include <tuple>

namespace lidlift {
namespace {

bool exclude_one_another(const Sign& sign, const Observation& a, const Observation& b) {
    if (sign.sort == SignSort::several) return (a.present & b.absent) != 0 || (b.present & a.absent) != 0;
    if (a.measured && b.measured) return !a.measured->meets(*b.measured);
    return (a.possible & b.possible) == 0;
}

/// What is in its order of being meant: worms, fed lately, filled lately, anything.
std::tuple<int, int> urgency(const BayState& bay) {
    constexpr int never = -100'000;
    switch (bay.stage) {
        case BayStage::worm_bed:
        case BayStage::migrating:
            return {3, -bay.days_since_feed.value_or(-never)};
        case BayStage::harvest_due:
            return {2, -bay.days_since_feed.value_or(-never)};
        case BayStage::filling:
        case BayStage::resting:
        case BayStage::cooling:
        case BayStage::ready_for_worms:
            return {1, -bay.days_since_filling.value_or(-never)};
        case BayStage::empty:
            return {0, 0};
    }
    return {0, 0};
}

}  // namespace

std::vector<TankFact> facts_of(const TankRecord& record, const TankState& state, const RuleBase& rule_base, std::size_t bay) {
    std::vector<tank::BayHistory> histories;
    for (std::size_t i = 0; i < record.bays.size(); ++i)
        histories.push_back(tank::history_of(record, rule_base, i, state.today));
    tank::let_worms_cross(histories, record, rule_base, state.today);
    const tank::BayKnown known{record, state, rule_base, bay, histories[bay]};
    tank::FactList facts(rule_base);
    tank::add_stage_facts(facts, known);
    tank::add_feed_facts(facts, known);
    tank::add_heat_facts(facts, known);
    tank::add_neighbour_facts(facts, known);
    tank::add_noted_facts(facts, known);
    return facts.take();
}

BayMeant bay_meant(const TankRecord& record, const TankState& state) {
    if (record.bays.size() == 1) return {0, "it is the only one"};
    BayMeant meant;
    for (std::size_t i = 1; i < state.bays.size(); ++i)
        if (urgency(state.bays[i]) > urgency(state.bays[meant.bay])) meant.bay = i;
    const auto kind = std::get<0>(urgency(state.bays[meant.bay]));
    meant.because = kind == 3   ? "it has the worms"
                    : kind == 2 ? "it is the one to harvest"
                    : kind == 1 ? "no bay has worms, and it was filled last"
                                : "the record names nothing in any bay";
    return meant;
}

std::vector<std::string> add_facts(Told& told, const std::vector<TankFact>& facts, const RuleBase& rule_base) {
    std::vector<std::string> overruled;
    for (const TankFact& fact : facts) {
        const Sign& sign = rule_base.signs[fact.sign];
        if (const Observation* said = told.facts.find(fact.sign)) {
            if (exclude_one_another(sign, *said, fact.observation))
                overruled.push_back(sign.name + ": you say \"" + in_words(sign, *said) + "\", the record says \"" +
                                    in_words(sign, fact.observation) + "\" (" +
                                    fact.observation.from.substr(from_the_record.size()) + "); I went by what you say");
            continue;
        }
        if (std::ranges::find(told.order, fact.sign) != told.order.end()) continue;  // asked, and the answer was "?"
        told.facts.set(fact.sign, fact.observation);
        told.order.push_back(fact.sign);
    }
    return overruled;
}

}  // namespace lidlift
