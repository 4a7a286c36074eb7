// Many tried cases together: the counts, what is left untried, and the order of the misses.
#include "engine/trial_score.hpp"

#include "tests/catch.hpp"
#include "tests/engine/small_cases.hpp"

#include <list>
#include <string>
#include <vector>

namespace engine_trial_score_test {

using namespace lidlift;
using namespace lidlift::test;

namespace {

/// Cases and results made by hand; they stay where they are while others are added.
class Made {
public:
    struct Entry {
        WrittenCase written;
        TrialResult result;
    };

    Entry& add(const std::string& id, const std::string& file = "a.yaml", WrittenFrom from = WrittenFrom::trade) {
        Entry& entry = entries_.emplace_back();
        entry.written.id = id;
        entry.written.place = {file, 1, 1};
        entry.written.written_from = from;
        return entry;
    }
    /// A case that expects `cause`, which has the place `place`.
    Entry& expecting(const std::string& id, const std::string& cause, std::size_t place, double chance = 0.1) {
        Entry& entry = add(id);
        entry.written.expect = {{cause, {}}};
        entry.result.place = place;
        entry.result.first = place == 1 ? First::expected : First::wrong;
        entry.result.causes = {{"winner", 0.5}};
        entry.result.expected_chance = chance;
        return entry;
    }
    [[nodiscard]] std::vector<Tried> tried() const {
        std::vector<Tried> list;
        for (const Entry& entry : entries_) list.push_back({&entry.written, &entry.result});
        return list;
    }
    [[nodiscard]] std::vector<std::string> missed() const {
        std::vector<std::string> ids;
        const auto all = tried();
        for (const Tried& one : misses(all)) ids.push_back(one.written->id);
        return ids;
    }

private:
    std::list<Entry> entries_;
};

}  // namespace

TEST_CASE("the score counts what is asked, and only that", "[trial_score]") {
    Made made;
    made.expecting("first", "x", 1);
    made.expecting("third", "x", 3);
    made.expecting("fourth", "x", 4);
    made.expecting("nowhere", "x", 0);
    made.expecting("acceptable", "x", 7).result.first = First::acceptable;
    made.add("not_asked", "b.yaml", WrittenFrom::recorded_call).result.not_said = {"K01", "K02"};
    made.add("none", "b.yaml").written.nothing_listed = true;  // not asked by its result, so neither right nor placed
    made.expecting("limed", "x", 1).result.advised_against = {{"s", "lime"}, {"t", "lime"}};
    made.expecting("undone", "x", 1).result.not_advised = {"open"};
    const auto tried = made.tried();
    const Scores scores = score(tried);
    CHECK(scores.all.cases == 9);
    CHECK(scores.all.asked == 8);
    CHECK(scores.all.first == 4);
    CHECK(scores.all.acceptable == 1);
    CHECK(scores.all.among_three == 5);
    CHECK(scores.all.advised_against == 1);
    CHECK(scores.all.cautions_missing == 1);
    CHECK(scores.all.steps_missing == 1);
    CHECK(scores.all.failed == 6);
    REQUIRE(scores.by_file.size() == 2);
    CHECK(scores.by_file[0].name == "a.yaml");
    CHECK(scores.by_file[0].score.cases == 7);
    CHECK(scores.by_file[1].score.cautions_missing == 1);
    REQUIRE(scores.by_origin.size() == 2);
    CHECK(scores.by_origin[0].name == "the trade");
    CHECK(scores.by_origin[1].name == "a recorded call");
    CHECK(scores.by_origin[1].score.cases == 1);
}

TEST_CASE("misses stand worst first: dangers, then how far down, then the lead, then steps", "[trial_score]") {
    Made made;
    made.expecting("right", "x", 1);
    made.expecting("undone", "x", 1).result.not_advised = {"open"};
    made.expecting("second_close", "x", 2, 0.4);
    made.expecting("second_far", "x", 2, 0.1);
    made.expecting("ninth", "x", 9);
    made.expecting("nowhere", "x", 0);
    made.expecting("unsaid", "x", 1).result.not_said = {"K01"};
    made.expecting("limed", "x", 1).result.advised_against = {{"s", "lime"}};
    made.expecting("limed_and_wrong", "x", 5).result.advised_against = {{"s", "lime"}};
    CHECK(made.missed() == std::vector<std::string>{"limed_and_wrong", "limed", "unsaid", "nowhere", "ninth", "second_far",
                                                    "second_close", "undone"});
}

TEST_CASE("equal misses keep the order of the files", "[trial_score]") {
    Made made;
    for (const std::string id : {"d", "b", "c", "a"}) made.expecting(id, "x", 2);
    CHECK(made.missed() == std::vector<std::string>{"d", "b", "c", "a"});
}

TEST_CASE("coverage names causes that no case or one case expects, and cautions never heard", "[trial_score]") {
    Made made;
    made.expecting("one", "blocked", 1).result.cautions = {"K01"};
    made.expecting("two", "blocked", 4).result.cautions = {"K01", "K03"};
    made.expecting("three", "airless", 1);
    made.add("four").written.acceptable = {{"dry", {}}};  // acceptable is not expected
    const auto tried = made.tried();
    const Coverage covered = coverage(small_base(), tried);
    CHECK(covered.causes == 3);
    CHECK(covered.causes_without == std::vector<std::string>{"dry"});
    CHECK(covered.causes_with_one == std::vector<std::string>{"airless"});
    CHECK(covered.cautions == 3);
    CHECK(covered.cautions_not_heard == std::vector<std::string>{"K02"});
}

}  // namespace engine_trial_score_test
