// A material found by what people call it: "Dead leaves", "dry-leaves", "leaf litter".
#pragma once

#include "engine/outcome.hpp"
#include "engine/quantity.hpp"
#include "engine/rule_base.hpp"

#include <optional>
#include <string>
#include <string_view>
#include <unordered_map>
#include <vector>

namespace lidlift {

/// What counts of a material's name: small letters, one blank for every gap, '-' and '_', and each word in the singular, as far
/// as a few rules of English tell it ("Leaves" and "leaf" are "leaf", "potato-peels" is "potato peel").
[[nodiscard]] std::string material_key(std::string_view text);

/// Finds materials by id, name and heard_as. An id comes before a name and a name before what is heard, so that no material can
/// hide another one's id. Holds handles only; build one where many names are looked up.
class MaterialNames {
public:
    explicit MaterialNames(const RuleBase& rule_base);

    /// Fault: "there is no material 'leafs'; did you mean 'dry_leaves'?", or which materials the word may mean.
    [[nodiscard]] Outcome<Handle<Material>> find(std::string_view text) const;
    /// All materials that a word means equally well; none where nothing is called so.
    [[nodiscard]] std::vector<Handle<Material>> meant_by(std::string_view text) const;

private:
    enum class Way { id, name, heard };
    struct Meaning {
        Way way;
        std::vector<Handle<Material>> materials;
    };
    void add(std::string_view text, Way way, Handle<Material> material);
    [[nodiscard]] std::string nearest_id(std::string_view text) const;

    std::unordered_map<std::string, Meaning> meanings_;  ///< by material_key
    std::vector<std::string> keys_;                      ///< of meanings_, in the order of the rule base
    std::vector<std::string> ids_;                       ///< by handle
};

/// One look-up.
[[nodiscard]] Outcome<Handle<Material>> find_material(const RuleBase& rule_base, std::string_view text);

/// A material's figure under the key that rule files have for it, in its unit.
struct NamedFigure {
    std::string_view key;  ///< "moisture", "nitrogen", "carbon to nitrogen", "density"
    const Unit* unit = nullptr;
    const Figure* figure = nullptr;
};

/// The figures that `material` has, in that order; they point into it.
[[nodiscard]] std::vector<NamedFigure> figures_of(const Material& material);

/// "38 % (10 to 50 %)"; an exact one without brackets.
[[nodiscard]] std::string figure_text(const NamedFigure& named);

/// "read", or "read, the range from memory".
[[nodiscard]] std::string standing_text(const Figure& figure);

/// Its own sources, or those of its material where it names none.
[[nodiscard]] const Sources& sources_of(const Figure& figure, const Material& material);

/// Carbon in % of dry mass: nitrogen times carbon to nitrogen, of the typical figures.
[[nodiscard]] std::optional<double> carbon_share(const Material& material);

}  // namespace lidlift
