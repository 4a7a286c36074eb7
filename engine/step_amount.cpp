#include "engine/step_amount.hpp"

#include "engine/tank/figures_in_words.hpp"
#include "engine/tank/ranges.hpp"

#include <algorithm>
#include <cmath>
#include <iterator>
#include <limits>
#include <set>
#include <utility>

namespace lidlift {
namespace {

using tank::in_words;
using tank::over;
using tank::times;

/// An amount by mass or by volume, before it is known in both.
struct Wanted {
    Estimate size;  ///< kg or L
    MeasuredBy by = MeasuredBy::mass;
    std::string nothing_needed;
};

Estimate not_negative(const Estimate& estimate) {
    return {std::max(estimate.low, 0.0), std::max(estimate.typical, 0.0), std::max(estimate.high, 0.0)};
}
Estimate minus(const Estimate& a, const Estimate& b) {
    return not_negative({a.low - b.high, a.typical - b.typical, a.high - b.low});
}
Estimate least(const Estimate& a, const Estimate& b) {
    return {std::min(a.low, b.low), std::min(a.typical, b.typical), std::min(a.high, b.high)};
}

std::string in_plain_words(std::string id) {
    std::ranges::replace(id, '_', ' ');
    return id;
}

std::string part_in_words(const TankPart& part) {
    switch (part.what) {
        case TankPart::What::all:
            return std::string(to_word(part.where));
        case TankPart::What::top:
            return "the top " + in_words(Estimate::exactly(100 * part.depth), "cm") + " of " + std::string(to_word(part.where));
        case TankPart::What::last_load:
            return "the last load";
        case TankPart::What::wet_part:
            return "the wet part of the last load";
        case TankPart::What::feed_of_a_day:
            return "the feed of a day";
    }
    return {};
}

class Measurer {
public:
    Measurer(const AmountFormula& formula, const RuleBase& rule_base, const TankContext& tank)
        : formula_(formula), rule_base_(rule_base), parts_(tank), tank_(tank) {}

    /// `used` is what the record shows to be at hand: that comes first.
    StepAmounts measure(const std::set<Handle<Material>>& used) {
        std::vector<Stuff> choices = formula_.of;
        // Not of std::ranges: clang 14 cannot read the subrange that libstdc++ 12 returns.
        std::stable_partition(choices.begin(), choices.end(), [&](const Stuff& stuff) {
            return stuff.kind != Stuff::Kind::material || used.contains(stuff.material);
        });
        for (const Stuff& stuff : choices) {
            StepAmount amount;
            amount.stuff = stuff;
            amount.name = name_of(stuff);
            amount.portions = formula_.portions;
            amount.instead = !result_.amounts.empty();
            const auto wanted = std::visit([&](const auto& how) { return want(how, stuff, amount); }, formula_.how);
            if (wanted) finish(*wanted, std::move(amount));
            if (wanted && !wanted->nothing_needed.empty()) break;  // then none of the others is needed either
        }
        return std::move(result_);
    }

private:
    // ---- what is wanted

    std::optional<Wanted> want(const ReachGoal& goal, const Stuff& stuff, StepAmount& amount) {
        const bool moisture = goal.goal == ReachGoal::Goal::moisture;
        const std::string unit = moisture ? " % moisture" : "";
        amount.what_for = "to bring " + part_in_words(goal.part) + " to " +
                          (moisture ? in_words(goal.to, "") : "a carbon to nitrogen ratio of " + in_words(goal.to, "")) + unit;
        amount.a_day = goal.part.what == TankPart::What::feed_of_a_day;
        const auto there = take(parts_.portions(goal.part, !moisture), amount);
        const auto added = ingredient(stuff);
        if (!there || !added) return std::nullopt;
        const Mixture mixture = mix(*there);
        const std::optional<Estimate> now = moisture ? std::optional(mixture.moisture) : mixture.carbon_to_nitrogen;
        const std::optional<Estimate> own = moisture ? std::optional(added->moisture) : added->carbon_to_nitrogen;
        if (!now || !own) return lack("materials whose nitrogen is known");
        if (!moisture) amount.because.push_back("its carbon to nitrogen ratio is " + in_words(*now, ""));

        const bool up = now->typical < goal.to.low;
        if (!up && now->typical <= goal.to.high)
            return none_needed(*now, moisture, goal.to.low <= now->low && now->high <= goal.to.high, "it is right already");
        if ((own->typical > goal.to.high) != up) {  // it would bring it further away
            const char* side = moisture ? (up ? "drier" : "wetter") : (up ? "lower" : "higher");
            const bool surely = up ? now->high <= goal.to.high : now->low >= goal.to.low;
            return none_needed(*now, moisture, surely, std::string("it is ") + side + " than that already");
        }

        const auto kg_to = [&](double to) {
            return moisture ? kg_to_moisture(*there, *added, to) : kg_to_carbon_to_nitrogen(*there, *added, to);
        };
        const auto middle = kg_to(goal.to.typical);
        if (!middle) return lack("what goes into the bay, and how much");
        Estimate kg = *middle;
        // All of the goal is good, so the range covers it at least.
        if (const auto near = kg_to(up ? goal.to.low : goal.to.high)) kg.low = std::min(kg.low, near->typical);
        const auto far = kg_to(up ? goal.to.high : goal.to.low);
        kg.high = std::max(kg.high, far ? far->typical : std::numeric_limits<double>::infinity());
        // Anything from nothing to twice the guess helps nobody; the rule of hand does.
        if (!(kg.low > 0) && kg.high >= 2 * kg.typical)
            return lack(moisture ? "a squeeze or a drying test, which tells how wet it is"
                                 : "the loads by weight rather than by the bucket");
        return Wanted{kg, MeasuredBy::mass, {}};
    }

    /// "at 76 % it is right already"; where the figure is not sure enough to say so, that it is the likeliest.
    static Wanted none_needed(const Estimate& now, bool moisture, bool surely, const std::string& why) {
        const auto say = [&](const Estimate& figure) {
            return moisture ? in_words(figure, "%") : "a ratio of " + in_words(figure, "");
        };
        const std::string at = surely ? say(now)
                                      : say(Estimate::exactly(std::round(now.typical))) + ", the likeliest figure (it may be " +
                                            in_words(now, moisture ? "%" : "") + "),";
        return {{}, MeasuredBy::mass, "at " + at + " " + why};
    }

    std::optional<Wanted> want(const LayOver& layer, const Stuff&, StepAmount& amount) {
        const TankPart part{TankPart::What::all, layer.where, 0};
        amount.what_for = "for a layer of " + in_words(times(layer.metres, 100), "cm") + " over " +
                          (layer.half ? "half of " : "") + std::string(to_word(layer.where));
        const auto area = take(parts_.m2(part), amount);
        if (!area) return std::nullopt;
        return Wanted{times(layer.metres, area->typical * (layer.half ? 500 : 1000)), MeasuredBy::volume, {}};
    }

    std::optional<Wanted> want(const DoseOut& dose, const Stuff& stuff, StepAmount& amount) {
        // What is given with the feed of a day is given every day; worms that are to eat it are put in once.
        amount.a_day = dose.a_day || (stuff.kind != Stuff::Kind::worms && dose.rate.each != Rate::Each::kg_of_worms &&
                                      dose.rate.part.what == TankPart::What::feed_of_a_day);
        if (dose.rate.each == Rate::Each::litre_of_filling) return fill(dose, stuff, amount);
        const auto basis = basis_of(dose.rate, amount);
        if (!basis) return std::nullopt;
        amount.what_for = for_in_words(dose.rate);
        if (dose.rate.each == Rate::Each::m2)
            amount.what_for =
                "at " + size_in_words(dose.rate) + " to a square metre, for all of " + part_in_words(dose.rate.part);
        Wanted wanted{times(dose.rate.size, *basis), dose.rate.by, {}};
        if (!dose.in_all) return wanted;
        // A limit is for all of it, with what is there.
        for (const Rate& limit : formula_.limits) {
            const auto most = basis_of(limit, amount);
            if (!most) return std::nullopt;
            if (limit.by == wanted.by) wanted.size = least(wanted.size, times(limit.size, *most));
        }
        const auto there = stuff.kind == Stuff::Kind::worms ? worms_there(dose.rate.part, amount) : dry_there(dose.rate.by);
        if (!there) return std::nullopt;
        wanted.size = minus(wanted.size, *there);
        if (!(wanted.size.typical > 0)) {
            wanted = {{}, dose.rate.by, "there is enough of it already: " + in_words(*there, unit_of(dose.rate.by))};
        } else if (there->high > 0) {
            amount.because.push_back(in_words(*there, unit_of(dose.rate.by)) + " are there already and count");
        }
        return wanted;
    }

    /// What fills a place together with the material of the rate.
    std::optional<Wanted> fill(const DoseOut& dose, const Stuff&, StepAmount& amount) {
        const TankPart part{TankPart::What::all, dose.rate.part.where, 0};
        const auto bay = parts_.bay_of(part);
        if (!bay) return lack_all(bay.missing);
        const BayStage stage = parts_.state(*bay.value).stage;
        if (stage != BayStage::empty && stage != BayStage::filling) return std::nullopt;
        const auto free = take(parts_.free_litres(*bay.value), amount);
        if (!free) return std::nullopt;
        // r litres to one litre of the other are r/(1+r) of the whole.
        const auto share = [](double ratio) { return ratio / (1 + ratio); };
        const Estimate& ratio = dose.rate.size;
        const Estimate litres = times({share(ratio.low), share(ratio.typical), share(ratio.high)}, *free);
        const Material& other = rule_base_.materials[*dose.rate.filling];
        amount.what_for = "to fill " + std::string(to_word(dose.rate.part.where)) + " together with " +
                          in_words({*free - litres.high, *free - litres.typical, *free - litres.low}, "L") + " of " +
                          in_plain_words(other.id);
        if (!(*free > 0)) return Wanted{{}, MeasuredBy::volume, "it is full"};
        return Wanted{litres, MeasuredBy::volume, {}};
    }

    std::optional<Estimate> basis_of(const Rate& rate, StepAmount& amount) {
        switch (rate.each) {
            case Rate::Each::m2:
                return take(parts_.m2(rate.part), amount);
            case Rate::Each::kg:
                return take(parts_.kg(rate.part), amount);
            case Rate::Each::litre:
                return take(parts_.litres(rate.part), amount);
            case Rate::Each::kg_of_worms: {
                const auto bay = parts_.bay_of(rate.part);
                if (!bay) return lack_all(bay.missing);
                const auto& worms = parts_.state(*bay.value).worms;
                if (!worms || !(worms->value.high > 0)) return lack("how many kg of worms went in");
                amount.because.push_back("in " + parts_.name_of(*bay.value) + " there may be " + in_words(worms->value, "kg") +
                                         " of worms: " + worms->how);
                return worms->value;
            }
            case Rate::Each::litre_of_filling:
                break;
        }
        return std::nullopt;
    }

    static std::string size_in_words(const Rate& rate) {
        const bool grams = rate.by == MeasuredBy::mass && rate.size.high < 1;
        return in_words(grams ? times(rate.size, 1000) : rate.size, grams ? "g" : unit_of(rate.by));
    }

    static std::string unit_of(MeasuredBy by) { return by == MeasuredBy::mass ? "kg" : "L"; }

    static std::string for_in_words(const Rate& rate) {
        switch (rate.each) {
            case Rate::Each::m2:
            case Rate::Each::kg:
            case Rate::Each::litre:
                return "for " + part_in_words(rate.part);
            case Rate::Each::kg_of_worms:
                return "for the worms";
            case Rate::Each::litre_of_filling:
                break;
        }
        return {};
    }

    /// Worms of which nothing is recorded are none.
    std::optional<Estimate> worms_there(const TankPart& part, StepAmount&) {
        const auto bay = parts_.bay_of(part);
        if (!bay) return lack_all(bay.missing);
        const auto& worms = parts_.state(*bay.value).worms;
        return worms ? worms->value : Estimate{};
    }

    std::optional<Estimate> dry_there(MeasuredBy by) {
        const auto dry = parts_.dry_part();
        if (!dry) return lack_all(dry.missing);
        if (by == MeasuredBy::volume) {
            const auto litres = litres_of(*dry.value);
            return litres ? litres : lack("how many buckets the load is");
        }
        Estimate kg;
        for (const Portion& portion : *dry.value) kg = tank::plus(kg, portion.kg);
        return kg;
    }

    // ---- the stuff itself

    std::string name_of(const Stuff& stuff) const {
        switch (stuff.kind) {
            case Stuff::Kind::water:
                return "water";
            case Stuff::Kind::feed:
                return "feed";
            case Stuff::Kind::worms:
                return "worms";
            case Stuff::Kind::material:
                break;
        }
        return in_plain_words(rule_base_.materials[stuff.material].id);
    }

    std::optional<Ingredient> ingredient(const Stuff& stuff) {
        if (stuff.kind == Stuff::Kind::water) return water();
        const auto result = ingredient_of(rule_base_.materials[stuff.material]);
        return result ? std::optional(*result) : std::nullopt;
    }

    /// kg/m3.
    std::optional<Estimate> density_of(const Stuff& stuff, std::size_t bay) const {
        switch (stuff.kind) {
            case Stuff::Kind::water:
                return Estimate::exactly(1000);
            case Stuff::Kind::feed: {
                const auto& feed = parts_.state(bay).feed;
                return feed ? feed->density : std::nullopt;
            }
            case Stuff::Kind::worms:
                return std::nullopt;
            case Stuff::Kind::material:
                break;
        }
        const auto& density = rule_base_.materials[stuff.material].density;
        return density && density->value.low > 0 ? std::optional(density->value) : std::nullopt;
    }

    // ---- bounds, and the other measure

    /// Where it goes.
    InTank<std::size_t> goes_into() const {
        return parts_.bay_of(std::visit(
            [](const auto& how) -> TankPart {
                using How = std::decay_t<decltype(how)>;
                if constexpr (std::is_same_v<How, ReachGoal>)
                    return how.part;
                else if constexpr (std::is_same_v<How, LayOver>)
                    return {TankPart::What::all, how.where, 0};
                else
                    return how.rate.part;
            },
            formula_.how));
    }

    void finish(const Wanted& wanted, StepAmount amount) {
        const auto bay = goes_into();
        if (!bay) {
            lack_all(bay.missing);
            return;
        }
        const auto density = density_of(amount.stuff, *bay.value);
        const bool by_mass = wanted.by == MeasuredBy::mass;
        amount.nothing_needed = wanted.nothing_needed;
        amount.by_volume = !by_mass;
        amount.kg_known = by_mass || density.has_value();
        amount.kg = by_mass ? wanted.size : density ? times(times(wanted.size, *density), 0.001) : Estimate{};
        if (!by_mass)
            amount.litres = wanted.size;
        else if (density)
            amount.litres = times(over(wanted.size, *density), 1000);
        if (amount.nothing_needed.empty() && !keep_possible(amount, *bay.value, density)) return;
        if (!std::isfinite(amount.kg.high) || (amount.litres && !std::isfinite(amount.litres->high))) {
            lack("the size of the bay");
            return;
        }
        add_buckets(amount);
        result_.amounts.push_back(std::move(amount));
    }

    bool keep_possible(StepAmount& amount, std::size_t bay, const std::optional<Estimate>& density) {
        const DoseOut* dose = std::get_if<DoseOut>(&formula_.how);
        for (const Rate& limit : formula_.limits) {
            if (dose && dose->in_all) break;  // done with what was wanted in all
            const auto basis = basis_of(limit, amount);
            if (!basis) return false;
            const Estimate most = times(limit.size, *basis);
            cut(amount, most, limit.by, density,
                in_words(most, unit_of(limit.by)) + (amount.a_day ? " a day " : " ") + for_in_words(limit) + " are the most");
        }
        if (amount.stuff.kind == Stuff::Kind::worms) {
            const double area = parts_.recorded(bay).area;
            if (!(area > 0)) {
                lack("the floor and the height of the bay");
                return false;
            }
            const auto& worms = parts_.state(bay).worms;
            const double most = std::max(0.0, area * most_worms_on_a_square_metre - (worms ? worms->value.typical : 0));
            cut(amount, Estimate::exactly(most), MeasuredBy::mass, density,
                "more do not live on " + in_words(Estimate::exactly(area), "m2"));
            return true;
        }
        if (amount.stuff.kind == Stuff::Kind::water) return keep_in_gaps(amount, bay);
        const auto free = parts_.free_litres(bay);
        if (!free) {
            lack_all(free.missing);
            return false;
        }
        const std::string because = *free.value > 0
                                        ? "no more fits: " + free.because.front() + "; take some out first, or use less"
                                        : "nothing fits: " + parts_.name_of(bay) + " is full to the rim; take some out first";
        cut(amount, Estimate::exactly(*free.value), MeasuredBy::volume, density, because);
        return true;
    }

    /// Water in lots runs out between them, so that only one lot has to find room.
    bool keep_in_gaps(StepAmount& amount, std::size_t bay) {
        TankPart part{TankPart::What::all, Where::bay, 0};
        if (const ReachGoal* goal = std::get_if<ReachGoal>(&formula_.how))
            part = goal->part;
        else if (const DoseOut* dose = std::get_if<DoseOut>(&formula_.how); dose && dose->rate.each != Rate::Each::kg_of_worms)
            part = dose->rate.part;
        auto air = parts_.air_litres(part);
        std::string because = air ? "no more goes in: " + air.because.front() + "; the rest would run out below" : "";
        if (!air) {
            air = parts_.free_litres(bay);
            if (air) because = "no more fits: " + air.because.front();
        }
        if (!air) {
            lack_all(air.missing);
            return false;
        }
        cut(amount, Estimate::exactly(*air.value * formula_.portions), MeasuredBy::volume, Estimate::exactly(1000), because);
        return true;
    }

    /// Keeps both measures at or below `most`, which is of `by`.
    void cut(StepAmount& amount, const Estimate& most, MeasuredBy by, const std::optional<Estimate>& density,
             const std::string& because) {
        const bool by_mass = by == MeasuredBy::mass;
        const bool in_kg = by_mass && amount.kg_known;
        if (by_mass && !in_kg) return;  // by volume and of no known density: a limit by mass says nothing of it
        const Estimate* measured = in_kg ? &amount.kg : amount.litres ? &*amount.litres : nullptr;
        Estimate most_kg = most;
        if (!measured) {
            measured = &amount.kg;
            most_kg = times(most, heaviest / 1000);
        }
        const Estimate& limit = measured == &amount.kg ? most_kg : most;
        const bool all = measured->typical > limit.typical;
        const bool some = measured->high > limit.high;
        if (!all && !some && measured->low <= limit.low) return;
        if (by_mass) {
            amount.kg = least(amount.kg, most);
            if (amount.litres && density) amount.litres = least(*amount.litres, times(over(most, *density), 1000));
        } else {
            if (amount.litres) amount.litres = least(*amount.litres, most);
            if (amount.kg_known) amount.kg = least(amount.kg, density ? times(times(most, *density), 0.001) : most_kg);
        }
        if (!all && !some) return;
        const auto bound = all ? StepAmount::Bound::all : StepAmount::Bound::most;
        if (bound <= amount.bound) return;
        amount.bound = bound;
        amount.bound_because = because;
    }

    void add_buckets(StepAmount& amount) const {
        const Vessel* bucket = tank_.record->vessels.find("bucket");
        if (!bucket || !(bucket->litres > 0) || !amount.litres) return;
        amount.bucket_litres = bucket->litres;
        amount.buckets = over(*amount.litres, bucket->litres);
    }

    // ---- what is missing

    std::nullopt_t lack(std::string what) {
        if (std::ranges::find(result_.missing, what) == result_.missing.end()) result_.missing.push_back(std::move(what));
        return std::nullopt;
    }
    std::nullopt_t lack_all(const std::vector<std::string>& what) {
        for (const std::string& each : what) lack(each);
        return std::nullopt;
    }
    /// What was found, with its reasons put to the amount; or what is missing noted.
    template <class T>
    std::optional<T> take(InTank<T> found, StepAmount& amount) {
        if (!found) return lack_all(found.missing);
        for (std::string& reason : found.because)
            if (std::ranges::find(amount.because, reason) == amount.because.end()) amount.because.push_back(std::move(reason));
        return std::move(*found.value);
    }

    const AmountFormula& formula_;
    const RuleBase& rule_base_;
    TankParts parts_;
    const TankContext& tank_;
    StepAmounts result_;
};

std::set<Handle<Material>> materials_in(const TankRecord& record) {
    std::set<Handle<Material>> used;
    for (const RecordedEntry& entry : record.entries)
        if (const Added* added = std::get_if<Added>(&entry.what))
            for (const RecordedMaterial& each : added->materials) used.insert(each.material);
    return used;
}

}  // namespace

StepAmounts amounts_of(const Step& step, const RuleBase& rule_base, const TankContext& tank) {
    StepAmounts result;
    if (!tank.record || !tank.state || tank.state->bays.size() != tank.record->bays.size()) return result;
    if (step.measured_out.empty()) return result;
    const std::set<Handle<Material>> used = materials_in(*tank.record);
    for (const MeasuredOut& measured : step.measured_out) {
        StepAmounts one = Measurer(measured.formula, rule_base, tank).measure(used);
        std::ranges::move(one.amounts, std::back_inserter(result.amounts));
        for (std::string& what : one.missing)
            if (std::ranges::find(result.missing, what) == result.missing.end()) result.missing.push_back(std::move(what));
    }
    return result;
}

}  // namespace lidlift
