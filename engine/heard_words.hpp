// A caller's own words into what was told: after all that was told as sign=value, which counts for more.
#pragma once

#include "engine/answers.hpp"
#include "engine/phrasebook.hpp"

#include <string>
#include <string_view>
#include <vector>

namespace lidlift {

struct HeardWords {
    std::vector<std::string> not_understood;  ///< and what contradicts what was told otherwise
    std::vector<OpenQuestion> to_ask;
};

[[nodiscard]] HeardWords hear_words(Told& told, const RuleBase& rule_base, const Phrasebook& phrasebook, std::string_view text);

}  // namespace lidlift
