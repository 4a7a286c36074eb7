// The recorded cases that ship with the program: written from published guidance and from the trade, each with its sources,
// before anyone saw how the program ranks them.
#include "engine/trial_score.hpp"
#include "rules/default_cases.hpp"
#include "tests/catch.hpp"
#include "tests/engine/short_rules.hpp"

#include <deque>
#include <map>
#include <string>
#include <vector>

namespace published_shipped_cases_test {

using namespace lidlift;
using namespace lidlift::test;

namespace {

/// All shipped cases, tried once under the default rules.
struct Shipped {
    std::vector<WrittenCase> cases;
    std::deque<TrialResult> results;
    std::vector<Tried> tried;
};

const Shipped& shipped() {
    static const Shipped all = [] {
        Shipped result;
        Complaints complaints;
        result.cases = read_cases(default_cases(), complaints);
        CaseResolver resolver(default_base());
        const Ranker ranker(default_base());
        for (const WrittenCase& written : result.cases)
            result.results.push_back(try_case(ranker, written, resolver.resolve(written, complaints)));
        for (const Complaint& complaint : complaints.sorted()) UNSCOPED_INFO(to_text(complaint));
        REQUIRE(complaints.empty());
        for (std::size_t i = 0; i < result.cases.size(); ++i) result.tried.push_back({&result.cases[i], &result.results[i]});
        return result;
    }();
    return all;
}

std::string list(const std::vector<std::string>& items) {
    std::string text;
    for (const std::string& item : items) text += (text.empty() ? "" : " ") + item;
    return text;
}

}  // namespace

TEST_CASE("the shipped cases come out right, and nothing is advised that must never be", "[published][cases]") {
    const Scores scores = score(shipped().tried);
    for (const Tried& miss : misses(shipped().tried))
        UNSCOPED_INFO(miss.written->id << ": expected " << miss.result->expected << " at place " << miss.result->place);
    CHECK(scores.all.cases >= 150);
    CHECK(100 * scores.all.first >= 85 * scores.all.asked);
    CHECK(100 * scores.all.among_three >= 97 * scores.all.asked);
    CHECK(scores.all.advised_against == 0);
    CHECK(scores.all.cautions_missing == 0);
}

TEST_CASE("the shipped cases expect every cause twice and hear every caution", "[published][cases]") {
    const Coverage covered = coverage(default_base(), shipped().tried);
    CHECK(list(covered.causes_without) == "");
    CHECK(list(covered.causes_with_one) == "");
    CHECK(list(covered.cautions_not_heard) == "");
}

TEST_CASE("every cause comes first in some shipped case that expects it", "[published][cases]") {
    std::map<std::string, bool> comes_first;
    for (const Cause& cause : default_base().causes) comes_first[cause.id] = false;
    for (const Tried& tried : shipped().tried)
        if (tried.result->first == First::expected && !tried.result->causes.empty())
            comes_first[tried.result->causes.front().id] = true;
    for (const auto& [cause, first] : comes_first) {
        INFO(cause);
        CHECK(first);
    }
}

TEST_CASE("every shipped case says where it comes from", "[published][cases]") {
    for (const WrittenCase& written : shipped().cases) {
        INFO(written.id);
        CHECK_FALSE(written.story.empty());
        CHECK_FALSE(written.sources.empty());
        if (written.written_from == WrittenFrom::published_guidance)
            CHECK(std::ranges::any_of(written.sources, [](const WrittenName& source) {
                return source.text != "common_practice" && source.text != "from_memory";
            }));
    }
}

}  // namespace published_shipped_cases_test
