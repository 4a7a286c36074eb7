// What is due, on states made by hand; each day is counted beside its check. Today is Monday 2026-06-15.
#include "engine/due_work.hpp"

#include "engine/routines.hpp"
#include "tests/catch.hpp"
#include "tests/engine/short_rules.hpp"

#include <algorithm>
#include <initializer_list>
#include <string>
#include <vector>

namespace engine_due_work_test {

using namespace lidlift;
using namespace lidlift::test;

namespace {

const Day today = *read_day("2026-06-15");

/// 10 ft by 6 ft, so two bays of 2.787 m2.
TankRecord record_with(const std::vector<std::string>& entries, const std::string& bays = "[left, right]") {
    std::string text = "tank: T\ninside: {length: 10 ft, width: 6 ft, height: 2.5 ft}\nbays: " + bays + "\nentries:\n";
    for (const std::string& entry : entries) text += "  - " + entry + "\n";
    if (entries.empty()) text += "  []\n";
    TankReading reading = read_tank_record(text, "tank.yaml", default_base());
    for (const Complaint& complaint : reading.complaints) FAIL_CHECK(to_text(complaint));
    return std::move(reading.record);
}

BayState at(BayStage stage) {
    BayState bay;
    bay.stage = stage;
    return bay;
}
BayState rested(BayStage stage, int days, std::optional<double> celsius = {}) {
    BayState bay = at(stage);
    bay.days_since_filling = days;
    bay.worms_from = today - std::chrono::days(days) + std::chrono::days(30);
    if (celsius) bay.temperature = Stated{Estimate::exactly(*celsius), "read"};
    return bay;
}
BayState bed(int days, double kg = 5) {
    BayState bay = at(BayStage::worm_bed);
    bay.days_since_worms = days;
    bay.worms = Stated{Estimate::exactly(kg), "counted"};
    return bay;
}

std::vector<DueWork> due_of(const TankRecord& record, std::vector<BayState> bays) {
    return due_work(record, TankState{today, std::move(bays)}, default_base(), {});
}

/// "overdue left 2026-06-10 2026-06-13 turn it, ..." for each, so that a test sees all of it at once.
std::vector<std::string> lines_of(const TankRecord& record, const std::vector<DueWork>& all) {
    std::vector<std::string> lines;
    for (const DueWork& due : all) {
        const char* when = due.pressing == Pressing::overdue ? "overdue"
                           : due.pressing == Pressing::today ? "today"
                                                             : "this week";
        lines.push_back(std::string(when) + " " + record.bays[due.bay].name + " " + to_text(due.from) + " " +
                        to_text(due.until) + " " + due.say);
    }
    return lines;
}
std::vector<std::string> lines(const TankRecord& record, std::vector<BayState> bays) {
    return lines_of(record, due_of(record, std::move(bays)));
}

bool any_holds(const std::vector<std::string>& lines, const std::string& part) {
    return std::ranges::any_of(lines, [&](const std::string& line) { return line.find(part) != std::string::npos; });
}

const BayState empty_bay = at(BayStage::empty);

}  // namespace

TEST_CASE("a hot heap is turned and probed in its rhythm", "[due]") {
    // Filled on the 5th, turned on the 11th: again from the 16th (5 days) to the 19th (8 days). Probed on the 13th: again from
    // the 15th (2 days) to the 16th (3 days).
    const TankRecord record = record_with({"{on: 2026-06-05, bay: left, added: {kitchen waste: 90 kg}}",
                                           "{on: 2026-06-11, bay: left, did: turn_when_it_cools}",
                                           "{on: 2026-06-13, bay: left, read: {bed_temperature: 61 °C}}"});
    CHECK(lines(record, {rested(BayStage::resting, 10, 61), empty_bay}) ==
          std::vector<std::string>{"today left 2026-06-15 2026-06-16 take its temperature in the middle",
                                   "this week left 2026-06-16 2026-06-19 turn it, the outside to the middle"});
}

TEST_CASE("own words count as turning, and what was done before the filling does not", "[due]") {
    const auto turning = [](const std::string& work, const std::string& on) {
        const TankRecord record = record_with(
            {"{on: 2026-06-05, bay: left, added: {kitchen waste: 90 kg}}", "{on: " + on + ", bay: left, did: " + work + "}"});
        return lines(record, {rested(BayStage::resting, 10, 61), empty_bay});
    };
    CHECK(any_holds(turning("Turned it with Tobin", "2026-06-14"), "this week left 2026-06-19 2026-06-22 turn it"));
    CHECK(any_holds(turning("swept the return path", "2026-06-14"), "overdue left 2026-06-10 2026-06-13 turn it"));
    CHECK(any_holds(turning("turned it", "2026-06-01"), "overdue left 2026-06-10 2026-06-13 turn it"));
}

TEST_CASE("a heap above 65 degrees is turned today", "[due]") {
    const TankRecord record = record_with(
        {"{on: 2026-06-14, bay: left, did: turned it}", "{on: 2026-06-14, bay: left, read: {bed_temperature: 68 °C}}"});
    const auto all = due_of(record, {rested(BayStage::resting, 10, 68), empty_bay});
    REQUIRE_FALSE(all.empty());
    CHECK(all.front().pressing == Pressing::today);
    CHECK(all.front().say.starts_with("turn it"));
    REQUIRE(all.front().step);
    CHECK(default_base().steps[*all.front().step].id == "keep_heap_in_band");
    CHECK_FALSE(default_base().steps[*all.front().step].cautions.empty());
    // Whether it smells of smoke was not written down, so that has to be made sure of.
    CHECK(all.front().check_first == "Make sure that nothing smokes or smells burnt.");
}

TEST_CASE("a cool heap needs no turning, and tells when worms may go in", "[due]") {
    // Rested 25 days, so worms from the 20th on (30 days), until the 5th of July (45 days).
    const TankRecord record = record_with({"{on: 2026-05-21, bay: left, added: {kitchen waste: 90 kg}}",
                                           "{on: 2026-06-14, bay: left, read: {bed_temperature: 28 °C}}"});
    const auto all = lines(record, {rested(BayStage::cooling, 25, 28), empty_bay});
    CHECK_FALSE(any_holds(all, "turn it"));
    CHECK(any_holds(all, "this week left 2026-06-20 2026-07-05 worms may go in from 2026-06-20"));
    CHECK(any_holds(all, "this week left 2026-06-17 2026-06-19 take its temperature"));  // every third day now
}

TEST_CASE("worms are put in where the tank has none", "[due]") {
    // 1.6 to 4.9 kg on each of 2.787 m2: 4.46 to 13.66 kg.
    const TankRecord record = record_with({"{on: 2026-06-13, bay: left, read: {bed_temperature: 22 °C}}"});
    const auto all = lines(record, {rested(BayStage::ready_for_worms, 36, 22), empty_bay});
    CHECK(any_holds(all, "this week left 2026-06-09 2026-06-24 put worms in, 4.5 to 14 kg for this floor"));
    CHECK(any_holds(lines(record, {rested(BayStage::ready_for_worms, 45, 22), empty_bay}),
                    "today left 2026-05-31 2026-06-15 put worms in"));
    CHECK(any_holds(lines(record, {rested(BayStage::ready_for_worms, 46, 22), empty_bay}),
                    "overdue left 2026-05-30 2026-06-14 put worms in"));
    // Where nobody has read how warm it is, that comes first.
    BayState unread = rested(BayStage::ready_for_worms, 36, 22);
    unread.temperature.reset();
    const auto first = lines(record, {unread, empty_bay});
    CHECK(any_holds(first, "once its middle reads 30 °C or less, put worms in, 4.5 to 14 kg"));
    for (const DueWork& due : due_of(record, {unread, empty_bay})) CHECK(due.because.find("is cool") == std::string::npos);
}

TEST_CASE("a bed hands over to a bay that is ready", "[due]") {
    const TankRecord record = record_with({});
    const auto with_bed = [&](int days) { return lines(record, {rested(BayStage::ready_for_worms, 36, 22), bed(days)}); };
    CHECK_FALSE(any_holds(with_bed(20), "hand over"));
    // 35 days a bed: from the 8th (28 days) to the 22nd (42 days).
    CHECK(any_holds(with_bed(35), "this week right 2026-06-08 2026-06-22 hand over to the left bay"));
    CHECK(any_holds(with_bed(35), "left 2026-06-09 2026-06-24 let the worms of the right bay over"));
    CHECK(any_holds(with_bed(43), "overdue right 2026-05-31 2026-06-14 hand over"));
    // Where nothing is ready it goes on.
    const auto late = lines(record, {rested(BayStage::resting, 20, 50), bed(50)});
    CHECK(any_holds(late, "right 2026-06-15 2026-06-22 go on with it until the left bay is ready, not before 2026-06-25"));
    CHECK_FALSE(any_holds(late, "hand over"));
}

TEST_CASE("a bed is fed what its floor and worms take for the days since the last feed", "[due]") {
    const auto feed_of = [](const std::string& last_fed, double kg_of_worms) {
        const TankRecord record = record_with({"{on: " + last_fed + ", bay: right, added: {kitchen waste: 8 kg}}"});
        BayState bay = bed(24, kg_of_worms);
        bay.days_since_feed = days_between(*read_day(last_fed), today);
        return lines(record, {empty_bay, bay});
    };
    // Three days: 3 x min(2.787 x 0.7, 5 x 0.5) = 5.85 kg to 3 x min(2.787 x 2, 5 x 0.75) = 11.25 kg.
    CHECK(any_holds(feed_of("2026-06-12", 5), "today right 2026-06-14 2026-06-19 feed it 5.9 kg, at most 11 kg"));
    // Eight days are late, and fed as four: 4 x 1.951 = 7.8 kg to 4 x 3.75 = 15 kg.
    CHECK(any_holds(feed_of("2026-06-07", 5), "overdue right 2026-06-09 2026-06-14 feed it 7.8 kg, at most 15 kg"));
    // Fed today: again from Wednesday, for two days: 2 x 1.951 kg to 2 x 3.75 kg.
    CHECK(any_holds(feed_of("2026-06-15", 5), "this week right 2026-06-17 2026-06-22 feed it 3.9 kg, at most 7.5 kg"));
    // Few worms eat less than the floor takes: 3 x 0.5 kg to 3 x 0.75 kg.
    CHECK(any_holds(feed_of("2026-06-12", 1), "feed it 1.5 kg, at most 2.3 kg"));
}

TEST_CASE("new worms are first fed after a week", "[due]") {
    const TankRecord record = record_with(
        {"{on: 2026-06-01, bay: right, added: {kitchen waste: 80 kg}}", "{on: 2026-06-12, bay: right, worms in: 5 kg}"});
    BayState bay = bed(3);
    bay.days_since_feed = 14;  // before the worms
    CHECK(any_holds(lines(record, {empty_bay, bay}), "this week right 2026-06-19 2026-06-24 feed it"));
}

TEST_CASE("a bed that is warm, or has its last feed still on it, is not fed", "[due]") {
    const TankRecord record = record_with({"{on: 2026-06-12, bay: right, added: {kitchen waste: 8 kg}}",
                                           "{on: 2026-06-13, bay: right, saw: {uneaten_layer: two_to_5cm}}"});
    BayState bay = bed(24);
    bay.days_since_feed = 3;
    const auto layer = due_of(record, {empty_bay, bay});
    CHECK(any_holds(lines_of(record, layer), "today right 2026-06-15 2026-06-15 no feed until less than 2 cm"));
    CHECK_FALSE(any_holds(lines_of(record, layer), "feed it"));
    const auto no_feed = std::ranges::find_if(layer, [](const DueWork& due) { return due.say.starts_with("no feed"); });
    REQUIRE(no_feed != layer.end());
    CHECK_FALSE(no_feed->work);
    CHECK(no_feed->because == "2 to 5 cm of food is left, seen on 2026-06-13");

    bay.temperature = Stated{Estimate::exactly(31), "read"};
    const TankRecord warm = record_with({"{on: 2026-06-14, bay: right, read: {bed_temperature: 31 °C}}"});
    CHECK(any_holds(lines(warm, {empty_bay, bay}), "no feed"));
}

TEST_CASE("a bed is looked over once a week", "[due]") {
    // Squeezed on the 5th: again from the 10th to the 13th, so late. The rest was looked at yesterday.
    const TankRecord record =
        record_with({"{on: 2026-06-05, bay: right, saw: {squeeze: few_drops}}",
                     "{on: 2026-06-14, bay: right, saw: {uneaten_layer: under_2cm}, read: {bed_temperature: 21 °C}}"});
    BayState bay = bed(24);
    bay.days_since_feed = 0;
    CHECK(any_holds(lines(record, {empty_bay, bay}), "overdue right 2026-06-10 2026-06-13 squeeze a handful"));
    // What was seen before these worms came tells nothing of their bed.
    const TankRecord older = record_with(
        {"{on: 2026-05-01, bay: right, saw: {squeeze: few_drops, uneaten_layer: under_2cm}, read: {bed_temperature: 21 °C}}"});
    CHECK(any_holds(lines(older, {empty_bay, bay}), "see how deep the feed lies, squeeze a handful, take its temperature"));
}

TEST_CASE("an empty bay is filled while the one beside it is a bed", "[due]") {
    const TankRecord record = record_with({"{on: 2026-06-10, bay: left, emptied: yes}"});
    // Worms went in beside it on the 8th: in time until 12 days after that, for 42 - 30 days.
    CHECK(any_holds(lines(record, {empty_bay, bed(7)}), "this week left 2026-06-10 2026-06-20 fill it"));
    CHECK(any_holds(lines(record, {empty_bay, bed(30)}), "overdue left 2026-06-10 2026-06-10 fill it"));
    CHECK(lines(record, {empty_bay, empty_bay}).empty());
    const TankRecord three = record_with({}, "[left, middle, right]");
    CHECK_FALSE(any_holds(lines(three, {empty_bay, bed(7), rested(BayStage::resting, 5, 50)}), "fill it"));
}

TEST_CASE("a bay is not filled for ever", "[due]") {
    const TankRecord record = record_with({"{on: 2026-06-01, bay: left, added: {kitchen waste: 20 kg}}"});
    CHECK(any_holds(lines(record, {at(BayStage::filling), empty_bay}),
                    "this week left 2026-06-15 2026-06-22 finish the filling, and then let it rest"));
    BayState full = at(BayStage::filling);
    full.free_litres = 100;  // of 2124 L
    CHECK(any_holds(lines(record, {full, empty_bay}),
                    "left 2026-06-15 2026-06-22 finish the filling; there is hardly any room left"));
}

TEST_CASE("a handed-over bay is looked after until its harvest", "[due]") {
    const TankRecord record = record_with({"{on: 2026-06-05, bay: right, did: old_bay_goes_hungry}"});
    BayState leaving = at(BayStage::migrating);
    leaving.days_since_worms = 50;
    leaving.harvest_from = *read_day("2026-06-22");
    leaving.harvest_until = *read_day("2026-07-06");
    // It went hungry on the 5th: look from the 12th (7 days) to the 19th (14 days).
    CHECK(any_holds(lines(record, {empty_bay, leaving}), "today right 2026-06-12 2026-06-19 look beyond the wall"));
    CHECK(any_holds(lines(record, {empty_bay, leaving}), "this week right 2026-06-22 2026-07-06 harvest it"));
    BayState ready = at(BayStage::harvest_due);
    ready.harvest_from = *read_day("2026-06-01");
    ready.harvest_until = *read_day("2026-06-14");
    CHECK(any_holds(lines(record, {empty_bay, ready}), "overdue right 2026-06-01 2026-06-14 harvest it"));
    ready.harvest_until.reset();  // two weeks then
    CHECK(any_holds(lines(record, {empty_bay, ready}), "today right 2026-06-01 2026-06-15 harvest it"));
}

TEST_CASE("the sump is emptied where there is something to empty", "[due]") {
    const BayState bay = bed(24);
    CHECK_FALSE(any_holds(lines(record_with({}), {empty_bay, bay}), "sump"));
    // Emptied on the 11th: again from the 13th to the 15th.
    CHECK(any_holds(lines(record_with({"{on: 2026-06-11, bay: right, did: emptied the sump}"}), {empty_bay, bay}),
                    "today right 2026-06-13 2026-06-15 empty the sump"));
    CHECK(any_holds(lines(record_with({"{on: 2026-06-14, bay: right, saw: {leachate_flow: steady}}"}), {empty_bay, bay}),
                    "today right 2026-06-14 2026-06-16 empty the sump"));
    CHECK_FALSE(
        any_holds(lines(record_with({"{on: 2026-06-14, bay: right, saw: {leachate_flow: drip}}"}), {empty_bay, bay}), "sump"));
}

TEST_CASE("after a remedy somebody looks again", "[due]") {
    const BayState bay = bed(24);
    const std::string remedy = "{on: 2026-06-10, bay: right, did: lift_sour_part}";
    // Of the causes that ask for it the string of pearls wants a look soonest, after two days: from the 12th to the 14th.
    const auto after = [&](const std::string& seen) { return lines(record_with({remedy, seen}), {empty_bay, bay}); };
    CHECK(any_holds(lines(record_with({remedy}), {empty_bay, bay}), "overdue right 2026-06-12 2026-06-14 look again"));
    CHECK(any_holds(after("{on: 2026-06-11, bay: right, saw: {smell_sour: faint}}"), "look again"));
    CHECK_FALSE(any_holds(after("{on: 2026-06-12, bay: right, saw: {smell_sour: none}}"), "look again"));
    CHECK_FALSE(
        any_holds(lines(record_with({"{on: 2026-05-10, bay: right, did: lift_sour_part}"}), {empty_bay, bay}), "look again"));
    CHECK_FALSE(
        any_holds(lines(record_with({"{on: 2026-06-10, bay: right, did: something else}"}), {empty_bay, bay}), "look again"));
}

TEST_CASE("the advice's feeding instruction takes the place of the ration", "[due]") {
    const RuleBase& base = default_base();
    const Ranker ranker(base);
    Told told;
    for (const char* said : {"stage=worm_bed", "uneaten_layer=over_5cm", "smell_sour=strong", "feed_load=very_heavy"})
        REQUIRE_FALSE(hear_argument(told, base, said));
    const Diagnosis diagnosis = diagnose(ranker, told);
    const TankRecord record = record_with({});
    const Diagnosis* const diagnoses[] = {nullptr, &diagnosis};
    const auto all = due_work(record, TankState{today, {empty_bay, bed(24)}}, base, diagnoses);
    const auto fed =
        std::ranges::find_if(all, [&](const DueWork& due) { return due.step && base.steps[*due.step].kind == StepKind::feed; });
    REQUIRE(fed != all.end());
    CHECK(base.steps[*fed->step].id == "stop_feeding");
    CHECK_FALSE(any_holds(lines_of(record, all), "feed it"));
}

TEST_CASE("what must not be done is not due", "[due]") {
    const RuleBase& base = default_base();
    const Ranker ranker(base);
    const TankRecord record = record_with({"{on: 2026-06-01, bay: left, added: {kitchen waste: 90 kg}}"});
    const auto due_when = [&](std::initializer_list<const char*> said) {
        Told told;
        for (const char* word : said) REQUIRE_FALSE(hear_argument(told, base, word));
        const Diagnosis diagnosis = diagnose(ranker, told);
        const Diagnosis* const diagnoses[] = {&diagnosis, nullptr};
        return due_work(record, TankState{today, {rested(BayStage::resting, 14, 55), empty_bay}}, base, diagnoses);
    };
    // Unknown: first make sure. Seen not to be: nothing to make sure of. Smoke: people first, nothing else.
    const auto turning = [&](std::initializer_list<const char*> said) {
        const auto all = due_when(said);
        const auto found = std::ranges::find_if(all, [](const DueWork& due) { return due.say.starts_with("turn it"); });
        return found == all.end() ? std::string("not due") : found->check_first;
    };
    CHECK(turning({"stage=resting", "bed_temperature=55 °C"}) == "Make sure that nothing smells burnt.");
    CHECK(turning({"stage=resting", "bed_temperature=55 °C", "smell_smoke=no"}).empty());
    CHECK(due_when({"stage=resting", "bed_temperature=55 °C", "smell_smoke=yes"}).empty());
}

TEST_CASE("a bed with worms in it is not harvested, whatever day its harvest would be due", "[due]") {
    BayState fed_no_more = bed(120);
    fed_no_more.harvest_from = today - std::chrono::days(2);
    const TankRecord record = record_with({});
    CHECK_FALSE(any_holds(lines(record, {fed_no_more, empty_bay}), "harvest it"));
    fed_no_more.stage = BayStage::harvest_due;
    CHECK(any_holds(lines(record, {fed_no_more, empty_bay}), "harvest it"));
}

TEST_CASE("what the advice leaves out because it clashes is not due; what merely waits is", "[due]") {
    const RuleBase& base = default_base();
    const Ranker ranker(base);
    const TankRecord record = record_with({"{on: 2026-06-01, bay: left, added: {kitchen waste: 90 kg}}"});
    Diagnosis diagnosis = diagnose(ranker, told_in(base, {"stage=resting", "bed_temperature=55 °C", "smell_smoke=no"}));
    const auto due = [&] {
        const Diagnosis* const diagnoses[] = {&diagnosis, nullptr};
        return due_work(record, TankState{today, {rested(BayStage::resting, 14, 55), empty_bay}}, base, diagnoses);
    };
    const auto turning = [](const std::vector<DueWork>& all) {
        return std::ranges::find_if(all, [](const DueWork& one) { return one.say.starts_with("turn it"); });
    };
    const auto before = due();
    REQUIRE(turning(before) != before.end());
    REQUIRE(turning(before)->step);
    using Why = LeftOutStep::Why;
    for (const auto why : {Why::clash, Why::opposite, Why::never_when, Why::less_urgent, Why::not_sure_enough}) {
        diagnosis.advice.left_out = {{*turning(before)->step, why, "because"}};
        const auto all = due();
        CHECK((turning(all) != all.end()) == (why == Why::less_urgent || why == Why::not_sure_enough));
    }
}

TEST_CASE("the shipped rules have every step that due work knows", "[due]") {
    std::vector<std::string_view> ids(routine::steps_to_do.begin(), routine::steps_to_do.end());
    for (const auto& routine : {routine::turned(), routine::sump_emptied(), routine::left_hungry()})
        ids.insert(ids.end(), routine.steps.begin(), routine.steps.end());
    for (const std::string_view id : ids) {
        CAPTURE(id);
        CHECK(default_base().steps.find(id));
    }
}

TEST_CASE("work in words of its own has the cautions that its words call for", "[due]") {
    BayState ready = at(BayStage::harvest_due);
    ready.harvest_from = today;
    const auto all = due_of(record_with({}), {empty_bay, ready});
    REQUIRE(all.size() == 1);
    CHECK_FALSE(all.front().step);
    REQUIRE(all.front().cautions.size() == 1);
    CHECK(default_base().cautions[all.front().cautions.front()].id == "K15");  // heavy loads, called for by "barrow"
}

TEST_CASE("every step and source that due work names is in the rule base", "[due]") {
    const RuleBase& base = default_base();
    const TankRecord record = record_with({"{on: 2026-06-05, bay: left, added: {kitchen waste: 90 kg}}",
                                           "{on: 2026-06-14, bay: right, saw: {leachate_flow: steady}}"});
    std::vector<std::vector<BayState>> tanks = {{rested(BayStage::resting, 10, 55), bed(24)},
                                                {rested(BayStage::resting, 10, 70), bed(50)},
                                                {rested(BayStage::ready_for_worms, 40, 20), bed(35)},
                                                {at(BayStage::filling), at(BayStage::migrating)},
                                                {empty_bay, bed(20)}};
    tanks[3][1].harvest_from = today;
    tanks[3][1].stage_because = "because";
    for (auto& bays : tanks)
        for (const DueWork& due : due_of(record, bays)) {
            CAPTURE(due.say);
            CHECK_FALSE(due.because.empty());
            CHECK_FALSE(due.sources.empty());
            if (due.step) {
                CHECK(std::ranges::find(routine::steps_to_do, std::string_view(base.steps[*due.step].id)) !=
                      routine::steps_to_do.end());
                for (const auto caution : base.steps[*due.step].cautions)
                    CHECK(std::ranges::find(due.cautions, caution) != due.cautions.end());
            }
            for (const std::string& source : due.sources) {
                CAPTURE(source);
                CHECK((base.sources.find(source) || source.find(' ') != std::string::npos));
            }
        }
}

}  // namespace engine_due_work_test
