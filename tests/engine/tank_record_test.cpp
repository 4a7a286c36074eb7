#include "engine/tank_record.hpp"

#include "engine/yaml_tree.hpp"
#include "tests/catch.hpp"
#include "tests/engine/small_tanks.hpp"
#include "tests/near.hpp"

#include <algorithm>
#include <string>
#include <variant>

namespace engine_tank_record_test {

using namespace lidlift;
using namespace lidlift::test;

namespace {

const std::string two_bays = "inside: {length: 10 ft, width: 6 ft, height: 2.5 ft}\nbays: [left, right]\n";
const std::string measures = "bucket: 10 L\nbarrow: 80 L\n";

/// What the only entry's only happening is.
template <class T>
T only(const std::string& entry, const std::string& head = {}) {
    const TankRecord record = tank_with({entry}, head);
    REQUIRE(record.entries.size() == 1);
    REQUIRE(std::holds_alternative<T>(record.entries.front().what));
    return std::get<T>(record.entries.front().what);
}

/// The first complaint about a tank with one entry, without its place.
std::string complaint(const std::string& entry, const std::string& head = {}) {
    const std::string all = tank_complaints("tank: T\n" + head + "entries:\n  - " + entry + "\n");
    const std::string first = all.substr(0, all.find('\n'));
    const auto text = first.find(": ");
    return text == std::string::npos ? first : first.substr(text + 2);
}

}  // namespace

TEST_CASE("the example of TANKS.md says what it shows", "[tank_record]") {
    const TankRecord record = tank_of(R"(tank: Tank 3, by the gate
inside: {length: 10 ft, width: 6 ft, height: 2.5 ft}
bays: [left, right]
dividing wall: open
worms: Eisenia fetida
bucket: 10 L
barrow: 80 L

entries:
  - {on: 2026-03-09, bay: left, added: {kitchen_waste: 3 buckets, dry_leaves: 20 kg}}
  - on: 2026-03-10
    bay: left
    sprinkled: {cow_dung: 2 kg, water: 20 L}
    note: before the rain
  - {on: 2026-03-12, bay: left, read: {bed_temperature: 61 °C}}
  - {on: 2026-04-20, bay: left, worms in: 5 kg}
  - {on: 2026-04-25, bay: left, saw: {smell: faint, wet: {is: yes, sure: unsure}}}
  - {on: 2026-04-26, bay: left, did: [turn_heap, put the lid back on]}
  - {on: 2026-06-01, bay: right, harvested: 6 barrows, emptied: yes}
)");
    CHECK(record.name == "Tank 3, by the gate");
    CHECK(record.species == "Eisenia fetida");
    CHECK(record.length == near(3.048, 1e-9));
    CHECK(record.width == near(1.8288, 1e-9));
    CHECK(record.height == near(0.762, 1e-9));
    CHECK(record.wall_openings == true);
    REQUIRE(record.bays.size() == 2);
    CHECK(record.bays[0].name == "left");
    CHECK(record.bays[1].name == "right");
    // The trade's own tank: two bays 3 ft wide and 10 ft long (common practice, no source).
    for (const RecordedBay& bay : record.bays) {
        CHECK(bay.area == near(10 * 3 * 0.09290304, 1e-9));
        CHECK(bay.height == near(0.762, 1e-9));
    }
    CHECK(record.vessels.find("bucket")->litres == near(10, 1e-9));
    CHECK(record.vessels.find("barrow")->litres == near(80, 1e-9));

    REQUIRE(record.entries.size() == 10);
    CHECK(to_text(record.entries[0].on) == "2026-03-09");
    CHECK(record.entries[0].bay == 0U);
    const auto& added = std::get<Added>(record.entries[0].what).materials;
    REQUIRE(added.size() == 2);
    CHECK(tank_base().materials[added[0].material].id == "kitchen_waste");
    CHECK(added[0].amount.by == Amount::By::volume);
    CHECK(added[0].amount.size == near(30, 1e-9));
    CHECK(added[0].kg.low == near(12, 1e-9));
    CHECK(added[0].kg.typical == near(18, 1e-9));
    CHECK(added[0].kg.high == near(27, 1e-9));
    CHECK(added[1].kg.is_exact());
    CHECK(added[1].kg.typical == near(20, 1e-9));

    const auto& sprinkled = std::get<Sprinkled>(record.entries[1].what).materials;
    REQUIRE(sprinkled.size() == 2);
    CHECK(sprinkled[1].kg.typical == near(20, 1e-9));
    CHECK(record.entries[1].note == "before the rain");
    CHECK(record.entries[1].place.line == 11);
    CHECK(record.entries[0].note.empty());

    const Noted& heat = std::get<Noted>(record.entries[2].what);
    CHECK(heat.read);
    CHECK(tank_base().signs[heat.sign].id == "bed_temperature");
    CHECK(heat.observation.measured->low == near(61, 1e-9));
    CHECK(std::get<WormsIn>(record.entries[3].what).kg == near(5, 1e-9));
    const Noted& smell = std::get<Noted>(record.entries[4].what);
    CHECK_FALSE(smell.read);
    CHECK(as_value(tank_base().signs[smell.sign], smell.observation) == "faint");
    CHECK(std::get<Noted>(record.entries[5].what).observation.sureness == Sureness::unsure);
    CHECK(std::get<Did>(record.entries[6].what).step == tank_base().steps.find("turn_heap"));
    CHECK_FALSE(std::get<Did>(record.entries[7].what).step);
    CHECK(std::get<Did>(record.entries[7].what).words == "put the lid back on");
    CHECK(record.entries[8].bay == 1U);
    CHECK(std::get<Harvested>(record.entries[8].what).amount.size == near(480, 1e-9));
    CHECK(std::holds_alternative<Emptied>(record.entries[9].what));
}

TEST_CASE("a tank needs no more than its name", "[tank_record]") {
    const TankRecord record = tank_of("tank: T\n");
    CHECK(record.length == 0);
    REQUIRE(record.bays.size() == 1);
    CHECK(record.bays[0].name == "bed");
    CHECK(record.bays[0].area == 0);
    CHECK_FALSE(record.wall_openings);
    CHECK(record.species.empty());
    CHECK(record.entries.empty());
    CHECK(tank_of("tank: T\nentries:\n").entries.empty());
    CHECK(tank_of("tank: T\nentries: []\n").entries.empty());
    CHECK(tank_of("tank: 3\nnote: the oldest\n").name == "3");
}

TEST_CASE("bays share the width of the tank", "[tank_record]") {
    const auto areas = [](const std::string& bays) {
        const TankRecord record = tank_of("tank: T\ninside: {length: 3 m, width: 2 m, height: 1 m}\nbays: " + bays + "\n");
        std::string text;
        for (const RecordedBay& bay : record.bays) text += bay.name + " " + number_to_text(bay.area) + "; ";
        return text;
    };
    CHECK(areas("[a, b]") == "a 3; b 3; ");
    CHECK(areas("a") == "a 6; ");
    CHECK(areas("[a, b, c, d]") == "a 1.5; b 1.5; c 1.5; d 1.5; ");
    CHECK(areas("{a: {width: 50 cm}, b: {width: 1.4 m}}") == "a 1.5; b 4.2; ");  // 10 cm of wall
    CHECK(areas("{a: {width: 50 cm}, b: {}, c: }") == "a 1.5; b 2.25; c 2.25; ");
    CHECK(areas("{a: {width: 1 m}, b: {width: 1 m}}") == "a 3; b 3; ");
    const TankRecord unmeasured = tank_of("tank: T\nbays: [a, b]\n");
    CHECK(unmeasured.bays[1].area == 0);
}

TEST_CASE("entries are put in the order of days, those of one day in the order of the file", "[tank_record]") {
    const TankRecord record = tank_with({"{on: 2026-03-11, did: third}", "{on: 2026-03-09, did: [first, second]}",
                                         "{on: 2026-03-11, did: fourth}", "{on: 2031-01-01, did: far ahead}"});
    std::string order;
    for (const RecordedEntry& entry : record.entries) order += std::get<Did>(entry.what).words + " ";
    CHECK(order == "first second third fourth far ahead ");
}

TEST_CASE("the whole tank is meant where several bays are and none is named", "[tank_record]") {
    CHECK(tank_with({"{on: 2026-03-11, did: it}"}).entries[0].bay == 0U);
    CHECK_FALSE(tank_with({"{on: 2026-03-11, did: it}"}, two_bays).entries[0].bay);
    CHECK_FALSE(tank_with({"{on: 2026-03-11, sprinkled: {water: 20 L}}"}, two_bays).entries[0].bay);
    CHECK(tank_with({"{on: 2026-03-11, bay: RIGHT, did: it}"}, two_bays).entries[0].bay == 1U);
    CHECK(tank_with({"{on: 2026-03-11, bay: Bay one, did: it}"}, "bays: [bay-one, two]\n").entries[0].bay == 0U);
    for (const std::string entry :
         {"added: {water: 20 L}", "worms in: 2 kg", "worms out: 2 kg", "harvested: 20 kg", "emptied: yes"}) {
        CAPTURE(entry);
        CHECK(complaint("{on: 2026-03-11, " + entry + "}", two_bays) ==
              "'" + entry.substr(0, entry.find(':')) + "' needs the bay (bay: left or right)");
        CHECK(complaint("{on: 2026-03-11, bay: left, " + entry + "}", two_bays).empty());
        CHECK(complaint("{on: 2026-03-11, " + entry + "}").empty());
    }
}

TEST_CASE("one entry may hold everything at once", "[tank_record]") {
    const TankRecord record =
        tank_with({"{on: 2026-03-11, note: N, emptied: yes, harvested: 5 kg, did: it, saw: {smell: faint}, read: {ph: 6.5, "
                   "drying: {wet: 10 g, "
                   "dry: 3 g}}, worms out: 1 kg, worms in: 2 kg, sprinkled: {water: 1 L}, added: {dry_leaves: 1 kg}}"});
    std::string order;
    for (const RecordedEntry& entry : record.entries) {
        order += std::to_string(entry.what.index());
        CHECK(entry.note == "N");
    }
    // Added, Sprinkled, WormsIn, WormsOut, Noted (ph), Dried, Noted (smell), Did, Harvested, Emptied
    CHECK(order == "0123484567");
    CHECK(std::holds_alternative<Remarked>(tank_with({"{on: 2026-03-11, note: nobody was here}"}).entries[0].what));
}

TEST_CASE("measurements are taken as the scales showed them", "[tank_record]") {
    const Dried dried = only<Dried>("{on: 2026-03-20, read: {drying: {vessel: 4 g, wet: 14 g, dry: 6.3 g}}}");
    CHECK(dried.vessel == near(0.004, 1e-9));
    CHECK(dried.wet == near(0.014, 1e-9));
    CHECK(dried.dry == near(0.0063, 1e-9));
    CHECK(only<Dried>("{on: 2026-03-20, read: {drying: {wet: 14 g, dry: 14 g}}}").vessel == 0);

    const BucketWeighed weighed =
        only<BucketWeighed>("{on: 2026-03-20, read: {bucket weighing: {vessel: 1 kg, full: 10 kg, holds: 20 L}}}");
    CHECK(weighed.vessel == near(1, 1e-9));
    CHECK(weighed.full == near(10, 1e-9));
    CHECK(weighed.litres == near(20, 1e-9));
    CHECK(only<BucketWeighed>("{on: 2026-03-20, read: {bucket weighing: {full: 10 kg}}}", measures).litres == near(10, 1e-9));
    CHECK(only<BucketWeighed>("{on: 2026-03-20, read: {bucket weighing: {full: 9 kg, holds: 2 buckets}}}", measures).litres ==
          near(20, 1e-9));

    const SeedTested tested = only<SeedTested>(
        "{on: 2026-03-20, read: {seed test: {sprouted: 8, root: 21 mm, sprouted in water: 9, root in water: 2.8 cm}}}");
    CHECK(tested.sprouted == near(8, 1e-9));
    CHECK(tested.root == near(21, 1e-9));
    CHECK(tested.sprouted_in_water == near(9, 1e-9));
    CHECK(tested.root_in_water == near(28, 1e-9));
    CHECK(
        only<SeedTested>(
            "{on: 2026-03-20, read: {seed test: {sprouted: 80 %, root: 21 mm, sprouted in water: 90 %, root in water: 28 mm}}}")
            .sprouted == near(80, 1e-9));
}

TEST_CASE("measurements that cannot be are refused", "[tank_record]") {
    const auto of = [](const std::string& what) { return complaint("{on: 2026-03-20, read: {" + what + "}}"); };
    CHECK(of("drying: {wet: 3 g, dry: 10 g}") ==
          "the sample is heavier dry than wet (are the two weights in the right order?)");
    CHECK(of("drying: {vessel: 4 g, wet: 10 g, dry: 3 g}") ==
          "the dry sample weighs nothing once its vessel is taken off ('wet' and 'dry' are weighed together with the vessel)");
    CHECK(of("drying: {wet: 3 g}") == "'drying' lacks the key 'dry'");
    CHECK(of("drying: 77 %") == "'drying' should be a map of keys, but is a text");
    CHECK(of("drying: {wet: 100, dry: 23 g}") == "'wet' lacks its unit (for instance 100 kg)");
    CHECK(of("drying: {wet: 100 L, dry: 23 g}") == "'wet': a volume (L) was given where a mass (kg) is wanted");
    CHECK(of("drying: {wet: 201 kg, dry: 23 g}") == "'wet' should be at least 0 kg and at most 200 kg, but is '201 kg'");
    CHECK(of("bucket weighing: {full: 10 kg}") == "'bucket weighing' should say what the vessel holds (holds: 10 L)");
    CHECK(of("bucket weighing: {full: 10 kg, holds: 3 kg}") == "'holds' should be a volume, but is '3 kg' (holds: 10 L)");
    CHECK(of("bucket weighing: {vessel: 10 kg, full: 10 kg, holds: 20 L}") ==
          "the full vessel is no heavier than the empty one");
    CHECK(of("bucket weighing: {full: 61 kg, holds: 20 L}") ==
          "nothing in a tank weighs more than 3 kg to the litre (check the weights, their units, and what the vessel holds)");
    CHECK(of("bucket weighing: {full: 60 kg, holds: 20 L}").empty());
    const std::string test = "seed test: {root: 21 mm, sprouted in water: 9, root in water: 28 mm, sprouted: ";
    CHECK(of(test + "80 %}") == "one of the two is a number of seeds and the other a share of them (say both in the same way)");
    CHECK(of(test + "-1}") == "'sprouted' should be a number of seeds, or a share of them in %, but is '-1'");
    CHECK(of(test + "10001}") == "'sprouted' should be a number of seeds, or a share of them in %, but is '10001'");
    CHECK(of(test + "8 mm}") == "'sprouted' should be a number of seeds, or a share of them in %, but is '8 mm'");
    CHECK(of(test + "8, seeds: 10}") == "unknown key 'seeds' in 'seed test'");
}

TEST_CASE("signs under read and saw take what answer files take", "[tank_record]") {
    const auto value = [](const std::string& entry) {
        const Noted noted = only<Noted>("{on: 2026-03-12, " + entry + "}");
        return as_value(tank_base().signs[noted.sign], noted.observation);
    };
    CHECK(value("saw: {animals: [flies, not mites]}") == "flies,not mites");
    CHECK(value("saw: {animals: none}") == "none");
    CHECK(value("saw: {Bed-Temperature: 28 to 32 °C}") == "28 to 32 °C");
    CHECK(value("read: {bed_temperature: 95 °F}") == "35 °C");
    CHECK(value("read: {bed_temperature: above 30 °C}") == "above 30 °C");
    CHECK(value("read: {bed_temperature: {is: 31, sure: guess}}") == "31 °C");
    CHECK(complaint("{on: 2026-03-12, read: {smell: faint}}") ==
          "'smell' is not read off an instrument (it belongs under 'saw')");
    CHECK(complaint("{on: 2026-03-12, saw: {smell: '?'}}") == "'?' says nothing in a record (leave it out)");
    CHECK(complaint("{on: 2026-03-12, saw: {smell: feint}}") ==
          "the sign 'smell' has no answer 'feint' (did you mean 'faint'?)");
    CHECK(complaint("{on: 2026-03-12, saw: {smel: faint}}") == "there is no sign 'smel' (did you mean 'smell'?)");
    CHECK(complaint("{on: 2026-03-12, read: {bed_temperature: 31 kg}}") ==
          "'bed_temperature': a mass (kg) was given where a temperature (°C) is wanted; or say cold or warm");
    CHECK(complaint("{on: 2026-03-12, saw: {}}") == "'saw' is empty (saw: {smell_sour: faint})");
    CHECK(complaint("{on: 2026-03-12, read: 31 °C}") == "'read' should be a map (read: {bed_temperature: 31 °C})");
}

TEST_CASE("work is a step's id or own words, and a slip of an id is told", "[tank_record]") {
    CHECK(only<Did>("{on: 2026-03-12, did: turn_heap}").step);
    CHECK_FALSE(only<Did>("{on: 2026-03-12, did: turned}").step);
    CHECK(complaint("{on: 2026-03-12, did: trun_heap}") == "there is no step 'trun_heap' (did you mean 'turn_heap'?)");
    CHECK(complaint("{on: 2026-03-12, did: []}") == "'did' is an empty list");
}

TEST_CASE("amounts need their unit, their measure and a sensible size", "[tank_record]") {
    const auto of = [](const std::string& amount, const std::string& material = "dry_leaves") {
        return complaint("{on: 2026-03-12, added: {" + material + ": " + amount + "}}", measures);
    };
    CHECK(of("3 buckets").empty());
    CHECK(of("100 t").empty());
    CHECK(of("100 m3").empty());
    CHECK(of("101 t") == "'dry_leaves' should be more than 0 and at most 100 t, but is '101 t'");
    CHECK(of("101 m3") == "'dry_leaves' should be more than 0 and at most 100 m3, but is '101 m3'");
    CHECK(of("0 kg") == "'dry_leaves' should be more than 0 and at most 100 t, but is '0 kg'");
    CHECK_FALSE(of("-3 kg").empty());
    CHECK_FALSE(of("3").empty());
    CHECK_FALSE(of("3 tubs").empty());
    CHECK_FALSE(of("3 °C").empty());
    CHECK(of("{}") == "the amount of 'dry_leaves' should be a text, but is a map of keys");
    CHECK(of("2 kg", "vinegar").empty());
    CHECK(of("2 L", "vinegar") == "nobody has weighed a litre of 'vinegar' yet (give its mass, in kg)");
    CHECK(of("2 kg", "Dry Leaf").empty());
    CHECK(of("2 kg", "dry_leafs_").empty());
    CHECK_FALSE(of("2 kg", "sand").empty());
    CHECK(complaint("{on: 2026-03-12, added: {dry_leaves: 1 kg, dry leaves: 2 kg}}") ==
          "'dry leaves' is named twice here (add the amounts up)");
    CHECK(complaint("{on: 2026-03-12, added: {}}") == "'added' names no material");
    CHECK(complaint("{on: 2026-03-12, added: 3 kg}") ==
          "'added' should be a map from material to amount (added: {kitchen_waste: 3 "
          "buckets, dry_leaves: 20 kg})");
    CHECK(complaint("{on: 2026-03-12, worms in: 1 t}").empty());
    CHECK(complaint("{on: 2026-03-12, worms in: 1001 kg}") ==
          "'worms in' should be more than 0 and at most 1000 kg, but is '1001 kg'");
    CHECK(complaint("{on: 2026-03-12, worms out: 0 kg}") ==
          "'worms out' should be more than 0 and at most 1000 kg, but is '0 kg'");
    CHECK(complaint("{on: 2026-03-12, worms in: 3000}") == "'worms in' lacks its unit (for instance 3000 kg)");
}

TEST_CASE("one entry adds at most twice what the bay holds", "[tank_record]") {
    const std::string cube = "inside: {length: 1 m, width: 1 m, height: 1 m}\n";
    const auto of = [&](const std::string& added) { return complaint("{on: 2026-03-12, added: {" + added + "}}", cube); };
    CHECK(of("dry_leaves: 2000 L").empty());
    CHECK(of("dry_leaves: 2001 L") ==
          "this is at least 2001 L, but the bay 'bed' holds 1000 L up to the rim (check the amounts, their units, and the size "
          "of "
          "the bay)");
    CHECK(of("dry_leaves: 300 kg").empty());  // 2000 L at the greatest density
    CHECK_FALSE(of("dry_leaves: 301 kg").empty());
    CHECK_FALSE(of("dry_leaves: 1500 L, water: 501 kg").empty());
    CHECK(complaint("{on: 2026-03-12, added: {dry_leaves: 90 m3}}").empty());  // nobody said how large it is
}

TEST_CASE("a measure of one's own is taken, a unit is not renamed", "[tank_record]") {
    CHECK(only<Added>("{on: 2026-03-12, added: {water: 2 crates}}", "measures: {Crate: 30 L}\n").materials[0].amount.size ==
          near(60, 1e-9));
    CHECK(only<Added>("{on: 2026-03-12, added: {water: 2 pails}}", "bucket: 9 L\n").materials[0].amount.size == near(18, 1e-9));
    const auto of = [](const std::string& head) { return complaint("{on: 2026-03-12, did: it}", head); };
    CHECK(of("measures: {litre: 2 L}\n") == "'litre': 'litre' is a unit already; its size cannot be stated");
    CHECK(of("bucket: 9 L\nmeasures: {buckets: 2 L}\n") == "the measure 'buckets' was stated already");
    CHECK(of("bucket: 9 kg\n") == "'bucket': a mass (kg) was given where a volume (L) is wanted");
    CHECK(of("bucket: 9\n") == "'bucket': how large is a bucket? '9' has no unit; write 10 L");
    CHECK(of("bucket: {}\n") == "'bucket' should be a text, but is a map of keys");
    CHECK(of("bucket: 0 L\n").find("'bucket': a bucket of 0 L cannot be") == 0);
    CHECK(of("measures: [3 L]\n") == "'measures' should be a map (measures: {crate: 30 L})");
}

// ---- limits: each is met and passed by one

TEST_CASE("the sizes of a tank have limits", "[tank_record][limits]") {
    const auto of = [](const std::string& length, const std::string& height) {
        return tank_complaints("tank: T\ninside: {length: " + length + ", width: 1 m, height: " + height + "}\n");
    };
    CHECK(of("100 m", "5 m").empty());
    CHECK(of("10 cm", "5 cm").empty());
    CHECK(of("100.001 m", "1 m") ==
          "tank.yaml:2:18: 'length' should be at least 0.1 m and at most 100 m, but is '100.001 m'\n");
    CHECK_FALSE(of("9.9 cm", "1 m").empty());
    CHECK_FALSE(of("1 m", "4.9 cm").empty());
    CHECK_FALSE(of("1 m", "5.01 m").empty());
}

TEST_CASE("the lists of a tank have limits", "[tank_record][limits]") {
    const auto tubs = [](std::size_t count) {  // names are letters only: tuba, tubb ...
        std::string text;
        for (std::size_t i = 0; i < count; ++i) text += std::string("tub") + static_cast<char>('a' + i) + ": 1 L, ";
        return text;
    };
    const auto some = [](std::size_t count, const std::string& begin, const std::string& end) {
        std::string text;
        for (std::size_t i = 0; i < count; ++i) text += (i ? ", " : "") + begin + std::to_string(i) + end;
        return text;
    };
    CHECK(tank_complaints("tank: T\nbays: [" + some(most_bays, "b", "") + "]\n").empty());
    CHECK(tank_complaints("tank: T\nbays: [" + some(most_bays + 1, "b", "") + "]\n").find("a tank has at most 12 bays") !=
          std::string::npos);
    CHECK(tank_complaints("tank: T\nmeasures: {" + tubs(most_measures) + "}\n").empty());
    CHECK(tank_complaints("tank: T\nmeasures: {" + tubs(most_measures + 1) + "}\n").find("holds more than 20 measures") !=
          std::string::npos);
    CHECK(complaint("{on: 2026-03-12, did: [" + some(most_works_at_once, "w", "") + "]}").empty());
    CHECK(complaint("{on: 2026-03-12, did: [" + some(most_works_at_once + 1, "w", "") + "]}") ==
          "'did' holds more than 20 works");
    CHECK(complaint("{on: 2026-03-12, added: {" + some(most_materials_at_once + 1, "m", ": 1 kg") + "}}") ==
          "'added' holds more than 50 materials");
    CHECK(complaint("{on: 2026-03-12, added: {" + some(most_materials_at_once, "m", ": 1 kg") + "}}")
              .find("there is no material 'm0'") == 0);
    const std::string longest(longest_bay_name, 'b');
    CHECK(tank_complaints("tank: T\nbays: [" + longest + ", a]\n").empty());
    CHECK(tank_complaints("tank: T\nbays: [" + longest + "b, a]\n") ==
          "tank.yaml:2:8: the name of a bay has at most 64 characters\n");
}

TEST_CASE("a record holds so many entries and no more", "[tank_record][limits]") {
    std::string text = "tank: T\nentries:\n";
    for (std::size_t i = 0; i < most_entries_of_a_tank; ++i) text += "  - {on: 2026-03-09, did: it}\n";
    CHECK(tank_of(text).entries.size() == most_entries_of_a_tank);
    text += "  - {on: 2026-03-09, did: it}\n";
    CHECK(tank_complaints(text) ==
          "tank.yaml:10003:5: a record holds at most 10000 entries (begin a new file for this tank)\n");
    CHECK(tank_complaints(std::string(largest_file + 1, '#')).find("larger than 1048576 bytes") != std::string::npos);
}

TEST_CASE("ten thousand mistakes are told soon", "[tank_record][limits]") {
    std::string text = "tank: T\nentries:\n";
    for (std::size_t i = 0; i < most_entries_of_a_tank; ++i) text += "  - {on: 2026-03-09, added: {driy_laeves: 3 bukets}}\n";
    const std::string all = tank_complaints(text);
    CHECK(std::count(all.begin(), all.end(), '\n') == 51);
    CHECK(all.find("and 9950 more") != std::string::npos);

    text = "tank: T\nentries:\n  - on: 2026-03-09\n    saw:\n";
    for (int i = 0; i < 40'000; ++i) text += "      smell_" + std::to_string(i) + ": 3\n";
    CHECK(tank_complaints(text).find("and 39950 more") != std::string::npos);
}

}  // namespace engine_tank_record_test
