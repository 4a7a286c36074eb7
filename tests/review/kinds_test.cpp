// Every kind of finding has a rule file that shows it and one that does not.
#include "engine/review/kinds.hpp"

#include "tests/engine/short_rules.hpp"
#include "tests/review/review_files.hpp"

#include <filesystem>
#include <set>

namespace review_kinds_test {

using namespace lidlift;
using namespace lidlift::test;

namespace {

/// Kinds that no rule file alone can show.
bool needs_recorded_cases(const ReviewKind& kind) { return kind.id == "case_ranks_differently"; }

}  // namespace

TEST_CASE("every kind of finding has a bad file that shows it and a good one that does not", "[review][kinds]") {
    for (const ReviewKind& kind : review_kinds()) {
        if (needs_recorded_cases(kind)) continue;
        const std::string id(kind.id);
        CAPTURE(id);
        CHECK(std::filesystem::exists(review_file("bad_" + id)));
        CHECK(std::filesystem::exists(review_file("good_" + id)));
        if (!std::filesystem::exists(review_file("bad_" + id)) || !std::filesystem::exists(review_file("good_" + id))) continue;
        const auto bad = of_kind(findings_in("bad_" + id), id);
        CHECK_FALSE(bad.empty());
        for (const ReviewFinding& finding : bad) {
            CHECK(finding.level == kind.level);
            CHECK_FALSE(finding.text.empty());
            if (id != "not_decided" && id != "too_many_expected") CHECK(finding.place.line > 0);
            if (id != "cannot_be_read" && id != "circle" && id != "points_infeasible") CHECK_FALSE(finding.mend.empty());
        }
        const bool reads = id != "cannot_be_read" && id != "circle" && id != "points_infeasible";
        CHECK(read_review_file("bad_" + id).complaints.empty() == reads);
        CHECK(read_review_file("good_" + id).complaints.empty());
        CHECK(of_kind(findings_in("good_" + id), id).empty());
    }
}

TEST_CASE("no file of the folder is left unread", "[review][kinds]") {
    std::set<std::string> known;
    for (const ReviewKind& kind : review_kinds()) {
        known.insert("bad_" + std::string(kind.id));
        known.insert("good_" + std::string(kind.id));
    }
    for (const auto& entry : std::filesystem::directory_iterator(std::string(LIDLIFT_TESTS_FOLDER) + "/review")) {
        if (entry.path().extension() != ".yaml") continue;
        CAPTURE(entry.path().string());
        CHECK(known.count(entry.path().stem().string()) == 1);
    }
}

TEST_CASE("kinds have names of their own and say what they are and why they matter", "[review][kinds]") {
    std::set<std::string_view> ids;
    std::set<int> numbers;
    for (const ReviewKind& kind : review_kinds()) {
        CAPTURE(std::string(kind.id));
        CHECK(ids.insert(kind.id).second);
        CHECK(find_review_kind(kind.id) == &kind);
        numbers.insert(kind.number);
        CHECK(kind.title.size() > 10);
        CHECK(kind.title.back() != '.');
        CHECK(kind.why.back() == '.');
    }
    for (int number = 1; number <= 21; ++number) CHECK(numbers.count(number) == 1);
    CHECK(find_review_kind("no_such_kind") == nullptr);
}

TEST_CASE("every witness of the files can be typed and is understood", "[review][witness]") {
    int witnesses = 0;
    for (const ReviewKind& kind : review_kinds()) {
        if (needs_recorded_cases(kind)) continue;
        const std::string name = "bad_" + std::string(kind.id);
        if (!std::filesystem::exists(review_file(name))) continue;  // the first test of this file tells of it
        const RuleBaseReading reading = read_review_file(name);
        if (!reading.complaints.empty()) continue;
        for (const ReviewFinding& finding : review(reading.rule_base)) {
            CAPTURE(name, finding.text);
            if (finding.witness.empty()) continue;
            ++witnesses;
            CHECK_NOTHROW(told_in(reading.rule_base, typed(finding)));
        }
    }
    CHECK(witnesses >= 8);
}

}  // namespace review_kinds_test
