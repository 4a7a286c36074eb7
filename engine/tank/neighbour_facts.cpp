#include "engine/tank/contents.hpp"
#include "engine/tank/facts.hpp"
#include "engine/tank/figures_in_words.hpp"
#include "engine/tank/stage.hpp"
#include "engine/tank/turns.hpp"

#include <algorithm>
#include <array>

namespace lidlift::tank {
namespace {

using std::chrono::days;

/// Looked into, turned or damped within so many days is looked after.
constexpr int looked_after = 14;

/// A bay with less room left than this share of what it holds is full.
constexpr double room_of_a_full_bay = 0.1;

/// A bay that rested less than this and was not seen cooling is hot or raw (two weeks are the least that the guides give).
constexpr int raw_below = 14;

/// Done at the wall, these let worms over that could not cross before, or found nothing to cross for.
constexpr std::array<std::string_view, 3> steps_that_open_the_way = {"rod_wall_openings", "lay_damp_bridge", "bait_next_bay"};

bool has_worms(const BayState& bay) { return bay.days_since_worms.has_value() || bay.stage == BayStage::worm_bed; }

class NeighbourFacts {
public:
    NeighbourFacts(FactList& facts, const BayKnown& known) : facts_(facts), known_(known), now_(known.now()) {}

    void add() {
        wall();
        if (known_.state.bays.size() < 2) {
            facts_.answer("bay_turns", {"not_applicable"}, "it has one bay");
            return;
        }
        turns();
        if (!has_worms(now_)) return;
        next_bay();
        if (now_.stage != BayStage::migrating && now_.stage != BayStage::harvest_due) return;
        way_over();
        if (!now_.days_since_feed || !now_.days_since_worms || *now_.days_since_feed > *now_.days_since_worms) return;
        if (*now_.days_since_feed >= days_that_starve)
            facts_.answer("old_bay_care", {"stopped"}, last_fed(), Sureness::unsure);  // it may still be watered
        else if (*now_.days_since_feed < days_still_fed)
            facts_.answer("old_bay_care", {"still_fed"}, last_fed());
    }

private:
    /// Fed within so many days, a bay is still being fed.
    static constexpr int days_still_fed = 5;

    /// Since when the worms have been able to cross: exactly from the day on which the way was last opened before any crossed;
    /// where nobody wrote it down, at least since the first were seen across.
    void way_over() {
        if (!now_.days_since_worms) return;
        const Day since = known_.state.today - days(*now_.days_since_worms);
        std::vector<BayHistory> histories;
        std::optional<Day> across;
        for (std::size_t i = 0; i < known_.state.bays.size(); ++i) {
            histories.push_back(history_of(known_.record, known_.rule_base, i, known_.state.today));
            const auto begun = crossing_seen(histories.back(), known_.rule_base, since).begun;
            if (begun && (!across || *begun < *across)) across = begun;
        }
        std::optional<Day> opened;
        for (const BayHistory& history : histories)
            for (const Work& work : history.work)
                if (opens_the_way(*work.did) && work.on >= since && (!across || work.on <= *across) &&
                    (!opened || work.on > *opened))
                    opened = work.on;
        const auto ago = [&](Day day) { return static_cast<double>(days_between(day, known_.state.today)); };
        if (opened)
            facts_.measured("days_since_joined", ago(*opened), "the way to the next bay was opened on " + to_text(*opened));
        else if (across)
            facts_.measured("days_since_joined", {.low = ago(*across)}, "worms were seen across on " + to_text(*across));
    }

    [[nodiscard]] bool opens_the_way(const Did& did) const {
        return did.step && std::ranges::find(steps_that_open_the_way, known_.rule_base.steps[*did.step].id) !=
                               steps_that_open_the_way.end();
    }

    [[nodiscard]] std::string last_fed() const {
        return "the last feed went in on " + to_text(known_.state.today - days(*now_.days_since_feed));
    }

    void wall() {
        if (known_.state.bays.size() < 2)
            facts_.answer("partition_openings", {"not_applicable"}, "it has one bay");
        else if (known_.record.wall_openings)
            // That there are openings does not tell that nothing blocks them.
            facts_.answer(
                "partition_openings",
                *known_.record.wall_openings ? std::vector<std::string_view>{"open", "blocked"}
                                             : std::vector<std::string_view>{"absent"},
                *known_.record.wall_openings ? "the dividing wall has openings" : "the dividing wall has no openings");
    }

    void turns() {
        const auto& bays = known_.state.bays;
        const auto with_worms = std::ranges::count_if(bays, has_worms);
        const auto fed = std::ranges::count_if(bays, [](const BayState& bay) { return bay.fed_throughout; });
        const auto resting = std::ranges::count_if(bays, [](const BayState& bay) {
            return bay.stage == BayStage::resting || bay.stage == BayStage::cooling || bay.stage == BayStage::ready_for_worms;
        });
        const auto count = std::ssize(bays);
        const bool all_full = std::ranges::all_of(bays, [](const BayState& bay) {
            return bay.litres && bay.free_litres &&
                   *bay.free_litres < room_of_a_full_bay * (*bay.free_litres + bay.litres->value.typical) &&
                   bay.stage != BayStage::harvest_due && bay.stage != BayStage::ready_for_worms;
        });
        if (with_worms == 1 && resting == count - 1)
            facts_.answer("bay_turns", {"in_turn"}, "one bay has worms, and in the other nothing went in of late");
        else if (fed == count && with_worms != 1)
            facts_.answer("bay_turns", {"both_fed"}, "feed went into every bay in the last two weeks");
        else if (all_full)
            facts_.answer("bay_turns", {"both_full"}, "by what went in, no bay has room left", Sureness::unsure);
    }

    /// The one that is to ripen: without worms, and of several the one that is furthest.
    [[nodiscard]] std::optional<std::size_t> next() const {
        std::optional<std::size_t> best;
        const auto rest = [&](std::size_t bay) { return known_.state.bays[bay].rest_days.value_or(-1); };
        for (std::size_t i = 0; i < known_.state.bays.size(); ++i) {
            if (i == known_.bay || has_worms(known_.state.bays[i]) || known_.state.bays[i].stage == BayStage::harvest_due)
                continue;
            if (!best || rest(i) > rest(*best)) best = i;
        }
        return best;
    }

    void next_bay() {
        const auto position = next();
        if (!position) return;
        const BayState& bay = known_.state.bays[*position];
        const std::string name = "bay " + known_.record.bays[*position].name + ": ";
        if (bay.stage == BayStage::empty) {
            // A bay that the record never speaks of may be full of anything.
            const BayHistory history = history_of(known_.record, known_.rule_base, *position, known_.state.today);
            if (history.emptied) facts_.answer("neighbour_bed_state", {"empty"}, name + bay.stage_because);
            return;
        }
        if (bay.rest_days)
            facts_.measured("next_bay_rest", *bay.rest_days,
                            name + "filled on " + to_text(known_.state.today - days(*bay.rest_days)));
        looks(bay, name);
        const BayHistory history = history_of(known_.record, known_.rule_base, *position, known_.state.today);
        for (const auto& last : {last_of(history.work), last_of(history.seen)})
            if (last && days_between(*last, known_.state.today) <= looked_after)
                facts_.answer("resting_looked_after", {"yes"}, name + "looked after on " + to_text(*last));
    }

    template <class Entries>
    [[nodiscard]] static std::optional<Day> last_of(const Entries& entries) {
        return entries.empty() ? std::nullopt : std::optional(entries.back().on);
    }

    /// By its heat, then by its moisture where somebody looked.
    void looks(const BayState& bay, const std::string& name) {
        if (bay.temperature && bay.temperature->value.low > coolest_core) {
            facts_.answer("neighbour_bed_state", {"hot_or_raw"},
                          name + in_words(bay.temperature->value, "°C") + ", " + bay.temperature->how);
            return;
        }
        const bool looked_at = bay.moisture && bay.moisture->how != guessed_moisture;
        if (looked_at && bay.moisture->value.high <= 60) {
            facts_.answer("neighbour_bed_state", {"dry"}, name + bay.moisture->how);
            return;
        }
        if (looked_at && bay.moisture->value.low >= 80) {
            facts_.answer("neighbour_bed_state", {"wet_foul"}, name + bay.moisture->how, Sureness::unsure);
            return;
        }
        if (looked_at && bay.temperature && bay.stage == BayStage::ready_for_worms)
            facts_.answer("neighbour_bed_state", {"ripe_moist_cool"}, name + bay.stage_because);
        else if (!bay.temperature && bay.rest_days && *bay.rest_days < raw_below)
            facts_.answer("neighbour_bed_state", {"hot_or_raw"}, name + bay.stage_because, Sureness::unsure);
    }

    FactList& facts_;
    const BayKnown& known_;
    const BayState& now_;
};

}  // namespace

void add_neighbour_facts(FactList& facts, const BayKnown& known) { NeighbourFacts(facts, known).add(); }

}  // namespace lidlift::tank
