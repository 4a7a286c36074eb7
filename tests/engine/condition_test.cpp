// Conditions: their three-valued value, which parts decided it, and what could still decide it.
#include "engine/condition.hpp"

#include "engine/facts.hpp"
#include "tests/catch.hpp"
#include "tests/engine/conditions.hpp"

#include <array>
#include <cstdint>
#include <limits>
#include <utility>
#include <variant>
#include <vector>

namespace engine_condition_test {

using namespace lidlift;
using namespace lidlift::test;

namespace {

std::vector<std::uint32_t> indices(const auto& handles) {
    std::vector<std::uint32_t> result;
    for (const auto& handle : handles) result.push_back(handle.index);
    return result;
}

using Indices = std::vector<std::uint32_t>;

}  // namespace

TEST_CASE("one of several: settled when the possible answers lie within or without", "[condition]") {
    const AnswerSet wet = answer_set(1) | answer_set(2);
    const Condition is_wet = says(0, wet);
    CHECK(value(is_wet, {}) == U);
    CHECK(value(is_wet, knowing({{0, one_of(answer_set(2))}})) == T);
    CHECK(value(is_wet, knowing({{0, one_of(wet)}})) == T);
    CHECK(value(is_wet, knowing({{0, one_of(answer_set(0))}})) == F);
    CHECK(value(is_wet, knowing({{0, one_of(answer_set(0) | answer_set(3))}})) == F);
    CHECK(value(is_wet, knowing({{0, one_of(answer_set(0) | answer_set(1))}})) == U);
    CHECK(value(is_wet, knowing({{1, one_of(answer_set(1))}})) == U);
    CHECK(value(is_wet, knowing({{0, measured(closed(30, 30))}})) == U);  // something is known, but no answer
}

TEST_CASE("the sixty-fourth answer is an answer like the others", "[condition]") {
    const Condition last = says(0, answer_set(most_answers - 1));
    CHECK(value(last, knowing({{0, one_of(answer_set(63))}})) == T);
    CHECK(value(last, knowing({{0, one_of(answer_set(62))}})) == F);
    CHECK(value(last, knowing({{0, one_of(all_answers(64))}})) == U);
}

TEST_CASE("several at once: one present is enough, all absent is no, anything else is unknown", "[condition]") {
    const AnswerSet mites = answer_set(0);
    const AnswerSet ants = answer_set(1);
    const AnswerSet flies = answer_set(2);
    const Condition mites_or_ants = says(0, mites | ants);
    CHECK(value(mites_or_ants, {}) == U);
    CHECK(value(mites_or_ants, knowing({{0, several(mites, 0)}})) == T);
    CHECK(value(mites_or_ants, knowing({{0, several(mites | flies, ants)}})) == T);
    CHECK(value(mites_or_ants, knowing({{0, several(flies, 0)}})) == U);
    CHECK(value(mites_or_ants, knowing({{0, several(flies, mites)}})) == U);
    CHECK(value(mites_or_ants, knowing({{0, several(flies, mites | ants)}})) == F);
    CHECK(value(mites_or_ants, knowing({{0, several(0, mites | ants | flies)}})) == F);
    CHECK(value(mites_or_ants, knowing({{0, several(0, flies)}})) == U);
}

TEST_CASE("a measured number or range: settled when it lies wholly in or out", "[condition]") {
    const Condition warm = lies(0, {28, 35, true, false});
    CHECK(value(warm, {}) == U);
    CHECK(value(warm, knowing({{0, measured(closed(30, 30))}})) == T);
    CHECK(value(warm, knowing({{0, measured(closed(28, 28))}})) == T);
    CHECK(value(warm, knowing({{0, measured(closed(35, 35))}})) == F);
    CHECK(value(warm, knowing({{0, measured(closed(20, 28))}})) == U);
    CHECK(value(warm, knowing({{0, measured({20, 28, true, false})}})) == F);
    CHECK(value(warm, knowing({{0, measured(closed(28, 35))}})) == U);
    CHECK(value(warm, knowing({{0, measured({28, 35, true, false})}})) == T);
    CHECK(value(warm, knowing({{0, measured(closed(10, 50))}})) == U);
    CHECK(value(warm, knowing({{0, one_of(answer_set(0))}})) == U);  // something is known, but no number
}

TEST_CASE("a range contains another: ends count", "[condition][range]") {
    struct Row {
        Range outer;
        Range inner;
        bool contains;
    };
    const double endless = std::numeric_limits<double>::infinity();
    const std::vector<Row> rows = {{closed(1, 5), closed(2, 3), true},
                                   {closed(1, 5), closed(1, 5), true},
                                   {closed(1, 5), open(1, 5), true},
                                   {open(1, 5), closed(1, 5), false},
                                   {open(1, 5), open(1, 5), true},
                                   {open(1, 5), {1, 4, true, true}, false},
                                   {open(1, 5), {2, 5, true, true}, false},
                                   {open(1, 5), {2, 5, true, false}, true},
                                   {closed(1, 5), closed(0, 3), false},
                                   {closed(1, 5), closed(3, 6), false},
                                   {closed(1, 5), closed(6, 7), false},
                                   {closed(1, 5), closed(5, 5), true},
                                   {open(1, 5), closed(5, 5), false},
                                   {Range{}, closed(-1e300, 1e300), true},
                                   {Range{}, Range{}, true},
                                   {{5, endless, false, true}, {5, endless, true, true}, false},
                                   {closed(1, 5), Range{}, false}};
    for (const Row& row : rows) {
        CAPTURE(row.outer.low, row.outer.high, row.inner.low, row.inner.high, row.contains);
        CHECK(row.outer.contains(row.inner) == row.contains);
    }
}

TEST_CASE("two ranges meet: a shared end counts when both hold it", "[condition][range]") {
    struct Row {
        Range a;
        Range b;
        bool meet;
    };
    const std::vector<Row> rows = {
        {closed(1, 5), closed(5, 9), true},  {closed(1, 5), open(5, 9), false},   {open(1, 5), closed(5, 9), false},
        {open(1, 5), open(5, 9), false},     {closed(1, 5), closed(6, 9), false}, {closed(1, 5), closed(4, 9), true},
        {open(1, 5), open(4, 9), true},      {closed(1, 9), closed(3, 4), true},  {open(1, 5), closed(5, 5), false},
        {open(1, 5), closed(1, 1), false},   {closed(1, 5), closed(1, 1), true},  {closed(3, 3), closed(3, 3), true},
        {closed(3, 3), closed(4, 4), false}, {Range{}, closed(3, 3), true}};
    for (const Row& row : rows) {
        CAPTURE(row.a.low, row.a.high, row.b.low, row.b.high, row.meet);
        CHECK(row.a.meets(row.b) == row.meet);
        CHECK(row.b.meets(row.a) == row.meet);
    }
}

TEST_CASE("ranges agree with the numbers in them", "[condition][range]") {
    // Every range over the ends 0, 2, 4, against the points 0 to 4: halves stand for the open stretches between.
    std::vector<Range> ranges;
    for (const double low : {0.0, 2.0, 4.0})
        for (const double high : {0.0, 2.0, 4.0})
            for (const bool low_in : {true, false})
                for (const bool high_in : {true, false})
                    if (low < high || (low == high && low_in && high_in)) ranges.push_back({low, high, low_in, high_in});
    const auto holds = [](const Range& range, double x) {
        return (range.low_included ? x >= range.low : x > range.low) &&
               (range.high_included ? x <= range.high : x < range.high);
    };
    REQUIRE(ranges.size() == 15);
    for (const Range& a : ranges) {
        for (const Range& b : ranges) {
            bool all = true;
            bool some = false;
            bool shared = true;
            for (const double x : {0.0, 1.0, 2.0, 3.0, 4.0}) {
                if (holds(b, x) && !holds(a, x)) all = false;
                if (holds(b, x) && holds(a, x)) some = true;
                if (holds(a.shared_with(b), x) != (holds(b, x) && holds(a, x))) shared = false;
            }
            CAPTURE(a.low, a.high, a.low_included, a.high_included, b.low, b.high, b.low_included, b.high_included);
            CHECK(a.contains(b) == all);
            CHECK(a.meets(b) == some);
            CHECK(shared);
        }
    }
}

TEST_CASE("not, and, or over conclusions follow Kleene's strong tables", "[condition]") {
    // Kleene, Introduction to Metamathematics (1952) 332-335; rows and columns F, U, T.
    const std::array<Truth, 3> all = {F, U, T};
    const std::array<std::array<Truth, 3>, 3> both = {{{F, F, F}, {F, U, U}, {F, U, T}}};
    const std::array<std::array<Truth, 3>, 3> either = {{{F, U, T}, {U, U, T}, {T, T, T}}};
    for (std::size_t a = 0; a < 3; ++a) {
        CHECK(value(negation(concluded(0)), {}, {all[a]}) == all[2 - a]);
        for (std::size_t b = 0; b < 3; ++b) {
            CAPTURE(a, b);
            CHECK(value(all_of({concluded(0), concluded(1)}), {}, {all[a], all[b]}) == both[a][b]);
            CHECK(value(any_of({concluded(0), concluded(1)}), {}, {all[a], all[b]}) == either[a][b]);
        }
    }
}

TEST_CASE("at least so many of up to five parts, by counting every completion", "[condition]") {
    for (std::size_t count = 0; count <= 5; ++count) {
        std::vector<Condition> parts;
        for (std::uint32_t part = 0; part < count; ++part) parts.push_back(concluded(part));
        std::size_t cases = 1;
        for (std::size_t i = 0; i < count; ++i) cases *= 3;
        for (int wanted = 0; wanted <= static_cast<int>(count) + 1; ++wanted) {
            const Condition condition = at_least_of(wanted, parts);
            for (std::size_t code = 0; code < cases; ++code) {
                std::vector<Truth> truths;
                for (std::size_t rest = code, i = 0; i < count; ++i, rest /= 3) truths.push_back(std::array{F, U, T}[rest % 3]);
                bool can_hold = false;
                bool can_fail = false;
                for (std::size_t completion = 0; completion < std::size_t{1} << count; ++completion) {
                    int holding = 0;
                    for (std::size_t i = 0; i < count; ++i)
                        holding += truths[i] == T || (truths[i] == U && (completion >> i & 1U) != 0);
                    (holding >= wanted ? can_hold : can_fail) = true;
                }
                CAPTURE(count, wanted, code);
                CHECK(value(condition, {}, truths) == (can_hold && can_fail ? U : can_hold ? T : F));
            }
        }
    }
}

TEST_CASE("a conclusion that nobody derived is unknown", "[condition]") {
    CHECK(value(concluded(3), {}, {T, T, T}) == U);
    CHECK(value(concluded(2), {}, {T, T, F}) == F);
    CHECK(value(conclusion_known(3), {}, {T, T, T}) == F);
    CHECK(value(conclusion_known(1), {}, {T, U, T}) == F);
    CHECK(value(conclusion_known(1), {}, {T, F, T}) == T);
}

TEST_CASE("whether a sign is known is itself always known", "[condition]") {
    CHECK(value(sign_known(0), {}) == F);
    CHECK(value(negation(sign_known(0)), {}) == T);
    CHECK(value(sign_known(0), knowing({{0, one_of(no)}})) == T);
    CHECK(value(sign_known(0), knowing({{1, one_of(no)}})) == F);
}

TEST_CASE("the condition that always holds needs nothing", "[condition]") {
    const Condition always;
    CHECK(value(always, {}) == T);
    CHECK(value(negation(always), {}) == F);
    CHECK(deciders(always, {}, {}).empty());
    CHECK(mentioned(always).signs.empty());
    CHECK(mentioned(always).conclusions.empty());
}

TEST_CASE("mentions: each once, in the order of mention, in whatever part", "[condition]") {
    const Condition condition = any_of({all_of({says(4), negation(lies(2, closed(1, 2)))}), concluded(1), sign_known(7),
                                        says(4, no), conclusion_known(0), concluded(1), lies(2, closed(5, 6))});
    CHECK(indices(mentioned(condition).signs) == Indices{4, 2, 7});
    CHECK(indices(mentioned(condition).conclusions) == Indices{1, 0});
}

TEST_CASE("deciders of and, or, not and at least: as many as it takes", "[condition][deciders]") {
    const Facts facts = knowing({{0, one_of(yes)}, {1, one_of(no)}, {2, one_of(yes)}, {3, one_of(no)}});
    const auto deciding = [&](const Condition& condition) {
        std::vector<std::uint32_t> signs;
        for (const Condition* part : deciders(condition, facts, {})) signs.push_back(std::get<Says>(part->node).sign.index);
        return signs;
    };
    CHECK(deciding(all_of({says(0), says(2)})) == Indices{0, 2});
    CHECK(deciding(all_of({says(0), says(1), says(3)})) == Indices{1});
    CHECK(deciding(any_of({says(1), says(0), says(2)})) == Indices{0});
    CHECK(deciding(any_of({says(1), says(3)})) == Indices{1, 3});
    CHECK(deciding(negation(any_of({says(1), says(3)}))) == Indices{1, 3});
    CHECK(deciding(at_least_of(2, {says(1), says(0), says(3), says(2)})) == Indices{0, 2});
    CHECK(deciding(at_least_of(3, {says(1), says(0), says(3), says(2)})) == Indices{1, 3});
    CHECK(deciding(all_of({says(0), says(9)})).empty());
    CHECK(deciding(all_of({says(9), says(1)})) == Indices{1});
}

TEST_CASE("deciders point at the parts of the condition itself", "[condition][deciders]") {
    const Condition condition = any_of({says(0), concluded(0), sign_known(5), lies(1, closed(1, 2))});
    const Condition* const parts = std::get<Quorum>(condition.node).children.data();
    const std::vector<Truth> derived = {T};
    using Parts = std::vector<const Condition*>;
    CHECK(deciders(condition, {}, derived) == Parts{&parts[1]});
    CHECK(deciders(condition, knowing({{5, one_of(no)}}), {}) == Parts{&parts[2]});
    CHECK(deciders(condition, knowing({{1, measured(closed(1, 1))}}), {}) == Parts{&parts[3]});
    CHECK(deciders(condition, knowing({{0, one_of(yes)}}), derived) == Parts{&parts[0]});
    CHECK(deciders(condition, {}, {}).empty());
}

TEST_CASE("a count that no part could change has no deciders", "[condition][deciders]") {
    const Facts facts = knowing({{0, one_of(yes)}, {1, one_of(no)}});
    for (const int wanted : {-1, 0}) {
        CAPTURE(wanted);
        CHECK(value(at_least_of(wanted, {says(0), says(1)}), facts) == T);
        CHECK(deciders(at_least_of(wanted, {says(0), says(1)}), facts, {}).empty());
    }
    for (const int wanted : {3, 4, 9}) {
        CAPTURE(wanted);
        CHECK(value(at_least_of(wanted, {says(0), says(1)}), facts) == F);
        CHECK(deciders(at_least_of(wanted, {says(0), says(1)}), facts, {}).empty());
    }
}

TEST_CASE("what could still settle a condition: unknown parts of unsettled branches only", "[condition][undecided]") {
    const Facts facts = knowing({{0, one_of(yes)}, {1, one_of(no)}});
    const Condition condition =
        all_of({says(0), any_of({says(2), says(0)}), any_of({says(3), says(1), concluded(1)}), says(4)});
    CHECK(indices(undecided(condition, facts, {}).signs) == Indices{3, 4});
    CHECK(indices(undecided(condition, facts, {}).conclusions) == Indices{1});
    CHECK(undecided(any_of({says(0), says(2)}), facts, {}).signs.empty());
    CHECK(indices(undecided(negation(all_of({says(0), says(2), says(2)})), facts, {}).signs) == Indices{2});
    CHECK(undecided(all_of({says(2), says(1)}), facts, {}).signs.empty());
}

TEST_CASE("a half-known sign could still settle a condition", "[condition][undecided]") {
    const Facts facts = knowing({{0, one_of(answer_set(0) | answer_set(1))}, {1, measured(closed(20, 30))}});
    const Condition condition =
        all_of({says(0, answer_set(1)), lies(1, closed(25, 90)), lies(1, closed(0, 40)), sign_known(2)});
    CHECK(undecided(condition, facts, {}).signs.empty());  // the unknown sign 2 settled it: no
    const Condition open_still = all_of({says(0, answer_set(1)), lies(1, closed(25, 90)), negation(sign_known(2))});
    CHECK(indices(undecided(open_still, facts, {}).signs) == Indices{0, 1});
}

}  // namespace engine_condition_test
