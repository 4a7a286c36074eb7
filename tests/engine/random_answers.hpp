// Random things that a person might say about one bed, the same on every machine for the same seed.
#pragma once

#include "engine/quantity.hpp"
#include "engine/rule_base.hpp"
#include "tests/engine/random_models.hpp"

#include <cmath>
#include <cstdint>
#include <string>
#include <vector>

namespace lidlift::test {

inline std::uint32_t random_position(Dice& dice, std::size_t count) {
    return dice.whole(0, static_cast<std::uint32_t>(count) - 1);
}

/// A number in the plausible range of a quantity, with one decimal at most.
inline std::string random_number(Dice& dice, const Sign& sign) {
    const double number = std::round(dice.between(sign.plausible.low, sign.plausible.high) * 10) / 10;
    return quantity_to_text(std::min(std::max(number, sign.plausible.low), sign.plausible.high), *sign.unit);
}

/// What may stand after "sign=", without a word about how sure the person is.
inline std::string random_value(Dice& dice, const Sign& sign) {
    if (sign.sort == SignSort::quantity && (sign.answers.empty() || dice.one_in(2))) return random_number(dice, sign);
    const std::string answer = sign.answers[random_position(dice, sign.answers.size())].id;
    if (sign.sort == SignSort::one_of && sign.answers.size() > 2 && dice.one_in(8)) return "not " + answer;
    return answer;
}

/// One answer; one in ten is "?", one in five unsure.
inline std::string random_answer(Dice& dice, const Sign& sign) {
    if (dice.one_in(10)) return sign.id + "=?";
    const std::string value = sign.id + "=" + random_value(dice, sign);
    if (!dice.one_in(5)) return value;
    return value + (dice.one_in(2) ? ",unsure" : ",guess");
}

/// Answers about `count` different signs.
inline std::vector<std::string> random_answers(Dice& dice, const RuleBase& base, std::uint32_t count) {
    std::vector<std::uint32_t> signs(base.signs.size());
    for (std::uint32_t i = 0; i < signs.size(); ++i) signs[i] = i;
    dice.shuffle(signs);
    std::vector<std::string> words;
    for (std::uint32_t i = 0; i < count && i < signs.size(); ++i)
        words.push_back(random_answer(dice, base.signs[Handle<Sign>{signs[i]}]));
    return words;
}

}  // namespace lidlift::test
