#include "engine/tank/feeding.hpp"

#include "engine/tank/contents.hpp"
#include "engine/tank/figures_in_words.hpp"
#include "engine/tank/ranges.hpp"

#include <algorithm>
#include <map>
#include <set>

namespace lidlift::tank {
namespace {

/// Fresh dung is 80 % water; slurry is told as so much water to dung of that kind, whatever was stirred in.
constexpr double dry_share_of_dung = 0.2;
constexpr double water_and_no_more = 1000;

bool is_eaten(const Load& load, const RuleBase& rule_base) {
    return !load.sprinkled && tank::is_feed(rule_base.materials[load.material].role);
}

std::vector<Load> since(const std::vector<Load>& loads, Day first) {
    std::vector<Load> result;
    std::ranges::copy_if(loads, std::back_inserter(result), [&](const Load& load) { return load.on >= first; });
    return result;
}

/// How much of the feed each sign of the materials (citrus, oil, ...) is about.
std::vector<FeedShare> shares_of(const std::vector<Load>& feeds, const Estimate& fed, const RuleBase& rule_base) {
    std::map<Handle<Sign>, Estimate> kg;
    for (const Load& load : feeds)
        for (const Handle<Sign> sign : rule_base.materials[load.material].shares) {
            Estimate& sum = kg[sign];
            sum = plus(sum, load.kg);
        }
    std::vector<FeedShare> shares;
    for (const auto& [sign, part] : kg) {
        // What is in the part is in the whole as well, so the extremes are the part against the rest.
        const auto share = [](double of, double rest) { return of + rest > 0 ? 100 * of / (of + rest) : 0.0; };
        const double rest_low = fed.low - part.low;
        const double rest_high = fed.high - part.high;
        shares.push_back(
            {sign,
             part,
             {share(part.low, rest_high), share(part.typical, fed.typical - part.typical), share(part.high, rest_low)}});
    }
    return shares;
}

/// Feeds so close to one another, from the window's begin to today, that none is likely to be missing from the record.
bool without_holes(const std::set<Day>& days, Day first, Day today) {
    Day before = first;
    for (const Day day : days) {
        if (days_between(before, day) > longest_feed_gap) return false;
        before = day;
    }
    return !days.empty() && days_between(before, today) <= longest_feed_gap;
}

void add_slurry(BayState& state, const std::vector<Load>& lately, const BayHistory& history, const RuleBase& rule_base,
                Day today) {
    std::vector<Load> sprinkled;
    std::map<Day, Estimate> by_day;
    // On the days of filling a slurry is part of the mixture.
    std::set<Day> filled;
    const auto worms =
        state.days_since_worms ? std::optional(today - std::chrono::days(*state.days_since_worms)) : std::nullopt;
    for (const Load& load : lately)
        if (!load.sprinkled && (!worms || load.on < *worms)) filled.insert(load.on);
    for (const Load& load : lately) {
        if (!load.sprinkled || filled.contains(load.on)) continue;
        sprinkled.push_back(load);
        Estimate& sum = by_day[load.on];
        sum = plus(sum, load.kg);
    }
    if (sprinkled.empty()) return;
    const std::vector<Portion> portions = portions_of(sprinkled, rule_base);
    const Mixture all = mix(portions);
    const std::string when =
        " on " + days_in_words(static_cast<int>(by_day.size())) + " since " + to_text(by_day.begin()->first);
    if (history.area > 0) {
        const auto most = std::ranges::max_element(by_day, {}, [](const auto& day) { return day.second.typical; });
        state.sprinkled_per_area = {over(most->second, history.area),
                                    in_words(most->second, "kg") + " on " + to_text(most->first)};
    }
    if (!(all.dry_kg.typical > 0)) return;
    const auto water_to_dung = [&](double kg, double dry_kg) {
        return dry_kg > 0 ? std::max(0.0, kg * dry_share_of_dung / dry_kg - 1) : water_and_no_more;
    };
    state.slurry_water = {{water_to_dung(all.kg.low, all.dry_kg.high), water_to_dung(all.kg.typical, all.dry_kg.typical),
                           water_to_dung(all.kg.high, all.dry_kg.low)},
                          in_words(all.kg, "kg") + when + " with " + in_words(all.dry_kg, "kg") + " of dry matter"};
}

/// By the day, since the window's begin, or since the bay was begun or the worms came, where that was later: what worms never
/// met is no ration of theirs.
void add_rates(BayState& state, const std::vector<Load>& feeds, const BayHistory& history, Day first, Day today) {
    first = std::max(first, history.loads.front().on);
    if (state.days_since_worms) first = std::max(first, today - std::chrono::days(*state.days_since_worms));
    Estimate fed;
    for (const Load& load : feeds)
        if (load.on >= first) fed = plus(fed, load.kg);
    const int of_days = days_between(first, today) + 1;
    const std::string how = in_words(fed, "kg") + " in the " + days_in_words(of_days) + " from " + to_text(first) + " on";
    state.feed_per_day = {over(fed, of_days), how};
    if (history.area > 0) state.feed_per_area = {over(state.feed_per_day->value, history.area), how};
    if (state.worms && state.worms->value.low > 0)
        state.feed_per_worms = {over(state.feed_per_day->value, state.worms->value), how + ", to the worms there may be"};
}

}  // namespace

void add_feeding(BayState& state, const BayHistory& history, const RuleBase& rule_base, Day today) {
    const Day first = today - std::chrono::days(feed_window - 1);
    std::vector<Load> feeds;
    for (const Load& load : history.loads)
        if (is_eaten(load, rule_base)) feeds.push_back(load);
    if (!feeds.empty()) state.days_since_feed = days_between(feeds.back().on, today);

    const std::vector<Load> lately = since(history.loads, first);
    add_slurry(state, lately, history, rule_base, today);
    feeds = since(feeds, first);
    if (feeds.empty()) return;
    std::set<Day> days;
    Estimate fed;
    for (const Load& load : feeds) {
        days.insert(load.on);
        fed = plus(fed, load.kg);
    }
    state.fed = {
        fed, in_words(fed, "kg") + " on " + days_in_words(static_cast<int>(days.size())) + " since " + to_text(*days.begin())};
    state.feed_shares = shares_of(feeds, fed, rule_base);
    state.fed_throughout = history.loads.front().on <= first && without_holes(days, first, today);
    add_rates(state, feeds, history, first, today);

    std::vector<Load> gone_in;
    std::ranges::copy_if(lately, std::back_inserter(gone_in), [](const Load& load) { return !load.sprinkled; });
    state.recent = portions_of(gone_in, rule_base);
    state.feed = mixture_of(state.recent);
}

}  // namespace lidlift::tank
