// How the words of a clause are meant: said of this bed and of now, or asked, imagined, over, or said of another bed.
#pragma once

#include "engine/hearing/caller_text.hpp"

#include <vector>

namespace lidlift::hearing {

/// Words [first, last) of a segment.
struct Clause {
    std::size_t segment = 0;
    std::size_t first = 0;
    std::size_t last = 0;
};

enum class Use { as_said, only_as_intention, not_at_all };

struct Frame {
    Use use = Use::as_said;
    bool unsure = false;
    bool past = false;              ///< "was", "had", and nothing says that it still is
    bool of_now = false;            ///< "now", "these days": told against what was before
    bool guessed = false;           ///< "could be", "I am afraid": a guess that it is so
    bool well_again = false;        ///< "it is fine now": what was told in the past tense before is over
    bool negates = false;           ///< a negator stands outside all phrases
    bool denied_after = false;      ///< the next clause denies what is told in this one: "but I have not seen any"
    bool unclear_negation = false;  ///< a list goes on after a negated clause: "no ants, mites"
};

/// Which words of a segment belong to a phrase or a figure; these do not count as grammar.
using Covered = std::vector<bool>;

/// A segment cut at conjunctions that stand outside phrases.
[[nodiscard]] std::vector<Clause> cut_into_clauses(Words words, const Covered& covered, std::size_t segment);

/// The frames of the clauses of one sentence, in order. All of `segments` up to the last clause's are looked at; `covered` is
/// by segment. `fresh_scene`: the sentence before was told of a moment just past; it becomes that of this one.
[[nodiscard]] std::vector<Frame> frames_of_sentence(const std::vector<Segment>& segments, const std::vector<Covered>& covered,
                                                    const std::vector<Clause>& clauses, bool& fresh_scene);

}  // namespace lidlift::hearing
