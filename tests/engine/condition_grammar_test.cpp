#include "engine/condition_grammar.hpp"

#include "tests/catch.hpp"

#include <iterator>
#include <random>
#include <string>
#include <string_view>
#include <utility>
#include <vector>

namespace engine_condition_grammar_test {

// The language is described in rules/FORMAT.md section 5; the trees and faults below were written from it by hand.

using namespace lidlift;
using namespace lidlift::written;

namespace {

// ---- Trees, written shortly.

Name word(std::string text, int column = 1) { return {std::move(text), column}; }
Number number(double value, std::string unit = "") { return {value, word(std::move(unit)), 1}; }

Condition always() { return {Always{}}; }
Condition holds(std::string name) { return {Holds{word(std::move(name))}}; }
Condition is(std::string sign, const std::vector<std::string>& answers) {
    std::vector<Name> names;
    for (const auto& answer : answers) names.push_back(word(answer));
    return {Is{word(std::move(sign)), std::move(names)}};
}
Condition known(std::string name) { return {IsKnown{word(std::move(name))}}; }
Condition compare(std::string sign, Comparison comparison, Number first, Number second = {}) {
    return {Compare{word(std::move(sign)), comparison, std::move(first), std::move(second)}};
}
Condition negated(Condition child) { return {Not{{std::move(child)}}}; }
Condition both(std::vector<Condition> children) { return {And{std::move(children)}}; }
Condition either(std::vector<Condition> children) { return {Or{std::move(children)}}; }
Condition at_least(int wanted, std::vector<Condition> children) { return {AtLeast{wanted, 1, std::move(children)}}; }

// ---- Trees without columns, for comparing what two texts mean.

Condition without_columns(Condition condition);

struct DropColumns {
    void operator()(Always&) const {}
    void operator()(Holds& node) const { drop(node.name); }
    void operator()(Is& node) const {
        drop(node.sign);
        for (Name& answer : node.answers) drop(answer);
    }
    void operator()(Compare& node) const {
        drop(node.sign);
        for (Number* each : {&node.first, &node.second}) {
            each->column = 1;
            drop(each->unit);
        }
    }
    void operator()(IsKnown& node) const { drop(node.name); }
    void operator()(Not& node) const { drop(node.child); }
    void operator()(And& node) const { drop(node.children); }
    void operator()(Or& node) const { drop(node.children); }
    void operator()(AtLeast& node) const {
        node.column = 1;
        drop(node.children);
    }

    static void drop(Name& name) { name.column = 1; }
    static void drop(std::vector<Condition>& children) {
        for (Condition& child : children) child = without_columns(std::move(child));
    }
};

Condition without_columns(Condition condition) {
    std::visit(DropColumns{}, condition.node);
    return condition;
}

/// What reading `text` gives, in one line, for a failed test.
std::string said(const Outcome<Condition>& outcome) {
    if (outcome) return to_text(*outcome);
    return std::to_string(outcome.fault().column) + ": " + outcome.fault().text;
}

std::string repeated(std::string_view text, int times) {
    std::string all;
    for (int i = 0; i < times; ++i) all += text;
    return all;
}

std::string in_parentheses(int times, const std::string& text) { return repeated("(", times) + text + repeated(")", times); }

// ---- Random trees and texts. Only the generator itself is the same everywhere, so no distribution of the library is used.

class Random {
public:
    explicit Random(unsigned seed) : generator_(seed) {}
    int below(int end) { return static_cast<int>(generator_() % static_cast<unsigned>(end)); }
    template <class List>
    const auto& one_of(const List& list) {
        return list[static_cast<std::size_t>(below(static_cast<int>(std::size(list))))];
    }

private:
    std::mt19937 generator_;
};

const std::string some_names[] = {"a", "squeeze", "notable", "is_", "android", "order", "at_2", "unknowns", "x9__", "ofen"};
const std::string some_units[] = {"", "°C", "%", "days", "dS/m", "m2", "pH", "gal_us", "µS/cm", "in", "E"};
const std::string some_numbers[] = {"0",
                                    "5",
                                    "-5",
                                    "0.5",
                                    "-0.125",
                                    "123456789012345",
                                    "0.000000000000001",
                                    "31.4",
                                    "9999",
                                    "0.1",
                                    "0.3",
                                    "1e-300",
                                    "100",
                                    "-40",
                                    "12345678.9012345",
                                    "7"};

Number random_number(Random& random) { return number(std::stod(random.one_of(some_numbers)), random.one_of(some_units)); }

Condition random_leaf(Random& random) {
    const std::string sign = random.one_of(some_names);
    switch (random.below(6)) {
        case 0:
            return always();
        case 1:
            return holds(sign);
        case 2:
            return is(sign, {random.one_of(some_names)});
        case 3:
            return is(sign, {random.one_of(some_names), random.one_of(some_names), random.one_of(some_names)});
        case 4:
            return known(sign);
        default:
            break;
    }
    const auto comparison = static_cast<Comparison>(random.below(5));
    if (comparison != Comparison::between) return compare(sign, comparison, random_number(random));
    const Number first = random_number(random);
    return compare(sign, comparison, first, random_number(random));
}

Condition random_condition(Random& random, int depth) {
    const int sort = depth == 0 ? 0 : random.below(5);
    if (sort == 0) return random_leaf(random);
    if (sort == 1) return negated(random_condition(random, depth - 1));
    std::vector<Condition> children;
    const int count = 2 + random.below(2);
    for (int i = 0; i < count; ++i) children.push_back(random_condition(random, depth - 1));
    if (sort == 2) return both(std::move(children));
    if (sort == 3) return either(std::move(children));
    return at_least(1 + random.below(count), std::move(children));
}

}  // namespace

TEST_CASE("condition: good texts and their trees") {
    struct Good {
        std::string text;
        Condition tree;
        std::string shortest;  ///< empty: the text itself
    };
    const Condition a = holds("a");
    const Condition b = holds("b");
    const Condition c = holds("c");
    const Condition d = holds("d");
    const auto above = Comparison::above;
    const auto most = Comparison::at_most;
    const auto range = Comparison::between;

    const Good table[] = {
        // Every form of the format page.
        {"squeeze is streams", is("squeeze", {"streams"}), ""},
        {"squeeze is not streams", negated(is("squeeze", {"streams"})), ""},
        {"squeeze is any of (streams, few_drops)", is("squeeze", {"streams", "few_drops"}), ""},
        {"squeeze is not any of (streams, few_drops)", negated(is("squeeze", {"streams", "few_drops"})), ""},
        {"standing_water", holds("standing_water"), ""},
        {"standing_water is yes", is("standing_water", {"yes"}), ""},
        {"bed_temperature above 32 °C", compare("bed_temperature", above, number(32, "°C")), ""},
        {"bed_temperature below 32 °C", compare("bed_temperature", Comparison::below, number(32, "°C")), ""},
        {"bed_temperature at least 32 °C", compare("bed_temperature", Comparison::at_least, number(32, "°C")), ""},
        {"bed_temperature at most 32 °C", compare("bed_temperature", most, number(32, "°C")), ""},
        {"bed_temperature between 5 °C and 10 °C", compare("bed_temperature", range, number(5, "°C"), number(10, "°C")), ""},
        {"squeeze is known", known("squeeze"), ""},
        {"squeeze is unknown", negated(known("squeeze")), ""},
        {"not a", negated(a), ""},
        {"a and b", both({a, b}), ""},
        {"a or b", either({a, b}), ""},
        {"(a)", a, "a"},
        {"at least 2 of (a, b, c)", at_least(2, {a, b, c}), ""},
        {"always", always(), ""},
        // Binding.
        {"a or b and c or d", either({a, both({b, c}), d}), ""},
        {"(a or b) and (c or d)", both({either({a, b}), either({c, d})}), ""},
        {"not a and b", both({negated(a), b}), ""},
        {"not (a and b)", negated(both({a, b})), ""},
        {"not not a", negated(negated(a)), ""},
        {"not squeeze is streams", negated(is("squeeze", {"streams"})), "squeeze is not streams"},
        {"not squeeze is not streams", negated(negated(is("squeeze", {"streams"}))), ""},
        {"not squeeze is known", negated(known("squeeze")), "squeeze is unknown"},
        {"not ph above 7", negated(compare("ph", above, number(7))), ""},
        {"a and b and c", both({a, b, c}), ""},
        {"a and (b and c)", both({a, both({b, c})}), ""},
        {"(a or b) or c", either({either({a, b}), c}), ""},
        {"(a and b) or c", either({both({a, b}), c}), "a and b or c"},
        {"at least 1 of ((a or b), (c))", at_least(1, {either({a, b}), c}), "at least 1 of (a or b, c)"},
        {"at least 1 of (a, at least 2 of (b, c)) and d", both({at_least(1, {a, at_least(2, {b, c})}), d}), ""},
        {"always and a is yes", both({always(), is("a", {"yes"})}), ""},
        {"a is any of (b)", is("a", {"b"}), "a is b"},
        // Where numbers, units and words meet.
        {"ph above 7 and x", both({compare("ph", above, number(7)), holds("x")}), ""},
        {"ph between 5 and 10 and x", both({compare("ph", range, number(5), number(10)), holds("x")}), ""},
        {"t between 5 °C and 10 °C and x", both({compare("t", range, number(5, "°C"), number(10, "°C")), holds("x")}), ""},
        {"ph above 7 or not x", either({compare("ph", above, number(7)), negated(holds("x"))}), ""},
        {"cover above 40 %and x", both({compare("cover", above, number(40, "%")), holds("x")}), "cover above 40 % and x"},
        {"t above 32°C", compare("t", above, number(32, "°C")), "t above 32 °C"},
        {"rest at most 7 days", compare("rest", most, number(7, "days")), ""},
        {"ec above 4 dS/m", compare("ec", above, number(4, "dS/m")), ""},
        {"area above 2 m2", compare("area", above, number(2, "m2")), ""},
        {"area above 2 m²", compare("area", above, number(2, "m²")), ""},
        {"acid above 7 pH", compare("acid", above, number(7, "pH")), ""},
        {"tank above 5 gal_us", compare("tank", above, number(5, "gal_us")), ""},
        {"gap above 2 in", compare("gap", above, number(2, "in")), ""},
        {"mass above 2 t", compare("mass", above, number(2, "t")), ""},
        // Which units there are is not the grammar's business.
        {"ph above 7 furlongs and x", both({compare("ph", above, number(7, "furlongs")), holds("x")}), ""},
        {"t above -5.50 °C", compare("t", above, number(-5.5, "°C")), "t above -5.5 °C"},
        {"t above +5", compare("t", above, number(5)), "t above 5"},
        {"t above -0", compare("t", above, number(0)), "t above 0"},
        {"t above 007", compare("t", above, number(7)), "t above 7"},
        {"t above 0000000000000000000001", compare("t", above, number(1)), "t above 1"},
        {"t above 123456789012345", compare("t", above, number(123456789012345)), ""},
        {"t above 0.000000000000000123456789012345", compare("t", above, number(1.23456789012345e-16)), ""},
        {"at least 1 of (t above 1, b)", at_least(1, {compare("t", above, number(1)), b}), ""},
        // Words of the language are whole words.
        {"notable and android or order", either({both({holds("notable"), holds("android")}), holds("order")}), ""},
        {"always_wet is atop", is("always_wet", {"atop"}), ""},
        {"is_wet is is_", is("is_wet", {"is_"}), ""},
        {"a is notable", is("a", {"notable"}), ""},
        {"a is anyone", is("a", {"anyone"}), ""},
        {"a is knowns", is("a", {"knowns"}), ""},
        {"abovea", holds("abovea"), ""},
        {"x2__9 is a_1", is("x2__9", {"a_1"}), ""},
        // Blanks.
        {"  not(a)and(b)\t", both({negated(a), b}), "not a and b"},
        {"a\nand\r\n b", both({a, b}), "a and b"},
        {"t above 32\u00A0°C\u202Fand a", both({compare("t", above, number(32, "°C")), a}), "t above 32 °C and a"},
        {"a is any of(b,c)", is("a", {"b", "c"}), "a is any of (b, c)"},
        {"at least 2 of(a,b)", at_least(2, {a, b}), "at least 2 of (a, b)"},
    };
    for (const Good& good : table) {
        const auto read = read_condition(good.text);
        INFO(good.text << " -> " << said(read));
        REQUIRE(static_cast<bool>(read));
        CHECK(without_columns(*read) == good.tree);
        CHECK(to_text(*read) == (good.shortest.empty() ? good.text : good.shortest));
    }
}

TEST_CASE("condition: columns count characters, not bytes") {
    const auto read = read_condition("t between 5 °C and 10 °C and at least 1 of (größer_not_here)");
    REQUIRE_FALSE(read);
    CHECK(read.fault().column == 45);

    const auto good = read_condition(" t between 5 °C and -1 °F and at least 1 of (a is any of (b, c), d is known)");
    INFO(said(good));
    REQUIRE(static_cast<bool>(good));
    const Condition expected = {
        And{{{Compare{word("t", 2), Comparison::between, {5, word("°C", 14), 12}, {-1, word("°F", 24), 21}}},
             {AtLeast{1, 40, {{Is{word("a", 46), {word("b", 59), word("c", 62)}}}, {IsKnown{word("d", 66)}}}}}}}};
    CHECK(*good == expected);

    const auto holding = read_condition("t above 1\u00A0°C or here");
    REQUIRE(static_cast<bool>(holding));
    CHECK(std::get<Holds>(std::get<Or>(holding->node).children.back().node).name == word("here", 17));
}

TEST_CASE("condition: bad texts and what is said about them") {
    struct Bad {
        std::string text;
        int column;
        std::string fault;
    };
    const std::string after_name = "expected 'is', 'above', 'below', 'at least', 'at most', 'between', 'and' or 'or' after ";
    const std::string names = " (a name begins with a letter and has only a to z, 0 to 9 and '_')";
    const std::string a_number = "expected a number such as 12 or 0.5 after 'above', found ";
    const std::string or_the_end = "expected 'and', 'or' or the end of the text after ";

    const Bad table[] = {
        // Something is missing.
        {"", 1, "expected a condition, found nothing"},
        {"   ", 4, "expected a condition, found nothing"},
        {"a and", 6, "expected a condition after 'and', found the end of the text"},
        {"a or ", 6, "expected a condition after 'or', found the end of the text"},
        {"not", 4, "expected a condition after 'not', found the end of the text"},
        {"and b", 1, "expected a condition, found 'and'"},
        {"a or or b", 6, "expected a condition after 'or', found 'or'"},
        {"a and not or b", 11, "expected a condition after 'not', found 'or'"},
        {"squeeze is", 11, "expected an answer after 'is', found the end of the text"},
        {"squeeze is and", 12, "expected an answer after 'is', found 'and'"},
        {"squeeze is not", 15, "expected an answer after 'not', found the end of the text"},
        {"squeeze is not any", 19, "expected 'of' after 'any', found the end of the text"},
        {"squeeze is any (a)", 16, "expected 'of' after 'any', found '('"},
        {"squeeze is any of a", 19, "expected '(' after 'of', found 'a'"},
        {"squeeze is any of ()", 20, "expected an answer after '(', found ')'"},
        {"squeeze is any of (a b)", 22, "expected ',' or ')' after 'a', found 'b'"},
        {"squeeze is any of (a,)", 22, "expected an answer after ',', found ')'"},
        {"squeeze is any of (a", 21, "expected ',' or ')' after 'a', found the end of the text"},
        {"ph at 7", 7, "expected 'least' or 'most' after 'at', found '7'"},
        {"ph between 5", 13, "expected 'and' after '5', found the end of the text"},
        {"ph between 5 and x", 18, "expected a number such as 12 or 0.5 after 'and', found 'x'"},
        {"t between 5 to 10", 16, "expected 'and' after 'to', found '10'"},
        // Parentheses.
        {"(a", 3, "expected 'and', 'or' or ')' after 'a', found the end of the text"},
        {"((a) and b", 11, "expected 'and', 'or' or ')' after 'b', found the end of the text"},
        {"a)", 2, or_the_end + "'a', found ')'"},
        {"()", 2, "expected a condition after '(', found ')'"},
        {"(a is b, c)", 8, "expected 'and', 'or' or ')' after 'b', found ','"},
        {"at least 1 of (a", 17, "expected 'and', 'or', ',' or ')' after 'a', found the end of the text"},
        {"at least 1 of ()", 16, "expected a condition after '(', found ')'"},
        {"at least 1 of (a,)", 18, "expected a condition after ',', found ')'"},
        {"at least 1 of a", 15, "expected '(' after 'of', found 'a'"},
        // Something is too much.
        {"a b", 3, after_name + "'a', found 'b'"},
        {"squeeze is streams few", 20, or_the_end + "'streams', found 'few'"},
        {"squeeze is streams.", 19, or_the_end + "'streams', found '.'"},
        {"(a or b) c", 10, or_the_end + "')', found 'c'"},
        {"(a) is b", 5, or_the_end + "')', found 'is'"},
        {"always is yes", 8, or_the_end + "'always', found 'is'"},
        {"a, b", 2, or_the_end + "'a', found ','"},
        {"t above 5 °C 7", 14, or_the_end + "'°C', found '7'"},
        {"t above 5 °C °F", 14, or_the_end + "'°C', found '°F'"},
        {"ph above 7 x y", 14, or_the_end + "'x', found 'y'"},
        // Misspelt words.
        {"squeeze abvoe 5", 9, after_name + "'squeeze', found 'abvoe'"},
        {"bed temperature above 5", 5, after_name + "'bed', found 'temperature'"},
        {"ph above 7 adn x", 16, or_the_end + "'adn', found 'x'"},
        {"ph at lest 7", 7, "expected 'least' or 'most' after 'at', found 'lest'"},
        {"at most 2 of (a)", 4, "expected 'least' after 'at', found 'most'"},
        {"a is not above 5", 10, "expected an answer after 'not', found 'above'"},
        // Words of the language as names.
        {"most is yes", 1, "expected a condition, found 'most'"},
        {"a is of", 6, "expected an answer after 'is', found 'of'"},
        {"a is any of (b, known)", 17, "expected an answer after ',', found 'known'"},
        // Programmers' signs.
        {"squeeze = streams", 9, "expected 'is' after 'squeeze', found '='"},
        {"squeeze == streams", 9, "expected 'is' after 'squeeze', found '=='"},
        {"squeeze=streams", 8, "expected 'is' after 'squeeze', found '='"},
        {"squeeze != streams", 9, "expected 'is not' after 'squeeze', found '!='"},
        {"ph > 7", 4, "expected 'above' after 'ph', found '>'"},
        {"ph < 7", 4, "expected 'below' after 'ph', found '<'"},
        {"ph >= 7", 4, "expected 'at least' after 'ph', found '>='"},
        {"ph <= 7", 4, "expected 'at most' after 'ph', found '<='"},
        {"ph ≥ 7", 4, "expected 'at least' after 'ph', found '≥'"},
        {"a && b", 3, "expected 'and' after 'a', found '&&'"},
        {"a is b || c", 8, "expected 'or' after 'b', found '||'"},
        {"(a is b & c)", 9, "expected 'and' after 'b', found '&'"},
        {"!a", 1, "expected 'not', found '!'"},
        {"a and !b", 7, "expected 'not' after 'and', found '!'"},
        {"squeeze is == streams", 12, "expected an answer after 'is', found '=='"},
        {"a is b = c", 8, or_the_end + "'b', found '='"},
        {"a is 'b'", 6, "expected an answer after 'is', found \"'\""},
        {"a is \"b\"", 6, "expected an answer after 'is', found '\"'"},
        // Capital letters and characters that names do not have.
        {"Squeeze is streams", 1, "expected 'squeeze' in small letters, found 'Squeeze'"},
        {"squeeze is Streams", 12, "expected 'streams' in small letters after 'is', found 'Streams'"},
        {"squeeze is any of (a, B)", 23, "expected 'b' in small letters after ',', found 'B'"},
        {"squeeze IS streams", 9, "expected 'is' in small letters after 'squeeze', found 'IS'"},
        {"ph Above 7", 4, "expected 'above' in small letters after 'ph', found 'Above'"},
        {"a AND b", 3, "expected 'and' in small letters after 'a', found 'AND'"},
        {"t above 5 OR b", 11, "expected 'or' in small letters after '5', found 'OR'"},
        {"NOT a", 1, "expected 'not' in small letters, found 'NOT'"},
        {"a is NOT b", 6, "expected 'not' in small letters after 'is', found 'NOT'"},
        {"a and AND b", 7, "expected a condition after 'and', found 'AND'"},
        {"bed-temperature above 5", 1, "expected a condition" + names + ", found 'bed-temperature'"},
        {"größe is x", 1, "expected a condition" + names + ", found 'größe'"},
        {"x and größe", 7, "expected a condition" + names + " after 'and', found 'größe'"},
        {"x is größe", 6, "expected an answer" + names + " after 'is', found 'größe'"},
        {"x is 2_to_5", 6, "expected an answer" + names + " after 'is', found '2_to_5'"},
        {"_a", 1, "expected a condition" + names + ", found '_a'"},
        {"5 above x", 1, "expected a condition" + names + ", found '5'"},
        // Numbers.
        {"t above", 8, a_number + "the end of the text"},
        {"t above °C", 9, a_number + "'°C'"},
        {"t above inf", 9, a_number + "'inf'"},
        {"t above -inf", 9, a_number + "'-inf'"},
        {"t above nan", 9, a_number + "'nan'"},
        {"t above 1e3", 9, a_number + "'1e3'"},
        {"t above 1E-3", 9, a_number + "'1E-3'"},
        {"t above 0x10", 9, a_number + "'0x10'"},
        {"t above 0xFF", 9, a_number + "'0xFF'"},
        {"t above 1,5 °C", 9, a_number + "'1,5'"},
        {"t above 1.2.3", 9, a_number + "'1.2.3'"},
        {"t above 5.", 9, a_number + "'5.'"},
        {"t above .5", 9, a_number + "'.5'"},
        {"t above 1_000", 9, a_number + "'1_000'"},
        {"t above --5", 9, a_number + "'--5'"},
        {"t above - 5", 9, a_number + "'-'"},
        {"t above 5-10", 9, a_number + "'5-10'"},
        {"t above 1 000", 11, or_the_end + "'1', found '000'"},
        {"t above 1234567890.123456", 9, "expected a number of at most 15 digits after 'above', found '1234567890.123456'"},
        {"t above 1000000000000000", 9, "expected a number of at most 15 digits after 'above', found '1000000000000000'"},
        {"t above 0." + repeated("0", 400) + "1", 9,
         "expected a number with fewer decimals after 'above', found '0." + repeated("0", 38) + "...'"},
        // How many of a list.
        {"at least 0 of (a, b)", 10, "expected a number from 1 to 2 after 'least', found '0'"},
        {"at least 3 of (a, b)", 10, "expected a number from 1 to 2 after 'least', found '3'"},
        {"x and at least 2 of (a)", 16, "expected '1' after 'least', found '2'"},
        {"at least 99999999999999999999 of (a, b)", 10,
         "expected a number from 1 to 2 after 'least', found '99999999999999999999'"},
        {"at least 2.5 of (a, b, c)", 10, "expected a whole number after 'least', found '2.5'"},
        {"at least -1 of (a)", 10, "expected a whole number after 'least', found '-1'"},
        {"at least two of (a, b)", 10, "expected a whole number after 'least', found 'two'"},
        {"at least 2of (a, b)", 10, "expected a whole number after 'least', found '2of'"},
        {"at least 2 (a, b)", 12, "expected 'of' after '2', found '('"},
        // Long pieces are cut between characters.
        {"a " + repeated("°", 30), 3, after_name + "'a', found '" + repeated("°", 20) + "...'"},
        {"a x" + repeated("°", 30), 3, after_name + "'a', found 'x" + repeated("°", 19) + "...'"},
        {"a " + repeated("\x80", 60), 3, after_name + "'a', found '...'"},  // is not UTF-8: no character begins anywhere
        {std::string("a\0b", 3), 2, after_name + "'a', found '" + std::string(1, '\0') + "'"},
    };
    for (const Bad& bad : table) {
        const auto read = read_condition(bad.text);
        INFO(bad.text << " -> " << said(read));
        REQUIRE_FALSE(read);
        CHECK(read.fault() == Fault{bad.fault, bad.column});
    }
}

TEST_CASE("condition: fifty levels are read") {
    const std::string table[] = {
        in_parentheses(50, "a"),
        repeated("not ", 50) + "a",
        repeated("not (", 25) + "a" + repeated(")", 25),
        repeated("at least 1 of (", 50) + "a is any of (b, c)" + repeated(")", 50),
        in_parentheses(49, "(a) and not b or at least 1 of (c, d)"),  // siblings are not nested
        repeated("(not a) and ", 300) + "b",
    };
    for (const std::string& text : table) {
        const auto read = read_condition(text);
        INFO(text << " -> " << said(read));
        CHECK(static_cast<bool>(read));
    }
}

TEST_CASE("condition: the fifty-first level is refused where it begins") {
    const std::string too_deep = "expected no more than 50 nested parentheses and 'not's after ";
    struct Deep {
        std::string text;
        int column;
        std::string end_of_fault;
    };
    const Deep table[] = {
        {in_parentheses(51, "a"), 51, "'(', found '('"},
        {repeated("not ", 51) + "a", 201, "'not', found 'not'"},
        {"not " + in_parentheses(50, "a"), 54, "'(', found '('"},
        {repeated("not (", 25) + "a or (b)", 131, "'or', found '('"},
        {repeated("at least 1 of (", 51) + "a" + repeated(")", 51), 51 * 15, "'of', found '('"},
        {in_parentheses(49, "(a) and at least 1 of (c, (d))"), 49 + 27, "',', found '('"},
    };
    for (const Deep& deep : table) {
        const auto read = read_condition(deep.text);
        INFO(deep.text << " -> " << said(read));
        REQUIRE_FALSE(read);
        CHECK(read.fault() == Fault{too_deep + deep.end_of_fault, deep.column});
    }
}

TEST_CASE("condition: the longest text is read, a byte more is refused") {
    const std::string longest = std::string(longest_condition - 1, ' ') + "a";
    CHECK(static_cast<bool>(read_condition(longest)));
    const auto longer = read_condition(longest + " ");
    REQUIRE_FALSE(longer);
    CHECK(longer.fault() == Fault{"expected at most 4096 bytes, found 4097", 0});
}

TEST_CASE("condition: nothing that is written makes the reader crash") {
    for (const std::string_view piece :
         {"(", "not ", "at least 1 of (", "a and ", "a or ", "((a) or ", "not(", "a is any of (", "°"})
        for (const int times : {200, 600, 100'000}) {
            INFO(piece << " " << times << " times");
            CHECK_FALSE(read_condition(repeated(piece, times)));
        }
}

TEST_CASE("condition: what to_text writes reads as the same condition") {
    Random random(20260101);
    int tried = 0;
    for (int i = 0; i < 4000; ++i) {
        const Condition tree = random_condition(random, random.below(5));
        const std::string text = to_text(tree);
        if (text.size() > longest_condition) continue;
        ++tried;
        const auto read = read_condition(text);
        INFO(text << " -> " << said(read));
        REQUIRE(static_cast<bool>(read));
        REQUIRE(without_columns(*read) == tree);
    }
    CHECK(tried > 3000);
}

TEST_CASE("condition: to_text writes no parentheses that could be left out") {
    Random random(20260102);
    int tried = 0;
    for (int i = 0; i < 2000; ++i) {
        const Condition tree = random_condition(random, 1 + random.below(3));
        const std::string text = to_text(tree);
        if (text.size() > longest_condition) continue;
        // Without one pair, the text is no condition any more, or another one.
        std::vector<std::size_t> open;
        for (std::size_t at = 0; at < text.size(); ++at) {
            if (text[at] == '(') open.push_back(at);
            if (text[at] != ')') continue;
            std::string without = text;
            without[at] = ' ';
            without[open.back()] = ' ';
            open.pop_back();
            const auto read = read_condition(without);
            INFO(text << " -> " << without);
            REQUIRE_FALSE((read && without_columns(*read) == tree));
            ++tried;
        }
    }
    CHECK(tried > 2000);
}

TEST_CASE("condition: a good text with one thing changed is read or refused, with a column inside it") {
    Random random(20260103);
    const std::string pieces[] = {"(",        ")",          ",", " not ", " and ", " or ", " is ",
                                  " any of ", " at least ", "°", "\xC2",  "\xFF",  "\t",   " 5 °C",
                                  "-",        ".",          "A", "",      " ",     "=",    "\x01"};
    for (int i = 0; i < 5000; ++i) {
        std::string text = to_text(random_condition(random, random.below(3)));
        const auto from = static_cast<std::size_t>(random.below(static_cast<int>(text.size())));
        text.replace(from, static_cast<std::size_t>(random.below(4)), random.one_of(pieces));
        const auto read = read_condition(text);
        INFO(text << " -> " << said(read));
        if (read) {
            const auto again = read_condition(to_text(*read));
            REQUIRE(static_cast<bool>(again));
            REQUIRE(without_columns(*again) == without_columns(*read));
        } else if (text.size() <= longest_condition) {
            REQUIRE(read.fault().column >= 1);
            REQUIRE(read.fault().column <= static_cast<int>(text.size()) + 1);
        }
    }
}

}  // namespace engine_condition_grammar_test
