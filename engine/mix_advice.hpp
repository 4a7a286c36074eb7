// A mixture as a person asks about it: what it comes to, whether that suits each stage, what to add, and what to beware of.
#pragma once

#include "engine/mix_words.hpp"
#include "engine/mixture.hpp"
#include "engine/rule_base.hpp"
#include "engine/windows.hpp"

#include <optional>
#include <string>
#include <vector>

namespace lidlift {

struct MixQuestion {
    std::vector<Load> loads;  ///< at least one
    std::vector<AtHand> at_hand;
    std::optional<Target> target;
    std::vector<MeasuredFigure> measured;
};

struct MixedIn {
    Handle<Material> material;
    Amount amount;
    Portion portion;
};

/// How a mixture suits one stage; nothing where a figure is not known.
struct SuitsStage {
    const StageWindows* stage = nullptr;
    std::optional<Judgement> moisture;
    std::optional<Judgement> carbon_to_nitrogen;
    bool moisture_unsure = false;  ///< the figure's range reaches beyond the window that it typically lies in, or into it
    bool carbon_to_nitrogen_unsure = false;
    std::vector<Handle<Material>> kept_out;  ///< in it, but not fit for this stage whatever its figures are
};

/// What to add of one material. kg.high is infinite where it may not be enough at all.
struct ToAdd {
    Handle<Material> material;
    Estimate kg;
    std::optional<Estimate> litres;
    std::optional<double> stock;  ///< kg
};

struct MixPlan {
    std::vector<ToAdd> add;  ///< only what is wanted; empty: it is at its target already
    Mixture then;
    std::vector<SuitsStage> suits;
};

struct MixAnswer {
    std::vector<MixedIn> parts;
    Mixture mixture;
    std::vector<SuitsStage> suits;
    std::optional<Outcome<MixPlan>> plan;        ///< where a target was asked for; Fault: why it cannot be reached
    std::vector<Handle<Caution>> cautions;       ///< of everything in it and to be added, gravest first
    std::vector<Handle<Material>> materials;     ///< of the same, each once
    std::vector<Handle<Material>> passed_over;   ///< at hand, but not fit for the stage that is aimed at
    std::vector<Handle<Material>> only_at_hand;  ///< asked about and not wanted
};

/// Fault: an amount cannot be used (a volume of something whose density nobody knows; nothing at all).
[[nodiscard]] Outcome<MixAnswer> answer(const RuleBase& rule_base, const MixQuestion& question);

/// How `mixture` suits each stage, by its figures alone.
[[nodiscard]] std::vector<SuitsStage> suits(const Mixture& mixture);

}  // namespace lidlift
