// What a review of a rule base finds: one fault or one piece of advice, with its place and the answers that show it.
#pragma once

#include "engine/complaint.hpp"

#include <string>
#include <vector>

namespace lidlift {

/// A fault makes the advice wrong or unsafe for somebody; a piece of advice is something to think about, and can be answered in
/// the rule base with the reason why it stays.
enum class FindingLevel { fault, advice };

/// One answer of a witness, as it would be typed: "squeeze", "stream".
struct WitnessAnswer {
    std::string sign;
    std::string value;
};

struct ReviewFinding {
    std::string kind;  ///< the id of its kind in review/kinds, for instance "never_true"
    FindingLevel level = FindingLevel::fault;
    Place place;
    std::vector<std::string> about;      ///< ids of the entries it speaks of, the one at `place` first
    std::string text;                    ///< what is wrong, one sentence
    std::vector<WitnessAnswer> witness;  ///< answers that show it; empty where none are needed
    std::string mend;                    ///< how to mend it, one sentence
    std::string answered_because;        ///< advice that the rule base answers (section `reviewed`): why it stays; else empty
};

}  // namespace lidlift
