#include "engine/condition_grammar.hpp"
#include "engine/plain_text.hpp"
#include "tests/fuzz/invariants.hpp"
#include "tests/fuzz/targets.hpp"

void lidlift::fuzz::one_condition(std::string_view text) {
    const auto read = read_condition(text);
    if (!read) {
        ensure_harmless(for_terminal(read.fault().text));
        ensure_column(read.fault().column, text);
        return;
    }
    const std::string printed = written::to_text(*read);
    // The reader of files has looked at every byte before; what is sound stays sound.
    if (!find_bad_character(text)) ensure_harmless(printed);
    const auto again = read_condition(printed);
    // What is printed may be longer than what was read, and so may pass the limit.
    if (!again && printed.size() > longest_condition) return;
    ensure(static_cast<bool>(again), "a condition cannot be read again: " + printed);
    ensure(written::to_text(*again) == printed, "a condition is printed differently the second time: " + printed);
}
