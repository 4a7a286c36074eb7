// "I added fish", "we put banana skins in": materials that somebody fed, as answers to the signs that they count towards.
#pragma once

#include "engine/hearing/phrase_index.hpp"

#include <string>
#include <unordered_map>
#include <vector>

namespace lidlift::hearing {

class FedMaterials {
public:
    explicit FedMaterials(const RuleBase& rule_base);

    /// The materials named after a verb of feeding. How much there was of them, and whether at all, is judged as for phrases.
    [[nodiscard]] std::vector<Match> matches(Words words) const;

private:
    struct Name {
        std::vector<std::string> stems;
        std::size_t first_meaning = 0;  ///< of `meanings_`
        std::size_t last_meaning = 0;
    };
    [[nodiscard]] const Name* longest_at(Words words, std::size_t at) const;

    std::vector<Meaning> meanings_;
    std::unordered_map<std::string, std::vector<Name>> names_;  ///< by the first stem
};

}  // namespace lidlift::hearing
