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

constexpr auto number_words = std::to_array<std::string_view>(
    {"zero", "one", "two", "three", "four", "five", "six", "seven", "eight", "nine", "ten", "eleven", "twelve"});

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

    [[nodiscard]] std::optional<std::string> number_at(std::size_t at) const {
        if (at >= words_.size()) return std::nullopt;
        const std::string& text = words_[at].text;
        if (read_number(text)) return text;
        const auto word = std::ranges::find(number_words, text);
        if (word != number_words.end()) return std::to_string(word - number_words.begin());
        if (text == "a" || text == "an") return "1";
        return std::nullopt;
    }

    void add(std::string_view id, std::size_t first, std::size_t last, std::string value) {
        const auto sign = rule_base_.signs.find(id);
        if (sign && rule_base_.signs[*sign].sort == SignSort::quantity)
            figures_.push_back({first, last, *sign, std::move(value)});
    }

    // ---- temperatures

    /// "31 C", "28 to 32 degrees celsius"; the unit must be said.
    [[nodiscard]] std::optional<Told> degrees_at(std::size_t at) const {
        if (!read_number(words_[at].text)) return std::nullopt;
        std::size_t unit = at + 1;
        std::string number = words_[at].text;
        if ((is(unit, "to") || is(unit, "and")) && unit + 1 < words_.size() && read_number(words_[unit + 1].text)) {
            number += " to " + words_[unit + 1].text;
            unit += 2;
        }
        while (is(unit, "degrees") || is(unit, "degree") || is(unit, "deg")) ++unit;
        if (is(unit, "c") || is(unit, "celsius")) return Told{at, unit + 1, number + " °C"};
        if (is(unit, "f") || is(unit, "fahrenheit")) return Told{at, unit + 1, number + " °F"};
        return std::nullopt;
    }

    void temperature() {
        static const Sayings of_the_bed("bed|bedding|bin|box|tank|tub|wormery|farm|probe|thermometer|core|middle|inside");
        static const Sayings of_a_heap("heap|pile|windrow");
        static const Sayings highest("reached|peaked|peak|highest|maximum|hottest");
        static const Sayings of_other_things(
            "should|must|ideal|best|between|never|below|keep|keeps|not|no|tap|hot water|oven|if|from|next bed|last|ago|water");
        std::optional<Told> only;
        for (std::size_t i = 0; i < words_.size(); ++i) {
            const auto told = degrees_at(i);
            if (!told) continue;
            if (only) return;  // two readings: which one holds now is not clear
            only = told;
            i = told->last - 1;
        }
        if (!only || holds(english().weather_words) || holds(of_other_things)) return;
        if (only->first > 0 && (is(only->first - 1, "over") || is(only->first - 1, "above")))
            only->value = "above " + only->value;
        const bool heap = holds(of_a_heap);
        if (heap && holds(highest)) add(heap_peak, only->first, only->last, only->value);
        if (!heap && holds(of_the_bed)) add(bed_temperature, only->first, only->last, only->value);
    }

    // ---- how long ago

    /// "three days ago", "2 weeks back", "yesterday".
    [[nodiscard]] std::optional<Told> ago_at(std::size_t at) const {
        if (is(at, "today")) return Told{at, at + 1, "0 days"};
        if (is(at, "this") && is(at + 1, "morning")) return Told{at, at + 2, "0 days"};
        if (is(at, "day") && is(at + 1, "before") && is(at + 2, "yesterday")) return Told{at, at + 3, "2 days"};
        if (is(at, "yesterday")) return Told{at, at + 1, "1 days"};
        const auto number = number_at(at);
        if (!number) return std::nullopt;
        static const Sayings units("day|days|week|weeks|month|months");
        if (at + 1 >= words_.size() || !units.has(words_[at + 1].text) || (!is(at + 2, "ago") && !is(at + 2, "back")))
            return std::nullopt;
        std::string unit = words_[at + 1].text;
        if (!unit.ends_with('s')) unit += 's';
        return Told{at, at + 3, *number + " " + unit};
    }

    void time_ago() {
        static const Sayings worms_went_in(
            "worms arrived|worms came|worms went in|worms added|worms was added|worms put in|worms was put in|worms "
            "introduced|worms was introduced|"
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
            if (!holds(of_another_thing, look_from, std::min(last + 1, words_.size())))
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
