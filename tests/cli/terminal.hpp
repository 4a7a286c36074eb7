// The built program at a terminal of its own (a pseudo-terminal), driven line by line.
#pragma once

#include "tests/cli/program.hpp"

#include <cerrno>
#include <chrono>
#include <cstdlib>
#include <fcntl.h>
#include <poll.h>
#include <stdexcept>
#include <string>
#include <sys/ioctl.h>
#include <sys/resource.h>
#include <sys/wait.h>
#include <unistd.h>
#include <vector>

namespace lidlift::test {

struct TerminalOptions {
    unsigned short columns = 80;
    std::string locale = "C.UTF-8";
    rlim_t largest_file = RLIM_INFINITY;  ///< bytes
};

class Terminal {
public:
    explicit Terminal(const std::vector<std::string>& arguments, const TerminalOptions& options = {}) {
        master_ = posix_openpt(O_RDWR | O_NOCTTY | O_CLOEXEC);
        if (master_ < 0 || grantpt(master_) != 0 || unlockpt(master_) != 0) throw std::runtime_error("no pseudo-terminal");
        const std::string name = ptsname(master_);
        resize(options.columns);
        std::vector<std::string> words = {LIDLIFT_PROGRAM};
        words.insert(words.end(), arguments.begin(), arguments.end());
        std::vector<char*> argv;
        for (std::string& word : words) argv.push_back(word.data());
        argv.push_back(nullptr);
        child_ = fork();
        if (child_ < 0) throw std::runtime_error("cannot fork");
        if (child_ > 0) return;
        setsid();
        const int slave = open(name.c_str(), O_RDWR);  // becomes the controlling terminal
        if (slave < 0) _exit(126);
        for (int fd = 0; fd < 3; ++fd) dup2(slave, fd);
        if (slave > 2) close(slave);
        setenv("LC_ALL", options.locale.c_str(), 1);
        if (options.largest_file != RLIM_INFINITY) {
            const rlimit limit = {options.largest_file, options.largest_file};
            setrlimit(RLIMIT_FSIZE, &limit);
        }
        execv(argv[0], argv.data());
        _exit(127);
    }
    ~Terminal() {
        if (child_ > 0) {
            ::kill(child_, SIGKILL);
            waitpid(child_, nullptr, 0);
        }
        hang_up();
    }
    Terminal(const Terminal&) = delete;
    Terminal& operator=(const Terminal&) = delete;

    void resize(unsigned short columns) const {
        const winsize size = {24, columns, 0, 0};
        ioctl(master_, TIOCSWINSZ, &size);
    }

    /// What is shown up to the next prompt, or to the end; without carriage returns.
    std::string read() {
        std::string text;
        const auto end = std::chrono::steady_clock::now() + std::chrono::minutes(2);
        while (std::chrono::steady_clock::now() < end) {
            pollfd ready = {master_, POLLIN, 0};
            if (poll(&ready, 1, 1000) <= 0) continue;
            char bytes[4096];
            const ssize_t count = ::read(master_, bytes, sizeof bytes);
            if (count <= 0) break;  // the program has let go of its terminal
            for (ssize_t i = 0; i < count; ++i)
                if (bytes[i] != '\r') text += bytes[i];
            if (text.size() >= 3 && text.compare(text.size() - 3, 3, "\n> ") == 0) break;
        }
        return text;
    }
    void press(const std::string& keys) const {
        if (write(master_, keys.data(), keys.size()) != static_cast<ssize_t>(keys.size()))
            throw std::runtime_error("cannot type");
    }
    std::string type(const std::string& line) {
        press(line + "\n");
        return read();
    }
    void kill(int signal) const { ::kill(child_, signal); }
    void hang_up() {
        if (master_ >= 0) close(master_);
        master_ = -1;
    }
    /// The exit status, or minus the signal that ended it.
    int wait() {
        int status = 0;
        waitpid(child_, &status, 0);
        child_ = 0;
        return WIFEXITED(status) ? WEXITSTATUS(status) : -WTERMSIG(status);
    }

private:
    int master_ = -1;
    pid_t child_ = 0;
};

}  // namespace lidlift::test
