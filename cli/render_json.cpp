#include "cli/render_json.hpp"

#include "cli/json_parts.hpp"
#include "cli/shown_causes.hpp"
#include "cli/verdict_word.hpp"
#include "engine/amount_words.hpp"
#include "engine/words.hpp"

#include <algorithm>
#include <optional>

#include <nlohmann/json.hpp>

namespace lidlift::cli {
namespace {

using Json = nlohmann::ordered_json;

Json understood(const RuleBase& base, const Told& told) {
    Json list = Json::array();
    for (const auto handle : told.order) {
        const Sign& sign = base.signs[handle];
        const Observation* seen = told.facts.find(handle);
        if (seen)
            list.push_back(
                {{"sign", sign.id}, {"value", as_value(sign, *seen)}, {"means", in_words(sign, *seen)}, {"from", seen->from}});
        else
            list.push_back(
                {{"sign", sign.id}, {"value", "?"}, {"means", "not known"}, {"from", "you said: " + sign.id + "=?"}});
    }
    return list;
}

/// What the rules derived, each with the rule and the facts behind it.
Json concluded(const RuleBase& base, const Diagnosis& diagnosis) {
    Json list = Json::array();
    const Conclusions& conclusions = diagnosis.ranking.conclusions;
    for (std::uint32_t i = 0; i < conclusions.truth.size(); ++i) {
        if (conclusions.truth[i] != Truth::yes || !conclusions.because[i]) continue;
        const Rule& rule = base.rules[*conclusions.because[i]];
        list.push_back({{"id", base.conclusions[Handle<Conclusion>{i}].id},
                        {"means", base.conclusions[Handle<Conclusion>{i}].means},
                        {"rule", rule.id},
                        {"from", settled_in_words(rule.when, base, diagnosis.told.facts, conclusions)},
                        {"because", rule.because},
                        {"sources", id_list<Json>(base.sources, rule.sources)}});
    }
    return list;
}

const char* kind_word(BalanceLine::Kind kind) {
    switch (kind) {
        case BalanceLine::Kind::how_common:
            return "how common";
        case BalanceLine::Kind::circumstance:
            return "circumstance";
        case BalanceLine::Kind::sign:
            return "sign";
        case BalanceLine::Kind::shared:
            return "shared";
    }
    return "";
}

Json balance(const RuleBase& base, const RankedCause& ranked) {
    Json lines = Json::array();
    for (const BalanceLine& line : ranked.balance)
        lines.push_back({{"text", line.text},
                         {"decibans", line.decibans},
                         {"kind", kind_word(line.kind)},
                         {"discounted", line.discounted},
                         {"sources", id_list<Json>(base.sources, line.sources)}});
    return lines;
}

Json causes(const RuleBase& base, const Ranking& ranking) {
    Json list = Json::array();
    for (const RankedCause* ranked : causes_to_report(ranking)) {
        const Cause& cause = base.causes[ranked->cause];
        list.push_back(
            {{"id", cause.id},
             {"name", cause.name},
             {"chance", ranked->chance},
             {"words", likelihood_words(ranked->chance)},
             {"answered", ranked->answered},
             {"of", ranked->of},
             {"balance", balance(base, *ranked)},
             {"because", cause.because},
             {"look_again_days", cause.look_again_days.empty() ? Json(nullptr) : Json(cause.look_again_days.front())},
             {"expect", cause.expect},
             {"told_apart_by", text_or_null<Json>(cause.told_apart_by)},
             {"not_to_confuse_with", id_list<Json>(base.causes, cause.not_to_confuse_with)},
             {"guides_differ", text_or_null<Json>(cause.guides_differ)},
             {"benign", cause.benign},
             {"follows_from", ranked->follows_from ? Json(base.causes[*ranked->follows_from].id) : Json(nullptr)},
             {"there", ranked->there},
             {"sources", id_list<Json>(base.sources, cause.sources)}});
    }
    return list;
}

Json cautions(const RuleBase& base, const Advice& advice) {
    Json list = Json::array();
    for (const auto handle : advice.cautions) {
        const Caution& caution = base.cautions[handle];
        list.push_back({{"id", caution.id},
                        {"level", to_word(caution.level)},
                        {"name", caution.name},
                        {"text", caution.say},
                        {"emergency", caution.emergency && advice.verdict == Verdict::emergency},
                        {"sources", id_list<Json>(base.sources, caution.sources)}});
    }
    return list;
}

Json measured(const RuleBase& base, const StepAmount& amount) {
    const char* const own_words[] = {"", "water", "feed", "worms"};
    const bool material = amount.stuff.kind == Stuff::Kind::material;
    return {{"material", material ? base.materials[amount.stuff.material].id : own_words[static_cast<int>(amount.stuff.kind)]},
            {"name", amount.name},
            {"what_for", amount.what_for},
            {"kg", amount.kg_known ? bounds<Json>(amount.kg) : Json(nullptr)},
            {"litres", bounds<Json>(amount.litres)},
            {"buckets", bounds<Json>(amount.buckets)},
            {"bucket_litres", amount.buckets ? Json(amount.bucket_litres) : Json(nullptr)},
            {"a_day", amount.a_day},
            {"portions", amount.portions},
            {"in_place_of_the_one_before", amount.instead},
            {"nothing_needed", text_or_null<Json>(amount.nothing_needed)},
            {"bounded", amount.bound != StepAmount::Bound::none},
            {"wanted_more", amount.bound == StepAmount::Bound::all},
            {"bound_because", text_or_null<Json>(amount.bound_because)},
            {"because", amount.because},
            {"text", in_words(amount)}};
}

/// Null where there is no tank; empty where its record lacks what `amount_lacks` names.
Json measured(const RuleBase& base, const Diagnosis& diagnosis, std::size_t step) {
    if (step >= diagnosis.amounts.size()) return nullptr;
    Json list = Json::array();
    for (const StepAmount& amount : diagnosis.amounts[step].amounts) list.push_back(measured(base, amount));
    return list;
}

Json steps(const RuleBase& base, const Diagnosis& diagnosis) {
    const Advice& advice = diagnosis.advice;
    Json list = Json::array();
    for (std::size_t i = 0; i < advice.steps.size(); ++i) {
        const PlannedStep& planned = advice.steps[i];
        const Step& step = base.steps[planned.step];
        list.push_back({{"id", step.id},
                        {"when", to_word(step.when)},
                        {"kind", to_word(step.kind)},
                        {"text", step.say},
                        {"check_first", planned.check_first},
                        {"amount", text_or_null<Json>(step.amount)},
                        {"amount_measured", measured(base, diagnosis, i)},
                        {"amount_lacks", i < diagnosis.amounts.size() ? Json(diagnosis.amounts[i].missing) : Json::array()},
                        {"because", text_or_null<Json>(step.because)},
                        {"for", id_list<Json>(base.causes, planned.for_causes)},
                        {"cautions", id_list<Json>(base.cautions, step.cautions)},
                        {"sources", id_list<Json>(base.sources, step.sources)}});
    }
    return list;
}

Json steady(const RuleBase& base, const Steadiness& steadiness) {
    Json instead = Json::array();
    for (const Steadiness::Instead& other : steadiness.instead)
        instead.push_back({{"id", base.causes[Handle<Cause>{other.cause}].id}, {"times", other.times}});
    return {{"tries", steadiness.tries}, {"first_stays", steadiness.first_stays}, {"instead", instead}};
}

Json number(const std::optional<double>& value) { return value ? Json(*value) : Json(nullptr); }
Json number(const std::optional<int>& value) { return value ? Json(*value) : Json(nullptr); }
Json day(const std::optional<Day>& value) { return value ? Json(to_text(*value)) : Json(nullptr); }

Json stated(const std::optional<Stated>& value) {
    if (!value) return nullptr;
    Json json = bounds<Json>(value->value);
    json["how"] = value->how;
    return json;
}

Json mixture(const std::optional<Mixture>& value) {
    if (!value) return nullptr;
    return {{"kg", bounds<Json>(value->kg)},
            {"moisture", bounds<Json>(value->moisture)},
            {"carbon_to_nitrogen", bounds<Json>(value->carbon_to_nitrogen)},
            {"litres", bounds<Json>(value->litres)},
            {"density", bounds<Json>(value->density)}};
}

Json feed_shares(const RuleBase& base, const BayState& bay) {
    Json list = Json::array();
    for (const FeedShare& share : bay.feed_shares)
        list.push_back(
            {{"sign", base.signs[share.sign].id}, {"kg", bounds<Json>(share.kg)}, {"percent", bounds<Json>(share.percent)}});
    return list;
}

/// The bay that the diagnosis is about, in kg, L, m, m2, °C and per cent; null is what the record does not tell.
Json tank(const RuleBase& base, const TankSeen& tank) {
    const BayState& bay = tank.state.bays[tank.bay];
    return {{"name", tank.record.name},
            {"bay", tank.record.bays[tank.bay].name},
            {"because", tank.because},
            {"on", to_text(tank.state.today)},
            {"overruled", tank.overruled},
            {"stage", stage_word(bay.stage)},
            {"stage_because", bay.stage_because},
            {"kg", stated(bay.kg)},
            {"litres", stated(bay.litres)},
            {"depth_m", stated(bay.depth)},
            {"free_litres", number(bay.free_litres)},
            {"moisture", stated(bay.moisture)},
            {"density", stated(bay.density)},
            {"as_filled", mixture(bay.as_filled)},
            {"shrinks_to", bounds<Json>(bay.shrinks_to)},
            {"days_since_filling", number(bay.days_since_filling)},
            {"days_since_feed", number(bay.days_since_feed)},
            {"days_since_worms", number(bay.days_since_worms)},
            {"rest_days", number(bay.rest_days)},
            {"worms_kg", stated(bay.worms)},
            {"stocking_kg_per_m2", number(bay.stocking)},
            {"fed_kg", stated(bay.fed)},
            {"fed_throughout", bay.fed_throughout},
            {"feed", mixture(bay.feed)},
            {"feed_shares", feed_shares(base, bay)},
            {"feed_kg_per_day", stated(bay.feed_per_day)},
            {"feed_kg_per_day_m2", stated(bay.feed_per_area)},
            {"feed_kg_per_day_kg_of_worms", stated(bay.feed_per_worms)},
            {"layer_m", stated(bay.layer)},
            {"slurry_water_to_dung", stated(bay.slurry_water)},
            {"temperature", stated(bay.temperature)},
            {"temperature_trend_per_day", number(bay.temperature_trend)},
            {"peak_temperature", number(bay.peak_temperature)},
            {"hot_time", bay.hot ? Json({{"readings", bay.hot->readings},
                                         {"longest_days", bay.hot->longest},
                                         {"days", bay.hot->days},
                                         {"turnings", bay.hot->turnings},
                                         {"dose", bay.hot->dose},
                                         {"how", bay.hot_because}})
                                 : Json(nullptr)},
            {"ammonia_gas_percent", stated(bay.ammonia_share)},
            {"worms_from", day(bay.worms_from)},
            {"harvest_from", day(bay.harvest_from)},
            {"harvest_until", day(bay.harvest_until)}};
}

Json document_of(const RuleBase& base, const Diagnosis& diagnosis) {
    const Advice& advice = diagnosis.advice;
    Json left_out = Json::array();
    for (const LeftOutStep& out : advice.left_out)
        left_out.push_back({{"id", base.steps[out.step].id}, {"text", base.steps[out.step].say}, {"why", out.reason}});
    Json do_not = Json::array();
    for (const DoNot& item : advice.do_not)
        do_not.push_back({{"text", item.say}, {"because", text_or_null<Json>(item.because)}});
    Json find_out = Json::array();
    for (const FindOut& item : advice.find_out)
        find_out.push_back({{"sign", base.signs[item.sign].id}, {"ask", base.signs[item.sign].ask}, {"because", item.because}});
    Json ask_next = Json::array();
    for (const Question& question : diagnosis.ask_next) {
        const Sign& sign = base.signs[question.sign];
        Json answers = Json::array();
        for (const Answer& answer : sign.answers) answers.push_back(answer.id);
        ask_next.push_back({{"sign", sign.id}, {"ask", sign.ask}, {"bits", question.bits}, {"answers", answers}});
    }
    Json to_ask = Json::array();
    for (const OpenQuestion& open : diagnosis.to_ask)
        to_ask.push_back({{"words", open.words}, {"signs", id_list<Json>(base.signs, open.signs)}});
    Json document = {{"rule_base", {{"name", base.name}, {"version", base.version}}},
                     {"verdict", verdict_word(advice.verdict)},
                     {"understood", understood(base, diagnosis.told)},
                     {"not_understood", diagnosis.not_understood},
                     {"to_ask", to_ask},
                     {"concluded", concluded(base, diagnosis)},
                     {"contradictory", diagnosis.ranking.contradictory},
                     {"causes", causes(base, diagnosis.ranking)},
                     {"together", id_list<Json>(base.causes, diagnosis.ranking.together)},
                     {"nothing_listed", diagnosis.ranking.nothing_listed},
                     {"cautions", cautions(base, advice)},
                     {"steps", steps(base, diagnosis)},
                     {"do_not", do_not},
                     {"left_out", left_out},
                     {"find_out", find_out},
                     {"look_again_days", advice.look_again_days ? Json(*advice.look_again_days) : Json(nullptr)},
                     {"ask_next", ask_next}};
    if (diagnosis.tank) document["tank"] = tank(base, *diagnosis.tank);
    if (diagnosis.steadiness) document["steady"] = steady(base, *diagnosis.steadiness);
    return document;
}

Json head_of(const LineHead& head) {
    Json object = {{"line", head.line}};
    if (head.id) object["id"] = std::visit([](const auto& id) { return Json(id); }, *head.id);
    return object;
}

std::string in_ascii(const Json& json, int indent) { return dumped(json, indent); }

}  // namespace

std::string render_json(const RuleBase& base, const Diagnosis& diagnosis) { return in_ascii(document_of(base, diagnosis), 2); }

std::string render_json_line(const RuleBase& base, const Diagnosis& diagnosis, const LineHead& head) {
    Json object = head_of(head);
    object.update(document_of(base, diagnosis));
    return in_ascii(object, -1);
}

std::string render_short_line(const RuleBase& base, const Diagnosis& diagnosis, const LineHead& head) {
    Json causes = Json::array();
    for (const RankedCause* ranked : causes_to_report(diagnosis.ranking))
        causes.push_back({{"id", base.causes[ranked->cause].id}, {"chance", ranked->chance}});
    Json steps = Json::array();
    for (const PlannedStep& planned : diagnosis.advice.steps) steps.push_back(base.steps[planned.step].id);
    Json object = head_of(head);
    object["verdict"] = verdict_word(diagnosis.advice.verdict);
    object["contradictory"] = diagnosis.ranking.contradictory;
    object["causes"] = std::move(causes);
    object["nothing_listed"] = diagnosis.ranking.nothing_listed;
    object["cautions"] = id_list<Json>(base.cautions, diagnosis.advice.cautions);
    object["steps"] = std::move(steps);
    return in_ascii(object, -1);
}

std::string render_bad_line(const LineHead& head, std::span<const Complaint> complaints) {
    Json mistakes = Json::array();
    for (const Complaint& complaint : complaints)
        mistakes.push_back(
            {{"column", complaint.place.column}, {"text", complaint.text}, {"hint", text_or_null<Json>(complaint.hint)}});
    Json object = head_of(head);
    object["error"] = {{"mistakes", std::move(mistakes)}};
    return in_ascii(object, -1);
}

}  // namespace lidlift::cli
