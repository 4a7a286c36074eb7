// The dangers to people that are asked after before anything else, where what was told, or the stage, gives reason.
#pragma once

#include "engine/answers.hpp"
#include "engine/ranking.hpp"

#include <string_view>
#include <vector>

namespace lidlift {

/// One answer that alone calls for a caution of level stop.
struct RedFlag {
    Handle<Sign> sign;
    std::size_t answer = 0;  ///< position
    Handle<Caution> caution;
    friend bool operator==(const RedFlag&, const RedFlag&) = default;
};

/// The answers to ask after, emergencies first, each once. They are those of signs that speak for no cause and so would never
/// be asked otherwise, and those of emergencies. Reasons to ask: nothing is known of the bed yet (for emergencies); another
/// caution of level stop holds already (for emergencies); or a cause that names the caution, itself or in a step, is possible
/// and the answers or the stage speak for it.
[[nodiscard]] std::vector<RedFlag> red_flags(const RuleBase& rule_base, const Told& told, const Ranking& ranking);

/// Does the answer of this id alone call for a caution of level stop, on a sign that is an emergency's or speaks for no cause?
[[nodiscard]] bool tells_of_danger(const RuleBase& rule_base, Handle<Sign> sign, std::string_view answer);
/// Is there such an answer to the sign?
[[nodiscard]] bool asks_after_danger(const RuleBase& rule_base, Handle<Sign> sign);

/// The emergency that the answers tell of, if any.
[[nodiscard]] const Caution* emergency(const RuleBase& rule_base, const Told& told, const Conclusions& conclusions);

}  // namespace lidlift
