#include "cli/render_mix_json.hpp"

#include "cli/json_parts.hpp"

#include <cmath>

#include <nlohmann/json.hpp>

namespace lidlift::cli {
namespace {

using Json = nlohmann::ordered_json;

Json number(double value) { return std::isfinite(value) ? Json(value) : Json(nullptr); }

Json estimate(const Estimate& value) {
    return {{"low", number(value.low)}, {"typical", number(value.typical)}, {"high", number(value.high)}};
}
Json estimate(const std::optional<Estimate>& value) { return value ? estimate(*value) : Json(nullptr); }

Json mixture(const Mixture& mixture) {
    const auto air = [](const std::optional<AirSpace>& word) { return word ? Json(to_word(*word)) : Json(nullptr); };
    return {{"kg", estimate(mixture.kg)},
            {"moisture", estimate(mixture.moisture)},
            {"dry_kg", estimate(mixture.dry_kg)},
            {"nitrogen", estimate(mixture.nitrogen)},
            {"nitrogen_kg", estimate(mixture.nitrogen_kg)},
            {"carbon_to_nitrogen", estimate(mixture.carbon_to_nitrogen)},
            {"litres", estimate(mixture.litres)},
            {"density", estimate(mixture.density)},
            {"air_space", air(mixture.air_space)},
            {"air_space_if_heavy", air(mixture.air_space_least)},
            {"air_space_if_loose", air(mixture.air_space_most)}};
}

Json judged(const std::optional<Judgement>& judgement, bool unsure, const Window& window) {
    return {{"judged", judgement ? Json(to_word(*judgement)) : Json(nullptr)},
            {"unsure", unsure},
            {"works", {window.works.low, window.works.high}},
            {"best", {window.best.low, window.best.high}},
            {"source", window.source}};
}

Json stages(const RuleBase& base, const std::vector<SuitsStage>& suits) {
    Json list = Json::array();
    for (const SuitsStage& one : suits)
        list.push_back({{"stage", one.stage->word},
                        {"name", one.stage->name},
                        {"moisture", judged(one.moisture, one.moisture_unsure, one.stage->moisture)},
                        {"carbon_to_nitrogen",
                         judged(one.carbon_to_nitrogen, one.carbon_to_nitrogen_unsure, one.stage->carbon_to_nitrogen)},
                        {"keep_out", id_list<Json>(base.materials, one.kept_out)}});
    return list;
}

Json goal(const std::optional<Estimate>& wanted) {
    return wanted ? Json{{"low", wanted->low}, {"high", wanted->high}} : Json(nullptr);
}

class MixJson {
public:
    explicit MixJson(const MixPage& page) : page_(page), base_(page.rule_base) {}

    std::string make() const {
        Json document = {{"rule_base", {{"name", base_.name}, {"version", base_.version}}},
                         {"cautions", cautions()},
                         {"parts", parts()},
                         {"mixture", mixture(page_.answer.mixture)},
                         {"stages", stages(base_, page_.answer.suits)},
                         {"reach", reach()},
                         {"materials", materials()}};
        return dumped(document);
    }

private:
    Json cautions() const {
        Json list = Json::array();
        for (const auto handle : page_.answer.cautions) {
            const Caution& caution = base_.cautions[handle];
            list.push_back({{"id", caution.id},
                            {"level", to_word(caution.level)},
                            {"name", caution.name},
                            {"text", caution.say},
                            {"sources", id_list<Json>(base_.sources, caution.sources)}});
        }
        return list;
    }

    Json parts() const {
        Json list = Json::array();
        for (const MixedIn& part : page_.answer.parts)
            list.push_back({{"material", base_.materials[part.material].id},
                            {"name", base_.materials[part.material].name},
                            {"amount", part.amount.written},
                            {"kg", estimate(part.portion.kg)},
                            {"litres", part.portion.litres ? Json(*part.portion.litres) : Json(nullptr)}});
        return list;
    }

    Json reach() const {
        if (!page_.answer.plan) return nullptr;
        const Target& target = *page_.question.target;
        Json result = {{"target", target.words},
                       {"moisture", goal(target.goal.moisture)},
                       {"carbon_to_nitrogen", goal(target.goal.carbon_to_nitrogen)},
                       {"stage", target.stage ? Json(target.stage->word) : Json(nullptr)},
                       {"left_out", id_list<Json>(base_.materials, page_.answer.passed_over)},
                       {"reached", static_cast<bool>(*page_.answer.plan)}};
        if (!*page_.answer.plan) {
            result["because"] = page_.answer.plan->fault().text;
            return result;
        }
        const MixPlan& plan = **page_.answer.plan;
        result["add"] = Json::array();
        for (const ToAdd& added : plan.add) {
            Json one = {{"material", base_.materials[added.material].id},
                        {"name", base_.materials[added.material].name},
                        {"kg", estimate(added.kg)},
                        {"litres", estimate(added.litres)},
                        {"stock_kg", added.stock ? Json(*added.stock) : Json(nullptr)},
                        {"measures", Json::array()}};
            if (added.litres)
                for (const Vessel& vessel : page_.vessels.all())
                    one["measures"].push_back(
                        {{"name", vessel.name},
                         {"litres", vessel.litres},
                         {"number", estimate(Estimate{added.litres->low / vessel.litres, added.litres->typical / vessel.litres,
                                                      added.litres->high / vessel.litres})}});
            result["add"].push_back(one);
        }
        result["not_wanted"] = id_list<Json>(base_.materials, page_.answer.only_at_hand);
        result["then"] = mixture(plan.then);
        result["stages"] = stages(base_, plan.suits);
        return result;
    }

    Json figure(const std::optional<Figure>& figure, Handle<Material> material, FigureName name) const {
        for (auto one = page_.question.measured.rbegin(); one != page_.question.measured.rend(); ++one)
            if (one->material == material && one->figure == name) {
                Json own = estimate(one->value);
                own["standing"] = "as you measured";
                return own;
            }
        if (!figure) return nullptr;
        Json result = estimate(figure->value);
        result["standing"] = to_word(figure->standing);
        result["range_standing"] = to_word(figure->range_standing);
        result["disputed"] = figure->disputed;
        if (!figure->note.empty()) result["note"] = figure->note;
        result["sources"] = id_list<Json>(base_.sources, figure->sources);
        return result;
    }

    Json materials() const {
        Json list = Json::array();
        for (const auto handle : page_.answer.materials) {
            const Material& material = base_.materials[handle];
            list.push_back(
                {{"id", material.id},
                 {"name", material.name},
                 {"moisture", figure(material.moisture, handle, FigureName::moisture)},
                 {"nitrogen", figure(material.nitrogen, handle, FigureName::nitrogen)},
                 {"carbon_to_nitrogen", figure(material.carbon_to_nitrogen, handle, FigureName::carbon_to_nitrogen)},
                 {"density", figure(material.density, handle, FigureName::density)},
                 {"keep_from_worms", material.keep_from_worms.empty() ? Json(nullptr) : Json(material.keep_from_worms)},
                 {"note", material.note.empty() ? Json(nullptr) : Json(material.note)},
                 {"cautions", id_list<Json>(base_.cautions, material.cautions)},
                 {"sources", id_list<Json>(base_.sources, material.sources)}});
        }
        return list;
    }

    const MixPage& page_;
    const RuleBase& base_;
};

}  // namespace

std::string render_mix_json(const MixPage& page) { return MixJson(page).make(); }

}  // namespace lidlift::cli
