#include "engine/hearing/figures.hpp"

#include "engine/hearing/little_words.hpp"
#include "engine/quantity.hpp"

#include <algorithm>
#include <array>

namespace lidlift::hearing {
namespace {

/// What figures may tell, by the id that a rule base may have such a sign under. Without the sign nothing is read.
constexpr std::string_view bed_temperature = "bed_temperature";
constexpr std::string_view heap_peak = "heap_peak";
constexpr std::string_view days_since_worms = "days_since_worms";
constexpr std::string_view days_since_feed = "days_since_feed";
constexpr std::string_view acidity = "ph";
constexpr std::string_view bed_depth = "bed_depth";
constexpr std::string_view weather = "weather";
constexpr std::string_view been_away = "been_away";
constexpr std::string_view uneaten_layer = "uneaten_layer";
constexpr std::string_view feed_lately = "feed_lately";
constexpr std::string_view rest_days = "rest_days";

/// From these outdoor temperatures on, in °C, a person speaks of a heatwave or of frost.
constexpr double heatwave_from = 33;
constexpr double frost_below = 0.5;
/// From here on, in °C, a heap is hot as it should be.
constexpr double hot_heap_from = 55;
/// Neither a bed nor a heap is hotter, in °C: a figure beyond it without a unit is in °F.
constexpr double hottest_in_celsius = 95;
/// Days without anybody there that count as an absence, and without food as a long time.
constexpr double absence_from = 5;
constexpr double long_without_food = 13;
constexpr double a_long_time = 300;  ///< beyond it the number of days matters no more

constexpr auto number_words = std::to_array<std::string_view>(
    {"zero", "one",    "two",    "three",    "four",     "five",    "six",     "seven",     "eight",    "nine",
     "ten",  "eleven", "twelve", "thirteen", "fourteen", "fifteen", "sixteen", "seventeen", "eighteen", "nineteen"});
constexpr auto tens_words =
    std::to_array<std::string_view>({"twenty", "thirty", "forty", "fifty", "sixty", "seventy", "eighty", "ninety"});

/// Words between an event and its time.
constexpr std::size_t widest_gap = 6;

/// A number or two, a unit, and how they were said; words [first, last).
struct Told {
    std::size_t first = 0;
    std::size_t last = 0;
    std::string value;
};

class FigureReader {
public:
    FigureReader(const RuleBase& rule_base, Words words) : rule_base_(rule_base), words_(words) {}

    std::vector<HeardFigure> read() {
        temperature();
        time_ago();
        ph();
        depth();
        how_long();
        return std::move(figures_);
    }

private:
    [[nodiscard]] bool is(std::size_t at, std::string_view word) const { return at < words_.size() && words_[at].text == word; }
    [[nodiscard]] bool holds(const Sayings& sayings) const { return holds(sayings, 0, words_.size()); }
    [[nodiscard]] bool holds(const Sayings& sayings, std::size_t first, std::size_t last) const {
        for (std::size_t i = first; i < last; ++i)
            if (sayings.stands_at(words_, i)) return true;
        return false;
    }

    /// A number in figures or in words; words [at, last).
    struct Spoken {
        double value = 0;
        std::size_t last = 0;
        bool roughly = false;  ///< "thirty-odd"
    };

    template <std::size_t Count>
    [[nodiscard]] static std::optional<std::size_t> place_in(const std::array<std::string_view, Count>& list,
                                                             std::string_view word) {
        const auto found = std::ranges::find(list, word);
        if (found == list.end()) return std::nullopt;
        return static_cast<std::size_t>(found - list.begin());
    }

    /// "ninety five", "twelve", "forty"; below a hundred.
    [[nodiscard]] std::optional<Spoken> small_number_at(std::size_t at) const {
        if (at >= words_.size()) return std::nullopt;
        if (const auto unit = place_in(number_words, words_[at].text)) return Spoken{static_cast<double>(*unit), at + 1};
        const auto tens = place_in(tens_words, words_[at].text);
        if (!tens) return std::nullopt;
        Spoken spoken{static_cast<double>(*tens + 2) * 10, at + 1};
        if (spoken.last < words_.size()) {
            const auto unit = place_in(number_words, words_[spoken.last].text);
            if (unit && *unit > 0 && *unit < 10) {
                spoken.value += static_cast<double>(*unit);
                ++spoken.last;
            }
        }
        return spoken;
    }

    /// "31", "thirty one", "a hundred and fifty", "two and a half", "thirty-odd".
    [[nodiscard]] std::optional<Spoken> spoken_at(std::size_t at) const {
        if (at >= words_.size()) return std::nullopt;
        std::optional<Spoken> spoken;
        if (const auto number = read_number(words_[at].text)) {
            spoken = Spoken{*number, at + 1};
        } else if ((is(at, "a") || is(at, "one")) && is(at + 1, "hundred")) {
            spoken = Spoken{100, at + 2};
            const auto rest = small_number_at(is(at + 2, "and") ? at + 3 : at + 2);
            if (rest) spoken = Spoken{100 + rest->value, rest->last};
        } else {
            spoken = small_number_at(at);
        }
        if (!spoken) return std::nullopt;
        if (is(spoken->last, "and") && (is(spoken->last + 1, "a") || is(spoken->last + 1, "one")) &&
            is(spoken->last + 2, "half")) {
            spoken->value += 0.5;
            spoken->last += 3;
        }
        if (is(spoken->last, few_of) || is(spoken->last, "odd") || is(spoken->last, "something") || is(spoken->last, "ish")) {
            spoken->roughly = true;
            ++spoken->last;
        }
        return spoken;
    }

    [[nodiscard]] static std::string plain(double value) { return number_to_text(value); }

    void add(std::string_view id, std::size_t first, std::size_t last, std::string value) {
        const auto sign = rule_base_.signs.find(id);
        if (sign && rule_base_.signs[*sign].sort == SignSort::quantity)
            figures_.push_back({first, last, *sign, std::move(value), false, false});
    }

    // ---- temperatures

    struct Degrees {
        Told told;
        double value = 0;     ///< the first number, as said
        bool of_two = false;  ///< a range
        char unit = ' ';      ///< 'C', 'F', or a blank where none was said
        bool roughly = false;
    };

    /// "31 C", "28 to 32 degrees celsius", "thirty-odd degrees", "five below".
    [[nodiscard]] std::optional<Degrees> degrees_at(std::size_t at) const {
        const auto first = spoken_at(at);
        if (!first) return std::nullopt;
        Degrees degrees;
        degrees.value = first->value;
        degrees.roughly = first->roughly;
        std::string number = plain(first->value);
        std::size_t unit = first->last;
        if (is(unit, "to") || is(unit, "and")) {
            if (const auto second = spoken_at(unit + 1)) {
                number += " to " + plain(second->value);
                unit = second->last;
                degrees.of_two = true;
            }
        }
        bool said = false;
        while (is(unit, "degrees") || is(unit, "degree") || is(unit, "deg")) {
            ++unit;
            said = true;
        }
        if (is(unit, "c") || is(unit, "celsius")) {
            degrees.unit = 'C';
        } else if (is(unit, "f") || is(unit, "fahrenheit")) {
            degrees.unit = 'F';
        } else if (!said) {
            return std::nullopt;
        }
        if (degrees.unit != ' ')
            ++unit;
        else if (degrees.value > hottest_in_celsius)
            degrees.unit = 'F';
        degrees.told = {at, unit, number + (degrees.unit == 'F' ? " °F" : " °C")};
        return degrees;
    }

    void temperature() {
        static const Sayings of_the_bed(
            "bed|bedding|bin|box|tank|tub|wormery|farm|probe|thermometer|core|middle|inside|compost");
        static const Sayings of_a_heap("heap|pile|windrow");
        static const Sayings highest("reached|peaked|peak|highest|maximum|hottest");
        static const Sayings of_other_things(
            "should|must|ideal|best|between|never|below|keep|keeps|not|no|tap|hot water|oven|if|from|next bed|last|ago|water");
        std::optional<Degrees> only;
        for (std::size_t i = 0; i < words_.size(); ++i) {
            const auto degrees = degrees_at(i);
            if (!degrees) continue;
            if (only) return;  // two readings: which one holds now is not clear
            only = degrees;
            i = degrees->told.last - 1;
        }
        if (!only) return;
        if (holds(english().weather_words) || holds_weather_grammar()) return outdoors(*only);
        if (only->unit == ' ' || holds(of_other_things)) return;
        Told told = only->told;
        if (told.first > 0 && (is(told.first - 1, "over") || is(told.first - 1, "above"))) told.value = "above " + told.value;
        if (only->roughly) told.value += ",unsure";
        const double celsius = only->unit == 'F' ? (only->value - 32) / 1.8 : only->value;
        const bool heap = holds(of_a_heap);
        // No worm bed is ever that hot.
        const bool only_a_heap = !holds(of_the_bed) && celsius >= 45;
        // A heap that is hot now has been no hotter as far as is told.
        const bool of_the_peak = holds(highest) || (heap && celsius >= hot_heap_from);
        if ((heap || only_a_heap) && of_the_peak) add(heap_peak, told.first, told.last, told.value);
        if (!heap && holds(of_the_bed)) add(bed_temperature, told.first, told.last, told.value);
    }

    /// "It has been 40 degrees here all week": of the place, not of the bed.
    [[nodiscard]] bool holds_weather_grammar() const {
        static const Sayings of_the_place(
            "here|in shade|all week|for week|for days|all weekend|last week|this week|last night|at night|overnight");
        static const Sayings of_the_bed(
            "bed|bin|box|tank|tub|heap|pile|compost|core|middle|inside|probe|thermometer|wormery|hand");
        return holds(of_the_place) && !holds(of_the_bed);
    }

    void outdoors(const Degrees& degrees) {
        static const Sayings not_the_place(
            "if|should|must|ideal|best|never|not|no|forecast|going to|expected|see|possibly|inside bed|room");
        static const Sayings below("below|minus");
        if (degrees.of_two || holds(not_the_place)) return;
        const bool negative = degrees.told.first > 0 && below.has(words_[degrees.told.first - 1].text);
        const double said = negative ? -degrees.value : degrees.value;
        // Without a unit 40 degrees may be a heatwave or a cool day.
        const bool fahrenheit = degrees.unit == 'F' || (degrees.unit == ' ' && said > 60);
        if (degrees.unit == ' ' && said > 0 && said <= 85) return;
        const double celsius = fahrenheit ? (said - 32) / 1.8 : said;
        if (celsius >= heatwave_from) add_answer(weather, degrees.told.first, degrees.told.last, "heatwave", "");
        if (celsius < frost_below) add_answer(weather, degrees.told.first, degrees.told.last, "cold_snap", "");
    }

    /// An answer that a figure leads to, where the rule base has it.
    void add_answer(std::string_view id, std::size_t first, std::size_t last, std::string_view answer,
                    const std::string& unsure) {
        const auto sign = rule_base_.signs.find(id);
        if (!sign) return;
        const auto& answers = rule_base_.signs[*sign].answers;
        if (std::ranges::find(answers, answer, &Answer::id) != answers.end())
            figures_.push_back({first, last, *sign, std::string(answer) + unsure, id == feed_lately, true});
    }

    // ---- acidity, depth

    void ph() {
        for (std::size_t i = 0; i < words_.size(); ++i) {
            if (!is(i, "ph")) continue;
            static const Sayings between(
                "is|was|strip|strips|meter|says|say|reads|reading|of|at|shows|about|test|around|value|it");
            std::size_t at = i + 1;
            while (at < words_.size() && !spoken_at(at) && between.has(words_[at].text)) ++at;
            const auto value = spoken_at(at);
            static const Sayings of_other_things("should|ideal|best|not|no|if|between");
            if (!value || value->value < 2 || value->value > 12 || holds(of_other_things)) continue;
            add(acidity, i, value->last, plain(value->value));
            return;
        }
    }

    /// "Two and a half feet deep", "60 cm deep".
    void depth() {
        for (std::size_t i = 0; i < words_.size(); ++i) {
            const auto number = is(i, "a") ? std::optional<Spoken>(Spoken{1, i + 1}) : spoken_at(i);
            if (!number || number->last >= words_.size()) continue;
            const double in_cm = centimetres(words_[number->last].text) * number->value;
            if (in_cm <= 0) continue;
            static const Sayings food("food|scraps|waste|peelings|muck|leftovers|slop");
            if (is(number->last + 1, "deep") && !holds(food)) {
                const char* answer = in_cm <= 30.5 ? "le_30cm" : in_cm <= 61 ? "from_30_to_60cm" : "gt_60cm";
                return add_answer(bed_depth, i, number->last + 2, answer, "");
            }
            static const Sayings layer("undigested|uneaten|untouched|rotting|old|rotten|slimy");
            static const Sayings left("still|sitting there|left|lying there|not eaten|untouched|on top|nothing touching");
            const bool of_food = is(number->last + 1, "of") &&
                                 (food.stands_at(words_, number->last + 2) || layer.stands_at(words_, number->last + 2) ||
                                  (is(number->last + 2, "it") && holds(food)));
            if (of_food && holds(left) && in_cm > 2) {
                const std::size_t last = std::min(number->last + 3, words_.size());
                return add_answer(uneaten_layer, i, last, in_cm > 5 ? "over_5cm" : "two_to_5cm", "");
            }
        }
    }

    [[nodiscard]] static double centimetres(std::string_view unit) {
        if (unit == "foot" || unit == "feet" || unit == "ft") return 30.48;
        if (unit == "inch" || unit == "inches") return 2.54;
        if (unit == "cm" || unit == "centimetre" || unit == "centimetres" || unit == "centimeters") return 1;
        if (unit == "metre" || unit == "metres" || unit == "m") return 100;
        return 0;
    }

    // ---- how long ago

    /// "three days ago", "2 weeks back", "yesterday".
    [[nodiscard]] std::optional<Told> ago_at(std::size_t at) const {
        if (is(at, "today")) return Told{at, at + 1, "0 days"};
        if (is(at, "this") && is(at + 1, "morning")) return Told{at, at + 2, "0 days"};
        if (is(at, "day") && is(at + 1, "before") && is(at + 2, "yesterday")) return Told{at, at + 3, "2 days"};
        if (is(at, "yesterday")) return Told{at, at + 1, "1 days"};
        if (is(at, "before") && is(at + 1, "yesterday")) return Told{at, at + 2, "2 days"};
        const auto span = span_at(at);
        if (!span || (!is(span->last, "ago") && !is(span->last, "back"))) return std::nullopt;
        return Told{at, span->last + 1, span->value};
    }

    /// "Three days", "a fortnight", "a week and a half", "12 years", "a couple of weeks" (unsure).
    struct Span {
        std::size_t last = 0;
        std::string value;
        double days = 0;
    };
    [[nodiscard]] std::optional<Span> span_at(std::size_t at) const {
        if (at >= words_.size()) return std::nullopt;
        std::optional<Spoken> number = spoken_at(at);
        if (!number && (is(at, "a") || is(at, "an"))) {
            number = Spoken{1, at + 1};
            if (is(at + 1, "good") || is(at + 1, "full") || is(at + 1, "whole")) ++number->last;
        }
        if (!number || number->last >= words_.size()) return std::nullopt;
        struct Unit {
            std::string_view one, many;
            double days;
            std::string_view written;
            double times;
        };
        static constexpr auto units = std::to_array<Unit>({{"day", "days", 1, "days", 1},
                                                           {"week", "weeks", 7, "weeks", 1},
                                                           {"fortnight", "fortnights", 14, "weeks", 2},
                                                           {"month", "months", 30.44, "months", 1},
                                                           {"year", "years", 365.25, "months", 12}});
        const std::string& word = words_[number->last].text;
        const auto unit = std::ranges::find_if(units, [&](const Unit& u) { return word == u.one || word == u.many; });
        if (unit == units.end()) return std::nullopt;
        Span span{number->last + 1, {}, 0};
        if (is(span.last, "and") && is(span.last + 1, "a") && is(span.last + 2, "half")) {
            number->value += 0.5;
            span.last += 3;
        }
        span.value = plain(number->value * unit->times) + " " + std::string(unit->written) + (number->roughly ? ",unsure" : "");
        span.days = number->value * unit->days;
        return span;
    }

    /// "Away for three weeks", "three weeks in Spain", "not fed for a month", "since 3 weeks", "had them for 12 years".
    void how_long() {
        static const Sayings away("away|holiday|holidays|vacation|hospital|abroad|out of town|hols|visiting");
        static const Sayings unfed(
            "not fed|not been fed|not feed|no food|forgotten about them|nobody fed|nobody has fed|nobody has touched it|not "
            "given them "
            "anything|nobody has touched|not touched it|not looked at it");
        static const Sayings owned(
            "had worms|had my worms|had them|had wormery|had a wormery|had my wormery|had bin|had my bin|had a bin|had worm "
            "farm|kept worms|had it|keeping "
            "worms|had worm bin|had a worm bin|had a worm farm|had my worm farm|had my worm bin|have had a wormery|have had "
            "worms|running");
        static const Sayings rested("stood|rested|resting|rest|waited|left it");
        static const Sayings before_worms(
            "before we put|before putting|before adding|before i put|before worms|before i added|before we added");
        static const Sayings not_so("will|going to|if|would|should|about to|next");
        if (holds(not_so)) return;
        for (std::size_t i = 0; i < words_.size(); ++i) {
            const auto span = span_at(i);
            if (!span || is(span->last, "ago") || is(span->last, "back")) continue;
            const std::size_t last = span->last;
            if (holds(away) && span->days >= absence_from) add_answer(been_away, i, last, "yes", "");
            if (holds(unfed)) {
                if (span->days >= long_without_food) add_answer(feed_lately, i, last, "none_for_long", "");
            } else if (holds(owned) && !holds(away) && span->days >= 1) {
                if (span->days < a_long_time)
                    add(days_since_worms, i, last, span->value);
                else
                    add_answer(days_since_worms, i, last, "settled", "");
            } else if (holds(rested) && holds(before_worms)) {
                add(rest_days, i, last, span->value);
            }
            return;
        }
    }

    void time_ago() {
        static const Sayings worms_went_in(
            "came in post|came by post|arrived in post|came by courier|worms was received|worms received|arrived by "
            "courier|worms "
            "delivered|worms arrived|worms came|worms went in|worms added|worms was added|worms put in|worms was put in|worms "
            "introduced|worms was introduced|"
            "set up my wormery|set up my first wormery|set up wormery|set up a wormery|set up our wormery|set up my worm "
            "bin|set up "
            "my first worm bin|set up a worm bin|set up our worm bin|set up worm bin|set up my worm farm|set up a worm "
            "farm|set up "
            "worm farm|started my wormery|started my first wormery|started a wormery|started my worm bin|started my first worm "
            "bin|started a worm bin|started worm bin|started my worm farm|started a worm farm|started worm farm|started with "
            "worms|started vermicomposting|started worm composting|"
            "put in worms|put in wigglers|put in my worms|added wigglers|bought wigglers|got wigglers|bringing worms "
            "home|brought "
            "worms home|"
            "worms delivered|worms was delivered|got worms|got my worms|got our worms|put worms in|put my worms in|put "
            "worms|added worms|added my worms|"
            "introduced worms|introduced my worms|bought worms|bought my worms|received worms|received my worms|worms moved "
            "in");
        static const Sayings fed("fed|fed them|fed worms|last fed|last feed|last feeding|last meal|feed was|feeding was");
        // "More worms came", "did not feed", "fed them and found": not the first arrival, not a feed, another event.
        static const Sayings of_another_thing(
            "more|new|another|extra|dead|not|no|never|until|before|used|stopped|hatched|every|dewormed|wormed|died|out");
        for (std::size_t i = 0; i < words_.size(); ++i) {
            const auto ago = ago_at(i);
            if (!ago) continue;
            event_of(days_since_worms, worms_went_in, of_another_thing, *ago);
            event_of(days_since_feed, fed, of_another_thing, *ago);
            i = ago->last - 1;
        }
    }

    /// The event right before or right after the time, with nothing but little words between.
    void event_of(std::string_view id, const Sayings& events, const Sayings& of_another_thing, const Told& ago) {
        for (std::size_t at = 0; at < words_.size(); ++at) {
            const std::size_t length = events.longest_at(words_, at).length;
            if (length == 0) continue;
            const std::size_t end = at + length;
            const bool before = end <= ago.first && ago.first - end <= widest_gap && only_little(end, ago.first);
            const bool after = ago.last <= at && at - ago.last <= widest_gap && only_little(ago.last, at);
            if (!before && !after) continue;
            const std::size_t first = before ? at : ago.first;
            const std::size_t last = before ? ago.last : end;
            const std::size_t look_from = first - std::min<std::size_t>(first, 2);
            // The time itself may hold such a word: "the day before yesterday".
            if (!holds(of_another_thing, look_from, before ? ago.first : first) &&
                !holds(of_another_thing, ago.last, std::min(last + 1, words_.size())))
                add(id, first, last, approximately(ago));
            return;
        }
    }

    [[nodiscard]] bool only_little(std::size_t first, std::size_t last) const {
        return std::ranges::all_of(words_.subspan(first, last - first),
                                   [](const Word& word) { return english().little.has(word.text); });
    }

    [[nodiscard]] std::string approximately(const Told& ago) const {
        static const Sayings roughly("about|around|roughly|nearly|almost|maybe|over|approximately");
        return ago.first > 0 && roughly.has(words_[ago.first - 1].text) ? ago.value + ",unsure" : ago.value;
    }

    const RuleBase& rule_base_;
    Words words_;
    std::vector<HeardFigure> figures_;
};

}  // namespace

std::vector<HeardFigure> find_figures(const RuleBase& rule_base, Words words) { return FigureReader(rule_base, words).read(); }

}  // namespace lidlift::hearing
