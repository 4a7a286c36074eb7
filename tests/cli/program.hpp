// The built program, run as a user runs it.
#pragma once

#include "tests/catch.hpp"

#include <chrono>
#include <fcntl.h>
#include <filesystem>
#include <fstream>
#include <iterator>
#include <signal.h>
#include <spawn.h>
#include <stdexcept>
#include <string>
#include <string_view>
#include <sys/wait.h>
#include <thread>
#include <unistd.h>
#include <vector>

extern char** environ;

namespace lidlift::test {

/// What a run gave. `exit` is the exit status, or minus the number of the signal that ended it.
struct Run {
    int exit = 0;
    std::string out;
    std::string err;
};

enum class Stdout { kept, closed, full };

/// A folder of its own for the files of one test, gone with it.
class TemporaryFolder {
public:
    TemporaryFolder() {
        std::string name = (std::filesystem::temp_directory_path() / "lidlift_test.XXXXXX").string();
        if (!mkdtemp(name.data())) throw std::runtime_error("cannot make a folder for a test");
        path_ = name;
    }
    ~TemporaryFolder() {
        std::error_code ignored;
        std::filesystem::remove_all(path_, ignored);
    }
    TemporaryFolder(const TemporaryFolder&) = delete;
    TemporaryFolder& operator=(const TemporaryFolder&) = delete;

    [[nodiscard]] std::string path(const std::string& name = {}) const {
        return name.empty() ? path_.string() : (path_ / name).string();
    }
    /// Writes a file and returns its path.
    std::string write(const std::string& name, const std::string& text) const {
        std::ofstream stream(path_ / name, std::ios::binary);
        stream << text;
        if (!stream.flush()) throw std::runtime_error("cannot write " + name);
        return path(name);
    }

private:
    std::filesystem::path path_;
};

inline std::string file_text(const std::string& path) {
    std::ifstream stream(path, std::ios::binary);
    return {std::istreambuf_iterator<char>(stream), {}};
}

/// Runs the program with `arguments`; it is ended after ten minutes. (A sanitized one on a busy machine takes more than one.)
inline Run run(const std::vector<std::string>& arguments, const std::string& input = {}, Stdout how = Stdout::kept) {
    const TemporaryFolder folder;
    const std::string in = folder.write("in", input);
    const std::string out = folder.path("out");
    const std::string err = folder.path("err");
    posix_spawn_file_actions_t actions;
    posix_spawn_file_actions_init(&actions);
    constexpr int create = O_WRONLY | O_CREAT | O_TRUNC;
    posix_spawn_file_actions_addopen(&actions, 0, in.c_str(), O_RDONLY, 0);
    if (how == Stdout::closed)
        posix_spawn_file_actions_addclose(&actions, 1);
    else
        posix_spawn_file_actions_addopen(&actions, 1, how == Stdout::full ? "/dev/full" : out.c_str(), create, 0600);
    posix_spawn_file_actions_addopen(&actions, 2, err.c_str(), create, 0600);

    std::vector<std::string> words = {LIDLIFT_PROGRAM};
    words.insert(words.end(), arguments.begin(), arguments.end());
    std::vector<char*> argv;
    for (std::string& word : words) argv.push_back(word.data());
    argv.push_back(nullptr);
    pid_t child = 0;
    const int failed = posix_spawn(&child, LIDLIFT_PROGRAM, &actions, nullptr, argv.data(), environ);
    posix_spawn_file_actions_destroy(&actions);
    if (failed != 0) throw std::runtime_error("cannot run " LIDLIFT_PROGRAM);

    int status = 0;
    const auto end = std::chrono::steady_clock::now() + std::chrono::minutes(10);
    while (waitpid(child, &status, WNOHANG) == 0) {
        if (std::chrono::steady_clock::now() > end) kill(child, SIGKILL);
        std::this_thread::sleep_for(std::chrono::milliseconds(1));
    }
    Run result;
    result.exit = WIFEXITED(status) ? WEXITSTATUS(status) : -WTERMSIG(status);
    result.out = file_text(out);
    result.err = file_text(err);
    return result;
}

/// No byte that a terminal obeys: controls other than line feeds, DEL, C1 controls and bidirectional controls.
inline bool is_tame(std::string_view text) {
    for (std::size_t i = 0; i < text.size(); ++i) {
        const auto byte = static_cast<unsigned char>(text[i]);
        const auto next = i + 1 < text.size() ? static_cast<unsigned char>(text[i + 1]) : 0;
        const auto third = i + 2 < text.size() ? static_cast<unsigned char>(text[i + 2]) : 0;
        if ((byte < 0x20 && byte != '\n') || byte == 0x7F) return false;
        if (byte == 0xC2 && next >= 0x80 && next < 0xA0) return false;
        if (byte == 0xE2 && next == 0x80 && third >= 0xAA && third <= 0xAE) return false;
        if (byte == 0xE2 && next == 0x81 && third >= 0xA6 && third <= 0xA9) return false;
    }
    return true;
}

inline bool holds(std::string_view text, std::string_view part) { return text.find(part) != std::string_view::npos; }

/// The text with every run of blanks and line ends as one blank, so that a test does not hang on where a line was broken
/// (a path in it is longer or shorter in another checkout).
inline std::string unwrapped(std::string_view text) {
    std::string out;
    for (const char c : text) {
        if (c != ' ' && c != '\n')
            out += c;
        else if (!out.empty() && out.back() != ' ')
            out += ' ';
    }
    return out;
}

/// An error of the user's input or of reading: nothing on standard output, every line on standard error by name.
inline void check_error(const Run& result, int exit, std::string_view part) {
    CHECK(result.exit == exit);
    CHECK(result.out.empty());
    CHECK(result.err.substr(0, 9) == "lidlift: ");
    CHECK(is_tame(result.err));
    CAPTURE(result.err, part);
    CHECK(holds(result.err, part));
}

/// All went well: something on standard output, nothing on standard error.
inline void check_answer(const Run& result) {
    CHECK(result.exit == 0);
    CHECK(result.err == "");
    CHECK(is_tame(result.out));
    CHECK_FALSE(result.out.empty());
}

}  // namespace lidlift::test
