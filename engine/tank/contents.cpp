#include "engine/tank/contents.hpp"

#include "engine/tank/figures_in_words.hpp"
#include "engine/tank/ranges.hpp"
#include "engine/tank/rotting.hpp"

#include <algorithm>
#include <map>
#include <set>

namespace lidlift::tank {
namespace {

/// All moisture where a material has no figure: then nothing is claimed of its dry matter.
constexpr Estimate anything = {0, 50, 100};

Estimate moisture_of(const Material& material) { return material.moisture ? material.moisture->value : anything; }

/// Minerals, and what has rotted already, stay.
bool rots(MaterialRole role) { return role != MaterialRole::mineral && role != MaterialRole::finished; }

Estimate kg_of(std::span<const Load> loads) {
    Estimate kg;
    for (const Load& load : loads) kg = plus(kg, load.kg);
    return kg;
}

int days_of(std::span<const Load> loads) {
    std::set<Day> days;
    for (const Load& load : loads) days.insert(load.on);
    return static_cast<int>(days.size());
}

/// "120 kg on 9 days since 2026-03-01"
std::string what_went_in(std::span<const Load> loads) {
    const int days = days_of(loads);
    const std::string when =
        days == 1 ? " on " + to_text(loads.front().on) : " on " + days_in_words(days) + " since " + to_text(loads.front().on);
    return in_words(kg_of(loads), "kg") + when;
}

}  // namespace

std::vector<Portion> portions_of(std::span<const Load> loads, const RuleBase& rule_base) {
    struct Sum {
        Estimate kg;
        double litres = 0;
        bool by_volume = true;
    };
    std::map<Handle<Material>, Sum> sums;
    for (const Load& load : loads) {
        Sum& sum = sums[load.material];
        sum.kg = plus(sum.kg, load.kg);
        sum.litres += load.litres.typical;
        sum.by_volume = sum.by_volume && load.by_volume;
    }
    std::vector<Portion> portions;
    for (const auto& [handle, sum] : sums) {
        if (sum.kg.high <= 0) continue;
        const Material& material = rule_base.materials[handle];
        const auto ingredient = ingredient_of(material);
        portions.push_back({ingredient ? *ingredient : Ingredient{material.name, anything, {}, {}, {}}, sum.kg,
                            sum.by_volume ? std::optional(sum.litres) : std::nullopt});
    }
    return portions;
}

std::optional<Mixture> mixture_of(std::span<const Portion> portions) {
    if (portions.empty()) return std::nullopt;
    return mix(portions);
}

Left left_of(std::span<const Load> loads, const RuleBase& rule_base, Day on) {
    Estimate fresh;
    Estimate dry_in;
    Estimate dry;
    Left left;
    for (const Load& load : loads) {
        const Material& material = rule_base.materials[load.material];
        const Estimate moisture = moisture_of(material);
        const int days = days_between(load.on, on);
        const Estimate kg = times(load.kg, load.not_harvested);
        const Estimate dry_share = {(100 - moisture.high) / 100, (100 - moisture.typical) / 100, (100 - moisture.low) / 100};
        const Estimate dry_kg = times(kg, dry_share);
        fresh = plus(fresh, kg);
        dry_in = plus(dry_in, dry_kg);
        dry = plus(dry, rots(material.role) ? times(dry_kg, dry_matter_left(days)) : dry_kg);
        // Water takes no room of its own: it goes into the pores, and what does not runs off.
        if (material.role == MaterialRole::liquid) continue;
        const Estimate litres = times(load.litres, load.not_harvested);
        left.litres = plus(left.litres, rots(material.role) ? times(litres, volume_left(days)) : litres);
    }
    left.dry_kg = dry;
    if (fresh.high <= 0) return left;
    // The driest that it may have been goes with the most dry matter.
    const auto wet = [](double kg, double dry_kg) { return kg > 0 ? 100 * std::clamp(1 - dry_kg / kg, 0.0, 1.0) : 0.0; };
    const Estimate as_filled = {wet(fresh.high, dry_in.high), wet(fresh.typical, dry_in.typical), wet(fresh.low, dry_in.low)};
    const Estimate moisture = left.moisture = moisture_settled(as_filled);
    const auto now = [](double dry_kg, double percent, double most) {
        return percent >= 100 ? most : std::min(most, dry_kg / (1 - percent / 100));
    };
    left.kg.low = now(dry.low, moisture.low, fresh.low);
    left.kg.typical = std::max(left.kg.low, now(dry.typical, moisture.typical, fresh.typical));
    left.kg.high = std::max(left.kg.typical, now(dry.high, moisture.high, fresh.high));
    return left;
}

void add_contents(BayState& state, const BayHistory& history, const RuleBase& rule_base, Day today) {
    const auto& loads = history.loads;
    if (history.capacity() > 0) state.free_litres = history.capacity();
    if (loads.empty()) return;
    state.filled = portions_of(loads, rule_base);
    state.as_filled = mixture_of(state.filled);
    const std::string went_in = what_went_in(loads);
    Left left = left_of(loads, rule_base, today);
    std::string less = history.harvests.empty() ? "" : ", less what was harvested";
    state.kg = {left.kg, went_in + less + "; the rest has rotted, dried or drained away"};
    state.litres = {left.litres, went_in + less + ", settled by what is usual in the time"};
    if (const double capacity = history.capacity(); capacity > 0) {
        if (left.litres.high > capacity) state.litres->how += "; it cannot be more than the bay holds";
        state.litres->value = left.litres = at_most(left.litres, capacity);
        state.free_litres = capacity - left.litres.typical;
    }
    if (history.area > 0)
        state.depth = {over(left.litres, history.area * 1000),
                       "the volume over " + in_words(Estimate::exactly(history.area), "m2") + " of floor"};
    state.moisture = {left.moisture, "as it went in, drained and dried since: no more than a guess"};
    state.shrinks_to = volume_in_the_end();

    std::vector<Load> last;
    for (const Load& load : loads) {
        if (load.sprinkled) continue;
        if (!last.empty() && last.front().on != load.on) last.clear();
        last.push_back(load);
    }
    if (last.empty()) return;
    state.last_load = portions_of(last, rule_base);
    Estimate litres;
    for (const Load& load : last) litres = plus(litres, load.litres);
    if (history.area > 0)
        state.layer = {over(litres, history.area * 1000),
                       in_words(litres, "L") + " on " + to_text(last.front().on) + ", spread evenly"};
}

}  // namespace lidlift::tank
