#include "engine/tank_state.hpp"

#include "engine/tank/bay_history.hpp"
#include "engine/tank/contents.hpp"
#include "engine/tank/feeding.hpp"
#include "engine/tank/heat.hpp"
#include "engine/tank/stage.hpp"
#include "engine/tank/worms.hpp"

namespace lidlift {

TankState state_of(const TankRecord& record, const RuleBase& rule_base, Day today) {
    TankState state{today, {}};
    for (std::size_t i = 0; i < record.bays.size(); ++i) {
        const tank::BayHistory history = tank::history_of(record, rule_base, i, today);
        BayState& bay = state.bays.emplace_back();
        tank::add_contents(bay, history, rule_base, today);
        tank::add_worms(bay, history, today);
        tank::add_feeding(bay, history, rule_base, today);
        tank::add_heat(bay, history, rule_base, today);
        tank::add_stage(bay, history, rule_base, today);
    }
    return state;
}

}  // namespace lidlift
