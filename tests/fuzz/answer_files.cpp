#include "engine/answers.hpp"
#include "tests/fuzz/invariants.hpp"
#include "tests/fuzz/targets.hpp"

void lidlift::fuzz::one_answer_file(std::string_view text) {
    const std::string file = "answers.yaml";
    Told told;
    Complaints complaints;
    hear_file(told, default_base(), text, file, complaints);
    ensure_placed(complaints.sorted(), text, file);
    ensure_sound(told.facts, default_base());
    for (const Handle<Sign> sign : told.order) ensure(sign.index < default_base().signs.size(), "an unknown sign was told");
    // A sign is known, or asked and not known; never both.
    for (const Handle<Sign> sign : told.not_known) ensure(!told.facts.find(sign), "a sign is known and not known");
}
