// What a record tells the diagnosis, what it keeps silent about, and how it gives way to what a person says.
#include "engine/tank_facts.hpp"

#include "engine/rule_base_reader.hpp"
#include "engine/tank_diagnosis.hpp"
#include "rules/default_rules.hpp"
#include "tests/catch.hpp"
#include "tests/near.hpp"
#include "tests/tanks.hpp"

#include <map>
#include <set>
#include <string>
#include <vector>

namespace engine_tank_facts_test {

using namespace lidlift;
using namespace lidlift::test;

namespace {

struct Said {
    std::string value;
    std::string from;
    Sureness sureness = Sureness::sure;
};

/// The facts of a bay on a day, by sign.
std::map<std::string, Said> facts(Tank& tank, int on, const std::string& bay = "left") {
    const RuleBase& base = base_with_materials();
    const TankState state = tank.on(on);
    std::size_t position = 0;
    for (std::size_t i = 0; i < tank.record().bays.size(); ++i)
        if (tank.record().bays[i].name == bay) position = i;
    std::map<std::string, Said> said;
    for (const TankFact& fact : facts_of(tank.record(), state, base, position)) {
        const Sign& sign = base.signs[fact.sign];
        said[sign.id] = {as_value(sign, fact.observation), fact.observation.from, fact.observation.sureness};
    }
    return said;
}

bool has(const std::string& text, const std::string& part) { return text.find(part) != std::string::npos; }

/// Filled on day 1, worms on day 40, fed `kg` of each every third day until `until`.
Tank fed(const Tank::Masses& each, int until = 97, double worms = 5) {
    Tank tank;
    tank.added(1, "left", {{"peelings", 200}, {"leaves", 80}}).worms_in(40, "left", worms);
    for (int on = 43; on <= until; on += 3) tank.added(on, "left", each);
    return tank;
}

}  // namespace

TEST_CASE("the feed of the last two weeks: shares by the kilogram", "[tank][facts]") {
    Tank tank = fed({{"peelings", 8}, {"citrus", 4}});
    const auto said = facts(tank, 99);
    CHECK(said.at("feed_citrus").value == "lots");
    CHECK(said.at("feed_citrus").from == "the tank's record: 16 kg of citrus in 48 kg of feed since " + to_text(day(88)));
    CHECK(said.at("feed_citrus").sureness == Sureness::sure);
    CHECK(said.at("stage").value == "worm_bed");
    CHECK(said.at("worms_in_yet").value == "yes");
    CHECK(said.at("days_since_worms").value == "59 days");
    CHECK(said.at("days_since_feed").value == "2 days");
    CHECK(said.at("rest_days").value == "39 days");
    CHECK(said.at("feed_lately").value == "as_usual");
    CHECK(said.at("stocking").value == "fair");
    CHECK(said.at("container").value == "built");
    // Nobody looked, so nothing is known of these.
    for (const char* sign : {"smell_rotten", "squeeze", "worm_trend", "worm_place", "lid", "drain", "uneaten_layer"})
        CHECK_FALSE(said.contains(sign));
}

TEST_CASE("shares at their borders", "[tank][facts]") {
    const auto share = [](double citrus, double rest) {
        Tank tank = fed({{"citrus", citrus}, {"rice", rest}});
        const auto said = facts(tank, 99);
        return said.contains("feed_citrus") ? said.at("feed_citrus").value : "";
    };
    CHECK(share(20, 80) == "lots");
    CHECK(share(19, 81) == "some");
    CHECK(share(2, 98) == "some");
    CHECK(share(1, 99) == "none");
    // Of what harms in smaller amounts a tenth is lots.
    Tank salty = fed({{"citrus", 90}, {"rice", 10}});
    CHECK(facts(salty, 99).at("feed_salty").value == "lots");
    Tank less = fed({{"citrus", 91}, {"rice", 9}});
    CHECK(facts(less, 99).at("feed_salty").value == "some");
    CHECK(facts(less, 99).at("feed_starch_sugar").value == "some");
    // Measured by the bucket, a share is a range and may meet two answers.
    Tank buckets;
    buckets.added(1, "left", {{"peelings", 100}}).worms_in(40, "left", 5);
    for (int on = 85; on <= 97; on += 3) buckets.buckets(on, "left", "citrus", 1).buckets(on, "left", "peelings", 3);
    CHECK(facts(buckets, 99).at("feed_citrus").value == "not none");
}

TEST_CASE("none of a feed is said only of a record without holes, and never of what is mixed", "[tank][facts]") {
    Tank named = fed({{"rice", 8}});
    CHECK(facts(named, 99).at("feed_citrus").value == "none");
    CHECK(facts(named, 99).at("feed_citrus").sureness == Sureness::sure);
    CHECK(facts(named, 99).at("feed_dung").value == "none");
    // Peelings are peelings of something.
    Tank peelings = fed({{"peelings", 8}});
    CHECK(facts(peelings, 99).at("feed_citrus").sureness == Sureness::unsure);
    // With a hole of eight days nobody knows what went in.
    Tank holes;
    holes.added(1, "left", {{"peelings", 200}}).worms_in(40, "left", 5).added(90, "left", {{"rice", 8}});
    CHECK_FALSE(facts(holes, 99).contains("feed_citrus"));
    CHECK_FALSE(facts(holes, 99).contains("feed_dung"));
    CHECK(facts(holes, 99).at("feed_starch_sugar").sureness == Sureness::unsure);
    // No feed at all in two weeks.
    Tank none = fed({{"rice", 8}}, 80);
    CHECK_FALSE(facts(none, 99).contains("feed_citrus"));
    CHECK(facts(none, 99).at("feed_load").value == "none");
    CHECK(facts(none, 99).at("feed_load").sureness == Sureness::unsure);
}

TEST_CASE("what is mixed holds some of everything", "[tank][facts]") {
    RuleBase base = base_with_materials();
    Material mixed = base.materials[base.materials.find("t_peelings").value()];
    mixed.id = "mixed_waste";
    mixed.name = "Mixed waste";
    const auto handle = base.materials.add(mixed);
    Tank tank({"left", "right"}, base);
    tank.added(1, "left", {{"peelings", 200}}).worms_in(40, "left", 5);
    for (int on = 85; on <= 97; on += 3) {
        Added added;
        added.materials.push_back({handle, {Amount::By::mass, 20, "20 kg"}, Estimate::exactly(20)});
        tank.entry(on, "left", added).added(on, "left", {{"rice", 0.1}});
    }
    const TankState state = tank.on(99);
    bool citrus = false;
    for (const TankFact& fact : facts_of(tank.record(), state, base, 0)) {
        const std::string& id = base.signs[fact.sign].id;
        citrus = citrus || id == "feed_citrus";
        if (id == "feed_starch_sugar") CHECK(as_value(base.signs[fact.sign], fact.observation) == "some");
    }
    CHECK_FALSE(citrus);
}

TEST_CASE("feed for the weight of the worms, as a range", "[tank][facts]") {
    const auto load = [](double kg_each, double worms) {
        Tank tank = fed({{"peelings", kg_each}}, 97, worms);
        const auto said = facts(tank, 99);
        return said.contains("feed_load") ? said.at("feed_load").value : "";
    };
    // Four feeds in two weeks; 5 kg of worms may be 5 to 9.9 after 59 days.
    CHECK(load(1, 5) == "light");        // 0.06 to 0.03
    CHECK(load(10, 5) == "normal");      // 0.57 to 0.29
    CHECK(load(30, 2) == "very_heavy");  // 4.3 to 2.2
    CHECK(has(load(14, 5), "not"));      // 0.8 to 0.4: normal or heavy
    // Worms that came a week ago have no ration yet.
    Tank young;
    young.added(1, "left", {{"peelings", 200}}).worms_in(95, "left", 5).added(97, "left", {{"peelings", 10}});
    CHECK_FALSE(facts(young, 99).contains("feed_load"));
}

TEST_CASE("the last feeds against what was usual", "[tank][facts]") {
    Tank big = fed({{"peelings", 6}});
    big.added(98, "left", {{"peelings", 25}});
    CHECK(facts(big, 99).at("feed_lately").value == "big_load_at_once");
    CHECK(has(facts(big, 99).at("feed_lately").from, "where 6 kg at a time was usual"));

    Tank more = fed({{"peelings", 6}}, 88);
    for (int on = 93; on <= 99; ++on) more.added(on, "left", {{"peelings", 4}});
    CHECK(facts(more, 99).at("feed_lately").value == "more_than_usual");

    Tank none = fed({{"peelings", 6}}, 76);
    CHECK(facts(none, 99).at("feed_lately").value == "none_for_long");

    Tank thick = fed({{"peelings", 6}}, 79);
    thick.added(97, "left", {{"peelings", 400}});  // 670 to 1000 L on 2.8 m2
    CHECK(facts(thick, 99).at("feed_lately").value == "big_load_at_once");
    // Where there is nothing to compare with, by its thickness.
    Tank first;
    first.added(1, "left", {{"peelings", 200}}).worms_in(40, "left", 5).added(97, "left", {{"peelings", 200}});
    CHECK(facts(first, 99).at("feed_lately").value == "big_load_at_once");
    CHECK(has(facts(first, 99).at("feed_lately").from, "a layer of "));
    // As thick, but of leaves; and of both, where most of it is leaves.
    for (const Tank::Masses& bedding : std::vector<Tank::Masses>{{{"leaves", 80}}, {{"leaves", 80}, {"peelings", 6}}}) {
        Tank mulched = fed({{"peelings", 6}}, 79);
        mulched.added(97, "left", bedding);
        const auto said = facts(mulched, 99);
        CHECK((!said.contains("feed_lately") || said.at("feed_lately").value != "big_load_at_once"));
    }
}

TEST_CASE("dung, dust and dry material", "[tank][facts]") {
    RuleBase base = base_with_materials();
    Tank tank = fed({{"peelings", 8}});
    CHECK(facts(tank, 99).at("bedding_carbon").value == "low");
    Tank brown = fed({{"peelings", 8}, {"leaves", 2}});  // 16 L and 20 L
    CHECK(facts(brown, 99).at("bedding_carbon").value == "balanced");
    Tank brownest = fed({{"peelings", 2}, {"leaves", 6}});  // 4 L and 60 L
    CHECK(facts(brownest, 99).at("bedding_carbon").value == "high");
}

TEST_CASE("dung that was fed tells of itself", "[tank][facts]") {
    const RuleBase base = read_rule_base(default_rules()).rule_base;
    TankReading reading = read_tank_record(
        "tank: T\nentries:\n"
        "  - {on: 2026-01-01, added: {kitchen waste: 200 kg, dry leaves: 80 kg}}\n"
        "  - {on: 2026-02-10, worms in: 5 kg}\n"
        "  - {on: 2026-03-08, added: {cow dung: 8 kg, kitchen waste: 4 kg}}\n",
        "tank.yaml", base);
    REQUIRE(reading.complaints.empty());
    Told told;
    (void)look_into(Ranker(base), std::move(reading.record), *read_day("2026-03-09"), 0, told);
    const auto dung = base.signs.find("feed_dung");
    REQUIRE(dung);
    const Observation* seen = told.facts.find(*dung);
    REQUIRE(seen);
    CHECK(as_value(base.signs[*dung], *seen) == "fresh");
    CHECK(has(seen->from, "last on 2026-03-08"));
}

TEST_CASE("what was seen counts surely, then with doubt, then no more", "[tank][facts]") {
    const int age = GENERATE(0, 2, 3, 7, 8);
    Tank tank = fed({{"peelings", 8}});
    tank.saw(99 - age, "left", "smell_rotten", "strong").saw(99 - age, "left", "lid", "airtight");
    const auto said = facts(tank, 99);
    CHECK(said.contains("smell_rotten") == (age <= 7));
    if (age <= 7) {
        CHECK(said.at("smell_rotten").value == "strong");
        CHECK(said.at("smell_rotten").sureness == (age <= 2 ? Sureness::sure : Sureness::unsure));
        CHECK(said.at("smell_rotten").from == "the tank's record: seen on " + to_text(day(99 - age)));
    }
    CHECK(said.at("lid").sureness == Sureness::sure);  // a lid does not change by itself
    const auto later = facts(tank, 99 - age + 90);
    CHECK(later.at("lid").sureness == Sureness::unsure);
    CHECK_FALSE(facts(tank, 99 - age + 91).contains("lid"));
}

TEST_CASE("the last look counts, and two looks of one day count together", "[tank][facts]") {
    Tank tank = fed({{"peelings", 8}});
    tank.saw(97, "left", "squeeze", "stream").saw(98, "left", "squeeze", "few_drops");
    CHECK(facts(tank, 99).at("squeeze").value == "few_drops");
    tank.saw(98, "left", "squeeze", "holds_no_drop");
    CHECK(facts(tank, 99).at("squeeze").value == "not dry_crumbles,not stream");
    tank.read(98, "left", "ph", "6").read(98, "left", "ph", "7");
    CHECK(facts(tank, 99).at("ph").value == "6 to pH 7");
    tank.saw(98, "left", "worm_place", "up_walls_lid").saw(98, "left", "worm_place", "not deep_bottom");
    CHECK(facts(tank, 99).at("worm_place").value == "up_walls_lid,not deep_bottom");
    // How long ago something was is true on its own day only.
    tank.saw(97, "left", "next_bay_rest", "12 days");
    CHECK_FALSE(facts(tank, 99).contains("next_bay_rest"));
}

TEST_CASE("a resting bay: heap, heat and turning", "[tank][facts]") {
    Tank tank;
    tank.entry(1, "left", Emptied{}).added(1, "left", {{"peelings", 300}, {"leaves", 60}});
    tank.read(4, "left", "bed_temperature", "62 °C").did(6, "left", "turned it").read(14, "left", "bed_temperature", "55 °C");
    tank.read(16, "left", "bed_temperature", "51 °C");
    auto said = facts(tank, 16);
    CHECK(said.at("stage").value == "resting");
    CHECK(said.at("stage").sureness == Sureness::sure);
    CHECK(said.at("worms_in_yet").value == "no");
    CHECK(said.at("bed_temperature").value == "51 °C");
    CHECK(said.at("temp_trend").value == "falling");
    CHECK(said.at("heap_peak").value == "62 °C");
    CHECK(said.at("heap_course").value == "hot_now");
    CHECK(said.at("turning").value == "some");
    CHECK_FALSE(said.contains("feed_load"));
    CHECK_FALSE(said.contains("days_since_feed"));

    tank.read(36, "left", "bed_temperature", "33 °C");
    CHECK(facts(tank, 36).at("heap_course").value == "cooled");
    CHECK(facts(tank, 36).at("stage").value ==
          "not waste_store,not worm_bed,not migration,not harvest,not storage,not product_use");

    // A record that was begun with a full bay may have begun with worms in it.
    Tank begun;
    begun.added(1, "left", {{"peelings", 300}});
    CHECK(facts(begun, 16).at("worms_in_yet").sureness == Sureness::unsure);
    // Nobody measured while it was fresh: the peak was at least that.
    begun.read(30, "left", "bed_temperature", "38 °C");
    CHECK(facts(begun, 30).at("heap_peak").value == "at least 38 °C");
    CHECK_FALSE(facts(begun, 30).contains("heap_course"));
    Tank cold;
    cold.added(1, "left", {{"peelings", 300}})
        .read(5, "left", "bed_temperature", "31 °C")
        .read(9, "left", "bed_temperature", "30 °C");
    CHECK(facts(cold, 10).at("heap_course").value == "never_hot");
}

TEST_CASE("which way the temperature goes: a degree a day is a trend, half a degree is none", "[tank][facts]") {
    struct Row {
        const char* second;
        const char* says;
    };
    // After 30 °C on the day before.
    for (const auto& [second, says] : std::vector<Row>{{"28.9 °C", "falling"},
                                                       {"29 °C", "falling"},
                                                       {"29.2 °C", "not rising"},
                                                       {"29.6 °C", "steady"},
                                                       {"30.4 °C", "steady"},
                                                       {"30.8 °C", "not falling"},
                                                       {"31 °C", "rising"},
                                                       {"31.1 °C", "rising"}}) {
        CAPTURE(second);
        Tank tank;
        tank.added(1, "left", {{"peelings", 300}}).read(10, "left", "bed_temperature", "30 °C");
        tank.read(11, "left", "bed_temperature", second);
        CHECK(facts(tank, 13).at("temp_trend").value == says);
        CHECK_FALSE(facts(tank, 14).contains("temp_trend"));  // three days old
    }
    Tank tank;
    tank.added(1, "left", {{"peelings", 300}}).read(10, "left", "bed_temperature", "30 °C");
    tank.read(12, "left", "bed_temperature", "26 °C");
    CHECK(facts(tank, 12).at("temp_trend").from == "the tank's record: the last readings, 2 degrees a day less");
    tank.read(11, "left", "bed_temperature", "22 °C").read(12, "left", "bed_temperature", "30 °C");
    CHECK(facts(tank, 12).at("temp_trend").from == "the tank's record: the last readings, the same");
}

TEST_CASE("a peak is the peak only where somebody measured from the second to the fourteenth day", "[tank][facts]") {
    const int on = GENERATE(2, 3, 15, 16);
    Tank tank;
    tank.added(1, "left", {{"peelings", 300}}).read(on, "left", "bed_temperature", "38 °C");
    const bool in_time = on == 3 || on == 15;
    CHECK(facts(tank, 16).at("heap_peak").value == (in_time ? "38 °C" : "at least 38 °C"));
    CHECK(facts(tank, 16).contains("heap_course") == in_time);
}

TEST_CASE("a heap was never hot when it stayed below 40 degrees for a week", "[tank][facts]") {
    Tank tank;
    tank.added(1, "left", {{"peelings", 300}}).read(5, "left", "bed_temperature", "39.5 °C");
    CHECK_FALSE(facts(tank, 7).contains("heap_course"));  // six days
    CHECK(facts(tank, 8).at("heap_course").value == "never_hot");
    tank.read(6, "left", "bed_temperature", "40 °C");
    CHECK_FALSE(facts(tank, 8).contains("heap_course"));  // neither hot nor never hot
    tank.read(7, "left", "bed_temperature", "45 °C");
    CHECK(facts(tank, 8).at("heap_course").value == "hot_now");
    tank.read(8, "left", "bed_temperature", "40 °C");
    CHECK_FALSE(facts(tank, 8).contains("heap_course"));  // on its way
    tank.read(9, "left", "bed_temperature", "39.9 °C");
    CHECK(facts(tank, 9).at("heap_course").value == "cooled");
}

TEST_CASE("a heap heats again when it was five degrees hotter within a week of two turnings", "[tank][facts]") {
    const auto heap = [](const char* after_the_second, int on, int turned_again = 10) {
        Tank tank;
        tank.added(1, "left", {{"peelings", 300}}).read(3, "left", "bed_temperature", "40 °C");
        tank.did(4, "left", "turned it").read(6, "left", "bed_temperature", "45 °C");
        tank.read(9, "left", "bed_temperature", "36 °C").read(10, "left", "bed_temperature", "34 °C");
        tank.did(turned_again, "left", "turned it").read(on, "left", "bed_temperature", after_the_second);
        return facts(tank, on);
    };
    CHECK(heap("39 °C", 12).at("heap_course").value == "heats_again");
    CHECK(heap("39 °C", 12).at("heap_course").from == "the tank's record: hotter again after 2 turnings");
    CHECK(heap("38.9 °C", 12).at("heap_course").value == "cooled");  // before it was 34, on the day of the turning itself
    CHECK(heap("39 °C", 17).at("heap_course").value == "heats_again");
    CHECK(heap("39 °C", 18).at("heap_course").value == "cooled");  // eight days after
    CHECK(heap("50 °C", 12).at("heap_course").value == "not never_hot,not cooled");
    CHECK(heap("50 °C", 12, 4).at("heap_course").value == "hot_now");  // two turnings of one day are one
}

TEST_CASE("heat is told of what lies there, and turning since the bay was emptied", "[tank][facts]") {
    Tank bare;
    bare.read(3, "left", "bed_temperature", "50 °C");
    CHECK_FALSE(facts(bare, 3).contains("heap_peak"));
    CHECK_FALSE(facts(bare, 3).contains("heap_course"));
    CHECK(facts(bare, 3).at("bed_temperature").value == "50 °C");

    Tank tank;
    tank.added(1, "left", {{"peelings", 300}}).did(6, "left", "turned it");
    REQUIRE(facts(tank, 7).at("turning").value == "some");
    tank.entry(8, "left", Emptied{}).added(8, "left", {{"peelings", 300}}).read(10, "left", "bed_temperature", "50 °C");
    CHECK_FALSE(facts(tank, 12).contains("turning"));
}

TEST_CASE("a bed whose worms nobody wrote down is not said to have none", "[tank][facts]") {
    Tank tank;
    for (int on = 1; on <= 22; on += 3) tank.added(on, "left", {{"peelings", 10}});  // on eight days
    CHECK_FALSE(facts(tank, 23).contains("worms_in_yet"));
    CHECK(facts(tank, 23).at("stage").sureness == Sureness::unsure);
    CHECK(has(facts(tank, 23).at("stage").value, "not cooling"));
    CHECK(facts(tank, 21).at("worms_in_yet").value == "no");
    tank.read(10, "left", "bed_temperature", "58 °C");  // a heap after all
    CHECK(facts(tank, 23).at("worms_in_yet").value == "no");
    CHECK(facts(tank, 23).at("stage").value == "resting");
}

TEST_CASE("since when worms can cross: from the day the way was opened, or at least since some were seen across",
          "[tank][facts]") {
    Tank tank = fed({{"peelings", 8}});
    tank.added(60, "right", {{"peelings", 300}, {"leaves", 80}});
    CHECK_FALSE(facts(tank, 99).contains("days_since_joined"));
    tank.did(96, "left", "rod_wall_openings");
    CHECK_FALSE(facts(tank, 99).contains("days_since_joined"));  // routine, as long as none is to cross
    tank.saw(98, "right", "worms_crossing", "a_few");
    CHECK(facts(tank, 99).at("days_since_joined").value == "3 days");
    tank.did(99, "left", "lay_damp_bridge");  // afterwards, to help them on
    CHECK(facts(tank, 103).at("days_since_joined").value == "7 days");

    Tank seen_only = fed({{"peelings", 8}});
    seen_only.added(60, "right", {{"peelings", 300}, {"leaves", 80}}).saw(97, "left", "worms_crossing", "a_few");
    CHECK(facts(seen_only, 99).at("days_since_joined").value == "at least 2 days");
}

TEST_CASE("the next bay, seen from the bed", "[tank][facts]") {
    Tank tank = fed({{"peelings", 8}});
    CHECK_FALSE(facts(tank, 99).contains("neighbour_bed_state"));  // the record never speaks of it
    tank.record().wall_openings = true;
    CHECK(facts(tank, 99).at("partition_openings").value == "not absent,not not_applicable");
    tank.record().wall_openings = false;
    CHECK(facts(tank, 99).at("partition_openings").value == "absent");

    tank.entry(50, "right", Emptied{});
    CHECK(facts(tank, 59).at("neighbour_bed_state").value == "empty");
    tank.added(60, "right", {{"peelings", 300}, {"leaves", 80}}).read(66, "right", "bed_temperature", "55 °C");
    CHECK(facts(tank, 68).at("neighbour_bed_state").value == "hot_or_raw");
    CHECK(facts(tank, 68).at("next_bay_rest").value == "8 days");
    CHECK(facts(tank, 68).at("resting_looked_after").value == "yes");
    CHECK(facts(tank, 68).at("bay_turns").value == "in_turn");
    tank.read(96, "right", "bed_temperature", "24 °C").saw(96, "right", "squeeze", "few_drops");
    CHECK(facts(tank, 99).at("neighbour_bed_state").value == "ripe_moist_cool");
    tank.saw(97, "right", "squeeze", "stream");
    CHECK(facts(tank, 99).at("neighbour_bed_state").value == "wet_foul");

    Tank single({"bed"});
    single.added(1, "bed", {{"peelings", 100}}).worms_in(40, "bed", 5);
    CHECK(facts(single, 50, "bed").at("bay_turns").value == "not_applicable");
    CHECK(facts(single, 50, "bed").at("partition_openings").value == "not_applicable");
}

TEST_CASE("a seed test gives its germination index", "[tank][facts]") {
    Tank tank = fed({{"peelings", 8}});
    tank.entry(90, "left", SeedTested{9, 40, 10, 50}).entry(91, "left", Emptied{});
    CHECK(facts(tank, 99).at("germination_index").value == "72 %");
    CHECK(facts(tank, 99).at("germination_index").from == "the tank's record: a seed test on " + to_text(day(90)));
    CHECK_FALSE(facts(tank, 151).contains("germination_index"));
}

TEST_CASE("an empty tank tells of its walls only", "[tank][facts]") {
    Tank tank;
    for (const auto& [sign, said] : facts(tank, 10)) CHECK((sign == "container" || sign == "partition_openings"));
}

TEST_CASE("what a person says now counts for more than the record", "[tank][facts]") {
    const RuleBase& base = base_with_materials();
    Tank tank = fed({{"peelings", 8}, {"citrus", 4}});
    tank.saw(98, "left", "squeeze", "few_drops").saw(98, "left", "smell_sour", "strong");
    Told told;
    for (const char* word : {"squeeze=stream", "feed_citrus=none", "stage=worm_bed", "smell_sour=?"})
        REQUIRE_FALSE(hear_argument(told, base, word));
    const auto overruled = add_facts(told, facts_of(tank.record(), tank.on(99), base, 0), base);
    CHECK(told.facts.find(base.signs.find("squeeze").value())->from == "you said: squeeze=stream");
    REQUIRE(overruled.size() == 2);
    CHECK(
        has(overruled[0], "citrus in the feed: you say \"no citrus\", the record says \"lots of citrus\" (16 kg of citrus in"));
    CHECK(has(overruled[1], "squeeze test"));
    // Asked just now and not known: what was written down two days ago is no better.
    CHECK_FALSE(told.facts.find(base.signs.find("smell_sour").value()));
    // Each sign stands in the order once, what the person said first.
    std::set<std::uint32_t> signs;
    for (const auto sign : told.order) signs.insert(sign.index);
    CHECK(told.order.size() == signs.size());
    CHECK(base.signs[told.order[0]].id == "squeeze");
}

TEST_CASE("which bay is meant", "[tank][facts]") {
    Tank tank;
    CHECK(bay_meant(tank.record(), tank.on(10)).bay == 0);
    tank.added(1, "right", {{"peelings", 200}});
    CHECK(bay_meant(tank.record(), tank.on(10)).bay == 1);
    tank.added(5, "left", {{"peelings", 200}});
    CHECK(bay_meant(tank.record(), tank.on(10)).bay == 0);  // filled last
    tank.worms_in(40, "right", 5);
    CHECK(bay_meant(tank.record(), tank.on(41)).bay == 1);
    CHECK(bay_meant(tank.record(), tank.on(41)).because == "it has the worms");

    // Where nothing was said, the one in most trouble; where something was, the rule above; and a name settles it.
    const Ranker ranker(base_with_materials());
    tank.read(44, "left", "bed_temperature", "82 °C").saw(44, "left", "smell_smoke", "yes");
    const TankState state = tank.on(45);
    CHECK(bay_meant(ranker, tank.record(), state, {}, std::nullopt).bay == 0);
    Told told;
    REQUIRE_FALSE(hear_argument(told, base_with_materials(), "squeeze=stream"));
    CHECK(bay_meant(ranker, tank.record(), state, told, std::nullopt).bay == 1);
    CHECK(bay_meant(ranker, tank.record(), state, told, std::size_t{0}).bay == 0);
}

TEST_CASE("the balance says which lines are the record's", "[tank][facts]") {
    const Ranker ranker(base_with_materials());
    Tank tank = fed({{"peelings", 8}, {"citrus", 6}});
    Told told;
    for (const char* word : {"smell_sour=strong", "ph=4.5"}) REQUIRE_FALSE(hear_argument(told, base_with_materials(), word));
    const TankSeen seen = look_into(ranker, tank.record(), day(99), std::nullopt, told);
    CHECK(seen.bay == 0);
    const Ranking ranking = ranker.rank(told.facts);
    bool recorded = false;
    bool said = false;
    for (const BalanceLine& line : ranking.causes.front().balance) {
        recorded = recorded || has(line.text, "(from the tank's record: 24 kg of citrus in 56 kg of feed since ");
        said = said || has(line.text, "pH: pH 4.5");
        CHECK_FALSE(has(line.text, "pH 4.5 (from the tank's record"));
    }
    CHECK(recorded);
    CHECK(said);
    // The lines of the page on the bay, and the entry that lies ahead.
    tank.added(105, "left", {{"peelings", 8}});
    Told nothing;
    const std::vector<std::string> lines = in_words(look_into(ranker, tank.record(), day(99), std::size_t{0}, nothing));
    CHECK(lines.front() == "Worm bed: worms went in 59 days ago.");
    CHECK(lines.back() == "1 thing is written down for days after " + to_text(day(99)) + " and does not count.");
}

TEST_CASE("a rule base without these signs is told nothing of them", "[tank][facts]") {
    RuleBase bare = base_of(Rules().sign("squeeze", "answers: {dry: {means: dry}, wet: {means: wet}}").text());
    bare.materials = base_with_materials().materials;
    for (const Material& each : base_with_materials().materials) {
        Material& material = bare.materials[bare.materials.find(each.id).value()];
        material.shares.clear();
        material.tells.clear();
    }
    Tank tank({"left", "right"}, bare);
    tank.added(1, "left", {{"peelings", 200}}).worms_in(40, "left", 5).saw(98, "left", "squeeze", "wet");
    const std::vector<TankFact> said = facts_of(tank.record(), tank.on(99), bare, 0);
    REQUIRE(said.size() == 1);
    CHECK(bare.signs[said[0].sign].id == "squeeze");
}

}  // namespace engine_tank_facts_test
