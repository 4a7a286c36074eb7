#include "cli/page.hpp"

#include "engine/plain_text.hpp"

#include <algorithm>
#include <cmath>

#include <fmt/format.h>

namespace lidlift::cli {

std::string joined(const std::vector<std::string>& words, std::string_view between) {
    return fmt::format("{}", fmt::join(words, between));
}

std::string whole_percent(double chance) { return fmt::format("{:.0f} %", std::floor(100 * chance + 0.5)); }

std::string Page::safe(std::string_view text) const {
    return screen_.ascii ? as_ascii(for_terminal(text)) : for_terminal(text);
}

void Page::heading(std::string_view text) {
    if (!text_.empty()) text_ += "\n";
    text_ += safe(text) + "\n";
}

void Page::paragraph(std::string_view lead, std::string_view text) {
    const std::size_t indent = display_width(lead);
    bool first = true;
    for (const std::string& line : wrap(safe(text), screen_.columns - indent)) {
        text_ += (first ? std::string(lead) : std::string(indent, ' ')) + line + "\n";
        first = false;
    }
}

void Page::columns(std::string_view lead, std::string_view left, std::string_view right) {
    const std::size_t indent = display_width(lead);
    const std::size_t right_width = display_width(right);
    const auto lines = wrap(safe(left), screen_.columns - indent - right_width - 2);
    for (std::size_t i = 0; i < lines.size(); ++i) {
        text_ += (i == 0 ? std::string(lead) : std::string(indent, ' ')) + lines[i];
        if (i + 1 == lines.size()) {
            const std::size_t used = indent + display_width(lines[i]) + right_width;
            text_ += std::string(used < screen_.columns ? screen_.columns - used : 1, ' ') + std::string(right);
        }
        text_ += "\n";
    }
}

void Page::unbroken(std::string_view lead, std::string_view text) { text_ += std::string(lead) + safe(text) + "\n"; }

void Page::empty_line() { text_ += "\n"; }

}  // namespace lidlift::cli
