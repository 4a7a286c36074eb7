// How far the answer to one sign reaches: which conclusions may change with it, and the circumstances and vetoes of which
// causes.
#pragma once

#include "engine/rule_base.hpp"

#include <vector>

namespace lidlift {

struct SignReach {
    std::vector<Handle<Conclusion>> conclusions;  ///< rising
    std::vector<Handle<Rule>> rules;              ///< all rules for those conclusions, in an order in which they can be chained
    std::vector<Handle<Cause>> causes;            ///< with a circumstance or a veto that hangs on it, rising
};

/// Who mentions what, from the other end. Refers to nothing.
class SignReaches {
public:
    explicit SignReaches(const RuleBase& rule_base);

    [[nodiscard]] SignReach of(const RuleBase& rule_base, Handle<Sign> sign) const;
    /// Causes with a circumstance or a veto that mentions it, through no rule.
    [[nodiscard]] const std::vector<Handle<Cause>>& causes_mentioning(Handle<Sign> sign) const {
        return of_sign_[sign.index].causes;
    }
    [[nodiscard]] const std::vector<Handle<Cause>>& causes_mentioning(Handle<Conclusion> conclusion) const {
        return of_conclusion_[conclusion.index].causes;
    }

private:
    /// The rules and causes with a condition that mentions something.
    struct Mentioning {
        std::vector<Handle<Rule>> rules;
        std::vector<Handle<Cause>> causes;
    };
    std::vector<Mentioning> of_sign_;
    std::vector<Mentioning> of_conclusion_;
    std::vector<std::uint32_t> turn_;  ///< by rule: its place in the order of chaining
};

}  // namespace lidlift
