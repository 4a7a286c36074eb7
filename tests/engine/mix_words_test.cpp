#include "engine/mix_words.hpp"

#include "tests/catch.hpp"
#include "tests/engine/small_materials.hpp"

#include <string>

namespace engine_mix_words_test {

using namespace lidlift;

namespace {

const RuleBase& base() {
    static const RuleBase rule_base = test::read_small_materials();
    return rule_base;
}
const MaterialNames& names() {
    static const MaterialNames all(base());
    return all;
}
Vessels ours() {
    Vessels vessels;
    vessels.state({"bucket", 10});
    return vessels;
}

/// "30 kg kitchen_waste; 20 L dry_leaves", or what is wrong.
std::string loads(std::string_view text) {
    const auto read = read_loads(text, names(), ours());
    if (!read) return read.fault().text;
    std::string result;
    for (const Load& load : *read)
        result += (result.empty() ? "" : "; ") + number_to_text(load.amount.size) +
                  (load.amount.by == Amount::By::mass ? " kg " : " L ") + base().materials[load.material].id;
    return result;
}

std::string estimate(const Estimate& value) { return number_to_text(value.low) + ".." + number_to_text(value.high); }

/// "m 60..60 n 25..30: words"
std::string target(std::string_view text) {
    const auto read = read_target(text);
    if (!read) return read.fault().text;
    std::string result;
    if (read->goal.moisture) result += "m " + estimate(*read->goal.moisture) + " ";
    if (read->goal.carbon_to_nitrogen) result += "r " + estimate(*read->goal.carbon_to_nitrogen) + " ";
    return result;
}

std::string measured(std::string_view text) {
    const auto read = read_measured(text, names());
    if (!read) return read.fault().text;
    return base().materials[read->material].id + " " + std::to_string(static_cast<int>(read->figure)) + " " +
           estimate(read->value);
}

std::string hand(std::string_view text) {
    const auto read = read_at_hand(text, names(), ours());
    if (!read) return read.fault().text;
    return base().materials[read->material].id + (read->stock ? " up to " + number_to_text(read->stock->size) : "");
}

const std::string a_target = "a target is written 60 % moisture, 25 C:N, resting or worms";

}  // namespace

TEST_CASE("loads are read in words, by id, by name and as people call them", "[mixture]") {
    CHECK(loads("30 kg kitchen_waste") == "30 kg kitchen_waste");
    CHECK(loads("30 kg Kitchen waste 2 buckets dry-leaves") == "30 kg kitchen_waste; 20 L dry_leaves");
    CHECK(loads("30kg of slops and half a bucket of leaf litter") == "30 kg kitchen_waste; 5 L dry_leaves");
    CHECK(loads("2 buckets of 12 L of food scraps + 5 lb water") == "24 L kitchen_waste; 2.26796 kg water");
    CHECK(loads("2 cubic feet dry leaves") == "56.6337 L dry_leaves");
    CHECK(loads(" 3  kg\tdry   leaves ") == "3 kg dry_leaves");
}

TEST_CASE("loads that cannot be read say which piece it is", "[mixture]") {
    CHECK(loads("") == "say what is mixed, each with its amount: 30 kg kitchen_waste 5 kg dry_leaves");
    CHECK(loads("30 kg") == "'30 kg' of what? A material is missing after it");
    CHECK(loads("30 kitchen_waste") == "'30' has no unit: write 30 kg kitchen_waste, or 30 L, or buckets of a size");
    CHECK(loads("kitchen_waste 30 kg") ==
          "an amount is wanted, found 'kitchen_waste': each material comes after its amount, as in 30 kg kitchen_waste");
    CHECK(loads("3 kg dry leaves slops") ==
          "an amount is wanted after '3 kg dry leaves', found 'slops': each material comes after its amount, as in 30 kg "
          "kitchen_waste");
    CHECK(loads("3 kg dry leafs 2 kg water") == "3 kg dry_leaves; 2 kg water");
    CHECK(loads("3 kg drey leaves 2 kg water") == "there is no material 'drey leaves'; did you mean 'dry_leaves'?");
    CHECK(loads("3 sacks dry_leaves") == "nobody stated how much a sack holds: write '3 sacks of 10 L' with its size");
    CHECK(loads("half a barrow dry_leaves") ==
          "nobody stated how much a barrow holds: write 'half a barrow of 10 L' with its size");
    CHECK(loads("3 gal water") == "'gal' may be a US or an imperial gallon: write gal_us or gal_imp");
    CHECK(loads("3 m2 water").starts_with("'3 m2' is neither a mass nor a volume"));
    CHECK(loads("3 bukcets water").starts_with("'bukcets' is no unit and no measure; did you mean 'buckets'?"));
}

TEST_CASE("loads have limits", "[mixture]") {
    std::string many;
    for (std::size_t i = 0; i < most_loads; ++i) many += "1 kg water ";
    CHECK(read_loads(many, names(), ours())->size() == most_loads);
    CHECK(loads(many + "1 kg water") == "more than 40 materials in one mixture are too many");
    CHECK(read_loads("1 kg water" + std::string(longest_loads_text - 10, ' '), names(), ours()));
    CHECK(loads("1 kg water" + std::string(longest_loads_text - 9, ' ')) == "what is mixed may take 8192 bytes at most");
}

TEST_CASE("what is at hand may have an end", "[mixture]") {
    CHECK(hand("dry_leaves") == "dry_leaves");
    CHECK(hand("Dry leaves up to 20 kg") == "dry_leaves up to 20");
    CHECK(hand("leaf litter up to 2 buckets") == "dry_leaves up to 20");
    CHECK(hand("dry_leaves up to 20").starts_with("'20' has no unit"));
    CHECK(hand("dry_leavs") == "there is no material 'dry_leavs'; did you mean 'dry_leaves'?");
}

TEST_CASE("targets are read", "[mixture]") {
    CHECK(target("60 % moisture") == "m 60..60 ");
    CHECK(target("60%") == "m 60..60 ");
    CHECK(target("moisture 55 to 60 %") == "m 55..60 ");
    CHECK(target("a moisture of 60 %") == "m 60..60 ");
    CHECK(target("moisture 60") == "m 60..60 ");
    CHECK(target("25 C:N") == "r 25..25 ");
    CHECK(target("C:N 25 to 30") == "r 25..30 ");
    CHECK(target("C:N of 25.5") == "r 25.5..25.5 ");
    CHECK(target("30:1") == "r 30..30 ");
    CHECK(target("25:1 to 30:1") == "r 25..30 ");
    CHECK(target("c/n 30:1") == "r 30..30 ");
    CHECK(target("resting") == "m 50..60 r 25..35 ");
    CHECK(target("Worms") == "m 70..85 r 20..40 ");
}

TEST_CASE("targets that cannot be are refused", "[mixture]") {
    CHECK(target("restin") == "'restin' is no target; did you mean 'resting'?; " + a_target);
    CHECK(target("") == "'' is no target; " + a_target);
    CHECK(target("60") == "'60' does not say of what; " + a_target);
    CHECK(target("60 % C:N") == "'60 % C:N' speaks of moisture and of C:N at once; " + a_target);
    CHECK(target("100 % moisture") == "a moisture to reach lies between 0 and 100 %");
    CHECK(target("0 %") == "a moisture to reach lies between 0 and 100 %");
    CHECK(target("0:1") == "a C:N to reach lies above 0 and is at most 5000");
    CHECK(target("5001:1") == "a C:N to reach lies above 0 and is at most 5000");
    CHECK(target("60 to 50 %") == "'60 to 50 %' goes from high to low");
    CHECK(target("60 kg moisture") == "a mass (kg) was given where a share (%) is wanted");
    CHECK(target("30 x moisture").starts_with("'x' is not a unit"));
    CHECK(both(*read_target("60 %"), *read_target("resting")).fault().text.ends_with("are two targets for the same figure"));
    CHECK(both(*read_target("60 %"), *read_target("30:1"))->words == "a moisture of 60 % and a C:N of 30:1");
}

TEST_CASE("measured figures are read", "[mixture]") {
    CHECK(measured("kitchen_waste moisture 82 %") == "kitchen_waste 0 82..82");
    CHECK(measured("leaf litter moisture of 20 to 25 %") == "dry_leaves 0 20..25");
    CHECK(measured("dry leaves nitrogen 1.1 %") == "dry_leaves 1 1.1..1.1");
    CHECK(measured("dry leaves C:N 45:1") == "dry_leaves 2 45..45");
    CHECK(measured("dry leaves density 0.1 kg/L") == "dry_leaves 3 100..100");
    CHECK(measured("dry leaves density 200 lb/yd3") == "dry_leaves 3 118.655..118.655");
    CHECK(measured("dry leaves 30 %").starts_with("'dry leaves 30 %' names no figure"));
    CHECK(measured("dry leafage moisture 30 %").starts_with("there is no material 'dry leafage'"));
    CHECK(measured("dry leaves moisture 101 %") == "in 'dry leaves moisture 101 %': moisture lies between 0 and 100 %");
    CHECK(measured("dry leaves density 0") == "in 'dry leaves density 0': density lies above 0 and is at most 3000 kg/m3");
    CHECK(measured("dry leaves density 3 kg") ==
          "in 'dry leaves density 3 kg': a mass (kg) was given where a density (kg/m3) is wanted");
    CHECK(measured("dry leaves moisture") == "in 'dry leaves moisture': a number is missing");
    CHECK(measured("moisture 30 %").starts_with("'moisture 30 %' names no figure"));
    CHECK(measured("").starts_with("'' names no figure"));
}

}  // namespace engine_mix_words_test
