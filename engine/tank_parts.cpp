#include "engine/tank_parts.hpp"

#include "engine/tank/figures_in_words.hpp"
#include "engine/tank/ranges.hpp"

#include <algorithm>
#include <iterator>
#include <utility>

namespace lidlift {
namespace {

using tank::in_words;
using tank::over;
using tank::plus;
using tank::times;

// What to write into the record.
const char* const what_went_in = "what goes into the bay, and how much";
const char* const a_squeeze = "a squeeze or a drying test, which tells how wet it is";
const char* const the_depth = "how deep the bed lies";
const char* const the_last_load = "what was put in last, and on which day";
const char* const the_size = "the floor and the height of the bay";

bool is_bed(BayStage stage) {
    return stage == BayStage::worm_bed || stage == BayStage::migrating || stage == BayStage::harvest_due;
}
bool is_heap(BayStage stage) {
    return stage == BayStage::filling || stage == BayStage::resting || stage == BayStage::cooling ||
           stage == BayStage::ready_for_worms;
}

template <class T, class U>
InTank<T> lacking(const InTank<U>& other) {
    return {std::nullopt, {}, other.missing};
}
template <class T>
InTank<T> lacks(std::string what) {
    return {std::nullopt, {}, {std::move(what)}};
}

bool is_wet(const Portion& portion) { return portion.what.moisture.typical >= least_moisture_of_wet_part; }

Estimate kg_of(const std::vector<Portion>& portions) {
    Estimate kg;
    for (const Portion& portion : portions) kg = plus(kg, portion.kg);
    return kg;
}

}  // namespace

std::optional<Estimate> litres_of(const std::vector<Portion>& portions) {
    Estimate litres;
    for (const Portion& portion : portions) {
        if (portion.litres) {
            litres = plus(litres, Estimate::exactly(*portion.litres));
            continue;
        }
        if (!portion.what.density || !(portion.what.density->low > 0)) return std::nullopt;
        litres = plus(litres, times(over(portion.kg, *portion.what.density), 1000));
    }
    return litres;
}

std::string TankParts::name_of(std::size_t bay) const {
    if (tank_.record->bays.size() == 1) return "the bay";
    const std::string& name = recorded(bay).name;
    if (!name.empty() && name.front() >= '0' && name.front() <= '9') return "bay " + name;
    return name.ends_with("bay") ? "the " + name : "the " + name + " bay";
}

InTank<std::size_t> TankParts::bay_of(const TankPart& part) const {
    const auto& bays = tank_.state->bays;
    const std::size_t asked = tank_.bay;
    if (asked >= bays.size()) return lacks<std::size_t>("which bay it is about");
    const bool place = part.what == TankPart::What::all || part.what == TankPart::What::top;
    if (!place || part.where == Where::bay) return {asked, {}, {}};
    const auto plays = [&](std::size_t bay) {
        const BayStage stage = bays[bay].stage;
        if (part.where == Where::bed) return is_bed(stage);
        if (part.where == Where::heap) return is_heap(stage);
        return stage == BayStage::empty || is_heap(stage);
    };
    if (plays(asked)) return {asked, {}, {}};
    std::vector<std::size_t> found;
    for (std::size_t bay = 0; bay < bays.size(); ++bay)
        if (plays(bay)) found.push_back(bay);
    if (found.size() == 1) return {found.front(), {}, {}};
    // Where no bay plays the part there is nothing that the record should hold.
    if (found.empty()) return {};
    return lacks<std::size_t>("which bay it is about");
}

InTank<Estimate> TankParts::share_of_top(const TankPart& part, std::size_t bay) const {
    if (part.what == TankPart::What::all) return {Estimate::exactly(1), {}, {}};
    const auto& depth = state(bay).depth;
    if (!depth || !(depth->value.low > 0)) return lacks<Estimate>(the_depth);
    const Estimate share = tank::at_most(over(Estimate::exactly(part.depth), depth->value), 1);
    return {share, {name_of(bay) + " lies " + in_words(times(depth->value, 100), "cm") + " deep: " + depth->how}, {}};
}

InTank<std::vector<Portion>> TankParts::last_load(std::size_t bay) const {
    const BayState& now = state(bay);
    std::optional<int> age = now.days_since_feed;
    if (now.days_since_filling) age = std::min(age.value_or(*now.days_since_filling), *now.days_since_filling);
    if (!age || *age > days_of_last_load || !(kg_of(now.last_load).typical > 0))
        return lacks<std::vector<Portion>>(the_last_load);
    return {now.last_load,
            {"the last load of " + name_of(bay) + " was " + in_words(kg_of(now.last_load), "kg") + ", " +
             (*age == 0 ? "today" : tank::days_in_words(*age) + " ago")},
            {}};
}

InTank<std::vector<Portion>> TankParts::dry_part() const {
    auto load = last_load(tank_.bay);
    if (load) std::erase_if(*load.value, is_wet);
    return load;
}

InTank<std::vector<Portion>> TankParts::portions(const TankPart& part, bool carbon) const {
    using Result = InTank<std::vector<Portion>>;
    const auto bay = bay_of(part);
    if (!bay) return lacking<std::vector<Portion>>(bay);
    const BayState& now = state(*bay.value);
    switch (part.what) {
        case TankPart::What::last_load:
            return last_load(*bay.value);
        case TankPart::What::wet_part: {
            auto load = last_load(*bay.value);
            if (!load) return load;
            std::erase_if(*load.value, [](const Portion& portion) { return !is_wet(portion); });
            return !(kg_of(*load.value).typical > 0) ? lacks<std::vector<Portion>>(the_last_load) : load;
        }
        case TankPart::What::feed_of_a_day: {
            if (!now.feed || !now.feed_per_day || !now.fed || !(now.feed_per_day->value.typical > 0) ||
                !(now.fed->value.typical > 0) || !(now.feed->kg.typical > 0))
                return lacks<std::vector<Portion>>("what is fed, day by day");
            const double days = now.fed->value.typical / now.feed_per_day->value.typical;
            const Mixture& feed = *now.feed;
            return {std::vector{Portion{{"feed", feed.moisture, feed.nitrogen, feed.carbon_to_nitrogen, feed.density},
                                        over(feed.kg, days),
                                        std::nullopt}},
                    {"fed to " + name_of(*bay.value) + ": " + now.feed_per_day->how},
                    {}};
        }
        case TankPart::What::all:
        case TankPart::What::top:
            break;
    }
    if (carbon) {
        if (!(kg_of(now.filled).typical > 0)) return lacks<std::vector<Portion>>(what_went_in);
        return {now.filled, {name_of(*bay.value) + " as it was filled: " + in_words(kg_of(now.filled), "kg")}, {}};
    }
    const auto weight = kg(part);
    if (!weight || !(weight.value->typical > 0))
        return weight ? Result{{}, {}, {what_went_in}} : lacking<std::vector<Portion>>(weight);
    if (!now.moisture) return lacks<std::vector<Portion>>(a_squeeze);
    Result result{std::vector{Portion{
                      {"what lies in " + name_of(*bay.value), now.moisture->value, {}, {}, {}}, *weight.value, std::nullopt}},
                  weight.because,
                  {}};
    result.because.push_back("it is at " + in_words(now.moisture->value, "%") + " moisture: " + now.moisture->how);
    return result;
}

InTank<Estimate> TankParts::kg(const TankPart& part) const {
    if (part.what != TankPart::What::all && part.what != TankPart::What::top) {
        const auto there = portions(part);
        if (!there) return lacking<Estimate>(there);
        return {kg_of(*there.value), there.because, {}};
    }
    const auto bay = bay_of(part);
    if (!bay) return lacking<Estimate>(bay);
    const auto& all = state(*bay.value).kg;
    if (!all) return lacks<Estimate>(what_went_in);
    const auto share = share_of_top(part, *bay.value);
    if (!share) return share;
    InTank<Estimate> result{times(all->value, *share.value),
                            {"in " + name_of(*bay.value) + " lie " + in_words(all->value, "kg") + ": " + all->how},
                            {}};
    result.because.insert(result.because.end(), share.because.begin(), share.because.end());
    return result;
}

InTank<Estimate> TankParts::litres(const TankPart& part) const {
    if (part.what != TankPart::What::all && part.what != TankPart::What::top) {
        const auto there = portions(part);
        if (!there) return lacking<Estimate>(there);
        const auto sum = litres_of(*there.value);
        if (!sum) return lacks<Estimate>("how many buckets the load is");
        return {*sum, there.because, {}};
    }
    const auto bay = bay_of(part);
    if (!bay) return lacking<Estimate>(bay);
    const auto& all = state(*bay.value).litres;
    if (!all) return lacks<Estimate>(what_went_in);
    const auto share = share_of_top(part, *bay.value);
    if (!share) return share;
    return {
        times(all->value, *share.value), {name_of(*bay.value) + " holds " + in_words(all->value, "L") + ": " + all->how}, {}};
}

InTank<Estimate> TankParts::m2(const TankPart& part) const {
    const auto bay = bay_of(part);
    if (!bay) return lacking<Estimate>(bay);
    const double area = recorded(*bay.value).area;
    if (!(area > 0)) return lacks<Estimate>(the_size);
    const Estimate exact = Estimate::exactly(area);
    return {exact, {name_of(*bay.value) + " has " + in_words(exact, "m2") + " of floor"}, {}};
}

InTank<double> TankParts::free_litres(std::size_t bay) const {
    const RecordedBay& built = recorded(bay);
    const double capacity = built.area * built.height * 1000;
    if (!(capacity > 0)) return lacks<double>(the_size);
    const double free = std::clamp(state(bay).free_litres.value_or(capacity), 0.0, capacity);
    return {free, {tank::rounded(free) + " L are free up to the rim of " + name_of(bay)}, {}};
}

InTank<double> TankParts::air_litres(const TankPart& part) const {
    const auto there = portions(part);
    if (!there) return lacking<double>(there);
    const auto volume = litres(part);
    if (!volume) return lacking<double>(volume);
    const double kilograms = kg_of(*there.value).typical;
    if (!(volume.value->typical > 0) || !(kilograms > 0)) return lacks<double>(what_went_in);
    double water = 0;
    for (const Portion& portion : *there.value) water += portion.kg.typical * portion.what.moisture.typical;
    const double share = air_space_by_phases(1000 * kilograms / volume.value->typical, water / kilograms, 0.8);
    const double air = volume.value->typical * std::clamp(share, 0.0, 1.0);
    return {air, {"its gaps hold about " + tank::rounded(air) + " L of air"}, {}};
}

}  // namespace lidlift
