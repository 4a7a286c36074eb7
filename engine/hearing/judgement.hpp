// What a phrase says where it stands: its answer, the opposite, or nothing that may be used.
#pragma once

#include "engine/hearing/surroundings.hpp"

#include <optional>
#include <string>
#include <vector>

namespace lidlift::hearing {

/// The value after '=', and the word from which on it was said: "not soggy" begins at "not".
struct Judgement {
    std::string value;
    std::size_t first = 0;
    bool past = false;  ///< said in the past tense only; how sure it is depends on what else is told
};

class Judge {
public:
    Judge(const RuleBase& rule_base, const PhraseIndex& phrases);

    /// A verdict for each phrase of the clause; none where it may not be used.
    [[nodiscard]] std::vector<std::optional<Judgement>> verdicts(const Scene& scene, const std::vector<Match>& matches) const;

private:
    const RuleBase& rule_base_;
    const PhraseIndex& phrases_;
    std::vector<bool> emergencies_;  ///< by sign: one that an emergency caution hangs on
};

}  // namespace lidlift::hearing
