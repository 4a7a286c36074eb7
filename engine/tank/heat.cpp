#include "engine/tank/heat.hpp"

#include "engine/ammonia.hpp"
#include "engine/quantity.hpp"
#include "engine/tank/figures_in_words.hpp"
#include "engine/tank/worms.hpp"

#include <algorithm>
#include <map>

namespace lidlift::tank {
namespace {

/// The sign's readings with a number, one a day; of one day the highest.
std::vector<DayHeat> readings_of(const BayHistory& history, const RuleBase& rule_base, std::string_view id) {
    const auto sign = rule_base.signs.find(id);
    if (!sign || rule_base.signs[*sign].sort != SignSort::quantity) return {};
    std::map<Day, Estimate> highest;
    for (const Seen& seen : history.seen) {
        if (seen.sign != *sign || !seen.observation->measured) continue;
        const Range& range = *seen.observation->measured;
        const Estimate value = {range.low, (range.low + range.high) / 2, range.high};
        const auto [place, is_new] = highest.try_emplace(seen.on, value);
        if (!is_new && value.typical > place->second.typical) place->second = value;
    }
    std::vector<DayHeat> readings;
    for (const auto& [on, value] : highest) readings.push_back({on, value});
    return readings;
}

bool begins_with_turn(std::string_view words) {
    std::string small;
    for (const char c : words.substr(0, 7)) small += static_cast<char>(c >= 'A' && c <= 'Z' ? c - 'A' + 'a' : c);
    const auto is = [&](std::string_view word) {
        return small.starts_with(word) && (small.size() == word.size() || small[word.size()] == ' ');
    };
    return is("turn") || is("turned");
}

/// What the readings before the worms came show of a hygienising heat, in numbers and in a sentence.
void add_hot_time(BayState& state, const BayHistory& history, const std::vector<DayHeat>& readings, const RuleBase& rule_base,
                  Day today) {
    const Herd herd = herd_of(history, today);
    std::vector<HeatReading> before_worms;
    std::optional<Day> first;
    std::optional<Day> last;
    const Day origin = readings.front().on;
    for (const DayHeat& reading : readings) {
        if (herd.since && reading.on >= *herd.since) break;
        before_worms.push_back({days_between(origin, reading.on), reading.celsius.low});
        if (reading.celsius.low < hygienising_celsius) continue;
        if (!first) first = reading.on;
        last = reading.on;
    }
    if (!first) return;
    std::vector<int> turned;
    for (const Work& work : history.work)
        if (is_turning(*work.did, rule_base)) turned.push_back(days_between(origin, work.on));
    std::ranges::sort(turned);
    turned.erase(std::unique(turned.begin(), turned.end()), turned.end());
    const double solids = state.as_filled ? 100 - state.as_filled->moisture.typical : 100;
    state.hot = hot_time(before_worms, turned, solids);
    state.hot_because = counted(state.hot->readings, "reading", "readings") + " of 55 °C or more from " + to_text(*first) +
                        " to " + to_text(*last) + ", " + days_in_words(state.hot->longest) + " without a break, turned " +
                        counted(state.hot->turnings, "time", "times") + "; " +
                        (state.hot->as_in_a_heap() ? "what the rule asks of a turned heap, where the probe was"
                                                   : "the rule asks 15 days and 5 turnings of a turned heap");
}

}  // namespace

bool is_turning(const Did& did, const RuleBase& rule_base) {
    if (!did.step) return begins_with_turn(did.words);
    const Step& step = rule_base.steps[*did.step];
    return begins_with_turn(step.say) || std::ranges::find(step.pushes, Push{Pushed::mixing, true}) != step.pushes.end();
}

std::vector<DayHeat> temperatures_of(const BayHistory& history, const RuleBase& rule_base) {
    return readings_of(history, rule_base, "bed_temperature");
}

std::optional<double> trend_of(const std::vector<DayHeat>& readings) {
    if (readings.size() < 2) return std::nullopt;
    double days = 0;
    double heat = 0;
    for (const DayHeat& reading : readings) {
        days += days_between(readings.front().on, reading.on);
        heat += reading.celsius.typical;
    }
    const auto count = static_cast<double>(readings.size());
    double across = 0;
    double along = 0;
    for (const DayHeat& reading : readings) {
        const double day = days_between(readings.front().on, reading.on) - days / count;
        across += day * (reading.celsius.typical - heat / count);
        along += day * day;
    }
    return across / along;
}

void add_heat(BayState& state, const BayHistory& history, const RuleBase& rule_base, Day today) {
    std::vector<DayHeat> readings = temperatures_of(history, rule_base);
    if (readings.empty()) return;
    state.peak_temperature =
        std::ranges::max_element(readings, {}, [](const DayHeat& r) { return r.celsius.typical; })->celsius.typical;
    add_hot_time(state, history, readings, rule_base, today);
    const DayHeat last = readings.back();
    if (days_between(last.on, today) > oldest_temperature) return;
    state.temperature = {last.celsius, "read on " + to_text(last.on)};
    std::erase_if(readings, [&](const DayHeat& reading) { return days_between(reading.on, last.on) > trend_window; });
    state.temperature_trend = trend_of(readings);

    const std::vector<DayHeat> acidity = readings_of(history, rule_base, "ph");
    if (acidity.empty() || days_between(acidity.back().on, today) > oldest_ph) return;
    const Estimate& ph = acidity.back().celsius;
    state.ammonia_share = {
        {100 * un_ionised_share(ph.low, last.celsius.low), 100 * un_ionised_share(ph.typical, last.celsius.typical),
         100 * un_ionised_share(ph.high, last.celsius.high)},
        "pH " + in_words(ph, "") + " on " + to_text(acidity.back().on) + ", " + in_words(last.celsius, "°C") + " on " +
            to_text(last.on) + "; for fresh water, so in a bed rather less"};
}

}  // namespace lidlift::tank
