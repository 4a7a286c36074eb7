#include "engine/call/so_far.hpp"

#include "engine/contains.hpp"

#include <algorithm>
#include <iterator>
#include <utility>

namespace lidlift {
namespace {

constexpr std::string_view own_words_mark = "you said: ";
constexpr std::string_view answered_mark = "you answered: ";

std::string value_with_sureness(const RecordedAnswer& answer) {
    if (answer.is == "?" || answer.sure == Sureness::sure) return answer.is;
    return answer.is + "," + sureness_words()[static_cast<std::size_t>(answer.sure)];
}

}  // namespace

RecordedAnswer recorded(const std::string& sign, std::string value, std::string from) {
    RecordedAnswer answer{sign, std::move(value), Sureness::sure, without_numbers_of_people(from)};
    const auto comma = answer.is.rfind(',');
    if (comma == std::string::npos) return answer;
    const auto word = std::ranges::find(sureness_words(), answer.is.substr(comma + 1));
    if (word == sureness_words().end()) return answer;
    answer.sure = static_cast<Sureness>(word - sureness_words().begin());
    answer.is.resize(comma);
    return answer;
}

void forget(Told& told, Handle<Sign> sign) {
    told.facts.forget(sign);
    std::erase(told.not_known, sign);
}

CallSoFar::CallSoFar(const RuleBase& rule_base, Told known) : rule_base_(rule_base), known_(std::move(known)), told_(known_) {}

void CallSoFar::begin(Moment now, std::string tank) {
    record_.begun = now;
    record_.rule_base = rule_base_.name;
    record_.version = rule_base_.version;
    record_.tank = std::move(tank);
}

std::vector<std::string> CallSoFar::go_on_from(CallRecord record) {
    record_ = std::move(record);
    std::vector<std::string> misfits;
    for (const Misfit& misfit : tell_all()) {
        const RecordedAnswer& answer = record_.course[misfit.entry].heard[misfit.answer];
        misfits.push_back(answer.sign + "=" + answer.is + ": " + misfit.fault.text);
    }
    record_.rule_base = rule_base_.name;
    record_.version = rule_base_.version;
    return misfits;
}

/// Everything that the record tells, from the beginning.
std::vector<CallSoFar::Misfit> CallSoFar::tell_all() {
    std::vector<Misfit> misfits;
    told_ = known_;
    std::vector<Handle<Sign>> told_by_the_caller;
    for (const CallEntry* entry : what_counts(record_)) {
        std::vector<Handle<Sign>> told_here;
        for (std::size_t i = 0; i < entry->heard.size(); ++i) {
            const RecordedAnswer& answer = entry->heard[i];
            const auto sign = rule_base_.signs.find(answer.sign);
            const bool replaces =
                entry->kind == CallEntry::Kind::news || (entry->kind == CallEntry::Kind::changed && answer.sign == entry->sign);
            Told before = told_;
            if (sign && !contains(told_here, *sign) && (replaces || !contains(told_by_the_caller, *sign))) forget(told_, *sign);
            const bool plain = entry->kind == CallEntry::Kind::asked || entry->kind == CallEntry::Kind::changed ||
                               entry->kind == CallEntry::Kind::safety;
            const std::string from = answer.from.empty() && plain
                                         ? std::string(answered_mark) + entry->words
                                         : std::string(own_words_mark) + (answer.from.empty() ? entry->words : answer.from);
            if (auto fault = lidlift::hear(told_, rule_base_, answer.sign, value_with_sureness(answer), from)) {
                told_ = std::move(before);
                misfits.push_back({static_cast<std::size_t>(entry - record_.course.data()), i, std::move(*fault)});
            } else {
                told_here.push_back(*sign);
                told_by_the_caller.push_back(*sign);
            }
        }
    }
    return misfits;
}

std::vector<CallSoFar::Misfit> CallSoFar::add(CallEntry entry) {
    record_.course.push_back(std::move(entry));
    auto misfits = tell_all();
    std::erase_if(misfits, [&](const Misfit& misfit) { return misfit.entry + 1 != record_.course.size(); });
    return misfits;
}

void CallSoFar::take(CallEntry entry, std::vector<std::string> not_used, std::vector<Shown>& out) {
    const bool own_words = entry.kind == CallEntry::Kind::words || entry.kind == CallEntry::Kind::news;
    auto misfits = add(std::move(entry));
    CallEntry& taken = record_.course.back();
    for (std::size_t i = misfits.size(); i-- > 0;) {
        const RecordedAnswer out_of_place = taken.heard[misfits[i].answer];
        taken.heard.erase(taken.heard.begin() + static_cast<std::ptrdiff_t>(misfits[i].answer));
        const auto sign = rule_base_.signs.find(out_of_place.sign);
        if (sign && told_.facts.find(*sign))
            out.emplace_back(shown::Against{line_of(*sign), out_of_place.from});
        else
            not_used.push_back(out_of_place.from);
    }
    shown::Understood understood{{}, std::move(not_used), own_words};
    std::vector<Handle<Sign>> said;
    for (const RecordedAnswer& answer : taken.heard)
        if (const auto sign = rule_base_.signs.find(answer.sign); sign && !contains(said, *sign)) {
            said.push_back(*sign);
            understood.answers.push_back(line_of(*sign));
        }
    if (own_words || !understood.answers.empty()) out.emplace_back(std::move(understood));
}

void CallSoFar::drop_last() {
    record_.course.pop_back();
    (void)tell_all();
}

bool CallSoFar::is_answered(Handle<Sign> sign) const { return told_.facts.find(sign) || contains(told_.not_known, sign); }

shown::Line CallSoFar::line_of(Handle<Sign> sign) const {
    shown::Line line;
    line.sign = sign;
    line.number = static_cast<std::size_t>(std::ranges::find(told_.order, sign) - told_.order.begin()) + 1;
    const Observation* seen = told_.facts.find(sign);
    if (!seen) return line;
    line.words = in_words(rule_base_.signs[sign], *seen);
    line.from = seen->from;
    if (line.from.starts_with(own_words_mark)) line.from.erase(0, own_words_mark.size());
    if (line.from.starts_with(answered_mark)) line.from.clear();
    return line;
}

std::vector<shown::Line> CallSoFar::lines() const {
    std::vector<shown::Line> result;
    for (const auto sign : told_.order) result.push_back(line_of(sign));
    return result;
}

std::size_t CallSoFar::questions_asked() const {
    std::size_t asked = 0;
    for (const CallEntry* entry : what_counts(record_)) {
        if (entry->kind == CallEntry::Kind::asked) ++asked;
        if (entry->kind == CallEntry::Kind::advised || entry->kind == CallEntry::Kind::follow_up) asked = 0;
    }
    return asked;
}

std::string_view CallSoFar::topic() const {
    std::string_view topic;
    for (const CallEntry* entry : what_counts(record_))
        if (const auto sign = rule_base_.signs.find(entry->sign); entry->kind == CallEntry::Kind::asked && sign)
            topic = rule_base_.signs[*sign].topic;
    if (topic.empty())
        for (const auto sign : called_about())
            if (sign != rule_base_.stage) topic = rule_base_.signs[sign].topic;
    return topic;
}

std::vector<Handle<Sign>> CallSoFar::called_about() const {
    std::vector<Handle<Sign>> result;
    for (const CallEntry* entry : what_counts(record_))
        for (const RecordedAnswer& answer : entry->heard)
            if (const auto sign = rule_base_.signs.find(answer.sign);
                sign && (entry->kind == CallEntry::Kind::words || entry->kind == CallEntry::Kind::news))
                result.push_back(*sign);
    return result;
}

bool CallSoFar::asked_after_dangers() const {
    return std::ranges::any_of(what_counts(record_),
                               [](const CallEntry* entry) { return entry->kind == CallEntry::Kind::safety; });
}

const CallEntry* CallSoFar::last() const {
    const auto counts = what_counts(record_);
    return counts.empty() ? nullptr : counts.back();
}

}  // namespace lidlift
