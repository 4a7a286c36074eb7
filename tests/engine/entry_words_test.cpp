#include "engine/entry_words.hpp"

#include "engine/yaml_text.hpp"
#include "tests/catch.hpp"
#include "tests/engine/small_tanks.hpp"

#include <string>
#include <utility>
#include <vector>

namespace engine_entry_words_test {

using namespace lidlift;
using namespace lidlift::test;

namespace {

Vessels bucket_and_barrow() {
    Vessels vessels;
    vessels.state({"bucket", 10});
    vessels.state({"barrow", 80});
    return vessels;
}

std::string entry(const std::vector<std::string>& words) {
    const auto made = entry_from_words(words, bucket_and_barrow(), tank_base());
    return made ? yaml_on_one_line(*made) : made.fault().text;
}

/// The words split at blanks, as a shell does without quotes.
std::string unquoted(const std::string& line) {
    std::vector<std::string> words;
    std::string word;
    for (const char c : line + " ") {
        if (c != ' ')
            word += c;
        else if (!word.empty())
            words.push_back(std::exchange(word, {}));
    }
    return entry(words);
}

}  // namespace

TEST_CASE("materials come with their amounts, in any of the ways people say them", "[entry_words]") {
    const std::string expected = "{added: {kitchen_waste: 3 buckets, dry_leaves: 2 kg}}";
    CHECK(unquoted("added 3 buckets kitchen_waste 2 kg dry_leaves") == expected);
    CHECK(unquoted("added 3 buckets kitchen waste 2 kg dry leaves") == expected);
    CHECK(unquoted("added 3 buckets of Mixed Kitchen Waste 2 kg of dry fallen leaves") == expected);
    CHECK(entry({"added", "3 buckets kitchen waste", "2 kg dry leaves"}) == expected);
    CHECK(entry({"added", "3 buckets", "kitchen waste", "2 kg", "dry leaves"}) == expected);
    CHECK(entry({"added", "kitchen_waste=3 buckets", "dry leaf=2 kg"}) == expected);
    CHECK(entry({"added", "3", "buckets", "kitchen_waste", "dry leaf=2 kg"}) == expected);
    CHECK(unquoted("added 1 barrow of 80 L dry_leaves half a bucket cow_dung 3kg water") ==
          "{added: {dry_leaves: 1 barrow of 80 L, cow_dung: half a bucket, water: 3kg}}");
    CHECK(unquoted("sprinkled 2 kg cow_dung 20 L water") == "{sprinkled: {cow_dung: 2 kg, water: 20 L}}");
    CHECK(unquoted("added 2 kg water added 3 kg cow_dung") == "{added: {water: 2 kg, cow_dung: 3 kg}}");
    // What is not known is left as it was said, for the reader to name the nearest.
    CHECK(unquoted("added 3 buckets kichen waste") == "{added: {kichen waste: 3 buckets}}");
}

TEST_CASE("what is missing of an amount is said", "[entry_words]") {
    CHECK(unquoted("added") == "'added' what? For instance: added 3 buckets kitchen_waste");
    CHECK(entry({"added", ""}) == "'added' what? For instance: added 3 buckets kitchen_waste");
    CHECK(unquoted("added 3 buckets") == "'3 buckets' of what? For instance: added 3 buckets kitchen_waste");
    CHECK(unquoted("added 3 buckets 2 kg dry_leaves") == "'3 buckets' of what? For instance: added 3 buckets kitchen_waste");
    CHECK(unquoted("sprinkled water 20 L") ==
          "how much 'water'? Say the amount first, for instance: sprinkled 3 buckets kitchen_waste");
    CHECK(unquoted("added 3 bukets kitchen_waste").find("'bukets' is no unit and no measure; did you mean 'buckets'?") == 0);
    CHECK(unquoted("added 3 sacks dry_leaves").find("nobody stated how much a sack holds") == 0);
    CHECK(unquoted("added 3").find("'3' has no unit") == 0);
    CHECK(unquoted("added 2 kg water 3 kg water") == "'water' is said twice; add the amounts up");
}

TEST_CASE("signs are said as name=value, with commas and how sure", "[entry_words]") {
    CHECK(unquoted("saw smell=faint wet=yes") == "{saw: {smell: faint, wet: yes}}");
    CHECK(entry({"read", "bed_temperature=61 °C"}) == "{read: {bed_temperature: 61 °C}}");
    CHECK(unquoted("read bed_temperature=61 °C ph=6.5") == "{read: {bed_temperature: 61 °C, ph: 6.5}}");
    CHECK(unquoted("saw smell=faint,unsure") == "{saw: {smell: {is: faint, sure: unsure}}}");
    CHECK(entry({"saw", "animals=flies, not mites,guess"}) == "{saw: {animals: {is: [flies, not mites], sure: guess}}}");
    CHECK(unquoted("saw animals=flies,mites") == "{saw: {animals: [flies, mites]}}");
    CHECK(unquoted("saw Smell=faint") == "{saw: {smell: faint}}");
    CHECK(unquoted("saw smell=unsure") == "{saw: {smell: unsure}}");
    CHECK(unquoted("saw wet=yes saw smell=none") == "{saw: {wet: yes, smell: none}}");
    CHECK(unquoted("saw smell") == "'smell' is not of the form name=value, for instance: saw smell_sour=faint");
    CHECK(unquoted("saw smell=") == "'smell=' lacks its value");
    CHECK(unquoted("saw") == "'saw' what? For instance: saw smell_sour=faint");
    CHECK(unquoted("saw smell=none smell=faint") == "'smell' is said twice; say its answers with commas between them");
}

TEST_CASE("measurements are said with their figures", "[entry_words]") {
    CHECK(unquoted("read drying vessel=4g wet=14g dry=6.3g") == "{read: {drying: {vessel: 4g, wet: 14g, dry: 6.3g}}}");
    CHECK(unquoted("read ph=6.5 drying wet=14 g dry=6.3 g bed_temperature=31C") ==
          "{read: {ph: 6.5, bed_temperature: 31C, drying: {wet: 14 g, dry: 6.3 g}}}");
    CHECK(unquoted("read bucket weighing vessel=1kg full=10kg holds=20L") ==
          "{read: {bucket weighing: {vessel: 1kg, full: 10kg, holds: 20L}}}");
    CHECK(unquoted("read seed test sprouted=8 root=21mm sprouted_in_water=9 root-in-water=28mm") ==
          "{read: {seed test: {sprouted: 8, root: 21mm, sprouted in water: 9, root in water: 28mm}}}");
    CHECK(unquoted("read drying wet=14g drying wet=15g") == "'drying' is said twice; make two entries of it");
    CHECK(unquoted("read drying wet=14g wet=15g") == "'wet' is said twice; weigh it in two entries");
    CHECK(unquoted("read drying 14g") == "'14g' is not of the form name=value, for instance: drying vessel=...");
}

TEST_CASE("work is a step or own words", "[entry_words]") {
    CHECK(unquoted("did turn_heap") == "{did: turn_heap}");
    CHECK(unquoted("did Turn-Heap") == "{did: turn_heap}");
    CHECK(unquoted("did put the lid back on") == "{did: put the lid back on}");
    CHECK(entry({"did", "put the lid back on", "turn_heap", "swept"}) == "{did: [put the lid back on, turn_heap, swept]}");
    CHECK(unquoted("did turned it did swept") == "{did: [turned it, swept]}");
    CHECK(unquoted("did check the lid") == "{did: check the lid}");
    CHECK(unquoted("did") == "'did' what? For instance: did \"turned it\"");
}

TEST_CASE("worms, harvests and several things at once, in the record's order", "[entry_words]") {
    CHECK(unquoted("worms in 5 kg") == "{worms in: 5 kg}");
    CHECK(entry({"worms in", "5 kg"}) == "{worms in: 5 kg}");
    CHECK(unquoted("Worms-Out 5 kg") == "{worms out: 5 kg}");
    CHECK(unquoted("emptied harvested 6 barrows did it saw wet=yes added 1 kg water worms out 1 kg") ==
          "{added: {water: 1 kg}, worms out: 1 kg, saw: {wet: yes}, did: it, harvested: 6 barrows, emptied: yes}");
    CHECK(unquoted("") == "{}");
    CHECK(unquoted("worms in") == "'worms in' how much? For instance: worms in 5 kg");
    CHECK(unquoted("harvested 3 kg harvested 2 kg") == "'harvested' is said twice; make two entries of it");
    CHECK(unquoted("emptied now") == "'now' stands after 'emptied', which says all by itself");
}

TEST_CASE("a word that says nothing is told, with the nearest", "[entry_words]") {
    CHECK(unquoted("adde 3 kg water").find("'adde' does not say what happened (did you mean 'added'?)") == 0);
    CHECK(unquoted("3 kg water").find("'3' does not say what happened: begin with added") == 0);
    std::vector<std::string> words(most_words_of_an_entry - 1, "word");
    words.insert(words.begin(), "did");
    CHECK(entry(words).find("{did: word word") == 0);
    words.emplace_back("word");
    CHECK(entry(words) == "an entry of more than 1000 words; make several of it");
}

}  // namespace engine_entry_words_test
