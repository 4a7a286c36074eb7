#include "cli/why.hpp"

#include "cli/conversation.hpp"
#include "cli/files.hpp"
#include "cli/render_json.hpp"
#include "cli/render_text.hpp"
#include "cli/tank_file.hpp"
#include "engine/heard_words.hpp"
#include "engine/plain_text.hpp"
#include "engine/plan_amounts.hpp"
#include "engine/tank_diagnosis.hpp"
#include "engine/yaml_tree.hpp"

#include <algorithm>
#include <utility>

namespace lidlift::cli {
namespace {

/// Everything told, by files and by words. `exit` is not `done` when it cannot be used; the reasons are printed.
struct Heard {
    Told told;
    std::vector<std::string> not_understood;
    std::vector<OpenQuestion> to_ask;
    int exit = done;
};

void hear_one_file(const std::string& path, const RuleBase& rule_base, Heard& heard) {
    const auto text = read_file(path, largest_file);
    if (!text) {
        print_error(text.fault().text);
        heard.exit = cannot_read_or_write;
        return;
    }
    Complaints complaints;
    hear_file(heard.told, rule_base, *text, path == "-" ? "standard input" : path, complaints);
    if (print_complaints(complaints.sorted())) heard.exit = unusable_input;
}

/// The caller's own words, gathered from the command line. Each argument is a text of its own, but single words that follow one
/// another belong together: in `why not soggy`, typed without quotes, the "not" must not be lost.
class OwnWords {
public:
    void add(const std::string& argument) {
        const bool single = argument.find(' ') == std::string::npos;
        if (!text_.empty()) text_ += single && last_was_single_ ? ' ' : '\n';
        text_ += argument;
        last_was_single_ = single;
    }
    [[nodiscard]] const std::string& text() const { return text_; }

private:
    std::string text_;
    bool last_was_single_ = false;
};

Heard hear_everything(const WhyOptions& options, const RuleBase& rule_base) {
    Heard heard;
    OwnWords own_words;
    for (const std::string& path : options.told) hear_one_file(path, rule_base, heard);
    for (const std::string& word : options.words) {
        if (word == "-") {
            hear_one_file(word, rule_base, heard);
        } else if (word.find('=') == std::string::npos) {
            own_words.add(word);
        } else if (const auto fault = hear_argument(heard.told, rule_base, word)) {
            print_error(fault->text);
            heard.exit = unusable_input;
        }
    }
    if (!own_words.text().empty()) {
        HeardWords words = hear_words(heard.told, rule_base, Phrasebook(rule_base), own_words.text());
        heard.not_understood = std::move(words.not_understood);
        heard.to_ask = std::move(words.to_ask);
    }
    // Words that could not be used get a page that asks; only where nothing at all was said there is nothing to answer.
    if (heard.exit == done && options.tank.empty() && heard.told.order.empty() &&
        own_words.text().find_first_not_of(" \n\t") == std::string::npos) {
        print_error(
            "nothing was told that could be weighed; say at least one sign=value, for instance smell_rotten=strong (lidlift "
            "show signs lists them), or name a tank's record with --tank FILE");
        heard.exit = unusable_input;
    }
    return heard;
}

/// Answers need no phrases; a caller's words do, and so does a tank's record, for its materials.
Extent needed_of_rules(const WhyOptions& options) {
    const bool only_answers = options.tank.empty() && std::ranges::all_of(options.words, [](const std::string& word) {
                                  return word == "-" || word.find('=') != std::string::npos;
                              });
    return only_answers ? Extent::without_phrases_and_places : Extent::whole;
}

}  // namespace

int why(const Options& options, const WhyOptions& why_options, const WhyLinesOptions& lines_options) {
    if (!lines_options.cases.empty()) {
        const bool one_bed = !why_options.words.empty() || !why_options.told.empty() || !why_options.tank.empty() ||
                             !why_options.bay.empty() || !why_options.on.empty() || why_options.full || why_options.steady;
        if (!one_bed) return why_lines(options, lines_options);
        print_error(
            "--cases answers every line of a file by itself; words, sign=value, --told, --tank, --bay, --on, --full and "
            "--steady are about one bed");
        return unusable_input;
    }
    if (lines_options.in_short || !lines_options.threads.empty()) {
        print_error("--short and --threads are about many beds; name their file with --cases FILE");
        return unusable_input;
    }
    if (why_options.tank.empty() && !(why_options.bay.empty() && why_options.on.empty())) {
        print_error("--bay and --on are about a tank's record; name it with --tank FILE");
        return unusable_input;
    }
    const Loaded loaded = load_rule_base(options, needed_of_rules(why_options));
    if (!loaded.rule_base) return loaded.exit;
    const RuleBase& rule_base = *loaded.rule_base;
    LoadedTank tank;
    if (!why_options.tank.empty()) {
        tank = load_tank(why_options.tank, why_options.bay, why_options.on, rule_base);
        if (tank.exit != done) return tank.exit;
    }
    Heard heard = hear_everything(why_options, rule_base);
    if (heard.exit != done) return heard.exit;
    const Ranker ranker(rule_base);
    std::optional<TankSeen> seen;
    if (tank.record) seen = look_into(ranker, std::move(*tank.record), tank.today, tank.bay, heard.told);
    Diagnosis diagnosis = diagnose(ranker, std::move(heard.told), std::move(heard.not_understood), std::move(heard.to_ask));
    diagnosis.tank = std::move(seen);
    if (diagnosis.tank)
        diagnosis.amounts = amounts_of_plan(rule_base, diagnosis.told, diagnosis.advice, diagnosis.tank->record,
                                            diagnosis.tank->bay, diagnosis.tank->state.today);
    if (why_options.steady) diagnosis.steadiness = steadiness_of(ranker, diagnosis);
    const std::string output =
        options.json ? render_json(rule_base, diagnosis)
                     : render_text(rule_base, diagnosis, {.full = why_options.full, .screen = screen_of_output()});
    return print(output) ? done : cannot_read_or_write;
}

}  // namespace lidlift::cli
