// What a record comes to, over records written by hand and reckoned by hand.
#include "engine/tank_state.hpp"

#include "engine/tank/moisture.hpp"
#include "engine/tank/rotting.hpp"
#include "engine/tank/stage.hpp"
#include "engine/tank/turns.hpp"
#include "tests/catch.hpp"
#include "tests/near.hpp"
#include "tests/tanks.hpp"

#include <string>
#include <vector>

namespace engine_tank_state_test {

using namespace lidlift;
using namespace lidlift::test;

namespace {

/// A bay filled on day 1, with worms from day 40, fed 12 kg of peelings and 2 kg of citrus with leaves every third day.
Tank fed_tank(int until) {
    Tank tank;
    tank.added(1, "left", {{"peelings", 200}, {"leaves", 80}, {"dung", 30}}).worms_in(40, "left", 5);
    for (int on = 43; on <= until; on += 3) tank.added(on, "left", {{"peelings", 12}, {"citrus", 2}, {"leaves", 3}});
    return tank;
}

double share_of(const BayState& bay, const std::string& sign) {
    for (const FeedShare& share : bay.feed_shares)
        if (base_with_materials().signs[share.sign].id == sign) return share.percent.typical;
    return 0;
}

}  // namespace

TEST_CASE("the trade's own tank: two bays of 2.787 m2 and 2.124 m3", "[tank]") {
    // Common practice, no source: 10 ft by 6 ft by 2.5 ft, split in two bays 3 ft wide.
    Tank tank;
    CHECK(tank.record().bays[0].area == near(2.787, 0.0005));
    CHECK(tank.record().bays[0].area * tank.record().bays[0].height == near(2.124, 0.0005));
    CHECK(tank.on(1, "left").free_litres.value() == near(2124, 0.5));
}

TEST_CASE("a bay that nothing is known of is empty", "[tank]") {
    const BayState bay = Tank().on(10, "left");
    CHECK(bay.stage == BayStage::empty);
    CHECK(bay.stage_because == "the record names nothing in it");
    CHECK(bay.filled.empty());
    CHECK_FALSE(bay.as_filled);
    CHECK_FALSE(bay.kg);
    CHECK_FALSE(bay.worms);
    CHECK_FALSE(bay.days_since_feed);
    CHECK_FALSE(bay.worms_from);
}

TEST_CASE("a filled bay fills, rests and is ready after the trade's thirty days", "[tank]") {
    const int later = GENERATE(0, 6, 7, 29, 30, 45);
    const BayState bay = Tank().added(1, "left", {{"peelings", 300}, {"leaves", 60}}).on(1 + later, "left");
    const BayStage expected = later < 7 ? BayStage::filling : later < 30 ? BayStage::resting : BayStage::ready_for_worms;
    CHECK(bay.stage == expected);
    CHECK(bay.days_since_filling == later);
    CHECK(bay.rest_days == later);
    CHECK(bay.worms_from == day(31));
    CHECK(bay.kg->value.high <= 360);
    CHECK_FALSE(bay.harvest_from);
}

TEST_CASE("the rest counts from the last filling, and bait or water is none", "[tank]") {
    Tank tank;
    tank.added(1, "left", {{"peelings", 200}}).added(5, "left", {{"peelings", 100}});
    CHECK(tank.on(20, "left").rest_days == 15);
    tank.added(12, "left", {{"peelings", 10}}).sprinkled(14, "left", {{"water", 40}});
    CHECK(tank.on(20, "left").rest_days == 15);
    tank.added(15, "left", {{"peelings", 40}});
    CHECK(tank.on(20, "left").rest_days == 5);
}

TEST_CASE("a bay that is hot, or smells of ammonia, is not ready however long it rested", "[tank]") {
    Tank tank;
    tank.added(1, "left", {{"peelings", 300}, {"leaves", 60}}).read(5, "left", "bed_temperature", "60 °C");
    CHECK(tank.on(6, "left").stage == BayStage::filling);
    CHECK(tank.on(10, "left").stage == BayStage::resting);

    tank.read(36, "left", "bed_temperature", "34 °C");
    BayState bay = tank.on(36, "left");
    CHECK(bay.stage == BayStage::cooling);
    CHECK(bay.worms_from == day(39));  // three days of cool from now on
    tank.read(38, "left", "bed_temperature", "29 °C");
    CHECK(tank.on(38, "left").stage == BayStage::cooling);
    CHECK(tank.on(39, "left").stage == BayStage::ready_for_worms);

    // Thirty degrees are cool enough, a tenth more is not.
    for (const char* core : {"30 °C", "30.1 °C"}) {
        Tank other;
        other.added(1, "left", {{"peelings", 300}}).read(38, "left", "bed_temperature", core);
        CHECK((other.on(38, "left").stage == BayStage::ready_for_worms) == (core == std::string("30 °C")));
    }

    tank.saw(40, "left", "smell_ammonia", "strong");
    bay = tank.on(40, "left");
    CHECK(bay.stage != BayStage::ready_for_worms);
    tank.saw(41, "left", "smell_ammonia", "none");
    CHECK(tank.on(41, "left").stage == BayStage::ready_for_worms);
}

TEST_CASE("a tank fed for weeks: feed, shares, rates and worms", "[tank]") {
    const BayState bay = fed_tank(97).on(99, "left");
    CHECK(bay.stage == BayStage::worm_bed);
    CHECK(bay.days_since_worms == 59);
    CHECK(bay.rest_days == 39);
    CHECK(bay.days_since_feed == 2);
    CHECK(bay.days_since_filling == 98);
    // Days 86 to 99: fed on 88, 91, 94 and 97, 14 kg each.
    REQUIRE(bay.fed);
    CHECK(bay.fed->value == Estimate::exactly(56));
    CHECK(bay.fed_throughout);
    CHECK(share_of(bay, "feed_citrus") == near(100 * 8.0 / 56, 1e-9));
    CHECK(bay.feed_per_day->value.typical == near(4, 1e-9));
    CHECK(bay.feed_per_area->value.typical == near(4 / 2.787, 0.001));
    CHECK(bay.worms->value.low == 5);
    CHECK(bay.worms->value.high == near(5 * std::exp2(59.0 / 60), 1e-9));
    CHECK(bay.feed_per_worms->value.high == near(4.0 / 5, 1e-9));
    CHECK(bay.feed_per_worms->value.low == near(4 / bay.worms->value.high, 1e-9));
    CHECK(bay.stocking.value() == near(5 / 2.787, 0.001));
    REQUIRE(bay.feed);
    CHECK(bay.feed->kg == Estimate::exactly(68));  // bedding and all
    CHECK(bay.last_load.size() == 3);
    CHECK_FALSE(bay.harvest_from);
}

TEST_CASE("a record with holes does not claim to hold every feed", "[tank]") {
    Tank tank;
    tank.added(1, "left", {{"peelings", 200}}).worms_in(20, "left", 4);
    for (const int on : {30, 34, 38, 50, 52}) tank.added(on, "left", {{"peelings", 10}});
    CHECK(tank.on(43, "left").fed_throughout);
    CHECK_FALSE(tank.on(46, "left").fed_throughout);  // nothing for eight days
    CHECK_FALSE(tank.on(54, "left").fed_throughout);  // a hole of twelve within the window
    CHECK_FALSE(tank.on(60, "left").fed_throughout);

    // A week between feeds is no hole, eight days are one, from the window's first day to today.
    const auto fed_on = [](std::vector<int> days, int today) {
        Tank weekly;
        weekly.added(1, "left", {{"peelings", 200}}).worms_in(20, "left", 4);
        for (const int on : days) weekly.added(on, "left", {{"peelings", 10}});
        return weekly.on(today, "left").fed_throughout;
    };
    CHECK(fed_on({33, 40, 47}, 54));
    CHECK_FALSE(fed_on({33, 40, 47}, 55));
    CHECK(fed_on({40, 47}, 47));
    CHECK_FALSE(fed_on({39, 47}, 47));
}

TEST_CASE("feed before the worms came is no ration of theirs", "[tank]") {
    Tank tank;
    tank.added(1, "left", {{"peelings", 140}}).worms_in(10, "left", 4).added(12, "left", {{"peelings", 5}});
    const BayState bay = tank.on(14, "left");
    CHECK(bay.fed->value == Estimate::exactly(145));
    CHECK(bay.feed_per_day->value.typical == near(5.0 / 5, 1e-9));
}

TEST_CASE("worms only: a bed begun before the record", "[tank]") {
    BayState bay = Tank().worms_in(1, "left", 3).on(20, "left");
    CHECK(bay.stage == BayStage::worm_bed);
    CHECK(bay.days_since_worms == 19);
    CHECK_FALSE(bay.kg);
    CHECK_FALSE(bay.days_since_feed);
    CHECK_FALSE(bay.harvest_from);

    // Worms that nobody wrote down as put in, but that were seen.
    Tank seen;
    seen.added(1, "left", {{"peelings", 5}}).saw(4, "left", "worm_place", "in_feed_zone");
    bay = seen.on(40, "left");
    CHECK(bay.stage == BayStage::worm_bed);
    CHECK_FALSE(bay.days_since_worms);
    CHECK_FALSE(bay.worms);
    // Worms next door are none here.
    Tank next_door;
    next_door.added(1, "left", {{"peelings", 50}}).saw(4, "left", "worm_place", "neighbour_bed");
    CHECK(next_door.on(40, "left").stage == BayStage::ready_for_worms);
}

TEST_CASE("worms taken out leave a bay to harvest, and an emptied bay is empty", "[tank]") {
    Tank tank = fed_tank(97);
    tank.worms_out(100, "left", 20);
    BayState bay = tank.on(101, "left");
    CHECK(bay.stage == BayStage::harvest_due);
    CHECK_FALSE(bay.worms);
    CHECK(bay.harvest_from == day(100));

    tank.entry(102, "left", Emptied{});
    bay = tank.on(102, "left");
    CHECK(bay.stage == BayStage::empty);
    CHECK(bay.stage_because == "emptied on " + to_text(day(102)));
    CHECK(bay.filled.empty());
    CHECK(bay.free_litres.value() == near(2124, 0.5));

    tank.added(103, "left", {{"peelings", 30}});
    bay = tank.on(104, "left");
    CHECK(bay.stage == BayStage::filling);
    CHECK(bay.filled.size() == 1);
    CHECK_FALSE(bay.peak_temperature);
}

TEST_CASE("a harvest takes away what it weighs, and what went in stays as it was", "[tank]") {
    Tank tank = fed_tank(97);
    const BayState before = tank.on(99, "left");
    const double taken = before.kg->value.typical / 2;
    tank.harvested(99, "left", taken);
    const BayState after = tank.on(99, "left");
    CHECK(after.kg->value.typical == near(taken, 1e-6));
    CHECK(after.as_filled->kg == before.as_filled->kg);
    CHECK(after.stage == BayStage::worm_bed);
    // More than the model thought there was: nothing is left of the typical figure, but the bay is empty only when somebody
    // says so.
    tank.harvested(99, "left", 10'000);
    CHECK(tank.on(99, "left").kg->value.typical == 0);
    CHECK(tank.on(99, "left").stage == BayStage::worm_bed);
}

TEST_CASE("a bay holds no more than it has room for, however much went in", "[tank]") {
    // 4,000 kg on the day: a litre of it weighs 1.1 kg at most, and the bay holds 2,124 L.
    const BayState bay = Tank().added(1, "left", {{"peelings", 4'000}}).on(1, "left");
    CHECK(bay.kg->value.high == near(1.1 * 2124, 1));
    CHECK(bay.kg->value.typical <= bay.kg->value.high);
    CHECK(bay.litres->value.high == near(2124, 0.5));
    CHECK(bay.free_litres.value() == near(2124 - bay.litres->value.typical, 0.5));
}

TEST_CASE("what is left lies between what nothing rots and all that can", "[tank]") {
    const int later = GENERATE(0, 12, 29, 120);
    const BayState bay = Tank().added(1, "left", {{"peelings", 100}}).on(1 + later, "left");
    // 15 kg of dry matter; by the typical course 46 % are gone in 29 days (Soares 2012).
    const Estimate left = tank::dry_matter_left(later);
    CHECK(bay.kg->value.low <= bay.kg->value.typical);
    CHECK(bay.kg->value.typical <= bay.kg->value.high);
    CHECK(bay.kg->value.high <= 100);
    CHECK(bay.kg->value.typical == near(std::min(100.0, 15 * left.typical / 0.25), 1e-9));  // drained to 75 %
    CHECK(bay.litres->value.typical == near(200 * tank::volume_left(later).typical, 1e-9));
    CHECK(bay.depth->value.typical == near(bay.litres->value.typical / 2787, 0.001));
    CHECK(bay.free_litres.value() == near(2124 - bay.litres->value.typical, 0.5));
}

TEST_CASE("the course of rotting goes through the published figures", "[tank][published]") {
    CHECK(tank::dry_matter_left(29).typical == near(0.54, 1e-12));  // Soares 2012: 46 % in 29 days
    // Kumar 2010: 33 % of the volatile solids in 12 days, which are 80 to 90 % of the dry matter.
    CHECK(1 - tank::dry_matter_left(12).typical == near(0.28, 0.025));
    CHECK(tank::dry_matter_left(0) == Estimate::exactly(1));
    CHECK(tank::dry_matter_left(-3) == Estimate::exactly(1));
    // 30 to 60 % less volume in the end; a third to a half in four to five weeks lies within the bounds.
    CHECK(tank::volume_left(10'000).low == near(0.4, 1e-9));
    CHECK(tank::volume_left(10'000).high == near(0.7, 1e-9));
    CHECK(tank::volume_left(32).low < 0.5);
    CHECK(tank::volume_left(32).typical == near(0.67, 0.02));
    for (int days = 0; days < 400; ++days) {
        const Estimate left = tank::dry_matter_left(days);
        CHECK((left.low <= left.typical && left.typical <= left.high && left.low > 0 && left.high <= 1));
    }
}

TEST_CASE("how wet it is: by the scales before the squeeze, and by either before a guess", "[tank]") {
    Tank tank;
    tank.added(1, "left", {{"peelings", 300}, {"leaves", 100}});
    CHECK(tank.on(20, "left").moisture->how.find("guess") != std::string::npos);
    tank.saw(18, "left", "squeeze", "stream");
    CHECK(tank.on(20, "left").moisture->value.low >= 80);
    CHECK(tank.on(30, "left").moisture->how.find("guess") != std::string::npos);  // twelve days old
    tank.entry(17, "left", Dried{0.004, 0.014, 0.0063});                          // the Cornell example, 77 %
    CHECK(tank.on(20, "left").moisture->value.typical == near(77, 1e-9));
    CHECK(tank.on(20, "left").moisture->value == Estimate{72, 77, 82});
    tank.entry(17, "left", BucketWeighed{1, 10, 20});
    CHECK(tank.on(20, "left").density->value.typical == near(450, 1e-9));
}

TEST_CASE("worms cross to the ripe bay by themselves, and the harvest is due four to six weeks after", "[tank]") {
    // The trade's arithmetic, common practice, no source.
    Tank tank = fed_tank(97);
    tank.added(60, "right", {{"peelings", 250}, {"leaves", 80}});
    tank.saw(101, "left", "worms_crossing", "a_few");
    BayState left = tank.on(102, "left");
    CHECK(left.stage == BayStage::migrating);
    CHECK_FALSE(left.harvest_from);
    CHECK(tank.on(102, "right").stage == BayStage::ready_for_worms);

    tank.saw(110, "right", "worms_crossing", "nearly_all");
    left = tank.on(111, "left");
    CHECK(left.stage == BayStage::migrating);
    CHECK(left.harvest_from == day(138));
    CHECK(left.harvest_until == day(152));
    const BayState right = tank.on(111, "right");
    CHECK(right.stage == BayStage::worm_bed);
    CHECK(right.days_since_worms == 1);
    CHECK(right.rest_days == 50);
    // Half to all of them, with four fifths as the typical figure.
    CHECK(right.worms->value.typical > 3 * left.worms->value.typical);
    CHECK(left.worms->value.low == 0);
    CHECK(tank.on(137, "left").stage == BayStage::migrating);
    CHECK(tank.on(138, "left").stage == BayStage::harvest_due);
    // A wall without openings lets none through.
    tank.record().wall_openings = false;
    CHECK(tank.on(111, "right").stage == BayStage::ready_for_worms);
}

TEST_CASE("a bed that is fed no more is handed over or harvested by the days", "[tank]") {
    Tank tank = fed_tank(97);  // fed last on day 97
    CHECK(tank.on(106, "left").stage == BayStage::worm_bed);
    CHECK(tank.on(107, "left").harvest_from == day(97 + 45));
    CHECK(tank.on(107, "left").stage == BayStage::worm_bed);  // there is nowhere to go
    tank.added(60, "right", {{"peelings", 250}});
    CHECK(tank.on(107, "left").stage == BayStage::migrating);
    CHECK(tank.on(141, "left").stage == BayStage::migrating);
    CHECK(tank.on(142, "left").stage == BayStage::harvest_due);
}

TEST_CASE("temperature, its trend by least squares and its peak", "[tank]") {
    Tank tank;
    tank.added(1, "left", {{"peelings", 300}});
    tank.read(3, "left", "bed_temperature", "50 °C").read(4, "left", "bed_temperature", "62 °C");
    tank.read(20, "left", "bed_temperature", "40 °C").read(22, "left", "bed_temperature", "37 °C");
    tank.read(24, "left", "bed_temperature", "30 to 34 °C");
    BayState bay = tank.on(25, "left");
    CHECK(bay.temperature->value == Estimate{30, 32, 34});
    // 40, 37 and 32 at days 0, 2 and 4: slope (-2 * 40 + 0 + 2 * 32) / 8.
    CHECK(bay.temperature_trend.value() == near(-2, 1e-9));
    CHECK(bay.peak_temperature == 62);
    CHECK(tank.on(31, "left").temperature);
    CHECK_FALSE(tank.on(32, "left").temperature);  // eight days old
    CHECK_FALSE(tank.on(32, "left").temperature_trend);
    CHECK(tank.on(32, "left").peak_temperature == 62);
    // Of one day the highest reading counts.
    tank.read(24, "left", "bed_temperature", "45 °C");
    CHECK(tank.on(25, "left").temperature->value.typical == 45);
    CHECK_FALSE(Tank().read(1, "left", "bed_temperature", "20 °C").on(1, "left").temperature_trend);
}

TEST_CASE("hot time is told of readings before the worms only", "[tank]") {
    Tank tank;
    tank.added(1, "left", {{"peelings", 300}, {"leaves", 100}});
    for (int on = 3; on <= 9; on += 2) tank.read(on, "left", "bed_temperature", "58 °C");
    tank.did(5, "left", "turned it").did(5, "left", "turn_heap_again").did(7, "left", "looked at it");
    BayState bay = tank.on(12, "left");
    REQUIRE(bay.hot);
    CHECK(bay.hot->readings == 4);
    CHECK(bay.hot->longest == 6);
    CHECK(bay.hot->turnings == 1);  // twice on one day, and looking is no turning
    CHECK_FALSE(bay.hot->as_in_a_heap());

    tank.worms_in(40, "left", 4).read(60, "left", "bed_temperature", "57 °C");
    CHECK(tank.on(60, "left").hot->readings == 4);
    Tank worms_first;
    worms_first.added(1, "left", {{"peelings", 300}}).worms_in(1, "left", 4).read(3, "left", "bed_temperature", "58 °C");
    CHECK_FALSE(worms_first.on(4, "left").hot);
}

TEST_CASE("the share of ammonia that is gas, from pH and temperature", "[tank]") {
    Tank tank;
    tank.added(1, "left", {{"peelings", 300}}).read(10, "left", "ph", "8").read(11, "left", "bed_temperature", "20 °C");
    // Emerson et al. 1975, read: 0.0381 at pH 8.0 and 20 degrees.
    CHECK(tank.on(12, "left").ammonia_share->value.typical == near(3.81, 0.005));
    CHECK_FALSE(tank.on(30, "left").ammonia_share);
    CHECK_FALSE(Tank().read(10, "left", "ph", "8").on(11, "left").ammonia_share);
}

TEST_CASE("a slurry is told as so much water to fresh dung", "[tank]") {
    Tank tank;
    tank.added(1, "left", {{"peelings", 200}}).worms_in(30, "left", 4);
    tank.sprinkled(40, "left", {{"dung", 2}, {"water", 20}});
    BayState bay = tank.on(42, "left");
    // Dung of 80 % water is the measure itself: 20 kg of water to 2 kg.
    CHECK(bay.slurry_water->value.typical == near(10, 1e-9));
    CHECK(bay.sprinkled_per_area->value.typical == near(22 / 2.787, 0.01));
    // Water alone is no slurry, and on a day of filling it is part of the mixture.
    CHECK_FALSE(Tank().sprinkled(40, "left", {{"water", 20}}).on(42, "left").slurry_water);
    Tank filling;
    filling.added(40, "left", {{"peelings", 200}}).sprinkled(40, "left", {{"dung", 2}, {"water", 20}});
    CHECK_FALSE(filling.on(42, "left").slurry_water);
    // Also where the worms went in a few days later; what comes after them is a slurry.
    Tank begun;
    begun.added(40, "left", {{"peelings", 200}}).sprinkled(40, "left", {{"dung", 2}, {"water", 20}}).worms_in(42, "left", 4);
    CHECK_FALSE(begun.on(45, "left").slurry_water);
    begun.added(44, "left", {{"peelings", 5}}).sprinkled(44, "left", {{"dung", 2}, {"water", 10}});
    CHECK(begun.on(45, "left").slurry_water->value.typical == near(5, 1e-9));
}

TEST_CASE("each answer of the squeeze is a range of its own, wetter than the one before, and no other word is any", "[tank]") {
    double before = 0;
    for (const char* answer : {"dry_crumbles", "holds_no_drop", "few_drops", "stream"}) {
        const auto wet = tank::moisture_by_squeeze(answer);
        REQUIRE(wet);
        CHECK((wet->low < wet->typical && wet->typical < wet->high));
        CHECK(wet->low > before);
        before = wet->low;
    }
    CHECK_FALSE(tank::moisture_by_squeeze("soaked"));
}

TEST_CASE("several samples of one day give the range between them, and only the last day counts", "[tank]") {
    Tank tank;
    tank.added(1, "left", {{"peelings", 300}, {"leaves", 100}});
    const auto dried = [&](int on, double percent) { tank.entry(on, "left", Dried{0, 0.01, 0.01 * (1 - percent / 100)}); };
    dried(10, 90);
    for (const double percent : {66, 60, 75}) dried(17, percent);
    const auto value = [&](int on) { return tank.on(on, "left").moisture->value; };
    CHECK(value(20).low == near(55, 1e-9));  // five points below the driest
    CHECK(value(20).typical == near(67, 1e-9));
    CHECK(value(20).high == near(80, 1e-9));
    CHECK(tank.on(20, "left").moisture->how == "a sample dried on " + to_text(day(17)));
    CHECK(value(31).typical == near(67, 1e-9));
    CHECK(tank.on(32, "left").moisture->how.find("guess") != std::string::npos);  // fifteen days old

    // No sample says that there is nothing but water, or less than none.
    dried(33, 99.5);
    CHECK(value(33).low == near(94.5, 1e-9));
    CHECK(value(33).typical == near(99, 1e-9));
    CHECK(value(33).high == near(99, 1e-9));
    dried(34, 2);
    CHECK(value(34).low == 0);
    CHECK(value(34).typical == near(2, 1e-9));
    CHECK(value(34).high == near(7, 1e-9));
}

TEST_CASE("a dry bed weighs less than a wet one of the same dry matter", "[tank]") {
    const double percent = GENERATE(50.0, 60.0, 70.0);
    Tank tank;
    tank.added(1, "left", {{"peelings", 100}}).entry(1, "left", Dried{0, 0.01, 0.01 * (1 - percent / 100)});
    // 15 kg of dry matter on the day, whatever the water.
    CHECK(tank.on(1, "left").kg->value.typical == near(15 / (1 - percent / 100), 1e-9));
}

TEST_CASE("squeezes of one day allow all that any of them says, and a later day's count alone", "[tank]") {
    Tank tank;
    tank.added(1, "left", {{"peelings", 300}, {"leaves", 100}}).saw(15, "left", "squeeze", "stream");
    tank.saw(17, "left", "squeeze", "few_drops").saw(17, "left", "squeeze", "holds_no_drop");
    CHECK(tank.on(20, "left").moisture->value == Estimate{50, 69.5, 84});
    CHECK(tank.on(24, "left").moisture->how == "by the squeeze of " + to_text(day(17)));
    CHECK(tank.on(25, "left").moisture->how.find("guess") != std::string::npos);  // eight days old
    tank.saw(18, "left", "squeeze", "not stream,not few_drops");
    CHECK(tank.on(20, "left").moisture->value == Estimate{25, 54, 72});
}

TEST_CASE("what is written for the whole tank is shared by floor, in equal parts where no floor is known", "[tank]") {
    Tank tank({"large", "small"});
    tank.record().bays[0].area = 3;
    tank.record().bays[1].area = 1;
    tank.added(1, "", {{"peelings", 40}}).worms_in(2, "", 8).saw(3, "", "squeeze", "stream");
    CHECK(tank.on(3, "large").as_filled->kg.typical == near(30, 1e-9));
    CHECK(tank.on(3, "small").as_filled->kg.typical == near(10, 1e-9));
    CHECK(tank.on(3, "large").worms->value.low == near(6, 1e-9));
    CHECK(tank.on(3, "small").worms->value.low == near(2, 1e-9));
    for (const char* bay : {"large", "small"}) CHECK(tank.on(3, bay).moisture->value.low == 80);  // what was seen is not shared
    // What names a bay is that bay's.
    tank.added(4, "small", {{"peelings", 12}});
    CHECK(tank.on(4, "large").as_filled->kg.typical == near(30, 1e-9));
    CHECK(tank.on(4, "small").as_filled->kg.typical == near(22, 1e-9));

    for (RecordedBay& bay : tank.record().bays) bay.area = 0;
    CHECK(tank.on(3, "large").as_filled->kg.typical == near(20, 1e-9));
    CHECK(tank.on(3, "small").worms->value.low == near(4, 1e-9));
    CHECK_FALSE(tank.on(3, "small").depth);
    CHECK_FALSE(tank.on(3, "small").free_litres);

    // In a tank of one bay it is all that bay's, whatever its floor.
    Tank single({"bed"});
    single.added(1, "", {{"peelings", 40}}).added(2, "bed", {{"peelings", 5}});
    CHECK(single.on(2, "bed").as_filled->kg.typical == near(45, 1e-9));
}

TEST_CASE("an emptied bay forgets what was weighed, squeezed and harvested in it", "[tank]") {
    Tank tank = fed_tank(97);
    tank.saw(98, "left", "squeeze", "stream").entry(98, "left", BucketWeighed{1, 10, 20}).harvested(98, "left", 20);
    BayState bay = tank.on(99, "left");
    REQUIRE(bay.density);
    REQUIRE(bay.moisture->value.low == 80);
    REQUIRE(bay.kg->how.find(", less what was harvested") != std::string::npos);
    tank.entry(98, "left", Dried{0, 0.01, 0.004});
    REQUIRE(tank.on(99, "left").moisture->value.low == near(55, 1e-9));

    tank.entry(99, "left", Emptied{}).added(100, "left", {{"peelings", 100}});
    bay = tank.on(100, "left");
    CHECK_FALSE(bay.density);
    CHECK(bay.moisture->how.find("guess") != std::string::npos);
    CHECK(bay.kg->how.find("harvested") == std::string::npos);
    CHECK(bay.as_filled->kg == Estimate::exactly(100));
    CHECK_FALSE(bay.worms);
    CHECK_FALSE(bay.days_since_worms);
    CHECK(bay.stage == BayStage::filling);
    CHECK(tank.on(138, "left").stage == BayStage::ready_for_worms);
}

TEST_CASE("the last load is the last day's, without water or slurry, and lies as thick as its litres", "[tank]") {
    Tank tank;
    tank.added(1, "left", {{"peelings", 100}}).added(5, "left", {{"peelings", 10}, {"leaves", 2}});
    tank.sprinkled(6, "left", {{"water", 20}});
    BayState bay = tank.on(7, "left");
    CHECK(bay.last_load.size() == 2);
    // 10 kg at 500 and 2 kg at 100 kg/m3 are 20 L each, on 2.787 m2.
    CHECK(bay.layer->value.typical == near(0.040 / 2.787, 1e-5));
    CHECK(bay.filled.size() == 3);
    // One of the same day joins it.
    tank.added(5, "left", {{"peelings", 5}});
    CHECK(tank.on(7, "left").layer->value.typical == near(0.050 / 2.787, 1e-5));
    // Where nothing but water went in there is no load at all.
    bay = Tank().sprinkled(1, "left", {{"water", 20}}).on(1, "left");
    CHECK(bay.last_load.empty());
    CHECK_FALSE(bay.layer);
}

TEST_CASE("water takes no room and is not what is left; minerals do not rot", "[tank]") {
    BayState bay = Tank().added(1, "left", {{"water", 50}}).on(1, "left");
    CHECK(bay.kg->value == Estimate{0, 0, 0});
    CHECK(bay.litres->value == Estimate{0, 0, 0});
    CHECK(bay.free_litres.value() == near(2124, 0.5));

    // 12 kg of lime at 1,200 kg/m3.
    bay = Tank().added(1, "left", {{"lime", 12}}).on(400, "left");
    CHECK(bay.litres->value.typical == near(10, 1e-9));
    CHECK(bay.kg->value.typical == near(12, 1e-9));
    bay = Tank().added(1, "left", {{"peelings", 12}}).on(400, "left");
    CHECK(bay.litres->value.typical < 0.6 * 24);
}

TEST_CASE("a harvest by the litre takes its litres", "[tank]") {
    Tank tank = fed_tank(97);
    const Estimate before = tank.on(99, "left").litres->value;
    tank.entry(99, "left", Harvested{{Amount::By::volume, before.typical / 4, "some litres"}});
    const Estimate after = tank.on(99, "left").litres->value;
    CHECK(after.typical == near(before.typical * 3 / 4, 1e-6));
    // A quarter of the typical figure is more of the least that there may be, and less of the most.
    CHECK(after.low < before.low * 3 / 4);
    CHECK(after.high > before.high * 3 / 4);
}

TEST_CASE("a sample says nothing of a bay that nothing is known to lie in", "[tank]") {
    const BayState bay = Tank().entry(3, "left", Dried{0, 0.01, 0.004}).saw(3, "left", "squeeze", "stream").on(3, "left");
    CHECK_FALSE(bay.moisture);
    CHECK_FALSE(bay.kg);
}

TEST_CASE("the litres of a portion are told where it was measured out by them, and nothing weighs nothing", "[tank]") {
    Tank tank;
    tank.buckets(1, "left", "peelings", 3).buckets(2, "left", "peelings", 2).buckets(2, "left", "leaves", 4);
    tank.added(3, "left", {{"leaves", 1}, {"citrus", 0}});
    const BayState bay = tank.on(3, "left");
    REQUIRE(bay.filled.size() == 2);  // of citrus there was none
    CHECK(bay.filled[0].litres.value() == near(50, 1e-9));
    CHECK(bay.filled[0].kg.typical == near(25, 1e-9));
    CHECK_FALSE(bay.filled[1].litres);  // some of the leaves were weighed
    CHECK(bay.filled[1].kg.typical == near(5, 1e-9));
}

TEST_CASE("a harvest of a little more than the typical figure leaves what there may still be", "[tank]") {
    Tank tank = fed_tank(97);
    const Estimate before = tank.on(99, "left").kg->value;
    tank.harvested(99, "left", before.typical * 1.02);
    const Estimate after = tank.on(99, "left").kg->value;
    CHECK(after.low == 0);
    CHECK(after.typical == 0);
    CHECK(after.high > 0);
    CHECK(after.high <= tank.on(99, "left").as_filled->kg.high);
}

}  // namespace engine_tank_state_test
