#include "cli/json_parts.hpp"
#include "cli/render_trial.hpp"
#include "cli/verdict_word.hpp"

#include <algorithm>

#include <nlohmann/json.hpp>

namespace lidlift::cli {
namespace {

using Json = nlohmann::ordered_json;

constexpr std::size_t most_causes_told = 5;

Json in_json(const Score& score) {
    return {{"cases", score.cases},
            {"failed", score.failed},
            {"ask_for_a_cause", score.asked},
            {"first_right", score.first},
            {"first_only_acceptable", score.acceptable},
            {"among_first_three", score.among_three},
            {"advised_against", score.advised_against},
            {"cautions_missing", score.cautions_missing},
            {"steps_missing", score.steps_missing}};
}

Json in_json(const std::vector<NamedScore>& scores) {
    Json list = Json::array();
    for (const NamedScore& named : scores) {
        Json entry = {{"name", named.name}};
        entry.update(in_json(named.score));
        list.push_back(std::move(entry));
    }
    return list;
}

const char* first_word(First first) {
    switch (first) {
        case First::not_asked:
            return "not asked";
        case First::expected:
            return "expected";
        case First::acceptable:
            return "acceptable";
        case First::wrong:
            return "wrong";
    }
    return "";
}

Json in_json(const Tried& tried) {
    const WrittenCase& written = *tried.written;
    const TrialResult& result = *tried.result;
    Json causes = Json::array();
    for (std::size_t i = 0; i < std::min(most_causes_told, result.causes.size()); ++i)
        causes.push_back({{"id", result.causes[i].id}, {"chance", result.causes[i].chance}});
    Json contrast = Json::array();
    for (const ContrastLine& line : result.contrast)
        contrast.push_back({{"text", line.text}, {"expected", line.expected}, {"winner", line.winner}});
    Json against = Json::array();
    for (const AdvisedAgainst& item : result.advised_against) against.push_back({{"step", item.step}, {"never", item.never}});
    const bool named = written.asks_about_causes() && !written.nothing_listed;
    return {{"id", written.id},
            {"file", written.place.file},
            {"line", written.place.line},
            {"story", written.story},
            {"written_from", written_from_words()[static_cast<std::size_t>(written.written_from)]},
            {"passed", result.passed()},
            {"first", first_word(result.first)},
            {"expected", named ? Json(result.expected) : Json(nullptr)},
            {"place", result.place > 0 ? Json(result.place) : Json(nullptr)},
            {"expected_chance", written.asks_about_causes() ? Json(result.expected_chance) : Json(nullptr)},
            {"told", result.told},
            {"not_understood", result.not_understood},
            {"verdict", verdict_word(result.verdict)},
            {"causes", causes},
            {"nothing_listed", result.nothing_listed},
            {"cautions", result.cautions},
            {"steps", result.steps},
            {"contrast", contrast},
            {"advised_against", against},
            {"cautions_missing", result.not_said},
            {"steps_missing", result.not_advised}};
}

Json share(const std::optional<double>& wanted) { return wanted ? Json(*wanted) : Json(nullptr); }

}  // namespace

std::string render_trial_json(const RuleBase& rule_base, const TrialReport& report) {
    Json cases = Json::array();
    for (const Tried& tried : report.tried) cases.push_back(in_json(tried));
    Json worst_first = Json::array();
    for (const Tried& tried : misses(report.tried)) worst_first.push_back(tried.written->id);
    const Coverage& coverage = report.coverage;
    const Json document = {
        {"rule_base", {{"name", rule_base.name}, {"version", rule_base.version}}},
        {"good", report.good()},
        {"wanted_per_cent", {{"first", share(report.wanted.first)}, {"among_three", share(report.wanted.among_three)}}},
        {"all", in_json(report.scores.all)},
        {"by_written_from", in_json(report.scores.by_origin)},
        {"by_file", in_json(report.scores.by_file)},
        {"misses", worst_first},
        {"cases", cases},
        {"coverage",
         {{"causes", coverage.causes},
          {"causes_without_case", coverage.causes_without},
          {"causes_with_one_case", coverage.causes_with_one},
          {"cautions", coverage.cautions},
          {"cautions_never_read_out", coverage.cautions_not_heard}}}};
    return dumped(document);
}

}  // namespace lidlift::cli
