#include "engine/trial_score.hpp"

#include <algorithm>
#include <limits>
#include <map>
#include <tuple>

namespace lidlift {
namespace {

void add_named(std::vector<NamedScore>& scores, const std::string& name, const Tried& tried) {
    auto found = std::ranges::find(scores, name, &NamedScore::name);
    if (found == scores.end()) found = scores.insert(scores.end(), {name, {}});
    found->score.add(tried);
}

double chance_of_first(const TrialResult& result) { return result.causes.empty() ? 0 : result.causes.front().chance; }

}  // namespace

void Score::add(const Tried& tried) {
    const TrialResult& result = *tried.result;
    ++cases;
    failed += result.passed() ? 0 : 1;
    if (tried.written->asks_about_causes()) {
        ++asked;
        first += result.first_is_right() ? 1 : 0;
        acceptable += result.first == First::acceptable ? 1 : 0;
        among_three += result.among_first(nearly_first) ? 1 : 0;
    }
    advised_against += result.advised_against.empty() ? 0 : 1;
    cautions_missing += result.not_said.empty() ? 0 : 1;
    steps_missing += result.not_advised.empty() ? 0 : 1;
}

Scores score(std::span<const Tried> tried) {
    Scores scores;
    for (const std::string& origin : written_from_words()) scores.by_origin.push_back({origin, {}});
    for (const Tried& one : tried) {
        scores.all.add(one);
        scores.by_origin[static_cast<std::size_t>(one.written->written_from)].score.add(one);
        add_named(scores.by_file, one.written->place.file, one);
    }
    std::erase_if(scores.by_origin, [](const NamedScore& named) { return named.score.cases == 0; });
    return scores;
}

Coverage coverage(const RuleBase& rule_base, std::span<const Tried> tried) {
    std::map<std::string, int> expected;
    std::map<std::string, int> heard;
    for (const Tried& one : tried) {
        for (const WrittenName& name : one.written->expect) ++expected[name.text];
        for (const std::string& caution : one.result->cautions) ++heard[caution];
    }
    Coverage result;
    result.causes = rule_base.causes.size();
    result.cautions = rule_base.cautions.size();
    for (const Cause& cause : rule_base.causes) {
        const int times = expected[cause.id];
        if (times == 0) result.causes_without.push_back(cause.id);
        if (times == 1) result.causes_with_one.push_back(cause.id);
    }
    for (const Caution& caution : rule_base.cautions)
        if (heard[caution.id] == 0) result.cautions_not_heard.push_back(caution.id);
    return result;
}

std::vector<Tried> misses(std::span<const Tried> tried) {
    std::vector<Tried> result;
    std::ranges::copy_if(tried, std::back_inserter(result), [](const Tried& one) { return !one.result->passed(); });
    std::ranges::stable_sort(result, std::greater{}, [](const Tried& one) {
        const TrialResult& r = *one.result;
        const bool wrong = r.first == First::wrong;
        const std::size_t depth = !wrong ? 0 : r.place == 0 ? std::numeric_limits<std::size_t>::max() : r.place;
        return std::tuple(r.advised_against.size(), r.not_said.size(), depth,
                          wrong ? chance_of_first(r) - r.expected_chance : 0.0, r.not_advised.size());
    });
    return result;
}

}  // namespace lidlift
