#include "engine/review/materials.hpp"

#include "engine/materials.hpp"
#include "engine/review/kinds.hpp"

#include <algorithm>
#include <string>
#include <utility>

namespace lidlift {
namespace {

constexpr double disputed_from = 2;  ///< the factor from which a range has to be told as a dispute

bool is_eaten(const Material& material) {
    return material.role == MaterialRole::feed || material.role == MaterialRole::dry_matter ||
           material.role == MaterialRole::dung;
}

class MaterialsReview {
public:
    MaterialsReview(const RuleBase& base, std::vector<ReviewFinding>& findings)
        : base_(base), names_(base), findings_(findings) {}

    void review() {
        for (std::uint32_t i = 0; i < base_.materials.size(); ++i) {
            const Material& material = base_.materials[Handle<Material>{i}];
            review_gaps(material);
            review_carbon(material);
            for (const NamedFigure& named : figures_of(material)) {
                review_dispute(material, named);
                review_standing(material, named);
            }
            review_words(material, {i});
        }
    }

private:
    void add(std::string_view kind, const Place& place, std::vector<std::string> about, std::string text, std::string mend) {
        ReviewFinding finding = finding_of(kind, place);
        finding.about = std::move(about);
        finding.text = std::move(text);
        finding.mend = std::move(mend);
        findings_.push_back(std::move(finding));
    }

    void review_gaps(const Material& material) {
        const std::string who = "the material '" + material.id + "'";
        if (!material.moisture)
            add("material_without_moisture", material.place, {material.id}, who + " has no figure for its moisture",
                "say how wet it is, if only as a wide range from common practice");
        // A mineral counts as holding no nitrogen, and of what holds none there is no carbon to nitrogen.
        const bool mineral = material.role == MaterialRole::mineral;
        const bool no_nitrogen = material.nitrogen && material.nitrogen->value.high == 0;
        std::string missing;
        const auto lacks = [&](bool lacking, const char* key) {
            if (lacking) missing += (missing.empty() ? "'" : " and '") + std::string(key) + "'";
        };
        lacks(!material.nitrogen && !mineral, "nitrogen");
        lacks(!material.carbon_to_nitrogen && !mineral && !no_nitrogen, "carbon to nitrogen");
        lacks(!material.density, "density");
        if (!missing.empty())
            add("material_lacks_figures", material.place, {material.id}, who + " lacks " + missing,
                "find the figure, or say under 'reviewed' why there is none");
    }

    void review_carbon(const Material& material) {
        const auto carbon = carbon_share(material);
        if (!carbon || (*carbon <= most_carbon_of_a_material && (!is_eaten(material) || *carbon >= least_carbon_of_a_material)))
            return;
        add("impossible_carbon", material.place, {material.id},
            "the nitrogen and the carbon to nitrogen of '" + material.id + "' make " + number_to_text(*carbon) +
                " % carbon in the dry mass",
            "look both figures up again; one may be of fresh mass, or from another table");
    }

    void review_dispute(const Material& material, const NamedFigure& named) {
        // From 80 to 95 % moisture the dry matter shrinks to a quarter, and nobody would call that a dispute.
        if (named.key == "moisture") return;
        const Figure& figure = *named.figure;
        const bool wide = figure.value.high > 0 && figure.value.high >= disputed_from * figure.value.low;
        if (!(wide || figure.disputed) || (figure.disputed && !figure.note.empty())) return;
        add("dispute_not_told", figure.place, {material.id},
            "the " + std::string(named.key) + " of '" + material.id + "'" +
                (wide ? " reaches from " + number_to_text(figure.value.low) + " to " +
                            quantity_to_text(figure.value.high, *named.unit)
                      : " is disputed") +
                (figure.disputed ? ", and no note says who says what" : ", and is not said to be disputed"),
            "say 'disputed: yes', and in a 'note' who says what");
    }

    void review_standing(const Material& material, const NamedFigure& named) {
        const Figure& figure = *named.figure;
        if (figure.standing != Standing::read && figure.range_standing != Standing::read) return;
        const Sources& sources = sources_of(figure, material);
        const bool seen = std::ranges::any_of(sources, [&](Handle<Source> handle) {
            const Source& source = base_.sources[handle];
            return source.place.line > 0 && source.standing != "from memory" && source.standing != "contents only";
        });
        if (!seen)
            add("read_from_nobody", figure.place, {material.id},
                "the " + std::string(named.key) + " of '" + material.id +
                    "' is said to be read, but none of its sources was seen",
                "name the source that was read, or say 'standing: from memory'");
    }

    void review_words(const Material& material, Handle<Material> handle) {
        std::vector<std::string> words = material.heard_as;
        words.push_back(material.name);
        for (const std::string& word : words) {
            const auto meant = names_.meant_by(word);
            const auto other = std::ranges::find_if(meant, [&](Handle<Material> one) { return one != handle; });
            if (other == meant.end()) continue;
            const Material& its = base_.materials[*other];
            add("shared_material_word", material.place, {material.id, its.id},
                "'" + word + "' means '" + material.id + "' and also '" + its.id + "'", "leave the word to one of them");
        }
    }

    const RuleBase& base_;
    const MaterialNames names_;
    std::vector<ReviewFinding>& findings_;
};

}  // namespace

void review_materials(const RuleBase& rule_base, std::vector<ReviewFinding>& findings) {
    MaterialsReview(rule_base, findings).review();
}

}  // namespace lidlift
