// What was understood can be typed again and is understood the same, over all signs of the default rule base.
#include "engine/answers.hpp"
#include "tests/catch.hpp"
#include "tests/engine/random_answers.hpp"
#include "tests/engine/short_rules.hpp"

#include <cmath>
#include <string>
#include <vector>

namespace engine_answers_round_trip_test {

using namespace lidlift;
using namespace lidlift::test;

namespace {

bool close(double a, double b) { return std::abs(a - b) <= 1e-5 * std::max(1.0, std::abs(a)); }

/// The same but for the sixth digit of a number, which as_value leaves out.
bool same(const Observation& a, const Observation& b) {
    if (a.possible != b.possible || a.present != b.present || a.absent != b.absent ||
        a.measured.has_value() != b.measured.has_value())
        return false;
    if (!a.measured) return true;
    return close(a.measured->low, b.measured->low) && close(a.measured->high, b.measured->high) &&
           a.measured->low_included == b.measured->low_included && a.measured->high_included == b.measured->high_included;
}

/// Empty where hearing `word`, and then as_value of it, gives the same; otherwise what went wrong.
std::string round_trip(const RuleBase& base, const std::string& word) {
    const Told told = told_in(base, {word});
    const Handle<Sign> sign = told.order.front();
    const Observation* seen = told.facts.find(sign);
    if (!seen) return "";
    const std::string value = as_value(base.signs[sign], *seen);
    Told again;
    const auto fault = hear(again, base, base.signs[sign].id, value, "again");
    if (fault) return word + " -> " + value + ": " + fault->text;
    if (!same(*seen, *again.facts.find(sign))) return word + " -> " + value + ": not the same";
    return "";
}

/// All that goes wrong, one a line, but no more than ten.
class Faults {
public:
    void add(const std::string& fault) {
        if (!fault.empty() && ++count_ <= 10) text_ += fault + "\n";
    }
    [[nodiscard]] std::string text() const {
        return count_ <= 10 ? text_ : text_ + "and " + std::to_string(count_ - 10) + " more\n";
    }

private:
    int count_ = 0;
    std::string text_;
};

}  // namespace

TEST_CASE("every single answer of the default rule base can be typed again", "[answers][round_trip]") {
    const RuleBase& base = default_base();
    Faults faults;
    for (const Sign& sign : base.signs)
        for (const Answer& answer : sign.answers) faults.add(round_trip(base, sign.id + "=" + answer.id));
    CHECK(faults.text() == "");
}

TEST_CASE("what is surely not so can be typed again", "[answers][round_trip]") {
    const RuleBase& base = default_base();
    Faults faults;
    for (const Sign& sign : base.signs) {
        if (sign.sort == SignSort::quantity) continue;
        faults.add(round_trip(base, sign.id + "=not " + sign.answers.front().id));
        if (sign.answers.size() < 3) continue;
        faults.add(round_trip(base, sign.id + "=not " + sign.answers[0].id + ",not " + sign.answers[1].id));
    }
    CHECK(faults.text() == "");
}

TEST_CASE("several answers at once, with and without not, can be typed again", "[answers][round_trip]") {
    const RuleBase& base = default_base();
    Faults faults;
    for (const Sign& sign : base.signs) {
        if (sign.sort != SignSort::several) continue;
        std::vector<std::string> plain;
        for (const Answer& answer : sign.answers)
            if (!answer.none_of_these) plain.push_back(answer.id);
        REQUIRE(plain.size() >= 2);
        faults.add(round_trip(base, sign.id + "=" + plain[0] + "," + plain[1]));
        faults.add(round_trip(base, sign.id + "=" + plain[0] + ",not " + plain[1]));
    }
    CHECK(faults.text() == "");
}

TEST_CASE("numbers and ranges of the default rule base can be typed again", "[answers][round_trip]") {
    const RuleBase& base = default_base();
    Faults faults;
    Dice dice(20261121);
    int checked = 0;
    for (const Sign& sign : base.signs) {
        if (sign.sort != SignSort::quantity) continue;
        for (int i = 0; i < 20; ++i) {
            const std::string number = random_number(dice, sign);
            for (const std::string& value :
                 {number, "above " + number, "below " + number, "at least " + number, "at most " + number}) {
                // Nothing lies above the highest or below the lowest plausible number.
                Told told;
                if (hear(told, base, sign.id, value, "")) continue;
                faults.add(round_trip(base, sign.id + "=" + value));
                ++checked;
            }
        }
    }
    CHECK(checked > 100);
    CHECK(faults.text() == "");
}

}  // namespace engine_answers_round_trip_test
