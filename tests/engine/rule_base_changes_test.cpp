// Entries added, removed and changed between two rule bases.
#include "engine/rule_base_changes.hpp"

#include "tests/catch.hpp"
#include "tests/engine/small_cases.hpp"

#include <string>
#include <vector>

namespace engine_rule_base_changes_test {

using namespace lidlift;
using namespace lidlift::test;

namespace {

using How = EntryChange::How;
using Changes = std::vector<EntryChange>;

Changes between(const std::string& before, const std::string& after) {
    return entry_changes(std::vector<RuleText>{{"old.yaml", before}}, std::vector<RuleText>{{"new.yaml", after}});
}

}  // namespace

TEST_CASE("the same rules have no changes, whatever their files and order", "[rule_base_changes]") {
    CHECK(between(small_rules().text(), small_rules().text()).empty());
    const auto rules = default_rules();
    CHECK(entry_changes(rules, rules).empty());
    const std::vector<RuleText> backwards(rules.rbegin(), rules.rend());
    CHECK(entry_changes(rules, backwards).empty());
    CHECK(between("steps:\n  s: {do: D, when: now}\n", "# moved\nsteps: {s: {when: 'now',\n   do: \"D\"}}\n").empty());
}

TEST_CASE("every change of an entry shows, by section and name", "[rule_base_changes]") {
    const std::string before = "rule base: {name: A}\nsigns: {a: {ask: A}, b: {ask: B}}\ncauses: {c: {steps: [x, y]}}\n";
    CHECK(between(before, "rule base: {name: A}\nsigns: {b: {ask: B}, d: {ask: D}}\ncauses: {c: {steps: [x, y]}}\n") ==
          Changes{{"signs", "d", How::added}, {"signs", "a", How::removed}});
    CHECK(between(before, "rule base: {name: B}\nsigns: {a: {ask: A}, b: {ask: C}}\ncauses: {c: {steps: [y, x]}}\n") ==
          Changes{{"rule base", "", How::changed}, {"signs", "b", How::changed}, {"causes", "c", How::changed}});
    CHECK(between("causes: {c: {name: N}}\n", "causes: {c: {name: N, alone: yes}}\n") ==
          Changes{{"causes", "c", How::changed}});
    CHECK(between("causes: {c: {name: N, alone: yes}}\n", "causes: {c: {name: N}}\n") ==
          Changes{{"causes", "c", How::changed}});
    CHECK(between("materials: {m: {name: M}}\n", "materials: {m: {name: N}, n: {name: N}}\n") ==
          Changes{{"materials", "n", How::added}, {"materials", "m", How::changed}});
    CHECK(between("weighing: {largest set: 2}\n", "weighing: {largest set: 3}\n") == Changes{{"weighing", "", How::changed}});
}

TEST_CASE("an entry that a later file extends is changed, one that it replaces by the same is not", "[rule_base_changes]") {
    const RuleText first{"a.yaml", "causes: {c: {name: N, steps: [x]}}\n"};
    const auto with = [&](const std::string& later) {
        return entry_changes(std::vector<RuleText>{first}, std::vector<RuleText>{first, {"b.yaml", later}});
    };
    CHECK(with("causes: {c: {earlier entry: extend, steps: [y]}}\n") == Changes{{"causes", "c", How::changed}});
    CHECK(with("causes: {c: {earlier entry: replace, name: N, steps: [x]}}\n").empty());
}

}  // namespace engine_rule_base_changes_test
