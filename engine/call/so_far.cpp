#include "engine/call/so_far.hpp"

#include "engine/contains.hpp"
#include "engine/red_flags.hpp"

#include <algorithm>
#include <iterator>
#include <utility>

namespace lidlift {

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

CallSoFar::CallSoFar(const RuleBase& rule_base, Told known) : rule_base_(rule_base), known_(std::move(known)), told_(known_) {}

void CallSoFar::begin(Moment now, std::string tank, std::string bay) {
    record_.begun = now;
    record_.rule_base = rule_base_.name;
    record_.version = rule_base_.version;
    record_.tank = std::move(tank);
    record_.bay = std::move(bay);
}

std::vector<std::string> CallSoFar::go_on_from(CallRecord record) {
    record_ = std::move(record);
    std::vector<std::string> misfits;
    for (const CallMisfit& misfit : tell_all()) misfits.push_back(in_words(misfit, record_));
    record_.rule_base = rule_base_.name;
    record_.version = rule_base_.version;
    return misfits;
}

/// Everything that the record tells, from the beginning.
std::vector<CallMisfit> CallSoFar::tell_all() {
    CallTold all = told_in(record_, rule_base_, known_);
    told_ = std::move(all.told);
    return std::move(all.misfits);
}

std::vector<CallMisfit> CallSoFar::add(CallEntry entry) {
    record_.course.push_back(std::move(entry));
    auto misfits = tell_all();
    std::erase_if(misfits, [&](const CallMisfit& misfit) { return misfit.entry + 1 != record_.course.size(); });
    return misfits;
}

void CallSoFar::take(CallEntry entry, std::vector<std::string> not_used, std::vector<Shown>& out) {
    const bool own_words = entry.kind == CallEntry::Kind::words || entry.kind == CallEntry::Kind::news;
    auto misfits = add(std::move(entry));
    CallEntry& taken = record_.course.back();
    bool against = false;
    std::vector<CallEntry> dangers;
    for (std::size_t i = misfits.size(); i-- > 0;) {
        const RecordedAnswer out_of_place = taken.heard[misfits[i].answer];
        taken.heard.erase(taken.heard.begin() + static_cast<std::ptrdiff_t>(misfits[i].answer));
        const auto sign = rule_base_.signs.find(out_of_place.sign);
        if (sign && tells_of_danger(rule_base_, *sign, out_of_place.is)) {
            // It counts for more than whatever was said before: nobody is down in the sump until somebody is.
            CallEntry danger{
                .kind = CallEntry::Kind::changed, .when = taken.when, .words = taken.words, .sign = out_of_place.sign};
            danger.heard.push_back(out_of_place);
            dangers.push_back(std::move(danger));
        } else if (sign && told_.facts.find(*sign)) {
            out.emplace_back(shown::Against{line_of(*sign), out_of_place.from});
            against = true;
        } else {
            not_used.push_back(out_of_place.from);
        }
    }
    shown::Understood understood{{}, std::move(not_used), own_words};
    std::vector<RecordedAnswer> heard = taken.heard;
    for (CallEntry& danger : dangers) {
        heard.push_back(danger.heard.front());
        (void)add(std::move(danger));
    }
    std::vector<Handle<Sign>> said;
    for (const RecordedAnswer& answer : heard)
        if (const auto sign = rule_base_.signs.find(answer.sign); sign && !contains(said, *sign)) {
            said.push_back(*sign);
            understood.answers.push_back(line_of(*sign));
        }
    // That nothing could be used goes without saying after what it goes against.
    if ((own_words && !against) || !understood.answers.empty()) out.emplace_back(std::move(understood));
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
    // Several words may have led there; that they were said is said once.
    for (auto at = line.from.find(from_own_words); at != std::string::npos; at = line.from.find(from_own_words, at))
        line.from.erase(at, from_own_words.size());
    if (line.from.starts_with(from_an_answer)) line.from.clear();
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
