#include "engine/tank_state.hpp"

#include "engine/tank/bay_history.hpp"
#include "engine/tank/contents.hpp"
#include "engine/tank/feeding.hpp"
#include "engine/tank/heat.hpp"
#include "engine/tank/moisture.hpp"
#include "engine/tank/stage.hpp"
#include "engine/tank/turns.hpp"
#include "engine/tank/worms.hpp"

namespace lidlift {

const char* stage_word(BayStage stage) {
    switch (stage) {
        case BayStage::empty:
            return "empty";
        case BayStage::filling:
            return "being filled";
        case BayStage::resting:
            return "resting";
        case BayStage::cooling:
            return "cooling";
        case BayStage::ready_for_worms:
            return "ready for worms";
        case BayStage::worm_bed:
            return "worm bed";
        case BayStage::migrating:
            return "worms leaving";
        case BayStage::harvest_due:
            return "harvest due";
    }
    return "";
}

TankState state_of(const TankRecord& record, const RuleBase& rule_base, Day today) {
    std::vector<tank::BayHistory> histories;
    for (std::size_t i = 0; i < record.bays.size(); ++i) histories.push_back(tank::history_of(record, rule_base, i, today));
    tank::let_worms_cross(histories, record, rule_base, today);
    TankState state{today, {}};
    for (const tank::BayHistory& history : histories) {
        BayState& bay = state.bays.emplace_back();
        tank::add_contents(bay, history, rule_base, today);
        tank::add_moisture(bay, history, rule_base, today);
        tank::add_worms(bay, history, today);
        tank::add_feeding(bay, history, rule_base, today);
        tank::add_heat(bay, history, rule_base, today);
        tank::add_stage(bay, history, rule_base, today);
    }
    tank::add_turns(state, histories, record, rule_base);
    return state;
}

}  // namespace lidlift
