// The command line, and nothing else: options in, one command's function called, exit code out.
#include "cli/check.hpp"
#include "cli/handbook.hpp"
#include "cli/help.hpp"
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

/// The help texts are our own, so options need no description here.
void add_common(CLI::App& command, Options& options) {
    command.add_option("--rules", options.rules)->allow_extra_args(false);
    command.add_option("--only-rules", options.only_rules)->allow_extra_args(false);
    command.add_flag("--json", options.json);
}

/// What could not be used, in our words, with the nearest option or command; `left_over` is what CLI11 did not take.
int complain(const CLI::ParseError& error, const std::vector<std::string>& left_over, bool command_given) {
    static const std::vector<std::string> known = {"why",      "show",     "check", "handbook",  "--rules", "--only-rules",
                                                   "--json",   "--help",   "-h",    "--version", "--told",  "--full",
                                                   "--format", "--output", "-o",    "--strict"};
    std::string text = error.what();
    if (const auto line_end = text.find('\n'); line_end != std::string::npos) text.resize(line_end);
    if (dynamic_cast<const CLI::ArgumentMismatch*>(&error)) text = text.substr(0, text.find(':')) + " needs something after it";
    if (!left_over.empty()) {
        const std::string name = left_over.front().substr(0, left_over.front().find('='));
        const std::string hint = did_you_mean(name, known);
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
    app.set_version_flag("--version", std::string("lidlift ") + LIDLIFT_VERSION);
    Options options;
    WhyOptions why_options;
    HandbookOptions handbook_options;
    std::string kind;
    std::string name;

    CLI::App* why_command = app.add_subcommand("why");
    why_command->add_option("words", why_options.words);
    why_command->add_option("--told", why_options.told)->allow_extra_args(false);
    why_command->add_flag("--full", why_options.full);
    CLI::App* show_command = app.add_subcommand("show");
    show_command->add_option("kind", kind);
    show_command->add_option("name", name);
    CLI::App* handbook_command = app.add_subcommand("handbook");
    handbook_command->add_option("--format", handbook_options.format)->allow_extra_args(false);
    handbook_command->add_option("-o,--output", handbook_options.output)->allow_extra_args(false);
    CheckOptions check_options;
    CLI::App* check_command = app.add_subcommand("check");
    check_command->add_option("rules", check_options.rules);
    check_command->add_option("--format", check_options.format)->allow_extra_args(false);
    check_command->add_flag("--strict", check_options.strict);
    check_command->add_flag("--full", check_options.full);
    for (CLI::App* command : {&app, why_command, show_command, check_command, handbook_command}) add_common(*command, options);

    if (arguments.empty()) {
        std::fputs(main_help, stderr);
        return unusable_input;
    }
    try {
        app.parse(argc, argv);
    } catch (const CLI::CallForHelp&) {
        return print(why_command->parsed()        ? why_help
                     : show_command->parsed()     ? show_help
                     : check_command->parsed()    ? check_help
                     : handbook_command->parsed() ? handbook_help
                                                  : main_help)
                   ? done
                   : cannot_read_or_write;
    } catch (const CLI::CallForVersion&) {
        return print(std::string("lidlift ") + LIDLIFT_VERSION + "\n") ? done : cannot_read_or_write;
    } catch (const CLI::ParseError& error) {
        return complain(error, app.remaining(true), !app.get_subcommands().empty());
    }
    if (why_command->parsed()) return why(options, why_options);
    if (show_command->parsed()) return show(options, kind, name);
    if (check_command->parsed()) return check(options, check_options);
    if (handbook_command->parsed()) return handbook(options, handbook_options);
    print_error("say a command: why, show, check or handbook; lidlift --help shows what there is");
    return unusable_input;
}

}  // namespace

int main(int argc, char** argv) {
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
