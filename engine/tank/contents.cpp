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

/// kg; nothing in a bed lies heavier, so a full bay holds no more.
constexpr double heaviest_litre = 1.1;

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

/// "120 kg that went in on 9 days since 2026-03-01"
std::string what_went_in(std::span<const Load> loads) {
    const int days = days_of(loads);
    const std::string since = days == 1 ? "" : days_in_words(days) + " since ";
    return in_words(kg_of(loads), "kg") + " that went in on " + since + to_text(loads.front().on);
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

Left left_of(std::span<const Load> loads, const RuleBase& rule_base, Day on, const std::optional<Estimate>& measured) {
    /// Of one material: as it went in, and what the course of rotting has left of it at its typical figures.
    struct Sum {
        Estimate fresh, dry, litres;
        Estimate dry_left, litres_left;  ///< by the three courses
    };
    std::map<Handle<Material>, Sum> sums;
    for (const Load& load : loads) {
        const Material& material = rule_base.materials[load.material];
        const int days = days_between(load.on, on);
        const Estimate moisture = moisture_of(material);
        const Estimate dry =
            times(load.kg, Estimate{1 - moisture.high / 100, 1 - moisture.typical / 100, 1 - moisture.low / 100});
        const Estimate stays = rots(material.role) ? dry_matter_left(days) : Estimate{1, 1, 1};
        const Estimate room = rots(material.role) ? volume_left(days) : Estimate{1, 1, 1};
        Sum& sum = sums[load.material];
        sum.fresh = plus(sum.fresh, load.kg);
        sum.dry = plus(sum.dry, dry);
        sum.dry_left = plus(sum.dry_left, times(times(stays, load.not_harvested), dry.typical));
        // Water takes no room of its own: it goes into the pores, and what does not runs off.
        if (material.role == MaterialRole::liquid) continue;
        sum.litres = plus(sum.litres, load.litres);
        sum.litres_left = plus(sum.litres_left, times(times(room, load.not_harvested), load.litres.typical));
    }
    IndependentSum fresh_sum, dry_sum, litres_sum;
    Estimate dry_left, litres_left;
    for (const auto& [material, sum] : sums) {
        fresh_sum.add(sum.fresh);
        dry_sum.add(sum.dry);
        litres_sum.add(sum.litres);
        dry_left = plus(dry_left, sum.dry_left);
        litres_left = plus(litres_left, sum.litres_left);
    }
    const Estimate fresh = fresh_sum.value();
    const Estimate dry = dry_sum.value();
    const Estimate litres = litres_sum.value();
    Left left;
    if (litres_left.typical > 0) left.litres = independent_product({over(litres, litres.typical), litres_left});
    if (!(fresh.typical > 0)) return left;
    const auto wet = [&](double dry_kg) { return 100 * std::clamp(1 - dry_kg / fresh.typical, 0.0, 1.0); };
    left.moisture = measured ? *measured : moisture_settled({wet(dry.high), wet(dry.typical), wet(dry.low)});
    const double most = fresh.high;
    if (!(dry_left.typical > 0)) {  // nothing but water, or nothing left of it
        left.kg = {0, 0, dry_left.high > 0 ? most : 0};
        return left;
    }
    const auto with_water = [](double percent) { return 1 / (1 - std::min(percent, 99.0) / 100); };
    left.kg = independent_product(
        {over(dry, dry.typical),
         dry_left,
         {with_water(left.moisture.low), with_water(left.moisture.typical), with_water(left.moisture.high)}});
    left.kg = at_most(left.kg, most);
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
    state.kg = {left.kg, "left of " + went_in + less};
    state.litres = {left.litres, went_in + less + ", settled by what is usual in the time"};
    if (const double capacity = history.capacity(); capacity > 0) {
        state.kg->value = left.kg = at_most(left.kg, heaviest_litre * capacity);
        if (left.litres.high > capacity) state.litres->how += "; it cannot be more than the bay holds";
        state.litres->value = left.litres = at_most(left.litres, capacity);
        state.free_litres = capacity - left.litres.typical;
    }
    if (history.area > 0)
        state.depth = {over(left.litres, history.area * 1000),
                       "the volume over " + in_words(Estimate::exactly(history.area), "m2") + " of floor"};
    state.moisture = {left.moisture, guessed_moisture};
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
