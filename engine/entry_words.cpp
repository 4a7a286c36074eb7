#include "engine/entry_words.hpp"

#include "engine/materials.hpp"
#include "engine/nearest_name.hpp"
#include "engine/plain_text.hpp"
#include "engine/yaml_text.hpp"

#include <algorithm>
#include <array>
#include <optional>
#include <string_view>
#include <utility>
#include <vector>

namespace lidlift {
namespace {

constexpr auto keys_in_order = std::to_array<std::string_view>(
    {"added", "sprinkled", "worms in", "worms out", "read", "saw", "did", "harvested", "emptied"});
constexpr std::size_t longest_typed_amount = 6;  ///< words: "half a barrow of 80 L"

/// Measurements of more than one figure, and their keys.
struct Measurement {
    std::string_view name;
    std::array<std::string_view, 4> keys;
};
constexpr auto measurements =
    std::to_array<Measurement>({{"drying", {"vessel", "wet", "dry", ""}},
                                {"bucket weighing", {"vessel", "full", "holds", ""}},
                                {"seed test", {"sprouted", "root", "sprouted in water", "root in water"}}});

using Words = std::vector<std::string>;

std::string joined(std::span<const std::string> words) {
    std::string text;
    for (const std::string& word : words) text += (text.empty() ? "" : " ") + word;
    return text;
}

std::string_view trimmed(std::string_view text) {
    const auto begin = text.find_first_not_of(" \t");
    return begin == std::string_view::npos ? std::string_view{} : text.substr(begin, text.find_last_not_of(" \t") - begin + 1);
}

Words split(std::string_view text) {
    Words words;
    while (!(text = trimmed(text)).empty()) {
        const std::size_t end = std::min(text.find_first_of(" \t"), text.size());
        words.emplace_back(text.substr(0, end));
        text.remove_prefix(end);
    }
    return words;
}

/// Small letters, and `gap` for blanks, '-' and '_'.
std::string spelt(std::string_view text, char gap) {
    std::string name(trimmed(text));
    for (char& c : name) {
        if (c >= 'A' && c <= 'Z') c = static_cast<char>(c - 'A' + 'a');
        if (c == ' ' || c == '-' || c == '_') c = gap;
    }
    return name;
}

const Measurement* find_measurement(std::string_view words) {
    const std::string name = spelt(words, ' ');
    const auto* const found = std::ranges::find(measurements, name, &Measurement::name);
    return found == measurements.end() ? nullptr : found;
}

class EntryMaker {
public:
    EntryMaker(const Vessels& vessels, const RuleBase& rule_base)
        : vessels_(vessels), rule_base_(rule_base), materials_(rule_base), contents_(keys_in_order.size()) {}

    std::optional<Fault> take(std::span<const std::string> words) {
        for (std::size_t i = 0; i < words.size();) {
            std::size_t used = 0;
            const auto key = key_at(words.subspan(i), used);
            if (!key) return no_key(words[i]);
            i += used;
            const std::size_t begin = i;
            while (i < words.size() && !key_at(words.subspan(i), used)) ++i;
            if (auto fault = take_clause(*key, words.subspan(begin, i - begin))) return fault;
        }
        return std::nullopt;
    }

    [[nodiscard]] YamlNode entry() const {
        YamlNode entry = yaml_map();
        for (std::size_t i = 0; i < contents_.size(); ++i)
            if (contents_[i]) add_key(entry, std::string(keys_in_order[i]), *contents_[i]);
        return entry;
    }

private:
    /// The key that begins here, of one or two words.
    static std::optional<std::size_t> key_at(std::span<const std::string> words, std::size_t& used) {
        for (used = std::min<std::size_t>(2, words.size()); used > 0; --used) {
            const std::string text = spelt(joined(words.first(used)), ' ');
            const auto* const found = std::ranges::find(keys_in_order, text);
            if (found != keys_in_order.end()) return static_cast<std::size_t>(found - keys_in_order.begin());
        }
        return std::nullopt;
    }

    static Fault no_key(const std::string& word) {
        const std::vector<std::string> known(keys_in_order.begin(), keys_in_order.end());
        const std::string hint = did_you_mean(word, known);
        return {quoted(word) + " does not say what happened" + (hint.empty() ? "" : " (" + hint + ")") +
                    ": begin with added, sprinkled, worms in, worms out, read, saw, did, harvested or emptied",
                0};
    }

    std::optional<Fault> take_clause(std::size_t key, std::span<const std::string> words) {
        const std::string_view name = keys_in_order[key];
        if (name == "added" || name == "sprinkled") return take_materials(key, words);
        if (name == "read") return take_readings(key, words);
        if (name == "saw") return take_answers(key, words);
        if (name == "did") return take_works(key, words);
        if (contents_[key]) return Fault{quoted(name) + " is said twice; make two entries of it", 0};
        if (name == "emptied") {
            if (!words.empty()) return Fault{quoted(joined(words)) + " stands after 'emptied', which says all by itself", 0};
            contents_[key] = yaml_text("yes");
            return std::nullopt;
        }
        if (words.empty()) return Fault{quoted(name) + " how much? For instance: " + std::string(name) + " 5 kg", 0};
        contents_[key] = yaml_text(joined(words));
        return std::nullopt;
    }

    YamlNode& map_of(std::size_t key) {
        if (!contents_[key]) contents_[key] = yaml_map();
        return *contents_[key];
    }

    static std::optional<Fault> add_once(YamlNode& map, std::string key, YamlNode value, std::string_view instead) {
        if (map.find(key)) return Fault{quoted(key) + " is said twice; " + std::string(instead), 0};
        add_key(map, std::move(key), std::move(value));
        return std::nullopt;
    }

    // ---- materials: "3 buckets kitchen waste 1 barrow of 80 L dry leaves", or "dry_leaves=2 kg"

    std::optional<Fault> take_materials(std::size_t key, std::span<const std::string> words) {
        const std::string example = std::string(keys_in_order[key]) + " 3 buckets kitchen_waste";
        if (words.empty()) return Fault{quoted(keys_in_order[key]) + " what? For instance: " + example, 0};
        Words loose;
        for (const std::string& word : words) {
            const std::size_t equals = word.find('=');
            if (equals == std::string::npos) {
                for (std::string& part : split(word)) loose.push_back(std::move(part));
                continue;
            }
            if (auto fault = take_amounts(key, std::exchange(loose, {}), example)) return fault;
            if (auto fault = take_material(key, word.substr(0, equals), word.substr(equals + 1))) return fault;
        }
        if (auto fault = take_amounts(key, loose, example)) return fault;
        if (!contents_[key]) return Fault{quoted(keys_in_order[key]) + " what? For instance: " + example, 0};
        return std::nullopt;
    }

    /// Number of words from `begin` that make an amount; 0: none.
    [[nodiscard]] std::size_t amount_at(const Words& words, std::size_t begin) const {
        for (std::size_t count = std::min(longest_typed_amount, words.size() - begin); count > 0; --count)
            if (read_amount(joined(std::span(words).subspan(begin, count)), vessels_)) return count;
        return 0;
    }
    static bool begins_with_digit(const std::string& word) { return word.front() >= '0' && word.front() <= '9'; }

    std::optional<Fault> take_amounts(std::size_t key, const Words& words, const std::string& example) {
        for (std::size_t i = 0; i < words.size();) {
            const std::size_t count = amount_at(words, i);
            if (count == 0) return no_amount(words, i, example);
            const std::string amount = joined(std::span(words).subspan(i, count));
            i += count;
            if (i < words.size() && words[i] == "of") ++i;  // "3 buckets of kitchen waste"
            const std::size_t begin = i;
            while (i < words.size() && !begins_with_digit(words[i]) && (i == begin || amount_at(words, i) == 0)) ++i;
            if (i == begin) return Fault{quoted(amount) + " of what? For instance: " + example, 0};
            if (auto fault = take_material(key, joined(std::span(words).subspan(begin, i - begin)), amount)) return fault;
        }
        return std::nullopt;
    }

    [[nodiscard]] Fault no_amount(const Words& words, std::size_t begin, const std::string& example) const {
        if (!begins_with_digit(words[begin]))
            return {"how much " + quoted(words[begin]) + "? Say the amount first, for instance: " + example, 0};
        const std::size_t count = std::min<std::size_t>(2, words.size() - begin);
        const auto amount = read_amount(joined(std::span(words).subspan(begin, count)), vessels_);
        return amount ? Fault{"'" + words[begin] + "' is no amount", 0} : amount.fault();
    }

    std::optional<Fault> take_material(std::size_t key, const std::string& name, const std::string& amount) {
        const auto material = materials_.find(name);
        std::string id = material ? rule_base_.materials[*material].id : name;
        return add_once(map_of(key), std::move(id), yaml_text(std::string(trimmed(amount))), "add the amounts up");
    }

    // ---- signs: "smell_sour=faint", "bed_temperature=61 °C", "worm_place=top,not lid,unsure"

    struct Said {
        std::string name;
        std::string value;
    };

    /// Words of the form name=value; what follows without '=' belongs to the value before it.
    static Outcome<std::vector<Said>> pairs(std::span<const std::string> words, std::string_view example) {
        std::vector<Said> result;
        for (const std::string& word : words) {
            const std::size_t equals = word.find('=');
            if (equals != std::string::npos)
                result.push_back({std::string(trimmed(std::string_view(word).substr(0, equals))), word.substr(equals + 1)});
            else if (!result.empty())
                result.back().value += " " + word;
            else
                return Fault{quoted(word) + " is not of the form name=value, for instance: " + std::string(example), 0};
        }
        return result;
    }

    std::optional<Fault> take_answers(std::size_t key, std::span<const std::string> words) {
        const std::string example = keys_in_order[key] == "saw" ? "saw smell_sour=faint" : "read bed_temperature=31C";
        if (words.empty()) return Fault{quoted(keys_in_order[key]) + " what? For instance: " + example, 0};
        const auto said = pairs(words, example);
        if (!said) return said.fault();
        for (const Said& one : *said)
            if (auto fault = take_answer(key, one)) return fault;
        return std::nullopt;
    }

    std::optional<Fault> take_answer(std::size_t key, const Said& said) {
        std::string id = spelt(said.name, '_');
        if (!rule_base_.signs.find(id)) id = said.name;
        if (trimmed(said.value).empty()) return Fault{quoted(said.name + "=") + " lacks its value", 0};
        return add_once(map_of(key), std::move(id), answer(said.value), "say its answers with commas between them");
    }

    static YamlNode answer(std::string_view value) {
        YamlNode answers = yaml_list();
        for (std::size_t begin = 0; begin <= value.size();) {
            const std::size_t comma = std::min(value.find(',', begin), value.size());
            answers.items.push_back(yaml_text(std::string(trimmed(value.substr(begin, comma - begin)))));
            begin = comma + 1;
        }
        std::string sure;
        const std::string last = answers.items.back().text;
        if (answers.items.size() > 1 && (last == "sure" || last == "unsure" || last == "guess")) {
            sure = last;
            answers.items.pop_back();
        }
        YamlNode said = answers.items.size() == 1 ? answers.items.front() : std::move(answers);
        if (sure.empty()) return said;
        YamlNode map = yaml_map();
        add_key(map, "is", std::move(said));
        add_key(map, "sure", yaml_text(sure));
        return map;
    }

    /// Signs and measurements: "drying wet=100g dry=23g ph=6.5".
    std::optional<Fault> take_readings(std::size_t key, std::span<const std::string> words) {
        std::size_t i = 0;
        const auto measurement_at = [&](std::size_t begin, std::size_t& used) -> const Measurement* {
            for (used = std::min<std::size_t>(2, words.size() - begin); used > 0; --used)
                if (const auto* found = find_measurement(joined(words.subspan(begin, used)))) return found;
            return nullptr;
        };
        std::size_t used = 0;
        if (words.empty()) return take_answers(key, words);
        while (i < words.size()) {
            const Measurement* measurement = measurement_at(i, used);
            if (measurement) i += used;
            const std::size_t begin = i;
            while (i < words.size() && !measurement_at(i, used)) ++i;
            const auto part = words.subspan(begin, i - begin);
            auto fault = measurement ? take_measurement(key, *measurement, part) : take_answers(key, part);
            if (fault) return fault;
        }
        return std::nullopt;
    }

    std::optional<Fault> take_measurement(std::size_t key, const Measurement& measurement, std::span<const std::string> words) {
        const auto said = pairs(words, std::string(measurement.name) + " " + std::string(measurement.keys[0]) + "=...");
        if (!said) return said.fault();
        YamlNode figures = yaml_map();
        for (const Said& one : *said) {
            std::string figure = spelt(one.name, ' ');
            if (std::ranges::find(measurement.keys, figure) == measurement.keys.end()) {
                if (auto fault = take_answer(key, one)) return fault;  // "drying wet=.. dry=.. ph=6.5"
                continue;
            }
            auto value = yaml_text(std::string(trimmed(one.value)));
            if (auto fault = add_once(figures, std::move(figure), std::move(value), "weigh it in two entries")) return fault;
        }
        return add_once(map_of(key), std::string(measurement.name), std::move(figures), "make two entries of it");
    }

    // ---- work: a step's id, or own words; words that were not quoted together make one work

    std::optional<Fault> take_works(std::size_t key, std::span<const std::string> words) {
        if (words.empty()) return Fault{"'did' what? For instance: did \"turned it\"", 0};
        YamlNode works = contents_[key] && contents_[key]->kind == YamlNode::Kind::list ? *contents_[key] : yaml_list();
        if (contents_[key] && contents_[key]->kind == YamlNode::Kind::text) works.items.push_back(*contents_[key]);
        std::string own;
        const auto end_own = [&] {
            if (!own.empty()) works.items.push_back(yaml_text(std::exchange(own, {})));
        };
        for (const std::string& word : words) {
            const std::string id = spelt(word, '_');
            const bool is_step = rule_base_.steps.find(id).has_value();
            if (!is_step && word.find(' ') == std::string::npos) {
                own += (own.empty() ? "" : " ") + word;
                continue;
            }
            end_own();
            works.items.push_back(yaml_text(is_step ? id : std::string(trimmed(word))));
        }
        end_own();
        contents_[key] = works.items.size() == 1 ? works.items.front() : std::move(works);
        return std::nullopt;
    }

    const Vessels& vessels_;
    const RuleBase& rule_base_;
    MaterialNames materials_;
    std::vector<std::optional<YamlNode>> contents_;  ///< by keys_in_order
};

}  // namespace

Outcome<YamlNode> entry_from_words(std::span<const std::string> words, const Vessels& vessels, const RuleBase& rule_base) {
    if (words.size() > most_words_of_an_entry)
        return Fault{"an entry of more than " + std::to_string(most_words_of_an_entry) + " words; make several of it", 0};
    EntryMaker maker(vessels, rule_base);
    if (auto fault = maker.take(words)) return std::move(*fault);
    return maker.entry();
}

}  // namespace lidlift
