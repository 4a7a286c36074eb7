// The command line, and nothing else: options in, one command's function called, exit code out.
#include "cli/ask.hpp"
#include "cli/check.hpp"
#include "cli/compare.hpp"
#include "cli/handbook.hpp"
#include "cli/handover.hpp"
#include "cli/help.hpp"
#include "cli/learn.hpp"
#include "cli/log.hpp"
#include "cli/mix.hpp"
#include "cli/round.hpp"
#include "cli/session.hpp"
#include "cli/show.hpp"
#include "cli/standard_streams.hpp"
#include "cli/try_cases.hpp"
#include "cli/why.hpp"
#include "engine/nearest_name.hpp"
#include "engine/plain_text.hpp"

#include <algorithm>
#include <cstdio>
#include <exception>
#include <functional>
#include <string>
#include <utility>
#include <vector>

#include <CLI/CLI.hpp>

namespace {

using namespace lidlift;
using namespace lidlift::cli;

/// The help texts are our own, so options need no description here.
void add_common(CLI::App& command, Options& options) {
    command.add_option("--rules", options.rules)->allow_extra_args(false);
    command.add_option("--only-rules", options.only_rules)->allow_extra_args(false);
    command.add_flag("--json", options.json);
}

/// One command: its place on the command line, its help, and what runs it.
struct Command {
    CLI::App* app;
    const char* help;
    std::function<int()> run;
};

/// The commands and options there are, for "did you mean".
std::vector<std::string> known_names(const CLI::App& app) {
    std::vector<std::string> names;
    for (const CLI::Option* option : app.get_options())
        for (const auto& list : {option->get_lnames(), option->get_snames()})
            for (const std::string& name : list) names.push_back((name.size() == 1 ? "-" : "--") + name);
    for (const CLI::App* command : app.get_subcommands([](const CLI::App*) { return true; })) {
        if (!command->get_name().empty()) names.push_back(command->get_name());
        for (std::string& name : known_names(*command)) names.push_back(std::move(name));
    }
    return names;
}

/// What could not be used, in our words, with the nearest option or command; `left_over` is what CLI11 did not take.
int complain(const CLI::ParseError& error, const CLI::App& app) {
    const std::vector<std::string> left_over = app.remaining(true);
    const bool command_given = !app.get_subcommands().empty();
    std::string text = error.what();
    if (const auto line_end = text.find('\n'); line_end != std::string::npos) text.resize(line_end);
    if (dynamic_cast<const CLI::ArgumentMismatch*>(&error)) text = text.substr(0, text.find(':')) + " needs something after it";
    if (!left_over.empty()) {
        const std::string name = left_over.front().substr(0, left_over.front().find('='));
        const std::string hint = did_you_mean(name, known_names(app));
        const bool option = name.starts_with('-');
        text = option          ? "there is no option '" + name + "'"
               : command_given ? "'" + name + "' is one word too many"
                               : "there is no command '" + name + "'";
        if (!hint.empty() && (option || !command_given)) text += " (" + hint + ")";
    }
    print_error(text + "; lidlift --help shows what there is");
    return unusable_input;
}

int run(int argc, char** argv) {
    std::vector<std::string> arguments(argv + 1, argv + argc);
    for (const std::string& argument : arguments)
        if (const auto bad = find_bad_character(argument)) {
            print_error("an argument holds " + bad->what + ", at its character " + std::to_string(bad->column) + ": " +
                        argument);
            return unusable_input;
        }

    CLI::App app{"", "lidlift"};
    app.require_subcommand(0, 1);  // after one, "check" or "show" are words like any other: did check the lid
    app.set_version_flag("--version", std::string("lidlift ") + LIDLIFT_VERSION);
    Options options;
    add_common(app, options);
    std::vector<Command> commands;
    const auto add = [&](const char* name, const char* help, std::function<int()> runs) {
        commands.push_back({app.add_subcommand(name), help, std::move(runs)});
        add_common(*commands.back().app, options);
        return commands.back().app;
    };

    WhyOptions why_options;
    WhyLinesOptions lines_options;
    CLI::App* command = add("why", why_help, [&] { return why(options, why_options, lines_options); });
    command->add_option("words", why_options.words);
    command->add_option("--told", why_options.told)->allow_extra_args(false);
    command->add_flag("--full", why_options.full);
    command->add_option("--tank", why_options.tank)->allow_extra_args(false);
    command->add_option("--bay", why_options.bay)->allow_extra_args(false);
    command->add_option("--on", why_options.on)->allow_extra_args(false);
    command->add_flag("--steady", why_options.steady);
    command->add_option("--cases", lines_options.cases)->allow_extra_args(false);
    command->add_flag("--short", lines_options.in_short);
    command->add_option("--threads", lines_options.threads)->allow_extra_args(false);

    MixOptions mix_options;
    command = add("mix", mix_help, [&] { return mix(options, mix_options); });
    command->add_option("parts", mix_options.parts);
    command->add_option("--reach", mix_options.reach)->allow_extra_args(false);
    command->add_option("--with", mix_options.with)->allow_extra_args(false);
    command->add_option("--measured", mix_options.measured)->allow_extra_args(false);
    command->add_option("--bucket", mix_options.bucket)->allow_extra_args(false);
    command->add_option("--barrow", mix_options.barrow)->allow_extra_args(false);
    command->add_option("--vessel", mix_options.vessel)->allow_extra_args(false);

    LogOptions log_options;
    command = add("log", log_help, [&] { return log(options, log_options); });
    command->add_option("words", log_options.words);
    command->add_flag("--new", log_options.begin);
    const std::pair<const char*, std::string*> of_log[] = {
        {"--tank", &log_options.tank},     {"--bay", &log_options.bay},       {"--on", &log_options.on},
        {"--note", &log_options.note},     {"--wait", &log_options.wait},     {"--name", &log_options.name},
        {"--inside", &log_options.inside}, {"--bays", &log_options.bays},     {"--wall", &log_options.wall},
        {"--worms", &log_options.worms},   {"--bucket", &log_options.bucket}, {"--barrow", &log_options.barrow}};
    for (const auto& [option, value] : of_log) command->add_option(option, *value)->allow_extra_args(false);

    RoundOptions round_options;
    command = add("round", round_help, [&] { return round(options, round_options); });
    command->add_option("folder", round_options.folder)->required();
    command->add_option("--on", round_options.on)->allow_extra_args(false);
    command->add_flag("--full", round_options.full);
    AskOptions ask_options;
    command = add("ask", ask_help, [&] { return ask(options, ask_options); });
    command->add_option("--record", ask_options.record)->allow_extra_args(false);
    command->add_flag("--again", ask_options.again);
    command->add_option("--tank", ask_options.tank)->allow_extra_args(false);
    command->add_option("--bay", ask_options.bay)->allow_extra_args(false);

    HandoverOptions handover_options;
    command = add("handover", handover_help, [&] { return handover(options, handover_options); });
    command->add_option("call", handover_options.call)->required();
    command->add_flag("--html", handover_options.html);
    command->add_flag("--full", handover_options.full);
    command->add_option("--tank", handover_options.tank)->allow_extra_args(false);
    command->add_option("--bay", handover_options.bay)->allow_extra_args(false);

    std::string kind;
    std::string name;
    command = add("show", show_help, [&] { return show(options, kind, name); });
    command->add_option("kind", kind);
    command->add_option("name", name);

    HandbookOptions handbook_options;
    command = add("handbook", handbook_help, [&] { return handbook(options, handbook_options); });
    command->add_option("--format", handbook_options.format)->allow_extra_args(false);
    command->add_option("-o,--output", handbook_options.output)->allow_extra_args(false);

    CheckOptions check_options;
    command = add("check", check_help, [&] { return check(options, check_options); });
    command->add_option("rules", check_options.rules);
    command->add_option("--format", check_options.format)->allow_extra_args(false);
    command->add_flag("--strict", check_options.strict);
    command->add_flag("--full", check_options.full);

    TryOptions try_options;
    command = add("try", try_help, [&] { return try_cases(options, try_options); });
    command->add_option("cases", try_options.cases);
    command->add_option("--at-least-first", try_options.at_least_first)->allow_extra_args(false);
    command->add_option("--at-least-three", try_options.at_least_three)->allow_extra_args(false);
    command->add_option("--junit", try_options.junit)->allow_extra_args(false);
    command->add_flag("--coverage", try_options.coverage);

    CompareOptions compare_options;
    command = add("compare", compare_help, [&] { return compare(options, compare_options); });
    command->add_option("old", compare_options.before);
    command->add_option("new", compare_options.after);
    command->add_option("cases", compare_options.cases);

    LearnOptions learn_options;
    command = add("learn", learn_help, [&] { return learn(options, learn_options); });
    command->add_option("calls", learn_options.folders);
    command->add_flag("--full", learn_options.full);

    if (arguments.empty()) {
        std::fputs(main_help, stderr);
        return unusable_input;
    }
    const auto given = [&] { return std::ranges::find_if(commands, [](const Command& c) { return c.app->parsed(); }); };
    try {
        std::vector<std::string> backwards = with_units_joined(arguments);  // as CLI11 wants them
        std::ranges::reverse(backwards);
        app.parse(std::move(backwards));
    } catch (const CLI::CallForHelp&) {
        return print(given() == commands.end() ? main_help : given()->help) ? done : cannot_read_or_write;
    } catch (const CLI::CallForVersion&) {
        return print(std::string("lidlift ") + LIDLIFT_VERSION + "\n") ? done : cannot_read_or_write;
    } catch (const CLI::ParseError& error) {
        return complain(error, app);
    }
    if (given() != commands.end()) return given()->run();
    print_error("say a command, for instance why; lidlift --help shows what there is");
    return unusable_input;
}

}  // namespace

int main(int argc, char** argv) {
    lidlift::cli::reserve_standard_streams();
    try {
        return run(argc, argv);
    } catch (const std::bad_alloc&) {
        std::fputs("lidlift: not enough memory\n", stderr);
    } catch (const std::exception& error) {
        std::fprintf(stderr, "lidlift: something went wrong that should not have: %s\n",
                     lidlift::for_terminal(error.what()).c_str());
    }
    return lidlift::cli::cannot_read_or_write;
}
