#include "engine/interview.hpp"

#include "engine/call/advice_given.hpp"
#include "engine/call/danger_reply.hpp"
#include "engine/call/left_open.hpp"
#include "engine/contains.hpp"
#include "engine/danger_told.hpp"
#include "engine/plan_amounts.hpp"

#include <algorithm>
#include <utility>

namespace lidlift {
namespace {

using Kind = CallEntry::Kind;

/// Entries that are kept free for what the end of a call adds.
constexpr std::size_t spare_entries = 8;
/// Before the next call, where the answers point to nothing.
constexpr std::size_t things_to_look_at = 4;

/// At most `longest_line` bytes, ending with a whole character.
std::string_view cut(std::string_view line) {
    if (line.size() <= longest_line) return line;
    std::size_t end = longest_line;
    while (end > 0 && (static_cast<unsigned char>(line[end]) & 0xC0) == 0x80) --end;
    return line.substr(0, end);
}

bool is_blank(std::string_view line) { return plain_words(line).empty(); }

}  // namespace

Interview::Interview(const Ranker& ranker, const Phrasebook& phrasebook, Told known, const AskingLimits& limits,
                     std::optional<TankSeen> tank)
    : ranker_(ranker),
      phrasebook_(phrasebook),
      limits_(limits),
      tank_(std::move(tank)),
      call_(ranker.rule_base(), std::move(known)) {
    weigh_again();
}

// ---- beginning

std::vector<Shown> Interview::begin(Moment now, std::string tank, std::string bay) {
    call_.begin(now, std::move(tank), std::move(bay));
    std::vector<Shown> out;
    ask_own_words(false, out);
    return out;
}

std::vector<Shown> Interview::resume(CallRecord record, Moment now) {
    shown::Resumed resumed;
    resumed.begun = record.begun;
    resumed.other_version = record.version != rule_base().version || record.rule_base != rule_base().name;
    resumed.misfits = call_.go_on_from(std::move(record));
    resumed.answers = call_.lines();
    if (const RecordedAdvice* advice = last_advice(call_.record())) {
        resumed.advised = true;
        resumed.causes = advice->causes;
        resumed.cautions = advice->cautions;
        resumed.steps = advice->steps;
    }
    std::vector<Shown> out = {std::move(resumed)};
    const CallEntry* last = call_.last();
    if (!last || !is_exchange(*last))
        ask_own_words(last != nullptr, out);
    else
        go_on(now, out);
    return out;
}

std::vector<Shown> Interview::follow_up(CallRecord record, Moment now) {
    record.closed = false;
    const bool advised = std::ranges::any_of(record.course, [](const CallEntry& entry) { return entry.kind == Kind::advised; });
    std::vector<Shown> out = resume(std::move(record), now);
    if (!advised) return out;
    out.resize(1);
    if (follow_up_.begin(call_))
        ask_follow_up(out);
    else
        go_on(now, out);
    return out;
}

// ---- asking

/// Each once in a call, before the next question; where the advice follows, it begins with them.
void Interview::read_at_once(std::vector<Shown>& out) {
    shown::ReadAtOnce now;
    for (const auto caution : dangers_told(rule_base(), told(), ranking_.conclusions))
        if (!contains(read_out_, caution)) now.cautions.push_back(caution);
    if (now.cautions.empty()) return;
    read_out_.insert(read_out_.end(), now.cautions.begin(), now.cautions.end());
    out.emplace_back(std::move(now));
}

void Interview::ask_own_words(bool news, std::vector<Shown>& out) {
    waiting_ = news ? Waiting::news : Waiting::own_words;
    out.emplace_back(shown::AskOwnWords{news});
}

void Interview::ask(Handle<Sign> sign, bool changing, std::vector<Shown>& out) {
    waiting_ = changing ? Waiting::changed_answer : Waiting::question;
    if (pending_ != sign) said_.clear();
    pending_ = sign;
    out.emplace_back(shown::AskSign{sign, questions_asked() + 1, changing, said_});
}

void Interview::ask_follow_up(std::vector<Shown>& out) {
    waiting_ = Waiting::follow_up;
    out.emplace_back(follow_up_.question());
}

void Interview::ask_again(std::vector<Shown>& out) {
    switch (waiting_) {
        case Waiting::own_words:
        case Waiting::news:
            ask_own_words(waiting_ == Waiting::news, out);
            break;
        case Waiting::dangers:
            out.emplace_back(shown::AskDangers{flags_});
            break;
        case Waiting::question:
        case Waiting::changed_answer:
            ask(*pending_, waiting_ == Waiting::changed_answer, out);
            break;
        case Waiting::contradiction:
            out.emplace_back(shown::Contradiction{call_.lines()});
            break;
        case Waiting::follow_up:
            ask_follow_up(out);
            break;
        case Waiting::ended:
            break;
    }
}

void Interview::go_on(Moment now, std::vector<Shown>& out) {
    weigh_again();
    if (emergency(rule_base(), told(), ranking_.conclusions)) {
        finish(StopReason::emergency, now, out);
        return;
    }
    if (record().course.size() + spare_entries >= longest_course) {
        out.emplace_back(shown::TooLong{});
        finish(StopReason::said_to_stop, now, out);
        return;
    }
    if (ranking_.contradictory) {
        read_at_once(out);
        waiting_ = Waiting::contradiction;
        out.emplace_back(shown::Contradiction{call_.lines()});
        return;
    }
    if (!call_.asked_after_dangers()) {
        flags_ = red_flags(rule_base(), told(), ranking_);
        if (!flags_.empty()) {
            read_at_once(out);
            waiting_ = Waiting::dangers;
            out.emplace_back(shown::AskDangers{flags_});
            return;
        }
    }
    const NextStep next = next_step(ranker_, told(), ranking_, questions_asked(), call_.topic(), call_.called_about(), limits_);
    if (next.ask) {
        read_at_once(out);
        // What was said in two meanings comes before what nobody spoke of.
        const auto open = left_open(call_, phrasebook_);
        said_ = open ? open->words : "";
        pending_ = open ? open->signs.front() : *next.ask;
        ask(*pending_, false, out);
        return;
    }
    // Where two steps oppose each other and the rule base names the sign that settles it, it is asked all the same.
    if (*next.stop != StopReason::enough_questions)
        for (const FindOut& find_out : advise(rule_base(), told(), ranking_).find_out)
            if (!call_.is_answered(find_out.sign) && questions_asked() < limits_.most_questions) {
                read_at_once(out);
                ask(find_out.sign, false, out);
                return;
            }
    finish(*next.stop, now, out);
}

// ---- ending

/// What the caller did not know can be looked at before the next call, so it counts as not asked yet.
shown::LookAt Interview::what_to_look_at() const {
    Told without = told();
    std::erase_if(without.order, [&](Handle<Sign> sign) { return contains(without.not_known, sign); });
    without.not_known.clear();
    shown::LookAt look;
    for (const Question& question : first_questions(ranker_, without, diagnosis_->ranking, things_to_look_at))
        look.signs.push_back(question.sign);
    return look;
}

void Interview::finish(StopReason reason, Moment now, std::vector<Shown>& out) {
    waiting_ = Waiting::ended;
    diagnosis_ = diagnose(ranker_, told());
    diagnosis_->tank = tank_;
    if (tank_)
        diagnosis_->amounts =
            amounts_of_plan(rule_base(), told(), diagnosis_->advice, tank_->record, tank_->bay, tank_->state.today);
    call_.note({.kind = Kind::advised, .when = now, .advice = recorded_advice(rule_base(), *diagnosis_, reason)});
    const Advice& advice = diagnosis_->advice;
    if (advice.verdict == Verdict::emergency) {
        out.emplace_back(shown::Advised{});
        out.emplace_back(shown::Stopped{StopReason::emergency});
        return;
    }
    out.emplace_back(shown::Stopped{reason});
    out.emplace_back(shown::Advised{});
    if (advice.verdict == Verdict::cannot_tell && !diagnosis_->ranking.contradictory &&
        !points_to_work(rule_base(), diagnosis_->ranking))
        out.emplace_back(what_to_look_at());
    else
        out.emplace_back(shown::WouldChangeMyMind{changes_of_mind(ranker_, *diagnosis_)});
    out.emplace_back(shown::CallAgain{advice.look_again_days});
}

void Interview::pause(std::vector<Shown>& out) {
    waiting_ = Waiting::ended;
    out.emplace_back(shown::Paused{});
}

void Interview::close(std::vector<Shown>& out) {
    call_.close();
    waiting_ = Waiting::ended;
    out.emplace_back(shown::Closed{is_solved(record())});
}

// ---- hearing

std::vector<Shown> Interview::hear(std::string_view whole, Moment now) {
    std::vector<Shown> out;
    if (ended()) return out;
    const std::string_view line = cut(whole);
    std::string id = plain_words(line);
    std::ranges::replace(id, ' ', '_');
    // A sign may have an answer of the same name as a wish.
    const bool is_answer = asking() && rule_base().signs[*pending_].find_answer(id);
    if (const auto wish = read_wish(line); wish && !is_answer) {
        hear_wish(*wish, now, out);
        return out;
    }
    switch (waiting_) {
        case Waiting::own_words:
        case Waiting::news:
            hear_own_words(line, now, out);
            break;
        case Waiting::dangers:
            hear_dangers(line, now, out);
            break;
        case Waiting::question:
        case Waiting::changed_answer:
            hear_answer(line, now, out);
            break;
        case Waiting::contradiction:
            out.emplace_back(shown::NotUsed{});
            ask_again(out);
            break;
        case Waiting::follow_up:
            hear_follow_up(line, now, out);
            break;
        case Waiting::ended:
            break;
    }
    return out;
}

std::vector<Shown> Interview::end_of_input(Moment now) {
    std::vector<Shown> out;
    if (waiting_ == Waiting::follow_up) {
        pause(out);
    } else if (waiting_ != Waiting::ended) {
        weigh_again();
        if (waiting_ == Waiting::dangers) out.emplace_back(shown::DangersNotKnown{flags_});
        finish(StopReason::end_of_input, now, out);
    }
    return out;
}

void Interview::hear_own_words(std::string_view line, Moment now, std::vector<Shown>& out) {
    const Kind kind = waiting_ == Waiting::news ? Kind::news : Kind::words;
    CallEntry entry{.kind = kind, .when = now, .words = without_numbers_of_people(line)};
    if (is_blank(line)) {
        entry.words.clear();
        (void)call_.add(std::move(entry));
    } else {
        Understanding understanding = phrasebook_.read(line);
        for (const Reading& reading : understanding.readings)
            entry.heard.push_back(recorded(rule_base().signs[reading.sign].id, reading.value, reading.words));
        call_.take(std::move(entry), std::move(understanding.not_understood), out);
    }
    go_on(now, out);
}

void Interview::hear_dangers(std::string_view line, Moment now, std::vector<Shown>& out) {
    using Spoke = DangerReply::Spoke;
    DangerReply reply = read_danger_reply(rule_base(), phrasebook_, flags_, line, now);
    const bool still_open = reply.says == Spoke::something_else || reply.says == Spoke::nothing;
    if (reply.says == Spoke::none_of_them) {
        (void)call_.add(std::move(reply.entry));
        out.emplace_back(shown::NoDanger{});
    } else if (reply.says != Spoke::nothing) {
        call_.take(std::move(reply.entry), std::move(reply.not_used), out);
    }
    if (still_open) {
        const bool taken = reply.says == Spoke::something_else && !record().course.back().heard.empty();
        out.emplace_back(shown::NotUsed{reply.which_one ? "which of them? Say its number" : "", taken});
        weigh_again();
        if (emergency(rule_base(), told(), ranking_.conclusions)) {
            finish(StopReason::emergency, now, out);
            return;
        }
        read_at_once(out);
        ask_again(out);
    } else {
        go_on(now, out);
    }
}

void Interview::hear_answer(std::string_view line, Moment now, std::vector<Shown>& out) {
    const Sign& sign = rule_base().signs[*pending_];
    const Kind kind = waiting_ == Waiting::changed_answer ? Kind::changed : Kind::asked;
    CallEntry entry{.kind = kind, .when = now, .words = without_numbers_of_people(line), .sign = sign.id};
    if (is_blank(line)) {
        out.emplace_back(shown::NotUsed{});
        ask_again(out);
        return;
    }
    const auto reply = read_reply(sign, line);
    const std::string text = plain_words(line);
    const bool says_more = !reply || text.starts_with("yes,") || text.starts_with("no,");
    const Understanding understanding = says_more ? phrasebook_.read(line) : Understanding{};
    if (reply) entry.heard.push_back(recorded(sign.id, *reply, {}));
    bool answered = static_cast<bool>(reply);
    for (const Reading& reading : understanding.readings) {
        if (reply && reading.sign == *pending_) continue;
        answered = answered || reading.sign == *pending_;
        entry.heard.push_back(recorded(rule_base().signs[reading.sign].id, reading.value, reading.words));
    }
    if (!answered) {
        bool taken = false;
        if (!entry.heard.empty()) {
            // Something else was told; it counts, and the question still stands.
            entry.kind = Kind::words;
            entry.sign.clear();
            call_.take(std::move(entry), {}, out);
            taken = !record().course.back().heard.empty();
            weigh_again();
            if (emergency(rule_base(), told(), ranking_.conclusions)) {
                finish(StopReason::emergency, now, out);
                return;
            }
        }
        out.emplace_back(shown::NotUsed{reply ? "" : reply.fault().text, taken});
        read_at_once(out);
        ask_again(out);
        return;
    }
    if (reply) {
        // A measurement may be out of bounds: then nothing of it is kept.
        const auto misfits = call_.add(entry);
        const auto own = std::ranges::find(misfits, std::size_t{0}, &CallMisfit::answer);
        if (own != misfits.end()) {
            call_.drop_last();
            out.emplace_back(shown::NotUsed{own->fault.text});
            ask_again(out);
            return;
        }
        if (const Observation* seen = told().facts.find(*pending_); seen && seen->measured)
            entry.heard.front().is = as_value(sign, *seen);
        call_.drop_last();
    }
    call_.take(std::move(entry), {}, out);
    go_on(now, out);
}

void Interview::hear_follow_up(std::string_view line, Moment now, std::vector<Shown>& out) {
    using Then = FollowUpTalk::Then;
    switch (follow_up_.hear(line, now, call_)) {
        case Then::not_understood:
            if (std::ranges::any_of(phrasebook_.read(line).readings, [&](const Reading& reading) {
                    return tells_of_danger(rule_base(), reading.sign, recorded({}, reading.value, {}).is);
                })) {
                // "It caught fire last night": no question of ours comes before that.
                waiting_ = Waiting::news;
                hear_own_words(line, now, out);
                break;
            }
            out.emplace_back(shown::NotUsed{});
            ask_again(out);
            break;
        case Then::ask:
            ask_follow_up(out);
            break;
        case Then::tell_what_is_new:
            ask_own_words(true, out);
            break;
        case Then::close:
            close(out);
            break;
    }
}

}  // namespace lidlift
