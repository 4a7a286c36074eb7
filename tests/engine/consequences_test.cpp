// A pest whose root is likely is reported as its consequence; without the root it is a cause in its own right.
#include "engine/advice.hpp"
#include "engine/ranking.hpp"
#include "engine/words.hpp"
#include "tests/catch.hpp"
#include "tests/engine/random_answers.hpp"
#include "tests/engine/short_rules.hpp"
#include "tests/near.hpp"

#include <string>
#include <vector>

namespace engine_consequences_test {

using namespace lidlift;
using namespace lidlift::test;

namespace {

/// Too much food brings flies; flies are also a trouble by themselves, with a step of their own.
RuleBase flies_and_feed(const std::string& of_flies = {}) {
    return Rules()
        .sign("flies", "seen anyway: almost never")
        .sign("leftovers", "seen anyway: almost never")
        .step("set_a_trap")
        .step("stop", "kind: remove")
        .cause("too_much_food",
               "signs: [{when: leftovers, seen: almost always}, {when: flies, seen: usually}], steps: [stop], "
               "brings about: [fly_plague]")
        .cause("fly_plague", "signs: [{when: flies, seen: almost always}], steps: [set_a_trap]" + of_flies)
        .base();
}

const RankedCause& ranked_in(const RuleBase& base, const Ranking& ranking, const std::string& id) {
    const RankedCause* found = ranking.find(base.causes.find(id).value());
    if (!found) throw std::runtime_error("not ranked: " + id);
    return *found;
}

bool advises(const RuleBase& base, const std::vector<std::string>& words, const std::string& step) {
    Told told;
    for (const std::string& word : words) REQUIRE_FALSE(hear_argument(told, base, word));
    const Advice advice = advise(base, told, Ranker(base).rank(told.facts));
    return std::ranges::any_of(advice.steps, [&](const PlannedStep& planned) { return base.steps[planned.step].id == step; });
}

}  // namespace

TEST_CASE("a pest is a cause where nothing speaks for its root, and a consequence where something does", "[ranking][root]") {
    const RuleBase base = flies_and_feed();
    const Ranker ranker(base);
    const Ranking alone = ranker.rank(facts_in(base, {"flies=yes", "leftovers=no"}));
    CHECK_FALSE(ranked_in(base, alone, "fly_plague").follows_from);
    CHECK(ranked_in(base, alone, "fly_plague").there == ranked_in(base, alone, "fly_plague").chance);
    CHECK(alone.causes.front().cause == base.causes.find("fly_plague"));

    const Ranking both = ranker.rank(facts_in(base, {"flies=yes", "leftovers=yes"}));
    CHECK(both.causes.front().cause == base.causes.find("too_much_food"));
    const RankedCause& plague = ranked_in(base, both, "fly_plague");
    CHECK(plague.follows_from == base.causes.find("too_much_food"));
    // By itself: prior 0.1 and the sign's own weight, as if nothing else explained it.
    const double by_itself = probability(decibans(0.1) + 10 * std::log10(0.985 / 0.025));
    CHECK(plague.there == near(by_itself, 1e-9));
    CHECK(plague.chance < 0.2);
    CHECK_FALSE(ranked_in(base, both, "too_much_food").follows_from);
}

TEST_CASE("what is there as a consequence still gets its steps", "[advice][root]") {
    const RuleBase base = flies_and_feed();
    CHECK(advises(base, {"flies=yes", "leftovers=yes"}, "set_a_trap"));
    CHECK(advises(base, {"flies=yes", "leftovers=yes"}, "stop"));
    CHECK_FALSE(advises(base, {"flies=no", "leftovers=yes"}, "set_a_trap"));
}

TEST_CASE("a consequence that nothing speaks for is not said to be there", "[ranking][root]") {
    const RuleBase base = flies_and_feed();
    const Ranking ranking = Ranker(base).rank(facts_in(base, {"leftovers=yes"}));
    const RankedCause& plague = ranked_in(base, ranking, "fly_plague");
    CHECK(plague.there == plague.chance);
}

TEST_CASE("two causes that bring each other about are equals", "[ranking][root]") {
    const RuleBase base = flies_and_feed(", brings about: [too_much_food]");
    const Ranking ranking = Ranker(base).rank(facts_in(base, {"flies=yes", "leftovers=yes"}));
    for (const RankedCause& ranked : ranking.causes) CHECK_FALSE(ranked.follows_from);
}

}  // namespace engine_consequences_test
