// How much of what a step needs, in the terms of one rule base and in kilograms, litres and metres (rules/FORMAT.md section 7).
#pragma once

#include "engine/catalogue.hpp"
#include "engine/complaint.hpp"
#include "engine/estimate.hpp"
#include "engine/written_amount.hpp"

#include <optional>
#include <string>
#include <variant>
#include <vector>

namespace lidlift {

struct Material;

/// What is measured out. Water, feed and worms need no entry in the rule base: water is what it is, and what feed and worms are
/// the tank's record says.
struct Stuff {
    enum class Kind { material, water, feed, worms };
    Kind kind = Kind::material;
    Handle<Material> material;  ///< kind material only
    friend bool operator==(const Stuff&, const Stuff&) = default;
};

using written::Where;

/// What is there: a whole bay, its top, or what was put into it.
struct TankPart {
    using What = written::Part::What;
    What what = What::all;
    Where where = Where::bay;  ///< all and top only
    double depth = 0;          ///< m, top only
    friend bool operator==(const TankPart&, const TankPart&) = default;
};

/// As much as brings a part to a goal. The middle of the goal is aimed at; all of it is good.
struct ReachGoal {
    using Goal = written::Reach::Goal;
    TankPart part;
    Goal goal = Goal::moisture;
    Estimate to;  ///< % of fresh mass, or the ratio
    friend bool operator==(const ReachGoal&, const ReachGoal&) = default;
};

struct LayOver {
    Estimate metres;
    bool half = false;
    Where where = Where::bed;
    friend bool operator==(const LayOver&, const LayOver&) = default;
};

/// A mass in kg or a volume in L.
enum class MeasuredBy { mass, volume };

/// So much for each ...
struct Rate {
    Estimate size;  ///< of `by`, for one of the basis
    MeasuredBy by = MeasuredBy::mass;
    enum class Each { m2, kg, litre, kg_of_worms, litre_of_filling };
    Each each = Each::m2;
    TankPart part;                            ///< m2, kg and litre
    std::optional<Handle<Material>> filling;  ///< litre_of_filling: what fills the place together with what is measured out
    friend bool operator==(const Rate&, const Rate&) = default;
};

struct DoseOut {
    Rate rate;
    bool in_all = false;  ///< what is there already counts
    bool a_day = false;
    friend bool operator==(const DoseOut&, const DoseOut&) = default;
};

struct AmountFormula {
    std::vector<Stuff> of;  ///< any one of these, the first where all are at hand
    std::variant<ReachGoal, LayOver, DoseOut> how;
    std::vector<Rate> limits;
    int portions = 1;
    friend bool operator==(const AmountFormula&, const AmountFormula&) = default;
};

/// A formula of a step, as written and where.
struct MeasuredOut {
    AmountFormula formula;
    std::string text;
    Place place;
    friend bool operator==(const MeasuredOut&, const MeasuredOut&) = default;
};

}  // namespace lidlift
