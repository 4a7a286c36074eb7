// How much of what brings a mixture to a goal, and why nothing does.
#include "engine/linear_programme.hpp"
#include "engine/mixture.hpp"
#include "engine/mixture_parts.hpp"
#include "engine/quantity.hpp"

#include <algorithm>
#include <cmath>
#include <utility>

namespace lidlift {
namespace {

using mixing::Corners;
using mixing::Share;

std::string percent(double moisture) { return rough_number(moisture) + " %"; }
std::string to_one(double ratio) { return rough_number(ratio) + ":1"; }
std::string kilograms(double kg) { return rough_number(kg) + " kg"; }

/// The least and the greatest of a figure, round its typical value.
struct Reach {
    double low = 0, typical = 0, high = 0;
    void add(const Reach& other) {
        low += other.low;
        typical += other.typical;
        high += other.high;
    }
};

/// `lacking` of something is wanted and a kg of what is added brings `brings`: how many kg? Nothing where it brings the wrong
/// way.
std::optional<Estimate> kg_wanted(Reach lacking, Reach brings) {
    if (lacking.typical < 0 || (lacking.typical == 0 && brings.typical < 0)) {  // the same with both turned round
        lacking = {-lacking.high, -lacking.typical, -lacking.low};
        brings = {-brings.high, -brings.typical, -brings.low};
    }
    if (lacking.typical > 0 && !(brings.typical > 0)) return std::nullopt;
    Estimate kg;
    kg.typical = lacking.typical > 0 ? lacking.typical / brings.typical : 0;
    kg.low = lacking.low > 0 ? std::min(lacking.low / brings.high, kg.typical) : 0;
    if (lacking.high > 0)
        kg.high = brings.low > 0 ? std::max(lacking.high / brings.low, kg.typical) : std::numeric_limits<double>::infinity();
    return kg;
}

/// What `amount` kg of dry matter with these corners lacks of carbon for a C:N of `goal`.
Reach carbon_lacking(const Ingredient& what, double least, double typical, double greatest, double goal) {
    Reach reach;
    bool first = true;
    for (const Share& corner : mixing::scaled(mixing::carbon_and_nitrogen(what), least, greatest)) {
        const double lacking = goal * corner.in - corner.of;
        reach.low = first ? lacking : std::min(reach.low, lacking);
        reach.high = first ? lacking : std::max(reach.high, lacking);
        first = false;
    }
    if (what.nitrogen && what.carbon_to_nitrogen)
        reach.typical = typical * what.nitrogen->typical / 100 * (goal - what.carbon_to_nitrogen->typical);
    return reach;
}

Reach negative(const Reach& reach) { return {-reach.high, -reach.typical, -reach.low}; }

std::string lacks_figures(const Ingredient& what) { return "nobody knows the nitrogen of " + what.name; }

/// Why no C:N can be told of these, or nothing.
std::optional<Fault> no_carbon_to_nitrogen(std::span<const Portion> portions) {
    double nitrogen = 0;
    for (const Portion& portion : portions) {
        if (mixing::lacks_nitrogen(portion.what)) return Fault{lacks_figures(portion.what)};
        nitrogen += mixing::typical_carbon_and_nitrogen(portion).in;
    }
    if (nitrogen > 0) return std::nullopt;
    return Fault{"nothing in it holds nitrogen that counts, so it has no C:N"};
}

// ---- several materials

/// What is mixed, for one goal at a time: a level that the portions have, that a kg of each at hand has, and with which weight.
struct Levels {
    double of_mixture = 0;
    double weight = 0;  ///< of all portions together
    struct Level {
        double of = 0;
        double weight = 0;  ///< of one kg; 0: it leaves the level alone
    };
    std::vector<Level> at_hand;
};

Levels moisture_levels(std::span<const Portion> portions, std::span<const OnHand> on_hand) {
    Levels levels;
    for (const Portion& portion : portions) {
        levels.of_mixture += portion.kg.typical * portion.what.moisture.typical;
        levels.weight += portion.kg.typical;
    }
    levels.of_mixture /= levels.weight;
    for (const OnHand& hand : on_hand) levels.at_hand.push_back({hand.what.moisture.typical, 1});
    return levels;
}

Levels carbon_levels(std::span<const Portion> portions, std::span<const OnHand> on_hand) {
    Levels levels;
    for (const Portion& portion : portions) {
        const Share share = mixing::typical_carbon_and_nitrogen(portion);
        levels.of_mixture += share.of;
        levels.weight += share.in;
    }
    levels.of_mixture /= levels.weight;
    for (const OnHand& hand : on_hand) {
        const Share share = mixing::typical_carbon_and_nitrogen({hand.what, Estimate::exactly(1), std::nullopt});
        levels.at_hand.push_back({share.in > 0 ? share.of / share.in : 0, share.in});
    }
    return levels;
}

/// At least (`sign` 1) or at most (-1) `bound`: sum of weight * x * (level - bound) >= what the portions lack.
LinearLimit limit_at(const Levels& levels, double bound, double sign, double scale) {
    LinearLimit limit;
    limit.low = sign * levels.weight * (bound - levels.of_mixture);
    double largest = std::abs(limit.low) / scale;
    for (const Levels::Level& level : levels.at_hand) {
        limit.factors.push_back(sign * level.weight * (level.of - bound));
        largest = std::max(largest, std::abs(limit.factors.back()));
    }
    if (largest == 0) return limit;
    for (double& factor : limit.factors) factor /= largest;
    limit.low /= largest * scale;
    return limit;
}

void add_limits(LinearProgramme& programme, const Levels& levels, const Estimate& goal, double scale) {
    LinearLimit at_least = limit_at(levels, goal.low, 1, scale);
    if (goal.is_exact()) {
        at_least.high = at_least.low;
        programme.limits.push_back(std::move(at_least));
        return;
    }
    programme.limits.push_back(std::move(at_least));
    programme.limits.push_back(limit_at(levels, goal.high, -1, scale));
}

/// x in units of `scale` kg, so that the numbers are of the order of 1 for a bucket and for a lorry.
std::optional<std::vector<double>> least_kg(std::span<const OnHand> on_hand, const Levels* moisture, const Levels* carbon,
                                            const Goal& goal, double scale) {
    LinearProgramme programme;
    programme.cost.assign(on_hand.size(), 1);
    for (const OnHand& hand : on_hand) programme.most.push_back(hand.stock ? *hand.stock / scale : no_limit);
    if (moisture) add_limits(programme, *moisture, *goal.moisture, scale);
    if (carbon) add_limits(programme, *carbon, *goal.carbon_to_nitrogen, scale);
    auto result = solve(programme);
    if (result)
        for (double& x : *result) x *= scale;
    return result;
}

/// Words for one of the two goals.
struct Wording {
    const char* quantity;
    const char* lowest;   ///< "the driest"
    const char* highest;  ///< "the wettest"
    std::string (*say)(double);
};
constexpr Wording moisture_wording{"moisture", "the driest", "the wettest", percent};
constexpr Wording carbon_wording{"C:N", "the one with the lowest C:N", "the one with the highest C:N", to_one};

/// "dry leaves (20 kg)"
std::string with_stock(const OnHand& hand) { return hand.what.name + (hand.stock ? " (" + kilograms(*hand.stock) + ")" : ""); }

std::string listed(const std::vector<std::string>& items) {
    std::string text;
    for (std::size_t i = 0; i < items.size(); ++i) text += (i == 0 ? "" : i + 1 == items.size() ? " and " : ", ") + items[i];
    return text;
}

/// Why no amount of what is at hand brings the level within the goal, or "" where some does.
std::string unreachable(const Levels& levels, std::span<const OnHand> on_hand, const Estimate& goal, const Wording& words) {
    const bool down = levels.of_mixture > goal.high;
    if (!down && levels.of_mixture >= goal.low) return "";
    const double wanted = down ? goal.high : goal.low;
    const auto beyond = [down](double a, double b) { return down ? a < b : a > b; };
    const Levels::Level* best = nullptr;
    std::string best_name;
    bool endless = false;  // of something that passes the wanted level there is as much as is needed
    std::vector<std::string> helpful;
    double of = levels.weight * levels.of_mixture;
    double in = levels.weight;
    for (std::size_t i = 0; i < on_hand.size(); ++i) {
        const Levels::Level& level = levels.at_hand[i];
        if (level.weight == 0) continue;
        if (!best || beyond(level.of, best->of)) {
            best = &level;
            best_name = on_hand[i].what.name;
        }
        if (!beyond(level.of, wanted)) continue;
        helpful.push_back(with_stock(on_hand[i]));
        if (!on_hand[i].stock) endless = true;
        const double kg = on_hand[i].stock.value_or(0);
        of += kg * level.weight * level.of;
        in += kg * level.weight;
    }
    const std::string from_to = std::string("the ") + words.quantity + " is " + words.say(levels.of_mixture) +
                                " and has to come " + (down ? "down to " : "up to ") + words.say(wanted);
    if (!best)
        return from_to + ", and " + (on_hand.empty() ? "nothing is at hand that changes it" : "nothing at hand changes it");
    if (!beyond(best->of, wanted)) {
        const std::string who = on_hand.size() == 1 ? best_name + ", at " + words.say(best->of) + ","
                                                    : std::string(down ? words.lowest : words.highest) + " of these, " +
                                                          best_name + " at " + words.say(best->of) + ",";
        if (!beyond(best->of, levels.of_mixture)) return from_to + ", and " + who + " does not bring it that way at all";
        return from_to + ", and " + who + " cannot bring it " + (down ? "below " : "above ") + words.say(best->of) +
               ", however much goes in";
    }
    if (endless || !beyond(wanted, of / in)) return "";
    return from_to + ", and all the " + listed(helpful) + " at hand brings it to " + words.say(of / in) + " only";
}

/// The C:N nearest to the goal that goes with the wanted moisture, by halving the gap.
std::optional<double> nearest_carbon(std::span<const OnHand> on_hand, const Levels& moisture, const Levels& carbon, Goal goal,
                                     double scale) {
    const auto at_moisture = least_kg(on_hand, &moisture, nullptr, goal, scale);
    if (!at_moisture) return std::nullopt;
    double of = carbon.weight * carbon.of_mixture;
    double in = carbon.weight;
    for (std::size_t i = 0; i < on_hand.size(); ++i) {
        of += (*at_moisture)[i] * carbon.at_hand[i].weight * carbon.at_hand[i].of;
        in += (*at_moisture)[i] * carbon.at_hand[i].weight;
    }
    double reached = of / in;
    double missed = reached > goal.carbon_to_nitrogen->high ? goal.carbon_to_nitrogen->high : goal.carbon_to_nitrogen->low;
    for (int halvings = 0; halvings < 40; ++halvings) {
        const double middle = (reached + missed) / 2;
        goal.carbon_to_nitrogen = Estimate::exactly(middle);
        (least_kg(on_hand, &moisture, &carbon, goal, scale) ? reached : missed) = middle;
    }
    return reached;
}

std::string goal_words(const Estimate& goal, std::string (*say)(double)) {
    return goal.is_exact() ? say(goal.low) : say(goal.low) + " to " + say(goal.high);
}

}  // namespace

Outcome<Estimate> kg_to_moisture(std::span<const Portion> portions, const Ingredient& added, double goal) {
    if (!(goal > 0 && goal < 100)) return Fault{"a moisture to reach lies between 0 and 100 %"};
    Reach lacking;
    double kg = 0;
    for (const Portion& portion : portions) {
        const Estimate& moisture = portion.what.moisture;
        kg += portion.kg.typical;
        const auto term = [&](double amount, double level) { return amount * (goal - level); };
        lacking.add({std::min(term(portion.kg.low, moisture.high), term(portion.kg.high, moisture.high)),
                     term(portion.kg.typical, moisture.typical),
                     std::max(term(portion.kg.low, moisture.low), term(portion.kg.high, moisture.low))});
    }
    if (!(kg > 0)) return Fault{"there is nothing yet to bring to a moisture"};
    const auto result =
        kg_wanted(lacking, {added.moisture.low - goal, added.moisture.typical - goal, added.moisture.high - goal});
    if (result) return *result;
    const OnHand hand{added, std::nullopt};
    const Levels levels = moisture_levels(portions, {&hand, 1});
    return Fault{unreachable(levels, {&hand, 1}, Estimate::exactly(goal), moisture_wording)};
}

Outcome<Estimate> kg_to_carbon_to_nitrogen(std::span<const Portion> portions, const Ingredient& added, double goal) {
    if (!(goal > 0)) return Fault{"a C:N to reach is greater than 0"};
    if (const auto fault = no_carbon_to_nitrogen(portions)) return *fault;
    if (mixing::lacks_nitrogen(added)) return Fault{lacks_figures(added)};
    Reach lacking;
    for (const Portion& portion : portions)
        lacking.add(carbon_lacking(portion.what, mixing::least_dry(portion), mixing::dry(portion),
                                   mixing::greatest_dry(portion), goal));
    const Portion one{added, Estimate::exactly(1), std::nullopt};
    const Reach brings =
        negative(carbon_lacking(added, mixing::least_dry(one), mixing::dry(one), mixing::greatest_dry(one), goal));
    if (const auto result = kg_wanted(lacking, brings)) return *result;
    const OnHand hand{added, std::nullopt};
    const Levels levels = carbon_levels(portions, {&hand, 1});
    return Fault{unreachable(levels, {&hand, 1}, Estimate::exactly(goal), carbon_wording)};
}

Outcome<std::vector<double>> least_addition(std::span<const Portion> portions, std::span<const OnHand> on_hand,
                                            const Goal& goal) {
    if (on_hand.size() > most_on_hand)
        return Fault{"more than " + std::to_string(most_on_hand) + " materials at hand are too many"};
    double scale = 0;
    for (const Portion& portion : portions) scale += portion.kg.typical;
    if (!(scale > 0)) return Fault{"there is nothing yet to bring to a goal"};
    if (goal.moisture && !(goal.moisture->low >= 0 && goal.moisture->high <= 100))
        return Fault{"a moisture to reach lies between 0 and 100 %"};
    std::optional<Levels> moisture;
    std::optional<Levels> carbon;
    if (goal.moisture) {
        moisture = moisture_levels(portions, on_hand);
        const std::string why = unreachable(*moisture, on_hand, *goal.moisture, moisture_wording);
        if (!why.empty()) return Fault{why};
    }
    if (goal.carbon_to_nitrogen) {
        if (const auto fault = no_carbon_to_nitrogen(portions)) return *fault;
        for (const OnHand& hand : on_hand)
            if (mixing::lacks_nitrogen(hand.what)) return Fault{lacks_figures(hand.what)};
        carbon = carbon_levels(portions, on_hand);
        const std::string why = unreachable(*carbon, on_hand, *goal.carbon_to_nitrogen, carbon_wording);
        if (!why.empty()) return Fault{why};
    }
    const Levels* for_moisture = moisture ? &*moisture : nullptr;
    const Levels* for_carbon = carbon ? &*carbon : nullptr;
    if (auto kg = least_kg(on_hand, for_moisture, for_carbon, goal, scale)) return std::move(*kg);
    std::string why = "each of the two can be reached by itself, but not both at once";
    if (moisture && carbon)
        if (const auto nearest = nearest_carbon(on_hand, *moisture, *carbon, goal, scale))
            why += ": with a moisture of " + goal_words(*goal.moisture, percent) + " the C:N comes to " + to_one(*nearest) +
                   " at best, and " + goal_words(*goal.carbon_to_nitrogen, to_one) + " is wanted";
    return Fault{why};
}

AdditionRange range_of_addition(std::span<const Portion> portions, std::span<const OnHand> on_hand, const Goal& goal,
                                const std::vector<double>& typical) {
    AdditionRange range;
    for (const double kg : typical) range.kg.push_back(Estimate::exactly(kg));
    const auto end_of = [](const Estimate& figure, bool high) { return Estimate::exactly(high ? figure.high : figure.low); };
    const auto at_ends = [&](const Ingredient& what, bool moisture, bool nitrogen, bool carbon) {
        Ingredient result = what;
        result.moisture = end_of(what.moisture, moisture);
        if (!goal.carbon_to_nitrogen || !what.nitrogen || !what.carbon_to_nitrogen) return result;
        result.nitrogen = end_of(*what.nitrogen, nitrogen);
        result.carbon_to_nitrogen = end_of(*what.carbon_to_nitrogen, carbon);
        const double most = std::max(most_carbon, what.nitrogen->typical * what.carbon_to_nitrogen->typical);
        if (result.nitrogen->typical * result.carbon_to_nitrogen->typical > most)
            result.carbon_to_nitrogen = Estimate::exactly(most / result.nitrogen->typical);
        return result;
    };
    const unsigned choices = goal.carbon_to_nitrogen ? 1U << 7 : 1U << 3;
    for (unsigned choice = 0; choice < choices; ++choice) {
        const auto high = [choice](unsigned bit) { return (choice >> bit & 1U) != 0; };
        std::vector<Portion> then;
        for (const Portion& portion : portions)
            then.push_back({at_ends(portion.what, high(0), high(3), high(4)), end_of(portion.kg, high(2)), portion.litres});
        std::vector<OnHand> hands;
        for (const OnHand& hand : on_hand) hands.push_back({at_ends(hand.what, high(1), high(5), high(6)), hand.stock});
        ++range.tried;
        const auto kg = least_addition(then, hands, goal);
        if (!kg) continue;
        ++range.reached;
        for (std::size_t i = 0; i < range.kg.size(); ++i) {
            range.kg[i].low = std::min(range.kg[i].low, (*kg)[i]);
            range.kg[i].high = std::max(range.kg[i].high, (*kg)[i]);
        }
    }
    return range;
}

}  // namespace lidlift
