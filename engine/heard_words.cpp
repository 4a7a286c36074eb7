#include "engine/heard_words.hpp"

#include <utility>

namespace lidlift {

HeardWords hear_words(Told& told, const RuleBase& rule_base, const Phrasebook& phrasebook, std::string_view text) {
    Understanding understanding = phrasebook.read(text);
    for (const Reading& reading : understanding.readings)
        if (hear(told, rule_base, rule_base.signs[reading.sign].id, reading.value, "you said: " + reading.words))
            understanding.not_understood.push_back(reading.words);  // it contradicts what was told
    return {std::move(understanding.not_understood), std::move(understanding.to_ask)};
}

}  // namespace lidlift
