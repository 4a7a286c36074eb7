#include "engine/amount_grammar.hpp"
#include "tests/fuzz/targets.hpp"
#include "tests/fuzz/written_again.hpp"

void lidlift::fuzz::one_amount(std::string_view text) {
    ensure_written_again(text, read_amount_formula, longest_amount, "an amount");
}
