#include "engine/tank/facts.hpp"
#include "engine/tank/figures_in_words.hpp"
#include "engine/tank/heat.hpp"
#include "engine/tank/stage.hpp"

#include <algorithm>
#include <cmath>

namespace lidlift::tank {
namespace {

/// K a day. A probe at another spot or hour makes half a degree of difference; a degree a day is a trend.
constexpr double surely_steady = 0.5;
constexpr double surely_moving = 1.0;

/// A heap heats within days of being filled; where nobody measured by then, the highest reading is no more than the least that
/// it was.
constexpr int peak_is_by = 14;

/// °C: a heap that is to be called hot, one that has cooled, and one that never was hot, after so many days.
constexpr double never_hot_below = 40;
constexpr int days_to_get_hot = 7;

/// Hotter again by so much within a week after a turning, so many times, is heating again.
constexpr double hotter_again = 5;
constexpr int times_hotter = 2;
constexpr int days_to_heat_again = 7;

/// Was the heap measured while it must have been at its hottest?
bool measured_in_time(const BayHistory& history, const std::vector<DayHeat>& readings) {
    const Day filled = history.loads.front().on;
    return std::ranges::any_of(readings, [&](const DayHeat& reading) {
        const int day = days_between(filled, reading.on);
        return day >= 2 && day <= peak_is_by;
    });
}

int heated_again(const BayHistory& history, const std::vector<DayHeat>& readings, const RuleBase& rule_base) {
    int count = 0;
    std::optional<Day> last;
    for (const Work& work : history.work) {
        if (!is_turning(*work.did, rule_base) || last == work.on) continue;
        last = work.on;
        std::optional<double> before;
        std::optional<double> after;
        for (const DayHeat& reading : readings) {
            if (reading.on <= work.on) before = reading.celsius.typical;
            if (reading.on > work.on && days_between(work.on, reading.on) <= days_to_heat_again)
                after = std::max(after.value_or(reading.celsius.typical), reading.celsius.typical);
        }
        if (before && after && *after >= *before + hotter_again) ++count;
    }
    return count;
}

}  // namespace

void add_heat_facts(FactList& facts, const BayKnown& known) {
    const BayState& now = known.now();
    const std::vector<DayHeat> readings = temperatures_of(known.history, known.rule_base);
    if (readings.empty()) return;
    if (now.temperature_trend && days_between(readings.back().on, known.state.today) <= lasting.sure) {
        const double trend = *now.temperature_trend;
        std::vector<std::string_view> answers;
        if (trend < -surely_steady) answers.emplace_back("falling");
        if (std::abs(trend) < surely_moving) answers.emplace_back("steady");
        if (trend > surely_steady) answers.emplace_back("rising");
        const std::string degrees = rounded(std::abs(trend)) + " degrees a day";
        facts.answer("temp_trend", answers,
                     "the last readings, " + (rounded(trend) == "0" ? "the same" : degrees + (trend < 0 ? " less" : " more")));
    }
    if (known.history.loads.empty() || !now.peak_temperature) return;
    const double peak = *now.peak_temperature;
    const bool in_time = measured_in_time(known.history, readings);
    const Sign* sign = facts.find("heap_peak");
    if (sign)
        facts.measured("heap_peak", in_time ? Range{peak, peak, true, true} : Range{peak, sign->plausible.high, true, true},
                       in_time ? "the highest of " + counted(static_cast<int>(readings.size()), "reading", "readings")
                               : "the highest reading, though nobody measured while it was fresh");
    if (now.days_since_worms || now.stage == BayStage::worm_bed) return;
    const std::string last = now.temperature ? in_words(now.temperature->value, "°C") + ", " + now.temperature->how : "";
    const int again = heated_again(known.history, readings, known.rule_base);
    if (now.temperature && now.temperature->value.typical >= was_hot)
        facts.answer("heap_course",
                     again >= times_hotter ? std::vector<std::string_view>{"hot_now", "heats_again"}
                                           : std::vector<std::string_view>{"hot_now"},
                     last);
    else if (again >= times_hotter)
        facts.answer("heap_course", {"heats_again"}, "hotter again after " + counted(again, "turning", "turnings"));
    else if (now.temperature && peak >= was_hot && now.temperature->value.typical < no_longer_hot)
        facts.answer("heap_course", {"cooled"}, "at most " + rounded(peak) + " °C, and then " + last);
    else if (in_time && peak < never_hot_below && now.rest_days && *now.rest_days >= days_to_get_hot)
        facts.answer("heap_course", {"never_hot"}, "never above " + rounded(peak) + " °C");
}

}  // namespace lidlift::tank
