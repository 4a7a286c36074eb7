// `lidlift handover`: one sheet about a recorded call, as text, as a page to print, as JSON.
#include "tests/catch.hpp"
#include "tests/cli/program.hpp"

#include <algorithm>
#include <cmath>
#include <regex>
#include <stdexcept>
#include <string>
#include <vector>

#include <nlohmann/json.hpp>

namespace cli_handover_test {

using namespace lidlift::test;
using Json = nlohmann::ordered_json;

namespace {

const std::string head = R"(call:
  state: STATE
  begun: 2026-03-09 14:05:12
  rule base: "lidlift default rules"
  version: "2026.11"
)";

const std::string words = R"(  - when: 2026-03-09 14:05:40
    words: "it reeks of rotten eggs and the bed is dripping wet"
    heard:
      - {sign: smell_rotten, is: "strong", from: "reeks of rotten eggs"}
      - {sign: squeeze, is: "stream", from: "dripping wet"}
  - when: 2026-03-09 14:06:31
    asked: drain
    words: "1, unsure"
    heard:
      - {sign: drain, is: "blocked", sure: unsure}
  - when: 2026-03-09 14:06:50
    asked: texture
    words: "don't know"
    heard:
      - {sign: texture, is: "?"}
)";

/// What is advised on `words` by the default rules, as `lidlift ask` records it.
const std::string advised = R"(  - when: 2026-03-09 14:07:20
    advised:
      because: said to stop
      causes: [{cause: blocked_drain, chance: 0.8900}]
      nothing listed: 0.0100
      steps: [STEPS]
      cautions: [CAUTIONS]
)";

std::string replaced(std::string text, const std::string& what, const std::string& with) {
    const auto at = text.find(what);
    if (at == std::string::npos) throw std::runtime_error("there is no " + what);
    return text.replace(at, what.size(), with);
}

std::string call(const std::string& course, const std::string& state = "open") {
    return replaced(head, "STATE", state) + (course.empty() ? "course: []\n" : "course:\n" + course);
}

Json as_json(const std::string& record, const std::vector<std::string>& more = {}) {
    std::vector<std::string> arguments = {"handover", "-", "--json"};
    arguments.insert(arguments.end(), more.begin(), more.end());
    const Run run = lidlift::test::run(arguments, record);
    CAPTURE(run.err, run.out);
    REQUIRE(run.exit == 0);
    return Json::parse(run.out);
}

/// The advice that the default rules give today, written as it would have been recorded.
std::string advised_as_today() {
    const Json today = as_json(call(words));
    const auto names = [&](const char* key) {
        std::string list;
        for (const Json& one : today.at(key)) list += (list.empty() ? "" : ", ") + one.at("id").get<std::string>();
        return list;
    };
    return replaced(replaced(advised, "STEPS", names("steps")), "CAUTIONS", names("cautions"));
}

std::string text_of(const std::string& record, const std::vector<std::string>& more = {}) {
    std::vector<std::string> arguments = {"handover", "-"};
    arguments.insert(arguments.end(), more.begin(), more.end());
    const Run run = lidlift::test::run(arguments, record);
    check_answer(run);
    return run.out;
}

std::string html_of(const std::string& record, const std::vector<std::string>& more = {}) {
    std::vector<std::string> arguments = {"--html"};
    arguments.insert(arguments.end(), more.begin(), more.end());
    return text_of(record, arguments);
}

/// Every match of the first group.
std::vector<std::string> all_of(const std::string& text, const std::string& pattern) {
    const std::regex expression(pattern);
    std::vector<std::string> result;
    for (auto at = std::sregex_iterator(text.begin(), text.end(), expression); at != std::sregex_iterator(); ++at)
        result.push_back((*at)[1]);
    return result;
}

}  // namespace

TEST_CASE("the sheet of a call says all that whoever goes there needs, cautions first", "[cli][handover]") {
    const std::string text = text_of(call(words));
    std::size_t last = 0;
    for (const char* part : {"HANDOVER OF A CALL", "Begun on 2026-03-09 14:05", "READ FIRST", "A STOP gas in pits",
                             "WHAT WAS SAID", "\"it reeks of rotten eggs and the bed is dripping wet\"",
                             "- drain: the drain is blocked (not sure)", "- asked, but not known: texture of the bed",
                             "WHAT IT PROBABLY IS, AND WHY", "The drain is blocked, or there is none - ", "together, in points",
                             "Something not on the list, or nothing wrong: ", "WHAT TO DO", "Now\n[ ] ", "DO NOT\n- ",
                             "LOOK AGAIN ON 2026-03-10\n", "Local rules, and the people licensed"}) {
        CAPTURE(part);
        const auto at = text.find(part);
        REQUIRE(at != std::string::npos);
        CHECK(at >= last);
        last = at;
    }
    CHECK(holds(unwrapped(text), "Clear the outlet from outside with a rod"));
    CHECK(holds(unwrapped(text), "How much: "));
    for (const std::string& mark : all_of(unwrapped(text), " Mind ([A-Z](?:, [A-Z])*)\\."))
        CHECK(text.find(std::string("\n") + mark.substr(0, 1) + " ") < text.find("WHAT TO DO"));
}

TEST_CASE("a sheet of text keeps to its page and says what it leaves out", "[cli][handover]") {
    const std::string short_call = call(R"(  - when: 2026-03-09 14:05:40
    words: "worms up the walls, they came the day before yesterday"
    heard:
      - {sign: worm_place, is: "up_walls_lid"}
      - {sign: days_since_worms, is: "2 days"}
      - {sign: rain_entry, is: "no"}
)");
    const std::string text = text_of(short_call);
    CHECK(std::count(text.begin(), text.end(), '\n') <= 66);
    CHECK_FALSE(holds(text, "Left out"));
    CHECK(text == text_of(short_call, {"--full"}));
    // A call with many steps is cut; no caution is.
    const std::string cut = text_of(call(words));
    const std::string full = text_of(call(words), {"--full"});
    CHECK(holds(unwrapped(cut), "Left out for want of room: "));
    CHECK(holds(unwrapped(cut), "They stand in: lidlift handover --full CALL_FILE"));
    CHECK_FALSE(holds(full, "Left out"));
    CHECK(std::count(cut.begin(), cut.end(), '\n') + 20 < std::count(full.begin(), full.end(), '\n'));
    const auto cautions = [](const std::string& page) {
        return page.substr(page.find("READ FIRST"), page.find("WHAT WAS SAID") - page.find("READ FIRST"));
    };
    CHECK(cautions(cut) == cautions(full));
    CHECK(all_of(cut, "\n([A-Z]) (?:STOP|CARE|NOTE) ").size() == as_json(call(words)).at("cautions").size());
}

TEST_CASE("the printed page is self-contained, and can be read without colour and by a screen reader", "[cli][handover]") {
    const std::string page = html_of(call(words));
    CHECK(page.starts_with("<!DOCTYPE html>\n<html lang=\"en-GB\">"));
    CHECK(holds(page, "http-equiv=\"Content-Security-Policy\" content=\"default-src 'none'; style-src 'unsafe-inline'"));
    for (const char* never : {"<script", "javascript:", "src=", "url(", "@import", "<link", "<iframe", "http:", "https:"})
        CHECK_FALSE(holds(page, never));
    // Cautions, then what was said, then what to do, each under its heading.
    CHECK(page.find("<h2 id=\"first\">") < page.find("<h2 id=\"said\">"));
    CHECK(page.find("<h2 id=\"said\">") < page.find("<h2 id=\"causes\">"));
    CHECK(page.find("<h2 id=\"causes\">") < page.find("<h2 id=\"steps\">"));
    CHECK(page.rfind("id=\"caution-") < page.find("type=\"checkbox\""));
    for (const std::string& id : all_of(page, "aria-labelledby=\"([^\"]*)\"")) CHECK(holds(page, "<h2 id=\"" + id + "\">"));
    for (const std::string& mark : all_of(page, "href=\"#caution-([A-Z]+)\""))
        CHECK(holds(page, "id=\"caution-" + mark + "\""));
    // Every box has its label, every bar its number.
    CHECK(all_of(page, "(<input type=\"checkbox\")").size() == all_of(page, "(<label><input type=\"checkbox\")").size());
    CHECK(all_of(page, "(<svg )").size() == all_of(page, "<span>([-+]\\d+)</span><svg [^>]*aria-hidden=\"true\"").size());
    // No letters smaller than 9 points, on paper of any size.
    const double letters = std::stod(all_of(page, "--letters: ([0-9.]+)pt").at(0));
    CHECK(letters >= 9);
    CHECK(letters <= 11);
    for (const std::string& size : all_of(page, "font-size: ([0-9.]+)em")) CHECK(std::stod(size) >= 1);
    CHECK_FALSE(std::regex_search(page, std::regex("@page[^}]*size")));
    // On a narrow screen there are no columns at all: a break before one of them would push the steps out of sight.
    CHECK(holds(page, ".columns, .cautions ul { columns: auto; }"));
}

TEST_CASE("the balance of a sheet adds up, in every format", "[cli][handover]") {
    for (const std::string& table : all_of(html_of(call(words)), "<table>([^]*?)</table>")) {
        const auto foot = table.find("<tfoot>");
        int sum = 0;
        for (const std::string& number : all_of(table.substr(0, foot), "<span>([-+]\\d+)</span>")) sum += std::stoi(number);
        CHECK(sum == std::stoi(all_of(table.substr(foot), "<span>([-+]\\d+)</span>").at(0)));
    }
    const std::string text = text_of(call(words));
    int sum = 0;
    std::size_t totals = 0;
    for (const std::string& line :
         all_of(text.substr(text.find("WHAT IT PROBABLY IS")), "\n(  [^\n]* [-+]* +[-+]\\d+)(?=\n)")) {
        const int points = std::stoi(all_of(line, " ([-+]\\d+)$").at(0));
        if (!holds(line, "together, in points")) {
            sum += points;
            continue;
        }
        CHECK(sum == points);
        sum = 0;
        ++totals;
    }
    CHECK(totals >= 1);
    const Json document = as_json(call(words));
    for (const Json& cause : document.at("causes")) {
        double decibans = 0;
        for (const Json& line : cause.at("balance")) decibans += line.at("decibans").get<double>();
        const double chance = cause.at("chance");
        CHECK(decibans == Approx(10 * std::log10(chance / (1 - chance))).margin(0.05));
    }
}

TEST_CASE("the JSON of a sheet is that of why, after what the record says", "[cli][handover]") {
    const Json sheet = as_json(call(words + advised_as_today()));
    CHECK(sheet.begin().key() == "call");
    const Json why = Json::parse(
        lidlift::test::run({"why", "--json", "smell_rotten=strong", "squeeze=stream", "drain=blocked,unsure", "texture=?"})
            .out);
    for (const char* key : {"causes", "cautions", "steps", "do_not", "left_out", "ask_next", "nothing_listed"})
        CHECK(sheet.at(key) == why.at(key));
    std::vector<std::string> keys;
    for (const auto& [key, value] : sheet.items()) keys.push_back(key);
    CHECK(std::find(keys.begin(), keys.end(), "cautions") < std::find(keys.begin(), keys.end(), "steps"));
    std::vector<std::string> cautions;
    for (const Json& caution : sheet.at("cautions")) cautions.push_back(caution.at("id"));
    for (const Json& step : sheet.at("steps"))
        for (const std::string id : step.at("cautions"))
            CHECK(std::find(cautions.begin(), cautions.end(), id) != cautions.end());
    const Json& about = sheet.at("call");
    CHECK(about.at("stage") == "advised");
    CHECK(about.at("advised") == "2026-03-09 14:07:20");
    CHECK(about.at("look_again") == "2026-03-10 14:07:20");
    CHECK(about.at("confirmed") == nullptr);
    CHECK(about.at("own_words").at(0).at("words") == "it reeks of rotten eggs and the bed is dripping wet");
    CHECK(about.at("recorded_under").at("other") == false);
    CHECK(about.at("since_the_advice").at("steps_new").empty());
}

TEST_CASE("how a call stands is shown truly", "[cli][handover]") {
    const std::string advice = advised_as_today();
    std::string text = text_of(call(words));
    CHECK(holds(unwrapped(text), "Open: it was broken off before anything was advised."));
    text = text_of(call(words + advice));
    CHECK(holds(unwrapped(text), "Open: advice was given on 2026-03-09 14:07, and nobody has called again."));
    CHECK_FALSE(holds(text, "! "));

    const std::string worse = advice +
                              "  - {when: 2026-03-11 09:00, follow up: {done: partly}}\n"
                              "  - {when: 2026-03-11 09:01, follow up: {helped: worse}}\n";
    text = text_of(call(words + worse));
    CHECK(holds(unwrapped(text), "Open: advice was given on 2026-03-09 14:07, and the call was taken up again."));
    CHECK(holds(unwrapped(text), "A part of what was advised was done. It is worse."));
    CHECK(holds(text, "LOOK AGAIN ON 2026-03-10"));

    // What is new counts, in the words of the day, and the day to look again is counted from then.
    const std::string news = worse +
                             "  - when: 2026-03-11 09:05\n    news: \"the drain runs again, the worms are on the lid\"\n"
                             "    heard:\n      - {sign: drain, is: \"clear\"}\n"
                             "      - {sign: worm_place, is: \"up_walls_lid\"}\n";
    text = text_of(call(words + news));
    CHECK(holds(unwrapped(text), "On 2026-03-11: \"the drain runs again, the worms are on the lid\""));
    CHECK_FALSE(holds(text, "the drain is blocked (not sure)"));
    CHECK(
        holds(unwrapped(text), "! More was said after the advice. The advice differs (first cause then 'The drain is blocked"));
    CHECK_FALSE(holds(text, "LOOK AGAIN ON 2026-03-10"));

    const std::string closing = advice +
                                "  - {when: 2026-03-12 09:10:00, follow up: {done: all}}\n"
                                "  - {when: 2026-03-12 09:10:08, follow up: {helped: solved}}\n";
    text = text_of(
        call(words + closing + "  - {when: 2026-03-12 09:10, confirmed: {causes: [blocked_drain], how: seen}}\n", "closed"));
    CHECK(holds(unwrapped(text),
                "Closed on 2026-03-12 09:10. All that was advised was done. It is solved: all is well now. "
                "In the end it was 'The drain is blocked, or there is none' (it was seen)."));
    CHECK(holds(text, "WHAT THE ANSWERS SPEAK FOR, AND WHY"));
    CHECK(holds(text, "WHAT TO DO IF IT COMES BACK"));
    CHECK_FALSE(holds(text, "LOOK AGAIN"));
    CHECK_FALSE(holds(text, "STILL WORTH"));
    CHECK_FALSE(holds(text, "lidlift show causes"));

    text = text_of(
        call(words + closing + "  - {when: 2026-03-12 09:10, confirmed: {causes: [overwatered], how: guess}}\n", "closed"));
    CHECK(holds(unwrapped(text), "(a guess)."));
    CHECK(holds(unwrapped(text), "for what it was in the end see: lidlift show causes overwatered"));
    text = text_of(call(words + closing + "  - {when: 2026-03-12 09:10, confirmed: {causes: []}}\n", "closed"));
    CHECK(holds(unwrapped(text), "In the end it was nothing that is listed (how that is known was not said)."));
    text =
        text_of(call(words + closing + "  - {when: 2026-03-12 09:10, confirmed: {causes: [gnomes], how: seen}}\n", "closed"));
    CHECK(holds(unwrapped(text), "In the end it was 'gnomes', which these rules do not know"));
    text = text_of(call(words + closing, "closed"));
    CHECK(holds(unwrapped(text), "What it was in the end was not said."));
    const Json json = as_json(
        call(words + closing + "  - {when: 2026-03-12 09:10, confirmed: {causes: [blocked_drain], how: remedy worked}}\n",
             "closed"));
    CHECK(json.at("call").at("stage") == "closed");
    CHECK(json.at("call").at("helped") == "solved");
    CHECK(json.at("call").at("confirmed").at("how") == "remedy worked");
}

TEST_CASE("what was taken back or put right does not stand on the sheet as said", "[cli][handover]") {
    std::string text = text_of(call(words + "  - {when: 2026-03-09 14:06:55, back: yes}\n"));
    CHECK_FALSE(holds(text, "not known"));
    text = text_of(call(words + "  - when: 2026-03-09 14:06:58\n    changed: drain\n    words: \"2\"\n    heard:\n"
                                "      - {sign: drain, is: \"clear\"}\n"));
    CHECK_FALSE(holds(text, "the drain is blocked"));
    CHECK(holds(text, "- drain: "));
}

TEST_CASE("the sheet says where the rules or the advice are others than then", "[cli][handover]") {
    const std::string other = replaced(call(words + advised_as_today()), "2026.11", "2019.1");
    CHECK(holds(unwrapped(text_of(other)),
                "! The call was recorded under the rules 'lidlift default rules' 2019.1; this sheet goes by 'lidlift default "
                "rules' 2026.11; the advice is the same."));
    const std::string differs = call(
        words + replaced(replaced(replaced(advised, "STEPS", "step_of_old"), "CAUTIONS", "K99"), "blocked_drain", "old_cause"));
    const std::string text = unwrapped(text_of(differs));
    CHECK(holds(text,
                "! The advice differs from what was said then (first cause then 'old_cause', which these rules do not know, "
                "now 'The drain is blocked, or there is none'; steps: "));
    CHECK(holds(text, " new, 1 gone; cautions: "));
    CHECK(as_json(differs).at("call").at("since_the_advice").at("steps_gone") == Json({"step_of_old"}));
    const std::string misfit =
        replaced(call(words), "{sign: smell_rotten, is: \"strong\"", "{sign: smell_of_old, is: \"strong\"");
    CHECK(holds(unwrapped(text_of(misfit)), "! Recorded answers that these rules cannot use: smell_of_old=strong: "));
}

TEST_CASE("a call about a tank is handed over with what its record tells", "[cli][handover]") {
    const std::string tank = LIDLIFT_TESTS_FOLDER "/../examples/quince_lane/tank_6_orchard.yaml";
    const auto about = [&](const std::string& path) {
        return replaced(replaced(call(words), "2026-03-09 14:05:12", "2026-06-15 14:05:12"), "\ncourse",
                        "\n  tank: \"" + path + "\"\ncourse");
    };
    std::string record = about(tank);
    for (auto at = record.find("2026-03-09"); at != std::string::npos; at = record.find("2026-03-09"))
        record.replace(at, 10, "2026-06-15");
    const std::string text = text_of(record);
    CHECK(holds(text, "BY ITS RECORD ON 2026-06-15"));
    CHECK(holds(unwrapped(text), "This bay because "));
    CHECK(as_json(record).at("tank").at("on") == "2026-06-15");
    CHECK(as_json(record).at("steps").at(0).at("amount_measured") != nullptr);
    const std::string left = text_of(record, {"--bay", "left"});
    CHECK(holds(unwrapped(left), "you named it"));
    check_error(lidlift::test::run({"handover", "-", "--bay", "middle"}, record), 2, "has no bay 'middle'");

    // Where the record cannot be read, the sheet says so and goes without it.
    for (const std::string& gone : {std::string("/nowhere/tank.yaml"), std::string("-")}) {
        const Run run = lidlift::test::run({"handover", "-"}, about(gone));
        CHECK(run.exit == 0);
        CHECK(holds(run.err, "the sheet goes without what the tank's record tells"));
        CHECK(holds(unwrapped(run.out), "whose record could not be read ('" + gone + "')"));
    }
    CHECK(holds(lidlift::test::run({"handover", "-", "--tank", tank}, about("/nowhere/tank.yaml")).out, "BY ITS RECORD ON"));
    check_error(lidlift::test::run({"handover", "-", "--tank", "/nowhere/tank.yaml"}, about(tank)), 3, "/nowhere/tank.yaml");
}

TEST_CASE("in an emergency the sheet puts people first and diagnoses nothing", "[cli][handover]") {
    const std::string record = call(R"(  - when: 2026-03-09 14:05:40
    words: "somebody lies in the pit"
    heard:
      - {sign: person_symptom, is: "collapsed"}
      - {sign: smell_rotten, is: "strong"}
)");
    const std::string text = text_of(record);
    CHECK(text.find("A STOP") < text.find("People first. Nothing else matters"));
    for (const char* never : {"AND WHY", "DO NOT\n", "LOOK AGAIN", "STILL WORTH"}) CHECK_FALSE(holds(text, never));
    const std::string page = html_of(record);
    CHECK(page.find("id=\"caution-A\"") < page.find("People first."));
    CHECK_FALSE(holds(page, "<table>"));
}

TEST_CASE("a danger that nobody could tell of goes on to whoever takes the call over", "[cli][handover]") {
    const std::string unknown = R"(  - when: 2026-03-09 14:07:05
    safety: [entry_planned]
    words: "don't know"
    heard:
      - {sign: entry_planned, is: "?"}
)";
    const std::string before_anything =
        "Find this out before anything else is done: Does anyone mean to lean or climb into a pit";
    const std::string text = unwrapped(text_of(call(words + unknown)));
    CHECK(holds(text, before_anything));
    CHECK(text.find(before_anything) < text.find("READ FIRST"));
    CHECK(holds(unwrapped(html_of(call(words + unknown))), before_anything));
    CHECK_FALSE(holds(unwrapped(text_of(call(words))), "before anything else is done"));
}

TEST_CASE("where somebody is hurt the sheet and the page say so before they speak of the bed", "[cli][handover]") {
    const std::string record = call(R"(  - when: 2026-03-09 14:05:40
    words: "I splashed lime in my eye"
    heard:
      - {sign: person_symptom, is: "eye_skin_irritation"}
)");
    CHECK(holds(text_of(record), "See to the people first. The bed can wait."));
    for (const char* hurt : {"person_symptom=eye_skin_irritation", "person_symptom=wound", "person_symptom=swallowed"}) {
        const Run run = lidlift::test::run({"why", hurt, "squeeze=few_drops"});
        CAPTURE(hurt);
        CHECK(holds(run.out, "IN SHORT\nSee to the people first. The bed can wait."));
    }
    CHECK_FALSE(holds(lidlift::test::run({"why", "smell_rotten=strong"}).out, "See to the people first"));
    CHECK_FALSE(holds(lidlift::test::run({"why", "person_symptom=none", "squeeze=few_drops"}).out, "See to the people first"));
}

TEST_CASE("a call in which nothing was said has its sheet, too", "[cli][handover]") {
    const std::string text = text_of(call(""));
    CHECK(holds(text, "Nothing was said yet that could be used."));
    CHECK(holds(text, "STILL WORTH FINDING OUT"));
    CHECK(holds(html_of(call("")), "Nothing was said yet that could be used."));
    CHECK(holds(text_of(call(words + "  - {when: 2026-03-09 14:07, asked: stage, words: \"not a worm\"}\n")), "WHAT TO DO"));
}

TEST_CASE("telephone numbers and addresses do not reach the sheet", "[cli][handover]") {
    const std::string record =
        replaced(call(words), "dripping wet\"\n", "dripping wet, ring 0123 456 7890 or me@example.org\"\n");
    for (const std::string& page : {text_of(record), html_of(record), as_json(record).dump()}) {
        CHECK_FALSE(holds(page, "456 7890"));
        CHECK_FALSE(holds(page, "example.org"));
        CHECK(holds(page, "left out)"));
    }
}

TEST_CASE("whatever a call file says, none of it becomes a mark or a control", "[cli][handover]") {
    const std::string hostile =
        GENERATE(std::string("<script>alert(1)</script>"), std::string("\\\"><img src=x onerror=alert(1)>"),
                 std::string("' onmouseover='alert(1)"), std::string("</style></title><!-- --><![CDATA["),
                 std::string("&lt;b&gt; &amp; &#60;"), std::string("\\u202etxet \\u2066"), std::string("\\e[31mred\\a"),
                 std::string(900, 'x'), std::string("\xF0\x9F\xAA\xB1 \xE6\xBC\xA2"));
    const std::string record =
        "call:\n  state: open\n  begun: 2026-03-09 14:05:12\n  rule base: \"" + hostile + "\"\n  version: \"" + hostile +
        "\"\n  tank: \"" + hostile + "\"\ncourse:\n  - when: 2026-03-09 14:05:40\n    words: \"" + hostile +
        "\"\n    heard:\n      - {sign: smell_rotten, is: \"" + hostile + "\", from: \"" + hostile +
        "\"}\n      - {sign: squeeze, is: \"stream\", from: \"" + hostile + "\"}\n" +
        "  - when: 2026-03-09 14:06:31\n    asked: drain\n    words: \"" + hostile +
        "\"\n    heard:\n      - {sign: drain, is: \"blocked\"}\n  - when: 2026-03-09 14:06:40\n    news: \"" + hostile +
        "\"\n";
    for (const char* format : {"--full", "--html", "--json"}) {
        CAPTURE(format, hostile);
        const Run run = lidlift::test::run({"handover", "-", format}, record);
        CHECK((run.exit == 0 || run.exit == 2));
        CHECK(is_tame(run.err));
        CHECK(is_tame(run.out));
        if (std::string(format) == "--json") {
            if (run.exit == 0) CHECK_NOTHROW(Json::parse(run.out));
            continue;
        }
        if (std::string(format) == "--full") continue;
        for (const char* never : {"<script", "<img", " onmouseover='", "</style></title><!", "<![CDATA"})
            CHECK_FALSE(holds(run.out, never));
        CHECK(all_of(run.out, "(</style>)").size() == (run.exit == 0 ? 1 : 0));
    }
}

TEST_CASE("a call file that cannot be used is complained of with its place", "[cli][handover]") {
    check_error(lidlift::test::run({"handover", "-"}, replaced(call(words), "asked: drain", "askd: drain")), 2,
                "standard input:13:5: ");
    check_error(lidlift::test::run({"handover", "-"}, replaced(call(words), "state: open", "state: opne")), 2, "'opne'");
    check_error(lidlift::test::run({"handover", "-", "--html"}, "signs: {squeeze: stream}\n"), 2, "standard input:1:1: ");
    check_error(lidlift::test::run({"handover", "-"}, ""), 2, "standard input");
    check_error(lidlift::test::run({"handover", "/nowhere/call.yaml"}), 3, "/nowhere/call.yaml");
    check_error(lidlift::test::run({"handover", "-", "--html", "--json"}, call(words)), 2, "--html and --json");
    check_error(lidlift::test::run({"handover", "-", "--bay", "left"}, call(words)), 2, "--tank");
    check_error(lidlift::test::run({"handover"}), 2, "call");
    CHECK(lidlift::test::run({"handover", "-"}, call(words), Stdout::full).exit == 3);
}

TEST_CASE("ask says in one line how the sheet is made", "[cli][handover][ask]") {
    const TemporaryFolder folder;
    const std::string path = folder.path("call.yaml");
    Run run = lidlift::test::run({"ask", "--record", path}, "it reeks of rotten eggs\nnone\nstop\n");
    CHECK(holds(run.out, "\n  For a sheet of it to hand over:\n  lidlift handover " + path + "\n"));
    const Run sheet = lidlift::test::run({"handover", path});
    check_answer(sheet);
    CHECK_FALSE(holds(sheet.out, "! "));  // the advice is the same, then and now
    CHECK_FALSE(holds(sheet.out, path));  // what is handed out names no folder
    run = lidlift::test::run({"ask", "--again", "--record", path}, "all\nsolved\n1\nseen\n");
    CHECK(holds(run.out, "\n  For a sheet of it to hand over:\n  lidlift handover " + path + "\n"));
    CHECK_FALSE(holds(lidlift::test::run({"ask"}, "it reeks\nstop\n").out, "lidlift handover"));
}

}  // namespace cli_handover_test
