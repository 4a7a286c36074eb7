#include "engine/amount_grammar.hpp"

#include "engine/written_text.hpp"

#include <algorithm>
#include <array>
#include <string>
#include <utility>

#include <boost/fusion/include/invoke.hpp>
#include <boost/fusion/include/is_sequence.hpp>
#include <boost/optional.hpp>
#include <boost/spirit/home/x3.hpp>

namespace lidlift {
namespace {

namespace x3 = boost::spirit::x3;
using namespace written;

// ---- What the parts of the grammar make.

/// What the grammar's actions need to know beside the text they matched.
struct Reading {
    std::string_view text;
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

/// A number and where it stood.
struct Figure {
    double number = 0;
    const char* place = nullptr;
    int column = 1;
};

constexpr auto keep_as_figure = [](auto& context) {
    const std::string_view text = matched(context);
    const auto number = number_of(text);
    if (!number) throw Unmet{number.fault().text, text.data()};
    x3::_val(context) = Figure{*number, text.data(), column(context)};
};

/// Words that go on with the sentence where a material or a unit was left out.
constexpr std::array<std::string_view, 8> words_between = {"a", "at", "for", "in", "of", "or", "the", "to"};

constexpr auto keep_as_name = [](auto& context) {
    if (std::find(words_between.begin(), words_between.end(), matched(context)) != words_between.end())
        x3::_pass(context) = false;
    else
        x3::_val(context) = Name{std::string(matched(context)), column(context)};
};

constexpr auto keep_column = [](auto& context) { x3::_val(context) = column(context); };

/// The action that makes the rule's value by calling `make` with the parts that were matched.
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

Span span_of(Figure low, boost::optional<Figure> high) {
    if (high && high->number < low.number) throw Unmet{"the smaller number first", low.place};
    return {low.number, high ? high->number : low.number, low.column};
}
Measured measured_of(Span size, Name unit) { return {size, std::move(unit)}; }

Part whole(Where where) { return {Part::What::all, where, {}, 1}; }
Part top(Measured depth, Where where) { return {Part::What::top, where, std::move(depth), 1}; }
Part given(Part::What what) { return {what, Where::bay, {}, 1}; }
Part at_column(int column, Part part) {
    part.column = column;
    return part;
}

/// What stands behind "for each ... of".
struct Thing {
    std::variant<Part, Name> what;
    std::optional<Where> fill;
};
Thing a_part(Part part) { return {std::move(part), std::nullopt}; }
Thing a_name(Name name, boost::optional<Where> fill) {
    return {std::move(name), fill ? std::optional<Where>(*fill) : std::nullopt};
}
Basis basis_of(boost::optional<Figure> number, Name unit, Thing thing) {
    if (number && !(number->number > 0)) throw Unmet{"a number above 0", number->place};
    const int column = number ? number->column : unit.column;
    return {number ? number->number : 1, std::move(unit), std::move(thing.what), thing.fill, column};
}

struct GoalOf {
    Reach::Goal goal = Reach::Goal::moisture;
    Span to;
};
GoalOf moisture_of(Span to) { return {Reach::Goal::moisture, to}; }
GoalOf ratio_of(Span to) { return {Reach::Goal::carbon_to_nitrogen, to}; }

using How = std::variant<Reach, Layer, Dose>;
How reach_of(std::vector<Name> of, Part part, GoalOf goal) { return Reach{std::move(of), std::move(part), goal.goal, goal.to}; }
How layer_of(Measured depth, std::vector<Name> of, bool half, Where where) {
    return Layer{std::move(depth), std::move(of), half, where};
}
How dose_of(Measured size, std::vector<Name> of, bool in_all, bool a_day, Basis each) {
    return Dose{std::move(size), std::move(of), in_all, a_day, std::move(each)};
}
Limit limit_of(Measured size, Basis each) { return {std::move(size), std::move(each)}; }

int count_of(Figure figure) {
    const int count = figure.number <= most_portions_of_amount ? static_cast<int>(figure.number) : 0;
    if (count < 2 || count != figure.number)
        throw Unmet{"a whole number from 2 to " + std::to_string(most_portions_of_amount), figure.place};
    return count;
}
Formula formula_of(How how, std::vector<Limit> limits, boost::optional<int> portions) {
    return {std::move(how), std::move(limits), portions ? *portions : 1};
}

// ---- The grammar. `>>` may still turn out to be another form. Behind `>` nothing else will do: a fault there is the person's,
// ---- and what stands behind it has a name for the fault.

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
const Character<is_word_character> word_character;

auto word(const char* text) { return x3::lexeme[x3::lit(text) >> !word_character]; }

template <class... Texts>
auto words(const char* first, Texts... others) {
    return (word(first) >> ... >> word(others));
}

template <class Attribute = x3::unused_type, class Parser>
auto named(const char* name, const Parser& parser) {
    return x3::rule<struct Named, Attribute>{name} = parser;
}

// Names, numbers and units.

const x3::rule<struct NameRule, Name> name = "a material";
const auto name_def =
    x3::raw[x3::lexeme[Character<is_small_letter>{} >> *Character<is_name_character>{} >> !word_character]][keep_as_name];

const x3::rule<struct UnitRule, Name> unit = "a unit such as kg, cm or buckets";
const auto unit_def = x3::raw[x3::lexeme[Character<begins_unit>{} >> *Character<is_unit_character>{}]][keep_as_name];

const x3::rule<struct FigureRule, Figure> figure = "a number such as 12 or 0.5";
const auto exponent = (x3::lit('e') | 'E') >> -Character<is_sign>{} >> digit;
const auto more_of_a_number = Character<goes_on_number>{} | (',' >> digit) | exponent;
const auto decimal = x3::lexeme[+digit >> -('.' >> +digit) >> !more_of_a_number];
const auto figure_def = x3::raw[decimal][keep_as_figure];

const x3::rule<struct SpanRule, Span> span = "a number such as 12 or 0.5";
const auto span_def = (figure >> -(word("to") > figure))[by(span_of)];

const x3::rule<struct MeasuredRule, Measured> measured = "a number and a unit";
const auto measured_def = (span > unit)[by(measured_of)];

const auto of = named("'of'", word("of"));

// What is there.

const x3::rule<struct Place, Where> place = "'bed', 'heap', 'bay' or 'next bay'";
const auto place_def = (word("bed") >> x3::attr(Where::bed)) | (word("heap") >> x3::attr(Where::heap)) |
                       (word("bay") >> x3::attr(Where::bay)) | (words("next", "bay") >> x3::attr(Where::next_bay));
const x3::rule<struct WhereRule, Where> where = "'the bed', 'the heap', 'the bay' or 'the next bay'";
const auto where_def = word("the") > place;

const x3::rule<struct Given, Part::What> given_part = "what was put in";
const auto given_part_def = (words("last", "load") >> x3::attr(Part::What::last_load)) |
                            (words("wet", "part", "of", "the", "last", "load") >> x3::attr(Part::What::wet_part)) |
                            (words("feed", "of", "a", "day") >> x3::attr(Part::What::feed_of_a_day));
const x3::rule<struct SomePart, Part> some_part =
    "'bed', 'heap', 'bay', 'next bay', 'top', 'last load', 'wet part of the last load' or 'feed of a day'";
const auto some_part_def = place[by(whole)] | (word("top") > measured > of > where)[by(top)] | given_part[by(given)];
const x3::rule<struct The, int> the = "'the'";
const auto the_def = x3::raw[word("the")][keep_column];
const x3::rule<struct PartRule, Part> part = "'the bed', 'the top', 'the last load' or the like";
const auto part_def = (the > some_part)[by(at_column)];

// The forms.

const x3::rule<struct Choices, std::vector<Name>> choices = "a material";
const auto choices_def = name >> *(word("or") > name);

const x3::rule<struct ThingRule, Thing> thing = "'worms', a material, 'the bed', 'the last load' or the like";
const auto thing_def = part[by(a_part)] | (name >> -(words("to", "fill") > where))[by(a_name)];
const x3::rule<struct BasisRule, Basis> basis = "'m2 of the bed', 'kg of worms' or the like";
const auto basis_def = ((-figure >> unit) > of > thing)[by(basis_of)];
const auto for_each = named("'for each'", words("for", "each"));

const x3::rule<struct GoalRule, GoalOf> goal = "'75 % moisture' or 'a carbon to nitrogen ratio of 25 to 30'";
const auto moisture = named("'% moisture'", '%' >> word("moisture"));
const auto ratio = named("'carbon to nitrogen ratio of'", words("carbon", "to", "nitrogen", "ratio", "of"));
const auto goal_def = (word("a") > ratio > span)[by(ratio_of)] | (span > moisture)[by(moisture_of)];

const x3::rule<struct ReachRule, How> reach = "a material";
const auto to_bring = named("'or' or 'to bring'", words("to", "bring"));
const auto reach_def = (choices > to_bring > part > named("'to'", word("to")) > goal)[by(reach_of)];

const x3::rule<struct LayerRule, How> layer = "'a layer of'";
const auto over = named("'or' or 'over'", word("over"));
const auto layer_def = (words("a", "layer") > of > measured > of > named<std::vector<Name>>("a material", choices) > over >
                        x3::matches[words("half", "of")] > where)[by(layer_of)];

const x3::rule<struct DoseRule, How> dose = "a number and a unit";
const auto for_each_dose = named("'or', 'in all', 'a day' or 'for each'", words("for", "each"));
const auto dose_def = (measured > of > choices > x3::matches[words("in", "all")] > x3::matches[words("a", "day")] >
                       for_each_dose > basis)[by(dose_of)];

const x3::rule<struct HowRule, How> how = "a material, a number or 'a layer of'";
const auto how_def = layer[by([](How value) { return value; })] | dose[by([](How value) { return value; })] |
                     reach[by([](How value) { return value; })];

const x3::rule<struct LimitRule, Limit> limit = "'at most' or 'in ... portions'";
const auto limit_def = (words("at", "most") > measured > for_each > basis)[by(limit_of)];
const x3::rule<struct Limits, std::vector<Limit>> limits = "'at most'";
const auto limits_def = *(',' >> limit);
const x3::rule<struct Portions, int> portions = "'in ... portions'";
const auto portions_def = (word("in") > figure > named("'portions'", word("portions")))[by(count_of)];

const x3::rule<struct FormulaRule, Formula> formula = "a material, a number or 'a layer of'";
const auto formula_def = (how >> limits >> -(',' > named<int>("'at most' or 'in ... portions'", portions)))[by(formula_of)];

const auto whole_text = x3::eps > formula > named("',' or the end of the text", x3::eoi);

BOOST_SPIRIT_DEFINE(name, unit, figure, span, measured, place, where, given_part, some_part, the, part, choices, thing, basis,
                    goal, reach, layer, dose, how, limit, limits, portions, formula)

/// Beyond the grammar's own shape: how many of a kind.
std::optional<Fault> too_many(const Formula& read) {
    const auto& choices_made = std::visit([](const auto& form) -> const std::vector<Name>& { return form.of; }, read.how);
    if (choices_made.size() > most_choices_of_amount)
        return Fault{"expected at most " + std::to_string(most_choices_of_amount) + " materials, found " +
                         std::to_string(choices_made.size()),
                     choices_made[most_choices_of_amount].column};
    if (read.limits.size() > most_limits_of_amount)
        return Fault{"expected at most " + std::to_string(most_limits_of_amount) + " limits, found " +
                         std::to_string(read.limits.size()),
                     read.limits[most_limits_of_amount].size.size.column};
    return std::nullopt;
}

Outcome<Formula> read(std::string_view text) {
    Reading reading{text};
    Formula result;
    const char* at = text.data();
    try {
        x3::phrase_parse(at, text.data() + text.size(), x3::with<Reading>(reading)[whole_text], blank, result);
    } catch (const x3::expectation_failure<const char*>& failure) {
        return fault_of({failure.which(), failure.where()}, text);
    } catch (const Unmet& unmet) {
        return fault_of(unmet, text);
    }
    if (auto fault = too_many(result)) return *std::move(fault);
    return result;
}

}  // namespace

Outcome<written::Formula> read_amount_formula(std::string_view text) {
    // Before anything else looks at the text: it also bounds the work of making a fault.
    if (text.size() > longest_amount)
        return Fault{"expected at most " + std::to_string(longest_amount) + " bytes, found " + std::to_string(text.size())};
    return read(with_plain_blanks(text));
}

}  // namespace lidlift
