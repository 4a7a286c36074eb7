#include "engine/routines.hpp"

#include <algorithm>

namespace lidlift::routine {

const Routine& turned() {
    static const Routine routine = {
        {"turn_when_it_cools", "turn_heap_with_dry", "turn_heap_again", "wet_heap_in_lifts", "turn_and_wet_test",
         "keep_heap_in_band", "open_hot_heap", "turn_and_damp_next_bay", "mend_next_bay"},
        {"turn"}};
    return routine;
}

const Routine& sump_emptied() {
    static const Routine routine = {{"empty_the_sump", "empty_sump_now", "tip_out_water"}, {"sump", "tray"}};
    return routine;
}

const Routine& left_hungry() {
    static const Routine routine = {{"old_bay_goes_hungry"}, {"handed over", "stopped feeding"}};
    return routine;
}

bool is(const Did& did, const Routine& routine, const RuleBase& rule_base) {
    if (did.step)
        return std::ranges::find(routine.steps, std::string_view(rule_base.steps[*did.step].id)) != routine.steps.end();
    const std::string words = lower(did.words);
    return std::ranges::any_of(routine.words, [&](std::string_view beginning) { return word_begins(words, beginning); });
}

bool word_begins(std::string_view text, std::string_view beginning) {
    for (std::size_t at = text.find(beginning); at != std::string_view::npos; at = text.find(beginning, at + 1))
        if (at == 0 || text[at - 1] == ' ') return true;
    return false;
}

std::string lower(std::string text) {
    for (char& c : text)
        if (c >= 'A' && c <= 'Z') c = static_cast<char>(c - 'A' + 'a');
    return text;
}

}  // namespace lidlift::routine
