#include "engine/tank/turns.hpp"

#include "engine/tank/figures_in_words.hpp"
#include "engine/tank/ranges.hpp"
#include "engine/tank/worms.hpp"

#include <algorithm>

namespace lidlift::tank {
namespace {

using std::chrono::days;

/// Sets the window, and the stage when the day has come.
void harvest_after(BayState& bay, Day start, int soonest, int latest, Day today, const std::string& because) {
    bay.harvest_from = start + days(soonest);
    bay.harvest_until = start + days(latest);
    if (today < *bay.harvest_from) return;
    bay.stage = BayStage::harvest_due;
    bay.stage_because = because + ", so the harvest was due from " + to_text(*bay.harvest_from) + " on";
}

/// Is there another bay that the worms may go to, and why? Empty: there is none.
std::string way_out(const TankState& state, const TankRecord& record, std::size_t from) {
    if (record.wall_openings && !*record.wall_openings) return {};
    for (std::size_t i = 0; i < state.bays.size(); ++i) {
        const BayState& other = state.bays[i];
        if (i == from) continue;
        if (other.stage == BayStage::ready_for_worms) return "bay " + record.bays[i].name + " is ready";
        if (other.days_since_worms && *other.days_since_worms < *state.bays[from].days_since_worms)
            return "bay " + record.bays[i].name + " has worms since " + to_text(state.today - days(*other.days_since_worms));
    }
    return {};
}

/// What was seen of the worms of one bay crossing, from either side of the wall. Where worms have been in another bay for
/// longer, it is those that cross.
Crossing crossing_of(const TankState& state, const std::vector<BayHistory>& histories, const RuleBase& rule_base,
                     std::size_t bay) {
    const Day since = state.today - days(*state.bays[bay].days_since_worms);
    Crossing crossing = crossing_seen(histories[bay], rule_base, since);
    for (std::size_t i = 0; i < state.bays.size(); ++i) {
        if (i == bay) continue;
        const auto& other = state.bays[i].days_since_worms;
        if (other && *other > *state.bays[bay].days_since_worms) return {};
        if (histories.size() != 2) continue;
        const Crossing seen = crossing_seen(histories[i], rule_base, since);
        if (seen.begun && (!crossing.begun || *seen.begun < *crossing.begun)) crossing.begun = seen.begun;
        if (seen.most_across && (!crossing.most_across || *seen.most_across < *crossing.most_across))
            crossing.most_across = seen.most_across;
    }
    return crossing;
}

}  // namespace

Crossing crossing_seen(const BayHistory& history, const RuleBase& rule_base, Day since) {
    Crossing crossing;
    const auto sign = rule_base.signs.find("worms_crossing");
    if (!sign) return crossing;
    AnswerSet some = 0;
    AnswerSet most = 0;
    for (const std::string_view id : {"a_few", "nearly_all"})
        if (const auto answer = rule_base.signs[*sign].find_answer(id)) {
            some |= answer_set(*answer);
            if (id == "nearly_all") most = answer_set(*answer);
        }
    for (const Seen& seen : history.seen) {
        if (seen.sign != *sign || seen.on < since) continue;
        const AnswerSet possible = seen.observation->possible;
        if ((possible & ~some) == 0 && !crossing.begun) crossing.begun = seen.on;
        if ((possible & ~most) == 0 && !crossing.most_across) crossing.most_across = seen.on;
    }
    return crossing;
}

void let_worms_cross(std::vector<BayHistory>& histories, const TankRecord& record, const RuleBase& rule_base, Day today) {
    if (histories.size() != 2 || (record.wall_openings && !*record.wall_openings)) return;
    // Seen from either side of the wall; each bay's history holds what was written for the whole tank.
    for (std::size_t from = 0; from < 2; ++from) {
        BayHistory& old_bay = histories[from];
        BayHistory& next_bay = histories[1 - from];
        const Herd herd = herd_of(old_bay, today);
        if (!herd.since || next_bay.loads.empty()) continue;
        std::optional<Day> across = crossing_seen(old_bay, rule_base, *herd.since).most_across;
        if (const auto seen = crossing_seen(next_bay, rule_base, *herd.since).most_across)
            across = across ? std::min(*across, *seen) : *seen;
        if (!across || herd_of(next_bay, *across).since || next_bay.loads.front().on > *across) continue;
        const Estimate moved = times(herd_of(old_bay, *across).kg, most_of_the_worms);
        old_bay.worms.push_back({*across, {}, moved, true});
        next_bay.worms.push_back({*across, moved, {}, true});
        return;
    }
}

void add_turns(TankState& state, const std::vector<BayHistory>& histories, const TankRecord& record,
               const RuleBase& rule_base) {
    for (std::size_t i = 0; i < state.bays.size(); ++i) {
        BayState& bay = state.bays[i];
        if (bay.stage != BayStage::worm_bed || !bay.days_since_worms) continue;
        const Crossing crossing = crossing_of(state, histories, rule_base, i);
        const std::string out = way_out(state, record, i);
        // What went in before the worms came they have eaten since then.
        const int hungry = std::min(bay.days_since_feed.value_or(*bay.days_since_worms), *bay.days_since_worms);
        const bool starved = !bay.filled.empty() && hungry >= days_that_starve;  // of an older bed the record knows no feed
        const bool fed = bay.days_since_feed && hungry == *bay.days_since_feed;
        if (crossing.begun) {
            bay.stage = BayStage::migrating;
            bay.stage_because = "worms were seen crossing on " + to_text(*crossing.begun);
        } else if (starved && !out.empty()) {
            bay.stage = BayStage::migrating;
            bay.stage_because = "not fed for " + days_in_words(hungry) + ", and " + out;
        }
        if (crossing.most_across) {
            harvest_after(bay, *crossing.most_across, soonest_harvest_after_crossing, latest_harvest_after_crossing,
                          state.today, "most worms had crossed on " + to_text(*crossing.most_across));
        } else if (starved) {
            const Day since = state.today - days(hungry);
            harvest_after(bay, since, soonest_harvest_after_feed, latest_harvest_after_feed, state.today,
                          (fed ? "it was last fed on " : "nothing was fed since the worms went in on ") + to_text(since));
        }
    }
}

}  // namespace lidlift::tank
