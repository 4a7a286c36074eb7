#include "engine/answers.hpp"

#include "engine/nearest_name.hpp"
#include "engine/quantity.hpp"
#include "engine/reader/entry.hpp"
#include "engine/yaml_tree.hpp"

#include <algorithm>
#include <array>
#include <bit>
#include <utility>

namespace lidlift {
namespace {

std::string_view trimmed(std::string_view text) {
    const auto begin = text.find_first_not_of(" \t");
    if (begin == std::string_view::npos) return {};
    return text.substr(begin, text.find_last_not_of(" \t") - begin + 1);
}

/// "Up walls-lid" and "up_walls_lid" are the same name.
std::string as_name(std::string_view text) {
    std::string name(trimmed(text));
    for (char& c : name) {
        if (c >= 'A' && c <= 'Z') c = static_cast<char>(c - 'A' + 'a');
        if (c == ' ' || c == '-') c = '_';
    }
    return name;
}

std::vector<std::string_view> parts_of(std::string_view text) {
    std::vector<std::string_view> parts;
    for (std::size_t begin = 0; begin <= text.size();) {
        const std::size_t comma = std::min(text.find(',', begin), text.size());
        parts.push_back(trimmed(text.substr(begin, comma - begin)));
        begin = comma + 1;
    }
    return parts;
}

std::optional<Sureness> sureness(std::string_view word) {
    if (word == "sure") return Sureness::sure;
    if (word == "unsure") return Sureness::unsure;
    if (word == "guess") return Sureness::guess;
    return std::nullopt;
}

std::vector<std::string> answer_names(const Sign& sign) {
    std::vector<std::string> names;
    for (const Answer& answer : sign.answers) names.push_back(answer.id);
    return names;
}

Fault no_such_answer(const Sign& sign, std::string_view value) {
    std::vector<std::string> known = answer_names(sign);
    std::string hint = did_you_mean(as_name(value), known);
    known.emplace_back("?");
    if (hint.empty()) hint = "it takes " + reader::listed(known);
    const std::string what = sign.sort == SignSort::yes_no ? "the yes/no sign '" : "the sign '";
    return {what + sign.id + "' has no answer '" + std::string(value) + "' (" + hint + ")", 0};
}

struct Named {
    std::size_t position;
    bool negated;
};

Outcome<Named> find_answer(const Sign& sign, std::string_view value) {
    std::string name = as_name(value);
    if (const auto position = sign.find_answer(name)) return Named{*position, false};
    if (name.starts_with("not_"))
        if (const auto position = sign.find_answer(std::string_view(name).substr(4))) return Named{*position, true};
    return no_such_answer(sign, value);
}

Outcome<Observation> one_of(const Sign& sign, const std::vector<std::string_view>& values) {
    Observation result;
    result.possible = all_answers(sign.answers.size());
    for (const std::string_view value : values) {
        const auto answer = find_answer(sign, value);
        if (!answer) return answer.fault();
        const AnswerSet set = answer_set(answer->position);
        result.possible &= answer->negated ? ~set : set;
    }
    if (result.possible == 0)
        return Fault{"the sign '" + sign.id + "' takes one answer, and these exclude one another: " +
                         std::string(values.front()) + ", " + std::string(values.back()),
                     0};
    return result;
}

Outcome<Observation> several(const Sign& sign, const std::vector<std::string_view>& values) {
    Observation result;
    AnswerSet none_of_these = 0;
    for (std::size_t i = 0; i < sign.answers.size(); ++i)
        if (sign.answers[i].none_of_these) none_of_these = answer_set(i);
    for (const std::string_view value : values) {
        const auto answer = find_answer(sign, value);
        if (!answer) return answer.fault();
        (answer->negated ? result.absent : result.present) |= answer_set(answer->position);
    }
    if ((result.present & none_of_these) != 0)
        result.absent |= all_answers(sign.answers.size()) & ~none_of_these;
    else if (result.present != 0)
        result.absent |= none_of_these;
    if ((result.present & result.absent) != 0) return Fault{"the answers for '" + sign.id + "' exclude one another", 0};
    return result;
}

/// "31 °C", "28 to 32 °C", "above 30 °C", and the other comparisons.
Outcome<Range> read_range(const Sign& sign, std::string_view value) {
    const auto number = [&](std::string_view text, const Unit* unit_if_none) -> Outcome<double> {
        auto quantity = read_quantity(trimmed(text));
        if (!quantity) return quantity.fault();
        if (!quantity->unit) quantity->unit = unit_if_none;
        return convert(*quantity, *sign.unit);
    };
    struct Comparison {
        std::string_view word;
        bool low;
        bool included;
    };
    static constexpr std::array<Comparison, 4> comparisons = {
        {{"above ", true, false}, {"at least ", true, true}, {"below ", false, false}, {"at most ", false, true}}};
    for (const Comparison& comparison : comparisons) {
        if (!value.starts_with(comparison.word)) continue;
        const auto edge = number(value.substr(comparison.word.size()), nullptr);
        if (!edge) return edge.fault();
        Range range = sign.plausible;
        (comparison.low ? range.low : range.high) = *edge;
        (comparison.low ? range.low_included : range.high_included) = comparison.included;
        return range;
    }
    const auto to = value.find(" to ");
    if (to == std::string_view::npos) {
        const auto exact = number(value, nullptr);
        if (!exact) return exact.fault();
        return Range{*exact, *exact, true, true};
    }
    const auto last = read_quantity(trimmed(value.substr(to + 4)));
    if (!last) return last.fault();
    const auto low = number(value.substr(0, to), last->unit);
    const auto high = number(value.substr(to + 4), nullptr);
    if (!low) return low.fault();
    if (!high) return high.fault();
    return Range{*low, *high, true, true};
}

Outcome<Observation> quantity(const Sign& sign, const std::vector<std::string_view>& values) {
    if (values.size() != 1)
        return Fault{"the sign '" + sign.id + "' takes one number (a decimal fraction is written with a point: 12.5)", 0};
    Observation result;
    if (const auto band = sign.find_answer(as_name(values.front()))) {
        result.measured = sign.band(*band);
        result.possible = answer_set(*band);
        return result;
    }
    const auto range = read_range(sign, values.front());
    if (!range) {
        const std::string bands = sign.answers.empty() ? std::string{} : "; or say " + reader::listed(answer_names(sign));
        return Fault{"'" + sign.id + "': " + range.fault().text + bands, 0};
    }
    if (range->low > range->high || !sign.plausible.contains(*range))
        return Fault{"'" + sign.id + "' should lie between " + number_to_text(sign.plausible.low) + " and " +
                         quantity_to_text(sign.plausible.high, *sign.unit) + ", but '" + std::string(values.front()) +
                         "' does not; check the unit",
                     0};
    result.measured = *range;
    result.possible = sign.bands_meeting(*range);
    return result;
}

Outcome<Observation> observe(const Sign& sign, std::vector<std::string_view> values) {
    Sureness sure = Sureness::sure;
    if (const auto word = sureness(values.back()); word && values.size() > 1) {
        sure = *word;
        values.pop_back();
    }
    auto result = sign.sort == SignSort::quantity  ? quantity(sign, values)
                  : sign.sort == SignSort::several ? several(sign, values)
                                                   : one_of(sign, values);
    if (result) result->sureness = sure;
    return result;
}

void remember(std::vector<Handle<Sign>>& list, Handle<Sign> sign) {
    if (std::ranges::find(list, sign) == list.end()) list.push_back(sign);
}

/// Two answers to one sign: together for several at once, otherwise what both allow; none if they contradict each other.
std::optional<Observation> together(const Sign& sign, const Observation& earlier, const Observation& later) {
    Observation result = later;
    result.from = earlier.from == later.from ? later.from : earlier.from + "; " + later.from;
    result.sureness = std::max(earlier.sureness, later.sureness);
    result.present |= earlier.present;
    result.absent |= earlier.absent;
    result.possible &= earlier.possible;
    if ((result.present & result.absent) != 0) return std::nullopt;
    if (sign.sort != SignSort::several && result.possible == 0 && !(earlier.measured && sign.answers.empty()))
        return std::nullopt;
    if (earlier.measured && later.measured) {
        if (!earlier.measured->meets(*later.measured)) return std::nullopt;
        result.measured = earlier.measured->shared_with(*later.measured);
    }
    return result;
}

class FileHearer {
public:
    FileHearer(Told& told, const RuleBase& rule_base, Complaints& complaints)
        : told_(told), rule_base_(rule_base), complaints_(complaints) {}

    void hear_sign(const YamlEntry& entry) {
        std::string value;
        const YamlNode& node = entry.value;
        if (node.kind == YamlNode::Kind::map) {
            reader::Entry answer(node, "the answer for '" + entry.key + "'", complaints_);
            const YamlNode* is = answer.node("is", reader::Need::required);
            if (is) value = joined(*is);
            static const std::vector<std::string> words = {"sure", "unsure", "guess"};
            if (const auto word = answer.word("sure", words)) value += "," + words[*word];
            answer.finish();
            if (!is) return;
        } else {
            value = joined(node);
        }
        if (const auto fault = hear(told_, rule_base_, entry.key, value, "the file says: " + entry.key + "=" + value))
            complaints_.add(rule_base_.signs.find(as_name(entry.key)) ? node.place : entry.key_place, fault->text);
    }

private:
    std::string joined(const YamlNode& node) {
        if (node.kind == YamlNode::Kind::text) return node.text;
        std::string result;
        for (const YamlNode& item : node.items) {
            if (!reader::require_text(item, "an answer", complaints_)) continue;
            result += (result.empty() ? "" : ",") + item.text;
        }
        return result;
    }

    Told& told_;
    const RuleBase& rule_base_;
    Complaints& complaints_;
};

/// The answers in words, the last joined by "or".
std::string alternatives(const Sign& sign, AnswerSet answers) {
    std::vector<std::string> words;
    for (std::size_t i = 0; i < sign.answers.size(); ++i)
        if ((answers & answer_set(i)) != 0) words.push_back(answer_in_words(sign, i));
    return reader::listed(words);
}

/// Of a several-at-once sign, the answers that were denied in so many words: not those that another answer rules out anyway.
AnswerSet denied(const Sign& sign, const Observation& observation) {
    AnswerSet none_of_these = 0;
    for (std::size_t i = 0; i < sign.answers.size(); ++i)
        if (sign.answers[i].none_of_these) none_of_these = answer_set(i);
    if ((observation.present & none_of_these) != 0) return 0;
    return observation.present == 0 ? observation.absent : observation.absent & ~none_of_these;
}

}  // namespace

std::optional<Fault> hear(Told& told, const RuleBase& rule_base, std::string_view sign_name, std::string_view value,
                          const std::string& from) {
    const std::string name = as_name(sign_name);
    const auto handle = rule_base.signs.find(name);
    if (!handle) {
        const std::string hint = did_you_mean(name, rule_base.signs.ids());
        return Fault{"there is no sign '" + std::string(sign_name) + "'" +
                         (hint.empty() ? "; `lidlift show signs` lists them" : " (" + hint + ")"),
                     0};
    }
    const Sign& sign = rule_base.signs[*handle];
    const auto parts = parts_of(value);
    if (parts.size() == 1 && parts.front().empty())
        return Fault{"'" + sign.id + "=' lacks its answer: " + reader::listed(answer_names(sign)), 0};
    if (parts.size() == 1 && parts.front() == "?") {
        if (!told.facts.find(*handle)) remember(told.not_known, *handle);
        remember(told.order, *handle);
        return std::nullopt;
    }
    auto observation = observe(sign, parts);
    if (!observation) return observation.fault();
    observation->from = from;
    if (const Observation* earlier = told.facts.find(*handle)) {
        const auto both = together(sign, *earlier, *observation);
        if (!both) return Fault{"'" + sign.id + "' is answered twice, and the answers exclude one another", 0};
        *observation = *both;
    }
    std::erase(told.not_known, *handle);
    remember(told.order, *handle);
    told.facts.set(*handle, std::move(*observation));
    return std::nullopt;
}

std::optional<Fault> hear_argument(Told& told, const RuleBase& rule_base, std::string_view argument) {
    const auto equals = argument.find('=');
    if (equals == std::string_view::npos) return Fault{"'" + std::string(argument) + "' is not of the form sign=value", 0};
    return hear(told, rule_base, trimmed(argument.substr(0, equals)), argument.substr(equals + 1),
                "you said: " + std::string(argument));
}

void hear_file(Told& told, const RuleBase& rule_base, std::string_view text, const std::string& file, Complaints& complaints) {
    const YamlNode tree = read_yaml(text, file, complaints);
    reader::Entry entry(tree, "an answer file", complaints);
    (void)entry.text("note");
    const YamlNode* signs = entry.node("signs", reader::Need::required);
    entry.finish();
    if (!signs) return;
    if (signs->kind != YamlNode::Kind::map) {
        complaints.add(signs->place, "'signs' should be a map, one line for each sign: 'squeeze: streams'");
        return;
    }
    FileHearer hearer(told, rule_base, complaints);
    for (const YamlEntry& sign : signs->entries) hearer.hear_sign(sign);
}

void hear_entry(Told& told, const RuleBase& rule_base, const YamlEntry& entry, Complaints& complaints) {
    FileHearer(told, rule_base, complaints).hear_sign(entry);
}

std::string answer_in_words(const Sign& sign, std::size_t position) {
    const Answer& answer = sign.answers[position];
    if (!answer.means.empty()) return answer.means;
    std::string words = answer.id;
    std::ranges::replace(words, '_', ' ');
    return words;
}

std::string in_words(const Sign& sign, const Observation& observation) {
    std::string words;
    if (observation.measured) {
        // A band that was told by its words is said in words, a number as a number.
        words = as_value(sign, observation);
        if (const auto band = sign.find_answer(words)) words = answer_in_words(sign, *band);
    } else if (sign.sort == SignSort::several) {
        for (std::size_t i = 0; i < sign.answers.size(); ++i)
            if ((observation.present & answer_set(i)) != 0) words += (words.empty() ? "" : "; ") + answer_in_words(sign, i);
        if (const AnswerSet not_there = denied(sign, observation); not_there != 0)
            words += (words.empty() ? "not so: " : "; not so: ") + alternatives(sign, not_there);
    } else {
        const AnswerSet ruled_out = all_answers(sign.answers.size()) & ~observation.possible;
        const bool shorter = std::popcount(ruled_out) < std::popcount(observation.possible);
        words = shorter ? "not so: " + alternatives(sign, ruled_out) : alternatives(sign, observation.possible);
    }
    if (observation.sureness == Sureness::unsure) words += " (not sure)";
    if (observation.sureness == Sureness::guess) words += " (a guess)";
    return words;
}

std::string as_value(const Sign& sign, const Observation& observation) {
    if (observation.measured) {
        const Range& range = *observation.measured;
        if (range.low == range.high) return quantity_to_text(range.low, *sign.unit);
        for (std::size_t i = 0; i < sign.answers.size(); ++i)
            if (sign.band(i) == range) return sign.answers[i].id;
        if (range.high == sign.plausible.high)
            return (range.low_included ? "at least " : "above ") + quantity_to_text(range.low, *sign.unit);
        if (range.low == sign.plausible.low)
            return (range.high_included ? "at most " : "below ") + quantity_to_text(range.high, *sign.unit);
        return number_to_text(range.low) + " to " + quantity_to_text(range.high, *sign.unit);
    }
    // One answer by its name; several that are still possible by what was ruled out, since that is how it can be said again.
    const bool several = sign.sort == SignSort::several;
    const AnswerSet ruled_out = several ? denied(sign, observation) : all_answers(sign.answers.size()) & ~observation.possible;
    const AnswerSet named = several ? observation.present : observation.possible;
    const bool by_names = several || std::has_single_bit(observation.possible);
    const bool by_denials = several || !by_names;
    std::string value;
    const auto add = [&](const std::string& item) { value += (value.empty() ? "" : ",") + item; };
    for (std::size_t i = 0; i < sign.answers.size(); ++i)
        if (by_names && (named & answer_set(i)) != 0) add(sign.answers[i].id);
    for (std::size_t i = 0; i < sign.answers.size(); ++i)
        if (by_denials && (ruled_out & answer_set(i)) != 0) add("not " + sign.answers[i].id);
    return value;
}

}  // namespace lidlift
