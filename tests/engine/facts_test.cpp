// What is known of one bed, sign by sign.
#include "engine/facts.hpp"

#include "tests/catch.hpp"

#include <vector>

namespace engine_facts_test {

using namespace lidlift;

namespace {

constexpr Handle<Sign> first{0};
constexpr Handle<Sign> second{1};
constexpr Handle<Sign> far_away{70};

Observation answer(std::size_t position) {
    Observation observation;
    observation.possible = answer_set(position);
    return observation;
}

}  // namespace

TEST_CASE("of a sign that nobody spoke of nothing is known", "[facts]") {
    Facts facts;
    CHECK(facts.find(first) == nullptr);
    CHECK(facts.find(far_away) == nullptr);
    CHECK(facts.known().empty());
    facts.set(second, answer(0));
    CHECK(facts.find(first) == nullptr);
    CHECK(facts.find(far_away) == nullptr);
}

TEST_CASE("an observation is kept whole", "[facts]") {
    Facts facts;
    Observation said;
    said.possible = answer_set(1) | answer_set(3);
    said.present = answer_set(4);
    said.absent = answer_set(5);
    said.measured = Range{28, 32, true, false};
    said.sureness = Sureness::guess;
    said.from = "you said: about 30";
    facts.set(far_away, said);

    const Observation* kept = facts.find(far_away);
    REQUIRE(kept != nullptr);
    CHECK(kept->possible == said.possible);
    CHECK(kept->present == said.present);
    CHECK(kept->absent == said.absent);
    CHECK(kept->measured == said.measured);
    CHECK(kept->sureness == Sureness::guess);
    CHECK(kept->from == "you said: about 30");
}

TEST_CASE("a later observation takes the place of the earlier one", "[facts]") {
    Facts facts;
    Observation measured;
    measured.measured = Range{5, 5};
    measured.present = answer_set(2);
    facts.set(first, measured);
    facts.set(first, answer(1));
    REQUIRE(facts.find(first) != nullptr);
    CHECK(facts.find(first)->possible == answer_set(1));
    CHECK(facts.find(first)->present == 0);
    CHECK_FALSE(facts.find(first)->measured.has_value());
    CHECK(facts.known() == std::vector<Handle<Sign>>{first});
}

TEST_CASE("a forgotten sign is unknown again, the others stay", "[facts]") {
    Facts facts;
    facts.set(first, answer(0));
    facts.set(second, answer(1));
    facts.forget(first);
    CHECK(facts.find(first) == nullptr);
    REQUIRE(facts.find(second) != nullptr);
    CHECK(facts.find(second)->possible == answer_set(1));
    CHECK(facts.known() == std::vector<Handle<Sign>>{second});
    facts.set(first, answer(2));
    REQUIRE(facts.find(first) != nullptr);
    CHECK(facts.find(first)->possible == answer_set(2));
}

TEST_CASE("forgetting what was never known changes nothing", "[facts]") {
    Facts facts;
    facts.forget(first);
    facts.forget(far_away);
    CHECK(facts.known().empty());
    facts.set(first, answer(0));
    facts.forget(far_away);
    facts.forget(second);
    CHECK(facts.known() == std::vector<Handle<Sign>>{first});
}

TEST_CASE("known signs come in the order of the rule base, not of the answers", "[facts]") {
    Facts facts;
    facts.set(far_away, answer(0));
    facts.set(first, answer(0));
    facts.set(second, answer(0));
    CHECK(facts.known() == std::vector<Handle<Sign>>{first, second, far_away});
}

TEST_CASE("a copy of the facts is a what-if that leaves the original alone", "[facts]") {
    Facts facts;
    facts.set(first, answer(0));
    Facts what_if = facts;
    what_if.set(first, answer(1));
    what_if.set(second, answer(1));
    REQUIRE(facts.find(first) != nullptr);
    CHECK(facts.find(first)->possible == answer_set(0));
    CHECK(facts.find(second) == nullptr);
}

}  // namespace engine_facts_test
