#include "engine/mix_advice.hpp"

#include <algorithm>

namespace lidlift {
namespace {

template <class T>
void add_once(std::vector<T>& list, const T& item) {
    if (std::ranges::find(list, item) == list.end()) list.push_back(item);
}

class MixAnswerer {
public:
    MixAnswerer(const RuleBase& rule_base, const MixQuestion& question) : base_(rule_base), question_(question) {}

    Outcome<MixAnswer> make() {
        for (const Load& load : question_.loads)
            if (const auto fault = mix_in(load)) return *fault;
        if (const auto fault = take_at_hand()) return *fault;
        answer_.mixture = mix(portions_);
        if (!(answer_.mixture.kg.typical > 0)) return Fault{"all the amounts are 0, so there is nothing to mix"};
        answer_.suits = suits(answer_.mixture);
        std::vector<Handle<Material>> mixed;
        for (const MixedIn& part : answer_.parts) add_once(mixed, part.material);
        keep_out(answer_.suits, mixed);
        if (question_.target) answer_.plan = plan();
        for (const MixedIn& part : answer_.parts) add_once(answer_.materials, part.material);
        if (answer_.plan && *answer_.plan)
            for (const ToAdd& added : (*answer_.plan)->add) add_once(answer_.materials, added.material);
        for (const auto material : hand_materials_)
            if (std::ranges::find(answer_.materials, material) == answer_.materials.end())
                add_once(answer_.only_at_hand, material);
        collect_cautions();
        return Outcome<MixAnswer>(std::move(answer_));
    }

private:
    Outcome<Ingredient> ingredient(Handle<Material> material) const {
        Outcome<Ingredient> what = ingredient_of(base_.materials[material]);
        if (what) apply(*what, material, question_.measured);
        return what;
    }

    std::optional<Fault> mix_in(const Load& load) {
        const Outcome<Ingredient> what = ingredient(load.material);
        if (!what) return what.fault();
        Outcome<Portion> portion = portion_of(load.amount, *what);
        if (!portion) return portion.fault();
        portions_.push_back(*portion);
        answer_.parts.push_back({load.material, load.amount, std::move(*portion)});
        return std::nullopt;
    }

    std::optional<Fault> take_at_hand() {
        const bool for_worms = question_.target && question_.target->stage && question_.target->stage->has_worms;
        for (const AtHand& hand : question_.at_hand) {
            if (for_worms && !base_.materials[hand.material].keep_from_worms.empty()) {
                add_once(answer_.passed_over, hand.material);
                continue;
            }
            Outcome<Ingredient> what = ingredient(hand.material);
            if (!what) return what.fault();
            std::optional<double> stock;
            if (hand.stock) {
                const Outcome<Portion> portion = portion_of(*hand.stock, *what);
                if (!portion) return portion.fault();
                stock = portion->kg.typical;
            }
            hands_.push_back({std::move(*what), stock});
            hand_materials_.push_back(hand.material);
        }
        return std::nullopt;
    }

    /// Says in each stage with worms what of `mixed` has no place there.
    void keep_out(std::vector<SuitsStage>& stages, const std::vector<Handle<Material>>& mixed) const {
        for (SuitsStage& one : stages)
            for (const auto material : mixed)
                if (one.stage->has_worms && !base_.materials[material].keep_from_worms.empty())
                    one.kept_out.push_back(material);
    }

    Outcome<MixPlan> plan() const {
        const Goal& goal = question_.target->goal;
        const Outcome<std::vector<double>> kg = least_addition(portions_, hands_, goal);
        if (!kg) return kg.fault();
        const std::vector<Estimate> ranges = ranges_of(goal, *kg);
        MixPlan plan;
        std::vector<Portion> then = portions_;
        for (std::size_t i = 0; i < hands_.size(); ++i) {
            // A gram in a tonne is what rounding leaves, not something to weigh out.
            if ((*kg)[i] <= 1e-6 * answer_.mixture.kg.typical) continue;
            ToAdd added{hand_materials_[i], ranges[i], std::nullopt, hands_[i].stock};
            if (const auto& density = hands_[i].what.density)
                added.litres = Estimate{1000 * added.kg.low / density->high, 1000 * added.kg.typical / density->typical,
                                        1000 * added.kg.high / density->low};
            plan.add.push_back(added);
            then.push_back({hands_[i].what, Estimate::exactly((*kg)[i]), std::nullopt});
        }
        plan.then = mix(then);
        plan.suits = suits(plan.then);
        std::vector<Handle<Material>> mixed;
        for (const MixedIn& part : answer_.parts) add_once(mixed, part.material);
        for (const ToAdd& added : plan.add) add_once(mixed, added.material);
        keep_out(plan.suits, mixed);
        return plan;
    }

    /// One material for one figure has exact bounds; the others are found by trying the ends of the figures.
    std::vector<Estimate> ranges_of(const Goal& goal, const std::vector<double>& kg) const {
        if (hands_.size() == 1 && goal.moisture.has_value() != goal.carbon_to_nitrogen.has_value() && kg.front() > 0) {
            const Estimate& wanted = goal.moisture ? *goal.moisture : *goal.carbon_to_nitrogen;
            const double now = goal.moisture ? answer_.mixture.moisture.typical : answer_.mixture.carbon_to_nitrogen->typical;
            const double edge = now > wanted.high ? wanted.high : wanted.low;
            const auto exact = goal.moisture ? kg_to_moisture(portions_, hands_.front().what, edge)
                                             : kg_to_carbon_to_nitrogen(portions_, hands_.front().what, edge);
            if (exact) return {*exact};
        }
        return range_of_addition(portions_, hands_, goal, kg).kg;
    }

    void collect_cautions() {
        for (const auto material : answer_.materials)
            for (const auto caution : base_.materials[material].cautions) add_once(answer_.cautions, caution);
        std::ranges::stable_sort(answer_.cautions, {},
                                 [this](Handle<Caution> caution) { return static_cast<int>(base_.cautions[caution].level); });
    }

    const RuleBase& base_;
    const MixQuestion& question_;
    std::vector<Portion> portions_;
    std::vector<OnHand> hands_;
    std::vector<Handle<Material>> hand_materials_;  ///< of hands_
    MixAnswer answer_;
};

/// Whether the ends of the range are judged otherwise than the typical value.
bool is_unsure(const Estimate& value, const Window& window) {
    const Judgement typical = judge(value.typical, window);
    const auto side = [](Judgement judgement) {
        return judgement == Judgement::below ? -1 : judgement == Judgement::above ? 1 : 0;
    };
    return side(judge(value.low, window)) != side(typical) || side(judge(value.high, window)) != side(typical);
}

}  // namespace

std::vector<SuitsStage> suits(const Mixture& mixture) {
    std::vector<SuitsStage> result;
    for (const StageWindows& stage : stage_windows()) {
        SuitsStage one;
        one.stage = &stage;
        one.moisture = judge(mixture.moisture.typical, stage.moisture);
        one.moisture_unsure = is_unsure(mixture.moisture, stage.moisture);
        if (mixture.carbon_to_nitrogen) {
            one.carbon_to_nitrogen = judge(mixture.carbon_to_nitrogen->typical, stage.carbon_to_nitrogen);
            one.carbon_to_nitrogen_unsure = is_unsure(*mixture.carbon_to_nitrogen, stage.carbon_to_nitrogen);
        }
        result.push_back(one);
    }
    return result;
}

Outcome<MixAnswer> answer(const RuleBase& rule_base, const MixQuestion& question) {
    return MixAnswerer(rule_base, question).make();
}

}  // namespace lidlift
