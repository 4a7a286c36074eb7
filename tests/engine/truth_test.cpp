#include "engine/truth.hpp"

#include "tests/catch.hpp"

#include <array>
#include <string>
#include <vector>

namespace engine_truth_test {

// Source of the tables: Kleene, Introduction to Metamathematics (1952) 332-335. at_least is checked against its meaning: what
// holds however the unknown things turn out.

using namespace lidlift;

namespace {

constexpr std::array all = {Truth::no, Truth::unknown, Truth::yes};

Truth from(char letter) { return letter == 'T' ? Truth::yes : letter == 'F' ? Truth::no : Truth::unknown; }

char letter(Truth truth) { return truth == Truth::yes ? 'T' : truth == Truth::no ? 'F' : 'U'; }

/// Every list of `length` truths.
std::vector<std::vector<Truth>> all_lists(std::size_t length) {
    std::vector<std::vector<Truth>> lists = {{}};
    for (std::size_t i = 0; i < length; ++i) {
        std::vector<std::vector<Truth>> longer;
        for (const auto& list : lists)
            for (const Truth truth : all) {
                longer.push_back(list);
                longer.back().push_back(truth);
            }
        lists = longer;
    }
    return lists;
}

/// The number of things that hold, for every way in which the unknown ones can turn out.
std::vector<int> ways_it_can_be(const std::vector<Truth>& things) {
    std::vector<int> ways = {0};
    for (const Truth truth : things) {
        std::vector<int> more;
        for (const int holding : ways) {
            if (truth != Truth::yes) more.push_back(holding);
            if (truth != Truth::no) more.push_back(holding + 1);
        }
        ways = more;
    }
    return ways;
}

template <class Test>
Truth in_all_ways(const std::vector<int>& ways, Test test) {
    bool ever = false;
    bool always = true;
    for (const int holding : ways) {
        ever = ever || test(holding);
        always = always && test(holding);
    }
    return always ? Truth::yes : ever ? Truth::unknown : Truth::no;
}

int count(const std::vector<Truth>& things, Truth wanted) {
    int found = 0;
    for (const Truth truth : things) found += truth == wanted ? 1 : 0;
    return found;
}

/// Whether `later` only settles what `earlier` left open.
bool settles(Truth earlier, Truth later) { return earlier == Truth::unknown || earlier == later; }

}  // namespace

TEST_CASE("truth: not, by Kleene's table") {
    CHECK((!Truth::yes) == Truth::no);
    CHECK((!Truth::unknown) == Truth::unknown);
    CHECK((!Truth::no) == Truth::yes);
}

TEST_CASE("truth: and, or, by Kleene's tables") {
    struct Row {
        const char *left_right, *both, *either;
    };
    const Row rows[] = {
        {"FF", "F", "F"}, {"FU", "F", "U"}, {"FT", "F", "T"}, {"UF", "F", "U"}, {"UU", "U", "U"},
        {"UT", "U", "T"}, {"TF", "F", "T"}, {"TU", "U", "T"}, {"TT", "T", "T"},
    };
    for (const Row& row : rows) {
        INFO(row.left_right);
        const Truth left = from(row.left_right[0]);
        const Truth right = from(row.left_right[1]);
        CHECK(letter(left & right) == row.both[0]);
        CHECK(letter(left | right) == row.either[0]);
    }
}

TEST_CASE("truth: what is known is yes or no") {
    CHECK(truth(true) == Truth::yes);
    CHECK(truth(false) == Truth::no);
}

TEST_CASE("truth: the laws of De Morgan hold for unknown too") {
    for (const Truth a : all)
        for (const Truth b : all) {
            CHECK((!(a & b)) == ((!a) | (!b)));
            CHECK((!(a | b)) == ((!a) & (!b)));
        }
}

TEST_CASE("truth: at_least says what holds however the unknown turns out") {
    for (std::size_t length = 0; length <= 5; ++length)
        for (const auto& things : all_lists(length)) {
            const auto ways = ways_it_can_be(things);
            const int size = static_cast<int>(length);
            for (int wanted = 0; wanted <= size + 1; ++wanted) {
                const Truth said = at_least(wanted, size, count(things, Truth::yes), count(things, Truth::no));
                const Truth meant = in_all_ways(ways, [wanted](int holding) { return holding >= wanted; });
                INFO("at least " << wanted << " of " << size);
                REQUIRE(letter(said) == letter(meant));
            }
        }
}

TEST_CASE("truth: at_least 1 is or, at_least all is and") {
    for (std::size_t length = 1; length <= 5; ++length)
        for (const auto& things : all_lists(length)) {
            Truth either = Truth::no;
            Truth both = Truth::yes;
            for (const Truth truth : things) {
                either = either | truth;
                both = both & truth;
            }
            const int size = static_cast<int>(length);
            const int yes = count(things, Truth::yes);
            const int no = count(things, Truth::no);
            REQUIRE(letter(at_least(1, size, yes, no)) == letter(either));
            REQUIRE(letter(at_least(size, size, yes, no)) == letter(both));
        }
}

TEST_CASE("truth: an answer more never turns a settled result") {
    for (const Truth a : all)
        for (const Truth b : all)
            for (const Truth later_a : all)
                for (const Truth later_b : all) {
                    if (!settles(a, later_a) || !settles(b, later_b)) continue;
                    CHECK(settles(!a, !later_a));
                    CHECK(settles(a & b, later_a & later_b));
                    CHECK(settles(a | b, later_a | later_b));
                }
}

}  // namespace engine_truth_test
