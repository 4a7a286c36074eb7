// lidlift why: the page and the JSON, over the default rule base.
#include "cli/balance_lines.hpp"
#include "cli/render_json.hpp"
#include "cli/render_text.hpp"
#include "engine/plain_text.hpp"
#include "tests/cli/program.hpp"
#include "tests/engine/random_answers.hpp"
#include "tests/engine/short_rules.hpp"
#include "tests/near.hpp"

#include <algorithm>
#include <cmath>
#include <map>
#include <set>
#include <sstream>
#include <string>
#include <vector>

#include <nlohmann/json.hpp>

namespace cli_why_test {

using namespace lidlift;
using namespace lidlift::test;
using nlohmann::json;

namespace {

std::vector<std::string> lines_of(const std::string& text) {
    std::vector<std::string> lines;
    std::istringstream stream(text);
    for (std::string line; std::getline(stream, line);) lines.push_back(line);
    return lines;
}

/// The text with every run of blanks and line ends as one blank, so that wrapping does not matter.
std::string unwrapped(const std::string& text) {
    std::string result;
    for (const char c : text) {
        const bool blank = c == ' ' || c == '\n';
        if (!blank) result += c;
        if (blank && !result.empty() && result.back() != ' ') result += ' ';
    }
    return result;
}

/// A diagnosis without the next questions, which take most of the time.
Diagnosis quickly_diagnosed(const Ranker& ranker, const std::vector<std::string>& words) {
    Diagnosis diagnosis;
    diagnosis.told = told_in(ranker.rule_base(), words);
    diagnosis.ranking = ranker.rank(diagnosis.told.facts);
    diagnosis.advice = advise(ranker.rule_base(), diagnosis.told, diagnosis.ranking);
    return diagnosis;
}

std::string joined(const std::vector<std::string>& words) {
    std::string text;
    for (const std::string& word : words) text += "'" + word + "' ";
    return text;
}

/// The keys of design.md, "`lidlift why --json`", with their types.
void check_shape(const json& document) {
    CHECK(document.at("rule_base").at("name").is_string());
    CHECK(document.at("rule_base").at("version").is_string());
    for (const json& item : document.at("understood"))
        for (const std::string key : {"sign", "value", "from"}) CHECK(item.at(key).is_string());
    for (const json& item : document.at("not_understood")) CHECK(item.is_string());
    for (const json& cause : document.at("causes")) {
        for (const std::string key : {"id", "name", "words", "because", "expect"}) CHECK(cause.at(key).is_string());
        CHECK(cause.at("chance").is_number_float());
        CHECK(cause.at("answered").is_number_integer());
        CHECK(cause.at("of").is_number_integer());
        CHECK(cause.at("answered").get<int>() <= cause.at("of").get<int>());
        CHECK(cause.at("look_again_days").is_number());
        CHECK_FALSE(cause.at("sources").empty());
        for (const json& source : cause.at("sources")) CHECK(source.is_string());
        for (const json& line : cause.at("balance")) {
            CHECK(line.at("text").is_string());
            CHECK(line.at("decibans").is_number());
        }
    }
    CHECK(document.at("nothing_listed").is_number());
    for (const json& caution : document.at("cautions")) {
        for (const std::string key : {"id", "level", "text"}) CHECK(caution.at(key).is_string());
        CHECK_FALSE(caution.at("sources").empty());
    }
    for (const json& step : document.at("steps")) {
        for (const std::string key : {"id", "when", "text"}) CHECK(step.at(key).is_string());
        CHECK_FALSE(step.at("for").empty());
        CHECK(step.at("cautions").is_array());
        CHECK((step.at("amount").is_null() || step.at("amount").is_string()));
    }
    for (const json& out : document.at("left_out"))
        for (const std::string key : {"id", "why"}) CHECK(out.at(key).is_string());
    for (const json& question : document.at("ask_next")) {
        for (const std::string key : {"sign", "ask"}) CHECK(question.at(key).is_string());
        CHECK(question.at("bits").is_number());
    }
}

/// What the numbers and lists promise each other.
void check_sums(const json& document) {
    double earlier = 1;
    for (const json& cause : document.at("causes")) {
        const double chance = cause.at("chance");
        CHECK((chance >= 0 && chance <= 1));
        CHECK(chance <= earlier);
        earlier = chance;
        double sum = 0;
        for (const json& line : cause.at("balance")) sum += line.at("decibans").get<double>();
        CHECK(sum == near(10 * std::log10(chance / (1 - chance)), 0.05));
    }
    const double nothing = document.at("nothing_listed");
    CHECK((nothing >= 0 && nothing <= 1));
    std::set<std::string> cautions;
    for (const json& caution : document.at("cautions")) cautions.insert(caution.at("id").get<std::string>());
    for (const json& step : document.at("steps"))
        for (const json& caution : step.at("cautions")) CHECK(cautions.count(caution.get<std::string>()) == 1);
}

}  // namespace

TEST_CASE("the JSON has every key that others rely on, and its numbers agree", "[cli][why][json]") {
    const Ranker ranker(default_base());
    Dice dice(20261110);
    std::set<std::string> seen;
    for (int i = 0; i < 60; ++i) {
        const auto words = random_answers(dice, default_base(), dice.whole(1, 6));
        CAPTURE(joined(words));
        const std::string text =
            cli::render_json(default_base(), diagnose(ranker, told_in(default_base(), words), {"some words"}));
        CHECK(std::all_of(text.begin(), text.end(), [](char c) { return static_cast<unsigned char>(c) < 0x80; }));
        const json document = json::parse(text);
        check_shape(document);
        check_sums(document);
        CHECK(document.at("understood").size() == words.size());
        CHECK(document.at("not_understood") == json::array({"some words"}));
        for (const std::string key : {"causes", "cautions", "steps", "left_out", "ask_next"})
            if (!document.at(key).empty()) seen.insert(key);
    }
    CHECK(seen.size() == 5);
}

TEST_CASE("the JSON holds every cause above its own prior or 5 in a hundred, and no other", "[cli][why][json]") {
    const Ranker ranker(default_base());
    Dice dice(20261111);
    for (int i = 0; i < 40; ++i) {
        const auto words = random_answers(dice, default_base(), dice.whole(1, 5));
        CAPTURE(joined(words));
        const Diagnosis diagnosis = quickly_diagnosed(ranker, words);
        std::set<std::string> expected;
        for (const RankedCause& cause : diagnosis.ranking.causes)
            if (cause.chance > cause.prior || cause.chance > 0.05) expected.insert(id_of(default_base().causes, cause.cause));
        std::set<std::string> listed;
        const json document = json::parse(cli::render_json(default_base(), diagnosis));
        for (const json& cause : document.at("causes")) listed.insert(cause.at("id").get<std::string>());
        CHECK(listed == expected);
    }
}

TEST_CASE("the page fits 80 columns and holds nothing but text", "[cli][why][text]") {
    const Ranker ranker(default_base());
    Dice dice(20261112);
    std::string wide;
    int untame = 0;
    for (int i = 0; i < 200; ++i) {
        const auto words = random_answers(dice, default_base(), dice.whole(1, 6));
        const Diagnosis diagnosis = quickly_diagnosed(ranker, words);
        for (const bool full : {false, true}) {
            const std::string text = cli::render_text(default_base(), diagnosis, {.full = full});
            untame += !is_tame(text);
            for (const std::string& line : lines_of(text))
                if (display_width(line) > 80 && wide.empty()) wide = joined(words) + "\n" + line;
        }
    }
    CHECK(wide == "");
    CHECK(untame == 0);
}

TEST_CASE("the page with its questions fits 80 columns as well", "[cli][why][text]") {
    const Ranker ranker(default_base());
    Dice dice(20261113);
    for (int i = 0; i < 40; ++i) {
        const auto words = random_answers(dice, default_base(), dice.whole(1, 4));
        CAPTURE(joined(words));
        const std::string text = cli::render_text(
            default_base(), diagnose(ranker, told_in(default_base(), words), {"she said it looked " + std::string(30, 'x')}),
            {});
        for (const std::string& line : lines_of(text)) CHECK(display_width(line) <= 80);
    }
}

TEST_CASE("in the page cautions stand before the steps that need them, and none is missing", "[cli][why][text]") {
    const RuleBase& base = default_base();
    const Ranker ranker(base);
    Dice dice(20261114);
    std::map<std::string, std::string> faults;
    int steps_with_cautions = 0;
    for (int i = 0; i < 600; ++i) {
        const auto words = random_answers(dice, base, dice.whole(1, 6));
        const Diagnosis diagnosis = quickly_diagnosed(ranker, words);
        const std::string page = unwrapped(cli::render_text(base, diagnosis, {.full = dice.one_in(2)}));
        const auto place_of = [&](Handle<Caution> caution) { return page.find(unwrapped(base.cautions[caution].say)); };
        for (const auto caution : diagnosis.advice.cautions)
            if (place_of(caution) == std::string::npos)
                faults["a caution is missing"] = joined(words) + id_of(base.cautions, caution);
        const std::size_t plan = page.find("WHAT TO DO");
        for (const PlannedStep& planned : diagnosis.advice.steps) {
            const std::size_t step = page.find(unwrapped(base.steps[planned.step].say), plan == std::string::npos ? 0 : plan);
            if (step == std::string::npos) faults["a step is missing"] = joined(words) + id_of(base.steps, planned.step);
            for (const auto caution : base.steps[planned.step].cautions) {
                ++steps_with_cautions;
                if (place_of(caution) > step)
                    faults["a caution stands after its step"] = joined(words) + id_of(base.steps, planned.step);
            }
        }
    }
    std::string text;
    for (const auto& [what, where] : faults) text += what + ": " + where + "\n";
    CHECK(text == "");
    CHECK(steps_with_cautions > 100);
}

TEST_CASE("the balance on the page adds up as printed", "[cli][why][text]") {
    const Ranker ranker(default_base());
    Dice dice(20261115);
    int checked = 0;
    for (int i = 0; i < 300; ++i) {
        const auto words = random_answers(dice, default_base(), dice.whole(1, 6));
        const Diagnosis diagnosis = quickly_diagnosed(ranker, words);
        int sum = 0;
        for (const std::string& line : lines_of(cli::render_text(default_base(), diagnosis, {.full = dice.one_in(2)}))) {
            const std::size_t blank = line.find_last_of(' ');
            const std::string last = blank == std::string::npos ? "" : line.substr(blank + 1);
            const bool points = last.size() >= 2 && (last[0] == '+' || last[0] == '-') &&
                                last.find_first_not_of("0123456789", 1) == std::string::npos;
            if (last == "points") sum = 0;
            if (!points || display_width(line) != 80) continue;
            if (holds(line, "     together ")) {
                CAPTURE(joined(words), line);
                CHECK(sum == std::stoi(last));
                ++checked;
            } else {
                sum += std::stoi(last);
            }
        }
    }
    CHECK(checked > 200);
}

TEST_CASE("whole points add up to the rounded total", "[cli][why][text]") {
    Dice dice(20261116);
    for (int i = 0; i < 500; ++i) {
        std::vector<BalanceLine> lines(dice.whole(1, 9));
        double total = 0;
        for (BalanceLine& line : lines) total += line.decibans = dice.between(-20, 20);
        const std::vector<int> points = cli::whole_points(lines);
        int sum = 0;
        REQUIRE(points.size() == lines.size());
        for (std::size_t k = 0; k < points.size(); ++k) {
            sum += points[k];
            CHECK(std::abs(points[k] - lines[k].decibans) <= 1.5);
        }
        CHECK(sum == static_cast<int>(std::lround(total)));
    }
}

TEST_CASE("lines of a balance that read alike are one", "[cli][why][text]") {
    BalanceLine common{BalanceLine::Kind::how_common, "how common it is", -15, false, {}, {}};
    BalanceLine seen{BalanceLine::Kind::sign, "rats or mice: droppings; seen", 7.4, false, {}, {}};
    BalanceLine also = seen;
    also.decibans = 3.4;
    for (const auto& lines : {cli::whole_balance({common, seen, also}), cli::condensed_balance({common, seen, also}, 6)}) {
        REQUIRE(lines.size() == 2);
        CHECK(lines[1].points == 11);
        CHECK(cli::sum_of(lines) == -4);
    }
    const Run result = run({"why", "rodents=droppings_burrows,seen", "--full"});
    check_answer(result);
    const std::string page = unwrapped(result.out);
    const std::string line = "rats or mice: droppings, gnawing or burrows of rats or mice; rats or mice have been seen +";
    const auto at = page.find(line);
    REQUIRE(at != std::string::npos);
    const auto end = page.find("together", at);
    CHECK(page.substr(at + 1, end - at).find(line) == std::string::npos);
}

TEST_CASE("the program prints what the page and the JSON hold", "[cli][why]") {
    const std::vector<std::string> words = {"smell_rotten=strong", "squeeze=stream"};
    const Diagnosis diagnosis = diagnosed(default_base(), words);
    const Run text = run({"why", words[0], words[1]});
    check_answer(text);
    CHECK(text.out == cli::render_text(default_base(), diagnosis, {}));
    const Run full = run({"why", words[0], words[1], "--full"});
    check_answer(full);
    CHECK(full.out.size() > text.out.size());
    const Run in_json = run({"why", words[0], words[1], "--json"});
    check_answer(in_json);
    CHECK(in_json.out == cli::render_json(default_base(), diagnosis));
    const json document = json::parse(in_json.out);
    check_shape(document);
    check_sums(document);
    CHECK(document.at("understood").at(0).at("sign") == "smell_rotten");
    CHECK(document.at("understood").at(0).at("from") == "you said: smell_rotten=strong");
}

}  // namespace cli_why_test
