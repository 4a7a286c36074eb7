#include "engine/tank/worms.hpp"

#include "engine/herd.hpp"
#include "engine/tank/figures_in_words.hpp"
#include "engine/tank/ranges.hpp"

#include <algorithm>
#include <map>

namespace lidlift::tank {

void add_worms(BayState& state, const BayHistory& history, Day today) {
    std::map<Day, double> moved;  // all of a day at once, so that its order does not count
    for (const WormsMoved& worms : history.worms) moved[worms.on] += worms.kg;
    Estimate alive;
    std::optional<Day> before;
    std::optional<Day> since;
    double put_in = 0;
    for (const auto& [on, kg] : moved) {
        if (before) alive = herd_after(alive, days_between(*before, on), history.area);
        if (kg > 0) {
            alive = plus(alive, Estimate::exactly(kg));
            if (!since) since = on;
            put_in += kg;
        } else {
            alive = {std::max(0.0, alive.low + kg), std::max(0.0, alive.typical + kg), std::max(0.0, alive.high + kg)};
            // Nobody can be sure that the last one was found, but a bed without worms in the record is one.
            if (alive.typical <= 0) {
                since.reset();
                put_in = 0;
            }
        }
        before = on;
    }
    if (!since) return;
    alive = herd_after(alive, days_between(*before, today), history.area);
    state.days_since_worms = days_between(*since, today);
    state.worms_put_in = put_in;
    const std::string how = in_words(Estimate::exactly(put_in), "kg") + " went in since " + to_text(*since) +
                            "; if they fared well they double in 60 to 90 days until it is crowded";
    state.worms = {alive, how};
    if (history.area > 0) state.stocking = put_in / history.area;
}

}  // namespace lidlift::tank
