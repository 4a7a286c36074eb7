#include "engine/closed_calls.hpp"

#include "engine/answers.hpp"

#include <algorithm>

namespace lidlift {
namespace {

using Kind = CallEntry::Kind;

std::string as_told(const RecordedAnswer& answer) {
    return answer.sure == Sureness::sure || answer.is == "?"
               ? answer.is
               : answer.is + "," + sureness_words()[static_cast<std::size_t>(answer.sure)];
}

void forget(Told& told, Handle<Sign> sign) {
    told.facts.forget(sign);
    std::erase(told.order, sign);
    std::erase(told.not_known, sign);
}

Confirmed how(ConfirmedCause::How recorded) {
    switch (recorded) {
        case ConfirmedCause::How::seen:
            return Confirmed::seen;
        case ConfirmedCause::How::remedy_worked:
            return Confirmed::remedy_worked;
        case ConfirmedCause::How::guess:
            break;
    }
    return Confirmed::guess;
}

}  // namespace

ClosedReading closed_call(const CallRecord& record, const RuleBase& rule_base) {
    ClosedReading reading;
    Told told;
    const RecordedAdvice* advised = nullptr;
    const ConfirmedCause* confirmed = nullptr;
    for (const CallEntry* entry : what_counts(record)) {
        if (entry->kind == Kind::advised && !confirmed) advised = &entry->advice;
        if (entry->kind == Kind::confirmed && entry->confirmed.how) confirmed = &entry->confirmed;
        if (advised) continue;
        if (entry->kind == Kind::changed)
            if (const auto sign = rule_base.signs.find(entry->sign)) forget(told, *sign);
        for (const RecordedAnswer& answer : entry->heard)
            if (const auto fault = hear(told, rule_base, answer.sign, as_told(answer), "a closed call"))
                reading.misfits.push_back(fault->text);
    }
    if (!record.closed) {
        reading.why_not = "the call is still open";
    } else if (!confirmed) {
        reading.why_not = "nobody said what it was in the end";
    } else if (!advised) {
        reading.why_not = "nothing had been advised";
    } else {
        ClosedCall call;
        call.facts = told.facts;
        call.confirmed = how(*confirmed->how);
        for (const RecordedChance& stated : advised->causes)
            if (const auto cause = rule_base.causes.find(stated.cause))
                call.stated.push_back({*cause, stated.chance});
            else
                reading.misfits.push_back("there is no cause '" + stated.cause + "' any more");
        std::ranges::stable_sort(call.stated, std::greater{}, &StatedChance::chance);
        for (const std::string& name : confirmed->causes)
            if (const auto cause = rule_base.causes.find(name))
                call.causes.push_back(*cause);
            else
                reading.why_not = "it was '" + name + "', which the rule base does not know";
        if (reading.why_not.empty()) reading.call = std::move(call);
    }
    return reading;
}

}  // namespace lidlift
