#include "engine/call_told.hpp"

#include "engine/contains.hpp"

#include <utility>

namespace lidlift {
namespace {

using Kind = CallEntry::Kind;

/// What stands after '=', with how sure.
std::string value_with_sureness(const RecordedAnswer& answer) {
    if (answer.is == "?" || answer.sure == Sureness::sure) return answer.is;
    return answer.is + "," + sureness_words()[static_cast<std::size_t>(answer.sure)];
}

/// Where the answer comes from: the words that led there, or the whole reply to a question.
std::string origin(const CallEntry& entry, const RecordedAnswer& answer) {
    const bool reply = entry.kind == Kind::asked || entry.kind == Kind::changed || entry.kind == Kind::safety;
    if (reply && answer.from.empty()) return std::string(from_an_answer) + entry.words;
    return std::string(from_own_words) + (answer.from.empty() ? entry.words : answer.from);
}

}  // namespace

void forget(Told& told, Handle<Sign> sign) {
    told.facts.forget(sign);
    std::erase(told.not_known, sign);
}

CallTold told_in(const CallRecord& record, const RuleBase& rule_base, Told known) {
    CallTold result{std::move(known), {}};
    std::vector<Handle<Sign>> told_by_the_caller;
    for (const CallEntry* entry : what_counts(record)) {
        std::vector<Handle<Sign>> told_here;
        for (std::size_t i = 0; i < entry->heard.size(); ++i) {
            const RecordedAnswer& answer = entry->heard[i];
            const auto sign = rule_base.signs.find(answer.sign);
            const bool replaces = entry->kind == Kind::news || (entry->kind == Kind::changed && answer.sign == entry->sign);
            Told before = result.told;
            if (sign && !contains(told_here, *sign) && (replaces || !contains(told_by_the_caller, *sign)))
                forget(result.told, *sign);
            if (auto fault = hear(result.told, rule_base, answer.sign, value_with_sureness(answer), origin(*entry, answer))) {
                result.told = std::move(before);
                result.misfits.push_back({static_cast<std::size_t>(entry - record.course.data()), i, std::move(*fault)});
            } else {
                told_here.push_back(*sign);
                told_by_the_caller.push_back(*sign);
            }
        }
    }
    return result;
}

std::string in_words(const CallMisfit& misfit, const CallRecord& record) {
    const RecordedAnswer& answer = record.course[misfit.entry].heard[misfit.answer];
    return answer.sign + "=" + answer.is + ": " + misfit.fault.text;
}

}  // namespace lidlift
