#include "engine/call/advice_given.hpp"

#include "engine/call_record_reader.hpp"

namespace lidlift {
namespace {

/// Causes offered at a follow-up, and recorded with an advice.
constexpr std::size_t most_causes_named = 5;

}  // namespace

RecordedAdvice recorded_advice(const RuleBase& base, const Diagnosis& diagnosis, StopReason reason) {
    RecordedAdvice result;
    result.because = stop_words()[static_cast<std::size_t>(reason)];
    for (const RankedCause& ranked : diagnosis.ranking.causes)
        if (ranked.raised() && ranked.chance >= least_chance_recorded && result.causes.size() < most_causes_named)
            result.causes.push_back({base.causes[ranked.cause].id, ranked.chance});
    result.nothing_listed = diagnosis.ranking.nothing_listed;
    for (const PlannedStep& planned : diagnosis.advice.steps) result.steps.push_back(base.steps[planned.step].id);
    for (const auto caution : diagnosis.advice.cautions) result.cautions.push_back(base.cautions[caution].id);
    return result;
}

const RecordedAdvice* last_advice(const CallRecord& record) {
    const RecordedAdvice* result = nullptr;
    for (const CallEntry* entry : what_counts(record))
        if (entry->kind == CallEntry::Kind::advised) result = &entry->advice;
    return result;
}

std::vector<Handle<Cause>> causes_advised(const CallRecord& record, const RuleBase& base) {
    std::vector<Handle<Cause>> result;
    const RecordedAdvice* advice = last_advice(record);
    if (!advice) return result;
    for (const RecordedChance& one : advice->causes)
        if (const auto cause = base.causes.find(one.cause); cause && result.size() < most_causes_named)
            result.push_back(*cause);
    return result;
}

}  // namespace lidlift
