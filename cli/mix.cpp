#include "cli/mix.hpp"

#include "cli/conversation.hpp"
#include "cli/render_mix.hpp"
#include "cli/render_mix_json.hpp"
#include "engine/mix_advice.hpp"

#include <algorithm>
#include <utility>

namespace lidlift::cli {
namespace {

constexpr std::size_t most_of_an_option = 50;  // repeats of --with, --measured or --vessel

int refuse(const std::string& why) {
    print_error(why);
    return unusable_input;
}

/// Sizes of measures; Fault: one cannot be read.
Outcome<Vessels> read_vessels(const MixOptions& options) {
    Vessels vessels;
    const auto state = [&vessels](std::string_view name, std::string_view size, const char* option) -> std::optional<Fault> {
        Outcome<Vessel> vessel = read_vessel(name, size);
        if (!vessel) return Fault{std::string(option) + ": " + vessel.fault().text};
        vessels.state(std::move(*vessel));
        return std::nullopt;
    };
    for (const std::string& size : options.bucket)
        if (const auto fault = state("bucket", size, "--bucket")) return *fault;
    for (const std::string& size : options.barrow)
        if (const auto fault = state("barrow", size, "--barrow")) return *fault;
    for (const std::string& text : options.vessel) {
        const std::size_t blank = text.find(' ');
        if (blank == std::string::npos)
            return Fault{"--vessel wants a name and a size, as in --vessel \"sack 40 L\"; found '" + text + "'"};
        if (const auto fault = state(text.substr(0, blank), text.substr(blank + 1), "--vessel")) return *fault;
    }
    return vessels;
}

struct Asked {
    MixQuestion question;
    Vessels vessels;
};

Outcome<Asked> read_question(const MixOptions& options, const RuleBase& rule_base) {
    for (const auto* list :
         {&options.with, &options.measured, &options.vessel, &options.bucket, &options.barrow, &options.reach})
        if (list->size() > most_of_an_option)
            return Fault{"one option was said more than " + std::to_string(most_of_an_option) + " times"};
    const MaterialNames names(rule_base);
    Asked asked;
    Outcome<Vessels> vessels = read_vessels(options);
    if (!vessels) return vessels.fault();
    asked.vessels = std::move(*vessels);

    std::string text;
    for (const std::string& part : options.parts) text += part + " ";
    Outcome<std::vector<Load>> loads = read_loads(text, names, asked.vessels);
    if (!loads) {
        std::string why = loads.fault().text;
        if (why.starts_with("nobody stated"))
            why += ", or state it once with --bucket 10 L (--barrow 80 L, --vessel \"sack 40 L\")";
        return Fault{why};
    }
    asked.question.loads = std::move(*loads);
    for (const std::string& one : options.with) {
        Outcome<AtHand> hand = read_at_hand(one, names, asked.vessels);
        if (!hand) return Fault{"--with: " + hand.fault().text};
        for (const AtHand& other : asked.question.at_hand)
            if (other.material == hand->material)
                return Fault{"--with names " + rule_base.materials[hand->material].id +
                             " twice; say how much of it there is once"};
        asked.question.at_hand.push_back(std::move(*hand));
    }
    for (const std::string& one : options.reach) {
        Outcome<Target> target = read_target(one);
        if (!target) return Fault{"--reach: " + target.fault().text};
        if (asked.question.target) target = both(*asked.question.target, *target);
        if (!target) return Fault{"--reach: " + target.fault().text};
        asked.question.target = std::move(*target);
    }
    for (const std::string& one : options.measured) {
        const Outcome<MeasuredFigure> figure = read_measured(one, names);
        if (!figure) return Fault{"--measured: " + figure.fault().text};
        asked.question.measured.push_back(*figure);
    }
    if (asked.question.target && asked.question.at_hand.empty())
        return Fault{
            "say what is at hand to reach that with: --with dry_leaves, --with water (may be said again; lidlift show "
            "materials lists them)"};
    if (!asked.question.target && !asked.question.at_hand.empty())
        return Fault{
            "say what is to be reached: --reach \"60 % moisture\", --reach \"25 C:N\", --reach resting or --reach worms"};
    return asked;
}

bool is_number(const std::string& word) { return read_number(word).has_value(); }

}  // namespace

int mix(const Options& options, const MixOptions& mix_options) {
    const Loaded loaded = load_rule_base(options);
    if (!loaded.rule_base) return loaded.exit;
    const Outcome<Asked> asked = read_question(mix_options, *loaded.rule_base);
    if (!asked) return refuse(asked.fault().text);
    const Outcome<MixAnswer> answered = answer(*loaded.rule_base, asked->question);
    if (!answered) return refuse(answered.fault().text);
    const MixPage page{*loaded.rule_base, asked->question, asked->vessels, *answered};
    return print(options.json ? render_mix_json(page) : render_mix(page, screen_of_output())) ? done : cannot_read_or_write;
}

std::vector<std::string> with_units_joined(const std::vector<std::string>& arguments) {
    std::vector<std::string> result;
    for (std::size_t i = 0; i < arguments.size(); ++i) {
        result.push_back(arguments[i]);
        const bool takes_unit = arguments[i] == "--bucket" || arguments[i] == "--barrow" || arguments[i] == "--reach";
        if (!takes_unit || i + 2 >= arguments.size() || !is_number(arguments[i + 1]) || arguments[i + 2].starts_with('-'))
            continue;
        std::string joined = arguments[i + 1] + " " + arguments[i + 2];
        i += 2;
        if (joined.ends_with(" %") && i + 1 < arguments.size() && arguments[i + 1] == "moisture")
            joined += " " + arguments[++i];
        result.push_back(std::move(joined));
    }
    return result;
}

}  // namespace lidlift::cli
