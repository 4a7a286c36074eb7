#include "engine/tank/contents.hpp"
#include "engine/tank/facts.hpp"
#include "engine/tank/figures_in_words.hpp"
#include "engine/tank/heat.hpp"
#include "engine/tank/ranges.hpp"
#include "engine/tank/stage.hpp"

#include <algorithm>
#include <set>

namespace lidlift::tank {
namespace {

/// kg of worms put in on a square metre: half a kilogram is the question's own line, and a bucketful is not weighed to the
/// gram.
const std::vector<FromOn> stocking_scale = {{"few", 0}, {"fair", 0.45}};

const std::vector<FromOn> heap_scale = {{"small_lt_0_4m3", 0}, {"mid_0_4_1m3", 400}, {"large_gt_1m3", 1000}};  // L
const std::vector<FromOn> depth_scale = {{"le_30cm", 0}, {"from_30_to_60cm", 0.30}, {"gt_60cm", 0.60}};        // m

/// A tank that holds more than this, in L, is built and not carried.
constexpr double largest_tub = 500;

/// Fed so often over so many days.
constexpr int feeds_of_a_bed = 8;
constexpr int days_of_a_bed = 21;

/// Turned on so many days of the last seven is every day.
constexpr int turns_of_a_daily_week = 5;

bool has_worms(BayStage stage) {
    return stage == BayStage::worm_bed || stage == BayStage::migrating || stage == BayStage::harvest_due;
}

class StageFacts {
public:
    StageFacts(FactList& facts, const BayKnown& known) : facts_(facts), known_(known), now_(known.now()) {}

    void add() {
        stage();
        days();
        if (now_.stocking)
            facts_.on_scale("stocking", Estimate::exactly(*now_.stocking), stocking_scale,
                            in_words(Estimate::exactly(now_.worms_put_in), "kg") + " of worms, " + rounded(*now_.stocking) +
                                " kg on a square metre");
        size();
        turning();
    }

private:
    void stage() {
        const std::string& how = now_.stage_because;
        // A record may have been begun with a bay that was full already; only after it was emptied everything in it is known.
        const Sureness if_begun_empty = known_.history.emptied ? Sureness::sure : Sureness::unsure;
        const bool may_be_a_bed = !known_.history.emptied && is_fed_like_a_bed();
        switch (now_.stage) {
            case BayStage::empty:
                return;
            case BayStage::filling:
            case BayStage::resting:
                if (may_be_a_bed)
                    facts_.answer("stage", {"resting", "worm_bed"}, how + ", but it is fed like a worm bed", Sureness::unsure);
                else
                    facts_.answer("stage", {"resting"}, how, if_begun_empty);
                break;
            case BayStage::cooling:
            case BayStage::ready_for_worms:
                facts_.answer("stage", {"resting", "cooling"}, how, if_begun_empty);
                break;
            case BayStage::worm_bed:
                facts_.answer("stage", {"worm_bed"}, how);
                break;
            case BayStage::migrating:
                facts_.answer("stage", {"worm_bed", "migration"}, how);
                break;
            case BayStage::harvest_due:
                facts_.answer("stage", {"worm_bed", "migration", "harvest"}, how);
                break;
        }
        if (now_.days_since_worms || now_.stage == BayStage::worm_bed)
            facts_.answer("worms_in_yet", {"yes"}, how);
        else if (!has_worms(now_.stage) && !may_be_a_bed)
            facts_.answer("worms_in_yet", {"no"}, "none are written down since it was filled", if_begun_empty);
    }

    /// Often and for weeks, and never hot: so a bed is fed whose worms nobody wrote down, and hardly a bay filled.
    [[nodiscard]] bool is_fed_like_a_bed() const {
        std::set<Day> loads;
        for (const Load& load : known_.history.loads)
            if (!load.sprinkled) loads.insert(load.on);
        return std::ssize(loads) >= feeds_of_a_bed && days_between(*loads.begin(), *loads.rbegin()) >= days_of_a_bed &&
               !(now_.peak_temperature && *now_.peak_temperature >= was_hot);
    }

    void days() {
        if (now_.days_since_worms)
            facts_.measured("days_since_worms", *now_.days_since_worms,
                            "worms went in on " + to_text(known_.state.today - std::chrono::days(*now_.days_since_worms)));
        if (now_.rest_days)
            facts_.measured("rest_days", *now_.rest_days,
                            now_.days_since_worms
                                ? "filled " + days_in_words(*now_.rest_days) + " before the worms went in"
                                : "filled on " + to_text(known_.state.today - std::chrono::days(*now_.rest_days)));
        if (has_worms(now_.stage) && now_.days_since_feed)
            facts_.measured(
                "days_since_feed", *now_.days_since_feed,
                "the last feed went in on " + to_text(known_.state.today - std::chrono::days(*now_.days_since_feed)));
    }

    void size() {
        if (now_.depth)
            facts_.on_scale("bed_depth", now_.depth->value, depth_scale,
                            "about " + in_words(times(now_.depth->value, 100), "cm") + ", " + now_.litres->how,
                            Sureness::unsure);
        if (!has_worms(now_.stage) && now_.litres)
            facts_.on_scale("heap_size", now_.litres->value, heap_scale,
                            "about " + in_words(over(now_.litres->value, 1000), "m3") + ": " + now_.litres->how,
                            Sureness::unsure);
        const double tank = known_.record.length * known_.record.width * known_.record.height * 1000;
        if (tank > largest_tub)
            facts_.answer("container", {"built"}, "it holds " + rounded(tank / 1000) + " m3", Sureness::unsure);
    }

    void turning() {
        if (has_worms(now_.stage) || known_.history.loads.empty()) return;
        std::set<Day> all;
        for (const Work& work : known_.history.work)
            if (is_turning(*work.did, known_.rule_base)) all.insert(work.on);
        if (all.empty()) return;
        const auto this_week = std::ranges::count_if(all, [&](Day on) { return days_between(on, known_.state.today) < 7; });
        facts_.answer(
            "turning", {this_week >= turns_of_a_daily_week ? "daily" : "some"},
            "turned on " + counted(static_cast<int>(all.size()), "day", "days") + ", last on " + to_text(*all.rbegin()));
    }

    FactList& facts_;
    const BayKnown& known_;
    const BayState& now_;
};

}  // namespace

void add_stage_facts(FactList& facts, const BayKnown& known) { StageFacts(facts, known).add(); }

}  // namespace lidlift::tank
