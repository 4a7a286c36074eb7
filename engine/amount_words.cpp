#include "engine/amount_words.hpp"

#include "engine/tank/figures_in_words.hpp"
#include "engine/tank/ranges.hpp"

#include <algorithm>
#include <cmath>

namespace lidlift {
namespace {

using tank::times;

/// Two digits that count. What was cut off at its upper end is never rounded up beyond it.
std::string figure(double number, bool round_down) {
    if (round_down && number > 0) {
        const double scale = std::pow(10.0, 1 - std::floor(std::log10(number)));
        number = std::floor(number * scale * (1 + 1e-12)) / scale;
    }
    return tank::rounded(number);
}

struct Said {
    std::string low, typical, high;
};

/// "34 to 48 kg"; where the ends lie far apart "most likely 34 kg (3.4 to 120)".
std::string range(const Said& said, bool wide, const std::string& unit) {
    const std::string ends = said.low + " to " + said.high;
    if (said.low == said.high) return "about " + said.high + " " + unit;
    return wide ? "most likely " + said.typical + " " + unit + " (" + ends + ")" : ends + " " + unit;
}

bool is_wide(const Estimate& estimate) { return estimate.high > 2.5 * estimate.low; }

std::string range(const Estimate& estimate, const std::string& unit, bool cut) {
    return range({figure(estimate.low, cut), figure(estimate.typical, cut), figure(estimate.high, cut)}, is_wide(estimate),
                 unit);
}

std::string mass(const Estimate& kg, const std::string& per, bool cut) {
    if (kg.high < 1) return range(times(kg, 1000), "g" + per, cut);
    return range(kg, "kg" + per, cut);
}

std::string buckets(const Estimate& count, double litres, const std::string& per, bool cut) {
    const std::string unit = "of your " + tank::rounded(litres) + " L buckets" + per;
    const auto whole = [&](double number) { return tank::rounded(cut ? std::floor(number + 1e-9) : std::round(number)); };
    if (count.high < 1) return "less than one " + unit;
    const Said said{count.low < 0.5 ? "0" : whole(count.low), whole(count.typical), whole(count.high)};
    if (said.typical == "0") return "at most " + said.high + " " + unit;
    return range(said, is_wide(count), unit);
}

std::string size_of(const StepAmount& amount) {
    const bool cut = amount.bound != StepAmount::Bound::none;
    const std::string per = amount.a_day ? " a day" : "";
    if (amount.stuff.kind == Stuff::Kind::water && amount.litres) return range(*amount.litres, "L" + per, cut);
    const bool tell_volume = amount.litres && (amount.by_volume || amount.litres->high >= 1);
    const std::string volume = !tell_volume ? ""
                               : amount.buckets
                                   ? buckets(*amount.buckets, amount.bucket_litres, amount.by_volume ? per : "", cut)
                                   : range(*amount.litres, "L" + (amount.by_volume ? per : ""), cut);
    if (!amount.kg_known) return volume;
    if (volume.empty()) return mass(amount.kg, per, cut);
    return amount.by_volume ? volume + ", that is " + mass(amount.kg, "", cut)
                            : mass(amount.kg, per, cut) + ", that is " + volume;
}

}  // namespace

std::string in_words(const StepAmount& amount) {
    const std::string lead = amount.name + " " + amount.what_for;
    if (!amount.nothing_needed.empty()) return lead + ": none is needed; " + amount.nothing_needed;
    std::string text = lead + ": ";
    if (amount.bound == StepAmount::Bound::all && !(amount.kg.high > 0) && !(amount.litres && amount.litres->high > 0))
        return text + "none for now, " + amount.bound_because;
    text += size_of(amount);
    if (amount.portions > 1) text += ", in " + std::to_string(amount.portions) + " lots";
    if (amount.bound == StepAmount::Bound::all) text += "; it would take more, but " + amount.bound_because;
    if (amount.bound == StepAmount::Bound::most) text += "; the upper end is all that is possible there";
    return text;
}

std::string missing_in_words(const StepAmounts& amounts) {
    if (amounts.missing.empty()) return "";
    std::string list;
    for (const std::string& what : amounts.missing) list += (list.empty() ? "" : "; ") + what;
    return "For amounts in kilograms and buckets the tank's record should also hold: " + list + ".";
}

}  // namespace lidlift
