// Every step of writing a record fails in turn, or the program is killed there; whoever looks finds the old record or the new.
#include "cli/record_file.hpp"

#include "tests/catch.hpp"
#include "tests/cli/program.hpp"

#include <cerrno>
#include <chrono>
#include <filesystem>
#include <set>
#include <string>
#include <sys/stat.h>
#include <sys/xattr.h>
#include <tuple>
#include <utility>

namespace cli_record_file_test {

using namespace lidlift;
using namespace lidlift::cli;
using namespace lidlift::test;
namespace fs = std::filesystem;

namespace {

constexpr std::chrono::milliseconds at_once{0};
constexpr std::size_t limit = 1024 * 1024;

std::set<std::string> files_of(const TemporaryFolder& folder) {
    std::set<std::string> names;
    for (const auto& entry : fs::directory_iterator(folder.path())) names.insert(entry.path().filename().string());
    return names;
}

/// Reads the record and puts `text` in its place; "" when that went well, otherwise why not.
std::string replaced(const std::string& path, const std::string& text, DiskTrial trial = {}) {
    auto file = RecordFile::open(path, at_once, std::move(trial));
    if (!file) return file.fault().text;
    const auto old = file->read(limit);
    if (!old) return old.fault().text;
    const auto done = file->replace(text);
    if (!done) return done.fault().text;
    return *done ? "" : "changed meanwhile";
}

/// Makes the step number `fails` (from 0) fail with `error`, and counts the steps.
struct FailAt {
    int fails;
    int error;
    int* steps;
    int operator()(std::string_view) const { return (*steps)++ == fails ? error : 0; }
};

const std::string old_text(200'000, 'o');
const std::string new_text = std::string(200'000, 'n') + "\n";

}  // namespace

TEST_CASE("a record is replaced whole, and nothing stays beside it", "[record_file]") {
    const TemporaryFolder folder;
    const std::string path = folder.write("t.yaml", old_text);
    CHECK(replaced(path, new_text).empty());
    CHECK(file_text(path) == new_text);
    CHECK(files_of(folder) == std::set<std::string>{"t.yaml"});
}

TEST_CASE("whichever step fails, the record is the old one or the new one and it is said which", "[record_file]") {
    int count = 0;
    {
        const TemporaryFolder folder;
        CHECK(replaced(folder.write("t.yaml", old_text), new_text, FailAt{-1, 0, &count}).empty());
    }
    REQUIRE(count == 11);
    for (const int error : {ENOSPC, EIO, EROFS})
        for (int step = 0; step < count; ++step) {
            CAPTURE(step, error);
            const TemporaryFolder folder;
            const std::string path = folder.write("t.yaml", old_text);
            int steps = 0;
            std::string name;
            const auto trial = [&](std::string_view at) {
                const bool fails = steps++ == step;
                if (fails) name = at;
                return fails ? error : 0;
            };
            const std::string said = replaced(path, new_text, trial);
            CAPTURE(name, said);
            CHECK(files_of(folder) == std::set<std::string>{"t.yaml"});
            if (name == "clean") {
                CHECK(said.empty());
                CHECK(file_text(path) == new_text);
            } else if (name == "sync folder") {
                CHECK(file_text(path) == new_text);
                CHECK(holds(said, "holds the entry now, but it may not outlast a power cut"));
            } else {
                CHECK(file_text(path) == old_text);
                CHECK_FALSE(said.empty());
                const bool writes = name != "lock" && name != "compare";
                if (writes && error == ENOSPC) CHECK(holds(said, "there is no room for it on the disk"));
                if (writes && error == EROFS) CHECK(holds(said, "writing is not allowed there"));
            }
            // The next one has its way.
            CHECK(replaced(path, old_text).empty());
            CHECK(file_text(path) == old_text);
        }
}

TEST_CASE("killed before any step, the record is whole, and the next one clears up", "[record_file]") {
    for (int step = 0; step < 11; ++step) {
        CAPTURE(step);
        const TemporaryFolder folder;
        const std::string path = folder.write("t.yaml", old_text);
        const pid_t child = fork();
        REQUIRE(child >= 0);
        if (child == 0) {
            int steps = 0;
            (void)replaced(path, new_text, [&](std::string_view) {
                if (steps++ == step) kill(getpid(), SIGKILL);
                return 0;
            });
            _exit(0);
        }
        int status = 0;
        REQUIRE(waitpid(child, &status, 0) == child);
        REQUIRE(WIFSIGNALED(status));
        const std::string text = file_text(path);
        CHECK(text == (step < 10 ? old_text : new_text));
        CHECK(replaced(path, new_text).empty());
        CHECK(file_text(path) == new_text);
        CHECK(files_of(folder) == std::set<std::string>{"t.yaml"});
    }
}

TEST_CASE("a new record never takes the place of one that is there", "[record_file]") {
    const TemporaryFolder folder;
    {
        auto file = RecordFile::open(folder.path("t.yaml"), at_once);
        REQUIRE(file);
        CHECK_FALSE(file->exists());
        CHECK_FALSE(file->create("one"));
        CHECK(file_text(folder.path("t.yaml")) == "one");
    }
    auto file = RecordFile::open(folder.path("u.yaml"), at_once);
    REQUIRE(file);
    folder.write("u.yaml", "somebody else's");
    const auto fault = file->create("two");
    REQUIRE(fault);
    CHECK(holds(fault->text, "cannot write"));
    CHECK(file_text(folder.path("u.yaml")) == "somebody else's");
    CHECK(files_of(folder) == std::set<std::string>{"t.yaml", "u.yaml"});
    CHECK(holds(RecordFile::open(folder.path("no/t.yaml"), at_once).fault().text, "its folder cannot be opened"));
}

TEST_CASE("only one writes in a folder at a time, and the other says why it does not", "[record_file]") {
    const TemporaryFolder folder;
    const std::string path = folder.write("t.yaml", old_text);
    const std::string other = folder.write("u.yaml", old_text);
    auto first = RecordFile::open(path, at_once);
    REQUIRE(first);
    const auto before = std::chrono::steady_clock::now();
    const auto second = RecordFile::open(other, std::chrono::milliseconds(300));
    CHECK(std::chrono::steady_clock::now() - before >= std::chrono::milliseconds(300));
    REQUIRE_FALSE(second);
    CHECK(second.fault().text ==
          "cannot write '" + other +
              "': somebody else is writing in its folder, and was not done within 0.3 seconds; try again");
    CHECK(first->read(limit));
    CHECK(*first->replace(new_text));
    const TemporaryFolder elsewhere;
    *first = std::move(*RecordFile::open(elsewhere.path("x"), at_once));  // lets go of the first folder
    CHECK(RecordFile::open(other, at_once));
}

TEST_CASE("a record that somebody else changed meanwhile is left alone", "[record_file]") {
    const TemporaryFolder folder;
    const std::string path = folder.write("t.yaml", old_text);
    auto file = RecordFile::open(path, at_once);
    REQUIRE(file);
    REQUIRE(file->read(limit));
    folder.write("t.yaml", "an editor's\n");
    const auto written = file->replace(new_text);
    REQUIRE(written);
    CHECK_FALSE(*written);
    CHECK(file_text(path) == "an editor's\n");
    CHECK(*file->read(limit) == "an editor's\n");  // and now it goes on from there
    CHECK(*file->replace(new_text));
    CHECK(file_text(path) == new_text);
    fs::remove(path);
    const auto gone = file->replace(old_text);
    CHECK((!gone || !*gone));
    CHECK_FALSE(fs::exists(path));
    CHECK(files_of(folder).empty());
}

TEST_CASE("permissions stay, and a new record gets the usual ones", "[record_file]") {
    const TemporaryFolder folder;
    const std::string path = folder.write("t.yaml", old_text);
    for (const mode_t mode : {0640U, 0600U, 0664U, 0644U}) {
        REQUIRE(chmod(path.c_str(), mode) == 0);
        CHECK(replaced(path, new_text).empty());
        struct stat status {};
        REQUIRE(stat(path.c_str(), &status) == 0);
        CHECK((status.st_mode & 07777) == mode);
    }
    const mode_t mask = umask(027);
    CHECK_FALSE(RecordFile::open(folder.path("u.yaml"), at_once)->create("x"));
    umask(mask);
    struct stat status {};
    REQUIRE(stat(folder.path("u.yaml").c_str(), &status) == 0);
    CHECK((status.st_mode & 07777) == 0640);
}

TEST_CASE("who was given access by name keeps it, and nobody else gets it", "[record_file]") {
    const TemporaryFolder folder;
    const std::string path = folder.write("t.yaml", old_text);
    // The kernel's form: version 2, then entries of tag, permissions and id, two, two and four bytes each.
    std::string list("\2\0\0\0", 4);
    for (const auto& [tag, rights, id] :
         {std::tuple<char, char, unsigned>{1, 6, ~0U}, {2, 6, 12345}, {4, 0, ~0U}, {16, 6, ~0U}, {32, 0, ~0U}}) {
        list += {tag, 0, rights, 0};
        for (unsigned shift = 0; shift < 32; shift += 8) list += static_cast<char>(id >> shift & 0xFF);
    }
    constexpr const char* name = "system.posix_acl_access";
    if (setxattr(path.c_str(), name, list.data(), list.size(), 0) != 0) return;  // a file system without such lists
    CHECK(replaced(path, new_text).empty());
    std::string kept(2 * list.size(), '\0');
    const ssize_t size = getxattr(path.c_str(), name, kept.data(), kept.size());
    REQUIRE(size == static_cast<ssize_t>(list.size()));
    CHECK(kept.substr(0, list.size()) == list);
    struct stat status {};
    REQUIRE(stat(path.c_str(), &status) == 0);
    CHECK((status.st_mode & 07777) == 0660);
}

TEST_CASE("owner and group stay where that is allowed", "[record_file]") {
    if (geteuid() != 0) return;  // only root may give files away
    const TemporaryFolder folder;
    const std::string path = folder.write("t.yaml", old_text);
    REQUIRE(chown(path.c_str(), 1234, 2345) == 0);
    CHECK(replaced(path, new_text).empty());
    struct stat status {};
    REQUIRE(stat(path.c_str(), &status) == 0);
    CHECK(status.st_uid == 1234);
    CHECK(status.st_gid == 2345);
}

TEST_CASE("what may not be written is not written", "[record_file]") {
    const TemporaryFolder folder;
    const std::string path = folder.write("t.yaml", old_text);
    const auto as_stranger = [&](mode_t of_file, mode_t of_folder) {
        REQUIRE(chmod(path.c_str(), of_file) == 0);
        REQUIRE(chmod(folder.path().c_str(), of_folder) == 0);
        const bool was_root = geteuid() == 0;  // root may write everything
        if (was_root) REQUIRE(seteuid(65534) == 0);
        std::string said = replaced(path, new_text);
        if (was_root) REQUIRE(seteuid(0) == 0);
        REQUIRE(chmod(folder.path().c_str(), 0755) == 0);
        return said;
    };
    CHECK(holds(as_stranger(0444, 0777), "writing is not allowed there"));
    CHECK(holds(as_stranger(0666, 0555), "writing is not allowed there"));
    CHECK(file_text(path) == old_text);
    CHECK(files_of(folder) == std::set<std::string>{"t.yaml"});
    CHECK(as_stranger(0666, 0777).empty());
    CHECK(file_text(path) == new_text);
}

TEST_CASE("a link is followed and stays a link", "[record_file]") {
    const TemporaryFolder folder;
    const TemporaryFolder other;
    const std::string path = folder.write("t.yaml", old_text);
    fs::create_symlink(path, other.path("link.yaml"));
    fs::create_symlink("link.yaml", other.path("link_to_link.yaml"));
    CHECK(replaced(other.path("link_to_link.yaml"), new_text).empty());
    CHECK(file_text(path) == new_text);
    CHECK(fs::is_symlink(other.path("link.yaml")));
    CHECK(fs::is_symlink(other.path("link_to_link.yaml")));
    CHECK(files_of(folder) == std::set<std::string>{"t.yaml"});

    fs::create_symlink("nothing.yaml", other.path("broken.yaml"));
    CHECK(holds(RecordFile::open(other.path("broken.yaml"), at_once).fault().text, "it is a link to nothing"));
    fs::create_symlink("round.yaml", other.path("round.yaml"));
    CHECK_FALSE(RecordFile::open(other.path("round.yaml"), at_once));
}

TEST_CASE("what is no file is no record", "[record_file]") {
    const TemporaryFolder folder;
    CHECK(holds(RecordFile::open(folder.path(), at_once).fault().text, "it is a folder"));
    CHECK(holds(RecordFile::open("/dev/null", at_once).fault().text, "it is not a regular file"));
    REQUIRE(mkfifo(folder.path("pipe").c_str(), 0600) == 0);
    CHECK(holds(RecordFile::open(folder.path("pipe"), at_once).fault().text, "it is not a regular file"));
    CHECK_FALSE(RecordFile::open("", at_once));
    const std::string path = folder.write("large.yaml", std::string(limit + 1, 'x'));
    auto file = RecordFile::open(path, at_once);
    REQUIRE(file);
    CHECK(holds(file->read(limit).fault().text, "is larger than 1024 KiB"));
    CHECK(holds(file->read(limit + 1) ? "read" : "not read", "read"));
}

TEST_CASE("what a killed writer left is taken away, and a link in its place leads nowhere", "[record_file]") {
    const TemporaryFolder folder;
    const TemporaryFolder other;
    const std::string path = folder.write("t.yaml", old_text);
    folder.write(".t.yaml.lidlift-new", "half of");
    folder.write(".u.yaml.lidlift-new", "another tank's, perhaps being written from elsewhere");
    CHECK(replaced(path, new_text).empty());
    CHECK(files_of(folder) == std::set<std::string>{"t.yaml", ".u.yaml.lidlift-new"});
    const std::string victim = other.write("victim", "untouched");
    fs::create_symlink(victim, folder.path(".t.yaml.lidlift-new"));
    CHECK(replaced(path, old_text).empty());
    CHECK(file_text(victim) == "untouched");
    CHECK(file_text(path) == old_text);
}

}  // namespace cli_record_file_test
