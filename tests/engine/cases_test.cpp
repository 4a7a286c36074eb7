// Case files: every key of rules/CASES.md, and the limits.
#include "engine/cases.hpp"

#include "tests/catch.hpp"
#include "tests/engine/small_cases.hpp"

#include <fstream>
#include <iterator>
#include <string>
#include <vector>

namespace engine_cases_test {

using namespace lidlift;
using namespace lidlift::test;

namespace {

std::vector<std::string> texts(const std::vector<WrittenName>& names) {
    std::vector<std::string> result;
    for (const WrittenName& name : names) result.push_back(name.text);
    return result;
}

using Names = std::vector<std::string>;

/// `count` sound cases, numbered from `first`.
RuleText many_cases(std::size_t first, std::size_t count) {
    std::vector<std::string> cases;
    for (std::size_t i = first; i < first + count; ++i)
        cases.push_back("c" + std::to_string(i) + ": {words: w, nothing_listed: yes}");
    return {std::to_string(first) + ".yaml", case_file(cases)};
}

/// Complaints of reading alone that speak of how many there are.
std::string about_numbers(const std::vector<RuleText>& files) {
    Complaints complaints;
    (void)read_cases(files, complaints);
    std::string text;
    for (const Complaint& complaint : complaints.sorted())
        if (complaint.text.find("more than") != std::string::npos || complaint.text.find("larger than") != std::string::npos)
            text += to_text(complaint) + "\n";
    return text;
}

}  // namespace

TEST_CASE("every key of a case is read", "[cases]") {
    const auto cases = written_cases(
        "cases:\n"
        "  wet_one:\n"
        "    story: It is wet.\n"
        "    told: {wet: yes, smell: {is: strong, sure: guess}}\n"
        "    words: it is soaking wet\n"
        "    expect: blocked\n"
        "    acceptable: [airless]\n"
        "    must say: [K01, K02]\n"
        "    must advise: open\n"
        "    never advise: [lime, ph up, loosen]\n"
        "    written from: published guidance\n"
        "    sources: [from_memory]\n"
        "  other: {story: S, words: soaking wet, nothing_listed: yes, written from: a recorded call, sources: "
        "common_practice}\n");
    REQUIRE(cases.size() == 2);
    const WrittenCase& one = cases.front();
    CHECK(one.id == "wet_one");
    CHECK(to_text(one.place) == "cases.yaml:2:3");
    CHECK(one.story == "It is wet.");
    CHECK(one.words == "it is soaking wet");
    CHECK(texts(one.expect) == Names{"blocked"});
    CHECK(texts(one.acceptable) == Names{"airless"});
    CHECK(texts(one.must_say) == Names{"K01", "K02"});
    CHECK(texts(one.must_advise) == Names{"open"});
    CHECK(texts(one.never_advise) == Names{"lime", "ph up", "loosen"});
    CHECK(one.written_from == WrittenFrom::published_guidance);
    CHECK(texts(one.sources) == Names{"from_memory"});
    CHECK_FALSE(one.nothing_listed);
    CHECK(one.asks_about_causes());
    CHECK(cases[1].nothing_listed);
    CHECK(cases[1].asks_about_causes());
    CHECK(cases[1].written_from == WrittenFrom::recorded_call);

    const Case resolved = resolved_case(small_base(), one);
    CHECK(resolved.unread.empty());
    CHECK(resolved.told.order.size() == 2);
    CHECK(resolved.told.facts.find(small_base().signs.find("smell").value())->sureness == Sureness::guess);
    CHECK(resolved.expect.at(0).handle == small_base().causes.find("blocked"));
    CHECK(resolved.must_say.at(1).handle == small_base().cautions.find("K02"));
    CHECK(resolved.must_advise.at(0).handle == small_base().steps.find("open"));
    REQUIRE(resolved.never_advise.size() == 3);
    CHECK(std::get<StepKind>(resolved.never_advise[0].group) == StepKind::lime);
    CHECK(std::get<Push>(resolved.never_advise[1].group) == Push{Pushed::ph, true});
    CHECK(std::get<Handle<Step>>(resolved.never_advise[2].group) == small_base().steps.find("loosen").value());
}

TEST_CASE("what is told counts for more than the caller's words", "[cases]") {
    const auto cases = written_cases(case_file({"only_words: {words: it is soaking wet, expect: blocked}",
                                                "denied: {told: {wet: no}, words: it is soaking wet, expect: dry}",
                                                "unheard: {words: the moon is full tonight, expect: dry}"}));
    const auto wet = small_base().signs.find("wet").value();
    CHECK(resolved_case(small_base(), cases[0]).told.facts.find(wet)->possible == answer_set(0));
    const Case denied = resolved_case(small_base(), cases[1]);
    CHECK(denied.told.facts.find(wet)->possible == answer_set(1));
    CHECK(denied.not_understood.size() == 1);
    const Case unheard = resolved_case(small_base(), cases[2]);
    CHECK(unheard.told.order.empty());
    CHECK(unheard.not_understood.size() == 1);
}

TEST_CASE("what a rule base does not know leaves the rest of the case as it is", "[cases]") {
    const auto cases = written_cases(
        case_file({"half: {told: {wet: yes, colour: red}, expect: [rusty, blocked], never advise: [paint_it, lime]}"}));
    Complaints complaints;
    const Case resolved = CaseResolver(small_base()).resolve(cases.front(), complaints);
    CHECK(resolved.unread == Names{"colour"});
    CHECK(resolved.told.order.size() == 1);
    CHECK_FALSE(resolved.expect.at(0).handle.has_value());
    CHECK(resolved.expect.at(1).handle.has_value());
    CHECK(resolved.never_advise.size() == 1);
    CHECK(complaints.sorted().size() == 3);
}

TEST_CASE("a file of cases without any is no mistake of its own", "[cases]") { CHECK(written_cases("cases: {}\n").empty()); }

TEST_CASE("10000 cases are read, one more is refused", "[cases][limits]") {
    // Several files, since one may hold 100000 nodes.
    std::vector<RuleText> files;
    for (std::size_t first = 0; first < most_cases; first += 2500) files.push_back(many_cases(first, 2500));
    CHECK(about_numbers(files) == "");
    files.push_back(many_cases(most_cases, 2));
    CHECK(about_numbers(files) == "10000.yaml:2:3: more than 10000 cases cannot be tried in one go\n");
}

TEST_CASE("a list of a case holds 100 names, not one more", "[cases][limits]") {
    const auto list = [](std::size_t count) {
        std::string text = case_file({"c: {told: {wet: yes}, expect: ["});
        text.pop_back();
        for (std::size_t i = 0; i < count; ++i) text += (i == 0 ? "n" : ", n") + std::to_string(i);
        return text + "]}\n";
    };
    CHECK(written_cases(list(most_names)).at(0).expect.size() == most_names);
    CHECK(about_numbers({{"a.yaml", list(most_names + 1)}}).find("'expect' holds more than 100 names") != std::string::npos);
}

TEST_CASE("case files of 8 MiB together are read, one byte more is refused", "[cases][limits]") {
    const auto padded = [](std::size_t bytes) {
        const std::string cases = "cases: {}\n";
        return cases + "#" + std::string(bytes - cases.size() - 2, 'x') + "\n";
    };
    std::vector<RuleText> files;
    for (int i = 0; i < 8; ++i) files.push_back({std::to_string(i) + ".yaml", padded(1024 * 1024)});
    CHECK(about_numbers(files) == "");
    files.push_back({"9.yaml", "#"});
    CHECK(about_numbers(files) == "9.yaml: the case files together are larger than 8 MiB\n");
}

TEST_CASE("the sample cases of the tests are sound", "[cases]") {
    std::ifstream stream(LIDLIFT_TESTS_FOLDER "/cases_small.yaml", std::ios::binary);
    const std::string text{std::istreambuf_iterator<char>(stream), {}};
    CHECK(case_complaints(default_base(), {{"cases_small.yaml", text}}) == "");
    CHECK(written_cases(text).size() == 5);
}

}  // namespace engine_cases_test
