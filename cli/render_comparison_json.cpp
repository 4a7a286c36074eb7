#include "cli/json_parts.hpp"
#include "cli/render_comparison.hpp"
#include "cli/verdict_word.hpp"

#include <nlohmann/json.hpp>

namespace lidlift::cli {
namespace {

using Json = nlohmann::ordered_json;

const char* how_word(EntryChange::How how) {
    switch (how) {
        case EntryChange::How::added:
            return "added";
        case EntryChange::How::removed:
            return "removed";
        case EntryChange::How::changed:
            return "changed";
    }
    return "";
}

Json side(const TrialResult& result) {
    return {{"passed", result.passed()},
            {"first", result.causes.empty() ? Json(nullptr) : Json(result.causes.front().id)},
            {"first_chance", result.causes.empty() ? Json(nullptr) : Json(result.causes.front().chance)},
            {"verdict", verdict_word(result.verdict)}};
}

Json complaints(const std::vector<Complaint>& list) {
    Json texts = Json::array();
    for (const Complaint& complaint : list) texts.push_back(to_text(complaint));
    return texts;
}

Json place(std::size_t place) { return place == 0 ? Json(nullptr) : Json(place); }

Json in_json(const ComparedCase& compared) {
    Json moved = Json::array();
    for (const Moved& cause : compared.moved)
        moved.push_back({{"id", cause.cause},
                         {"place_before", place(cause.before)},
                         {"place_after", place(cause.after)},
                         {"chance_before", cause.chance_before},
                         {"chance_after", cause.chance_after}});
    return {{"id", compared.written->id},
            {"file", compared.written->place.file},
            {"line", compared.written->place.line},
            {"worse", compared.worse()},
            {"before", side(compared.before)},
            {"after", side(compared.after)},
            {"cautions_lost", compared.cautions_lost},
            {"cautions_come", compared.cautions_gained},
            {"steps_gone", compared.steps_gone},
            {"steps_come", compared.steps_come},
            {"moved", moved},
            {"not_read_before", complaints(compared.unread_before)},
            {"not_read_after", complaints(compared.unread_after)},
            {"not_compared", compared.not_compared}};
}

Json in_json(const Score& score) {
    return {{"passed", score.cases - score.failed},
            {"ask_for_a_cause", score.asked},
            {"first_right", score.first},
            {"among_first_three", score.among_three}};
}

Json rule_base(const RuleBase& base) { return {{"name", base.name}, {"version", base.version}}; }

}  // namespace

std::string render_comparison_json(const RuleBase& before, const RuleBase& after, const ComparisonReport& report) {
    Json entries = Json::array();
    for (const EntryChange& change : report.entries)
        entries.push_back({{"section", change.section},
                           {"id", change.id.empty() ? Json(nullptr) : Json(change.id)},
                           {"how", how_word(change.how)}});
    Json changed = Json::array();
    for (const ComparedCase* compared : by_importance(before, report.cases)) changed.push_back(in_json(*compared));
    const Json document = {{"old", rule_base(before)},
                           {"new", rule_base(after)},
                           {"got_worse", report.got_worse()},
                           {"entries", entries},
                           {"cases", report.cases.size()},
                           {"unchanged", report.unchanged()},
                           {"before", in_json(report.score_before())},
                           {"after", in_json(report.score_after())},
                           {"changed", changed}};
    return dumped(document);
}

}  // namespace lidlift::cli
