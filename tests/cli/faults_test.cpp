// The machine fails, not the user: no memory, a full or read-only disk, files that vanish, pipes that break, streams that are
// closed, signals at any moment. Always a clear message and an exit status that was promised, never half a file.
#include "tests/catch.hpp"
#include "tests/cli/program.hpp"

#include <algorithm>
#include <chrono>
#include <csignal>
#include <filesystem>
#include <functional>
#include <string>
#include <sys/mount.h>
#include <sys/resource.h>
#include <thread>
#include <vector>

namespace cli_faults_test {

using namespace lidlift::test;
namespace fs = std::filesystem;
using Words = std::vector<std::string>;

namespace {

#if defined(__SANITIZE_ADDRESS__)
constexpr bool address_space_is_free = false;
#elif defined(__has_feature)
constexpr bool address_space_is_free = !__has_feature(address_sanitizer);
#else
constexpr bool address_space_is_free = true;
#endif

constexpr const char* small_rules =
    "signs:\n  wet: {ask: W, topic: moisture, effort: look, seen anyway: sometimes, sources: [common_practice]}\n";

/// One run under conditions of its own: `prepare` is called in the child before the program begins.
class Started {
public:
    Started(const Words& arguments, const std::function<void()>& prepare, const std::string& input = {}) {
        const std::string in = folder_.write("in", input);
        Words words = {LIDLIFT_PROGRAM};
        words.insert(words.end(), arguments.begin(), arguments.end());
        std::vector<char*> argv;
        for (std::string& word : words) argv.push_back(word.data());
        argv.push_back(nullptr);
        const std::string out = folder_.path("out");
        const std::string err = folder_.path("err");
        // Until the program has begun, a signal that is sent must not run what the tests do with it.
        sigset_t all;
        sigset_t before;
        sigfillset(&all);
        sigprocmask(SIG_BLOCK, &all, &before);
        child_ = fork();
        if (child_ != 0) {
            sigprocmask(SIG_SETMASK, &before, nullptr);
            return;
        }
        for (const int caught : {SIGINT, SIGTERM, SIGHUP, SIGSEGV, SIGFPE, SIGILL, SIGABRT}) signal(caught, SIG_DFL);
        sigprocmask(SIG_SETMASK, &before, nullptr);
        constexpr int create = O_WRONLY | O_CREAT | O_TRUNC | O_CLOEXEC;
        dup2(::open(in.c_str(), O_RDONLY | O_CLOEXEC), 0);
        dup2(::open(out.c_str(), create, 0600), 1);
        dup2(::open(err.c_str(), create, 0600), 2);
        prepare();
        execv(LIDLIFT_PROGRAM, argv.data());
        _exit(127);
    }
    void send(int signal) const { kill(child_, signal); }
    [[nodiscard]] Run ended() const {
        int status = 0;
        while (waitpid(child_, &status, 0) < 0 && errno == EINTR) {
        }
        Run run;
        run.exit = WIFEXITED(status) ? WEXITSTATUS(status) : -WTERMSIG(status);
        run.out = file_text(folder_.path("out"));
        run.err = file_text(folder_.path("err"));
        return run;
    }

private:
    TemporaryFolder folder_;
    pid_t child_ = -1;
};

Run run_where(const std::function<void()>& prepare, const Words& arguments, const std::string& input = {}) {
    return Started(arguments, prepare, input).ended();
}

std::function<void()> address_space(rlim_t kibibytes) {
    return [kibibytes] {
        const rlimit limit{kibibytes * 1024, kibibytes * 1024};
        setrlimit(RLIMIT_AS, &limit);
        const rlimit no_core{0, 0};
        setrlimit(RLIMIT_CORE, &no_core);
    };
}

/// The least address space in which the program gets as far as its own first line; below it, the loader fails.
rlim_t least_space() {
    for (rlim_t kibibytes = 4 * 1024; kibibytes < 256 * 1024; kibibytes += 1024) {
        const int exit = run_where(address_space(kibibytes), {"--version"}).exit;
        if (exit == 0 || exit == 3) return kibibytes;
    }
    throw std::runtime_error("the program does not start in 256 MiB");
}

/// A folder that nothing can be written to, also by root; `good` is false where that cannot be had.
class ReadOnlyFolder {
public:
    explicit ReadOnlyFolder(const std::function<void(const std::string&)>& fill) {
        fs::create_directory(path());
        if (geteuid() != 0) {
            fill(path());
            fs::permissions(path(), fs::perms::owner_read | fs::perms::owner_exec);
            good = true;
            return;
        }
        if (mount("tmpfs", path().c_str(), "tmpfs", 0, "size=256k") != 0) return;
        mounted_ = true;
        fill(path());
        good = mount(nullptr, path().c_str(), nullptr, MS_REMOUNT | MS_RDONLY, nullptr) == 0;
    }
    ~ReadOnlyFolder() {
        if (mounted_) umount(path().c_str());
        std::error_code ignored;
        if (!mounted_) fs::permissions(path(), fs::perms::owner_all, ignored);
    }
    ReadOnlyFolder(const ReadOnlyFolder&) = delete;
    ReadOnlyFolder& operator=(const ReadOnlyFolder&) = delete;
    [[nodiscard]] std::string path(const std::string& name = {}) const {
        return folder_.path("still") + (name.empty() ? "" : "/" + name);
    }
    bool good = false;

private:
    TemporaryFolder folder_;
    bool mounted_ = false;
};

std::size_t files_in(const std::string& folder) {
    return static_cast<std::size_t>(std::distance(fs::directory_iterator(folder), {}));
}

}  // namespace

TEST_CASE("where the memory runs out it is said, whenever that happens", "[cli][faults]") {
    if (!address_space_is_free) {
        WARN("a sanitizer needs the address space, so that a small one was not tried");
        return;
    }
    const TemporaryFolder folder;
    const std::string rules = folder.write("rules.yaml", small_rules);
    std::string many = "conclusions:\n";
    for (int i = 0; i < 12'000; ++i) many += "  c" + std::to_string(i) + ": {means: 'so " + std::to_string(i) + "'}\n";
    const std::string large = folder.write("large.yaml", many);
    const std::string record = "tank: T\nentries:\n  - {on: 2026-03-08, note: begun}\n";
    const rlim_t least = least_space();
    struct Row {
        Words words;
        rlim_t step;  ///< KiB
    };
    for (const auto& [words, step] : std::vector<Row>{{{"why", "it reeks of ammonia and there are flies"}, 3'100},
                                                      {{"why", "smell_ammonia=strong", "--json"}, 6'100},
                                                      {{"show", "conclusions", "--only-rules", large}, 7'300},
                                                      {{"handbook", "--format", "html"}, 8'100},
                                                      {{"round", folder.path("site"), "--on", "2026-03-20"}, 6'700},
                                                      {{"log", "--tank", folder.path("site/t.yaml"), "did", "it"}, 4'900}}) {
        fs::create_directory(folder.path("site"));
        folder.write("site/t.yaml", record);
        int failed = 0;
        int exit = -1;
        for (rlim_t space = least; exit != 0; space += step) {
            REQUIRE(space < least + 512 * 1024);
            const Run run = run_where(address_space(space), words);
            CAPTURE(words.front(), space, run.exit, run.err);
            exit = run.exit;
            REQUIRE((exit == 0 || exit == 3));
            if (exit == 0) {
                CHECK(run.err == "");
                CHECK_FALSE(run.out.empty());
                continue;
            }
            ++failed;
            CHECK(run.err == "lidlift: not enough memory\n");
            CHECK(run.out == "");
            CHECK(file_text(folder.path("site/t.yaml")) == record);
        }
        CHECK(failed > 0);
        CHECK(files_in(folder.path("site")) == 1);
    }
}

TEST_CASE("in a read-only folder the reading commands work and the writing ones say why not", "[cli][faults]") {
    const std::string record = "tank: T\nentries:\n  - {on: 2026-03-08, note: begun}\n";
    const ReadOnlyFolder folder([&](const std::string& path) {
        std::ofstream(path + "/t.yaml", std::ios::binary) << record;
        std::ofstream(path + "/rules.yaml", std::ios::binary) << small_rules;
    });
    if (!folder.good) {
        WARN("a read-only folder could not be made, so that none was tried");
        return;
    }
    const std::string tank = folder.path("t.yaml");
    check_answer(run({"why", "--tank", tank, "--on", "2026-03-09"}));
    check_answer(run({"why", "wet=yes", "--only-rules", folder.path("rules.yaml")}));
    check_error(run({"log", "--tank", tank, "did", "it"}), 3, "cannot write '" + tank + "'");
    check_error(run({"log", "--new", "--name", "U", "--tank", folder.path("u.yaml")}), 3,
                "cannot write '" + folder.path("u.yaml"));
    check_error(run({"handbook", "-o", folder.path("book.md")}), 3, "cannot write '" + folder.path("book.md"));
    check_error(run({"ask", "--record", folder.path("call.yaml")}), 3, "cannot make the call record");
    check_error(run({"ask", "--record", folder.path()}), 3, "cannot make a call record in");
    CHECK(file_text(tank) == record);
    CHECK(files_in(folder.path()) == 2);
}

TEST_CASE("a link that leads to itself costs the round nothing but itself", "[cli][faults]") {
    const TemporaryFolder folder;
    folder.write("good.yaml", "tank: Well\n");
    fs::create_symlink("loop.yaml", folder.path("loop.yaml"));
    const Run result = run({"round", folder.path(), "--on", "2026-03-09"});
    CHECK(result.exit == 3);
    CHECK(holds(result.err, "cannot read '" + folder.path("loop.yaml") + "'"));
    CHECK(holds(result.out, "Well"));
}

TEST_CASE("files that come and go while a round reads them are read, or said to be gone", "[cli][faults]") {
    const TemporaryFolder folder;
    folder.write("good.yaml", "tank: Well\n");
    const pid_t restless = fork();
    REQUIRE(restless >= 0);
    if (restless == 0) {
        // Another program that writes and removes without asking.
        while (getppid() != 1)
            for (int i = 0; i < 40; ++i) {
                const std::string path = folder.path("t" + std::to_string(i) + ".yaml");
                const int file = ::open(path.c_str(), O_WRONLY | O_CREAT | O_CLOEXEC, 0600);
                (void)!::write(file, "tank: Here\n", 11);
                ::close(file);
                if (i >= 20) ::unlink(folder.path("t" + std::to_string(i - 20) + ".yaml").c_str());
                if (i < 20) ::unlink(folder.path("t" + std::to_string(i + 20) + ".yaml").c_str());
            }
        _exit(0);
    }
    std::vector<Run> runs;
    for (int i = 0; i < 6; ++i) runs.push_back(run({"round", folder.path(), "--on", "2026-03-09"}));
    kill(restless, SIGKILL);
    waitpid(restless, nullptr, 0);
    for (const Run& result : runs) {
        CAPTURE(result.exit, result.err);
        CHECK((result.exit == 0 || result.exit == 2 || result.exit == 3));
        CHECK((result.exit == 0) == result.err.empty());
        CHECK(holds(result.out, "Well"));
    }
}

TEST_CASE("a reader who leaves early ends the program quietly", "[cli][faults]") {
    const TemporaryFolder folder;
    fs::create_directory(folder.path("small"));
    const std::string tank = folder.write("t.yaml", "tank: T\n");
    const std::string rules = folder.write("small/rules.yaml", small_rules);
    int ends[2];
    REQUIRE(pipe2(ends, O_CLOEXEC) == 0);
    close(ends[0]);
    for (const Words& words : std::vector<Words>{{"handbook", "--only-rules", rules},
                                                 {"why", "wet=yes", "--only-rules", rules},
                                                 {"show", "signs"},
                                                 {"round", folder.path()},
                                                 {"check", "--only-rules", rules},
                                                 {"log", "--tank", tank, "did", "it"}}) {
        CAPTURE(words.front());
        const Run ended = run_where([&] { dup2(ends[1], 1); }, words);
        CHECK(ended.exit == -SIGPIPE);
        CHECK(ended.err == "");
        // Started by a program that ignores the signal, it says so instead.
        const Run told = run_where(
            [&] {
                signal(SIGPIPE, SIG_IGN);
                dup2(ends[1], 1);
            },
            words);
        CHECK(told.exit == 3);
        CHECK(holds(told.err, "lidlift: cannot write to standard output\n"));
    }
    close(ends[1]);
    CHECK(file_text(tank).find("did: it") != std::string::npos);  // written before anything was said
}

TEST_CASE("a call whose questions cannot be shown is no success", "[cli][faults]") {
    const TemporaryFolder folder;
    const std::string record = folder.path("call.yaml");
    for (const Words& words : std::vector<Words>{{"ask"}, {"ask", "--record", record}}) {
        const Run full = run(words, "it is too wet\nstop\n", Stdout::full);
        CHECK(full.exit == 3);
        CHECK(full.err == "lidlift: cannot write to standard output\n");
        CHECK(run(words, "it is too wet\nstop\n", Stdout::closed).exit == 3);
    }
    CHECK(holds(file_text(record), "call:"));
    const Run told = run({"ask", "--record", record}, "stop\n");
    CHECK(told.exit == 0);
}

TEST_CASE("closed standard input is said, not taken for an empty file", "[cli][faults]") {
    const auto without_input = [] { close(0); };
    for (const Words& words :
         std::vector<Words>{{"why", "-"}, {"why", "--told", "-"}, {"show", "--only-rules", "-"}, {"why", "--tank", "-"}})
        check_error(run_where(without_input, words), 3, "cannot read standard input: Bad file descriptor");
    check_answer(run_where(without_input, {"why", "smell_ammonia=strong"}));
    CHECK(run_where(without_input, {"ask"}).exit == 0);  // nobody answers: the call ends
}

TEST_CASE("what is closed is never taken for a file", "[cli][faults]") {
    const TemporaryFolder folder;
    const std::string rules = folder.write("rules.yaml", small_rules);
    const std::string record = "tank: T\nentries:\n  - {on: 2026-03-08, note: begun}\n";
    struct Row {
        std::vector<int> closed;
        int exit;
    };
    for (const auto& [closed, exit] :
         std::vector<Row>{{{0}, 0}, {{1}, 3}, {{2}, 0}, {{0, 1}, 3}, {{0, 2}, 0}, {{1, 2}, 3}, {{0, 1, 2}, 3}}) {
        const std::string tank = folder.write("t.yaml", record);
        const auto prepare = [&, which = closed] {
            for (const int stream : which) close(stream);
        };
        CAPTURE(closed.front(), closed.size());
        const Run logged =
            run_where(prepare, {"log", "--only-rules", rules, "--tank", tank, "--on", "2026-03-09", "did", "it"});
        CHECK(logged.exit == exit);
        CHECK(file_text(tank) == record + "  - {on: 2026-03-09, did: it}\n");
        // A complaint that has nowhere to go goes nowhere.
        CHECK(run_where(prepare, {"log", "--only-rules", rules, "--tank", tank, "wett=yes"}).exit == 2);
        CHECK(file_text(tank) == record + "  - {on: 2026-03-09, did: it}\n");
        const std::string book = folder.path("book.md");
        CHECK(run_where(prepare, {"handbook", "--only-rules", rules, "-o", book}).exit == 0);
        CHECK(holds(file_text(book), "wet"));
        CHECK_FALSE(holds(file_text(book), "wrote"));
        fs::remove(book);
    }
}

TEST_CASE("interrupted at any moment, the program ends by the signal and leaves nothing half done", "[cli][faults]") {
    const TemporaryFolder folder;
    fs::create_directory(folder.path("site"));
    const std::string record = "tank: T\nentries:\n  - {on: 2026-03-08, note: begun}\n";
    const std::string tank = folder.write("site/t.yaml", record);
    const std::string logged = record + "  - {on: 2026-03-09, did: it}\n";
    for (const Words& words : std::vector<Words>{{"why", "it reeks of ammonia"},
                                                 {"round", folder.path("site"), "--on", "2026-03-09"},
                                                 {"handbook", "-o", folder.path("site/book.md")},
                                                 {"log", "--tank", tank, "--on", "2026-03-09", "did", "it"}}) {
        folder.write("site/t.yaml", record);
        const auto begin = std::chrono::steady_clock::now();
        const Run whole = run(words);
        REQUIRE(whole.exit == 0);
        const auto usual = std::chrono::steady_clock::now() - begin;
        constexpr int moments = 5;
        for (const int signal : {SIGINT, SIGTERM, SIGHUP})
            for (int moment = 0; moment < moments; ++moment) {
                folder.write("site/t.yaml", record);
                fs::remove(folder.path("site/book.md"));
                const Started started(words, [] {});
                std::this_thread::sleep_for(usual * moment / moments);
                started.send(signal);
                const Run run = started.ended();
                CAPTURE(words.front(), signal, moment, run.exit, run.err);
                CHECK((run.exit == 0 || run.exit == -signal));
                CHECK(run.err == (run.exit == 0 ? whole.err : ""));
                CHECK(whole.out.substr(0, run.out.size()) == run.out);
                const std::string now = file_text(tank);
                CHECK((now == record || (words.front() == "log" && now == logged)));
                const std::string book = file_text(folder.path("site/book.md"));
                CHECK((book.empty() || book.ends_with("\n")));
            }
    }
    // What a writer that was ended had put beside the record is taken away by the next one.
    folder.write("site/t.yaml", record);
    fs::remove(folder.path("site/book.md"));
    check_answer(run({"log", "--tank", tank, "--on", "2026-03-09", "did", "it"}));
    CHECK(file_text(tank) == logged);
}

}  // namespace cli_faults_test
