// Forward chaining over the rules to the fixpoint, with the reason for each conclusion.
//
// Rules come ordered (circles are refused when the rule base is read), so one pass over them reaches the fixpoint in time
// linear in the rule base, as Dowling & Gallier 1984 (J. Logic Programming 1, 267-284) show for Horn rules; the order of
// answers cannot matter.
#pragma once

#include "engine/facts.hpp"
#include "engine/rule_base.hpp"
#include "engine/sign_reach.hpp"

#include <optional>
#include <string>
#include <vector>

namespace lidlift {

struct Conclusions {
    std::vector<Truth> truth;                          ///< by conclusion
    std::vector<std::optional<Handle<Rule>>> because;  ///< the first rule that made it true
    std::vector<Sureness> sureness;                    ///< of the least sure answer that settled it
};

/// A conclusion is true when the condition of one of its rules is, false when it has rules and all are false, and unknown
/// otherwise.
[[nodiscard]] Conclusions chain(const RuleBase& rule_base, const Facts& facts);

/// Brings conclusions up to date after another answer to one sign, whose reach that is.
void chain_again(const RuleBase& rule_base, const Facts& facts, const SignReach& reach, Conclusions& conclusions);

/// The least sure of the answers that settled `condition`, by the surest way in which they did.
[[nodiscard]] Sureness sureness_of(const Condition& condition, const Facts& facts, const Conclusions& conclusions);

/// The facts that settled a condition, in words: "squeeze test: water runs out without hard squeezing; standing water: no".
[[nodiscard]] std::string settled_in_words(const Condition& condition, const RuleBase& rule_base, const Facts& facts,
                                           const Conclusions& conclusions);

/// Signs whose answers could still settle an unknown condition, through rules as well; each once.
[[nodiscard]] std::vector<Handle<Sign>> signs_to_settle(const Condition& condition, const RuleBase& rule_base,
                                                        const Facts& facts, const Conclusions& conclusions);

}  // namespace lidlift
