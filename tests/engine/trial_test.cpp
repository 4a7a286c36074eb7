// One case tried: first place, what must be said and advised, what must never be, and the two balances side by side.
#include "engine/trial.hpp"

#include "engine/words.hpp"
#include "tests/catch.hpp"
#include "tests/engine/small_cases.hpp"

#include <algorithm>
#include <numeric>
#include <string>
#include <vector>

namespace engine_trial_test {

using namespace lidlift;
using namespace lidlift::test;

namespace {

TrialResult result_of(const std::string& one) { return tried(small_base(), one); }

double sum(const std::vector<ContrastLine>& lines, double ContrastLine::*side) {
    return std::accumulate(lines.begin(), lines.end(), 0.0,
                           [&](double total, const ContrastLine& line) { return total + line.*side; });
}

}  // namespace

TEST_CASE("a case passes when its first place is expected", "[trial]") {
    const TrialResult result = result_of("c: {told: {wet: yes}, expect: blocked}");
    CHECK(result.passed());
    CHECK(result.first == First::expected);
    CHECK(result.place == 1);
    CHECK(result.expected == "blocked");
    CHECK(result.expected_chance == result.causes.front().chance);
    CHECK(result.contrast.empty());
    CHECK(result.told == std::vector<std::string>{"wet=yes"});
}

TEST_CASE("any of several expected causes is right, and an acceptable one is kept apart", "[trial]") {
    CHECK(result_of("c: {told: {wet: yes}, expect: [dry, blocked]}").first == First::expected);
    CHECK(result_of("c: {told: {wet: yes}, expect: [dry, blocked]}").expected == "blocked");
    const TrialResult acceptable = result_of("c: {told: {wet: yes}, expect: airless, acceptable: [blocked]}");
    CHECK(acceptable.first == First::acceptable);
    CHECK(acceptable.passed());
    CHECK(acceptable.place > 1);
    CHECK(acceptable.contrast.empty());
    // Acceptable counts in first place only.
    CHECK(result_of("c: {told: {wet: yes}, expect: dry, acceptable: [airless]}").first == First::wrong);
}

TEST_CASE("a wrong first place tells where the expected cause stands", "[trial]") {
    const TrialResult result = result_of("c: {told: {wet: yes, smell: none}, expect: airless}");
    CHECK_FALSE(result.passed());
    CHECK(result.first == First::wrong);
    REQUIRE(result.place > 1);
    CHECK(result.causes.at(result.place - 1).id == "airless");
    CHECK(result.causes.at(result.place - 1).chance == result.expected_chance);
    CHECK(result.among_first(3));
    CHECK_FALSE(result.among_first(1));
}

TEST_CASE("both balances stand side by side, and each adds up", "[trial]") {
    const TrialResult result = result_of("c: {told: {wet: yes, heat: warm}, expect: dry}");
    REQUIRE(result.first == First::wrong);
    CHECK(sum(result.contrast, &ContrastLine::expected) == Approx(decibans(result.expected_chance)));
    CHECK(sum(result.contrast, &ContrastLine::winner) == Approx(decibans(result.causes.front().chance)));
    const auto lead = [](const ContrastLine& line) { return line.winner - line.expected; };
    CHECK(std::is_sorted(result.contrast.begin(), result.contrast.end(),
                         [&](const ContrastLine& a, const ContrastLine& b) { return lead(a) > lead(b); }));
    // What both know of is one line; what only one knows is 0 for the other.
    const auto line = [&](const std::string& part) {
        const auto found = std::find_if(result.contrast.begin(), result.contrast.end(),
                                        [&](const ContrastLine& l) { return l.text.find(part) != std::string::npos; });
        REQUIRE(found != result.contrast.end());
        return *found;
    };
    CHECK(line("wet").winner > 0);
    CHECK(line("wet").expected < 0);
    CHECK(line("heat").winner == 0);
    CHECK(line("heat").expected > 0);
    CHECK(line("how common").winner > line("how common").expected);
    CHECK(result.contrast.front().text.find("wet") != std::string::npos);
}

TEST_CASE("a cause that was ruled out has no place", "[trial]") {
    const RuleBase base = small_rules().cause("ruled_out", "cannot be when: wet, signs: [{when: wet, seen: sometimes}]").base();
    const TrialResult result = tried(base, "c: {told: {wet: yes}, expect: ruled_out}");
    CHECK(result.first == First::wrong);
    CHECK(result.place == 0);
    CHECK(result.expected == "ruled_out");
    CHECK_FALSE(result.among_first(3));
    CHECK(sum(result.contrast, &ContrastLine::expected) == 0);
    CHECK(tried(base, "c: {told: {wet: yes}, expect: [ruled_out, blocked]}").passed());
}

TEST_CASE("answers that rule out everything leave no first place", "[trial]") {
    const RuleBase base = Rules()
                              .sign("wet", "seen anyway: sometimes")
                              .cause("one", "must be when: wet, signs: [{when: wet, seen: usually}]")
                              .cause("two", "must be when: wet, not together with: [one], signs: [{when: wet, seen: usually}]")
                              .base();
    const TrialResult result = tried(base, "c: {told: {wet: yes}, expect: one}");
    CHECK(result.causes.empty());
    CHECK(result.first == First::wrong);
    CHECK(result.place == 0);
    CHECK(tried(base, "c: {told: {wet: yes}, nothing_listed: yes}").first == First::wrong);
    CHECK(tried(base, "c: {told: {wet: yes}, never advise: [lime]}").passed());
}

TEST_CASE("nothing listed must be likelier than every cause", "[trial]") {
    const TrialResult none = result_of("c: {told: {wet: no, smell: none}, nothing_listed: yes}");
    CHECK(none.first == First::expected);
    CHECK(none.place == 1);
    CHECK(none.expected.empty());
    CHECK(none.expected_chance == none.nothing_listed);
    const TrialResult some = result_of("c: {told: {wet: yes, smell: strong}, nothing_listed: yes}");
    CHECK(some.first == First::wrong);
    CHECK(some.place == 3);
    CHECK(some.among_first(3));
    CHECK(sum(some.contrast, &ContrastLine::winner) == Approx(decibans(some.causes.front().chance)));
}

TEST_CASE("no shown step may be of a kind, a push or a name that is never advised", "[trial]") {
    const std::string told = "told: {smell: strong}, never advise: ";
    for (const std::string never : {"lime", "ph up", "lime_it"}) {
        CAPTURE(never);
        const TrialResult result = result_of("c: {" + told + "[drain, " + never + "]}");
        REQUIRE(result.advised_against.size() == 1);
        CHECK(result.advised_against[0].step == "lime_it");
        CHECK(result.advised_against[0].never == never);
        CHECK(result.dangerous());
        CHECK_FALSE(result.passed());
        CHECK(result.first == First::not_asked);
    }
    CHECK(result_of("c: {" + told + "[ph down, open, drain, water]}").passed());
    // A step that was left out is not shown.
    const RuleBase base = small_rules().clash("X01", "never: [lime], when: smell is strong, say: No lime.").base();
    CHECK(tried(base, "c: {" + told + "[lime]}").passed());
}

TEST_CASE("cautions must be read out, and steps shown", "[trial]") {
    CHECK(result_of("c: {told: {wet: yes}, must say: [K01], must advise: [open]}").passed());
    const TrialResult missing = result_of("c: {told: {wet: yes}, must say: [K03, K01, K02], must advise: [loosen, open]}");
    CHECK(missing.not_said == std::vector<std::string>{"K03", "K02"});
    CHECK(missing.not_advised == std::vector<std::string>{"loosen"});
    CHECK(missing.dangerous());
    const TrialResult step = result_of("c: {told: {wet: yes}, must advise: [loosen]}");
    CHECK_FALSE(step.dangerous());
    CHECK_FALSE(step.passed());
    // A caution that a likely cause brings counts, as one that a step brings does.
    CHECK(result_of("c: {told: {smell: strong}, must say: [K02]}").passed());
}

TEST_CASE("a result says what was told so that it can be typed again", "[trial]") {
    const TrialResult result =
        result_of("c: {told: {wet: {is: yes, sure: guess}, smell: not strong, heat: 8 to 12 °C}, expect: blocked}");
    const std::vector<std::string> expected = {"wet=yes,guess", "smell=not strong", "heat=8 to 12 °C"};
    CHECK(result.told == expected);
    CHECK(told_in(small_base(), result.told).order.size() == 3);
    CHECK(result_of("c: {told: {wet: '?'}, never advise: [lime]}").told == std::vector<std::string>{"wet=?"});
}

}  // namespace engine_trial_test
