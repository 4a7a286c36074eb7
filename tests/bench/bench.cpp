// What lidlift costs, as ratios measured in one run: lidlift_bench LIDLIFT EMPTY_PROGRAM [TIMES]
//
// Whole processes are started in turn, lidlift and the empty program, so that whatever else the machine does meets both alike,
// and the medians are compared. The parts are measured within this process. Milliseconds are printed aside and depend on the
// machine.
#include "engine/diagnosis.hpp"
#include "engine/rule_base_reader.hpp"
#include "rules/default_rules.hpp"
#include "tests/bench/processor_time.hpp"

#include <algorithm>
#include <chrono>
#include <cstdio>
#include <cstdlib>
#include <fcntl.h>
#include <optional>
#include <spawn.h>
#include <string>
#include <sys/wait.h>
#include <unistd.h>
#include <vector>

namespace {

using namespace lidlift;
using Milliseconds = std::chrono::duration<double, std::milli>;

template <typename Work>
double milliseconds(Work&& work) {
    const auto start = std::chrono::steady_clock::now();
    work();
    return Milliseconds(std::chrono::steady_clock::now() - start).count();
}

double median(std::vector<double> times) {
    std::ranges::sort(times);
    const std::size_t half = times.size() / 2;
    return times.size() % 2 == 1 ? times[half] : (times[half - 1] + times[half]) / 2;
}

[[noreturn]] void stop(const std::string& why) {
    std::fprintf(stderr, "bench: %s\n", why.c_str());
    std::exit(1);
}

/// Starts a program with its output thrown away, and waits until it has ended.
void run(std::vector<std::string> command) {
    std::vector<char*> arguments;
    for (std::string& word : command) arguments.push_back(word.data());
    arguments.push_back(nullptr);
    posix_spawn_file_actions_t actions;
    posix_spawn_file_actions_init(&actions);
    posix_spawn_file_actions_addopen(&actions, STDOUT_FILENO, "/dev/null", O_WRONLY, 0);
    pid_t child = 0;
    const int error = posix_spawn(&child, arguments[0], &actions, nullptr, arguments.data(), environ);
    posix_spawn_file_actions_destroy(&actions);
    if (error != 0) stop("cannot start " + command[0]);
    int status = 0;
    if (waitpid(child, &status, 0) != child || !WIFEXITED(status) || WEXITSTATUS(status) != 0) stop(command[0] + " failed");
}

struct Processes {
    double empty = 0;
    std::vector<double> lidlift;  ///< by command
};

Processes measure_processes(const std::string& empty, const std::vector<std::vector<std::string>>& commands, int times) {
    std::vector<double> empty_times;
    std::vector<std::vector<double>> lidlift_times(commands.size());
    for (int i = 0; i < times; ++i) {
        empty_times.push_back(milliseconds([&] { run({empty}); }));
        for (std::size_t c = 0; c < commands.size(); ++c) lidlift_times[c].push_back(milliseconds([&] { run(commands[c]); }));
    }
    Processes processes{median(empty_times), {}};
    for (const auto& own : lidlift_times) processes.lidlift.push_back(median(own));
    return processes;
}

struct Part {
    const char* name;
    std::vector<double> times;
};

/// The parts of `lidlift why smell_ammonia=strong`, in the order in which they run.
std::vector<Part> measure_parts(int times) {
    std::vector<Part> parts = {
        {"reading the rule base's image", {}}, {"making it ready to weigh", {}}, {"hearing the answer", {}},
        {"chaining and ranking", {}},          {"balance sheets", {}},           {"planning steps and cautions", {}},
        {"choosing the next questions", {}}};
    for (int i = 0; i < times; ++i) {
        RuleBase rule_base;
        std::optional<Ranker> ranker;
        Told told;
        Ranking ranking;
        Advice advice;
        std::vector<Question> questions;
        std::size_t part = 0;
        const auto measure = [&](auto&& work) { parts[part++].times.push_back(bench::milliseconds_of(work)); };
        measure([&] {
            Outcome<RuleBase> read = default_rule_base();
            if (!read) stop(read.fault().text);
            rule_base = *std::move(read);
        });
        measure([&] { ranker.emplace(rule_base); });
        measure([&] {
            if (const auto fault = hear_argument(told, rule_base, "smell_ammonia=strong")) stop(fault->text);
        });
        measure([&] { ranking = ranker->rank_in_brief(told.facts); });
        measure([&] { ranker->explain(ranking, told.facts, &RankedCause::reported); });
        measure([&] { advice = advise(rule_base, told, ranking); });
        measure([&] { questions = next_questions(*ranker, told, ranking, questions_to_show); });
    }
    return parts;
}

}  // namespace

int main(int argc, char** argv) {
    if (argc != 3 && argc != 4) stop("say: lidlift_bench LIDLIFT EMPTY_PROGRAM [TIMES]");
    const std::string lidlift = argv[1];
    const int times = argc == 4 ? std::max(1, std::atoi(argv[3])) : 31;

    const std::vector<std::vector<std::string>> commands = {{lidlift, "--version"},
                                                            {lidlift, "why", "smell_ammonia=strong"},
                                                            {lidlift, "why", "--json", "smell_ammonia=strong"},
                                                            {lidlift, "show", "causes"}};
    const Processes processes = measure_processes(argv[2], commands, times);
    std::printf("whole process, median of %d in turn              times empty      (ms)\n", times);
    std::printf("%-48s %11.1f %9.2f\n", "a C++ program that prints one line", 1.0, processes.empty);
    for (std::size_t c = 0; c < commands.size(); ++c) {
        std::string name = "lidlift";
        for (std::size_t word = 1; word < commands[c].size(); ++word) name += " " + commands[c][word];
        std::printf("%-48s %11.1f %9.2f\n", name.c_str(), processes.lidlift[c] / processes.empty, processes.lidlift[c]);
    }

    const std::vector<Part> parts = measure_parts(times);
    double whole = 0;
    for (const Part& part : parts) whole += median(part.times);
    std::printf("\nwithin lidlift why smell_ammonia=strong          share            (ms)\n");
    for (const Part& part : parts)
        std::printf("%-48s %8.1f %%  %9.3f\n", part.name, 100 * median(part.times) / whole, median(part.times));
}
