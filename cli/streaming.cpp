#include "cli/streaming.hpp"

#include <algorithm>
#include <array>
#include <cerrno>
#include <cstring>
#include <fcntl.h>
#include <poll.h>
#include <string_view>
#include <sys/stat.h>
#include <unistd.h>

#include <climits>

namespace lidlift::cli {
namespace {

constexpr std::array<int, 3> held_signals = {SIGINT, SIGHUP, SIGTERM};
/// Whoever interrupts and yet does not read what comes is waited for so long.
constexpr int last_wait = 1000;  // ms
constexpr std::size_t bytes_at_once = 64 * 1024;

volatile std::sig_atomic_t held_signal = 0;

void note_signal(int signal) { held_signal = signal; }

}  // namespace

HeldSignals::HeldSignals() {
    held_signal = 0;
    sigset_t held;
    sigemptyset(&held);
    for (const int signal : held_signals) {
        struct sigaction now = {};
        sigaction(signal, nullptr, &now);
        if (now.sa_handler == SIG_IGN) continue;  // whoever started this with nohup wants it to live
        sigaddset(&held, signal);
        struct sigaction note = {};
        note.sa_handler = note_signal;
        sigemptyset(&note.sa_mask);
        sigaction(signal, &note, nullptr);
    }
    sigprocmask(SIG_BLOCK, &held, &before_);
    struct sigaction ignore = {};
    ignore.sa_handler = SIG_IGN;
    sigaction(SIGPIPE, &ignore, &pipe_before_);
}

HeldSignals::~HeldSignals() {
    for (const int signal : held_signals) {
        struct sigaction now = {};
        sigaction(signal, nullptr, &now);
        if (now.sa_handler != note_signal) continue;
        now.sa_handler = SIG_DFL;
        sigaction(signal, &now, nullptr);
    }
    sigaction(SIGPIPE, &pipe_before_, nullptr);
    sigprocmask(SIG_SETMASK, &before_, nullptr);
}

int HeldSignals::caught() const { return held_signal; }

bool HeldSignals::ready(int file, short events, bool wait) const {
    pollfd one = {file, events, 0};
    constexpr timespec at_once = {0, 0};
    while (true) {
        const int count = ::ppoll(&one, 1, wait ? nullptr : &at_once, &before_);
        if (count > 0) return true;
        if (held_signal != 0 || (count < 0 && errno != EINTR) || !wait) return false;
    }
}

LineSource::~LineSource() {
    if (file_ > STDERR_FILENO) ::close(file_);
}

std::optional<Fault> LineSource::open(const std::string& path) {
    name_ = path == "-" ? "standard input" : "'" + path + "'";
    file_ = path == "-" ? STDIN_FILENO : ::open(path.c_str(), O_RDONLY | O_CLOEXEC);
    struct stat status = {};
    if (file_ < 0 || ::fstat(file_, &status) != 0) return Fault{"cannot read " + name_ + ": " + std::strerror(errno), 0};
    if (S_ISDIR(status.st_mode)) return Fault{"cannot read " + name_ + ": it is a folder", 0};
    return std::nullopt;
}

/// Takes one whole line from what was read, if there is one; of one too long the beginning, and the rest of it later.
bool LineSource::take_line(std::vector<TextLine>& into) {
    const auto end = waiting_.find('\n', std::max(begin_, searched_));
    const std::size_t length = (end == std::string::npos ? waiting_.size() : end) - begin_;
    const bool whole = end != std::string::npos || (at_end_ && length > 0);
    searched_ = waiting_.size();
    if (cutting_) {  // passed over
        begin_ += whole && end != std::string::npos ? length + 1 : length;
        searched_ = begin_;
        if (whole) cutting_ = false;
        return whole && take_line(into);
    }
    if (!whole && length <= longest_ + 1) return false;
    std::string_view content = std::string_view(waiting_).substr(begin_, length);
    if (whole && content.ends_with('\r')) content.remove_suffix(1);
    into.push_back({++number_, std::string(content.substr(0, longest_)), content.size() > longest_});
    cutting_ = !whole;
    begin_ += end != std::string::npos ? length + 1 : length;
    searched_ = begin_;
    return true;
}

LineSource::What LineSource::next(std::vector<TextLine>& into, std::size_t most, bool wait) {
    into.clear();
    while (true) {
        while (into.size() < most && take_line(into)) {
        }
        if (!into.empty()) return What::lines;
        if (at_end_) return What::end;
        if (!signals_.ready(file_, POLLIN, wait)) {
            if (signals_.caught() != 0) return What::signal;
            if (!wait) return What::nothing_yet;
        }
        if (signals_.caught() != 0) return What::signal;
        waiting_.erase(0, begin_);
        searched_ -= std::min(searched_, begin_);
        begin_ = 0;
        const std::size_t before = waiting_.size();
        waiting_.resize(before + bytes_at_once);
        const ssize_t count = ::read(file_, waiting_.data() + before, bytes_at_once);
        waiting_.resize(before + static_cast<std::size_t>(std::max<ssize_t>(count, 0)));
        if (count < 0 && errno == EINTR) continue;
        if (count < 0) {
            fault_ = "cannot read " + name_ + ": " + std::strerror(errno);
            return What::fault;
        }
        at_end_ = count == 0;
        if (at_end_) searched_ = begin_;
    }
}

TextSink::TextSink(const HeldSignals& signals) : signals_(signals) {
    struct stat status = {};
    regular_ = ::fstat(STDOUT_FILENO, &status) == 0 && S_ISREG(status.st_mode);
}

/// Into a pipe in pieces that it takes at once, so that a signal is heard while nobody reads.
bool TextSink::write(const std::string& text) {
    std::string_view rest = text;
    while (!rest.empty()) {
        if (!regular_ && !signals_.ready(STDOUT_FILENO, POLLOUT, true) && signals_.caught() != 0) {
            pollfd out = {STDOUT_FILENO, POLLOUT, 0};
            if (::poll(&out, 1, last_wait) <= 0) return false;
        }
        const ssize_t count =
            ::write(STDOUT_FILENO, rest.data(), regular_ ? rest.size() : std::min<std::size_t>(rest.size(), PIPE_BUF));
        if (count < 0 && errno == EINTR) continue;
        broken_pipe_ = count < 0 && errno == EPIPE;
        if (count <= 0) return false;
        rest.remove_prefix(static_cast<std::size_t>(count));
    }
    return true;
}

}  // namespace lidlift::cli
