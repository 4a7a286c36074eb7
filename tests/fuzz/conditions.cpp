#include "engine/condition_grammar.hpp"
#include "tests/fuzz/targets.hpp"
#include "tests/fuzz/written_again.hpp"

void lidlift::fuzz::one_condition(std::string_view text) {
    ensure_written_again(text, read_condition, longest_condition, "a condition");
}
