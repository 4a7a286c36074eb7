// What a phrase says where it stands: its answer, the opposite, or nothing that may be used.
#pragma once

#include "engine/hearing/clause_frame.hpp"
#include "engine/hearing/phrase_index.hpp"

#include <optional>
#include <string>
#include <vector>

namespace lidlift::hearing {

/// A clause with its phrases (in the order in which they stand) and all that is known of how it is meant.
struct Scene {
    Words words;  ///< of the whole segment
    Clause clause;
    Frame frame;
    const Covered* covered = nullptr;
    int troubles = 0;       ///< phrases about what is wrong, in the clause that this one leads in; Judge::verdicts adds its own
    int other_matters = 0;  ///< phrases about feeding, keeping and people
    bool others_spoken_of = false;  ///< the last creature named before this clause is no compost worm
};

/// The value after '=', and the word from which on it was said: "not soggy" begins at "not".
struct Judgement {
    std::string value;
    std::size_t first = 0;
    bool past = false;  ///< said in the past tense only: what is said of now counts for more
};

/// Does the sign tell of something wrong, rather than of feeding, keeping or people?
[[nodiscard]] bool is_trouble(const Sign& sign);

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
