// What counts as an answer, the limits of the search, and the numbers that a witness is told with.
#include "engine/review/answers_space.hpp"

#include "engine/review/sayable_number.hpp"
#include "tests/catch.hpp"
#include "tests/engine/short_rules.hpp"

#include <cmath>
#include <limits>

namespace review_answers_space_test {

using namespace lidlift;
using namespace lidlift::logic;
using namespace lidlift::test;

namespace {

RuleBase small_base() {
    return Rules()
        .sign("a")
        .sign("m", "several at once: yes, answers: {x: {means: x}, y: {means: y}, none: {means: n, none of these: yes}}")
        .sign("heat", "measured in: °C, plausible: 0 to 80")
        .conclusion("both")
        .rule("r", "m is x and m is none", "both")
        .base();
}

Condition at_least_of_parts(int wanted, int count, Handle<Sign> sign) {
    Quorum quorum{wanted, {}};
    for (int i = 0; i < count; ++i) quorum.children.push_back({Lies{sign, {static_cast<double>(i % 79), 80, true, true}}});
    return {quorum};
}

}  // namespace

TEST_CASE("an answer that rules out the others never stands beside them", "[review][space]") {
    const RuleBase base = small_base();
    AnswersSpace space(base);
    CHECK(space.find({{{&base.rules[Handle<Rule>{0}].when, Truth::yes}}}).found == Found::no);
    CHECK(space.find({{{&base.rules[Handle<Rule>{0}].when, Truth::unknown}}}).found == Found::yes);
    // All denied, "none of these" as well, is no answer.
    const Handle<Sign> m = *base.signs.find("m");
    const Condition any{Says{m, all_answers(3)}};
    CHECK(space.find({{{&any, Truth::no}}}).found == Found::no);
    CHECK(space.find({{{&any, Truth::unknown}}}).found == Found::yes);
}

TEST_CASE("answers found are short, and can be typed", "[review][space]") {
    const RuleBase base = small_base();
    AnswersSpace space(base);
    const Handle<Sign> m = *base.signs.find("m");
    const Handle<Sign> heat = *base.signs.find("heat");
    const Condition not_x{Negation{{Condition{Says{m, answer_set(0)}}}}};
    const Condition hot{Lies{heat, {31.5, 80, false, true}}};
    const AnswersQuestion question{{{&not_x, Truth::yes}, {&hot, Truth::yes}}};
    const auto found = space.find(question);
    REQUIRE(found.found == Found::yes);
    const auto words = space.witness(space.shortened(question, found.beds).front());
    REQUIRE(words.size() == 2);
    CHECK(words[0].sign == "m");
    CHECK(words[1].sign == "heat");
    CHECK(words[1].value == "56 °C");
    const auto facts = facts_in(base, {words[0].sign + "=" + words[0].value, words[1].sign + "=" + words[1].value});
    CHECK(engine_agrees(base, question, std::vector<Facts>{facts}));
}

TEST_CASE("what is asked for in vain is not found to agree", "[review][space]") {
    const RuleBase base = small_base();
    const Condition a{Says{*base.signs.find("a"), answer_set(0)}};
    const AnswersQuestion question{{{&a, Truth::yes}}};
    CHECK(engine_agrees(base, question, std::vector<Facts>{facts_in(base, {"a=yes"})}));
    CHECK_FALSE(engine_agrees(base, question, std::vector<Facts>{facts_in(base, {"a=no"})}));
    CHECK_FALSE(engine_agrees(base, question, std::vector<Facts>{Facts{}}));
    CHECK_FALSE(engine_agrees(base, question, std::vector<Facts>{}));
}

TEST_CASE("without work left a question is undecided, is counted, and counts as told", "[review][space]") {
    const RuleBase base = small_base();
    const Condition a{Says{*base.signs.find("a"), answer_set(0)}};
    const AnswersQuestion question{{{&a, Truth::yes}}};
    AnswersSpace idle(base, 0);
    CHECK(idle.find(question).found == Found::undecided);
    CHECK(idle.undecided() == 0);
    CHECK(idle.possible(question, true));
    CHECK_FALSE(idle.possible(question, false));
    CHECK(idle.undecided() == 2);
    AnswersSpace busy(base, 100'000);
    int decided = 0;
    while (busy.find(question).found == Found::yes) ++decided;
    CHECK(decided > 10);
    CHECK(decided < 1000);
}

TEST_CASE("a question that is too large is undecided, a smaller one of its sort is not", "[review][space]") {
    const RuleBase base = small_base();
    const Handle<Sign> heat = *base.signs.find("heat");
    const Condition large = at_least_of_parts(1500, 3000, heat);
    const Condition smaller = at_least_of_parts(150, 300, heat);
    AnswersSpace space(base);
    CHECK(space.find({{{&large, Truth::yes}}}).found == Found::undecided);
    CHECK(space.find({{{&smaller, Truth::yes}}}).found == Found::yes);
}

TEST_CASE("the plainest number in a range is told", "[review][numbers]") {
    const Unit& celsius = *find_unit("°C");
    const auto open = [](double low, double high) { return Range{low, high, false, false}; };
    CHECK(plainest_number(open(5, 15), celsius) == 10.0);
    CHECK(plainest_number(open(5, 6), celsius) == 5.5);
    CHECK(plainest_number(open(-1, 1), celsius) == 0.0);
    CHECK(plainest_number(open(31.1, 31.2), celsius) == 31.15);
    CHECK(plainest_number({5, 6, true, false}, celsius).has_value());
    CHECK(plainest_number({7, 7, true, true}, celsius) == 7.0);
    for (const double low : {0.0, 0.1, 31.1111, 79.999})
        for (const double width : {1e-6, 0.01, 0.3, 7.0, 1000.0}) {
            const auto number = plainest_number(open(low, low + width), celsius);
            CAPTURE(low, width);
            REQUIRE(number.has_value());
            CHECK(*number > low);
            CHECK(*number < low + width);
            CHECK(exact_text(*number, celsius).has_value());
        }
    CHECK_FALSE(plainest_number(open(80, std::nextafter(80.0, 81.0)), celsius).has_value());
    const double infinity = std::numeric_limits<double>::infinity();
    CHECK(*plainest_number(open(3.5, infinity), celsius) > 3.5);
    CHECK(*plainest_number(open(-infinity, 3.5), celsius) < 3.5);
    CHECK(plainest_number(open(-infinity, infinity), celsius) == 0.0);
}

TEST_CASE("numbers are written so that they are read back exactly", "[review][numbers]") {
    CHECK(exact_text(31, *find_unit("°C")) == "31 °C");
    CHECK(exact_text(1, *find_unit("days")) == "1 day");
    CHECK(exact_text(7.5, *find_unit("pH")) == "pH 7.5");
    CHECK(exact_text(0.123456789, *find_unit("m")) == "0.123456789 m");
    CHECK_FALSE(exact_text(1.0 / 3, *find_unit("%")).has_value());
    const auto fahrenheit = convert(*read_quantity("88 °F"), *find_unit("°C"));
    CHECK(exact_text(*fahrenheit, *find_unit("°C")) == "88 °F");
}

}  // namespace review_answers_space_test
