#include "engine/capacity.hpp"

#include "engine/ration.hpp"
#include "engine/tank/bay_history.hpp"
#include "engine/tank/figures_in_words.hpp"
#include "engine/tank/ranges.hpp"

#include <algorithm>

namespace lidlift {
namespace {

using tank::rounded;

/// Two digits that count, also of what is exact: a sum of many loads is not known to the hundred grams.
std::string in_words(const Estimate& estimate, const std::string& unit) {
    const std::string low = rounded(estimate.low);
    const std::string high = rounded(estimate.high);
    return (low == high ? low : low + " to " + high) + " " + unit;
}

/// What the records of the last days give in, to beds with worms and to bays without.
struct Intake {
    Estimate kg;
    double to_worms = 0;       ///< kg, typical
    double rests = 0;          ///< kg, typical
    std::optional<Day> first;  ///< of all entries, however old

    void add(const TankRecord& record, const RuleBase& rule_base, Day today) {
        std::vector<bool> has_worms(record.bays.size(), false);
        for (const RecordedEntry& entry : record.entries) {
            if (entry.on > today) continue;
            if (!first || entry.on < *first) first = entry.on;
            for (std::size_t bay = 0; bay < has_worms.size(); ++bay) {
                if (entry.bay && *entry.bay != bay) continue;
                if (std::holds_alternative<WormsIn>(entry.what)) has_worms[bay] = true;
                if (std::holds_alternative<Emptied>(entry.what)) has_worms[bay] = false;
            }
            const auto* added = std::get_if<Added>(&entry.what);
            if (!added || days_between(entry.on, today) >= days_of_intake) continue;
            for (const RecordedMaterial& each : added->materials) {
                if (!tank::is_feed(rule_base.materials[each.material].role)) continue;
                kg = tank::plus(kg, each.kg);
                (has_worms[entry.bay.value_or(0)] ? to_worms : rests) += each.kg.typical;
            }
        }
    }
};

void add_floor_and_worms(Capacity& sum, const TankRecord& record, const TankState& state) {
    double floor = 0;
    for (const RecordedBay& bay : record.bays) {
        floor += bay.area;
        sum.without_floor += bay.area > 0 ? 0U : 1U;
    }
    sum.floor += floor;
    sum.working_floor = tank::plus(sum.working_floor,
                                   record.bays.size() == 1 ? Estimate::exactly(floor) : tank::times(share_that_works, floor));
    for (const BayState& bay : state.bays)
        if (bay.worms) sum.worms = tank::plus(sum.worms.value_or(Estimate{}), bay.worms->value);
}

/// The weight that reaches the worms of each kg that comes in.
Estimate weight_left(const Capacity& sum) {
    return {1 - sum.rests_first * (1 - left_after_rest.low), 1 - sum.rests_first * (1 - left_after_rest.typical),
            1 - sum.rests_first * (1 - left_after_rest.high)};
}

Loading load_of(const Capacity& sum) {
    if (!sum.can_take || (!sum.given && !sum.stated)) return Loading::too_little_known;
    const double given = std::max(sum.given ? sum.given->typical : 0, sum.stated.value_or(0));
    return given > sum.can_take->high  ? Loading::too_much
           : given > sum.can_take->low ? Loading::perhaps_too_much
                                       : Loading::within;
}

}  // namespace

Capacity capacity_of(std::span<const TankRecord* const> records, std::span<const TankState* const> states,
                     const RuleBase& rule_base, std::optional<double> stated, Day today) {
    Capacity sum;
    sum.stated = stated;
    Intake intake;
    for (std::size_t i = 0; i < records.size(); ++i) {
        add_floor_and_worms(sum, *records[i], *states[i]);
        intake.add(*records[i], rule_base, today);
    }
    if (intake.first) {
        sum.over_days = std::min(days_between(*intake.first, today) + 1, days_of_intake);
        sum.given = tank::over(intake.kg, sum.over_days);
        const double all = intake.to_worms + intake.rests;
        sum.rests_first = all > 0 ? intake.rests / all : 0;
    }
    if (sum.floor > 0) sum.by_floor = tank::times(sum.working_floor, floor_load);
    if (sum.worms) sum.by_worms = tank::times(*sum.worms, worm_ration);
    if (const auto allowed = ration(sum.working_floor, sum.worms)) {
        sum.worms_are_less = allowed->by_worms;
        sum.can_take = tank::over(allowed->per_day, weight_left(sum));
    }
    sum.load = load_of(sum);
    return sum;
}

std::string in_short(const Capacity& sum) {
    std::string text;
    if (sum.given)
        text =
            "given " + in_words(*sum.given, "kg") + " a day by the records of the last " + tank::days_in_words(sum.over_days);
    if (sum.stated) text += (text.empty() ? "" : ", ") + rounded(*sum.stated) + " kg a day by the site's own count";
    if (text.empty()) text = "nothing tells what it is given";
    text += sum.can_take ? "; can take " + in_words(*sum.can_take, "kg") : "; what it can take is not known";
    switch (sum.load) {
        case Loading::too_little_known:
            break;
        case Loading::within:
            text += ": well within";
            break;
        case Loading::perhaps_too_much:
            text += ": it may be too much; go by the depth of the feed";
            break;
        case Loading::too_much:
            text += ": too much";
            break;
    }
    return text;
}

std::vector<std::string> in_full(const Capacity& sum) {
    std::vector<std::string> lines;
    if (sum.by_floor)
        lines.push_back("Floor: " + in_words(sum.working_floor, "m2") + " of " + rounded(sum.floor, 3) +
                        " m2 are worm beds at a time (4 to 6 weeks as a bed, 30 to 45 days of rest; common practice). At " +
                        in_words(floor_load, "kg") + " a day on a square metre they take " + in_words(*sum.by_floor, "kg") +
                        " a day.");
    if (sum.by_worms)
        lines.push_back("Worms: about " + in_words(*sum.worms, "kg") + " alive by the records, at " +
                        in_words(worm_ration, "kg") + " a day to a kilogram, eat " + in_words(*sum.by_worms, "kg") + " a day.");
    if (sum.by_floor && sum.by_worms)
        lines.push_back(std::string(sum.worms_are_less ? "The worms" : "The floor") + " allow" +
                        (sum.worms_are_less ? "" : "s") + " less, and so it counts.");
    if (sum.can_take && sum.rests_first > 0)
        lines.push_back(rounded(100 * sum.rests_first) + " % of what comes in rests first, and reaches the worms at " +
                        in_words(tank::times(left_after_rest, 100), "%") + " of its weight.");
    if (sum.given && sum.stated && sum.given->high < 0.8 * *sum.stated)
        lines.push_back("The records account for less than the site's own count. Is everything written down?");
    if (sum.without_floor > 0)
        lines.push_back("Not counted: " + tank::counted(static_cast<int>(sum.without_floor), "bay", "bays") +
                        " whose size no record states.");
    return lines;
}

}  // namespace lidlift
