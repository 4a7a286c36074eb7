#include "cli/json_parts.hpp"
#include "cli/render_round.hpp"
#include "engine/words.hpp"

#include <algorithm>

#include <nlohmann/json.hpp>

namespace lidlift::cli {
namespace {

using Json = nlohmann::ordered_json;

Json figure(const std::optional<Stated>& stated) {
    if (!stated) return nullptr;
    Json result = bounds<Json>(stated->value);
    result["how"] = stated->how;
    return result;
}

template <class T>
Json or_null(const std::optional<T>& value) {
    return value ? Json(*value) : Json(nullptr);
}

Json day_or_null(const std::optional<Day>& day) { return day ? Json(to_text(*day)) : Json(nullptr); }

Json bays(const TankToday& tank) {
    Json list = Json::array();
    for (std::size_t i = 0; i < tank.state.bays.size(); ++i) {
        const BayState& bay = tank.state.bays[i];
        list.push_back({{"bay", tank.tank.record->bays[i].name},
                        {"stage", stage_word(bay.stage)},
                        {"because", bay.stage_because},
                        {"days_since_filling", or_null(bay.days_since_filling)},
                        {"days_since_feed", or_null(bay.days_since_feed)},
                        {"days_since_worms", or_null(bay.days_since_worms)},
                        {"worms_kg", figure(bay.worms)},
                        {"feed_kg_per_day", figure(bay.feed_per_day)},
                        {"temperature_c", figure(bay.temperature)},
                        {"worms_from", day_or_null(bay.worms_from)},
                        {"harvest_from", day_or_null(bay.harvest_from)},
                        {"harvest_until", day_or_null(bay.harvest_until)}});
    }
    return list;
}

Json causes(const RuleBase& base, const TankToday& tank) {
    Json list = Json::array();
    for (const FoundCause& found : tank.causes)
        list.push_back({{"bay", tank.tank.record->bays[found.bay].name},
                        {"id", base.causes[found.cause].id},
                        {"name", base.causes[found.cause].name},
                        {"chance", found.chance},
                        {"words", likelihood_words(found.chance)},
                        {"brings", id_list<Json>(base.causes, found.brings)}});
    return list;
}

Json due(const RuleBase& base, const TankToday& tank) {
    Json list = Json::array();
    for (const DueWork& work : tank.due)
        list.push_back({{"bay", tank.tank.record->bays[work.bay].name},
                        {"when", to_word(work.pressing)},
                        {"text", work.say},
                        {"work", work.work},
                        {"because", text_or_null<Json>(work.because)},
                        {"check_first", text_or_null<Json>(work.check_first)},
                        {"from", to_text(work.from)},
                        {"until", to_text(work.until)},
                        {"step", work.step ? Json(base.steps[*work.step].id) : Json(nullptr)},
                        {"cautions", id_list<Json>(base.cautions, work.cautions)},
                        {"sources", work.sources}});
    return list;
}

Json mistakes(const TankToday& tank) {
    Json list = Json::array();
    for (const Complaint& complaint : tank.tank.complaints)
        list.push_back({{"file", complaint.place.file},
                        {"line", complaint.place.line},
                        {"column", complaint.place.column},
                        {"text", complaint.text},
                        {"hint", text_or_null<Json>(complaint.hint)}});
    return list;
}

Json cautions(const RuleBase& base, const Round& round) {
    Json list = Json::array();
    for (const auto handle : round.cautions) {
        const Caution& caution = base.cautions[handle];
        Json tanks = Json::array();
        for (const TankToday& tank : round.tanks) {
            const auto called_for = cautions_of(tank);
            if (std::ranges::find(called_for, handle) != called_for.end()) tanks.push_back(tank.tank.file);
        }
        list.push_back({{"id", caution.id},
                        {"level", to_word(caution.level)},
                        {"name", caution.name},
                        {"text", caution.say},
                        {"tanks", tanks}});
    }
    return list;
}

Json capacity(const Capacity& sum) {
    return {{"load", to_word(sum.load)},
            {"in_short", in_short(sum)},
            {"given_kg_per_day", bounds<Json>(sum.given)},
            {"over_days", sum.over_days},
            {"stated_kg_per_day", or_null(sum.stated)},
            {"can_take_kg_per_day", bounds<Json>(sum.can_take)},
            {"floor_m2", sum.floor},
            {"working_floor_m2", bounds<Json>(sum.working_floor)},
            {"by_floor_kg_per_day", bounds<Json>(sum.by_floor)},
            {"worms_kg", bounds<Json>(sum.worms)},
            {"by_worms_kg_per_day", bounds<Json>(sum.by_worms)},
            {"rests_first", sum.rests_first},
            {"bays_without_floor", sum.without_floor},
            {"how", in_full(sum)}};
}

}  // namespace

std::string render_round_json(const RuleBase& base, const Round& round) {
    Json tanks = Json::array();
    for (const TankToday& tank : round.tanks)
        tanks.push_back({{"file", tank.tank.file},
                         {"name", name_of(tank)},
                         {"urgency", to_word(tank.urgency)},
                         {"emergency", tank.emergency},
                         {"ahead", tank.ahead},
                         {"mistakes", mistakes(tank)},
                         {"dangers", id_list<Json>(base.cautions, tank.dangers)},
                         {"bays", bays(tank)},
                         {"causes", causes(base, tank)},
                         {"due", due(base, tank)}});
    const Json document = {{"rule_base", {{"name", base.name}, {"version", base.version}}},
                           {"site",
                            {{"name", text_or_null<Json>(round.site.name)},
                             {"households", or_null(round.site.households)},
                             {"note", text_or_null<Json>(round.site.note)}}},
                           {"on", to_text(round.today)},
                           {"cautions", cautions(base, round)},
                           {"tanks", tanks},
                           {"capacity", capacity(round.capacity)}};
    return dumped(document);
}

}  // namespace lidlift::cli
