#include "engine/amount_grammar.hpp"

#include "tests/catch.hpp"

#include <random>
#include <string>
#include <string_view>
#include <utility>
#include <vector>

namespace engine_amount_grammar_test {

// The language is described in rules/FORMAT.md section 7; the trees and faults below were written from it by hand.

using namespace lidlift;
using namespace lidlift::written;

namespace {

Name word(std::string text, int column = 1) { return {std::move(text), column}; }

/// What reading `text` gives, in one line, for a failed test.
std::string said(const Outcome<Formula>& outcome) {
    if (outcome) return to_text(*outcome);
    return std::to_string(outcome.fault().column) + ": " + outcome.fault().text;
}

Formula read(const std::string& text) {
    const auto outcome = read_amount_formula(text);
    INFO(text << " -> " << said(outcome));
    REQUIRE(outcome);
    return *outcome;
}

/// Without columns, for comparing what two texts mean.
void drop(Part& part) {
    part.column = 1;
    part.depth.size.column = part.depth.unit.column = 1;
}
void drop(Measured& measured) { measured.size.column = measured.unit.column = 1; }
void drop(std::vector<Name>& names) {
    for (Name& name : names) name.column = 1;
}
void drop(Basis& basis) {
    basis.column = basis.unit.column = 1;
    if (Part* part = std::get_if<Part>(&basis.what))
        drop(*part);
    else
        std::get<Name>(basis.what).column = 1;
}
Formula without_columns(Formula amount) {
    if (Reach* reach = std::get_if<Reach>(&amount.how)) {
        drop(reach->of);
        drop(reach->part);
        reach->to.column = 1;
    } else if (Layer* layer = std::get_if<Layer>(&amount.how)) {
        drop(layer->depth);
        drop(layer->of);
    } else {
        Dose& dose = std::get<Dose>(amount.how);
        drop(dose.size);
        drop(dose.of);
        drop(dose.each);
    }
    for (Limit& limit : amount.limits) {
        drop(limit.size);
        drop(limit.each);
    }
    return amount;
}

}  // namespace

TEST_CASE("What brings a part of the tank to a goal", "[amounts]") {
    const Formula top = read("dry_leaves or torn_paper to bring the top 20 cm of the bed to 75 % moisture");
    const Reach& reach = std::get<Reach>(top.how);
    CHECK(reach.of == std::vector<Name>{word("dry_leaves", 1), word("torn_paper", 15)});
    CHECK(reach.part == Part{Part::What::top, Where::bed, {{20, 20, 43}, word("cm", 46)}, 35});
    CHECK(reach.goal == Reach::Goal::moisture);
    CHECK(reach.to == Span{75, 75, 63});
    CHECK(top.limits.empty());
    CHECK(top.portions == 1);

    const Formula load = read(
        "sawdust to bring the last load to a carbon to nitrogen ratio of 25 to 30, at most 1 kg for each kg of the last load");
    CHECK(std::get<Reach>(load.how).part.what == Part::What::last_load);
    CHECK(std::get<Reach>(load.how).goal == Reach::Goal::carbon_to_nitrogen);
    CHECK(std::get<Reach>(load.how).to == Span{25, 30, 65});
    REQUIRE(load.limits.size() == 1);
    CHECK(load.limits.front().size == Measured{{1, 1, 83}, word("kg", 85)});
    CHECK(std::get<Part>(load.limits.front().each.what).what == Part::What::last_load);

    CHECK(std::get<Reach>(read("water to bring the feed of a day to 60 to 70 % moisture").how).part.what ==
          Part::What::feed_of_a_day);
    CHECK(std::get<Reach>(read("water to bring the next bay to 55 % moisture").how).part.where == Where::next_bay);
}

TEST_CASE("A layer, and a dose", "[amounts]") {
    const Layer layer = std::get<Layer>(read("a layer of 3 to 5 cm of dry_leaves over half of the bed").how);
    CHECK(layer == Layer{{{3, 5, 12}, word("cm", 19)}, {word("dry_leaves", 25)}, true, Where::bed});
    CHECK_FALSE(std::get<Layer>(read("a layer of 15 cm of sawdust over the heap").how).half);

    const Dose lime = std::get<Dose>(read("30 to 50 g of ground_limestone for each m2 of the bed").how);
    CHECK(lime.size == Measured{{30, 50, 1}, word("g", 10)});
    CHECK(lime.each.number == 1);
    CHECK(lime.each.unit == word("m2", 41));
    CHECK(std::get<Part>(lime.each.what) == Part{Part::What::all, Where::bed, {}, 47});
    CHECK_FALSE(lime.in_all);
    CHECK_FALSE(lime.a_day);

    const Formula feed = read("0.25 to 0.5 kg of feed a day for each kg of worms, at most 0.7 to 2 kg for each m2 of the bed");
    CHECK(std::get<Dose>(feed.how).a_day);
    CHECK(std::get<Name>(std::get<Dose>(feed.how).each.what).text == "worms");
    CHECK(feed.limits.size() == 1);

    const Dose worms = std::get<Dose>(read("1.6 to 5 kg of worms in all for each m2 of the bed").how);
    CHECK(worms.in_all);
    CHECK(worms.of.front().text == "worms");

    const Dose slurry = std::get<Dose>(read("5 kg of cow_dung for each 1000 kg of the heap").how);
    CHECK(slurry.each.number == 1000);
    CHECK(slurry.each.column == 27);

    const Dose filling =
        std::get<Dose>(read("1 to 2 buckets of dry_leaves for each bucket of kitchen_waste to fill the next bay").how);
    CHECK(std::get<Name>(filling.each.what).text == "kitchen_waste");
    CHECK(filling.each.fill == Where::next_bay);

    CHECK(std::get<Part>(
              std::get<Dose>(read("1 to 2 buckets of straw in all for each bucket of the wet part of the last load").how)
                  .each.what)
              .what == Part::What::wet_part);
    CHECK(read("1 L of water for each L of the bed, in 10 portions").portions == 10);
}

TEST_CASE("Blanks, line ends and no-break spaces change nothing in a formula", "[amounts]") {
    const Formula plain = without_columns(read("30 to 50 g of lime for each m2 of the bed, in 2 portions"));
    CHECK(without_columns(read("  30\nto 50\tg of lime for  each m2 of the bed ,in 2\r\nportions ")) == plain);
    CHECK(without_columns(read("30 to 50\xC2\xA0g of lime for each m2 of the bed, in 2\xE2\x80\xAFportions")) == plain);
    CHECK(std::get<Reach>(read("water to bring the bed to 75% moisture").how).to.low == 75);
}

TEST_CASE("Faults of a formula name what was expected, and the column", "[amounts]") {
    struct Case {
        std::string text;
        std::string fault;
    };
    const Case cases[] = {
        {"", "1: expected a material, a number or 'a layer of', found nothing"},
        {"Dry leaves", "1: expected a material, a number or 'a layer of', found 'Dry'"},
        {"dry leaves to bring the bed to 75 % moisture", "5: expected 'or' or 'to bring' after 'dry', found 'leaves'"},
        {"water to bring a bed to 75 % moisture",
         "16: expected 'the bed', 'the top', 'the last load' or the like after 'bring', found 'a'"},
        {"water to bring the pile to 75 % moisture",
         "20: expected 'bed', 'heap', 'bay', 'next bay', 'top', 'last load', 'wet part of the last load' or 'feed of a day' "
         "after "
         "'the', found 'pile'"},
        {"water to bring the bed to 75 moisture", "30: expected '% moisture' after '75', found 'moisture'"},
        {"water to bring the bed to moist",
         "27: expected '75 % moisture' or 'a carbon to nitrogen ratio of 25 to 30' after 'to', found 'moist'"},
        {"water to bring the bed to a ratio of 25", "29: expected 'carbon to nitrogen ratio of' after 'a', found 'ratio'"},
        {"water to bring the bed to 75 % moisture now",
         "41: expected ',' or the end of the text after 'moisture', found 'now'"},
        {"water to bring the bed to 80 to 70 % moisture", "27: expected the smaller number first after 'to', found '80'"},
        {"water to bring the top 20 of the bed to 75 % moisture",
         "27: expected a unit such as kg, cm or buckets after '20', found 'of'"},
        {"a layer of dry_leaves", "12: expected a number and a unit after 'of', found 'dry_leaves'"},
        {"a layer of 3 cm of dry_leaves on the bed", "31: expected 'or' or 'over' after 'dry_leaves', found 'on'"},
        {"a layer of 3 cm of the bed", "20: expected a material after 'of', found 'the'"},
        {"30 g of lime", "13: expected 'or', 'in all', 'a day' or 'for each' after 'lime', found the end of the text"},
        {"30 g of lime for each m2", "25: expected 'of' after 'm2', found the end of the text"},
        {"30 g of lime for each m2 of",
         "28: expected 'worms', a material, 'the bed', 'the last load' or the like after 'of', found the end of the text"},
        {"30 g of lime for each 0 m2 of the bed", "23: expected a number above 0 after 'each', found '0'"},
        {"1,5 kg of lime for each m2 of the bed", "1: expected a material, a number or 'a layer of', found '1,5'"},
        {"-3 kg of lime for each m2 of the bed", "1: expected a material, a number or 'a layer of', found '-3'"},
        {"1e3 kg of lime for each m2 of the bed", "1: expected a material, a number or 'a layer of', found '1e3'"},
        {"1234567890123456 kg of lime for each m2 of the bed",
         "1: expected a number of at most 15 digits, found '1234567890123456'"},
        {"1 L of water for each L of the bed, in 1 portions",
         "40: expected a whole number from 2 to 100 after 'in', found '1'"},
        {"1 L of water for each L of the bed, in 101 portions",
         "40: expected a whole number from 2 to 100 after 'in', found '101'"},
        {"1 L of water for each L of the bed, in 2.5 portions",
         "40: expected a whole number from 2 to 100 after 'in', found '2.5'"},
        {"1 L of water for each L of the bed, 10 portions",
         "37: expected 'at most' or 'in ... portions' after ',', found '10'"},
        {"1 L of water for each L of the bed, at most 3",
         "46: expected a unit such as kg, cm or buckets after '3', found the end of the text"},
    };
    for (const Case& each : cases) {
        INFO(each.text);
        CHECK(said(read_amount_formula(each.text)) == each.fault);
    }
}

TEST_CASE("A formula has limits", "[amounts]") {
    const std::string formula = "water to bring the bed to 75 % moisture";
    const std::string longest = formula + std::string(longest_amount - formula.size(), ' ');
    CHECK(read_amount_formula(longest));
    CHECK(said(read_amount_formula(longest + " ")) == "0: expected at most 1024 bytes, found 1025");

    std::string choices = "a0";
    for (std::size_t i = 1; i < most_choices_of_amount; ++i) choices += " or a" + std::to_string(i);
    CHECK(read_amount_formula(choices + " to bring the bed to 75 % moisture"));
    CHECK(said(read_amount_formula(choices + " or b to bring the bed to 75 % moisture")) ==
          "49: expected at most 8 materials, found 9");

    std::string limited = formula;
    for (std::size_t i = 0; i < most_limits_of_amount; ++i) limited += ", at most 3 kg for each m2 of the bed";
    CHECK(read_amount_formula(limited));
    CHECK_FALSE(read_amount_formula(limited + ", at most 3 kg for each m2 of the bed"));
    CHECK(read_amount_formula("1 L of water for each L of the bed, in 100 portions"));
}

namespace {

/// Formulas of every shape, from a fixed seed.
class RandomFormulas {
public:
    explicit RandomFormulas(unsigned seed) : random_(seed) {}

    Formula amount() {
        Formula result;
        switch (pick(3)) {
            case 0:
                result.how = Reach{names(), part(), pick(2) ? Reach::Goal::moisture : Reach::Goal::carbon_to_nitrogen, span()};
                break;
            case 1:
                result.how = Layer{measured(), names(), pick(2) == 1, static_cast<Where>(pick(4))};
                break;
            default:
                result.how = Dose{measured(), names(), pick(2) == 1, pick(2) == 1, basis()};
        }
        for (int i = pick(3); i > 0; --i) result.limits.push_back({measured(), basis()});
        if (pick(3) == 0) result.portions = 2 + pick(99);
        return result;
    }

private:
    int pick(int below) { return std::uniform_int_distribution<int>(0, below - 1)(random_); }
    double number() { return 1 + pick(1000) / (pick(2) ? 1.0 : 8.0); }
    Span span() {
        const double low = number();
        return {low, pick(2) ? low : low + number(), 1};
    }
    Name unit() {
        static const char* const units[] = {"g", "kg", "L", "m2", "cm", "bucket", "buckets", "m²"};
        return word(units[pick(8)]);
    }
    Name name() {
        static const char* const known[] = {"dry_leaves", "water", "worms", "feed", "a_b", "top", "bed", "each"};
        return word(known[pick(8)]);
    }
    std::vector<Name> names() {
        std::vector<Name> result;
        for (int i = 1 + pick(4); i > 0; --i) result.push_back(name());
        return result;
    }
    Measured measured() { return {span(), unit()}; }
    Part part() {
        Part result;
        result.what = static_cast<Part::What>(pick(5));
        if (result.what == Part::What::all || result.what == Part::What::top) result.where = static_cast<Where>(pick(4));
        if (result.what == Part::What::top) result.depth = measured();
        return result;
    }
    Basis basis() {
        Basis result;
        if (pick(3) == 0) result.number = number();
        result.unit = unit();
        if (pick(2)) {
            result.what = part();
        } else {
            result.what = name();
            if (pick(2)) result.fill = static_cast<Where>(pick(4));
        }
        return result;
    }

    std::mt19937 random_;
};

}  // namespace

TEST_CASE("A formula that was written out reads as the same formula", "[amounts]") {
    RandomFormulas formulas(20260309);
    for (int i = 0; i < 5000; ++i) {
        const Formula amount = formulas.amount();
        const auto again = read_amount_formula(to_text(amount));
        INFO(to_text(amount) << "\n" << said(again));
        REQUIRE(again);
        REQUIRE(without_columns(*again) == amount);
        REQUIRE(to_text(*again) == to_text(amount));
    }
}

TEST_CASE("Any bytes are read or refused as a formula, with a column inside the text", "[amounts]") {
    std::mt19937 random(7);
    const std::string_view pieces[] = {"a ",        "layer ",    "of ",      "3 ",     "to ",    "cm ",  "the ", "bed ",
                                       "for each ", "m2 ",       ", ",       "in ",    "all ",   "day ", "%",    "kg ",
                                       "or ",       "moisture ", "at most ", "x ",     "\xC3",   "\xB0", "(",    "1e400 ",
                                       "-1 ",       "0.5 ",      "top ",     "bring ", "worms ", "\n"};
    for (int i = 0; i < 20000; ++i) {
        std::string text;
        for (int n = std::uniform_int_distribution<int>(0, 14)(random); n > 0; --n)
            text += pieces[std::uniform_int_distribution<std::size_t>(0, std::size(pieces) - 1)(random)];
        const auto outcome = read_amount_formula(text);
        if (outcome) continue;
        INFO(text);
        REQUIRE(outcome.fault().column >= 1);
        REQUIRE(outcome.fault().column <= static_cast<int>(text.size()) + 1);
        REQUIRE_FALSE(outcome.fault().text.empty());
    }
}

}  // namespace engine_amount_grammar_test
