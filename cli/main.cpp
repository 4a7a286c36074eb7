// The command line, and nothing else: options in, one command's function called, exit code out.
#include "cli/session.hpp"
#include "cli/show.hpp"
#include "cli/why.hpp"
#include "engine/nearest_name.hpp"
#include "engine/plain_text.hpp"

#include <cstdio>
#include <exception>
#include <string>
#include <vector>

#include <CLI/CLI.hpp>

namespace {

using namespace lidlift;
using namespace lidlift::cli;

constexpr const char* short_help = R"(lidlift says what is probably wrong in a worm bed or composting tank, and what to do.

Tell it what you smell, see or squeeze:

  lidlift why smell_rotten=strong squeeze=stream
  lidlift why worm_place=up_walls_lid days_since_worms="2 days"
  lidlift why --told examples/reeking_tank.yaml

What it can be told, and every answer it takes:

  lidlift show signs
  lidlift show signs squeeze

Anything you do not know is simply left out. More: lidlift why --help
)";

constexpr const char* why_help = R"(Says which causes are likely and why, what to do first, what could hurt someone, and when to look again.

  lidlift why smell_rotten=strong squeeze=stream      two things you noticed
  lidlift why worm_place=up_walls_lid,outside_dried   several answers at once
  lidlift why bed_temperature="31 °C"                 a measurement (°F is taken too)
  lidlift why bed_temperature="28 to 32 °C"           a range of it
  lidlift why smell_sour=strong,unsure                when you are not sure
  lidlift why smell_ammonia=?                         asked, but not known
  lidlift why --told FILE                             answers in a YAML file; - is standard input

Signs that you leave out count as not known, never as "no".)";

void add_common(CLI::App& command, Options& options) {
    command.add_option("--rules", options.rules, "Rule file or folder to read after the default rules (may be repeated)")->type_name("PATH")->allow_extra_args(false);
    command.add_option("--only-rules", options.only_rules, "Rule file or folder to read instead of the default rules (may be repeated)")->type_name("PATH")->allow_extra_args(false);
    command.add_flag("--json", options.json, "Print JSON instead of text");
}

/// What CLI11 says in its own words, in ours, with the nearest option or command.
int complain(const CLI::ParseError& error, const std::vector<std::string>& arguments, const std::vector<std::string>& known) {
    std::string text = error.what();
    if (const auto line_end = text.find('\n'); line_end != std::string::npos) text.resize(line_end);
    for (const std::string& argument : arguments) {
        const bool option = argument.size() > 1 && argument.front() == '-';
        const std::string name = argument.substr(0, argument.find('='));
        const bool is_known = std::find(known.begin(), known.end(), name) != known.end();
        if ((option || &argument == &arguments.front()) && !is_known) {
            const std::string hint = did_you_mean(name, known);
            text = (option ? "there is no option '" : "there is no command '") + name + "'" + (hint.empty() ? "" : " (" + hint + ")");
            break;
        }
    }
    print_error(text + "; lidlift --help shows what there is");
    return unusable_input;
}

int run(int argc, char** argv) {
    std::vector<std::string> arguments(argv + 1, argv + argc);
    for (const std::string& argument : arguments)
        if (const auto bad = find_bad_character(argument)) {
            print_error("an argument holds " + bad->what + ", at its character " + std::to_string(bad->column) + ": " + argument);
            return unusable_input;
        }

    CLI::App app{"Says what is probably wrong in a worm bed or composting tank, and what to do", "lidlift"};
    app.set_version_flag("--version", std::string("lidlift ") + LIDLIFT_VERSION);
    app.footer(short_help);
    Options options;
    WhyOptions why_options;
    std::string kind;
    std::string name;

    CLI::App* why_command = app.add_subcommand("why", why_help);
    why_command->add_option("told", why_options.words, "What you know: sign=value, as often as you like")->type_name("SIGN=VALUE");
    why_command->add_option("--told", why_options.told, "YAML file with answers; - is standard input (may be repeated)")->type_name("FILE")->allow_extra_args(false);
    why_command->add_flag("--full", why_options.full, "Print every cause with its whole balance, and all that is usually cut");
    CLI::App* show_command = app.add_subcommand("show", "Shows what the rule base holds: signs, causes, steps, cautions, clashes, rules, sources, words");
    show_command->add_option("kind", kind, "What to show")->type_name("KIND");
    show_command->add_option("name", name, "Which one; without it, the list")->type_name("NAME");
    for (CLI::App* command : {&app, why_command, show_command}) add_common(*command, options);

    if (arguments.empty()) {
        print_error("say a command");
        std::fputs(short_help, stderr);
        return unusable_input;
    }
    try {
        app.parse(argc, argv);
    } catch (const CLI::CallForHelp&) {
        const CLI::App* asked = why_command->parsed() ? why_command : show_command->parsed() ? show_command : &app;
        return print(asked->help()) ? done : cannot_read_or_write;
    } catch (const CLI::CallForVersion&) {
        return print(std::string("lidlift ") + LIDLIFT_VERSION + "\n") ? done : cannot_read_or_write;
    } catch (const CLI::ParseError& error) {
        return complain(error, arguments, {"why", "show", "--rules", "--only-rules", "--json", "--help", "-h", "--version", "--told", "--full"});
    }
    if (why_command->parsed()) return why(options, why_options);
    if (show_command->parsed()) return show(options, kind, name);
    print_error("say a command: why or show; lidlift --help shows what there is");
    return unusable_input;
}

}  // namespace

int main(int argc, char** argv) {
    try {
        return run(argc, argv);
    } catch (const std::bad_alloc&) {
        std::fputs("lidlift: not enough memory\n", stderr);
    } catch (const std::exception& error) {
        std::fprintf(stderr, "lidlift: something went wrong that should not have: %s\n", lidlift::for_terminal(error.what()).c_str());
    }
    return lidlift::cli::cannot_read_or_write;
}
