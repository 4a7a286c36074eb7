// Answers in a YAML file: its shapes, and the places of its mistakes.
#include "engine/answers.hpp"
#include "tests/catch.hpp"
#include "tests/engine/short_rules.hpp"

#include <string>
#include <vector>

namespace engine_answer_files_test {

using namespace lidlift;
using namespace lidlift::test;

namespace {

const RuleBase& base() {
    static const RuleBase rules =
        Rules()
            .sign("rain")
            .sign("squeeze", "answers: {crumbles: {means: c}, drops: {means: d}, streams: {means: s}}")
            .sign("places", "several at once: yes, answers: {walls: {means: w}, deep: {means: d}, feed: {means: f}}")
            .sign("heat", "measured in: °C, plausible: -20 to 90, bands: {cold: {below: 10}, warm: {}}")
            .base();
    return rules;
}

struct Heard {
    Told told;
    std::string complaints;
};

Heard heard(const std::string& text) {
    Heard result;
    Complaints complaints;
    hear_file(result.told, base(), text, "told.yaml", complaints);
    for (const Complaint& complaint : complaints.sorted()) result.complaints += to_text(complaint) + "\n";
    return result;
}

Observation seen_in(const std::string& text, const std::string& sign) {
    const Heard result = heard(text);
    CHECK(result.complaints == "");
    const Observation* seen = result.told.facts.find(base().signs.find(sign).value());
    REQUIRE(seen != nullptr);
    return *seen;
}

}  // namespace

TEST_CASE("a file says sign: value", "[answers][file]") {
    const Heard result =
        heard("note: said on the phone\nsigns:\n  rain: yes\n  squeeze: streams\n  heat: 31 °C\n  places: [walls, deep]\n");
    CHECK(result.complaints == "");
    CHECK(result.told.order.size() == 4);
    CHECK(result.told.facts.known().size() == 4);
    CHECK(result.told.facts.find(base().signs.find("squeeze").value())->from == "the file says: squeeze=streams");
}

TEST_CASE("every shape of an answer in a file means what it means after sign=", "[answers][file]") {
    struct Row {
        std::string sign;
        std::string in_file;
        std::string typed;
    };
    for (const Row& row :
         std::vector<Row>{{"rain", "yes", "yes"},
                          {"rain", "'yes'", "yes"},
                          {"squeeze", "not streams", "not streams"},
                          {"squeeze", "[not streams, not crumbles]", "not streams,not crumbles"},
                          {"squeeze", "{is: streams}", "streams"},
                          {"squeeze", "{is: streams, sure: unsure}", "streams,unsure"},
                          {"squeeze", "{is: [not streams, not drops], sure: guess}", "not streams,not drops,guess"},
                          {"squeeze", "{is: streams, sure: sure}", "streams"},
                          {"squeeze", "\"streams, unsure\"", "streams,unsure"},
                          {"places", "[walls, deep]", "walls,deep"},
                          {"places", "[walls]", "walls"},
                          {"places", "{is: [walls, not deep], sure: unsure}", "walls,not deep,unsure"},
                          {"heat", "31", "31"},
                          {"heat", "28 to 32 °C", "28 to 32 °C"},
                          {"heat", "{is: 88 °F, sure: guess}", "88 °F,guess"},
                          {"heat", "warm", "warm"}}) {
        CAPTURE(row.sign, row.in_file);
        const Observation seen = seen_in("signs:\n  " + row.sign + ": " + row.in_file + "\n", row.sign);
        const Told told = told_in(base(), {row.sign + "=" + row.typed});
        const Observation& expected = *told.facts.find(told.order.front());
        CHECK(seen.possible == expected.possible);
        CHECK(seen.present == expected.present);
        CHECK(seen.absent == expected.absent);
        CHECK(seen.measured == expected.measured);
        CHECK(seen.sureness == expected.sureness);
    }
}

TEST_CASE("a question mark in a file is asked but not known", "[answers][file]") {
    const Heard result = heard("signs:\n  squeeze: '?'\n  heat: {is: '?'}\n");
    CHECK(result.complaints == "");
    CHECK(result.told.not_known.size() == 2);
    CHECK(result.told.facts.known().empty());
}

TEST_CASE("names in a file may have blanks, hyphens and capitals", "[answers][file]") {
    CHECK(heard("signs:\n  Rain: YES\n  squeeze: Streams\n").complaints == "");
}

TEST_CASE("every mistake in an answer file is told with its place", "[answers][file]") {
    struct Row {
        std::string text;
        std::string complaints;
    };
    for (const Row& row : std::vector<Row>{
             {"signs:\n  sqeeze: streams\n", "told.yaml:2:3: there is no sign 'sqeeze' (did you mean 'squeeze'?)\n"},
             {"signs:\n  squeeze: straems\n",
              "told.yaml:2:12: the sign 'squeeze' has no answer 'straems' (did you mean 'streams'?)\n"},
             {"signs:\n  squeeze: {is: straems}\n",
              "told.yaml:2:12: the sign 'squeeze' has no answer 'straems' (did you mean 'streams'?)\n"},
             {"signs:\n  heat: 900\n",
              "told.yaml:2:9: 'heat' should lie between -20 and 90 °C, but '900' does not; check the unit\n"},
             {"signs:\n  squeeze: {is: streams, sure: maybe}\n",
              "told.yaml:2:32: 'maybe' is not one of: sure, unsure or guess\n"},
             {"signs:\n  squeeze: {sure: unsure}\n", "told.yaml:2:12: the answer for 'squeeze' lacks the key 'is'\n"},
             {"signs:\n  rain: yes\n  rain: no\n",
              "told.yaml:3:3: the key 'rain' is given twice (first in line 2, column 3)\n"},
             {"signs:\n  rain: yes\n  Rain: no\n",
              "told.yaml:3:9: 'rain' is answered twice, and the answers exclude one another\n"},
             {"sings:\n  rain: yes\n",
              "told.yaml:1:1: an answer file lacks the key 'signs'\ntold.yaml:1:1: unknown key 'sings' in an answer file (did "
              "you mean 'signs'?)\n"},
             {"signs: [rain]\n", "told.yaml:1:8: 'signs' should be a map, one line for each sign: 'squeeze: streams'\n"},
             {"- rain\n", "told.yaml:1:1: an answer file should be a map of keys, but is a list\n"},
             {"signs:\n  squeeze: &a streams\n",
              "told.yaml:2:12: anchors ('&name') and aliases ('*name') are not taken (write the text out where it is "
              "needed)\n"}}) {
        CAPTURE(row.text);
        CHECK(heard(row.text).complaints == row.complaints);
    }
}

TEST_CASE("all mistakes of an answer file are told in one go, and the rest is heard", "[answers][file]") {
    const Heard result = heard("signs:\n  sqeeze: streams\n  heat: 900\n  rain: yes\n  places: [walls, depe]\n");
    CHECK(result.complaints ==
          "told.yaml:2:3: there is no sign 'sqeeze' (did you mean 'squeeze'?)\n"
          "told.yaml:3:9: 'heat' should lie between -20 and 90 °C, but '900' does not; check the unit\n"
          "told.yaml:5:11: the sign 'places' has no answer 'depe' (did you mean 'deep'?)\n");
    CHECK(result.told.facts.known().size() == 1);
}

TEST_CASE("an answer of several keys has is and sure, and no other", "[answers][file]") {
    const Heard heard_it = heard("signs: {squeeze: {is: streams, shure: guess}}");
    CHECK(heard_it.complaints.find("unknown key 'shure'") != std::string::npos);
    CHECK(heard_it.complaints.find("told.yaml:1:32") != std::string::npos);
}

}  // namespace engine_answer_files_test
