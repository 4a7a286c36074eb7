// How far an answer reaches: chaining again by what it reaches is chaining anew, and causes beyond stay as they stand.
#include "engine/sign_reach.hpp"

#include "engine/looking_ahead.hpp"
#include "tests/catch.hpp"
#include "tests/engine/random_answers.hpp"
#include "tests/engine/short_rules.hpp"
#include "tests/review/random_bases.hpp"

#include <algorithm>
#include <string>
#include <vector>

namespace engine_sign_reach_test {

using namespace lidlift;
using namespace lidlift::test;

namespace {

std::vector<std::string> ids(const RuleBase& base, const std::vector<Handle<Conclusion>>& conclusions) {
    std::vector<std::string> result;
    for (const auto conclusion : conclusions) result.push_back(base.conclusions[conclusion].id);
    return result;
}

bool same(const Conclusions& a, const Conclusions& b) {
    return a.truth == b.truth && a.because == b.because && a.sureness == b.sureness;
}

bool same(const Ranker::Standing& a, const Ranker::Standing& b) {
    return a.wrong_stage == b.wrong_stage && a.ruled_out == b.ruled_out && a.certain == b.certain &&
           a.prior_shift == b.prior_shift;
}

struct Count {
    int changed_conclusions = 0;
    int changed_standings = 0;
};

/// Every answer to every sign, one at a time, beside what is known.
void check_answers(const RuleBase& base, const Facts& known, Count& count) {
    const Ranker ranker(base);
    const SignReaches reaches(base);
    const Conclusions before = chain(base, known);
    for (std::uint32_t s = 0; s < base.signs.size(); ++s) {
        const Sign& sign = base.signs[Handle<Sign>{s}];
        const SignReach reach = reaches.of(base, {s});
        for (std::size_t answer = 0; answer < sign.answers.size(); ++answer) {
            Facts facts = known;
            facts.set({s}, LookingAhead::observation(sign, answer));
            const Conclusions anew = chain(base, facts);
            Conclusions again = before;
            chain_again(base, facts, reach, again);
            CAPTURE(sign.id, answer);
            REQUIRE(same(again, anew));
            count.changed_conclusions += !same(before, anew);
            if (base.stage == Handle<Sign>{s}) continue;
            for (std::uint32_t c = 0; c < base.causes.size(); ++c) {
                const auto was = ranker.standing({c}, known, before, known, before);
                const auto is = ranker.standing({c}, facts, anew, facts, anew);
                if (same(was, is)) continue;
                ++count.changed_standings;
                REQUIRE(std::ranges::binary_search(reach.causes, Handle<Cause>{c}));
            }
        }
    }
}

}  // namespace

TEST_CASE("an answer reaches conclusions through conclusions, and causes through either", "[sign_reach]") {
    const RuleBase base = Rules()
                              .sign("a")
                              .sign("b")
                              .conclusion("first")
                              .conclusion("second")
                              .conclusion("other")
                              .rule("r1", "a", "first")
                              .rule("r2", "first and b", "second")
                              .rule("r3", "b", "other")
                              .cause("x", "made likelier by: [{when: second, points: strongly}]")
                              .cause("y", "made likelier by: [{when: other, points: strongly}], cannot be when: other")
                              .base();
    const SignReaches reaches(base);
    const SignReach of_a = reaches.of(base, base.signs.find("a").value());
    CHECK(ids(base, of_a.conclusions) == std::vector<std::string>{"first", "second"});
    REQUIRE(of_a.rules.size() == 2);
    CHECK(base.rules[of_a.rules[0]].id == "r1");
    CHECK(base.rules[of_a.rules[1]].id == "r2");
    REQUIRE(of_a.causes.size() == 1);
    CHECK(base.causes[of_a.causes[0]].id == "x");
    const SignReach of_b = reaches.of(base, base.signs.find("b").value());
    CHECK(ids(base, of_b.conclusions) == std::vector<std::string>{"second", "other"});
    CHECK(of_b.causes.size() == 2);
}

TEST_CASE("default rules: chaining again by what an answer reaches is chaining anew", "[sign_reach][property][default]") {
    const RuleBase& base = default_base();
    Dice dice(20261201);
    Count count;
    for (int i = 0; i < 25; ++i) {
        CAPTURE(i);
        check_answers(base, told_in(base, random_answers(dice, base, dice.whole(0, 10))).facts, count);
    }
    CHECK(count.changed_conclusions > 100);
    CHECK(count.changed_standings > 100);
}

TEST_CASE("random rules: chaining again by what an answer reaches is chaining anew", "[sign_reach][property]") {
    Dice dice(20261202);
    Count count;
    for (int i = 0; i < 300; ++i) {
        CAPTURE(i);
        const RuleBase base = random_base(dice);
        check_answers(base, told_in(base, random_answers(dice, base, dice.whole(0, 3))).facts, count);
    }
    CHECK(count.changed_conclusions > 100);
}

}  // namespace engine_sign_reach_test
