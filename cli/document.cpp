#include "cli/document.hpp"

#include "engine/plain_text.hpp"

namespace lidlift::cli {

std::string_view called(Level level) {
    switch (level) {
        case Level::stop:
            return "STOP";
        case Level::warn:
            return "CARE";
        case Level::note:
            return "NOTE";
    }
    return {};
}

std::string on_one_line(std::string_view text) {
    std::string result;
    bool blank = false;
    for (const char c : text) {
        const bool is_blank = c == ' ' || c == '\n' || c == '\r' || c == '\t';
        if (!is_blank)
            result += c;
        else if (!blank)
            result += ' ';
        blank = is_blank;
    }
    return for_terminal(result);
}

}  // namespace lidlift::cli
