#include "engine/materials.hpp"

#include "tests/catch.hpp"

namespace engine_materials_test {

using namespace lidlift;

namespace {

Material material(std::string id, std::string name, std::vector<std::string> heard_as) {
    Material made;
    made.id = std::move(id);
    made.name = std::move(name);
    made.heard_as = std::move(heard_as);
    return made;
}

RuleBase four_materials() {
    RuleBase base;
    base.materials.add(material("dry_leaves", "Dry fallen leaves", {"leaves", "dead leaves", "leaf litter"}));
    base.materials.add(material("potato_peel", "Potato peel", {"potato peelings", "peelings"}));
    base.materials.add(material("wood_ash", "Wood ash", {"ash", "leaves"}));
    base.materials.add(material("peelings", "Peelings of all sorts", {"Potato Peel"}));
    return base;
}

std::string found(const RuleBase& base, std::string_view text) {
    const auto handle = find_material(base, text);
    return handle ? base.materials[*handle].id : handle.fault().text;
}

}  // namespace

TEST_CASE("A material is found by its id, its name and what people call it", "[materials]") {
    const RuleBase base = four_materials();
    CHECK(found(base, "dry_leaves") == "dry_leaves");
    CHECK(found(base, "Dry fallen leaves") == "dry_leaves");
    CHECK(found(base, "dead leaves") == "dry_leaves");
    CHECK(found(base, "ash") == "wood_ash");
}

TEST_CASE("Letter case, gaps and the plural make no difference to a material's name", "[materials]") {
    const RuleBase base = four_materials();
    for (const char* written : {"DRY-LEAVES", "dry leaf", " Dry  Leaves ", "dry_leaf", "Dead-Leaf", "leaf litters"})
        CHECK(found(base, written) == "dry_leaves");
    CHECK(found(base, "ashes") == "wood_ash");
    CHECK(found(base, "Potatoes peels") == "potato_peel");
}

TEST_CASE("Plurals of the words that materials are made of", "[materials]") {
    CHECK(material_key("Leaves") == material_key("leaf"));
    CHECK(material_key("tomatoes") == material_key("tomato"));
    CHECK(material_key("peaches") == material_key("peach"));
    CHECK(material_key("egg boxes") == material_key("Egg-box"));
    CHECK(material_key("cherries") == material_key("cherry"));
    CHECK(material_key("olives") == material_key("olive"));
    CHECK(material_key("cookies") == material_key("cookie"));
    CHECK(material_key("husks") == material_key("husk"));
    CHECK(material_key("citrus") == "citrus");
    CHECK(material_key("grass") == "grass");
    CHECK(material_key("  ") == "");
}

TEST_CASE("A material's own id or name is never hidden by what another one is called", "[materials]") {
    const RuleBase base = four_materials();
    CHECK(found(base, "peelings") == "peelings");
    CHECK(found(base, "potato peel") == "potato_peel");
}

TEST_CASE("A word for two materials is asked back", "[materials]") {
    CHECK(found(four_materials(), "leaves") == "'leaves' may be 'dry_leaves' or 'wood_ash': say which");
}

TEST_CASE("An unknown material names the nearest one", "[materials]") {
    const RuleBase base = four_materials();
    CHECK(found(base, "dry_levaes") == "there is no material 'dry_levaes'; did you mean 'dry_leaves'?");
    CHECK(found(base, "ash of wood") == "there is no material 'ash of wood'; did you mean 'wood_ash'?");
    CHECK(found(base, "diamonds") == "there is no material 'diamonds'");
    CHECK(found(base, "") == "there is no material ''");
    CHECK(found(base, std::string(65, 'a')) == "there is no material '" + std::string(65, 'a') + "'");
    CHECK(found(RuleBase{}, "leaves") == "there is no material 'leaves'");
}

}  // namespace engine_materials_test
