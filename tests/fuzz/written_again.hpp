// What a grammar reads, printed and read again, is the same.
#pragma once

#include "engine/outcome.hpp"
#include "engine/plain_text.hpp"
#include "tests/fuzz/invariants.hpp"

#include <string>
#include <string_view>

namespace lidlift::fuzz {

/// `read` makes a written formula of a text of one line, at most `longest` bytes long; `what` names it in a complaint.
template <class Read>
void ensure_written_again(std::string_view text, Read read, std::size_t longest, const std::string& what) {
    const auto once = read(text);
    if (!once) {
        ensure_harmless(for_terminal(once.fault().text));
        ensure_column(once.fault().column, text);
        return;
    }
    const std::string printed = to_text(*once);
    // The reader of files has looked at every byte before; what is sound stays sound.
    if (!find_bad_character(text)) ensure_harmless(printed);
    const auto again = read(printed);
    // What is printed may be longer than what was read, and so may pass the limit.
    if (!again && printed.size() > longest) return;
    ensure(static_cast<bool>(again), what + " cannot be read again: " + printed);
    ensure(to_text(*again) == printed, what + " is printed differently the second time: " + printed);
}

}  // namespace lidlift::fuzz
