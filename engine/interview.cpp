#include "engine/interview.hpp"

#include "engine/contains.hpp"
#include "engine/nearest_name.hpp"
#include "engine/plan_amounts.hpp"

#include <algorithm>
#include <iterator>
#include <utility>

namespace lidlift {
namespace {

using Kind = CallEntry::Kind;
using What = Wish::What;
using shown::FollowUpQuestion;

/// Entries that are kept free for what the end of a call adds.
constexpr std::size_t spare_entries = 8;
/// Causes offered at a follow-up, and recorded with an advice.
constexpr std::size_t most_causes = 5;

/// At most `longest_line` bytes, ending with a whole character.
std::string_view cut(std::string_view line) {
    if (line.size() <= longest_line) return line;
    std::size_t end = longest_line;
    while (end > 0 && (static_cast<unsigned char>(line[end]) & 0xC0) == 0x80) --end;
    return line.substr(0, end);
}

/// "strong,unsure" -> "strong" and how sure.
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

bool is_blank(std::string_view line) { return plain_words(line).empty(); }

bool is_exchange(Kind kind) { return kind <= Kind::news; }

/// "not up_walls_lid"; of a yes/no sign the other answer.
std::string denial(const Sign& sign, std::size_t answer) {
    if (sign.sort == SignSort::yes_no) return sign.answers[1 - answer].id;
    return "not " + sign.answers[answer].id;
}

}  // namespace

Interview::Interview(const Ranker& ranker, const Phrasebook& phrasebook, Told known, const AskingLimits& limits,
                     std::optional<TankSeen> tank)
    : ranker_(ranker),
      phrasebook_(phrasebook),
      known_(std::move(known)),
      limits_(limits),
      tank_(std::move(tank)),
      told_(known_) {
    weigh_again();
}

// ---- what is known

/// Everything that the record tells, from the beginning.
std::vector<CallMisfit> Interview::tell_all() {
    CallTold all = told_in(record_, rule_base(), known_);
    told_ = std::move(all.told);
    return std::move(all.misfits);
}

std::vector<CallMisfit> Interview::add(CallEntry entry) {
    record_.course.push_back(std::move(entry));
    auto misfits = tell_all();
    std::erase_if(misfits, [&](const CallMisfit& misfit) { return misfit.entry + 1 != record_.course.size(); });
    return misfits;
}

shown::Line Interview::line_of(Handle<Sign> sign) const {
    shown::Line line;
    line.sign = sign;
    line.number = static_cast<std::size_t>(std::ranges::find(told_.order, sign) - told_.order.begin()) + 1;
    const Observation* seen = told_.facts.find(sign);
    if (!seen) return line;
    line.words = in_words(rule_base().signs[sign], *seen);
    line.from = seen->from;
    if (line.from.starts_with(from_own_words)) line.from.erase(0, from_own_words.size());
    if (line.from.starts_with(from_an_answer)) line.from.clear();
    return line;
}

std::vector<shown::Line> Interview::lines() const {
    std::vector<shown::Line> result;
    for (const auto sign : told_.order) result.push_back(line_of(sign));
    return result;
}

std::size_t Interview::questions_asked() const {
    std::size_t asked = 0;
    for (const CallEntry* entry : what_counts(record_)) {
        if (entry->kind == Kind::asked) ++asked;
        if (entry->kind == Kind::advised || entry->kind == Kind::follow_up) asked = 0;
    }
    return asked;
}

// ---- beginning

std::vector<Shown> Interview::begin(Moment now, std::string tank) {
    record_.begun = now;
    record_.rule_base = rule_base().name;
    record_.version = rule_base().version;
    record_.tank = std::move(tank);
    std::vector<Shown> out;
    ask_own_words(false, out);
    return out;
}

std::vector<Handle<Cause>> Interview::causes_advised() const {
    std::vector<Handle<Cause>> result;
    for (const CallEntry* entry : what_counts(record_)) {
        if (entry->kind != Kind::advised) continue;
        result.clear();
        for (const RecordedChance& one : entry->advice.causes)
            if (const auto cause = rule_base().causes.find(one.cause); cause && result.size() < most_causes)
                result.push_back(*cause);
    }
    return result;
}

std::vector<Shown> Interview::resume(CallRecord record, Moment now) {
    record_ = std::move(record);
    shown::Resumed resumed;
    resumed.begun = record_.begun;
    resumed.other_version = record_.version != rule_base().version || record_.rule_base != rule_base().name;
    for (const CallMisfit& misfit : tell_all()) resumed.misfits.push_back(in_words(misfit, record_));
    record_.rule_base = rule_base().name;
    record_.version = rule_base().version;
    resumed.answers = lines();
    const auto counts = what_counts(record_);
    for (const CallEntry* entry : counts)
        if (entry->kind == Kind::advised) {
            resumed.advised = true;
            resumed.causes = entry->advice.causes;
            resumed.cautions = entry->advice.cautions;
            resumed.steps = entry->advice.steps;
        }
    std::vector<Shown> out = {resumed};
    const bool advised_last = !counts.empty() && !is_exchange(counts.back()->kind);
    if (counts.empty() || advised_last)
        ask_own_words(advised_last, out);
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
    // Where a follow-up was broken off, it goes on after its last answer.
    FollowUp so_far;
    std::optional<ConfirmedCause> cause;
    bool since_then = false;
    for (const CallEntry* entry : what_counts(record_)) {
        if (entry->kind == Kind::advised) {
            so_far = {};
            cause.reset();
            since_then = false;
        }
        if (entry->kind == Kind::follow_up && entry->follow_up.done) so_far.done = entry->follow_up.done;
        if (entry->kind == Kind::follow_up && entry->follow_up.helped) so_far.helped = entry->follow_up.helped;
        if (entry->kind == Kind::confirmed) cause = entry->confirmed;
        since_then = is_exchange(entry->kind);
    }
    causes_offered_ = causes_advised();
    if (since_then) {
        go_on(now, out);
    } else if (!so_far.done) {
        ask_follow_up(FollowUpQuestion::done, out);
    } else if (!so_far.helped) {
        ask_follow_up(FollowUpQuestion::helped, out);
    } else if (!cause) {
        ask_follow_up(FollowUpQuestion::cause, out);
    } else if (!cause->how) {
        confirmed_ = *cause;
        ask_follow_up(FollowUpQuestion::how, out);
    } else {
        ask_follow_up(FollowUpQuestion::go_on, out);
    }
    return out;
}

// ---- asking

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

/// What the caller said that may mean several things, and the sign of it to ask next. It is settled once one of its signs has
/// an answer that is out of the ordinary.
std::optional<OpenQuestion> Interview::left_open() const {
    const auto out_of_the_ordinary = [&](Handle<Sign> handle) {
        const Observation* seen = told_.facts.find(handle);
        if (!seen) return false;
        const Sign& sign = rule_base().signs[handle];
        const AnswerSet given = sign.sort == SignSort::several ? seen->present : seen->possible;
        double anyway = 0;
        for (std::size_t i = 0; i < sign.answers.size(); ++i)
            if ((given & answer_set(i)) != 0) {
                if (sign.answers[i].none_of_these) return false;
                anyway += sign.answers[i].seen_anyway.value_or(0);
            }
        return given != 0 && anyway < 0.5;
    };
    for (const CallEntry* entry : what_counts(record_)) {
        if ((entry->kind != Kind::words && entry->kind != Kind::news) || entry->words.empty()) continue;
        for (const OpenQuestion& open : phrasebook_.read(entry->words).to_ask) {
            if (std::ranges::any_of(open.signs, out_of_the_ordinary)) continue;
            for (const auto sign : open.signs)
                if (!told_.facts.find(sign) && !contains(told_.not_known, sign)) return OpenQuestion{open.words, {sign}};
        }
    }
    return std::nullopt;
}

void Interview::ask_follow_up(FollowUpQuestion what, std::vector<Shown>& out) {
    waiting_ = Waiting::follow_up;
    follow_up_question_ = what;
    out.emplace_back(
        shown::AskFollowUp{what, what == FollowUpQuestion::cause ? causes_offered_ : std::vector<Handle<Cause>>{}});
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
            out.emplace_back(shown::Contradiction{lines()});
            break;
        case Waiting::follow_up:
            ask_follow_up(follow_up_question_, out);
            break;
        case Waiting::ended:
            break;
    }
}

void Interview::go_on(Moment now, std::vector<Shown>& out) {
    weigh_again();
    if (emergency(rule_base(), told_, ranking_.conclusions)) {
        finish(StopReason::emergency, now, out);
        return;
    }
    if (record_.course.size() + spare_entries >= longest_course) {
        out.emplace_back(shown::TooLong{});
        finish(StopReason::said_to_stop, now, out);
        return;
    }
    if (ranking_.contradictory) {
        waiting_ = Waiting::contradiction;
        out.emplace_back(shown::Contradiction{lines()});
        return;
    }
    const auto counts = what_counts(record_);
    if (std::ranges::none_of(counts, [](const CallEntry* entry) { return entry->kind == Kind::safety; })) {
        flags_ = red_flags(rule_base(), told_, ranking_);
        if (!flags_.empty()) {
            waiting_ = Waiting::dangers;
            out.emplace_back(shown::AskDangers{flags_});
            return;
        }
    }
    std::string_view topic;
    for (const CallEntry* entry : counts)
        if (const auto sign = rule_base().signs.find(entry->sign); entry->kind == Kind::asked && sign)
            topic = rule_base().signs[*sign].topic;
    std::vector<Handle<Sign>> called_about;
    for (const CallEntry* entry : counts)
        for (const RecordedAnswer& answer : entry->heard)
            if (const auto sign = rule_base().signs.find(answer.sign);
                sign && (entry->kind == Kind::words || entry->kind == Kind::news))
                called_about.push_back(*sign);
    const NextStep next = next_step(ranker_, told_, ranking_, questions_asked(), topic, called_about, limits_);
    if (next.ask) {
        // What was said in two meanings comes before what nobody spoke of.
        const auto open = left_open();
        pending_.reset();
        said_ = open ? open->words : "";
        pending_ = open ? open->signs.front() : *next.ask;
        ask(*pending_, false, out);
        return;
    }
    // Where two steps oppose each other and the rule base names the sign that settles it, it is asked all the same.
    if (*next.stop != StopReason::enough_questions)
        for (const FindOut& find_out : advise(rule_base(), told_, ranking_).find_out)
            if (!told_.facts.find(find_out.sign) && !contains(told_.not_known, find_out.sign) &&
                questions_asked() < limits_.most_questions) {
                ask(find_out.sign, false, out);
                return;
            }
    finish(*next.stop, now, out);
}

void Interview::finish(StopReason reason, Moment now, std::vector<Shown>& out) {
    waiting_ = Waiting::ended;
    diagnosis_ = diagnose(ranker_, told_);
    diagnosis_->tank = tank_;
    if (tank_)
        diagnosis_->amounts =
            amounts_of_plan(rule_base(), told_, diagnosis_->advice, tank_->record, tank_->bay, tank_->state.today);
    const Advice& advice = diagnosis_->advice;
    CallEntry entry;
    entry.kind = Kind::advised;
    entry.when = now;
    entry.advice.because = stop_words()[static_cast<std::size_t>(reason)];
    for (const RankedCause& ranked : diagnosis_->ranking.causes)
        if (ranked.raised() && ranked.chance >= least_chance_recorded && entry.advice.causes.size() < most_causes)
            entry.advice.causes.push_back({rule_base().causes[ranked.cause].id, ranked.chance});
    entry.advice.nothing_listed = diagnosis_->ranking.nothing_listed;
    for (const PlannedStep& planned : advice.steps) entry.advice.steps.push_back(rule_base().steps[planned.step].id);
    for (const auto caution : advice.cautions) entry.advice.cautions.push_back(rule_base().cautions[caution].id);
    record_.course.push_back(std::move(entry));
    if (advice.verdict == Verdict::emergency) {
        out.emplace_back(shown::Advised{});
        out.emplace_back(shown::Stopped{StopReason::emergency});
        return;
    }
    out.emplace_back(shown::Stopped{reason});
    out.emplace_back(shown::Advised{});
    out.emplace_back(shown::WouldChangeMyMind{changes_of_mind(ranker_, *diagnosis_)});
    out.emplace_back(shown::CallAgain{advice.look_again_days});
}

void Interview::close(std::vector<Shown>& out) {
    record_.closed = true;
    waiting_ = Waiting::ended;
    bool solved = false;
    for (const CallEntry* entry : what_counts(record_))
        if (entry->kind == Kind::follow_up && entry->follow_up.helped)
            solved = *entry->follow_up.helped == FollowUp::Helped::solved;
    out.emplace_back(shown::Closed{solved});
}

// ---- hearing

std::vector<Shown> Interview::hear(std::string_view whole, Moment now) {
    std::vector<Shown> out;
    if (ended()) return out;
    const std::string_view line = cut(whole);
    const bool asking = waiting_ == Waiting::question || waiting_ == Waiting::changed_answer;
    std::string id = plain_words(line);
    std::ranges::replace(id, ' ', '_');
    // A sign may have an answer of the same name as a wish.
    const bool is_answer = asking && rule_base().signs[*pending_].find_answer(id);
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
        waiting_ = Waiting::ended;
        out.emplace_back(shown::Paused{});
    } else if (waiting_ != Waiting::ended) {
        weigh_again();
        finish(StopReason::end_of_input, now, out);
    }
    return out;
}

void Interview::hear_wish(const Wish& wish, Moment now, std::vector<Shown>& out) {
    const bool asking = waiting_ == Waiting::question || waiting_ == Waiting::changed_answer;
    switch (wish.what) {
        case What::dont_know:
            if (waiting_ == Waiting::own_words || waiting_ == Waiting::news) {
                hear_own_words("", now, out);
            } else if (waiting_ == Waiting::dangers) {
                CallEntry entry{.kind = Kind::safety, .when = now, .words = "don't know"};
                for (const RedFlag& flag : flags_)
                    if (const std::string& id = rule_base().signs[flag.sign].id; !contains(entry.signs, id)) {
                        entry.signs.push_back(id);
                        entry.heard.push_back({id, "?", Sureness::sure, {}});
                    }
                (void)add(std::move(entry));
                go_on(now, out);
            } else if (asking) {
                const std::string& id = rule_base().signs[*pending_].id;
                const Kind kind = waiting_ == Waiting::changed_answer ? Kind::changed : Kind::asked;
                take({.kind = kind, .when = now, .words = "don't know", .sign = id, .heard = {{id, "?", Sureness::sure, {}}}},
                     {}, out);
                go_on(now, out);
            } else if (waiting_ == Waiting::follow_up) {
                hear_follow_up("don't know", now, out);
            } else {
                ask_again(out);
            }
            return;
        case What::why:
            explain(out);
            break;
        case What::so_far:
            weigh_again();
            out.emplace_back(shown::SoFar{});
            break;
        case What::back:
            go_back(now, out);
            return;
        case What::change:
            change(wish.number, out);
            return;
        case What::list:
            out.emplace_back(shown::AnswersSoFar{lines()});
            break;
        case What::repeat:
            break;
        case What::stop:
            if (waiting_ == Waiting::follow_up) {
                waiting_ = Waiting::ended;
                out.emplace_back(shown::Paused{});
                return;
            }
            weigh_again();
            finish(StopReason::said_to_stop, now, out);
            return;
        case What::pause:
            waiting_ = Waiting::ended;
            out.emplace_back(shown::Paused{});
            return;
        case What::help:
            out.emplace_back(shown::Help{});
            break;
    }
    ask_again(out);
}

void Interview::explain(std::vector<Shown>& out) const {
    if (waiting_ == Waiting::question || waiting_ == Waiting::changed_answer) {
        // As if the sign were not answered yet.
        Told told = told_;
        forget(told, *pending_);
        out.emplace_back(shown::WhyAsked{*pending_, what_if(ranker_, told, ranker_.rank(told.facts), *pending_)});
    } else if (waiting_ == Waiting::dangers) {
        out.emplace_back(shown::WhyDangers{flags_});
    } else {
        out.emplace_back(shown::Help{});
    }
}

void Interview::go_back(Moment now, std::vector<Shown>& out) {
    if (waiting_ == Waiting::changed_answer) {
        out.emplace_back(shown::WentBack{});
        go_on(now, out);
        return;
    }
    const auto counts = what_counts(record_);
    if (waiting_ == Waiting::follow_up || counts.empty() || !is_exchange(counts.back()->kind)) {
        out.emplace_back(shown::NothingBefore{});
        ask_again(out);
        return;
    }
    const CallEntry last = *counts.back();
    (void)add({.kind = Kind::back, .when = now});
    weigh_again();
    out.emplace_back(shown::WentBack{});
    const auto sign = rule_base().signs.find(last.sign);
    if (last.kind == Kind::asked && sign)
        ask(*sign, false, out);
    else if (last.kind == Kind::words || last.kind == Kind::news)
        ask_own_words(last.kind == Kind::news, out);
    else
        go_on(now, out);
}

void Interview::change(std::optional<std::size_t> number, std::vector<Shown>& out) {
    if (waiting_ == Waiting::follow_up) {
        ask_again(out);
    } else if (!number) {
        out.emplace_back(shown::AnswersSoFar{lines()});
        ask_again(out);
    } else if (*number < 1 || *number > told_.order.size()) {
        out.emplace_back(shown::NoSuchAnswer{told_.order.size()});
        ask_again(out);
    } else {
        ask(told_.order[*number - 1], true, out);
    }
}

/// Says what was taken; what goes against an earlier answer is dropped from the entry.
void Interview::take(CallEntry entry, std::vector<std::string> not_used, std::vector<Shown>& out) {
    const bool own_words = entry.kind == Kind::words || entry.kind == Kind::news;
    auto misfits = add(std::move(entry));
    CallEntry& taken = record_.course.back();
    for (std::size_t i = misfits.size(); i-- > 0;) {
        const RecordedAnswer out_of_place = taken.heard[misfits[i].answer];
        taken.heard.erase(taken.heard.begin() + static_cast<std::ptrdiff_t>(misfits[i].answer));
        const auto sign = rule_base().signs.find(out_of_place.sign);
        if (sign && told_.facts.find(*sign))
            out.emplace_back(shown::Against{line_of(*sign), out_of_place.from});
        else
            not_used.push_back(out_of_place.from);
    }
    shown::Understood understood{{}, std::move(not_used), own_words};
    std::vector<Handle<Sign>> said;
    for (const RecordedAnswer& answer : taken.heard)
        if (const auto sign = rule_base().signs.find(answer.sign); sign && !contains(said, *sign)) {
            said.push_back(*sign);
            understood.answers.push_back(line_of(*sign));
        }
    if (own_words || !understood.answers.empty()) out.emplace_back(std::move(understood));
}

void Interview::hear_own_words(std::string_view line, Moment now, std::vector<Shown>& out) {
    const Kind kind = waiting_ == Waiting::news ? Kind::news : Kind::words;
    CallEntry entry{.kind = kind, .when = now, .words = without_numbers_of_people(line)};
    if (is_blank(line)) {
        entry.words.clear();
        (void)add(std::move(entry));
    } else {
        Understanding understanding = phrasebook_.read(line);
        for (const Reading& reading : understanding.readings)
            entry.heard.push_back(recorded(rule_base().signs[reading.sign].id, reading.value, reading.words));
        take(std::move(entry), std::move(understanding.not_understood), out);
    }
    go_on(now, out);
}

void Interview::hear_dangers(std::string_view line, Moment now, std::vector<Shown>& out) {
    CallEntry entry{.kind = Kind::safety, .when = now, .words = without_numbers_of_people(line)};
    for (const RedFlag& flag : flags_)
        if (const std::string& id = rule_base().signs[flag.sign].id; !contains(entry.signs, id)) entry.signs.push_back(id);
    const std::string text = plain_words(line);
    static const std::vector<std::string> none = {"none",
                                                  "no",
                                                  "n",
                                                  "nope",
                                                  "nobody",
                                                  "nothing",
                                                  "0",
                                                  "no one",
                                                  "neither",
                                                  "all well",
                                                  "none of these",
                                                  "none of them",
                                                  "nah",
                                                  "not",
                                                  "all fine",
                                                  "no none",
                                                  "no nothing like it"};
    const auto deny = [&] {
        for (const RedFlag& flag : flags_)
            entry.heard.push_back(
                {rule_base().signs[flag.sign].id, denial(rule_base().signs[flag.sign], flag.answer), Sureness::sure, {}});
    };
    const auto name = [&](std::size_t position) {
        const Sign& sign = rule_base().signs[flags_[position].sign];
        entry.heard.push_back({sign.id, sign.answers[flags_[position].answer].id, Sureness::sure, {}});
    };
    if (contains(none, text)) {
        deny();
        (void)add(std::move(entry));
        out.emplace_back(shown::NoDanger{});
        go_on(now, out);
        return;
    }
    if (flags_.size() == 1 && (text == "yes" || text == "y")) {
        name(0);
    } else {
        // Numbers, with commas or "and" between them.
        std::string spaced = text;
        std::ranges::replace(spaced, ',', ' ');
        bool only_numbers = true;
        std::vector<std::size_t> chosen;
        for (std::size_t begin = 0; begin < spaced.size();) {
            const std::size_t end = std::min(spaced.find(' ', begin), spaced.size());
            const std::string word = spaced.substr(begin, end - begin);
            begin = end + 1;
            if (word.empty() || word == "and") continue;
            const auto option = read_option(std::vector<std::string>(flags_.size()), word);
            if (option)
                chosen.push_back(*option);
            else
                only_numbers = false;
        }
        if (only_numbers && !chosen.empty()) {
            for (const std::size_t position : chosen) name(position);
        } else {
            const Understanding understanding = phrasebook_.read(line);
            for (const Reading& reading : understanding.readings)
                entry.heard.push_back(recorded(rule_base().signs[reading.sign].id, reading.value, reading.words));
            const bool answered = std::ranges::any_of(
                entry.heard, [&](const RecordedAnswer& answer) { return contains(entry.signs, answer.sign); });
            if (!answered && text.starts_with("no,")) {
                deny();
            } else if (!answered) {
                if (!entry.heard.empty()) {
                    entry.kind = Kind::words;
                    entry.signs.clear();
                    take(std::move(entry), understanding.not_understood, out);
                }
                out.emplace_back(shown::NotUsed{{}, !understanding.readings.empty()});
                ask_again(out);
                return;
            }
        }
    }
    take(std::move(entry), {}, out);
    go_on(now, out);
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
        if (!entry.heard.empty()) {
            // Something else was told; it counts, and the question still stands.
            entry.kind = Kind::words;
            entry.sign.clear();
            take(std::move(entry), {}, out);
            weigh_again();
            if (emergency(rule_base(), told_, ranking_.conclusions)) {
                finish(StopReason::emergency, now, out);
                return;
            }
        }
        out.emplace_back(shown::NotUsed{reply ? "" : reply.fault().text, !understanding.readings.empty()});
        ask_again(out);
        return;
    }
    if (reply) {
        // A measurement may be out of bounds: then nothing of it is kept.
        const auto misfits = add(entry);
        record_.course.pop_back();
        const auto own = std::ranges::find(misfits, std::size_t{0}, &CallMisfit::answer);
        if (own != misfits.end()) {
            (void)tell_all();
            out.emplace_back(shown::NotUsed{own->fault.text});
            ask_again(out);
            return;
        }
        if (const Observation* seen = told_.facts.find(*pending_); seen && seen->measured)
            entry.heard.front().is = as_value(sign, *seen);
    }
    take(std::move(entry), {}, out);
    go_on(now, out);
}

void Interview::hear_follow_up(std::string_view line, Moment now, std::vector<Shown>& out) {
    const auto unusable = [&] {
        out.emplace_back(shown::NotUsed{});
        ask_again(out);
    };
    CallEntry entry{.kind = Kind::follow_up, .when = now, .words = {}};
    switch (follow_up_question_) {
        case FollowUpQuestion::done: {
            const auto option = read_option(done_words(), line);
            if (!option) return unusable();
            entry.follow_up.done = static_cast<FollowUp::Done>(*option);
            record_.course.push_back(std::move(entry));
            return ask_follow_up(FollowUpQuestion::helped, out);
        }
        case FollowUpQuestion::helped: {
            auto option = read_option(helped_words(), line);
            if (!option && line == "don't know") option = static_cast<std::size_t>(FollowUp::Helped::unknown);
            if (!option) return unusable();
            entry.follow_up.helped = static_cast<FollowUp::Helped>(*option);
            record_.course.push_back(std::move(entry));
            return ask_follow_up(FollowUpQuestion::cause, out);
        }
        case FollowUpQuestion::cause:
            return hear_cause(line, now, out);
        case FollowUpQuestion::how: {
            const auto option = read_option(how_words(), line);
            if (!option) return unusable();
            entry.kind = Kind::confirmed;
            confirmed_.how = static_cast<ConfirmedCause::How>(*option);
            entry.confirmed = confirmed_;
            record_.course.push_back(std::move(entry));
            break;
        }
        case FollowUpQuestion::go_on: {
            static const std::vector<std::string> options = {"go on", "close"};
            const auto option = read_option(options, line);
            if (!option) return unusable();
            if (*option == 1) return close(out);
            return ask_own_words(true, out);
        }
    }
    for (std::size_t i = record_.course.size(); i-- > 0;)
        if (const auto helped = record_.course[i].follow_up.helped) {
            if (*helped == FollowUp::Helped::solved) return close(out);
            break;
        }
    ask_follow_up(FollowUpQuestion::go_on, out);
}

/// One of those offered by number, "none" or "not known" by number or word, or any other by its name.
void Interview::hear_cause(std::string_view line, Moment now, std::vector<Shown>& out) {
    std::vector<std::string> options;
    for (const auto cause : causes_offered_) options.push_back(rule_base().causes[cause].id);
    options.emplace_back("none of the listed causes");
    options.emplace_back("don't know");
    const std::string text = plain_words(line);
    std::optional<std::size_t> option;
    if (text == "none" || text == "none listed") option = causes_offered_.size();
    if (!option) option = read_option(options, line);
    confirmed_ = {};
    if (option && *option == causes_offered_.size() + 1) {
        // Nobody knows: nothing is recorded, and the call may still be over.
        for (std::size_t i = record_.course.size(); i-- > 0;)
            if (record_.course[i].follow_up.helped == FollowUp::Helped::solved) return close(out);
        return ask_follow_up(FollowUpQuestion::go_on, out);
    }
    if (option && *option < causes_offered_.size()) {
        confirmed_.causes = {options[*option]};
    } else if (!option) {
        std::vector<std::string> names;
        for (const Cause& cause : rule_base().causes) names.push_back(cause.name);
        const auto id = nearest_name(text, rule_base().causes.ids());
        const auto name = nearest_name(text, names);
        if (id)
            confirmed_.causes = {*id};
        else if (name)
            confirmed_.causes = {
                rule_base().causes.ids()[static_cast<std::size_t>(std::ranges::find(names, *name) - names.begin())]};
        else {
            out.emplace_back(shown::NotUsed{});
            return ask_again(out);
        }
    }
    CallEntry entry{.kind = Kind::confirmed, .when = now, .words = {}};
    entry.confirmed = confirmed_;
    record_.course.push_back(std::move(entry));
    ask_follow_up(FollowUpQuestion::how, out);
}

}  // namespace lidlift
