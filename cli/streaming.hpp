// Lines in and text out for commands that go on for long: signals come through only between the two, so that what was begun is
// written whole.
#pragma once

#include "engine/outcome.hpp"

#include <csignal>
#include <cstddef>
#include <optional>
#include <string>
#include <vector>

namespace lidlift::cli {

/// Holds back Ctrl-C, hang-up and SIGTERM, in this thread and those that it starts, but while it waits for input or output. A
/// closed pipe is an error to be seen, no signal.
class HeldSignals {
public:
    HeldSignals();
    ~HeldSignals();
    HeldSignals(const HeldSignals&) = delete;
    HeldSignals& operator=(const HeldSignals&) = delete;

    /// The signal that came, or 0.
    [[nodiscard]] int caught() const;
    /// Whether `file` can be read, or written, without waiting; waits for it, if so told, until it can or a signal comes.
    [[nodiscard]] bool ready(int file, short events, bool wait) const;

private:
    sigset_t before_ = {};
    struct sigaction pipe_before_ = {};
};

/// One line of a text without its end.
struct TextLine {
    std::size_t number = 0;  ///< from 1
    std::string text;
    bool too_long = false;  ///< only its beginning is there
};

class LineSource {
public:
    LineSource(const HeldSignals& signals, std::size_t longest) : signals_(signals), longest_(longest) {}
    ~LineSource();
    LineSource(const LineSource&) = delete;
    LineSource& operator=(const LineSource&) = delete;

    /// A file, a pipe, or standard input for "-". Returns what went wrong.
    [[nodiscard]] std::optional<Fault> open(const std::string& path);

    enum class What { lines, nothing_yet, end, signal, fault };
    /// Puts the next lines, at most `most`, into `into`. Without `wait` there may be none yet, though more will come.
    [[nodiscard]] What next(std::vector<TextLine>& into, std::size_t most, bool wait);
    [[nodiscard]] const std::string& fault() const { return fault_; }

private:
    bool take_line(std::vector<TextLine>& into);

    const HeldSignals& signals_;
    std::size_t longest_;
    int file_ = -1;
    std::string name_;
    std::string waiting_;       ///< read and not yet taken
    std::size_t begin_ = 0;     ///< of what is not yet taken
    std::size_t searched_ = 0;  ///< no line ends before this
    bool cutting_ = false;      ///< what comes until the next line end belongs to a line that is too long
    bool at_end_ = false;
    std::size_t number_ = 0;
    std::string fault_;
};

/// Writes to standard output and returns whether it could; `broken_pipe` says that nobody reads it any more.
class TextSink {
public:
    explicit TextSink(const HeldSignals& signals);
    [[nodiscard]] bool write(const std::string& text);
    [[nodiscard]] bool broken_pipe() const { return broken_pipe_; }

private:
    const HeldSignals& signals_;
    bool regular_;
    bool broken_pipe_ = false;
};

}  // namespace lidlift::cli
