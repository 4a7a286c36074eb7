#include "cli/render_text.hpp"

#include "cli/amount_lines.hpp"
#include "cli/balance_lines.hpp"
#include "cli/level_heading.hpp"
#include "cli/local_rules.hpp"
#include "cli/page.hpp"
#include "cli/shown_causes.hpp"
#include "engine/danger_told.hpp"
#include "engine/tank_diagnosis.hpp"
#include "engine/words.hpp"

#include <algorithm>
#include <cmath>
#include <iterator>
#include <limits>
#include <utility>

#include <fmt/format.h>

namespace lidlift::cli {
namespace {

constexpr std::size_t most_causes_in_full = 3;
constexpr std::size_t most_causes_in_short = 5;
constexpr std::size_t most_lines = 6;
constexpr std::size_t most_sources = 3;
constexpr std::size_t most_choices = 2;  ///< of materials, for one amount
constexpr std::size_t all_choices = std::numeric_limits<std::size_t>::max();
constexpr std::size_t most_do_nots = 5;
constexpr std::size_t most_not_sure = 3;

class TextPage {
public:
    TextPage(const RuleBase& base, const Diagnosis& diagnosis, const TextOptions& options)
        : base_(base),
          diagnosis_(diagnosis),
          advice_(diagnosis.advice),
          ranking_(diagnosis.ranking),
          options_(options),
          page_(options.screen) {}

    std::string make() {
        urgent_cautions();
        verdict();
        told();
        tank();
        causes();
        steady();
        other_cautions();
        plan();
        do_not();
        left_out();
        look_again();
        questions();
        page_.empty_line();
        page_.paragraph("", local_rules_first);
        return page_.take();
    }

private:
    /// What must be read before anything else: what the facts themselves call for. The others belong to steps and stand right
    /// before them.
    [[nodiscard]] bool urgent(const Caution& caution) const {
        return caution.when && evaluate(*caution.when, diagnosis_.told.facts, ranking_.conclusions.truth) == Truth::yes;
    }

    void caution(const Caution& caution) { page_.paragraph(level_heading(caution.level), caution.name + ". " + caution.say); }

    void urgent_cautions() {
        bool first = true;
        for (const auto handle : advice_.cautions) {
            if (!urgent(base_.cautions[handle])) continue;
            if (std::exchange(first, false)) page_.heading("BEFORE ANYTHING ELSE");
            caution(base_.cautions[handle]);
        }
    }

    void verdict() {
        page_.heading("IN SHORT");
        if (ranking_.contradictory) {
            page_.paragraph("",
                            "These answers contradict one another: together they rule out everything I know. Please go through "
                            "them once more.");
            return;
        }
        if (advice_.verdict == Verdict::emergency) {
            page_.paragraph("", "People first. Nothing else matters until the danger above is over.");
            if (ranking_.causes.empty() || ranking_.causes.front().chance < 0.8) return;
        } else if (people_come_first(base_, diagnosis_.told, ranking_.conclusions)) {
            page_.paragraph("", see_to_people_first);
        }
        if (diagnosis_.told.order.empty()) {
            page_.paragraph("",
                            "I cannot tell yet: I understood none of your words well enough to use them. Say how it is with "
                            "the things asked below, in short sentences: it smells of rotten eggs, it is too wet, the worms "
                            "are on the lid.");
            return;
        }
        if (diagnosis_.told.facts.known().empty()) {
            page_.paragraph("",
                            "I cannot tell yet: nothing that was asked is known so far. Look at the things below, and ask "
                            "again then.");
            return;
        }
        if (ranking_.causes.empty()) {
            page_.paragraph("", "Nothing that I know of fits this stage.");
            return;
        }
        const auto reported = raised_causes(ranking_);
        if (reported.empty() || reported.front()->chance < least_to_guess) {
            page_.paragraph("",
                            std::string("I cannot tell yet: ") +
                                (reported.empty() ? "what you told me points to no cause that I know of."
                                                  : "what you told me fits several causes a little, and none of them well.") +
                                " Look at the next thing below before doing much.");
            return;
        }
        const RankedCause& best = *reported.front();
        // "Unlikely" for the best of the list would mislead, so below an even chance only the number is said here.
        const std::string how_likely = best.chance < 0.45
                                           ? in_a_hundred(best.chance) + ", so far from sure."
                                           : likelihood_words(best.chance) + ", " + in_a_hundred(best.chance) + ".";
        const std::string name = base_.causes[best.cause].name;
        switch (advice_.verdict) {
            case Verdict::nothing_wrong:
                page_.paragraph("", "Nothing is wrong that needs mending: leave it alone. " + name + ": " + how_likely);
                break;
            case Verdict::cannot_tell:
                page_.paragraph("", "I cannot tell yet. The best guess is: " + name + " - " + how_likely +
                                        " Look at the next thing below before doing much.");
                break;
            default:
                page_.paragraph("", "Best explanation so far: " + name + " - " + how_likely);
        }
        beside(reported);
    }

    /// What stands beside the best explanation: its consequences, what is likely together with it, or what comes close.
    void beside(const std::vector<const RankedCause*>& reported) {
        std::string following;
        for (const RankedCause* ranked : reported)
            if (ranked->follows_from == reported.front()->cause && ranked->there >= likely_root)
                following += (following.empty() ? "" : "; ") + base_.causes[ranked->cause].name;
        if (!following.empty()) page_.paragraph("", "Also there, and probably only a consequence of it: " + following + ".");
        if (!ranking_.together.empty()) {
            std::string both;
            for (const auto cause : ranking_.together) both += (both.empty() ? "" : "; and: ") + base_.causes[cause].name;
            if (following.empty()) page_.paragraph("", "Most likely together: " + both + ".");
        } else if (reported.size() > 1 && reported[1]->chance >= 0.35 && following.empty()) {
            const RankedCause& second = *reported[1];
            page_.paragraph(
                "", "Close behind, or as well: " + base_.causes[second.cause].name + " - " + in_a_hundred(second.chance) + ".");
        }
    }

    void told() {
        std::vector<Handle<Sign>> said;
        std::ranges::copy_if(diagnosis_.told.order, std::back_inserter(said), [&](auto sign) { return !recorded(sign); });
        if (said.empty() && diagnosis_.not_understood.empty()) return;
        page_.heading("WHAT YOU TOLD ME");
        for (const auto handle : said) {
            const Sign& sign = base_.signs[handle];
            const Observation* seen = diagnosis_.told.facts.find(handle);
            page_.paragraph("  - ", sign.name + ": " + (seen ? in_words(sign, *seen) : std::string("not known")));
        }
        for (const std::string& words : diagnosis_.not_understood)
            page_.paragraph("  - ", "not used, because I am not sure what it means: \"" + words + "\"");
    }

    [[nodiscard]] bool recorded(Handle<Sign> sign) const {
        const Observation* seen = diagnosis_.told.facts.find(sign);
        return seen && !as_recorded(*seen).empty();
    }

    /// The state of the bay in a few lines, then what follows from the record, each with what it rests on.
    void tank() {
        if (!diagnosis_.tank) return;
        const TankSeen& tank = *diagnosis_.tank;
        page_.heading("WHAT THE TANK'S RECORD SAYS");
        const std::string& bay = tank.record.bays[tank.bay].name;
        page_.paragraph("  ", tank.record.name + ", bay " + bay + " (" + tank.because + "), on " + to_text(tank.state.today) +
                                  (tank.record.bays.size() > 1 ? ". For another say --bay NAME." : "."));
        for (const std::string& line : in_words(tank)) page_.paragraph("  ", line);
        const auto any = std::ranges::any_of(diagnosis_.told.order, [&](auto sign) { return recorded(sign); });
        if (any) page_.paragraph("  ", "What follows from it, and counts below:");
        std::size_t untold = 0;
        for (const auto handle : diagnosis_.told.order) {
            if (!recorded(handle)) continue;
            const Sign& sign = base_.signs[handle];
            // What the lines above say already: stage, days, size.
            if (!options_.full && (sign.topic == "stage" || sign.topic == "structure" || sign.topic == "set_up")) {
                ++untold;
                continue;
            }
            const Observation& seen = *diagnosis_.told.facts.find(handle);
            page_.paragraph("  - ",
                            sign.name + ": " + in_words(sign, seen) + " (" + seen.from.substr(from_the_record.size()) + ")");
        }
        if (untold > 0)
            page_.paragraph("  - ", fmt::format("and {} more {} of its stage and size{}", untold,
                                                untold == 1 ? "fact" : "facts", shown_by(untold)));
        for (const std::string& line : tank.overruled) page_.paragraph("  ! ", line + ".");
    }

    void causes() {
        if (ranking_.contradictory || ranking_.causes.empty()) return;
        // While people are in danger the reasons can wait.
        if (advice_.verdict == Verdict::emergency && !options_.full) return;
        const auto reported = options_.full ? roots_first(causes_to_report(ranking_)) : raised_causes(ranking_);
        page_.heading("WHAT IT PROBABLY IS, AND WHY");
        std::size_t in_short = 0;
        bool short_heading = false;
        for (std::size_t i = 0; i < reported.size(); ++i) {
            const bool likely = reported[i]->chance >= least_chance_to_act && i < most_causes_in_full;
            const bool best_guess = i == 0 && reported[i]->chance >= least_to_guess;
            if (best_guess || likely || options_.full) {
                cause_in_full(i + 1, *reported[i]);
            } else if (reported[i]->chance > 0.05 && in_short++ < most_causes_in_short) {
                if (!std::exchange(short_heading, true))
                    page_.paragraph("  ", i == 0 ? "Possible, but nothing stands out:" : "Less likely:");
                page_.paragraph("   - ", less_likely(*reported[i]));
            }
        }
        page_.paragraph("  ", "Something not on my list, or nothing wrong: " + in_a_hundred(ranking_.nothing_listed) + ".");
    }

    [[nodiscard]] std::string less_likely(const RankedCause& ranked) const {
        const std::string name = base_.causes[ranked.cause].name + " - ";
        return ranked.follows_from && ranked.there >= likely_root
                   ? name + "probably there, but as a consequence; by itself " + likelihood_words(ranked.chance)
                   : name + likelihood_words(ranked.chance);
    }

    void cause_in_full(std::size_t number, const RankedCause& ranked) {
        const Cause& cause = base_.causes[ranked.cause];
        page_.paragraph(fmt::format("{:>2}. ", number), cause.name);
        page_.paragraph("    ", likelihood_words(ranked.chance) + ", " + in_a_hundred(ranked.chance) + ".");
        page_.paragraph("    ", fmt::format("{} told me {} of the {} things that matter for it.",
                                            diagnosis_.tank ? "You and the record" : "You", ranked.answered, ranked.of));
        if (ranked.follows_from)
            page_.paragraph("    ",
                            "Probably a consequence of: " + base_.causes[*ranked.follows_from].name + ". Mend that first.");
        page_.paragraph("    ", "Why it happens: " + cause.because);
        balance(ranked);
        if (!cause.told_apart_by.empty()) page_.paragraph("    ", "How to tell: " + cause.told_apart_by);
        if (!cause.guides_differ.empty()) page_.paragraph("    ", "Guides differ: " + cause.guides_differ);
        page_.paragraph("    ", "Sources: " + source_list(cause));
        page_.empty_line();
    }

    void balance(const RankedCause& ranked) {
        const auto lines = options_.full ? whole_balance(ranked.balance) : condensed_balance(ranked.balance, most_lines);
        page_.columns("    ", "What speaks for it (+) and against it (-), in points", "points");
        for (const BalancePoints& line : lines) page_.columns("     ", line.text, fmt::format("{:+d}", line.points));
        page_.columns("     ", "together", fmt::format("{:+d}", sum_of(lines)));
    }

    /// How far the first cause hangs on the exact strengths.
    void steady() {
        if (!diagnosis_.steadiness || (advice_.verdict == Verdict::emergency && !options_.full)) return;
        const Steadiness& steady = *diagnosis_.steadiness;
        const auto name = [&](Handle<Cause> cause) { return base_.causes[cause].name; };
        page_.heading("HOW STEADY THIS IS");
        page_.paragraph("  ", fmt::format("The first cause (\"{}\") stays first in {} of {} tries with every strength changed "
                                          "a little.",
                                          name(ranking_.causes.front().cause), steady.first_stays, steady.tries));
        if (steady.instead.empty()) return;
        const Steadiness::Instead& most = steady.instead.front();
        page_.paragraph("  ",
                        fmt::format("What comes first instead, most often: \"{}\", in {}.", name({most.cause}), most.times));
    }

    /// Who says so: the first three by name, or all with title and how far they were read.
    [[nodiscard]] std::string source_list(const Cause& cause) const {
        std::string list;
        std::size_t named = 0;
        for (const auto handle : cause.sources) {
            const Source& source = base_.sources[handle];
            if (!options_.full && named == most_sources) break;
            ++named;
            const std::string& who = source.by.empty() ? source.title : source.by;
            list += (list.empty() ? "" : "; ");
            if (source.id == "common_practice")
                list += "common practice";
            else if (source.id == "from_memory")
                list += "from memory";
            else
                list += options_.full && !source.by.empty() ? who + ", " + source.title + " (" + source.standing + ")"
                                                            : who + " (" + source.standing + ")";
        }
        if (named < cause.sources.size())
            list += fmt::format("; and {} more: lidlift show causes {}", cause.sources.size() - named, cause.id);
        return list + ".";
    }

    /// The cautions that belong to steps and causes, right before the steps.
    void other_cautions() {
        bool first = true;
        for (const auto handle : advice_.cautions) {
            if (urgent(base_.cautions[handle])) continue;
            if (std::exchange(first, false)) page_.heading("FIRST READ THIS");
            caution(base_.cautions[handle]);
        }
    }

    void plan() {
        if (advice_.steps.empty()) {
            if (advice_.verdict != Verdict::emergency && !ranking_.contradictory && advice_.verdict != Verdict::nothing_wrong) {
                page_.heading("WHAT TO DO");
                page_.paragraph("  ", "Nothing yet: find out a little more first, as asked below.");
            }
            return;
        }
        page_.heading(advice_.verdict == Verdict::cannot_tell ? "WHAT DOES NO HARM MEANWHILE" : "WHAT TO DO");
        std::optional<When> when;
        int number = 0;
        for (std::size_t i = 0; i < advice_.steps.size(); ++i) {
            const PlannedStep& planned = advice_.steps[i];
            const Step& step = base_.steps[planned.step];
            if (when != step.when) {
                when = step.when;
                page_.paragraph("  ", step.when == When::now         ? "Now"
                                      : step.when == When::this_week ? "This week"
                                                                     : "From now on");
            }
            print_step(++number, planned, step);
            print_amounts(step, i < diagnosis_.amounts.size() ? diagnosis_.amounts[i] : StepAmounts{});
        }
        if (const std::string lack = what_amounts_lack(diagnosis_.amounts); !lack.empty()) page_.paragraph("  ", lack);
    }

    void print_step(int number, const PlannedStep& planned, const Step& step) {
        std::string lead = fmt::format("  {:>2}. ", number);
        for (const std::string& check : planned.check_first) {
            const bool again = std::ranges::find(checks_said_, check) != checks_said_.end();
            if (!again) checks_said_.push_back(check);
            page_.paragraph(std::exchange(lead, "      "), again ? "After the same check as above:" : "First check: " + check);
        }
        page_.paragraph(lead, step.say);
    }

    void print_amounts(const Step& step, const StepAmounts& measured) {
        for (const AmountLine& line : amount_lines(step, measured, options_.full ? all_choices : most_choices)) {
            page_.paragraph("      ", line.text);
            if (options_.full && line.measured && !line.measured->instead)
                for (const std::string& reason : line.measured->because) page_.paragraph("        - ", reason);
        }
    }

    void do_not() {
        if (advice_.do_not.empty() || advice_.verdict == Verdict::emergency) return;
        page_.heading("DO NOT");
        std::size_t shown = 0;
        for (const DoNot& item : advice_.do_not) {
            if (!options_.full && shown++ == most_do_nots) break;
            page_.paragraph("  - ", item.say + (item.because.empty() ? "" : " " + item.because));
        }
    }

    void left_out() {
        bool first = true;
        std::size_t not_sure = 0;
        std::size_t untold = 0;
        for (const LeftOutStep& out : advice_.left_out) {
            const bool minor = advice_.verdict == Verdict::emergency || out.why == LeftOutStep::Why::milder_feeding ||
                               out.why == LeftOutStep::Why::less_urgent ||
                               (out.why == LeftOutStep::Why::not_sure_enough &&
                                (base_.steps[out.step].when == When::from_now_on || not_sure++ >= most_not_sure));
            if (minor && !options_.full) {
                ++untold;
                continue;
            }
            if (std::exchange(first, false)) page_.heading("LEFT OUT ON PURPOSE");
            page_.paragraph("  - ", base_.steps[out.step].say + " - " + out.reason);
        }
        if (untold == 0) return;
        if (first) page_.heading("LEFT OUT ON PURPOSE");
        page_.paragraph("  - ",
                        fmt::format("{} more {} that can wait{}.", untold, untold == 1 ? "step" : "steps", shown_by(untold)));
    }

    /// How to see what is left out here.
    [[nodiscard]] std::string shown_by(std::size_t untold) const {
        return options_.in_full.empty() ? "" : "; " + options_.in_full + " shows " + (untold == 1 ? "it" : "them");
    }

    void look_again() {
        if (!advice_.look_again_days || advice_.verdict == Verdict::emergency) return;
        page_.heading("LOOK AGAIN " + days_in_words(*advice_.look_again_days));
        std::size_t shown = 0;
        for (const auto handle : advice_.acted_on) {
            const Cause& cause = base_.causes[handle];
            if (!cause.expect.empty() && shown++ < 2) page_.paragraph("  ", cause.expect);
        }
    }

    void questions() {
        const bool any = !advice_.find_out.empty() || !diagnosis_.ask_next.empty() || !diagnosis_.to_ask.empty();
        if (!any || !options_.questions || advice_.verdict == Verdict::emergency) return;
        page_.heading("WHAT WOULD TELL ME MORE");
        std::vector<Handle<Sign>> asked;
        for (const OpenQuestion& open : diagnosis_.to_ask) {
            if (std::ranges::find(asked, open.signs.front()) != asked.end()) continue;
            page_.paragraph("  ", "You said \"" + open.words + "\". That may mean several things, so first:");
            for (const Handle<Sign> sign : open.signs) ask(sign, asked);
        }
        for (const FindOut& item : advice_.find_out) ask(item.sign, asked);
        for (const Question& question : diagnosis_.ask_next) ask(question.sign, asked);
    }

    void ask(Handle<Sign> handle, std::vector<Handle<Sign>>& asked) {
        if (std::ranges::find(asked, handle) != asked.end()) return;
        asked.push_back(handle);
        const Sign& sign = base_.signs[handle];
        page_.paragraph("  - ", sign.ask + (sign.check.empty() ? "" : " " + sign.check));
        std::string answers;
        for (const Answer& answer : sign.answers) answers += (answers.empty() ? "" : ", ") + answer.id;
        page_.paragraph("    ", sign.id + "= " + answers);
    }

    const RuleBase& base_;
    const Diagnosis& diagnosis_;
    const Advice& advice_;
    const Ranking& ranking_;
    TextOptions options_;
    std::vector<std::string> checks_said_;
    Page page_;
};

}  // namespace

std::string in_a_hundred(double chance) {
    const double hundredths = std::round(100 * chance);
    if (hundredths < 1) return "under 1 in 100";
    if (hundredths > 99) return "over 99 in 100";
    return fmt::format("about {:.0f} in 100", hundredths);
}

std::string days_in_words(double days) {
    if (days == 1) return "tomorrow";
    if (days < 1) return fmt::format("in {:.0f} hours", std::round(24 * days));
    return fmt::format("in {:g} days", std::round(days));
}

std::string render_text(const RuleBase& rule_base, const Diagnosis& diagnosis, const TextOptions& options) {
    return TextPage(rule_base, diagnosis, options).make();
}

}  // namespace lidlift::cli
