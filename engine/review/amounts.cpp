#include "engine/review/amounts.hpp"

#include "engine/review/kinds.hpp"

#include <algorithm>
#include <set>
#include <string>
#include <utility>

namespace lidlift {
namespace {

class AmountsReview {
public:
    AmountsReview(const RuleBase& base, std::vector<ReviewFinding>& findings) : base_(base), findings_(findings) {}

    void review(const Step& step) {
        std::set<std::string> told;
        for (const MeasuredOut& measured : step.measured_out) {
            if (const DoseOut* dose = std::get_if<DoseOut>(&measured.formula.how); dose && dose->rate.filling)
                review_cautions(step, {Stuff::Kind::material, *dose->rate.filling}, measured.place, told);
            for (const Stuff& stuff : measured.formula.of) {
                const std::string against = works_against(step, stuff, measured.formula);
                if (!against.empty() && told.insert(against).second)
                    add("amount_against_push", measured.place, {step.id}, "the step '" + step.id + "' " + against,
                        "measure out something else, or mend the step's 'kind' or 'pushes'");
                review_cautions(step, stuff, measured.place, told);
            }
        }
    }

private:
    void add(std::string_view kind, const Place& place, std::vector<std::string> about, std::string text, std::string mend) {
        ReviewFinding finding = finding_of(kind, place);
        finding.about = std::move(about);
        finding.text = std::move(text);
        finding.mend = std::move(mend);
        findings_.push_back(std::move(finding));
    }

    [[nodiscard]] const Material* material_of(const Stuff& stuff) const {
        return stuff.kind == Stuff::Kind::material ? &base_.materials[stuff.material] : nullptr;
    }

    [[nodiscard]] std::string name_of(const Stuff& stuff) const {
        if (const Material* material = material_of(stuff)) return "'" + material->id + "'";
        return stuff.kind == Stuff::Kind::water ? "water" : stuff.kind == Stuff::Kind::feed ? "feed" : "worms";
    }

    static bool pushes(const Step& step, Pushed what, bool up) {
        return std::ranges::find(step.pushes, Push{what, up}) != step.pushes.end();
    }

    /// What of the formula goes against what the step is for; empty: nothing.
    [[nodiscard]] std::string works_against(const Step& step, const Stuff& stuff, const AmountFormula& formula) const {
        const Material* material = material_of(stuff);
        const bool water = stuff.kind == Stuff::Kind::water || (material && material->role == MaterialRole::liquid);
        const bool mineral = material && material->role == MaterialRole::mineral;
        const std::string measures = "measures out " + name_of(stuff) + ", ";
        if (step.kind == StepKind::dry_matter && (water || mineral || stuff.kind == Stuff::Kind::worms))
            return measures + "which is no dry matter";
        if (step.kind == StepKind::water && !water) return measures + "although it is of kind water";
        if (step.kind == StepKind::lime && !mineral) return measures + "although it is of kind lime";
        if (step.kind == StepKind::feed && step.strictness == 5) return measures + "although it says to feed nothing";
        if (mineral && step.kind != StepKind::lime && !pushes(step, Pushed::ph, true))
            return measures + "a mineral, and neither is of kind lime nor pushes 'ph up'";
        if (stuff.kind == Stuff::Kind::worms && pushes(step, Pushed::worms, false))
            return measures + "although it pushes 'worms down'";
        if (water && pushes(step, Pushed::moisture, false)) return measures + "although it pushes 'moisture down'";
        return against_moisture(step, stuff, formula, measures);
    }

    /// A goal of moisture says which way it goes.
    [[nodiscard]] std::string against_moisture(const Step& step, const Stuff& stuff, const AmountFormula& formula,
                                               const std::string& measures) const {
        const ReachGoal* reach = std::get_if<ReachGoal>(&formula.how);
        if (!reach || reach->goal != ReachGoal::Goal::moisture) return {};
        const Material* material = material_of(stuff);
        const double own = material && material->moisture ? material->moisture->value.typical : 100;
        const bool wets = own > reach->to.high;
        if (wets && pushes(step, Pushed::moisture, false))
            return measures + "which is wetter than what it is to bring about, although it pushes 'moisture down'";
        if (!wets && pushes(step, Pushed::moisture, true))
            return measures + "which is drier than what it is to bring about, although it pushes 'moisture up'";
        return {};
    }

    void review_cautions(const Step& step, const Stuff& stuff, const Place& place, std::set<std::string>& told) {
        const Material* material = material_of(stuff);
        if (!material) return;
        for (const Handle<Caution> handle : material->cautions) {
            if (std::ranges::find(step.cautions, handle) != step.cautions.end()) continue;
            const Caution& caution = base_.cautions[handle];
            if (!told.insert(caution.id).second) continue;
            add("amount_without_caution", place, {step.id, caution.id},
                "the step '" + step.id + "' measures out '" + material->id + "', which names the caution " + caution.id + " (" +
                    caution.name + "), and does not name it",
                "add " + caution.id + " to the step's 'cautions'");
        }
    }

    const RuleBase& base_;
    std::vector<ReviewFinding>& findings_;
};

}  // namespace

void review_amounts(const RuleBase& rule_base, std::vector<ReviewFinding>& findings) {
    AmountsReview amounts(rule_base, findings);
    for (const Step& step : rule_base.steps) amounts.review(step);
}

}  // namespace lidlift
