// A closed call record in the terms of one rule base, ready to learn from.
#pragma once

#include "engine/call_record.hpp"
#include "engine/learning.hpp"

#include <optional>
#include <string>
#include <vector>

namespace lidlift {

struct ClosedReading {
    std::optional<ClosedCall> call;    ///< none: the call is open, or nothing can be learnt from it
    std::string why_not;               ///< where there is none
    std::vector<std::string> misfits;  ///< answers and causes that the rule base does not know; they are left out
};

/// Counts only what was said before the first advice: later answers may be coloured by what was advised. The stated chances are
/// those of the last advice before the outcome was told.
[[nodiscard]] ClosedReading closed_call(const CallRecord& record, const RuleBase& rule_base);

}  // namespace lidlift
