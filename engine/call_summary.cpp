#include "engine/call_summary.hpp"

#include "engine/call_told.hpp"
#include "engine/contains.hpp"
#include "engine/plan_amounts.hpp"
#include "engine/tank_diagnosis.hpp"

#include <algorithm>
#include <cmath>
#include <utility>

namespace lidlift {
namespace {

using Kind = CallEntry::Kind;
using Names = std::vector<std::string>;

constexpr int seconds_a_day = 86'400;

bool tells(Kind kind) { return kind <= Kind::news; }

/// `moment` and so many days; of less than one the hours count.
Moment later(Moment moment, double days) {
    if (days >= 1) return {moment.day + std::chrono::days(std::lround(days)), moment.second};
    const int second = moment.second + static_cast<int>(std::lround(days * seconds_a_day));
    return {moment.day + std::chrono::days(second / seconds_a_day), second % seconds_a_day};
}

/// What is in `some` and not in `others`.
Names missing_from(const Names& others, const Names& some) {
    Names result;
    for (const std::string& name : some)
        if (!contains(others, name)) result.push_back(name);
    return result;
}

/// The likeliest cause that the answers speak for, as an advice is recorded; empty where there is none.
std::string first_cause(const Ranking& ranking, const RuleBase& base) {
    for (const RankedCause& ranked : ranking.causes)
        if (ranked.raised() && ranked.chance >= least_chance_recorded) return base.causes[ranked.cause].id;
    return {};
}

SinceTheAdvice compare(const RecordedAdvice& then, const Diagnosis& now, const RuleBase& base) {
    SinceTheAdvice since;
    if (!then.causes.empty()) since.first_then = std::ranges::max_element(then.causes, {}, &RecordedChance::chance)->cause;
    Names steps;
    Names cautions;
    for (const PlannedStep& planned : now.advice.steps) steps.push_back(base.steps[planned.step].id);
    for (const auto caution : now.advice.cautions) cautions.push_back(base.cautions[caution].id);
    since.steps_gone = missing_from(steps, then.steps);
    since.steps_new = missing_from(then.steps, steps);
    since.cautions_gone = missing_from(cautions, then.cautions);
    since.cautions_new = missing_from(then.cautions, cautions);
    return since;
}

/// How the call went: everything but what the rule base makes of it. Returns the last advice.
const RecordedAdvice* go_through(const std::vector<const CallEntry*>& counts, CallSummary& summary) {
    const RecordedAdvice* advice = nullptr;
    bool followed_up = false;
    for (const CallEntry* entry : counts) {
        summary.last = entry->when;
        if (tells(entry->kind) || entry->kind == Kind::advised) summary.told_until = entry->when;
        if (tells(entry->kind)) summary.told_since = summary.told_since || !entry->heard.empty();
        if ((entry->kind == Kind::words || entry->kind == Kind::news) && !entry->words.empty())
            summary.own_words.push_back({entry->when, without_numbers_of_people(entry->words), entry->kind == Kind::news});
        if (entry->kind == Kind::advised) {
            advice = &entry->advice;
            summary.advised = entry->when;
            summary.told_since = false;
        }
        if (entry->kind == Kind::follow_up || entry->kind == Kind::confirmed) followed_up = true;
        if (entry->kind == Kind::follow_up) {
            // A new follow-up asks first what was done.
            if (entry->follow_up.done) {
                summary.done = entry->follow_up.done;
                summary.helped.reset();
            }
            if (entry->follow_up.helped) summary.helped = entry->follow_up.helped;
        }
        if (entry->kind == Kind::confirmed) summary.confirmed = entry->confirmed;
    }
    summary.told_since = summary.told_since && advice;
    if (advice) summary.stage = followed_up || summary.told_since ? CallStage::follow_up : CallStage::advised;
    return advice;
}

}  // namespace

CallSummary summary_of(const CallRecord& record, const Ranker& ranker, const Phrasebook& phrasebook,
                       std::optional<CallTank> tank) {
    const RuleBase& base = ranker.rule_base();
    CallSummary summary;
    summary.begun = summary.told_until = summary.last = record.begun;
    summary.rule_base = record.rule_base;
    summary.version = record.version;
    summary.other_rules = record.rule_base != base.name || record.version != base.version;
    summary.tank = record.tank;
    const RecordedAdvice* advice = go_through(what_counts(record), summary);
    if (record.closed) summary.stage = CallStage::closed;

    Told known;
    std::optional<TankSeen> seen;
    if (tank) seen = look_into(ranker, std::move(tank->record), summary.told_until.day, tank->bay, known);
    CallTold all = told_in(record, base, std::move(known));
    for (const CallMisfit& misfit : all.misfits) summary.misfits.push_back(in_words(misfit, record));
    std::vector<OpenQuestion> to_ask;
    for (const OwnWords& said : summary.own_words)
        for (OpenQuestion& open : phrasebook.read(said.words).to_ask) to_ask.push_back(std::move(open));

    Diagnosis& diagnosis = summary.diagnosis;
    diagnosis = diagnose(ranker, std::move(all.told), {}, std::move(to_ask));
    diagnosis.tank = std::move(seen);
    if (diagnosis.tank)
        diagnosis.amounts = amounts_of_plan(base, diagnosis.told, diagnosis.advice, diagnosis.tank->record, diagnosis.tank->bay,
                                            diagnosis.tank->state.today);
    summary.first_now = first_cause(diagnosis.ranking, base);
    if (advice) summary.since = compare(*advice, diagnosis, base);
    if (const auto days = diagnosis.advice.look_again_days)
        summary.look_again = later(summary.advised && !summary.told_since ? *summary.advised : summary.told_until, *days);
    return summary;
}

}  // namespace lidlift
