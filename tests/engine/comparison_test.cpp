// The same cases under two rule bases: what changed, what matters most, and what only one of the two can read.
#include "engine/comparison.hpp"

#include "tests/catch.hpp"
#include "tests/engine/small_cases.hpp"

#include <list>
#include <string>
#include <vector>

namespace engine_comparison_test {

using namespace lidlift;
using namespace lidlift::test;

namespace {

using Ids = std::vector<std::string>;

/// Two rule bases compared over cases "name: {...}"; everything that the comparison refers to stays here.
struct Compared {
    RuleBase before;
    RuleBase after;
    std::vector<WrittenCase> written;
    std::string complaints;
    std::vector<ComparedCase> cases;

    Compared(const Rules& old_rules, const Rules& new_rules, const std::vector<std::string>& texts)
        : before(old_rules.base()), after(new_rules.base()), written(written_cases(case_file(texts))) {
        Complaints found;
        cases = compare_cases(Ranker(before), Ranker(after), written, found);
        for (const Complaint& complaint : found.sorted()) complaints += to_text(complaint) + "\n";
    }
    [[nodiscard]] Ids order() const {
        Ids ids;
        for (const ComparedCase* compared : by_importance(before, cases)) ids.push_back(compared->written->id);
        return ids;
    }
};

/// As small_rules, with other strengths or entries for what the tests change.
Rules changed_rules(const std::string& blocked_seen, const std::string& open, const std::string& more = "K01") {
    return Rules()
        .sign("wet", "seen anyway: almost never")
        .sign("smell", "seen anyway: almost never")
        .cause("blocked", "signs: [{when: wet, seen: " + blocked_seen + "}], steps: [open]")
        .cause("soaked", "signs: [{when: wet, seen: about half the time}], steps: [loosen]")
        .cause("airless", "signs: [{when: smell, seen: usually}], steps: [loosen]")
        .step("open", open + "cautions: [" + more + "]")
        .step("loosen")
        .caution("K01", "level: stop")
        .caution("K02", "level: note");
}

const Rules plain = changed_rules("usually", "");

}  // namespace

TEST_CASE("under the same rules nothing changes", "[comparison]") {
    const Compared same(plain, plain, {"a: {told: {wet: yes}, expect: blocked}", "b: {told: {smell: yes}, expect: blocked}"});
    CHECK(same.complaints == "");
    CHECK(same.order().empty());
    for (const ComparedCase& compared : same.cases) {
        CHECK_FALSE(compared.changed());
        CHECK_FALSE(compared.worse());
    }
}

TEST_CASE("a weaker strength swaps two causes, and a case that passed fails", "[comparison]") {
    const Compared two(plain, changed_rules("sometimes", ""),
                       {"a: {told: {wet: yes}, expect: blocked}", "b: {told: {smell: yes}, expect: airless}"});
    const ComparedCase& a = two.cases[0];
    CHECK(a.newly_fails());
    CHECK(a.worse());
    CHECK(a.first_changed());
    REQUIRE(a.moved.size() == 2);
    CHECK(a.moved[0].cause == "soaked");
    CHECK(a.moved[0].before == 2);
    CHECK(a.moved[0].after == 1);
    CHECK(a.moved[1].cause == "blocked");
    CHECK(a.moved[1].chance_before > a.moved[1].chance_after);
    CHECK(two.order() == Ids{"a"});
    // The other way round it is no longer worse.
    const Compared back(changed_rules("sometimes", ""), plain, {"a: {told: {wet: yes}, expect: blocked}"});
    CHECK(back.cases[0].newly_passes());
    CHECK_FALSE(back.cases[0].worse());
}

TEST_CASE("a lost caution is worse even where no case asks for it", "[comparison]") {
    const Compared lost(plain, changed_rules("usually", "", "K02"), {"a: {told: {wet: yes}, expect: blocked}"});
    CHECK(lost.cases[0].cautions_lost == Ids{"K01"});
    CHECK(lost.cases[0].cautions_gained == Ids{"K02"});
    CHECK(lost.cases[0].worse());
    CHECK_FALSE(lost.cases[0].newly_fails());
}

TEST_CASE("steps come and go, and the verdict with them", "[comparison]") {
    const Compared drastic(plain, changed_rules("usually", "if wrong: drastic, "), {"a: {told: {wet: yes}, expect: blocked}"});
    CHECK(drastic.cases[0].steps_gone == Ids{"open"});
    CHECK(drastic.cases[0].steps_come.empty());
    CHECK(drastic.cases[0].moved.empty());
    CHECK(drastic.cases[0].changed());
}

TEST_CASE("a new cause comes among the likely ones without moving the others", "[comparison]") {
    Rules more = plain;
    more.cause("slurry", "signs: [{when: wet, seen: almost always}], how common: very common");
    const Compared two(plain, more, {"a: {told: {wet: yes}, expect: [blocked, slurry]}"});
    CHECK(two.complaints == "");
    REQUIRE(two.cases[0].unread_before.size() == 1);
    CHECK(two.cases[0].unread_before[0].text == "there is no cause 'slurry'");
    CHECK(two.cases[0].unread_after.empty());
    REQUIRE(two.cases[0].moved.size() == 1);
    CHECK(two.cases[0].moved[0].cause == "slurry");
    CHECK(two.cases[0].moved[0].before == 0);
    CHECK(two.cases[0].moved[0].after == 1);
    CHECK(two.cases[0].before.passed());
    CHECK(two.cases[0].after.passed());
    // Taken away, it leaves them.
    const Compared back(more, plain, {"a: {told: {wet: yes}, expect: [blocked, slurry]}"});
    REQUIRE(back.cases[0].moved.size() == 1);
    CHECK(back.cases[0].moved[0].after == 0);
    // A case that expects only the new cause cannot pass before, and is not worse for it.
    const Compared only(plain, more, {"a: {told: {wet: yes}, expect: slurry}"});
    CHECK(only.cases[0].newly_passes());
    CHECK(Compared(more, plain, {"a: {told: {wet: yes}, expect: slurry}"}).cases[0].worse());
}

TEST_CASE("what only one rule base can read is told to neither", "[comparison]") {
    Rules more = plain;
    more.sign("oily", "seen anyway: almost never").cause("oiled", "signs: [{when: oily, seen: usually}]");
    const Compared two(plain, more, {"a: {told: {wet: yes, oily: yes}, expect: blocked}"});
    CHECK(two.complaints == "");
    CHECK(two.cases[0].not_compared == Ids{"oily"});
    CHECK(two.cases[0].after.told == Ids{"wet=yes"});
    CHECK(two.cases[0].before.told == Ids{"wet=yes"});
    CHECK(two.cases[0].after.passed());
    CHECK(two.order() == Ids{"a"});
    CHECK_FALSE(two.cases[0].worse());
    // A caution, a step or a kind of step that one of the two lacks.
    more.caution("K09").step("mop");
    const Compared names(plain, more, {"a: {told: {wet: yes}, must say: [K09], must advise: [mop], never advise: [mop]}"});
    CHECK(names.complaints == "");
    CHECK(names.cases[0].unread_before.size() == 3);
    CHECK(names.cases[0].before.not_said == Ids{"K09"});
    CHECK(names.cases[0].before.not_advised == Ids{"mop"});
}

TEST_CASE("what neither rule base can read is a mistake", "[comparison]") {
    const Compared two(plain, changed_rules("sometimes", ""), {"a: {told: {wett: yes, smell: yes}, expect: bloked}"});
    CHECK(two.complaints ==
          "cases.yaml:2:77: there is no sign 'wett' (did you mean 'wet'?)\n"
          "cases.yaml:2:109: there is no cause 'bloked' (did you mean 'blocked'?)\n");
    CHECK(two.cases[0].unread_before.empty());
    CHECK(two.cases[0].unread_after.empty());
}

TEST_CASE("two causes that are as good as equal change no places", "[comparison]") {
    // Both are common; not seeing the sign, which is next to a guess, puts its cause a little behind the other.
    const auto rules = [](const std::string& behind, const std::string& ahead, const std::string& seen) {
        return Rules()
            .weighing("wrong when a guess: 40 %")
            .sign("wet", "seen anyway: almost never")
            .sign("oily", "seen anyway: almost never")
            .cause(behind, "signs: [{when: wet, seen: " + seen + "}]")
            .cause(ahead, "signs: [{when: oily, seen: usually}]");
    };
    const std::string one = "a: {told: {wet: {is: no, sure: guess}}, never advise: [lime]}";
    const Compared close(rules("x", "y", "sometimes"), rules("y", "x", "sometimes"), {one});
    CHECK(close.cases[0].first_changed());
    CHECK(close.cases[0].moved.empty());
    const Compared apart(rules("x", "y", "usually"), rules("y", "x", "usually"), {one});
    CHECK(apart.cases[0].moved.size() == 2);
}

TEST_CASE("the most important change stands first", "[comparison]") {
    // Everything about `open` hangs on one sign each, so that each case changes in one way.
    const auto rules = [](bool edited) {
        const std::string old_or_new = edited ? "new" : "old";
        return Rules()
            .sign("s1", "seen anyway: almost never")
            .sign("s2", "seen anyway: almost never")
            .sign("s3", "seen anyway: almost never")
            .sign("s4", "seen anyway: almost never")
            .sign("s5", "seen anyway: almost never")
            .cause("c1", "signs: [{when: s1, seen: usually}], cautions: [" + std::string(edited ? "KN" : "KS, KN") + "]")
            .cause("c2", "signs: [{when: s2, seen: usually}], cautions: [" + std::string(edited ? "KS" : "KS, KN") + "]")
            .cause("c3", "signs: [{when: s3, seen: usually}], steps: [" + std::string(edited ? "lime_it" : "loosen") + "]")
            .cause("c4", "signs: [{when: s4, seen: " + std::string(edited ? "sometimes" : "usually") + "}]")
            .cause("c4b", "signs: [{when: s4, seen: about half the time}]")
            .cause("c5", "signs: [{when: s5, seen: usually}], steps: [loosen" + std::string(edited ? ", look" : "") + "]")
            .step("lime_it", "kind: lime")
            .step("loosen")
            .step("look", "kind: watch")
            .caution("KS", "level: stop")
            .caution("KN", "level: note");
    };
    const Compared two(rules(false), rules(true),
                       {"step_came: {told: {s5: yes}, expect: c5}", "fails: {told: {s4: yes}, expect: c4}",
                        "limed: {told: {s3: yes}, never advise: [lime]}", "note_lost: {told: {s2: yes}, expect: c2}",
                        "nothing: {told: {s5: no}, never advise: [lime]}", "stop_lost: {told: {s1: yes}, expect: c1}"});
    CHECK(two.complaints == "");
    CHECK(two.order() == Ids{"stop_lost", "note_lost", "limed", "fails", "step_came"});
}

}  // namespace engine_comparison_test
