// The order of a round, and what each tank of it calls for.
#include "engine/round.hpp"

#include "tests/catch.hpp"
#include "tests/engine/short_rules.hpp"

#include <algorithm>
#include <string>
#include <utility>
#include <vector>

namespace engine_round_test {

using namespace lidlift;
using namespace lidlift::test;

namespace {

const Day today = *read_day("2026-06-15");

const Ranker& default_ranker() {
    static const Ranker ranker(default_base());
    return ranker;
}

TankFile tank(const std::string& name, const std::vector<std::string>& entries) {
    std::string text = "tank: " + name + "\ninside: {length: 2 m, width: 1 m, height: 0.7 m}\n";
    if (!entries.empty()) text += "entries:\n";
    for (const std::string& entry : entries) text += "  - " + entry + "\n";
    TankReading reading = read_tank_record(text, name + ".yaml", default_base());
    TankFile file{name + ".yaml", std::nullopt, std::move(reading.complaints)};
    if (file.complaints.empty()) file.record = std::move(reading.record);
    return file;
}

const std::vector<std::string> well = {
    "{on: 2026-04-01, added: {kitchen waste: 60 kg, dry leaves: 20 kg}}", "{on: 2026-05-10, worms in: 3 kg}",
    "{on: 2026-06-15, added: {kitchen waste: 4 kg}}",
    "{on: 2026-06-15, read: {bed_temperature: 21 °C}, saw: {smell_earthy: yes, squeeze: few_drops, uneaten_layer: under_2cm, "
    "worm_place: in_feed_zone}}"};
std::vector<std::string> with(std::vector<std::string> entries, const std::string& more) {
    entries.push_back(more);
    return entries;
}

std::vector<std::string> names_of(const Round& round) {
    std::vector<std::string> names;
    for (const TankToday& each : round.tanks) names.push_back(each.tank.file);
    return names;
}

}  // namespace

TEST_CASE("the most urgent tank comes first", "[round]") {
    std::vector<TankFile> files;
    files.push_back(tank("a_empty", {}));
    files.push_back(tank("b_well", well));
    files.push_back(tank("c_hungry", {"{on: 2026-05-10, worms in: 3 kg}", "{on: 2026-05-10, added: {kitchen waste: 60 kg}}",
                                      "{on: 2026-06-12, added: {kitchen waste: 4 kg}}",
                                      "{on: 2026-06-15, read: {bed_temperature: 21 °C}, saw: {smell_earthy: yes, squeeze: "
                                      "few_drops, uneaten_layer: under_2cm}}"}));
    files.push_back(tank("d_overdue", {"{on: 2026-06-01, added: {kitchen waste: 60 kg, dry leaves: 20 kg}}",
                                       "{on: 2026-06-14, read: {bed_temperature: 58 °C}}"}));
    files.push_back(
        tank("e_sour", with(well, "{on: 2026-06-15, read: {ph: 4.6}, saw: {smell_sour: strong, potworms: masses}}")));
    files.push_back(tank("f_broken", {"{on: 2026-02-30, did: it}"}));
    files.push_back(
        tank("g_smoke", {"{on: 2026-06-01, added: {kitchen waste: 60 kg}}", "{on: 2026-06-15, saw: {smell_smoke: yes}}"}));
    const Round round = make_round(default_ranker(), {}, std::move(files), today);
    CHECK(names_of(round) == std::vector<std::string>{"g_smoke.yaml", "f_broken.yaml", "e_sour.yaml", "d_overdue.yaml",
                                                      "c_hungry.yaml", "b_well.yaml", "a_empty.yaml"});
    CHECK(round.tanks[0].urgency == Urgency::danger);
    CHECK(round.tanks[0].emergency);
    CHECK(round.tanks[0].due.empty());
    CHECK(round.tanks[1].urgency == Urgency::unreadable);
    CHECK(to_text(round.tanks[1].tank.complaints.front()).starts_with("f_broken.yaml:4:"));
    CHECK(round.tanks[2].urgency == Urgency::likely_cause);
    REQUIRE_FALSE(round.tanks[2].causes.empty());
    CHECK(default_base().causes[round.tanks[2].causes.front().cause].id == "acid_bed");
    CHECK(round.tanks[3].urgency == Urgency::overdue);
    CHECK(round.tanks[4].urgency == Urgency::today);
    CHECK(round.tanks[6].urgency == Urgency::nothing);
}

TEST_CASE("the order of the files changes nothing", "[round]") {
    std::vector<TankFile> files;
    for (const char* name : {"a", "b", "c", "d", "e"})
        files.push_back(tank(name, with(well, *name == 'c' ? "{on: 2026-06-15, saw: {smell_sour: strong}, read: {ph: 4.6}}"
                                                           : "{on: 2026-06-15, note: n}")));
    const auto forwards = names_of(make_round(default_ranker(), {}, files, today));
    std::ranges::reverse(files);
    CHECK(names_of(make_round(default_ranker(), {}, files, today)) == forwards);
    CHECK(forwards.front() == "c.yaml");
}

TEST_CASE("every caution that work or danger of a round needs is gathered, the gravest first", "[round]") {
    const RuleBase& base = default_base();
    std::vector<TankFile> files;
    files.push_back(
        tank("hot", {"{on: 2026-06-01, added: {kitchen waste: 60 kg}}", "{on: 2026-06-14, read: {bed_temperature: 58 °C}}"}));
    files.push_back(
        tank("foul", with(well, "{on: 2026-06-15, saw: {smell_rotten: strong, squeeze: stream, leachate_flow: steady}}")));
    const Round round = make_round(default_ranker(), {}, std::move(files), today);
    for (const TankToday& each : round.tanks)
        for (const DueWork& due : each.due)
            for (const auto caution : due.cautions) {
                CAPTURE(due.say, base.cautions[caution].id);
                CHECK(std::ranges::find(round.cautions, caution) != round.cautions.end());
            }
    CHECK(std::ranges::is_sorted(round.cautions, {}, [&](Handle<Caution> caution) { return base.cautions[caution].level; }));
    REQUIRE_FALSE(round.tanks[0].dangers.empty());
    CHECK(base.cautions[round.tanks[0].dangers.front()].id == "K01");
    CHECK(round.tanks[0].tank.file == "foul.yaml");
}

TEST_CASE("what lies after the day is left out and counted", "[round]") {
    const Round round = make_round(
        default_ranker(), {},
        {tank("a", {"{on: 2026-06-16, added: {kitchen waste: 60 kg}}", "{on: 2026-07-01, saw: {smell_smoke: yes}}"})}, today);
    CHECK(round.tanks.front().ahead == 2);
    CHECK(round.tanks.front().urgency == Urgency::nothing);
}

TEST_CASE("a record that cannot be used is not summed up", "[round]") {
    std::vector<TankFile> files;
    files.push_back(tank("broken", {"{on: never}"}));
    const Round round = make_round(default_ranker(), Site{"S", 3, 5.0, {}}, std::move(files), today);
    CHECK(round.capacity.floor == 0);
    CHECK(round.capacity.load == Loading::too_little_known);
}

}  // namespace engine_round_test
