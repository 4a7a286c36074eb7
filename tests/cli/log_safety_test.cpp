// lidlift log killed at any moment, by two people at once, and on a full disk: no half-written record, no lost entry.
#include "tests/catch.hpp"
#include "tests/cli/program.hpp"
#include "tests/engine/small_tanks.hpp"

#include <algorithm>
#include <chrono>
#include <cstdlib>
#include <filesystem>
#include <random>
#include <set>
#include <string>
#include <sys/file.h>
#include <sys/mount.h>
#include <sys/resource.h>
#include <vector>

namespace cli_log_safety_test {

using namespace lidlift;
using namespace lidlift::test;
namespace fs = std::filesystem;
using std::chrono::microseconds;

namespace {

constexpr const char* small_rules =
    "signs:\n  wet: {ask: W, topic: moisture, effort: look, seen anyway: sometimes, sources: [common_practice]}\n";

/// In memory where that can be had: these tests are about the program's end, not the disk's.
class FastFolder {
public:
    FastFolder() {
        std::string name = access("/dev/shm", W_OK) == 0 ? "/dev/shm/lidlift_test.XXXXXX" : "/tmp/lidlift_test.XXXXXX";
        if (!mkdtemp(name.data())) throw std::runtime_error("cannot make a folder for a test");
        path_ = name;
    }
    ~FastFolder() {
        std::error_code ignored;
        fs::remove_all(path_, ignored);
    }
    FastFolder(const FastFolder&) = delete;
    FastFolder& operator=(const FastFolder&) = delete;
    [[nodiscard]] std::string write(const std::string& name, const std::string& text) const {
        std::ofstream(path_ / name, std::ios::binary) << text;
        return (path_ / name).string();
    }
    [[nodiscard]] std::string path(const std::string& name) const { return (path_ / name).string(); }
    [[nodiscard]] std::set<std::string> files() const {
        std::set<std::string> names;
        for (const auto& entry : fs::directory_iterator(path_)) names.insert(entry.path().filename().string());
        return names;
    }

private:
    fs::path path_;
};

/// Starts the program with its standard output and error in files; nothing is waited for.
pid_t start(const std::vector<std::string>& arguments, const std::string& out, rlim_t largest_file = RLIM_INFINITY) {
    std::vector<std::string> words = {LIDLIFT_PROGRAM};
    words.insert(words.end(), arguments.begin(), arguments.end());
    std::vector<char*> argv;
    for (std::string& word : words) argv.push_back(word.data());
    argv.push_back(nullptr);
    const pid_t child = fork();
    if (child != 0) return child;
    const int file = open(out.c_str(), O_WRONLY | O_CREAT | O_TRUNC, 0600);
    dup2(file, 1);
    dup2(file, 2);
    if (largest_file != RLIM_INFINITY) {
        const rlimit limit{largest_file, largest_file};
        setrlimit(RLIMIT_FSIZE, &limit);
    }
    execv(LIDLIFT_PROGRAM, argv.data());
    _exit(127);
}

int ended(pid_t child) {
    int status = 0;
    while (waitpid(child, &status, 0) < 0 && errno == EINTR) {
    }
    return WIFEXITED(status) ? WEXITSTATUS(status) : -WTERMSIG(status);
}

/// The works of a record in the order of the file; throws where it is not whole.
std::vector<std::string> works(const std::string& path) {
    const std::string text = file_text(path);
    if (!text.ends_with('\n')) throw std::runtime_error("the record's last line is cut off");
    std::vector<std::string> result;
    for (const RecordedEntry& entry : tank_of(text).entries) result.push_back(std::get<Did>(entry.what).words);
    return result;
}

}  // namespace

TEST_CASE("killed at a thousand random moments, the record is whole and holds every entry that was acknowledged",
          "[cli][log_safety]") {
    const FastFolder folder;
    const std::string rules = folder.write("rules.yaml", small_rules);
    const std::string tank = folder.write("t.yaml", "tank: T  # a comment\nentries:\n  # and another\n");
    const auto log = [&](const std::string& work) {
        return start({"log", "--only-rules", rules, "--tank", tank, "--on", "2026-03-09", "did", work}, folder.path("out"));
    };
    const auto acknowledged = [&] { return holds(file_text(folder.path("out")), "Written to"); };

    // How long an entry takes here and now; the moments within it are the same every time.
    std::vector<microseconds> taken;
    for (int i = 0; i < 9; ++i) {
        const auto begin = std::chrono::steady_clock::now();
        REQUIRE(ended(log("before " + std::to_string(i))) == 0);
        taken.push_back(std::chrono::duration_cast<microseconds>(std::chrono::steady_clock::now() - begin));
    }
    std::sort(taken.begin(), taken.end());
    const microseconds usual = taken[taken.size() / 2];
    std::mt19937 random(1009);  // NOLINT
    std::set<std::string> expected;
    int killed = 0;
    int unacknowledged = 0;
    // One that was done before its moment came was not killed. Where the machine is busier than while an entry was timed, few
    // are done, so it goes on until enough of both were seen.
    const std::size_t enough_acknowledged = 51;
    for (int i = 0; (killed < 1'000 || expected.size() < enough_acknowledged) && i < 4'000; ++i) {
        const std::string work = "work " + std::to_string(i);
        fs::remove(folder.path("out"));  // it says what the last one said
        const pid_t child = log(work);
        const auto moment = usual * static_cast<long>(random() % 1'250) / 1'000;
        const auto end = std::chrono::steady_clock::now() + moment;
        while (std::chrono::steady_clock::now() < end) {
        }  // a nap would last too long
        kill(child, SIGKILL);
        const int exit = ended(child);
        killed += exit == -SIGKILL ? 1 : 0;
        if (acknowledged()) expected.insert(work);
        // Looked at every time in the beginning, then now and then: the record grows.
        if (i % 10 != 0 && i > 50) continue;
        CAPTURE(i, moment.count(), file_text(tank));
        std::vector<std::string> there;
        REQUIRE_NOTHROW(there = works(tank));
        const std::set<std::string> once(there.begin(), there.end());
        REQUIRE(once.size() == there.size());
        REQUIRE(std::includes(once.begin(), once.end(), expected.begin(), expected.end()));
    }
    REQUIRE(ended(log("after")) == 0);
    const std::vector<std::string> there = works(tank);
    const std::set<std::string> once(there.begin(), there.end());
    CHECK(once.size() == there.size());
    CHECK(std::includes(once.begin(), once.end(), expected.begin(), expected.end()));
    for (const std::string& work : once)
        if (work.starts_with("work ") && expected.count(work) == 0) ++unacknowledged;
    CHECK(file_text(tank).starts_with("tank: T  # a comment\nentries:\n  # and another\n"));
    CHECK(folder.files() == std::set<std::string>{"out", "rules.yaml", "t.yaml"});
    CHECK(killed >= 1'000);
    CHECK(expected.size() >= enough_acknowledged);
    INFO(killed << " killed, " << expected.size() << " acknowledged, " << unacknowledged << " written and not acknowledged");
    CHECK(unacknowledged < 500);
}

TEST_CASE("two people write five hundred entries each at the same time, and none is lost", "[cli][log_safety]") {
    const FastFolder folder;
    const std::string rules = folder.write("rules.yaml", small_rules);
    const std::string tank = folder.write("t.yaml", "tank: T\nentries: []\n");
    std::vector<pid_t> writers;
    for (const std::string who : {"ann", "ben"}) {
        const pid_t writer = fork();
        REQUIRE(writer >= 0);
        if (writer == 0) {
            for (int i = 0; i < 500; ++i) {
                const pid_t child = start({"log", "--only-rules", rules, "--tank", tank, "--wait", "60", "--on", "2026-03-09",
                                           "did", who + " " + std::to_string(i)},
                                          folder.path("out_" + who));
                if (ended(child) != 0) _exit(1);
            }
            _exit(0);
        }
        writers.push_back(writer);
    }
    for (const pid_t writer : writers) CHECK(ended(writer) == 0);
    const std::vector<std::string> there = works(tank);
    CHECK(there.size() == 1'000);
    CHECK(std::set<std::string>(there.begin(), there.end()).size() == 1'000);
    for (const std::string who : {"ann", "ben"}) {  // and each one's in the order in which they were written
        int next = 0;
        for (const std::string& work : there)
            if (work.starts_with(who)) CHECK(work == who + " " + std::to_string(next++));
        CHECK(next == 500);
    }
    CHECK(folder.files() == std::set<std::string>{"out_ann", "out_ben", "rules.yaml", "t.yaml"});
}

TEST_CASE("somebody who waits too long is told, and the other's entry is not lost", "[cli][log_safety]") {
    const TemporaryFolder folder;
    const std::string rules = folder.write("rules.yaml", small_rules);
    const std::string tank = folder.write("t.yaml", "tank: T\n");
    const int held = open(folder.path().c_str(), O_RDONLY | O_DIRECTORY | O_CLOEXEC);
    REQUIRE(flock(held, LOCK_EX) == 0);
    const auto begin = std::chrono::steady_clock::now();
    check_error(run({"log", "--only-rules", rules, "--tank", tank, "--wait", "0.2", "did", "it"}), 3,
                "somebody else is writing in its folder, and was not done within 0.2 seconds; try again");
    CHECK(std::chrono::steady_clock::now() - begin < std::chrono::seconds(30));
    CHECK(file_text(tank) == "tank: T\n");
    close(held);
    check_answer(run({"log", "--only-rules", rules, "--tank", tank, "--wait", "0", "did", "it"}));
}

TEST_CASE("where the file may not grow any more, the old record stays and it is said", "[cli][log_safety]") {
    const FastFolder folder;
    const std::string rules = folder.write("rules.yaml", small_rules);
    const std::string text = "tank: T\nentries:\n  - {on: 2026-03-08, note: '" + std::string(5'000, 'n') + "'}\n";
    const std::string tank = folder.write("t.yaml", text);
    for (const rlim_t largest : {rlim_t{0}, rlim_t{1'000}, rlim_t{text.size()}}) {
        const pid_t child = start({"log", "--only-rules", rules, "--tank", tank, "did", "it"}, "/dev/null", largest);
        CHECK(ended(child) == 3);
        CHECK(file_text(tank) == text);
        CHECK(folder.files() == std::set<std::string>{"rules.yaml", "t.yaml"});
    }
    const pid_t child =
        start({"log", "--only-rules", rules, "--tank", tank, "did", "it"}, folder.path("out"), text.size() + 20);
    CHECK(ended(child) == 3);
    CHECK(holds(file_text(folder.path("out")), "lidlift: cannot write '" + tank + "': there is no room for it on the disk"));
    CHECK(file_text(tank) == text);
}

TEST_CASE("on a full disk the old record stays and it is said", "[cli][log_safety]") {
    const TemporaryFolder folder;
    const std::string disk = folder.path("disk");
    fs::create_directory(disk);
    if (mount("tmpfs", disk.c_str(), "tmpfs", 0, "size=32k") != 0) {
        WARN("a small disk could not be made, so that a full one was not tried");  // only root may
        return;
    }
    const std::string rules = folder.write("rules.yaml", small_rules);
    const std::string tank = disk + "/t.yaml";
    const std::string text = "tank: T\nentries:\n  - {on: 2026-03-08, note: '" + std::string(6'000, 'n') + "'}\n";
    std::ofstream(tank, std::ios::binary) << text;
    std::ofstream filler(disk + "/filler", std::ios::binary);
    for (int i = 0; i < 64 && (filler << std::string(1'024, 'f')).flush(); ++i) {
    }
    filler.close();
    const Run result = run({"log", "--only-rules", rules, "--tank", tank, "did", "it"});
    const std::string after = file_text(tank);
    std::size_t files = 0;
    for ([[maybe_unused]] const auto& entry : fs::directory_iterator(disk)) ++files;
    fs::remove(disk + "/filler");
    const Run with_room = run({"log", "--only-rules", rules, "--tank", tank, "--on", "2026-03-09", "did", "it"});
    const std::string at_last = file_text(tank);
    umount(disk.c_str());
    check_error(result, 3, "cannot write '" + tank + "': there is no room for it on the disk (No space left on device)");
    CHECK(after == text);
    CHECK(files == 2);
    check_answer(with_room);
    CHECK(at_last == text + "  - {on: 2026-03-09, did: it}\n");
}

}  // namespace cli_log_safety_test
