// "sign=value" as people type it.
#include "engine/answers.hpp"

#include "tests/catch.hpp"
#include "tests/engine/short_rules.hpp"
#include "tests/near.hpp"

#include <string>
#include <vector>

namespace engine_answers_test {

using namespace lidlift;
using namespace lidlift::test;

namespace {

const RuleBase& base() {
    static const RuleBase rules =
        Rules()
            .sign("standing_water", "answers: {yes: {means: water stands}, no: {means: no water stands}}")
            .sign("squeeze",
                  "answers: {crumbles: {means: it falls apart}, few_drops: {means: it gives drops}, streams: {means: it "
                  "streams}}")
            .sign("worm_place",
                  "several at once: yes, answers: {up_walls: {means: up the walls}, in_feed: {means: in the feed}, deep: "
                  "{means: deep down}, "
                  "nowhere: {means: none seen, none of these: yes}}")
            .sign("bed_temperature",
                  "measured in: °C, plausible: -20 to 90, bands: {cold: {below: 10}, right: {below: 28}, warm: {below: 35}, "
                  "deadly: {}}")
            .sign("days_since_feed", "measured in: days, plausible: 0 to 400")
            .sign("ph", "measured in: pH, plausible: 0 to 14")
            .base();
    return rules;
}

const Sign& sign_of(const std::string& id) { return base().signs[base().signs.find(id).value()]; }

Observation heard(const std::vector<std::string>& words) {
    const Told told = told_in(base(), words);
    REQUIRE(told.order.size() == 1);
    const Observation* seen = told.facts.find(told.order.front());
    REQUIRE(seen != nullptr);
    return *seen;
}

std::string fault_of(const std::string& word, const std::vector<std::string>& before = {}) {
    Told told = told_in(base(), before);
    const auto fault = hear_argument(told, base(), word);
    return fault ? fault->text : "no fault";
}

/// The ids of a set of answers.
std::string names(const std::string& sign, AnswerSet answers) {
    std::string text;
    for (std::size_t i = 0; i < sign_of(sign).answers.size(); ++i)
        if ((answers & answer_set(i)) != 0) text += (text.empty() ? "" : " ") + sign_of(sign).answers[i].id;
    return text;
}

std::string as_text(const std::optional<Range>& range) {
    if (!range) return "no number";
    return (range->low_included ? "[" : "(") + std::to_string(range->low) + ", " + std::to_string(range->high) +
           (range->high_included ? "]" : ")");
}

void check_range(const std::string& word, const Range& expected) {
    CAPTURE(word);
    const Observation seen = heard({word});
    REQUIRE(seen.measured.has_value());
    CHECK(seen.measured->low == near(expected.low, 1e-9));
    CHECK(seen.measured->high == near(expected.high, 1e-9));
    CHECK(seen.measured->low_included == expected.low_included);
    CHECK(seen.measured->high_included == expected.high_included);
}

}  // namespace

TEST_CASE("a yes or no is heard", "[answers]") {
    CHECK(names("standing_water", heard({"standing_water=yes"}).possible) == "yes");
    CHECK(names("standing_water", heard({"standing_water=no"}).possible) == "no");
    CHECK(names("standing_water", heard({"standing_water=not yes"}).possible) == "no");
    CHECK(heard({"standing_water=yes"}).from == "you said: standing_water=yes");
}

TEST_CASE("one of several answers is heard, or which it is not", "[answers]") {
    CHECK(names("squeeze", heard({"squeeze=streams"}).possible) == "streams");
    CHECK(names("squeeze", heard({"squeeze=not streams"}).possible) == "crumbles few_drops");
    CHECK(names("squeeze", heard({"squeeze=not streams,not crumbles"}).possible) == "few_drops");
    CHECK(names("squeeze", heard({"squeeze=streams,not crumbles"}).possible) == "streams");
    CHECK(fault_of("squeeze=streams,crumbles").find("exclude one another") != std::string::npos);
    CHECK(fault_of("squeeze=streams,not streams").find("exclude one another") != std::string::npos);
    CHECK(fault_of("squeeze=not streams,not crumbles,not few_drops").find("exclude one another") != std::string::npos);
}

TEST_CASE("several at once are heard, and what was not named stays unknown", "[answers]") {
    const auto check = [](const std::string& word, const std::string& present, const std::string& absent) {
        CAPTURE(word);
        const Observation seen = heard({word});
        CHECK(names("worm_place", seen.present) == present);
        CHECK(names("worm_place", seen.absent) == absent);
    };
    check("worm_place=up_walls", "up_walls", "nowhere");
    check("worm_place=up_walls,deep", "up_walls deep", "nowhere");
    check("worm_place=up_walls,not deep", "up_walls", "deep nowhere");
    check("worm_place=not deep", "", "deep");
    check("worm_place=nowhere", "nowhere", "up_walls in_feed deep");
    CHECK(fault_of("worm_place=nowhere,deep").find("exclude one another") != std::string::npos);
    CHECK(fault_of("worm_place=deep,not deep").find("exclude one another") != std::string::npos);
}

TEST_CASE("letter case, blanks and hyphens in names do not matter", "[answers]") {
    for (const std::string word : {"worm_place=up_walls", "Worm_Place=Up_Walls", "worm place=up walls", "worm-place=up-walls",
                                   " worm_place = up_walls ", "WORM PLACE=UP-WALLS", "worm_place=\tup_walls\t"}) {
        CAPTURE(word);
        CHECK(names("worm_place", heard({word}).present) == "up_walls");
    }
    CHECK(names("squeeze", heard({"squeeze=Not Few Drops"}).possible) == "crumbles streams");
    CHECK(names("worm_place", heard({"worm_place= up walls , not deep "}).absent) == "deep nowhere");
}

TEST_CASE("a number is heard in any unit of its kind", "[answers]") {
    check_range("bed_temperature=31 °C", {31, 31, true, true});
    check_range("bed_temperature=31", {31, 31, true, true});
    check_range("bed_temperature=31C", {31, 31, true, true});
    check_range("bed_temperature=95 °F", {35, 35, true, true});
    check_range("bed_temperature=95F", {35, 35, true, true});
    check_range("bed_temperature=-4 °C", {-4, -4, true, true});
    check_range("days_since_feed=2 weeks", {14, 14, true, true});
    check_range("days_since_feed=36 hours", {1.5, 1.5, true, true});
    check_range("ph=pH 6.5", {6.5, 6.5, true, true});
    check_range("ph=6.5", {6.5, 6.5, true, true});
}

TEST_CASE("a range is heard with one or two units, or with a word", "[answers]") {
    check_range("bed_temperature=28 to 32 °C", {28, 32, true, true});
    check_range("bed_temperature=28 °C to 32 °C", {28, 32, true, true});
    check_range("bed_temperature=28 to 32", {28, 32, true, true});
    check_range("bed_temperature=68 to 95 °F", {20, 35, true, true});
    check_range("bed_temperature=20 °C to 95 °F", {20, 35, true, true});
    check_range("bed_temperature=above 30 °C", {30, 90, false, true});
    check_range("bed_temperature=at least 30", {30, 90, true, true});
    check_range("bed_temperature=below 50 °F", {-20, 10, true, false});
    check_range("bed_temperature=at most 10 °C", {-20, 10, true, true});
    check_range("days_since_feed=1 to 2 weeks", {7, 14, true, true});
}

TEST_CASE("a number tells the band, a range all the bands it meets", "[answers]") {
    const auto bands = [](const std::string& value) {
        return names("bed_temperature", heard({"bed_temperature=" + value}).possible);
    };
    CHECK(bands("9.9") == "cold");
    CHECK(bands("10") == "right");
    CHECK(bands("20 to 30 °C") == "right warm");
    CHECK(bands("28 to 34.9") == "warm");
    CHECK(bands("above 35") == "deadly");
    CHECK(bands("at least 28") == "warm deadly");
    CHECK(bands("below 10") == "cold");
    CHECK(bands("at most 10") == "cold right");
    CHECK(bands("warm") == "warm");
    CHECK(bands("Deadly") == "deadly");
    check_range("bed_temperature=warm", {28, 35, true, false});
}

TEST_CASE("a question mark is asked but not known", "[answers]") {
    for (const std::string word : {"squeeze=?", "bed_temperature=?", "worm_place=?", "standing_water= ? "}) {
        CAPTURE(word);
        const Told told = told_in(base(), {word});
        CHECK(told.facts.known().empty());
        CHECK(told.not_known.size() == 1);
        CHECK(told.order == told.not_known);
    }
    const Told later = told_in(base(), {"squeeze=?", "squeeze=streams"});
    CHECK(later.not_known.empty());
    CHECK(later.order.size() == 1);
    CHECK(later.facts.known().size() == 1);
    const Told earlier = told_in(base(), {"squeeze=streams", "squeeze=?"});
    CHECK(earlier.not_known.empty());
    CHECK(earlier.facts.known().size() == 1);
}

TEST_CASE("how sure the person is stands last", "[answers]") {
    CHECK(heard({"squeeze=streams"}).sureness == Sureness::sure);
    CHECK(heard({"squeeze=streams,sure"}).sureness == Sureness::sure);
    CHECK(heard({"squeeze=streams,unsure"}).sureness == Sureness::unsure);
    CHECK(heard({"squeeze=streams , guess"}).sureness == Sureness::guess);
    CHECK(heard({"worm_place=deep,up_walls,unsure"}).sureness == Sureness::unsure);
    CHECK(heard({"bed_temperature=28 to 32 °C,guess"}).sureness == Sureness::guess);
    // Only "not " denies, not any word of three letters before an answer's name.
    CHECK(fault_of("squeeze=very streams").find("has no answer 'very streams'") != std::string::npos);
    CHECK(fault_of("squeeze=big streams").find("has no answer 'big streams'") != std::string::npos);
    CHECK(fault_of("squeeze=wet").find("has no answer 'wet'") != std::string::npos);
    CHECK(fault_of("squeeze=unsure").find("has no answer 'unsure'") != std::string::npos);
    CHECK(fault_of("squeeze=unsure,streams").find("has no answer 'unsure'") != std::string::npos);
}

TEST_CASE("signs are remembered in the order in which they were told", "[answers]") {
    const Told told = told_in(base(), {"squeeze=streams", "ph=6", "standing_water=?", "squeeze=not crumbles"});
    std::vector<std::string> ids;
    for (const auto sign : told.order) ids.push_back(id_of(base().signs, sign));
    CHECK(ids == std::vector<std::string>{"squeeze", "ph", "standing_water"});
}

TEST_CASE("two answers to one sign count together, in whichever order", "[answers][twice]") {
    const auto both_orders = [](const std::string& one, const std::string& two) {
        const Observation a = heard({one, two});
        const Observation b = heard({two, one});
        CAPTURE(one, two);
        CHECK(a.possible == b.possible);
        CHECK(a.present == b.present);
        CHECK(a.absent == b.absent);
        CHECK(as_text(a.measured) == as_text(b.measured));
        CHECK(a.sureness == b.sureness);
        return a;
    };
    CHECK(names("squeeze", both_orders("squeeze=not streams", "squeeze=not crumbles").possible) == "few_drops");
    CHECK(names("squeeze", both_orders("squeeze=streams", "squeeze=streams").possible) == "streams");
    CHECK(both_orders("squeeze=streams", "squeeze=streams,guess").sureness == Sureness::guess);
    const Observation places = both_orders("worm_place=deep", "worm_place=up_walls,not in_feed");
    CHECK(names("worm_place", places.present) == "up_walls deep");
    CHECK(names("worm_place", places.absent) == "in_feed nowhere");
    CHECK(as_text(both_orders("bed_temperature=28 to 32", "bed_temperature=31").measured) ==
          as_text(Range{31, 31, true, true}));
    CHECK(as_text(both_orders("bed_temperature=warm", "bed_temperature=30").measured) == as_text(Range{30, 30, true, true}));
    const Observation overlap = both_orders("bed_temperature=20 to 30", "bed_temperature=25 to 40");
    CHECK(as_text(overlap.measured) == as_text(Range{25, 30, true, true}));
    CHECK(names("bed_temperature", overlap.possible) == "right warm");
    CHECK(as_text(both_orders("days_since_feed=at least 3", "days_since_feed=below 10").measured) ==
          as_text(Range{3, 10, true, false}));
}

TEST_CASE("two answers that exclude one another are refused, and the first is kept", "[answers][twice]") {
    struct Row {
        std::string first;
        std::string second;
    };
    for (const Row& row : std::vector<Row>{{"standing_water=yes", "standing_water=no"},
                                           {"squeeze=streams", "squeeze=crumbles"},
                                           {"squeeze=streams", "squeeze=not streams"},
                                           {"worm_place=deep", "worm_place=not deep"},
                                           {"worm_place=nowhere", "worm_place=deep"},
                                           {"worm_place=deep", "worm_place=nowhere"},
                                           {"bed_temperature=20", "bed_temperature=21"},
                                           {"bed_temperature=20", "bed_temperature=warm"},
                                           {"bed_temperature=20 to 25", "bed_temperature=26 to 30"},
                                           {"bed_temperature=28 to 32", "bed_temperature=above 32"},
                                           {"days_since_feed=3", "days_since_feed=4"}}) {
        CAPTURE(row.first, row.second);
        Told told = told_in(base(), {row.first});
        const Observation before = *told.facts.find(told.order.front());
        const auto fault = hear_argument(told, base(), row.second);
        REQUIRE(fault.has_value());
        CHECK(fault->text.find("answered twice") != std::string::npos);
        const Observation& after = *told.facts.find(told.order.front());
        CHECK(after.possible == before.possible);
        CHECK(after.present == before.present);
        CHECK(after.measured == before.measured);
        CHECK(after.from == before.from);
    }
}

TEST_CASE("what is not understood is met with the nearest known name", "[answers][fault]") {
    CHECK(fault_of("sqeeze=streams") == "there is no sign 'sqeeze' (did you mean 'squeeze'?)");
    CHECK(fault_of("Squeeeze=streams") == "there is no sign 'Squeeeze' (did you mean 'squeeze'?)");
    CHECK(fault_of("zzzzzz=1") == "there is no sign 'zzzzzz'; `lidlift show signs` lists them");
    CHECK(fault_of("squeeze=stream") == "the sign 'squeeze' has no answer 'stream' (did you mean 'streams'?)");
    CHECK(fault_of("squeeze=few drips") == "the sign 'squeeze' has no answer 'few drips' (did you mean 'few_drops'?)");
    CHECK(fault_of("squeeze=purple") ==
          "the sign 'squeeze' has no answer 'purple' (it takes crumbles, few_drops, streams or ?)");
    CHECK(fault_of("standing_water=maybe") == "the yes/no sign 'standing_water' has no answer 'maybe' (it takes yes, no or ?)");
    CHECK(fault_of("worm_place=deep,up_wall") == "the sign 'worm_place' has no answer 'up_wall' (did you mean 'up_walls'?)");
    CHECK(fault_of("squeeze=") == "'squeeze=' lacks its answer: crumbles, few_drops or streams");
    CHECK(fault_of("squeeze") == "'squeeze' is not of the form sign=value");
}

TEST_CASE("a number that cannot be is refused with what it should be", "[answers][fault]") {
    const auto has = [](const std::string& word, const std::string& part) {
        const std::string fault = fault_of(word);
        CAPTURE(word, fault, part);
        CHECK(fault.find(part) != std::string::npos);
    };
    has("bed_temperature=91", "'bed_temperature' should lie between -20 and 90 °C, but '91' does not");
    has("bed_temperature=-21 °C", "should lie between -20 and 90 °C");
    has("bed_temperature=200 °F", "should lie between -20 and 90 °C");
    has("bed_temperature=32 to 28", "'32 to 28'");
    has("bed_temperature=20 to 99", "should lie between");
    has("bed_temperature=above 99", "should lie between");
    has("bed_temperature=31 kg", "a mass (kg) was given where a temperature (°C) is wanted");
    has("bed_temperature=31 celcius", "did you mean 'celsius'?");
    has("bed_temperature=thirty", "or say cold, right, warm or deadly");
    has("bed_temperature=worm", "bed_temperature");
    has("bed_temperature=31,5", "12.5");
    has("bed_temperature=3e1", "not a plain decimal number");
    has("bed_temperature=inf", "does not begin with a number");
    has("bed_temperature=nan", "does not begin with a number");
    has("bed_temperature=28 to", "bed_temperature");
    has("bed_temperature=above", "bed_temperature");
    has("days_since_feed=-1", "should lie between 0 and 400 days");
}

TEST_CASE("what is refused leaves everything as it was", "[answers][fault]") {
    Told told = told_in(base(), {"squeeze=streams"});
    for (const std::string word :
         {"squeeze=purple", "bed_temperature=900", "nosuch=1", "worm_place=deep,purple", "standing_water="}) {
        CAPTURE(word);
        CHECK(hear_argument(told, base(), word).has_value());
        CHECK(told.order.size() == 1);
        CHECK(told.not_known.empty());
        CHECK(told.facts.known().size() == 1);
    }
}

TEST_CASE("what was said is put into plain words", "[answers][words]") {
    struct Row {
        std::string word;
        std::string expected;
    };
    for (const Row& row : std::vector<Row>{{"squeeze=streams", "it streams"},
                                           {"squeeze=not streams", "not so: it streams"},
                                           {"standing_water=no", "no water stands"},
                                           {"worm_place=up_walls,deep", "up the walls; deep down"},
                                           {"worm_place=not deep", "not so: deep down"},
                                           {"bed_temperature=31 °C", "31 °C"},
                                           {"bed_temperature=28 to 32", "28 to 32 °C"},
                                           {"days_since_feed=1", "1 day"},
                                           {"ph=6.5", "pH 6.5"},
                                           {"squeeze=streams,unsure", "it streams (not sure)"},
                                           {"squeeze=streams,guess", "it streams (a guess)"}}) {
        CAPTURE(row.word);
        CHECK(in_words(sign_of(row.word.substr(0, row.word.find('='))), heard({row.word})) == row.expected);
    }
}

}  // namespace engine_answers_test
