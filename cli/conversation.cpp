#include "cli/conversation.hpp"

#include "engine/call_record.hpp"

#include <algorithm>
#include <array>
#include <cerrno>
#include <cstdlib>
#include <poll.h>
#include <string_view>
#include <sys/ioctl.h>
#include <unistd.h>

namespace lidlift::cli {
namespace {

constexpr std::size_t narrowest = 30;
constexpr std::size_t widest = 100;
constexpr std::array<int, 3> ending_signals = {SIGINT, SIGHUP, SIGTERM};

volatile std::sig_atomic_t caught = 0;

void catch_signal(int signal) { caught = signal; }

void on_signal(int signal, void (*handler)(int)) {
    struct sigaction action = {};
    action.sa_handler = handler;
    sigemptyset(&action.sa_mask);
    sigaction(signal, &action, nullptr);
}

/// The locale that rules letters, by POSIX: the first of these that is set.
bool locale_is_utf8() {
    for (const char* name : {"LC_ALL", "LC_CTYPE", "LANG"}) {
        const char* value = std::getenv(name);
        if (!value || *value == '\0') continue;
        std::string locale = value;
        for (char& c : locale)
            if (c >= 'a' && c <= 'z') c = static_cast<char>(c - 'a' + 'A');
        return locale.find("UTF-8") != std::string::npos || locale.find("UTF8") != std::string::npos;
    }
    return false;
}

}  // namespace

Conversation::Conversation(bool on_standard_error)
    : out_(on_standard_error ? STDERR_FILENO : STDOUT_FILENO), typed_(::isatty(STDIN_FILENO) == 1) {
    sigset_t ending;
    sigemptyset(&ending);
    caught = 0;
    for (const int signal : ending_signals) {
        sigaddset(&ending, signal);
        struct sigaction now = {};
        sigaction(signal, nullptr, &now);
        // Whoever started this with nohup wants it to live.
        if (now.sa_handler != SIG_IGN) on_signal(signal, catch_signal);
    }
    sigprocmask(SIG_BLOCK, &ending, &before_);
    on_signal(SIGXFSZ, SIG_IGN);
}

Conversation::~Conversation() {
    for (const int signal : ending_signals) {
        struct sigaction now = {};
        sigaction(signal, nullptr, &now);
        if (now.sa_handler == catch_signal) on_signal(signal, SIG_DFL);
    }
    on_signal(SIGXFSZ, SIG_DFL);
    sigprocmask(SIG_SETMASK, &before_, nullptr);
}

HeardLine Conversation::next_line() {
    while (true) {
        if (const auto end = waiting_.find('\n'); end != std::string::npos || (at_end_ && !waiting_.empty())) {
            HeardLine heard{HeardLine::What::line, waiting_.substr(0, end), 0};
            waiting_.erase(0, end == std::string::npos ? waiting_.size() : end + 1);
            if (!heard.line.empty() && heard.line.back() == '\r') heard.line.pop_back();
            if (cut_) heard.line.resize(std::min(heard.line.size(), longest_line));
            cut_ = false;
            return heard;
        }
        if (at_end_) return {HeardLine::What::end, {}, 0};
        pollfd input = {STDIN_FILENO, POLLIN, 0};
        // Only here may a signal come through.
        const int ready = ::ppoll(&input, 1, nullptr, &before_);
        if (caught != 0) return {HeardLine::What::signal, {}, caught};
        if (ready < 0 && errno != EINTR) at_end_ = true;
        if (ready <= 0) continue;
        std::array<char, 4096> bytes;
        const ssize_t count = ::read(STDIN_FILENO, bytes.data(), bytes.size());
        if (count < 0 && errno == EINTR) continue;
        if (count <= 0) {
            at_end_ = true;
            continue;
        }
        waiting_.append(bytes.data(), static_cast<std::size_t>(count));
        // A line without an end must not fill the memory: its middle is dropped.
        if (waiting_.size() > 2 * longest_line && waiting_.find('\n') == std::string::npos) {
            waiting_.resize(longest_line);
            cut_ = true;
        }
    }
}

bool Conversation::say(const std::string& text) {
    std::string_view rest = text;
    while (!rest.empty()) {
        const ssize_t count = ::write(out_, rest.data(), rest.size());
        if (count < 0 && errno == EINTR) continue;
        if (count <= 0) return false;
        rest.remove_prefix(static_cast<std::size_t>(count));
    }
    return true;
}

bool Conversation::prompt() { return say("> "); }

bool Conversation::repeat(const std::string& line) { return typed_ || say(line + "\n"); }

Screen Conversation::screen() const {
    Screen screen = screen_of(out_);
    screen.ascii = !locale_is_utf8();
    return screen;
}

Screen screen_of(int file) {
    Screen screen;
    winsize size = {};
    if (::isatty(file) != 1) return screen;
    screen.ascii = !locale_is_utf8();
    if (::ioctl(file, TIOCGWINSZ, &size) == 0 && size.ws_col > 0)
        screen.columns = std::clamp<std::size_t>(size.ws_col, narrowest, widest);
    return screen;
}

Screen screen_of_output() { return screen_of(STDOUT_FILENO); }

void end_by(int signal) {
    on_signal(signal, SIG_DFL);
    sigset_t only;
    sigemptyset(&only);
    sigaddset(&only, signal);
    ::raise(signal);
    sigprocmask(SIG_UNBLOCK, &only, nullptr);
    std::_Exit(128 + signal);
}

}  // namespace lidlift::cli
