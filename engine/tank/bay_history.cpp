#include "engine/tank/bay_history.hpp"

#include "engine/tank/contents.hpp"
#include "engine/tank/ranges.hpp"

#include <algorithm>
#include <iterator>
#include <tuple>

namespace lidlift::tank {
namespace {

/// The bay's part of the tank's floor; equal parts where the floors are not known.
double share_of_floor(const TankRecord& record, std::size_t bay) {
    double all = 0;
    for (const RecordedBay& each : record.bays) all += each.area;
    return all > 0 ? record.bays[bay].area / all : 1 / static_cast<double>(record.bays.size());
}

/// Loose, as it went in: as measured, or from the material's density; where that is not known it is nobody's guess but water's.
Estimate litres_of(const RecordedMaterial& material, const RuleBase& rule_base) {
    if (material.amount.by == Amount::By::volume) return Estimate::exactly(material.amount.size);
    const auto& density = rule_base.materials[material.material].density;
    if (!density || density->value.low <= 0) return material.kg;
    return times(over(material.kg, density->value), 1000);
}

/// Takes a harvest out of what is left; the bounds stay apart, so that what is left of an uncertain amount stays uncertain.
void take_out(std::vector<Load>& loads, const Harvested& harvested, const RuleBase& rule_base, Day on) {
    const Left left = left_of(loads, rule_base, on);
    const Estimate& held = harvested.amount.by == Amount::By::mass ? left.kg : left.litres;
    const auto kept = [&](double there) { return there > 0 ? std::max(0.0, 1 - harvested.amount.size / there) : 0.0; };
    const Estimate share = {kept(held.low), kept(held.typical), kept(held.high)};
    for (Load& load : loads) load.not_harvested = times(load.not_harvested, share);
}

class Historian {
public:
    Historian(const TankRecord& record, const RuleBase& rule_base, std::size_t bay)
        : rule_base_(rule_base), share_(share_of_floor(record, bay)), single_(record.bays.size() == 1) {
        history_.area = record.bays[bay].area;
        history_.height = record.bays[bay].height;
    }

    void add(const RecordedEntry& entry) {
        const double share = entry.bay || single_ ? 1 : share_;
        const Day on = entry.on;
        if (const auto* added = std::get_if<Added>(&entry.what)) load(added->materials, on, share, false);
        if (const auto* sprinkled = std::get_if<Sprinkled>(&entry.what)) load(sprinkled->materials, on, share, true);
        if (const auto* in = std::get_if<WormsIn>(&entry.what))
            history_.worms.push_back({on, Estimate::exactly(in->kg * share), {}, false});
        if (const auto* out = std::get_if<WormsOut>(&entry.what))
            history_.worms.push_back({on, {}, Estimate::exactly(out->kg * share), false});
        if (const auto* noted = std::get_if<Noted>(&entry.what))
            history_.seen.push_back({on, noted->sign, &noted->observation, noted->read});
        if (const auto* did = std::get_if<Did>(&entry.what)) history_.work.push_back({on, did});
        if (const auto* harvested = std::get_if<Harvested>(&entry.what)) {
            take_out(history_.loads, *harvested, rule_base_, on);
            history_.harvests.push_back(on);
        }
        if (std::holds_alternative<Emptied>(entry.what)) empty(on);
        if (const auto* dried = std::get_if<Dried>(&entry.what))
            history_.moistures.push_back({on, 100 * (dried->wet - dried->dry) / (dried->wet - dried->vessel)});
        if (const auto* bucket = std::get_if<BucketWeighed>(&entry.what))
            history_.densities.push_back({on, 1000 * (bucket->full - bucket->vessel) / bucket->litres});
        if (const auto* seeds = std::get_if<SeedTested>(&entry.what)) history_.seed_tests.push_back({on, *seeds});
    }

    [[nodiscard]] BayHistory take() {
        std::ranges::stable_sort(history_.loads, {},
                                 [](const Load& load) { return std::tuple(load.on, load.sprinkled, load.material.index); });
        return std::move(history_);
    }

private:
    /// What is known of the finished compost stays known.
    void empty(Day on) {
        history_.loads.clear();
        history_.worms.clear();
        history_.work.clear();
        history_.harvests.clear();
        history_.moistures.clear();
        history_.densities.clear();
        std::ranges::move(history_.seen, std::back_inserter(history_.seen_before));
        history_.seen.clear();
        history_.emptied = on;
    }

    void load(const std::vector<RecordedMaterial>& materials, Day on, double share, bool sprinkled) {
        for (const RecordedMaterial& each : materials)
            history_.loads.push_back({on,
                                      each.material,
                                      times(each.kg, share),
                                      times(litres_of(each, rule_base_), share),
                                      each.amount.by == Amount::By::volume,
                                      sprinkled,
                                      {1, 1, 1}});
    }

    const RuleBase& rule_base_;
    double share_;
    bool single_;
    BayHistory history_;
};

}  // namespace

BayHistory history_of(const TankRecord& record, const RuleBase& rule_base, std::size_t bay, Day today) {
    Historian historian(record, rule_base, bay);
    std::optional<Day> first;
    int ahead = 0;
    for (const RecordedEntry& entry : record.entries) {
        if (entry.on > today) {
            ++ahead;
            continue;
        }
        if (!first) first = entry.on;
        if (!entry.bay || *entry.bay == bay) historian.add(entry);
    }
    BayHistory history = historian.take();
    history.first_entry = first;
    history.ahead = ahead;
    return history;
}

bool is_feed(MaterialRole role) { return role == MaterialRole::feed || role == MaterialRole::dung; }

}  // namespace lidlift::tank
