// A material found by what people call it: "Dead leaves", "dry-leaves", "leaf litter".
#pragma once

#include "engine/outcome.hpp"
#include "engine/rule_base.hpp"

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

}  // namespace lidlift
