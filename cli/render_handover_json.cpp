#include "cli/json_parts.hpp"
#include "cli/render_handover.hpp"
#include "cli/render_json.hpp"

#include <nlohmann/json.hpp>

namespace lidlift::cli {
namespace {

using Json = nlohmann::ordered_json;

const char* call_stage_word(CallStage stage) {
    switch (stage) {
        case CallStage::asking:
            return "asking";
        case CallStage::advised:
            return "advised";
        case CallStage::follow_up:
            return "follow up";
        case CallStage::closed:
            break;
    }
    return "closed";
}

Json moment_or_null(const std::optional<Moment>& moment) { return moment ? Json(to_text(*moment)) : Json(nullptr); }

Json own_words(const CallSummary& call) {
    Json list = Json::array();
    for (const OwnWords& own : call.own_words)
        list.push_back({{"when", to_text(own.when)}, {"words", own.words}, {"news", own.news}});
    return list;
}

Json confirmed_cause(const CallSummary& call) {
    if (!call.confirmed) return nullptr;
    const auto& how = call.confirmed->how;
    return {{"causes", call.confirmed->causes},
            {"how", how ? Json(how_words()[static_cast<std::size_t>(*how)]) : Json(nullptr)}};
}

Json since_the_advice(const CallSummary& call) {
    if (!call.since) return nullptr;
    const SinceTheAdvice& since = *call.since;
    const auto cause = [](const std::string& id) { return id.empty() ? Json(nullptr) : Json(id); };
    return {{"told_since", call.told_since},      {"first_then", cause(since.first_then)},
            {"first_now", cause(call.first_now)}, {"steps_gone", since.steps_gone},
            {"steps_new", since.steps_new},       {"cautions_gone", since.cautions_gone},
            {"cautions_new", since.cautions_new}};
}

}  // namespace

std::string render_handover_json(const RuleBase& rule_base, const CallSummary& call) {
    Json whole;
    whole["call"] = {{"begun", to_text(call.begun)},
                     {"last", to_text(call.last)},
                     {"stage", call_stage_word(call.stage)},
                     {"advised", moment_or_null(call.advised)},
                     {"done", call.done ? Json(done_words()[static_cast<std::size_t>(*call.done)]) : Json(nullptr)},
                     {"helped", call.helped ? Json(helped_words()[static_cast<std::size_t>(*call.helped)]) : Json(nullptr)},
                     {"confirmed", confirmed_cause(call)},
                     {"look_again", moment_or_null(call.look_again)},
                     {"recorded_under", {{"name", call.rule_base}, {"version", call.version}, {"other", call.other_rules}}},
                     {"since_the_advice", since_the_advice(call)},
                     {"own_words", own_words(call)},
                     {"not_usable", call.misfits},
                     {"tank_record", call.tank.empty() ? Json(nullptr) : Json(call.tank)},
                     {"tank_read", call.diagnosis.tank.has_value()}};
    // What the rule base makes of it is said as everywhere else, cautions before steps.
    const Json advice = Json::parse(render_json(rule_base, call.diagnosis));
    for (const auto& [key, value] : advice.items()) whole[key] = value;
    return dumped(whole);
}

}  // namespace lidlift::cli
