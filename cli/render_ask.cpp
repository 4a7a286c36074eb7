#include "cli/render_ask.hpp"

#include "cli/level_heading.hpp"
#include "cli/render_text.hpp"
#include "engine/tank_facts.hpp"
#include "engine/words.hpp"

#include <algorithm>
#include <cmath>
#include <utility>

#include <fmt/format.h>

namespace lidlift::cli {
namespace {

constexpr std::size_t most_causes_said = 3;

/// "'" and all that a shell would take apart.
std::string for_shell(const std::string& path) {
    const bool plain =
        path.find_first_not_of("abcdefghijklmnopqrstuvwxyzABCDEFGHIJKLMNOPQRSTUVWXYZ0123456789_-./") == std::string::npos;
    if (plain && !path.empty() && path.front() != '-') return path;
    std::string quoted = "'";
    for (const char c : path) quoted += c == '\'' ? std::string("'\\''") : std::string(1, c);
    return quoted + "'";
}

std::string hundredths(double chance) {
    const double number = std::round(100 * chance);
    if (number < 1) return "under 1";
    if (number > 99) return "over 99";
    return fmt::format("{:.0f}", number);
}

std::string upper_first(std::string text) {
    if (!text.empty() && text.front() >= 'a' && text.front() <= 'z') text.front() = static_cast<char>(text.front() - 'a' + 'A');
    return text;
}

/// The sentence without the full stop or question mark at its end.
std::string bare(std::string text) {
    while (!text.empty() && (text.back() == '.' || text.back() == '?')) text.pop_back();
    return text;
}

class Speaker {
public:
    Speaker(const Interview& interview, const AskPage& ask_page)
        : interview_(interview), base_(interview.rule_base()), ask_page_(ask_page), page_(ask_page.screen) {}

    std::string take() { return page_.take(); }

    void operator()(const shown::AskOwnWords& ask) {
        page_.empty_line();
        if (ask.news)
            say("What is different now? Say it in your own words, or press Enter if nothing is. To put an earlier answer "
                "right, "
                "say change and its number.");
        else
            say("Tell me in your own words what is wrong: what you smell, what you see, where the worms are. One or two "
                "sentences are enough.");
    }

    void operator()(const shown::AskDangers& ask) {
        page_.empty_line();
        say("Before anything else: is any of this so?");
        for (std::size_t i = 0; i < ask.flags.size(); ++i)
            page_.paragraph(fmt::format("  {}  ", i + 1), answer_in_words(base_.signs[ask.flags[i].sign], ask.flags[i].answer));
        say(ask.flags.size() == 1 ? "Say yes or no." : "Say its number, or say none.");
    }

    void operator()(const shown::DangersNotKnown& dangers) {
        page_.empty_line();
        say("Find this out before anything else is done, from outside, and not alone:");
        for (const RedFlag& flag : dangers.flags) page_.paragraph("  - ", answer_in_words(base_.signs[flag.sign], flag.answer));
        say(std::string("If ") + (dangers.flags.size() == 1 ? "it" : "one of them") +
            " is so, leave the bed alone and get help for the people first.");
    }

    void operator()(const shown::ReadAtOnce& read) {
        page_.empty_line();
        say("Before we go on, what you told me calls for this at once.");
        for (const auto handle : read.cautions) {
            const Caution& caution = base_.cautions[handle];
            page_.paragraph(level_heading(caution.level), caution.name + ". " + caution.say);
        }
    }

    void operator()(const shown::AskSign& ask) {
        const Sign& sign = base_.signs[ask.sign];
        page_.empty_line();
        if (!ask.said.empty()) say("You said \"" + ask.said + "\". That may mean several things, so I ask.");
        if (ask.changing) {
            say("Once more, to put it right: " + sign.ask);
        } else {
            say(fmt::format("Question {}. {}", ask.number, sign.ask));
        }
        if (!sign.check.empty()) say("How to check: " + sign.check);
        if (sign.sort == SignSort::yes_no) {
            say("Say yes or no.");
            return;
        }
        for (std::size_t i = 0; i < sign.answers.size(); ++i)
            page_.paragraph("  " + option_mark(sign, i) + "  ", answer_in_words(sign, i));
        if (sign.sort == SignSort::several) say("Say the numbers of all that are so.");
        if (sign.sort == SignSort::one_of) say("Say a number.");
        if (sign.sort == SignSort::quantity) say(how_to_say_quantity(sign));
    }

    void operator()(const shown::AskFollowUp& ask) {
        page_.empty_line();
        switch (ask.what) {
            case shown::FollowUpQuestion::done:
                say("Was it done, what was advised?");
                options({"all of it", "a part of it", "nothing"});
                break;
            case shown::FollowUpQuestion::helped:
                say("Did it help?");
                options({"solved: all is well now", "better", "the same", "worse", "unknown: too early to say"});
                break;
            case shown::FollowUpQuestion::cause: {
                say("Do you know by now what it was?");
                std::vector<std::string> names;
                for (const auto cause : ask.causes) names.push_back(base_.causes[cause].name);
                names.emplace_back("none of these, and nothing else that I list");
                names.emplace_back("not known");
                options(names);
                say("Say a number. If it was another cause that I list, say its name.");
                return;
            }
            case shown::FollowUpQuestion::how:
                say("How is it known?");
                options({"it was seen", "the remedy worked", "it is a guess"});
                break;
            case shown::FollowUpQuestion::go_on:
                say("Shall we go on looking for it, or close this call?");
                options({"go on", "close"});
                break;
        }
        say("Say a number.");
    }

    void operator()(const shown::Understood& understood) {
        if (!understood.own_words) {
            for (const shown::Line& line : understood.answers) say("Noted. " + in_a_line(line) + ".");
            return;
        }
        page_.empty_line();
        if (understood.answers.empty()) {
            say("I could not use any of that with certainty, so I will ask.");
        } else {
            say("This is what I understood.");
            for (const shown::Line& line : understood.answers)
                numbered(line.number, in_a_line(line) + (line.from.empty() ? "" : " (you said: " + line.from + ")"));
            say(fmt::format("If one of them is wrong, say change and its number, for instance: change {}.",
                            understood.answers.front().number));
        }
        std::string not_used;
        for (const std::string& words : understood.not_used) not_used += (not_used.empty() ? "\"" : ", \"") + words + "\"";
        if (!understood.answers.empty() && !not_used.empty())
            say("Not used, because I am not sure what it means: " + not_used + ".");
    }

    void operator()(const shown::NoDanger&) { say("Good. None of these, then."); }

    void operator()(const shown::Against& against) {
        say((against.words.empty() ? std::string("That") : "\"" + against.words + "\"") +
            fmt::format(" goes against what you said before: {}. I keep that. To put it right, say change {}.",
                        in_a_line(against.earlier), against.earlier.number));
    }

    void operator()(const shown::NotUsed& not_used) {
        page_.empty_line();
        if (not_used.no_answer_yet) {
            say("Thank you, I took that down. The question is still open.");
        } else {
            say("I could not take that as an answer" + (not_used.why.empty() ? std::string(".") : ": " + not_used.why + "."));
            say("Say don't know if you cannot tell, or help.");
        }
    }

    void operator()(const shown::AnswersSoFar& so_far) {
        page_.empty_line();
        if (so_far.answers.empty()) {
            say("You have not told me anything yet.");
            return;
        }
        say("This is what you told me so far.");
        for (const shown::Line& line : so_far.answers) numbered(line.number, in_a_line(line));
        say("To put one right, say change and its number.");
    }

    void operator()(const shown::SoFar&) {
        page_.empty_line();
        const Ranking& ranking = interview_.ranking();
        std::size_t said = 0;
        for (const RankedCause& ranked : ranking.causes) {
            if (!ranked.raised() || ranked.chance < 0.05 || said == most_causes_said) continue;
            if (said++ == 0) say("This is what I think so far.");
            page_.paragraph("  - ", base_.causes[ranked.cause].name + ": " + likelihood_words(ranked.chance) + ", " +
                                        in_a_hundred(ranked.chance) + ".");
        }
        if (said == 0) say("Nothing stands out yet.");
        say("Something not on my list, or nothing wrong: " + in_a_hundred(ranking.nothing_listed) + ".");
    }

    void operator()(const shown::WhyAsked& why) {
        const Sign& sign = base_.signs[why.sign];
        page_.empty_line();
        say("I ask because of what each answer would do.");
        for (const WhatIf& what : why.answers) {
            const std::string answer =
                sign.sort == SignSort::yes_no ? sign.answers[what.answer].id : answer_in_words(sign, what.answer);
            std::string moves;
            for (const MovedChance& moved : what.moved)
                moves += (moves.empty() ? "" : "; ") + fmt::format("\"{}\" {} from {} to {} in 100",
                                                                   bare(base_.causes[moved.cause].name),
                                                                   moved.after > moved.before ? "up" : "down",
                                                                   hundredths(moved.before), hundredths(moved.after));
            page_.paragraph("  - ", "If " + answer + ": " + (moves.empty() ? "hardly anything changes" : moves) + ".");
        }
        say("If you cannot tell, say don't know.");
    }

    void operator()(const shown::WhyDangers& why) {
        page_.empty_line();
        say("I ask because people come first. Each of these can cost a life or do serious harm:");
        std::vector<Handle<Caution>> said;
        for (const RedFlag& flag : why.flags) {
            if (std::ranges::find(said, flag.caution) != said.end()) continue;
            said.push_back(flag.caution);
            page_.paragraph("  - ", upper_first(base_.cautions[flag.caution].name) + ".");
        }
    }

    void operator()(const shown::Contradiction& contradiction) {
        page_.empty_line();
        say("These answers cannot all be right. Together they rule out everything that I know.");
        for (const shown::Line& line : contradiction.answers) numbered(line.number, in_a_line(line));
        say("Say change and the number of the one that is wrong. Or say stop.");
    }

    void operator()(const shown::Help&) {
        page_.empty_line();
        say("Answer by the number, in a word, or in your own words. If you are not certain, say so: 2, unsure. You can also "
            "say:");
        const auto wish = [&](const char* word, const char* what) { page_.paragraph(std::string("  ") + word + ": ", what); };
        wish("don't know", "we go on without that answer.");
        wish("why", "why I ask, and what each answer would do.");
        wish("so far", "what I think so far.");
        wish("list", "what you told me so far.");
        wish("change 3", "put the third of them right.");
        wish("back", "take the last answer back.");
        wish("again", "I ask the question once more.");
        wish("stop", "no more questions; I advise now.");
        wish("pause", "leave without advice, and go on another day if the call is recorded.");
    }

    void operator()(const shown::NothingBefore&) { say("There is nothing to go back to."); }
    void operator()(const shown::NoSuchAnswer& no_such) {
        if (no_such.there_are == 0)
            say("You have not told me anything yet that could be changed.");
        else
            say(fmt::format("There is no answer of that number. There are {}; say list to hear them.", no_such.there_are));
    }
    void operator()(const shown::WentBack&) { say("Taken back."); }
    void operator()(const shown::TooLong&) { say("This call has grown too long to go on."); }

    void operator()(const shown::Resumed& resumed) {
        say("We go on with the call that began on " + to_text(resumed.begun).substr(0, 16) + ".");
        if (!resumed.answers.empty()) {
            say("This is what you told me then.");
            for (const shown::Line& line : resumed.answers) numbered(line.number, in_a_line(line));
        }
        if (resumed.other_version) say("It was recorded under another version of the rules.");
        if (!resumed.misfits.empty()) {
            say("I cannot use this of it any more:");
            for (const std::string& misfit : resumed.misfits) page_.paragraph("  - ", misfit);
        }
        if (!resumed.advised) return;
        std::string causes;
        for (const RecordedChance& one : resumed.causes)
            if (const auto cause = base_.causes.find(one.cause))
                causes += (causes.empty() ? "" : "; ") + base_.causes[*cause].name + ", " + in_a_hundred(one.chance);
        say(causes.empty() ? "Advice was given. Nothing stood out then." : "Advice was given. I thought of: " + causes + ".");
        if (resumed.steps.empty()) return;
        // The cautions stand before the steps here as well.
        say("I advised this. First, what it takes care of:");
        for (const std::string& id : resumed.cautions)
            if (const auto caution = base_.cautions.find(id))
                page_.paragraph("  - ", upper_first(base_.cautions[*caution].name) + ". " + base_.cautions[*caution].say);
        say("And then:");
        for (const std::string& id : resumed.steps)
            if (const auto step = base_.steps.find(id)) page_.paragraph("  - ", base_.steps[*step].say);
    }

    void operator()(const shown::Paused&) {
        page_.empty_line();
        if (ask_page_.record.empty()) {
            say("We stop here without advice. Nothing was written down.");
            return;
        }
        say("We stop here without advice. Your answers are kept. To go on:");
        page_.unbroken("  ", how_to_go_on(ask_page_.record, false));
    }

    void operator()(const shown::Stopped& stopped) {
        page_.empty_line();
        switch (stopped.reason) {
            case StopReason::sure_enough:
                say("I stop asking, because I am sure enough to advise.");
                break;
            case StopReason::nothing_to_ask:
                if (interview_.told().facts.known().empty())
                    say("I stop asking, because somebody has to look first.");
                else
                    say("I stop asking, because no question that is left would tell me enough to be worth your time.");
                break;
            case StopReason::nothing_changes:
                say("I stop asking, because no single answer that is left would change what to do.");
                break;
            case StopReason::enough_questions:
                say("I stop asking, because ten questions are enough for one call.");
                break;
            case StopReason::said_to_stop:
                say("No more questions. This is what I can say now.");
                break;
            case StopReason::end_of_input:
                say("Nothing more was said. This is what I can say now.");
                break;
            case StopReason::emergency:
                say("The questions end here. See to the people first.");
                break;
        }
    }

    void operator()(const shown::Advised&) {
        if (!interview_.diagnosis()) return;
        page_.empty_line();
        page_.ready(render_text(base_, *interview_.diagnosis(),
                                {.screen = ask_page_.screen,
                                 .questions = false,
                                 .in_full = ask_page_.record.empty() ? "" : how_to_hand_over(ask_page_.record, true)}));
    }

    void operator()(const shown::WouldChangeMyMind& would) {
        page_.heading("WHAT WOULD CHANGE MY MIND");
        if (would.changes.empty()) {
            page_.paragraph("  ", "No single answer that is left would change this advice.");
            return;
        }
        for (const ChangeOfMind& change : would.changes) {
            const Sign& sign = base_.signs[change.sign];
            const std::string answer =
                sign.sort == SignSort::yes_no ? sign.answers[change.answer].id : answer_in_words(sign, change.answer);
            std::string then;
            if (change.first) then = "I would first think of \"" + bare(base_.causes[*change.first].name) + "\"";
            if (change.danger) then += (then.empty() ? "" : ", and ") + std::string("there would be a danger to tell you of");
            if (change.steps) then += (then.empty() ? "" : ", and ") + std::string("what to do now would change");
            page_.paragraph("  - ", sign.ask);
            if (!sign.check.empty()) page_.paragraph("    ", sign.check);
            page_.paragraph("    ", "If " + answer + ": " + then + ".");
        }
    }

    void operator()(const shown::LookAt& look) {
        if (look.signs.empty()) return;
        page_.heading("WHAT TO LOOK AT");
        page_.paragraph("  ", "The answers to these tell most. Look, and call again.");
        for (const auto handle : look.signs) {
            const Sign& sign = base_.signs[handle];
            page_.paragraph("  - ", sign.ask + (sign.check.empty() ? "" : " " + sign.check));
        }
    }

    void operator()(const shown::CallAgain& again) {
        page_.heading("CALL AGAIN");
        page_.paragraph("  ", (again.days ? upper_first(days_in_words(*again.days)) + ", when you have looked again"
                                          : std::string("When you have looked at what is asked above")) +
                                  ". At once if it gets worse, if somebody feels unwell, or if you see or smell smoke.");
        if (ask_page_.record.empty()) return;
        page_.paragraph("  ", "This call is recorded. To take it up again then:");
        page_.unbroken("  ", how_to_go_on(ask_page_.record, true));
        sheet();
    }

    void operator()(const shown::Closed& closed) {
        page_.empty_line();
        say(closed.solved ? "Good. This call is closed. What you told me helps those who look after the rules."
                          : "This call is closed. What you told me helps those who look after the rules.");
        sheet();
    }

private:
    void say(const std::string& text) { page_.paragraph("", text); }
    void numbered(std::size_t number, const std::string& text) { page_.paragraph(fmt::format("  {}  ", number), text); }
    void sheet() {
        if (ask_page_.record.empty()) return;
        page_.paragraph("  ", "For a sheet of it to hand over:");
        page_.unbroken("  ", how_to_hand_over(ask_page_.record, false));
    }
    void options(const std::vector<std::string>& list) {
        for (std::size_t i = 0; i < list.size(); ++i) numbered(i + 1, list[i]);
    }

    [[nodiscard]] std::string in_a_line(const shown::Line& line) const {
        const std::string text =
            upper_first(base_.signs[line.sign].name) + ": " + (line.words.empty() ? std::string("not known") : line.words);
        return line.from.starts_with(from_the_record) ? text + " (" + line.from + ")" : text;
    }

    static std::string how_to_say_quantity(const Sign& sign) {
        const double middle = std::round((sign.plausible.low + sign.plausible.high) / 2);
        const std::string example = quantity_to_text(std::min(middle, 31.0), *sign.unit);
        return sign.answers.empty() ? "Say the figure, for instance " + example + "."
                                    : "Say the figure, for instance " + example + ", or a letter.";
    }

    const Interview& interview_;
    const RuleBase& base_;
    const AskPage& ask_page_;
    Page page_;
};

}  // namespace

std::string how_to_go_on(const std::string& record, bool follow_up) {
    return std::string("lidlift ask ") + (follow_up ? "--again " : "") + "--record " + for_shell(record);
}

std::string how_to_hand_over(const std::string& record, bool full) {
    return std::string("lidlift handover ") + (full ? "--full " : "") + for_shell(record);
}

std::string render_greeting(const AskPage& page) {
    Page text(page.screen);
    text.paragraph("", "This is lidlift. I ask one question at a time. Say help at any time to hear what else you can say.");
    text.paragraph("", "No names, addresses or telephone numbers, please: they are not needed.");
    if (page.record.empty()) {
        text.paragraph("",
                       "Nothing is written down. To keep a record of the call, start with --record and a file or a folder.");
    } else {
        text.paragraph("", "Every answer is written down at once, in this file:");
        text.unbroken("  ", page.record);
    }
    return text.take();
}

std::string render_shown(const Interview& interview, const std::vector<Shown>& shown, const AskPage& page) {
    Speaker speaker(interview, page);
    for (const Shown& one : shown) std::visit(speaker, one);
    return speaker.take();
}

}  // namespace lidlift::cli
