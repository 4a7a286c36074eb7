#include "engine/mixture.hpp"

#include "engine/mixture_parts.hpp"
#include "engine/rule_base.hpp"

#include <algorithm>
#include <utility>

namespace lidlift {
namespace mixing {

namespace {
/// % of dry mass; `what` has both figures.
double carbon_limit(const Ingredient& what) {
    return std::max(most_carbon, what.nitrogen->typical * what.carbon_to_nitrogen->typical);
}
}  // namespace

Estimate nitrogen(const Ingredient& what) {
    Estimate result = *what.nitrogen;
    if (what.carbon_to_nitrogen && what.carbon_to_nitrogen->low > 0)
        result.high = std::clamp(carbon_limit(what) / what.carbon_to_nitrogen->low, result.typical, result.high);
    return result;
}

Corners carbon_and_nitrogen(const Ingredient& what) {
    if (!what.nitrogen || !what.carbon_to_nitrogen) return {{0, 0}};
    const Estimate n = nitrogen(what);
    const Estimate& ratio = *what.carbon_to_nitrogen;
    const double most = carbon_limit(what);
    const auto at = [&](double share, double c_to_n) { return Share{std::min(share * c_to_n, most) / 100, share / 100}; };
    // With the greatest C:N the carbon reaches its limit at less nitrogen than with the least.
    const double full_at = ratio.high > 0 ? std::clamp(most / ratio.high, n.low, n.high) : n.low;
    return {at(n.low, ratio.low), at(n.low, ratio.high), at(full_at, ratio.high), at(n.high, ratio.high),
            at(n.high, ratio.low)};
}

Corners scaled(const Corners& corners, double least, double greatest) {
    Corners result;
    for (const Share& corner : corners)
        for (const double amount : {least, greatest}) result.push_back({corner.of * amount, corner.in * amount});
    return result;
}

double least_dry(const Portion& portion) { return portion.kg.low * (1 - portion.what.moisture.high / 100); }
double greatest_dry(const Portion& portion) { return portion.kg.high * (1 - portion.what.moisture.low / 100); }
double dry(const Portion& portion) { return portion.kg.typical * (1 - portion.what.moisture.typical / 100); }

Share typical_carbon_and_nitrogen(const Portion& portion) {
    const Ingredient& what = portion.what;
    if (!what.nitrogen || !what.carbon_to_nitrogen) return {};
    const double nitrogen = dry(portion) * what.nitrogen->typical / 100;
    return {nitrogen * what.carbon_to_nitrogen->typical, nitrogen};
}

bool has_dry_matter(const Ingredient& what) { return what.moisture.low < 100; }
bool lacks_nitrogen(const Ingredient& what) { return has_dry_matter(what) && !what.nitrogen; }

}  // namespace mixing

namespace {

using mixing::Corners;
using mixing::Share;

/// With the bounds round the typical value, whatever rounding did to them.
Estimate estimate(double low, double typical, double high) {
    return {std::min(low, typical), typical, std::max(typical, high)};
}

/// The greatest (`sign` 1) or least (-1) of sum(of) / sum(in) when each part takes one of its corners, from a value that some
/// choice has. Each round takes the choice that is best by the ratio so far (Dinkelbach 1967, from memory), so it ends: there
/// are finitely many, and every one is better than the last.
double extreme(const std::vector<Corners>& parts, double ratio, double sign) {
    while (true) {
        Share sum;
        for (const Corners& corners : parts) {
            const Share best = *std::ranges::max_element(
                corners, {}, [&](const Share& corner) { return sign * (corner.of - ratio * corner.in); });
            sum.of += best.of;
            sum.in += best.in;
        }
        // Written so that it ends as well where the ratio is not a number.
        if (!(sum.in > 0) || !(sign * (sum.of / sum.in - ratio) > 0)) return ratio;
        ratio = sum.of / sum.in;
    }
}

Estimate ratio_of(const std::vector<Corners>& parts, const Share& typical) {
    const double ratio = typical.of / typical.in;
    return estimate(extreme(parts, ratio, -1), ratio, extreme(parts, ratio, 1));
}

Estimate moisture_of(std::span<const Portion> portions) {
    std::vector<Corners> parts;
    Share typical;
    for (const Portion& portion : portions) {
        const Estimate& moisture = portion.what.moisture;
        parts.push_back(mixing::scaled({{moisture.low, 1}, {moisture.high, 1}}, portion.kg.low, portion.kg.high));
        typical.of += portion.kg.typical * moisture.typical;
        typical.in += portion.kg.typical;
    }
    return ratio_of(parts, typical);
}

/// The mass and the share of dry matter that is nitrogen; nothing where a figure is missing.
void find_nitrogen(std::span<const Portion> portions, Mixture& mixture) {
    std::vector<Corners> parts;
    Estimate kg;
    for (const Portion& portion : portions) {
        if (!mixing::has_dry_matter(portion.what)) continue;
        if (!portion.what.nitrogen) return;
        const Estimate nitrogen = mixing::nitrogen(portion.what);
        const double least = mixing::least_dry(portion);
        const double greatest = mixing::greatest_dry(portion);
        kg.low += least * nitrogen.low / 100;
        kg.typical += mixing::dry(portion) * nitrogen.typical / 100;
        kg.high += greatest * nitrogen.high / 100;
        parts.push_back(mixing::scaled({{nitrogen.low, 1}, {nitrogen.high, 1}}, least, greatest));
    }
    mixture.nitrogen_kg = kg;
    if (mixture.dry_kg.typical > 0) mixture.nitrogen = ratio_of(parts, {100 * kg.typical, mixture.dry_kg.typical});
}

void find_carbon_to_nitrogen(std::span<const Portion> portions, Mixture& mixture) {
    std::vector<Corners> parts;
    Share typical;
    for (const Portion& portion : portions) {
        if (mixing::lacks_nitrogen(portion.what)) return;
        parts.push_back(mixing::scaled(mixing::carbon_and_nitrogen(portion.what), mixing::least_dry(portion),
                                       mixing::greatest_dry(portion)));
        const Share part = mixing::typical_carbon_and_nitrogen(portion);
        typical.of += part.of;
        typical.in += part.in;
    }
    if (typical.in > 0) mixture.carbon_to_nitrogen = ratio_of(parts, typical);
}

/// The volume without settling, and from it the density (F14).
void find_volume(std::span<const Portion> portions, Mixture& mixture) {
    std::vector<Corners> parts;
    Estimate litres;
    for (const Portion& portion : portions) {
        const Estimate& kg = portion.kg;
        if (portion.litres) {
            litres.low += *portion.litres;
            litres.typical += *portion.litres;
            litres.high += *portion.litres;
            parts.push_back({{kg.low, *portion.litres}, {kg.high, *portion.litres}});
            continue;
        }
        if (!portion.what.density) return;
        const Estimate& density = *portion.what.density;
        litres.low += 1000 * kg.low / density.high;
        litres.typical += 1000 * kg.typical / density.typical;
        litres.high += 1000 * kg.high / density.low;
        parts.push_back(mixing::scaled({{1, 1000 / density.low}, {1, 1000 / density.high}}, kg.low, kg.high));
    }
    mixture.litres = litres;
    if (!(litres.typical > 0)) return;
    const Estimate kg_per_litre = ratio_of(parts, {mixture.kg.typical, litres.typical});
    mixture.density = Estimate{1000 * kg_per_litre.low, 1000 * kg_per_litre.typical, 1000 * kg_per_litre.high};
    mixture.air_space = air_space_of(mixture.density->typical, mixture.moisture.typical);
    mixture.air_space_least = air_space_of(mixture.density->high, mixture.moisture.typical);
    mixture.air_space_most = air_space_of(mixture.density->low, mixture.moisture.typical);
}

}  // namespace

const char* to_word(AirSpace air_space) {
    switch (air_space) {
        case AirSpace::low:
            return "low";
        case AirSpace::fair:
            return "fair";
        case AirSpace::high:
            return "high";
    }
    return "";
}

Ingredient water() { return {"water", Estimate::exactly(100), Estimate::exactly(0), std::nullopt, Estimate::exactly(1000)}; }

std::string name_in_a_sentence(std::string name) {
    const auto is_small = [](char c) { return c >= 'a' && c <= 'z'; };
    if (name.size() > 1 && name[0] >= 'A' && name[0] <= 'Z' && is_small(name[1]))
        name[0] = static_cast<char>(name[0] - 'A' + 'a');
    return name;
}

Outcome<Ingredient> ingredient_of(const Material& material) {
    if (!material.moisture) return Fault{"there is no moisture figure for " + material.name};
    const auto value = [](const std::optional<Figure>& figure) -> std::optional<Estimate> {
        if (!figure) return std::nullopt;
        return figure->value;
    };
    Ingredient result{name_in_a_sentence(material.name), material.moisture->value, value(material.nitrogen),
                      value(material.carbon_to_nitrogen), value(material.density)};
    // A mineral without a figure holds none that counts: lime does not make the nitrogen of a heap unknown.
    if (!result.nitrogen && material.role == MaterialRole::mineral) result.nitrogen = Estimate::exactly(0);
    return result;
}

Outcome<Portion> portion_of(const Amount& amount, const Ingredient& what) {
    if (amount.by == Amount::By::mass) return Portion{what, Estimate::exactly(amount.size), std::nullopt};
    if (!what.density)
        return Fault{"nobody knows how heavy a litre of " + what.name + " is: weigh it, and say so many kg of it"};
    const double cubic_metres = amount.size / 1000;
    const Estimate& density = *what.density;
    return Portion{
        what, {cubic_metres * density.low, cubic_metres * density.typical, cubic_metres * density.high}, amount.size};
}

Mixture mix(std::span<const Portion> portions) {
    Mixture mixture;
    for (const Portion& portion : portions) {
        mixture.kg.low += portion.kg.low;
        mixture.kg.typical += portion.kg.typical;
        mixture.kg.high += portion.kg.high;
        mixture.dry_kg.low += mixing::least_dry(portion);
        mixture.dry_kg.typical += mixing::dry(portion);
        mixture.dry_kg.high += mixing::greatest_dry(portion);
    }
    if (!(mixture.kg.typical > 0)) return mixture;
    mixture.moisture = moisture_of(portions);
    find_nitrogen(portions, mixture);
    find_carbon_to_nitrogen(portions, mixture);
    find_volume(portions, mixture);
    return mixture;
}

double air_space_by_phases(double density, double moisture, double organic) {
    const double wet = moisture / 100;
    return 1 - density * (wet / 1000 + (1 - wet) * organic / 1600 + (1 - wet) * (1 - organic) / 2500);
}

double air_space_by_haug(double density, double moisture, double organic) {
    const double wet = moisture / 100;
    return 1 - density * (1 - wet) * (organic / 1.0 + (1 - organic) / 2.5) / 1000 - density * wet / 1000;
}

AirSpace air_space_of(double density, double moisture) {
    constexpr double organic = 0.8;
    const double generous = air_space_by_phases(density, moisture, organic);
    const double strict = air_space_by_haug(density, moisture, organic);
    if (strict < 0.20 || generous < 0.35) return AirSpace::low;
    return strict > 0.60 ? AirSpace::high : AirSpace::fair;
}

}  // namespace lidlift
