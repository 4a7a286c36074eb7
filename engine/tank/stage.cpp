#include "engine/tank/stage.hpp"

#include "engine/tank/figures_in_words.hpp"
#include "engine/tank/heat.hpp"
#include "engine/tank/worms.hpp"

#include <algorithm>
#include <map>

namespace lidlift::tank {
namespace {

using std::chrono::days;

/// Was ammonia smelt, and when last? Only a `none` (or a no) says that it was not.
std::optional<Day> ammonia_smelt(const BayHistory& history, const RuleBase& rule_base) {
    const auto sign = rule_base.signs.find("smell_ammonia");
    if (!sign) return std::nullopt;
    const auto none = rule_base.signs[*sign].find_answer("none");
    std::optional<Day> last;
    for (const Seen& seen : history.seen) {
        if (seen.sign != *sign || !none) continue;
        const bool smelt = (seen.observation->possible & answer_set(*none)) == 0;
        if (smelt)
            last = seen.on;
        else if (last && *last < seen.on)
            last.reset();
    }
    return last;
}

/// What still speaks against worms on `today`; empty: nothing that is known.
std::string against_worms(const BayState& state, const BayHistory& history, const RuleBase& rule_base, Day today) {
    if (state.temperature && state.temperature->value.high > coolest_core)
        return "the core read " + in_words(state.temperature->value, "°C") + ", and worms want " +
               in_words(Estimate::exactly(coolest_core), "°C") + " or less";
    const std::vector<DayHeat> readings = temperatures_of(history, rule_base);
    for (const DayHeat& reading : readings)
        if (days_between(reading.on, today) < days_of_cool && reading.celsius.high > coolest_core)
            return "it was still warmer on " + to_text(reading.on);
    if (const auto smelt = ammonia_smelt(history, rule_base); smelt && days_between(*smelt, today) <= ammonia_remembered)
        return "it smelt of ammonia on " + to_text(*smelt);
    return {};
}

/// The last day up to `until` on which so much went in that the rest begins anew; none where nothing went in.
std::optional<Day> last_filling(const BayHistory& history, Day until) {
    std::map<Day, double> by_day;
    for (const Load& load : history.loads)
        if (load.on <= until && !load.sprinkled) by_day[load.on] += load.kg.typical;
    std::optional<Day> last;
    double all = 0;
    for (const auto& [on, kg] : by_day) {
        all += kg;
        if (kg >= share_of_a_filling * all) last = on;
    }
    return last;
}

void without_worms(BayState& state, const BayHistory& history, const RuleBase& rule_base, Day today) {
    const Day last = last_filling(history, today).value_or(history.loads.front().on);
    const int rested = days_between(last, today);
    state.days_since_filling = state.rest_days = rested;
    const std::string against = against_worms(state, history, rule_base, today);
    state.worms_from = last + days(least_rest);
    if (!against.empty()) state.worms_from = std::max(*state.worms_from, today + days(days_of_cool));
    const std::string rest = "it was filled " + days_in_words(rested) + " ago";
    if (rested < pause_that_ends_filling) {
        state.stage = BayStage::filling;
        state.stage_because = "the last load went in " + std::string(rested == 0 ? "today" : days_in_words(rested) + " ago") +
                              ", and there are no worms yet";
        return;
    }
    const bool cooled = state.peak_temperature && *state.peak_temperature >= was_hot && state.temperature &&
                        state.temperature->value.typical < no_longer_hot;
    if (rested >= least_rest && against.empty()) {
        state.stage = BayStage::ready_for_worms;
        state.stage_because = rest + (state.temperature ? ", and the core is cool" : "; measure the core before worms go in");
    } else if (cooled) {
        state.stage = BayStage::cooling;
        state.stage_because = "it was hot and has cooled to " + in_words(state.temperature->value, "°C");
    } else {
        state.stage = BayStage::resting;
        state.stage_because = rest + (against.empty() ? ", no worms yet" : ", but " + against);
    }
}

void with_worms(BayState& state, const BayHistory& history, Day today) {
    state.stage = BayStage::worm_bed;
    state.stage_because = "worms went in " + days_in_words(*state.days_since_worms) + " ago";
    if (history.loads.empty()) return;
    state.days_since_filling = days_between(history.loads.front().on, today);
    // How long the first material lay before the worms came to it.
    const Day worms_in = today - days(*state.days_since_worms);
    if (const auto last_before = last_filling(history, worms_in)) state.rest_days = days_between(*last_before, worms_in);
}

}  // namespace

void add_stage(BayState& state, const BayHistory& history, const RuleBase& rule_base, Day today) {
    if (state.days_since_worms) {
        with_worms(state, history, today);
    } else if (const Herd herd = herd_of(history, today); herd.gone && !history.loads.empty()) {
        state.stage = BayStage::harvest_due;
        state.stage_because = "the worms were taken out on " + to_text(*herd.gone);
        state.harvest_from = herd.gone;
    } else if (const auto seen = worms_seen(history, rule_base)) {
        state.stage = BayStage::worm_bed;
        state.stage_because = "worms were seen in it on " + to_text(*seen) + ", though nobody wrote down when they went in";
        if (!history.loads.empty()) state.days_since_filling = days_between(history.loads.front().on, today);
    } else if (!history.loads.empty()) {
        without_worms(state, history, rule_base, today);
    } else {
        state.stage = BayStage::empty;
        state.stage_because = history.emptied ? "emptied on " + to_text(*history.emptied) : "the record names nothing in it";
    }
}

}  // namespace lidlift::tank
