// What of an advice a call record keeps, and what it says later of what was advised.
#pragma once

#include "engine/asking.hpp"
#include "engine/call_record.hpp"
#include "engine/diagnosis.hpp"

#include <vector>

namespace lidlift {

[[nodiscard]] RecordedAdvice recorded_advice(const RuleBase& rule_base, const Diagnosis& diagnosis, StopReason reason);

/// The last advice; null: none was given.
[[nodiscard]] const RecordedAdvice* last_advice(const CallRecord& record);

/// The causes of the last advice that the rule base of today knows.
[[nodiscard]] std::vector<Handle<Cause>> causes_advised(const CallRecord& record, const RuleBase& rule_base);

}  // namespace lidlift
