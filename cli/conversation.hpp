// One line in, some lines out: a conversation on a terminal or a pipe, which signals end between two lines and never within
// one.
#pragma once

#include "cli/page.hpp"

#include <csignal>
#include <optional>
#include <string>

namespace lidlift::cli {

/// What came in.
struct HeardLine {
    enum class What { line, end, signal };
    What what = What::end;
    std::string line;  ///< without its line feed; what goes beyond the longest line is dropped
    int signal = 0;
};

/// While it lives, Ctrl-C, hang-up and the request to end wait until the next `next_line`, so that nothing is written by
/// halves; and a file that may not grow is a fault of writing, not a signal.
class Conversation {
public:
    /// Speaks on standard output, or on standard error where the results go to standard output.
    explicit Conversation(bool on_standard_error);
    ~Conversation();
    Conversation(const Conversation&) = delete;
    Conversation& operator=(const Conversation&) = delete;

    [[nodiscard]] HeardLine next_line();
    /// False when nobody can hear it any more.
    bool say(const std::string& text);
    /// The prompt; what comes from a pipe is repeated after it, so that the transcript can be read.
    bool prompt();
    bool repeat(const std::string& line);

    /// As wide as the terminal is at this moment (30 to 100 columns; 80 where there is none), in ASCII unless the locale is
    /// UTF-8.
    [[nodiscard]] Screen screen() const;

private:
    int out_;
    bool typed_;  ///< by a person at a terminal, which shows what is typed
    std::string waiting_;
    bool cut_ = false;
    bool at_end_ = false;
    sigset_t before_{};
};

/// What an open file shows text on: a terminal's width and letters; 80 columns and all letters where it is no terminal.
[[nodiscard]] Screen screen_of(int file);
/// The same of standard output.
[[nodiscard]] Screen screen_of_output();

/// Ends this program by the signal, as if nobody had caught it.
[[noreturn]] void end_by(int signal);

}  // namespace lidlift::cli
