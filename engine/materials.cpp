#include "engine/materials.hpp"

#include "engine/nearest_name.hpp"

#include <algorithm>
#include <optional>
#include <utility>

namespace lidlift {
namespace {

constexpr std::size_t longest_name_compared = 64;  ///< nothing longer is a slip of a name

/// "leaves" -> "leaf", "potatoes" -> "potato", "ashes" -> "ash", "berries" -> "berry". Both sides of a comparison go through
/// it, so that it need not make English words of everything.
std::string singular(std::string word) {
    const auto ends = [&](std::string_view end) { return word.size() > end.size() && word.ends_with(end); };
    const auto replace_end = [&](std::size_t length, std::string_view by) {
        word.resize(word.size() - length);
        word += by;
    };
    if (ends("oes") || ends("ches") || ends("shes") || ends("sses") || ends("xes"))
        replace_end(2, "");
    else if (ends("s") && !ends("ss") && !ends("us") && !ends("is"))
        replace_end(1, "");
    if (ends("ve"))
        replace_end(2, "f");
    else if (ends("ie"))
        replace_end(2, "y");
    return word;
}

bool share_a_word(std::string_view key, std::string_view other) {
    const std::string padded = ' ' + std::string(other) + ' ';
    while (!key.empty()) {
        const std::size_t blank = std::min(key.find(' '), key.size());
        if (padded.find(' ' + std::string(key.substr(0, blank)) + ' ') != std::string::npos) return true;
        key.remove_prefix(std::min(blank + 1, key.size()));
    }
    return false;
}

}  // namespace

std::string material_key(std::string_view text) {
    std::string key, word;
    const auto end_word = [&] {
        if (word.empty()) return;
        if (!key.empty()) key += ' ';
        key += singular(std::exchange(word, {}));
    };
    for (const char c : text) {
        if (c == ' ' || c == '\t' || c == '\n' || c == '-' || c == '_')
            end_word();
        else
            word += c >= 'A' && c <= 'Z' ? static_cast<char>(c - 'A' + 'a') : c;
    }
    end_word();
    return key;
}

MaterialNames::MaterialNames(const RuleBase& rule_base) : ids_(rule_base.materials.ids()) {
    const auto each = [&](const auto& use) {
        std::uint32_t position = 0;
        for (const Material& material : rule_base.materials) use(material, Handle<Material>{position++});
    };
    each([&](const Material& material, Handle<Material> handle) { add(material.id, Way::id, handle); });
    each([&](const Material& material, Handle<Material> handle) { add(material.name, Way::name, handle); });
    each([&](const Material& material, Handle<Material> handle) {
        for (const std::string& heard : material.heard_as) add(heard, Way::heard, handle);
    });
}

void MaterialNames::add(std::string_view text, Way way, Handle<Material> material) {
    const std::string key = material_key(text);
    if (key.empty()) return;
    const auto [found, first] = meanings_.try_emplace(key, Meaning{way, {}});
    if (first) keys_.push_back(key);
    Meaning& meaning = found->second;
    if (meaning.way == way && std::ranges::find(meaning.materials, material) == meaning.materials.end())
        meaning.materials.push_back(material);
}

std::vector<Handle<Material>> MaterialNames::meant_by(std::string_view text) const {
    const auto found = meanings_.find(material_key(text));
    return found == meanings_.end() ? std::vector<Handle<Material>>{} : found->second.materials;
}

std::string MaterialNames::nearest_id(std::string_view text) const {
    if (text.size() > longest_name_compared) return {};
    const std::string key = material_key(text);
    auto nearest = nearest_name(key, keys_);
    if (!nearest) {
        const auto related = std::ranges::find_if(keys_, [&](const std::string& known) { return share_a_word(key, known); });
        if (related == keys_.end()) return {};
        nearest = *related;
    }
    return ids_[meanings_.at(*nearest).materials.front().index];
}

Outcome<Handle<Material>> MaterialNames::find(std::string_view text) const {
    const auto meant = meant_by(text);
    if (meant.size() == 1) return meant.front();
    if (meant.size() > 1) {
        std::string which;
        for (std::size_t i = 0; i < meant.size(); ++i)
            which += (i == 0 ? "'" : i + 1 == meant.size() ? " or '" : ", '") + ids_[meant[i].index] + "'";
        return Fault{"'" + std::string(text) + "' may be " + which + ": say which"};
    }
    const std::string nearest = nearest_id(text);
    return Fault{"there is no material '" + std::string(text) + "'" +
                 (nearest.empty() ? "" : "; did you mean '" + nearest + "'?")};
}

Outcome<Handle<Material>> find_material(const RuleBase& rule_base, std::string_view text) {
    return MaterialNames(rule_base).find(text);
}

std::vector<NamedFigure> figures_of(const Material& material) {
    std::vector<NamedFigure> figures;
    const auto add = [&](std::string_view key, std::string_view unit, const std::optional<Figure>& figure) {
        if (figure) figures.push_back({key, find_unit(unit), &*figure});
    };
    add("moisture", "%", material.moisture);
    add("nitrogen", "%", material.nitrogen);
    add("carbon to nitrogen", "plain", material.carbon_to_nitrogen);
    add("density", "kg/m3", material.density);
    return figures;
}

std::string figure_text(const NamedFigure& named) {
    const Estimate& value = named.figure->value;
    const std::string typical = quantity_to_text(value.typical, *named.unit);
    if (value.is_exact()) return typical;
    return typical + " (" + number_to_text(value.low) + " to " + quantity_to_text(value.high, *named.unit) + ")";
}

std::string standing_text(const Figure& figure) {
    std::string text(to_word(figure.standing));
    if (figure.range_standing != figure.standing) text += ", the range " + std::string(to_word(figure.range_standing));
    return text;
}

const Sources& sources_of(const Figure& figure, const Material& material) {
    return figure.sources.empty() ? material.sources : figure.sources;
}

std::optional<double> carbon_share(const Material& material) {
    if (!material.nitrogen || !material.carbon_to_nitrogen) return std::nullopt;
    return material.nitrogen->value.typical * material.carbon_to_nitrogen->value.typical;
}

}  // namespace lidlift
