#include "cli/json_line.hpp"
#include "cli/line_answerer.hpp"
#include "engine/plain_text.hpp"
#include "tests/fuzz/invariants.hpp"
#include "tests/fuzz/targets.hpp"

#include <algorithm>
#include <string>
#include <vector>

#include <nlohmann/json.hpp>

namespace lidlift::fuzz {
namespace {

using nlohmann::json;

const std::string lines_file = "beds.jsonl";

/// As cli/streaming hands them on: without their ends, cut where they are too long.
std::vector<cli::TextLine> told_lines(std::string_view text) {
    std::vector<cli::TextLine> lines;
    while (!text.empty()) {
        const std::size_t end = text.find('\n');
        std::string_view line = text.substr(0, end);
        if (line.ends_with('\r')) line.remove_suffix(1);
        lines.push_back(
            {lines.size() + 1, std::string(line.substr(0, cli::longest_json_line)), line.size() > cli::longest_json_line});
        text.remove_prefix(end == std::string_view::npos ? text.size() : end + 1);
    }
    return lines;
}

bool is_blank(const cli::TextLine& line) { return line.text.find_first_not_of(" \t") == std::string::npos; }

/// The objects, one a line; each in ASCII with everything escaped that a terminal obeys.
std::vector<json> objects_in(const std::string& written) {
    std::vector<json> objects;
    for (std::size_t begin = 0; begin < written.size();) {
        const std::size_t end = written.find('\n', begin);
        ensure(end != std::string::npos, "the last line of the output has no end");
        const std::string line = written.substr(begin, end - begin);
        ensure(std::ranges::all_of(line, [](char c) { return c >= ' ' && c <= '~'; }), "an answer is not plain ASCII: " + line);
        objects.push_back(json::parse(line, nullptr, false));
        ensure(objects.back().is_object(), "an answer is no JSON object: " + line);
        begin = end + 1;
    }
    return objects;
}

void ensure_mistakes(const json& object) {
    const json& mistakes = object.at("error").at("mistakes");
    ensure(mistakes.is_array() && !mistakes.empty(), "a line is refused without a mistake");
    for (const json& mistake : mistakes) {
        ensure(mistake.at("column").get<int>() >= 0, "a mistake before the first column");
        ensure(!mistake.at("text").get<std::string>().empty(), "a mistake that says nothing");
    }
    ensure(!object.contains("causes") && !object.contains("steps"), "a refused line has an answer all the same");
}

void ensure_chances(const json& object) {
    double before = 1;
    for (const json& cause : object.at("causes")) {
        const double chance = cause.at("chance").get<double>();
        ensure(chance >= 0 && chance <= before, "chances are not in order, or not between 0 and 1");
        before = chance;
    }
    const double nothing = object.at("nothing_listed").get<double>();
    ensure(nothing >= 0 && nothing <= 1, "the chance of nothing listed is not between 0 and 1");
}

/// What an answered line held, read by the library and not by us.
void ensure_answers(const json& object, const cli::TextLine& line) {
    constexpr std::string_view byte_order_mark = "\xEF\xBB\xBF";
    std::string_view bare = line.text;
    if (line.number == 1 && bare.starts_with(byte_order_mark)) bare.remove_prefix(byte_order_mark.size());
    const json told = json::parse(bare, nullptr, false);
    ensure(told.is_object(), "what is no JSON object was answered: " + std::string(bare));
    ensure(told.contains("told") || told.contains("words"), "an answer to nothing: " + std::string(bare));
    ensure(told.contains("id") == object.contains("id"), "an id was lost, or made up: " + std::string(bare));
    if (told.contains("id")) ensure(told["id"] == object["id"], "another id comes back: " + std::string(bare));
    ensure_chances(object);
}

/// In full it says the same, and more.
void ensure_same_in_full(const json& in_short, const cli::TextLine& line) {
    static const cli::LineAnswerer in_full(default_base(), lines_file, false);
    const std::vector<json> objects = objects_in(in_full.answer({line}).objects);
    ensure(objects.size() == 1, "one line has more than one answer, or none");
    const json& full = objects.front();
    for (const char* key : {"line", "verdict", "contradictory", "nothing_listed"})
        ensure(full.at(key) == in_short.at(key), std::string("short and full differ in ") + key);
    for (const char* key : {"causes", "cautions", "steps"}) {
        json ids = json::array();
        for (const json& one : full.at(key)) ids.push_back(one.at("id"));
        json short_ids = json::array();
        for (const json& one : in_short.at(key)) short_ids.push_back(one.is_object() ? one.at("id") : one);
        ensure(ids == short_ids, std::string("short and full differ in ") + key);
    }
}

}  // namespace

void one_file_of_lines(std::string_view text) {
    static const cli::LineAnswerer in_short(default_base(), lines_file, true);
    const std::vector<cli::TextLine> lines = told_lines(text);
    const cli::AnsweredLines answered = in_short.answer(lines);
    ensure_placed(answered.complaints, text, lines_file);
    const std::vector<json> objects = objects_in(answered.objects);
    auto next = objects.begin();
    bool compared = false;
    for (const cli::TextLine& line : lines) {
        if (is_blank(line)) continue;
        ensure(next != objects.end(), "a line has no answer");
        const json& object = *next++;
        ensure(object.at("line") == line.number, "an answer bears another line's number");
        const bool refused = object.contains("error");
        ensure(refused == std::ranges::any_of(answered.complaints,
                                              [&](const Complaint& complaint) {
                                                  return static_cast<std::size_t>(complaint.place.line) == line.number;
                                              }),
               "a refused line is not told of on standard error, or one is told of that was answered");
        if (refused) {
            ensure_mistakes(object);
            continue;
        }
        ensure(!line.too_long && !find_bad_character(line.text), "a line that must be refused was answered");
        ensure_answers(object, line);
        // Once: it takes a hundred times as long.
        if (!compared) ensure_same_in_full(object, line);
        compared = true;
    }
    ensure(next == objects.end(), "there are more answers than lines");
}

}  // namespace lidlift::fuzz
