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
    if (dynamic_cast<const CLI::RequiredError*>(&error) && command_given) {
        const std::string command = app.get_subcommands().front()->get_name();
        const std::string wanted = text.substr(0, text.find(' '));
        print_error(command + " needs a " + wanted + "; lidlift " + command + " --help shows how");
        return unusable_input;
    }
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

/// The command line: its commands with their options, and the one that was given.
class CommandLine {
public:
    CommandLine() {
        app_.require_subcommand(0, 1);  // after one, "check" or "show" are words like any other: did check the lid
        app_.set_version_flag("--version", std::string("lidlift ") + LIDLIFT_VERSION);
        add_common(app_, options_);
        why_command();
        mix_command();
        tank_commands();
        call_commands();
        reading_commands();
        rule_commands();
    }

    int run(std::vector<std::string> arguments) {
        try {
            std::ranges::reverse(arguments);  // as CLI11 wants them
            app_.parse(std::move(arguments));
        } catch (const CLI::CallForHelp&) {
            return print(given() ? given()->help : main_help) ? done : cannot_read_or_write;
        } catch (const CLI::CallForVersion&) {
            return print(std::string("lidlift ") + LIDLIFT_VERSION + "\n") ? done : cannot_read_or_write;
        } catch (const CLI::ParseError& error) {
            return complain(error, app_);
        }
        if (given()) return given()->run();
        print_error("say a command, for instance why; lidlift --help shows what there is");
        return unusable_input;
    }

private:
    [[nodiscard]] const Command* given() const {
        const auto found = std::ranges::find_if(commands_, [](const Command& command) { return command.app->parsed(); });
        return found == commands_.end() ? nullptr : &*found;
    }

    CLI::App& add(const char* name, const char* help, std::function<int()> runs) {
        CLI::App& command = *app_.add_subcommand(name);
        add_common(command, options_);
        commands_.push_back({&command, help, std::move(runs)});
        return command;
    }

    /// An option that takes the one word after it.
    template <class Value>
    static void takes(CLI::App& command, const char* option, Value& value) {
        command.add_option(option, value)->allow_extra_args(false);
    }

    void why_command() {
        CLI::App& why = add("why", why_help, [this] { return cli::why(options_, why_, lines_); });
        why.add_option("words", why_.words);
        takes(why, "--told", why_.told);
        why.add_flag("--full", why_.full);
        takes(why, "--tank", why_.tank);
        takes(why, "--bay", why_.bay);
        takes(why, "--on", why_.on);
        why.add_flag("--steady", why_.steady);
        takes(why, "--cases", lines_.cases);
        why.add_flag("--short", lines_.in_short);
        takes(why, "--threads", lines_.threads);
    }

    void mix_command() {
        CLI::App& mix = add("mix", mix_help, [this] { return cli::mix(options_, mix_); });
        mix.add_option("parts", mix_.parts);
        takes(mix, "--reach", mix_.reach);
        takes(mix, "--with", mix_.with);
        takes(mix, "--measured", mix_.measured);
        takes(mix, "--bucket", mix_.bucket);
        takes(mix, "--barrow", mix_.barrow);
        takes(mix, "--vessel", mix_.vessel);
    }

    void tank_commands() {
        CLI::App& log = add("log", log_help, [this] { return cli::log(options_, log_); });
        log.add_option("words", log_.words);
        log.add_flag("--new", log_.begin);
        const std::pair<const char*, std::string*> of_log[] = {
            {"--tank", &log_.tank}, {"--bay", &log_.bay},     {"--on", &log_.on},         {"--note", &log_.note},
            {"--wait", &log_.wait}, {"--name", &log_.name},   {"--inside", &log_.inside}, {"--bays", &log_.bays},
            {"--wall", &log_.wall}, {"--worms", &log_.worms}, {"--bucket", &log_.bucket}, {"--barrow", &log_.barrow}};
        for (const auto& [option, value] : of_log) takes(log, option, *value);

        CLI::App& round = add("round", round_help, [this] { return cli::round(options_, round_); });
        round.add_option("folder", round_.folder)->required();
        takes(round, "--on", round_.on);
        round.add_flag("--full", round_.full);
    }

    void call_commands() {
        CLI::App& ask = add("ask", ask_help, [this] { return cli::ask(options_, ask_); });
        takes(ask, "--record", ask_.record);
        ask.add_flag("--again", ask_.again);
        takes(ask, "--tank", ask_.tank);
        takes(ask, "--bay", ask_.bay);

        CLI::App& handover = add("handover", handover_help, [this] { return cli::handover(options_, handover_); });
        handover.add_option("call", handover_.call)->required();
        handover.add_flag("--html", handover_.html);
        handover.add_flag("--full", handover_.full);
        takes(handover, "--tank", handover_.tank);
        takes(handover, "--bay", handover_.bay);

        CLI::App& learn = add("learn", learn_help, [this] { return cli::learn(options_, learn_); });
        learn.add_option("calls", learn_.folders);
        learn.add_flag("--full", learn_.full);
    }

    void reading_commands() {
        CLI::App& show = add("show", show_help, [this] { return cli::show(options_, kind_, name_); });
        show.add_option("kind", kind_);
        show.add_option("name", name_);

        CLI::App& handbook = add("handbook", handbook_help, [this] { return cli::handbook(options_, handbook_); });
        takes(handbook, "--format", handbook_.format);
        takes(handbook, "-o,--output", handbook_.output);
    }

    void rule_commands() {
        CLI::App& check = add("check", check_help, [this] { return cli::check(options_, check_); });
        check.add_option("rules", check_.rules);
        takes(check, "--format", check_.format);
        check.add_flag("--strict", check_.strict);
        check.add_flag("--full", check_.full);

        CLI::App& try_app = add("try", try_help, [this] { return try_cases(options_, try_); });
        try_app.add_option("cases", try_.cases);
        takes(try_app, "--at-least-first", try_.at_least_first);
        takes(try_app, "--at-least-three", try_.at_least_three);
        takes(try_app, "--junit", try_.junit);
        try_app.add_flag("--coverage", try_.coverage);

        CLI::App& compare = add("compare", compare_help, [this] { return cli::compare(options_, compare_); });
        compare.add_option("old", compare_.before);
        compare.add_option("new", compare_.after);
        compare.add_option("cases", compare_.cases);
    }

    CLI::App app_{"", "lidlift"};
    Options options_;
    WhyOptions why_;
    WhyLinesOptions lines_;
    MixOptions mix_;
    LogOptions log_;
    RoundOptions round_;
    AskOptions ask_;
    HandoverOptions handover_;
    LearnOptions learn_;
    std::string kind_;  ///< of `show`
    std::string name_;
    HandbookOptions handbook_;
    CheckOptions check_;
    TryOptions try_;
    CompareOptions compare_;
    std::vector<Command> commands_;
};

int run(int argc, char** argv) {
    const std::vector<std::string> arguments(argv + 1, argv + argc);
    for (const std::string& argument : arguments)
        if (const auto bad = find_bad_character(argument)) {
            print_error("an argument holds " + bad->what + ", at its character " + std::to_string(bad->column) + ": " +
                        argument);
            return unusable_input;
        }
    if (arguments.empty()) {
        std::fputs(main_help, stderr);
        return unusable_input;
    }
    return CommandLine().run(with_units_joined(arguments));
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
