#include "engine/call/follow_up_talk.hpp"

#include "engine/call/advice_given.hpp"
#include "engine/nearest_name.hpp"
#include "engine/spoken_reply.hpp"

#include <algorithm>
#include <string>
#include <utility>

namespace lidlift {
namespace {

using shown::FollowUpQuestion;

/// The id of the cause that is meant, a slip forgiven.
std::optional<std::string> cause_named(const std::string& text, const RuleBase& base) {
    if (auto id = nearest_name(text, base.causes.ids())) return id;
    std::vector<std::string> names;
    for (const Cause& cause : base.causes) names.push_back(cause.name);
    const auto name = nearest_name(text, names);
    if (!name) return std::nullopt;
    return base.causes.ids()[static_cast<std::size_t>(std::ranges::find(names, *name) - names.begin())];
}

}  // namespace

bool is_solved(const CallRecord& record) {
    bool solved = false;
    for (const CallEntry* entry : what_counts(record))
        if (entry->kind == CallEntry::Kind::follow_up && entry->follow_up.helped)
            solved = *entry->follow_up.helped == FollowUp::Helped::solved;
    return solved;
}

bool FollowUpTalk::begin(const CallSoFar& call) {
    FollowUp so_far;
    std::optional<ConfirmedCause> cause;
    bool since_then = false;
    for (const CallEntry* entry : what_counts(call.record())) {
        if (entry->kind == CallEntry::Kind::advised) {
            so_far = {};
            cause.reset();
        }
        if (entry->kind == CallEntry::Kind::follow_up && entry->follow_up.done) so_far.done = entry->follow_up.done;
        if (entry->kind == CallEntry::Kind::follow_up && entry->follow_up.helped) so_far.helped = entry->follow_up.helped;
        if (entry->kind == CallEntry::Kind::confirmed) cause = entry->confirmed;
        since_then = is_exchange(*entry);
    }
    offered_ = causes_advised(call.record(), call.rule_base());
    if (since_then) return false;
    confirmed_ = cause.value_or(ConfirmedCause{});
    if (!so_far.done)
        question_ = FollowUpQuestion::done;
    else if (!so_far.helped)
        question_ = FollowUpQuestion::helped;
    else if (!cause)
        question_ = FollowUpQuestion::cause;
    else if (!cause->how)
        question_ = FollowUpQuestion::how;
    else
        question_ = FollowUpQuestion::go_on;
    return true;
}

shown::AskFollowUp FollowUpTalk::question() const {
    return {question_, question_ == FollowUpQuestion::cause ? offered_ : std::vector<Handle<Cause>>{}};
}

FollowUpTalk::Then FollowUpTalk::hear(std::string_view line, Moment now, CallSoFar& call) {
    CallEntry entry{.kind = CallEntry::Kind::follow_up, .when = now, .words = {}};
    switch (question_) {
        case FollowUpQuestion::done: {
            const auto option = read_option(done_words(), line);
            if (!option) return Then::not_understood;
            entry.follow_up.done = static_cast<FollowUp::Done>(*option);
            call.note(std::move(entry));
            question_ = FollowUpQuestion::helped;
            return Then::ask;
        }
        case FollowUpQuestion::helped: {
            auto option = read_option(helped_words(), line);
            if (!option && line == "don't know") option = static_cast<std::size_t>(FollowUp::Helped::unknown);
            if (!option) return Then::not_understood;
            entry.follow_up.helped = static_cast<FollowUp::Helped>(*option);
            call.note(std::move(entry));
            question_ = FollowUpQuestion::cause;
            return Then::ask;
        }
        case FollowUpQuestion::cause:
            return hear_cause(line, now, call);
        case FollowUpQuestion::how: {
            const auto option = read_option(how_words(), line);
            if (!option) return Then::not_understood;
            entry.kind = CallEntry::Kind::confirmed;
            confirmed_.how = static_cast<ConfirmedCause::How>(*option);
            entry.confirmed = confirmed_;
            call.note(std::move(entry));
            return after_the_cause(call);
        }
        case FollowUpQuestion::go_on:
            break;
    }
    static const std::vector<std::string> options = {"go on", "close"};
    const auto option = read_option(options, line);
    if (!option) return Then::not_understood;
    return *option == 1 ? Then::close : Then::tell_what_is_new;
}

/// One of those offered by number, "none" or "not known" by number or word, or any other by its name.
FollowUpTalk::Then FollowUpTalk::hear_cause(std::string_view line, Moment now, CallSoFar& call) {
    std::vector<std::string> options;
    for (const auto cause : offered_) options.push_back(call.rule_base().causes[cause].id);
    options.emplace_back("none of the listed causes");
    options.emplace_back("don't know");
    const std::string text = plain_words(line);
    std::optional<std::size_t> option;
    if (text == "none" || text == "none listed") option = offered_.size();
    if (!option) option = read_option(options, line);
    // Nobody knows: nothing is recorded, and the call may still be over.
    if (option && *option == offered_.size() + 1) return after_the_cause(call);
    confirmed_ = {};
    if (option && *option < offered_.size()) {
        confirmed_.causes = {options[*option]};
    } else if (!option) {
        const auto named = cause_named(text, call.rule_base());
        if (!named) return Then::not_understood;
        confirmed_.causes = {*named};
    }
    CallEntry entry{.kind = CallEntry::Kind::confirmed, .when = now, .words = {}};
    entry.confirmed = confirmed_;
    call.note(std::move(entry));
    question_ = FollowUpQuestion::how;
    return Then::ask;
}

FollowUpTalk::Then FollowUpTalk::after_the_cause(const CallSoFar& call) {
    if (is_solved(call.record())) return Then::close;
    question_ = FollowUpQuestion::go_on;
    return Then::ask;
}

}  // namespace lidlift
