#include "engine/answers.hpp"
#include "engine/phrasebook.hpp"
#include "engine/plain_text.hpp"
#include "tests/fuzz/invariants.hpp"
#include "tests/fuzz/targets.hpp"

#include <algorithm>

void lidlift::fuzz::one_story(std::string_view text) {
    static const Phrasebook phrasebook(default_base());
    const RuleBase& base = default_base();
    const Understanding heard = phrasebook.read(text);
    Told told;
    for (const Reading& reading : heard.readings) {
        ensure(reading.sign.index < base.signs.size(), "a sign that the rule base does not have");
        ensure(!reading.words.empty(), "an answer that nobody gave");
        ensure_harmless(for_terminal(reading.words));
        const std::string& sign = base.signs[reading.sign].id;
        const auto fault = hear(told, base, sign, reading.value, "you said: " + reading.words);
        ensure(!fault, "heard, but refused: " + sign + "=" + reading.value + (fault ? ": " + fault->text : ""));
    }
    ensure_sound(told.facts, base);
    for (const OpenQuestion& open : heard.to_ask) {
        ensure(!open.signs.empty(), "an open question about nothing");
        ensure_harmless(for_terminal(open.words));
        for (const Handle<Sign> sign : open.signs) {
            ensure(sign.index < base.signs.size(), "an open question about an unknown sign");
            ensure(!told.facts.find(sign), "asked although it was told: " + base.signs[sign].id);
        }
    }
    for (const std::string& clause : heard.not_understood) ensure_harmless(for_terminal(clause));
}
