#include "engine/tank/worms.hpp"

#include "engine/herd.hpp"
#include "engine/tank/figures_in_words.hpp"
#include "engine/tank/ranges.hpp"

#include <algorithm>
#include <map>

namespace lidlift::tank {

Herd herd_of(const BayHistory& history, Day today) {
    std::map<Day, WormsMoved> by_day;  // all of a day at once, so that its order does not count
    for (const WormsMoved& moved : history.worms) {
        WormsMoved& all = by_day[moved.on];
        all.in = plus(all.in, moved.in);
        all.out = plus(all.out, moved.out);
        all.by_themselves = all.by_themselves || moved.by_themselves;
    }
    Herd herd;
    std::optional<Day> before;
    for (const auto& [on, moved] : by_day) {
        if (on > today) break;
        if (before) herd.kg = herd_after(herd.kg, days_between(*before, on), history.area);
        before = on;
        if (moved.in.high > 0 && !herd.since) herd = {{}, {}, on, std::nullopt, false};
        herd.put_in = plus(herd.put_in, moved.in);
        herd.by_themselves = herd.by_themselves || moved.by_themselves;
        const Estimate all = plus(herd.kg, moved.in);
        herd.kg = {std::max(0.0, all.low - moved.out.high), std::max(0.0, all.typical - moved.out.typical),
                   std::max(0.0, all.high - moved.out.low)};
        // Nobody can be sure that the last one was found, but where so many were taken out it is no worm bed any more.
        if (herd.since && herd.kg.typical <= 0) herd = {{}, {}, std::nullopt, on, false};
    }
    if (herd.since) herd.kg = herd_after(herd.kg, days_between(*before, today), history.area);
    return herd;
}

std::optional<Day> worms_seen(const BayHistory& history, const RuleBase& rule_base) {
    struct Proof {
        std::string_view sign;
        std::vector<std::string_view> answers;
    };
    // Of what is seen of worms, that which is seen of living ones in this bed.
    static const std::vector<Proof> proofs = {
        {"worms_in_yet", {"yes"}},
        {"worm_place", {"in_feed_zone", "up_walls_lid", "deep_bottom", "surface_in_daylight"}},
        {"worm_clump", {"ball"}},
        {"worm_move", {"lively", "sluggish", "thrashing"}},
        {"worm_young", {"cocoons_and_young"}},
        {"worm_size", {"normal", "small_thin"}},
        {"worm_trend", {"rising", "steady"}},
    };
    std::optional<Day> last;
    for (const Seen& seen : history.seen)
        for (const Proof& proof : proofs) {
            const Sign& sign = rule_base.signs[seen.sign];
            if (sign.id != proof.sign) continue;
            AnswerSet alive = 0;
            for (const std::string_view answer : proof.answers)
                if (const auto position = sign.find_answer(answer)) alive |= answer_set(*position);
            const Observation& said = *seen.observation;
            if (sign.sort == SignSort::several ? (said.present & alive) != 0 : (said.possible & ~alive) == 0) last = seen.on;
        }
    return last;
}

void add_worms(BayState& state, const BayHistory& history, Day today) {
    const Herd herd = herd_of(history, today);
    if (!herd.since) return;
    state.days_since_worms = days_between(*herd.since, today);
    state.worms_put_in = herd.put_in.typical;
    state.worms = {herd.kg, in_words(herd.put_in, "kg") + (herd.by_themselves ? " came in since " : " went in since ") +
                                to_text(*herd.since) + "; if they fared well they double in 60 to 90 days until it is crowded"};
    if (history.area > 0 && !herd.by_themselves) state.stocking = herd.put_in.typical / history.area;
}

}  // namespace lidlift::tank
