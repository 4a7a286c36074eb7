#include "engine/mix_words.hpp"

#include "engine/nearest_name.hpp"
#include "engine/plain_text.hpp"

#include <algorithm>
#include <array>

namespace lidlift {
namespace {

constexpr std::size_t most_words_of_an_amount = 8;  // "2 buckets of 10 cubic feet" and some more
constexpr std::size_t most_words_of_a_material = 8;

std::string lower(std::string_view text) {
    std::string result(text);
    for (char& c : result)
        if (c >= 'A' && c <= 'Z') c = static_cast<char>(c - 'A' + 'a');
    return result;
}

std::vector<std::string> words_of(std::string_view text) {
    std::vector<std::string> words;
    std::string word;
    for (const char c : text) {
        if (c != ' ' && c != '\t' && c != '\n' && c != '\r') {
            word += c;
        } else if (!word.empty()) {
            words.push_back(std::move(word));
            word.clear();
        }
    }
    if (!word.empty()) words.push_back(std::move(word));
    return words;
}

std::string joined(const std::vector<std::string>& words, std::size_t from, std::size_t count) {
    std::string text;
    for (std::size_t i = from; i < from + count && i < words.size(); ++i) text += (i == from ? "" : " ") + words[i];
    return text;
}

bool begins_with_digit(std::string_view word) { return !word.empty() && word.front() >= '0' && word.front() <= '9'; }

class LoadsReader {
public:
    LoadsReader(std::vector<std::string> words, const MaterialNames& names, const Vessels& vessels)
        : words_(std::move(words)), names_(names), vessels_(vessels) {}

    Outcome<std::vector<Load>> read() {
        std::vector<Load> loads;
        while (at_ < words_.size()) {
            if (loads.size() == most_loads)
                return Fault{"more than " + std::to_string(most_loads) + " materials in one mixture are too many"};
            Outcome<Amount> amount = read_one_amount();
            if (!amount) return amount.fault();
            if (at_ < words_.size() && lower(words_[at_]) == "of") ++at_;
            const Outcome<Handle<Material>> material = read_material(amount->written);
            if (!material) return material.fault();
            loads.push_back({*material, std::move(*amount)});
            if (at_ < words_.size() && (lower(words_[at_]) == "and" || words_[at_] == "+")) ++at_;
        }
        if (loads.empty()) return Fault{"say what is mixed, each with its amount: 30 kg kitchen_waste 5 kg dry_leaves"};
        return loads;
    }

private:
    Outcome<Amount> read_one_amount() {
        for (std::size_t count = std::min(most_words_of_an_amount, words_.size() - at_); count > 0; --count) {
            Outcome<Amount> amount = read_amount(joined(words_, at_, count), vessels_);
            if (!amount) continue;
            at_ += count;
            return amount;
        }
        return Fault{why_no_amount()};
    }

    [[nodiscard]] std::string why_no_amount() const {
        const std::string& first = words_[at_];
        if (!begins_with_digit(first) && (material_length(at_) > 0 || !begins_a_measure())) {
            const std::string so_far = at_ == 0 ? "" : " after " + quoted(joined(words_, 0, at_));
            return "an amount is wanted" + so_far + ", found " + quoted(first) +
                   ": each material comes after its amount, as in 30 kg kitchen_waste";
        }
        if (at_ + 1 < words_.size() && material_length(at_ + 1) > 0)
            return quoted(first) + " has no unit: write " + first + " kg " + words_[at_ + 1] + ", or " + first +
                   " L, or buckets of a size";
        return read_amount(joined(words_, at_, measure_length()), vessels_).fault().text;
    }

    /// "half a bucket" whose size nobody stated, and the like: a measure comes within three words.
    [[nodiscard]] bool begins_a_measure() const {
        return measure_length() <= 4 && is_measure(words_[at_ + measure_length() - 1], vessels_);
    }
    [[nodiscard]] std::size_t measure_length() const {
        for (std::size_t count = 2; count <= 4 && at_ + count <= words_.size(); ++count)
            if (is_measure(words_[at_ + count - 1], vessels_)) return count;
        return std::min<std::size_t>(2, words_.size() - at_);
    }

    /// How many words from `from` on name a material, most first; 0: none do.
    [[nodiscard]] std::size_t material_length(std::size_t from) const {
        for (std::size_t count = std::min(most_words_of_a_material, words_.size() - from); count > 0; --count)
            if (!names_.meant_by(joined(words_, from, count)).empty()) return count;
        return 0;
    }

    Outcome<Handle<Material>> read_material(const std::string& amount) {
        if (at_ == words_.size()) return Fault{quoted(amount) + " of what? A material is missing after it"};
        std::size_t count = material_length(at_);
        if (count == 0)  // up to the next amount, for the message
            do ++count;
            while (at_ + count < words_.size() && !begins_with_digit(words_[at_ + count]) && count < most_words_of_a_material);
        const Outcome<Handle<Material>> found = names_.find(joined(words_, at_, count));
        at_ += count;
        return found;
    }

    std::vector<std::string> words_;
    const MaterialNames& names_;
    const Vessels& vessels_;
    std::size_t at_ = 0;
};

/// "25", "25 to 30", "82 %", "90 to 110 kg/m3", in `unit`.
Outcome<Estimate> read_range(std::string_view text, const Unit& unit) {
    const std::size_t to = text.find(" to ");
    const Outcome<Quantity> last = read_quantity(to == std::string_view::npos ? text : text.substr(to + 4));
    if (!last) return last.fault();
    Outcome<double> high = convert(*last, unit);
    if (!high) return high.fault();
    if (to == std::string_view::npos) return Estimate::exactly(*high);
    Outcome<Quantity> first = read_quantity(text.substr(0, to));
    if (!first) return first.fault();
    if (first->unit == nullptr) first->unit = last->unit;
    const Outcome<double> low = convert(*first, unit);
    if (!low) return low.fault();
    if (*low > *high) return Fault{quoted(text) + " goes from high to low"};
    return Estimate{*low, (*low + *high) / 2, *high};
}

/// Without what makes a ratio of a number: "25:1" -> "25".
std::string without_to_one(std::string text) {
    for (std::size_t at = text.find(":1"); at != std::string::npos; at = text.find(":1", at)) {
        if (at > 0 && begins_with_digit(text.substr(at - 1)) && (at + 2 == text.size() || text[at + 2] == ' ')) {
            text.erase(at, 2);
        } else {
            at += 2;
        }
    }
    return text;
}

bool is_ratio_word(const std::string& word) { return word == "c:n" || word == "c/n" || word == "cn" || word == "ratio"; }

std::string ratio_words(const Estimate& ratio) {
    return "a C:N of " + number_to_text(ratio.low) + (ratio.is_exact() ? "" : " to " + number_to_text(ratio.high)) + ":1";
}
std::string moisture_words(const Estimate& moisture) {
    return "a moisture of " + number_to_text(moisture.low) +
           (moisture.is_exact() ? "" : " to " + number_to_text(moisture.high)) + " %";
}

Estimate middle_of(const Band& band) { return {band.low, (band.low + band.high) / 2, band.high}; }

struct FigureWord {
    const char* word;
    FigureName figure;
    const char* unit;
    double least, most;
    bool zero;
};
constexpr auto figure_words = std::to_array<FigureWord>({
    {"moisture", FigureName::moisture, "%", 0, 100, true},
    {"nitrogen", FigureName::nitrogen, "%", 0, 50, true},
    {"c:n", FigureName::carbon_to_nitrogen, "plain", 0, 5000, false},
    {"density", FigureName::density, "kg/m3", 0, 3000, false},
});

constexpr const char* a_target = "a target is written 60 % moisture, 25 C:N, resting or worms";

}  // namespace

Outcome<std::vector<Load>> read_loads(std::string_view text, const MaterialNames& names, const Vessels& vessels) {
    if (text.size() > longest_loads_text)
        return Fault{"what is mixed may take " + std::to_string(longest_loads_text) + " bytes at most"};
    return LoadsReader(words_of(text), names, vessels).read();
}

Outcome<AtHand> read_at_hand(std::string_view text, const MaterialNames& names, const Vessels& vessels) {
    const std::size_t up_to = lower(text).find(" up to ");
    const Outcome<Handle<Material>> material = names.find(text.substr(0, up_to));
    if (!material) return material.fault();
    if (up_to == std::string_view::npos) return AtHand{*material, std::nullopt};
    Outcome<Amount> stock = read_amount(text.substr(up_to + 7), vessels);
    if (!stock) return stock.fault();
    return AtHand{*material, std::move(*stock)};
}

Outcome<Target> read_target(std::string_view text) {
    const std::string plain = lower(text);
    std::vector<std::string> words = words_of(plain);
    if (words.size() == 1)
        if (const StageWindows* stage = find_stage_windows(words.front()))
            return Target{{middle_of(stage->moisture.best), middle_of(stage->carbon_to_nitrogen.best)},
                          stage,
                          std::string("what suits ") + stage->name + ": " + moisture_words(middle_of(stage->moisture.best)) +
                              " and " + ratio_words(middle_of(stage->carbon_to_nitrogen.best))};
    const bool ratio = std::ranges::any_of(words, is_ratio_word) || without_to_one(plain) != plain;
    std::erase_if(words, [](const std::string& word) {
        return is_ratio_word(word) || word == "moisture" || word == "of" || word == "a";
    });
    const std::string figures = without_to_one(joined(words, 0, words.size()));
    if (!begins_with_digit(figures)) {
        std::vector<std::string> known;
        for (const StageWindows& stage : stage_windows()) known.emplace_back(stage.word);
        const std::string hint = did_you_mean(plain, known);
        return Fault{quoted(text) + " is no target" + (hint.empty() ? "" : "; " + hint) + "; " + a_target};
    }
    const bool moisture = plain.find("moisture") != std::string::npos || plain.find('%') != std::string::npos;
    if (ratio == moisture)
        return Fault{quoted(text) + (ratio ? " speaks of moisture and of C:N at once" : " does not say of what") + "; " +
                     a_target};
    const Outcome<Estimate> range = read_range(figures, *find_unit(ratio ? "plain" : "%"));
    if (!range) return range.fault();
    if (ratio) {
        if (!(range->low > 0 && range->high <= 5000)) return Fault{"a C:N to reach lies above 0 and is at most 5000"};
        return Target{{std::nullopt, *range}, nullptr, ratio_words(*range)};
    }
    if (!(range->low > 0 && range->high < 100)) return Fault{"a moisture to reach lies between 0 and 100 %"};
    return Target{{*range, std::nullopt}, nullptr, moisture_words(*range)};
}

Outcome<Target> both(const Target& one, const Target& other) {
    if ((one.goal.moisture && other.goal.moisture) || (one.goal.carbon_to_nitrogen && other.goal.carbon_to_nitrogen))
        return Fault{"'" + one.words + "' and '" + other.words + "' are two targets for the same figure"};
    Target result = one;
    if (other.goal.moisture) result.goal.moisture = other.goal.moisture;
    if (other.goal.carbon_to_nitrogen) result.goal.carbon_to_nitrogen = other.goal.carbon_to_nitrogen;
    if (result.stage == nullptr) result.stage = other.stage;
    result.words = one.words + " and " + other.words;
    return result;
}

Outcome<MeasuredFigure> read_measured(std::string_view text, const MaterialNames& names) {
    const std::vector<std::string> words = words_of(text);
    for (std::size_t i = 1; i < words.size(); ++i) {
        const std::string word = lower(words[i]);
        const auto* const known = std::ranges::find_if(figure_words, [&](const FigureWord& figure) {
            return figure.word == word || (figure.figure == FigureName::carbon_to_nitrogen && is_ratio_word(word));
        });
        if (known == figure_words.end()) continue;
        const Outcome<Handle<Material>> material = names.find(joined(words, 0, i));
        if (!material) return material.fault();
        std::string figure_text = joined(words, i + 1, words.size());
        if (figure_text.starts_with("of ")) figure_text = figure_text.substr(3);
        if (known->figure == FigureName::carbon_to_nitrogen) figure_text = without_to_one(figure_text);
        const Unit& unit = *find_unit(known->unit);
        const Outcome<Estimate> value = read_range(figure_text, unit);
        if (!value) return Fault{"in " + quoted(text) + ": " + value.fault().text};
        if (value->low < known->least || value->high > known->most || (!known->zero && value->low == known->least))
            return Fault{"in " + quoted(text) + ": " + known->word + " lies " + (known->zero ? "between " : "above ") +
                         number_to_text(known->least) + (known->zero ? " and " : " and is at most ") +
                         quantity_to_text(known->most, unit)};
        return MeasuredFigure{*material, known->figure, *value};
    }
    return Fault{quoted(text) +
                 " names no figure: write a material, then moisture, nitrogen, C:N or density, then what was measured, as in "
                 "kitchen_waste moisture 82 %"};
}

void apply(Ingredient& what, Handle<Material> material, const std::vector<MeasuredFigure>& measured) {
    for (const MeasuredFigure& one : measured) {
        if (one.material != material) continue;
        switch (one.figure) {
            case FigureName::moisture:
                what.moisture = one.value;
                break;
            case FigureName::nitrogen:
                what.nitrogen = one.value;
                break;
            case FigureName::carbon_to_nitrogen:
                what.carbon_to_nitrogen = one.value;
                break;
            case FigureName::density:
                what.density = one.value;
                break;
        }
    }
}

}  // namespace lidlift
