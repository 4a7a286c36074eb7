// The section "materials" of rule files: figures, units, limits, extending, and the materials that ship.
#include "engine/materials.hpp"
#include "engine/mixture.hpp"
#include "tests/catch.hpp"
#include "tests/engine/short_rules.hpp"
#include "tests/near.hpp"

#include <algorithm>
#include <set>

namespace engine_materials_reader_test {

using namespace lidlift;
using namespace lidlift::test;

namespace {

bool holds(const std::string& text, const char* part) { return text.find(part) != std::string::npos; }

const std::string signs =
    "signs:\n"
    "  citrus: {ask: A, topic: feed, effort: look, answers: {none: {means: n}, some: {means: s}, lots: {means: l}}, sources: "
    "common_practice}\n"
    "  dung: {ask: A, topic: feed, effort: look, answers: {none: {means: n}, aged: {means: a}, fresh: {means: f}}, sources: "
    "common_practice}\n"
    "cautions:\n"
    "  K01: {name: N, level: note, say: S, sources: common_practice}\n";

/// A rule base of one material, peel, with `more` among its keys.
std::string peel(const std::string& more) {
    return signs + "materials:\n  peel: {name: Peel, role: feed, sources: common_practice" + (more.empty() ? "" : ", ") + more +
           "}\n";
}

Material read_peel(const std::string& more) {
    const RuleBase base = base_of(peel(more));
    return base.materials[*base.materials.find("peel")];
}

}  // namespace

TEST_CASE("a material's figures are read with range, standing, note and sources", "[materials][rule_base_reader]") {
    const RuleBase base =
        base_of("sources: {table: {title: T, kind: trade, standing: read}}\n" +
                peel("heard as: [skin], note: N, keep from worms: W, cautions: K01, counts towards: citrus, tells: [dung is "
                     "fresh, \"dung is any of (aged, fresh)\"], "
                     "moisture: {typical: 77.3 %, standing: read}, "
                     "nitrogen: {typical: 1 %, from: 0.5 %, to: 2 %, standing: derived, range standing: "
                     "read, disputed: yes, note: A says 2., "
                     "sources: table}"));
    const Material& peel = base.materials[*base.materials.find("peel")];
    CHECK(peel.name == "Peel");
    CHECK(peel.role == MaterialRole::feed);
    CHECK(peel.heard_as == std::vector<std::string>{"skin"});
    CHECK(peel.note == "N");
    CHECK(peel.keep_from_worms == "W");
    CHECK(peel.cautions == std::vector{*base.cautions.find("K01")});
    CHECK(peel.shares == std::vector{*base.signs.find("citrus")});
    REQUIRE(peel.tells.size() == 2);
    CHECK(peel.tells[0].sign == *base.signs.find("dung"));
    CHECK(peel.tells[0].answers == answer_set(2));
    CHECK(peel.tells[1].answers == (answer_set(1) | answer_set(2)));
    REQUIRE(peel.moisture);
    CHECK(peel.moisture->value == Estimate::exactly(77.3));
    CHECK(peel.moisture->standing == Standing::read);
    CHECK(peel.moisture->range_standing == Standing::read);
    CHECK_FALSE(peel.moisture->disputed);
    CHECK(&sources_of(*peel.moisture, peel) == &peel.sources);
    REQUIRE(peel.nitrogen);
    CHECK(peel.nitrogen->value == Estimate{0.5, 1, 2});
    CHECK(peel.nitrogen->standing == Standing::derived);
    CHECK(peel.nitrogen->range_standing == Standing::read);
    CHECK(peel.nitrogen->disputed);
    CHECK(peel.nitrogen->note == "A says 2.");
    CHECK(sources_of(*peel.nitrogen, peel) == Sources{*base.sources.find("table")});
    CHECK_FALSE(peel.carbon_to_nitrogen);
    CHECK_FALSE(peel.density);
    CHECK(to_text(peel.nitrogen->place) == "rules.yaml:8:" + std::to_string(peel.nitrogen->place.column));
}

TEST_CASE("a density is taken in any unit of density", "[materials][rule_base_reader]") {
    const auto density = [](const std::string& text) {
        return read_peel("density: {typical: " + text + ", standing: read}").density->value.typical;
    };
    CHECK(density("450 kg/m3") == 450);
    CHECK(density("0.45 kg/L") == near(450, 1e-9));
    // EPA 2016: 396 lb/yd3 is 235 kg/m3 and 3.8 lb a US gallon is 455; EPA 1997: 7.49 lb a gallon is about 900.
    CHECK(density("396 lb/yd3") == near(235, 0.1));
    CHECK(density("3.8 lb/gal_us") == near(455, 0.5));
    CHECK(density("7.49 lb/gal_us") == near(897.5, 0.1));
}

TEST_CASE("every limit of a figure is met, and passed by a little", "[materials][rule_base_reader]") {
    const auto complaints = [](const std::string& key, const std::string& typical) {
        return complaints_of(peel(key + ": {typical: " + typical + ", standing: read}"));
    };
    for (const char* good : {"0 %", "100 %"}) CHECK(complaints("moisture", good) == "");
    for (const char* bad : {"-0.1 %", "100.1 %"}) CHECK(holds(complaints("moisture", bad), "between 0 and 100 %"));
    for (const char* good : {"0 %", "50 %"}) CHECK(complaints("nitrogen", good) == "");
    for (const char* bad : {"-0.1 %", "50.1 %"}) CHECK(holds(complaints("nitrogen", bad), "between 0 and 50 %"));
    for (const char* good : {"0.1", "5000"}) CHECK(complaints("carbon to nitrogen", good) == "");
    for (const char* bad : {"0", "-1", "5000.1"})
        CHECK(holds(complaints("carbon to nitrogen", bad), "above 0 and be at most 5000"));
    for (const char* good : {"0.1 kg/m3", "3000 kg/m3", "3 t/m3"}) CHECK(complaints("density", good) == "");
    for (const char* bad : {"0 kg/m3", "-1 kg/m3", "3000.1 kg/m3"})
        CHECK(holds(complaints("density", bad), "above 0 and be at most 3000 kg/m3"));
    CHECK(complaints_of(peel("moisture: {typical: 10 %, from: 10 %, to: 10 %, standing: read}")) == "");
    CHECK(holds(complaints_of(peel("moisture: {typical: 9.9 %, from: 10 %, to: 10 %, standing: read}")),
                "between 'from' and 'to'"));
    CHECK(holds(complaints_of(peel("moisture: {typical: 10.1 %, from: 10 %, to: 10 %, standing: read}")),
                "between 'from' and 'to'"));
}

TEST_CASE("every role and standing that a file may say is read as what it says", "[materials][rule_base_reader]") {
    CHECK(material_role_words().size() == 6);
    for (std::size_t i = 0; i < material_role_words().size(); ++i) {
        const RuleBase base =
            base_of("materials: {a: {name: A, role: " + material_role_words()[i] + ", sources: common_practice}}");
        CHECK(base.materials.begin()->role == static_cast<MaterialRole>(i));
        CHECK(to_word(base.materials.begin()->role) == material_role_words()[i]);
    }
    CHECK(to_word(MaterialRole::feed) == "feed");
    CHECK(to_word(MaterialRole::dry_matter) == "dry matter");
    CHECK(to_word(MaterialRole::finished) == "finished");
    CHECK(standing_words().size() == 4);
    for (std::size_t i = 0; i < standing_words().size(); ++i)
        CHECK(read_peel("moisture: {typical: 5 %, standing: " + standing_words()[i] + "}").moisture->standing ==
              static_cast<Standing>(i));
    CHECK(to_word(Standing::read) == "read");
    CHECK(to_word(Standing::memory) == "from memory");
    CHECK(to_word(Standing::practice) == "common practice");
}

TEST_CASE("a site corrects one figure and keeps the rest", "[materials][rule_base_reader]") {
    const RuleText site{
        "site.yaml",
        "materials:\n  mixed_kitchen_waste:\n    earlier entry: extend\n    heard as: [canteen buckets]\n"
        "    density: {typical: 520 kg/m3, from: 480 kg/m3, to: 560 kg/m3, standing: common practice, disputed: no}\n"};
    auto files = default_rules();
    files.push_back(site);
    const RuleBase base = base_of(files);
    const auto handle = find_material(base, "canteen bucket");
    REQUIRE(handle);
    const Material& mine = base.materials[*handle];
    const Material& theirs = default_base().materials[*default_base().materials.find("mixed_kitchen_waste")];
    CHECK(mine.density->value == Estimate{480, 520, 560});
    CHECK_FALSE(mine.density->disputed);
    CHECK(theirs.density->value == Estimate{235, 455, 900});
    CHECK(mine.moisture->value == theirs.moisture->value);
    CHECK(mine.name == theirs.name);
    CHECK(base.materials.size() == default_base().materials.size());
}

TEST_CASE("a figure is told with its range and its standing", "[materials]") {
    const Material peel = read_peel(
        "moisture: {typical: 38 %, from: 10 %, to: 50 %, standing: read, range standing: from memory}, "
        "nitrogen: {typical: 1 %, standing: derived}, carbon to nitrogen: {typical: 54, from: 40, to: 80, standing: read}, "
        "density: {typical: 100 kg/m3, from: 60 kg/m3, to: 180 kg/m3, standing: common practice}");
    const auto figures = figures_of(peel);
    REQUIRE(figures.size() == 4);
    CHECK(figures[0].key == "moisture");
    CHECK(figure_text(figures[0]) == "38 % (10 to 50 %)");
    CHECK(standing_text(*figures[0].figure) == "read, the range from memory");
    CHECK(figure_text(figures[1]) == "1 %");
    CHECK(standing_text(*figures[1].figure) == "derived");
    CHECK(figure_text(figures[2]) == "54 (40 to 80)");
    CHECK(figure_text(figures[3]) == "100 kg/m3 (60 to 180 kg/m3)");
    CHECK(*carbon_share(peel) == 54);
    CHECK_FALSE(carbon_share(read_peel("nitrogen: {typical: 1 %, standing: derived}")));
    CHECK(figures_of(read_peel("")).empty());
}

TEST_CASE("the materials that ship can all be mixed, measured out and found", "[materials]") {
    const RuleBase& base = default_base();
    CHECK(base.materials.size() >= 50);
    const MaterialNames names(base);
    std::set<MaterialRole> roles;
    for (std::uint32_t i = 0; i < base.materials.size(); ++i) {
        const Material& material = base.materials[Handle<Material>{i}];
        CAPTURE(material.id);
        roles.insert(material.role);
        CHECK(ingredient_of(material));
        CHECK(material.density);
        CHECK(material.nitrogen);
        std::vector<std::string> words = material.heard_as;
        words.push_back(material.id);
        words.push_back(material.name);
        for (const std::string& word : words) {
            CAPTURE(word);
            const auto found = names.find(word);
            REQUIRE(found);
            CHECK(found->index == i);
        }
        for (const NamedFigure& named : figures_of(material)) CHECK_FALSE(named.figure->sources.empty());
    }
    CHECK(roles.size() == material_role_words().size());
}

TEST_CASE("what could hurt whoever handles a material carries its caution", "[materials]") {
    const RuleBase& base = default_base();
    const auto carries = [&](const char* id, const char* caution) {
        CAPTURE(id, caution);
        const auto& cautions = base.materials[*base.materials.find(id)].cautions;
        CHECK(std::count(cautions.begin(), cautions.end(), *base.cautions.find(caution)) == 1);
    };
    for (const char* id : {"ground_limestone", "wood_ash"}) carries(id, "K08");
    for (const char* id : {"urea", "poultry_manure", "poultry_litter", "cattle_urine"}) carries(id, "K02");
    for (const char* id : {"pig_manure", "dairy_slurry", "biogas_slurry"}) carries(id, "K01");
    for (const char* id : {"wood_chips", "shrub_trimmings", "tree_trimmings"}) carries(id, "K07");
    for (const char* id : {"hay_grass", "dried_cow_dung"}) carries(id, "K04");
    for (const char* id : {"dry_leaves", "straw", "sawdust", "rice_husk"}) carries(id, "K30");
    carries("grass_clippings", "K10b");
    // What becomes of dung on food is said with every kind of it.
    for (const Material& material : base.materials)
        if (material.role == MaterialRole::dung) carries(material.id.c_str(), "K11");
}

}  // namespace engine_materials_reader_test
