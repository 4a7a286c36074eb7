#include "engine/condition_grammar.hpp"

#include "engine/written_text.hpp"

#include <algorithm>
#include <array>
#include <charconv>
#include <limits>
#include <utility>

#include <boost/fusion/include/invoke.hpp>
#include <boost/fusion/include/is_sequence.hpp>
#include <boost/spirit/home/x3.hpp>

namespace lidlift {
namespace {

namespace x3 = boost::spirit::x3;
using namespace written;

// ---- Words.

constexpr std::array<std::string_view, 15> words_of_the_language = {
    "above", "always", "and", "any", "at", "below", "between", "is", "known", "least", "most", "not", "of", "or", "unknown"};

// ---- Faults, said more closely than by engine/written_text alone.

// What is expected at the places that a person most often gets wrong.
constexpr const char* a_condition = "a condition";
constexpr const char* an_answer = "an answer";
constexpr const char* more_of_a_statement = "'is', 'above', 'below', 'at least', 'at most', 'between', 'and' or 'or'";

/// The programmers' signs for the language's words.
constexpr std::pair<std::string_view, std::string_view> foreign_signs[] = {
    {"=", "is"},    {"==", "is"},       {"!=", "is not"},   {"<>", "is not"},  {"≠", "is not"},   {">", "above"},
    {"<", "below"}, {">=", "at least"}, {"=>", "at least"}, {"≥", "at least"}, {"<=", "at most"}, {"≤", "at most"},
    {"&", "and"},   {"&&", "and"},      {"|", "or"},        {"||", "or"},      {"!", "not"}};

/// Whether the list `expected` has an item that is or begins with `word`.
bool lists(std::string_view expected, std::string_view word) {
    const std::string item = "'" + std::string(word);
    return expected.find(item + "'") != expected.npos || expected.find(item + " ") != expected.npos;
}

/// What was expected, said more closely where `piece` shows what the person had in mind.
std::string narrowed(const std::string& expected, std::string_view piece) {
    const bool wants_name = expected == a_condition || expected == an_answer;
    const std::string words = expected == a_condition ? "'always', 'at', 'not'"
                              : expected == an_answer ? "'any', 'known', 'not', 'unknown'"
                                                      : expected;
    for (const auto& [sign, word] : foreign_signs)
        if (piece == sign && lists(words, word.substr(0, word.find(' ')))) return quoted(word);

    const std::string small = in_small_letters(piece);
    if (small != piece && (lists(words, small) || (wants_name && is_name(small) && !is_word_of_the_language(small))))
        return quoted(small) + " in small letters";

    if (wants_name && !piece.empty() && is_word_character(piece.front()) && !is_name(small))
        return expected + " (a name begins with a letter and has only a to z, 0 to 9 and '_')";
    return expected;
}

Fault fault(const Unmet& unmet, std::string_view text) {
    return fault_of({narrowed(unmet.expected, piece_at(text, unmet.place)), unmet.place}, text);
}

// ---- What the parts of the grammar make.

/// What the grammar's actions need to know beside the text they matched.
struct Reading {
    std::string_view text;
    int depth = 0;  ///< parentheses and `not`s that are open
};

template <class Context>
std::string_view matched(const Context& context) {
    const auto& range = x3::_attr(context);
    return {range.begin(), range.end()};
}

template <class Context>
int column(const Context& context) {
    return column_of(x3::get<Reading>(context).text, matched(context).data());
}

constexpr auto keep_as_name = [](auto& context) {
    if (is_word_of_the_language(matched(context)))
        x3::_pass(context) = false;
    else
        x3::_val(context) = Name{std::string(matched(context)), column(context)};
};

/// A unit is text that the reader of the rule base looks up; but "5 and" and "5 AND" go on with the condition.
constexpr auto keep_as_unit = [](auto& context) {
    if (is_word_of_the_language(in_small_letters(matched(context))))
        x3::_pass(context) = false;
    else
        x3::_val(context).unit = Name{std::string(matched(context)), column(context)};
};

constexpr auto keep_as_number = [](auto& context) {
    const std::string_view text = matched(context);
    const auto number = number_of(text);
    if (!number) throw Unmet{number.fault().text, text.data()};
    x3::_val(context) = Number{*number, {}, column(context)};
};

/// The N of "at least N of".
struct Count {
    int number = 0;
    const char* place = nullptr;
    int column = 1;
};

constexpr auto keep_as_count = [](auto& context) {
    const std::string_view text = matched(context);
    int number = 0;
    if (std::from_chars(text.data(), text.data() + text.size(), number).ec != std::errc{})
        number = std::numeric_limits<int>::max();
    x3::_val(context) = Count{number, text.data(), column(context)};
};

constexpr auto go_deeper = [](auto& context) {
    if (++x3::get<Reading>(context).depth <= deepest_condition) return;
    throw Unmet{"no more than " + std::to_string(deepest_condition) + " nested parentheses and 'not's",
                matched(context).data()};
};
constexpr auto come_back = [](auto& context) { --x3::get<Reading>(context).depth; };

/// The action that makes the rule's condition by calling `make` with the parts that were matched.
template <class Make>
auto by(Make make) {
    return [make](auto& context) {
        auto& parts = x3::_attr(context);
        if constexpr (boost::fusion::traits::is_sequence<std::decay_t<decltype(parts)>>::value)
            x3::_val(context) = boost::fusion::invoke(make, parts);
        else
            x3::_val(context) = make(std::move(parts));
    };
}

Condition holds(Name name) { return {Holds{std::move(name)}}; }
Condition negated(Condition condition) { return {Not{{std::move(condition)}}}; }
Condition is(Name sign, std::vector<Name> answers) { return {Is{std::move(sign), std::move(answers)}}; }
Condition is_not(Name sign, std::vector<Name> answers) { return negated(is(std::move(sign), std::move(answers))); }
Condition is_known(Name name) { return {IsKnown{std::move(name)}}; }
Condition is_unknown(Name name) { return negated(is_known(std::move(name))); }
Condition compare(Name sign, Comparison comparison, Number with) {
    return {Compare{std::move(sign), comparison, std::move(with), {}}};
}
Condition between(Name sign, Number first, Number second) {
    return {Compare{std::move(sign), Comparison::between, std::move(first), std::move(second)}};
}
Condition at_least(Count wanted, std::vector<Condition> children) {
    if (const int most = static_cast<int>(children.size()); wanted.number < 1 || wanted.number > most)
        throw Unmet{most == 1 ? "'1'" : "a number from 1 to " + std::to_string(most), wanted.place};
    return {AtLeast{wanted.number, wanted.column, std::move(children)}};
}
Condition itself(Condition condition) { return condition; }
/// "A", or "A and B": a node only where there is something to join.
template <class Node>
Condition joined(std::vector<Condition> parts) {
    return parts.size() == 1 ? std::move(parts.front()) : Condition{Node{std::move(parts)}};
}

// ---- The grammar. `>>` may still turn out to be another form. Behind `>` nothing else will do: a fault there is the
// ---- person's, and nothing that was opened is tried again, so the depth stays right. What stands behind `>` has a name
// ---- for the fault.

template <bool (*belongs)(char)>
struct Character : x3::char_parser<Character<belongs>> {
    using attribute_type = x3::unused_type;
    static constexpr bool has_attribute = false;
    template <class Context>
    bool test(char c, const Context&) const {
        return belongs(c);
    }
};

const Character<is_blank> blank;
const Character<is_digit> digit;
const Character<is_sign> sign;
const Character<is_word_character> word_character;

auto word(const char* text) { return x3::lexeme[x3::lit(text) >> !word_character]; }

template <class Attribute = x3::unused_type, class Parser>
auto named(const char* name, const Parser& parser) {
    return x3::rule<struct Named, Attribute>{name} = parser;
}

/// `opening` begins something nested, one level deeper, until `nested_end`.
template <class Opening>
auto nested(const Opening& opening) {
    return x3::omit[x3::raw[opening][go_deeper]];
}
const auto nested_end = x3::eps[come_back];

// Names, numbers and counts.

const x3::rule<struct NameRule, Name> name = "a name";
const auto name_def =
    x3::raw[x3::lexeme[Character<is_small_letter>{} >> *Character<is_name_character>{} >> !word_character]][keep_as_name];

const x3::rule<struct NumberRule, Number> number = "a number such as 12 or 0.5";
const auto exponent = (x3::lit('e') | 'E') >> -sign >> digit;
const auto hexadecimal = (x3::lit('x') | 'X') >> Character<is_hexadecimal_digit>{};
const auto more_of_a_number = Character<goes_on_number>{} | (',' >> digit) | exponent | hexadecimal;
const auto decimal = x3::lexeme[-sign >> +digit >> -('.' >> +digit) >> !more_of_a_number];
const auto unit = x3::lexeme['%' | (Character<begins_unit>{} >> *Character<is_unit_character>{})];
const auto number_def = x3::raw[decimal][keep_as_number] >> -x3::raw[unit][keep_as_unit];

const x3::rule<struct CountRule, Count> count = "a whole number";
const auto count_def = x3::raw[x3::lexeme[+digit >> !(word_character | '.' | ',')]][keep_as_count];

// Statements about one sign.

const x3::rule<struct AnyOf, std::vector<Name>> any_of = an_answer;
const x3::rule<struct Answers, std::vector<Name>> answers = an_answer;
const auto answer = named<Name>(an_answer, name);
const auto of = named("'of'", word("of"));
const auto open = named("'('", x3::lit('('));
const auto any_of_def = word("any") > of > open > answer > *(',' > answer) > named("',' or ')'", x3::lit(')'));
const auto answers_def = any_of | x3::repeat(1)[name];

const x3::rule<struct ComparisonRule, Comparison> comparison = "a comparison";
const auto least_or_most = word("least") >> x3::attr(Comparison::at_least) | word("most") >> x3::attr(Comparison::at_most);
const auto comparison_def = word("above") >> x3::attr(Comparison::above) | word("below") >> x3::attr(Comparison::below) |
                            (word("at") > named<Comparison>("'least' or 'most'", least_or_most));

const x3::rule<struct Statement, Condition> statement = a_condition;
const auto nothing_more = named(more_of_a_statement, &(word("and") | word("or") | ')' | ',' | x3::eoi));
const auto statement_def =
    (name >> word("is") >> word("known"))[by(is_known)] |                                       // squeeze is known
    (name >> word("is") >> word("unknown"))[by(is_unknown)] |                                   // squeeze is unknown
    ((name >> word("is") >> word("not")) > answers)[by(is_not)] |                               // squeeze is not streams
    ((name >> word("is")) > answers)[by(is)] |                                                  // squeeze is streams
    ((name >> word("between")) > number > named("'and'", word("and")) > number)[by(between)] |  // ph between 6 and 7
    ((name >> comparison) > number)[by(compare)] |                                              // ph at least 6
    (name > nothing_more)[by(holds)];                                                           // standing_water

// Conditions, from the tightest to the loosest.

const x3::rule<struct Either, Condition> either = a_condition;

const auto nested_open = named("'('", nested(x3::lit('(')));
const auto close = named("'and', 'or' or ')'", x3::lit(')'));
const auto close_list = named("'and', 'or', ',' or ')'", x3::lit(')'));

const x3::rule<struct Group, Condition> group = a_condition;
const auto group_def = (nested_open > either > close > nested_end)[by(itself)];

const x3::rule<struct Children, std::vector<Condition>> children = a_condition;
const auto children_def = either > *(',' > either);

const x3::rule<struct Some, Condition> some = a_condition;
const auto some_def = (word("at") > named("'least'", word("least")) > count > of > nested_open > children > close_list >
                       nested_end)[by(at_least)];

const x3::rule<struct Operand, Condition> operand = a_condition;
const auto operand_def = word("always") >> x3::attr(Condition{Always{}}) | some | group | statement;
const x3::rule<struct Negation, Condition> negation = a_condition;
const auto negation_def = (nested(word("not")) > negation > nested_end)[by(negated)] | operand[by(itself)];

const x3::rule<struct Conjuncts, std::vector<Condition>> conjuncts = a_condition;
const x3::rule<struct Both, Condition> both = a_condition;
const auto conjuncts_def = negation >> *(word("and") > negation);
const auto both_def = conjuncts[by(joined<And>)];

const x3::rule<struct Alternatives, std::vector<Condition>> alternatives = a_condition;
const auto alternatives_def = both >> *(word("or") > both);
const auto either_def = alternatives[by(joined<Or>)];

const auto whole_text = x3::eps > either > named("'and', 'or' or the end of the text", x3::eoi);

BOOST_SPIRIT_DEFINE(name, number, count, any_of, answers, comparison, statement, group, children, some, operand, negation,
                    conjuncts, both, alternatives, either)

Outcome<Condition> read(std::string_view text) {
    Reading reading{text};
    Condition condition;
    const char* place = text.data();
    try {
        x3::phrase_parse(place, text.data() + text.size(), x3::with<Reading>(reading)[whole_text], blank, condition);
        return condition;
    } catch (const x3::expectation_failure<const char*>& failure) {
        return fault({failure.which(), failure.where()}, text);
    } catch (const Unmet& unmet) {
        return fault(unmet, text);
    }
}

}  // namespace

bool is_word_of_the_language(std::string_view text) {
    return std::find(words_of_the_language.begin(), words_of_the_language.end(), text) != words_of_the_language.end();
}

Outcome<written::Condition> read_condition(std::string_view text) {
    // Before anything else looks at the text: it also bounds the work of making a fault.
    if (text.size() > longest_condition)
        return Fault{"expected at most " + std::to_string(longest_condition) + " bytes, found " + std::to_string(text.size())};
    return read(with_plain_blanks(text));
}

}  // namespace lidlift
