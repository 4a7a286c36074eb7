// From the record of a closed call to what can be learnt from it.
#include "engine/closed_calls.hpp"

#include "engine/call_record_reader.hpp"
#include "tests/catch.hpp"
#include "tests/engine/short_rules.hpp"
#include "tests/near.hpp"

namespace engine_closed_calls_test {

using namespace lidlift;
using namespace lidlift::test;

namespace {

const RuleBase& base() {
    static const RuleBase made = Rules()
                                     .sign("puddles", "seen anyway: sometimes")
                                     .sign("ants", "seen anyway: sometimes")
                                     .cause("wet", "signs: [{when: puddles, seen: usually}]")
                                     .cause("dry", "signs: [{when: ants, seen: usually}]")
                                     .base();
    return made;
}

const std::string told = R"(
  - {when: 2026-03-09 14:05:00, words: "water stands", heard: [{sign: puddles, is: "yes"}]}
)";
const std::string advised = R"(
  - when: 2026-03-09 14:07:00
    advised:
      because: said to stop
      causes: [{cause: dry, chance: 0.2}, {cause: wet, chance: 0.61}]
      nothing listed: 0.1
      steps: []
      cautions: []
)";
const std::string confirmed = R"(
  - {when: 2026-03-12 09:00:00, confirmed: {causes: [wet], how: seen}}
)";

ClosedReading closed(const std::string& course, const std::string& state = "closed") {
    Complaints complaints;
    const CallRecord record =
        read_call("call: {state: " + state + ", begun: 2026-03-09 14:05:00, rule base: r, version: \"1\"}\ncourse:" + course,
                  "call.yaml", complaints);
    for (const Complaint& complaint : complaints.sorted()) FAIL(to_text(complaint));
    return closed_call(record, base());
}

}  // namespace

TEST_CASE("a closed call gives its answers, its stated chances and what it was", "[learning]") {
    const ClosedReading reading = closed(told + advised + confirmed);
    REQUIRE(reading.call);
    CHECK(reading.misfits.empty());
    CHECK(reading.call->confirmed == Confirmed::seen);
    REQUIRE(reading.call->causes.size() == 1);
    CHECK(reading.call->causes[0] == *base().causes.find("wet"));
    REQUIRE(reading.call->stated.size() == 2);
    CHECK(reading.call->stated[0].cause == *base().causes.find("wet"));
    CHECK(reading.call->stated[0].chance == near(0.61, 1e-12));
    CHECK(reading.call->facts.find(*base().signs.find("puddles")) != nullptr);
}

TEST_CASE("what was said after the advice does not count, nor what was put right before it", "[learning]") {
    const std::string later = "  - {when: 2026-03-09 14:09:00, asked: ants, words: y, heard: [{sign: ants, is: \"yes\"}]}\n";
    const ClosedReading after = closed(told + advised + later + confirmed);
    REQUIRE(after.call);
    CHECK(after.call->facts.find(*base().signs.find("ants")) == nullptr);

    const std::string put_right =
        "  - {when: 2026-03-09 14:06:00, changed: puddles, words: n, heard: [{sign: puddles, is: \"no\"}]}\n";
    const ClosedReading changed = closed(told + put_right + advised + confirmed);
    REQUIRE(changed.call);
    const Observation* puddles = changed.call->facts.find(*base().signs.find("puddles"));
    REQUIRE(puddles);
    CHECK(puddles->possible == answer_set(1));
}

TEST_CASE("calls that teach nothing say why", "[learning]") {
    CHECK(closed(told + advised + confirmed, "open").why_not == "the call is still open");
    CHECK(closed(told + advised).why_not == "nobody said what it was in the end");
    CHECK(closed(told + confirmed).why_not == "nothing had been advised");
    CHECK(closed(told + advised + "\n  - {when: 2026-03-12 09:00:00, confirmed: {causes: [frost], how: seen}}\n").why_not ==
          "it was 'frost', which the rule base does not know");
}

TEST_CASE("of several outcomes the last counts, and none listed is an outcome", "[learning]") {
    const ClosedReading last =
        closed(told + advised + confirmed + "  - {when: 2026-03-13 09:00:00, confirmed: {causes: [], how: remedy worked}}\n");
    REQUIRE(last.call);
    CHECK(last.call->causes.empty());
    CHECK(last.call->confirmed == Confirmed::remedy_worked);
}

TEST_CASE("answers that the rule base does not know any more are left out and told", "[learning]") {
    const std::string old = "  - {when: 2026-03-09 14:06:00, asked: frogs, words: y, heard: [{sign: frogs, is: \"yes\"}]}\n";
    const ClosedReading reading = closed(told + old + advised + confirmed);
    REQUIRE(reading.call);
    REQUIRE(reading.misfits.size() == 1);
    CHECK(reading.misfits[0].find("frogs") != std::string::npos);
}

}  // namespace engine_closed_calls_test
