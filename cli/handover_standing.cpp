#include "cli/handover_standing.hpp"

#include "cli/page.hpp"
#include "engine/plain_text.hpp"

#include <fmt/format.h>

namespace lidlift::cli {
namespace {

/// To the minute.
std::string minute(const Moment& moment) { return to_text(moment).substr(0, 16); }

/// A cause as a person knows it; a name that these rules lack as it was recorded.
std::string cause_called(const RuleBase& base, const std::string& id) {
    if (id.empty()) return "none";
    const auto cause = base.causes.find(id);
    return cause ? quoted(base.causes[*cause].name) : quoted(id) + ", which these rules do not know";
}

const char* done_sentence(FollowUp::Done done) {
    switch (done) {
        case FollowUp::Done::all:
            return "All that was advised was done.";
        case FollowUp::Done::partly:
            return "A part of what was advised was done.";
        case FollowUp::Done::nothing:
            break;
    }
    return "Nothing of what was advised was done.";
}

const char* helped_sentence(FollowUp::Helped helped) {
    switch (helped) {
        case FollowUp::Helped::solved:
            return "It is solved: all is well now.";
        case FollowUp::Helped::better:
            return "It is better.";
        case FollowUp::Helped::same:
            return "It is the same as before.";
        case FollowUp::Helped::worse:
            return "It is worse.";
        case FollowUp::Helped::unknown:
            break;
    }
    return "It is too early to say whether it helped.";
}

const char* how_known(const std::optional<ConfirmedCause::How>& how) {
    if (!how) return "how that is known was not said";
    switch (*how) {
        case ConfirmedCause::How::seen:
            return "it was seen";
        case ConfirmedCause::How::remedy_worked:
            return "the remedy worked";
        case ConfirmedCause::How::guess:
            break;
    }
    return "a guess";
}

std::string stage_sentence(const CallSummary& call) {
    switch (call.stage) {
        case CallStage::asking:
            return "Open: it was broken off before anything was advised.";
        case CallStage::advised:
            return "Open: advice was given on " + minute(*call.advised) + ", and nobody has called again.";
        case CallStage::follow_up:
            return "Open: advice was given on " + minute(*call.advised) + ", and the call was taken up again.";
        case CallStage::closed:
            break;
    }
    return "Closed on " + minute(call.last) + ".";
}

/// "2 steps new, 1 gone".
void add_changes(std::vector<std::string>& list, const char* what, std::size_t come, std::size_t gone) {
    if (come + gone == 0) return;
    std::string text = std::string(what) + ": ";
    if (come > 0) text += fmt::format("{} new", come);
    if (gone > 0) text += fmt::format("{}{} gone", come > 0 ? ", " : "", gone);
    list.push_back(std::move(text));
}

}  // namespace

std::vector<std::string> standing_of(const RuleBase& base, const CallSummary& call) {
    std::vector<std::string> lines = {"Begun on " + minute(call.begun) + ". " + stage_sentence(call)};
    std::string came_of_it;
    const auto say = [&](const std::string& sentence) { came_of_it += (came_of_it.empty() ? "" : " ") + sentence; };
    if (call.done) say(done_sentence(*call.done));
    if (call.helped) say(helped_sentence(*call.helped));
    if (call.confirmed) {
        std::vector<std::string> causes;
        for (const std::string& id : call.confirmed->causes) causes.push_back(cause_called(base, id));
        say("In the end it was " + (causes.empty() ? "nothing that is listed" : joined(causes, " and ")) + " (" +
            how_known(call.confirmed->how) + ").");
    } else if (call.stage == CallStage::closed) {
        say("What it was in the end was not said.");
    }
    if (!came_of_it.empty()) lines.push_back(std::move(came_of_it));
    return lines;
}

std::vector<std::string> notes_on(const RuleBase& base, const CallSummary& call) {
    std::vector<std::string> notes;
    std::vector<std::string> changes;
    if (const auto& since = call.since) {
        if (since->first_then != call.first_now)
            changes.push_back("first cause then " + cause_called(base, since->first_then) + ", now " +
                              cause_called(base, call.first_now));
        add_changes(changes, "steps", since->steps_new.size(), since->steps_gone.size());
        add_changes(changes, "cautions", since->cautions_new.size(), since->cautions_gone.size());
    }
    std::string why;
    if (call.other_rules)
        why = "The call was recorded under the rules " + quoted(call.rule_base) + " " + call.version + "; this sheet goes by " +
              quoted(base.name) + " " + base.version;
    if (call.told_since) why += std::string(why.empty() ? "More" : ", and more") + " was said after the advice";
    if (!changes.empty())
        notes.push_back(
            (why.empty() ? std::string("The advice differs from what was said then") : why + ". The advice differs") + " (" +
            joined(changes, "; ") + ").");
    else if (!why.empty())
        notes.push_back(why + (call.advised ? "; the advice is the same." : "."));
    if (!call.tank.empty() && !call.diagnosis.tank)
        notes.push_back("The call is about a tank whose record could not be read (" + quoted(call.tank) +
                        "); the advice goes without it.");
    if (!call.misfits.empty())
        notes.push_back("Recorded answers that these rules cannot use: " + joined(call.misfits, "; ") + ".");
    if (call.confirmed && !call.confirmed->causes.empty() && call.first_now != call.confirmed->causes.front())
        notes.push_back("The steps go by the answers; for what it was in the end see: lidlift show causes " +
                        call.confirmed->causes.front());
    return notes;
}

}  // namespace lidlift::cli
