#include "cli/handover_sheet.hpp"

#include "cli/amount_lines.hpp"
#include "cli/handover_standing.hpp"
#include "cli/level_heading.hpp"
#include "cli/local_rules.hpp"
#include "cli/page.hpp"
#include "cli/render_ask.hpp"
#include "cli/render_text.hpp"
#include "cli/shown_causes.hpp"
#include "engine/contains.hpp"
#include "engine/danger_told.hpp"
#include "engine/red_flags.hpp"
#include "engine/tank_diagnosis.hpp"
#include "engine/words.hpp"

#include <algorithm>
#include <iterator>

#include <fmt/format.h>

namespace lidlift::cli {
namespace {

/// Of materials that may take each other's place, as many are named for one amount.
constexpr std::size_t sheet_choices = 2;

/// A, B ... Z, AA, AB ...
std::string caution_mark(std::size_t position) {
    const std::string last(1, static_cast<char>('A' + position % 26));
    return position < 26 ? last : caution_mark(position / 26 - 1) + last;
}

/// At most `most` bytes, ending with a whole word where there is one.
std::string shortened(const std::string& text, std::size_t most) {
    if (text.size() <= most) return text;
    std::size_t end = text.find_last_of(' ', most);
    if (end == std::string::npos || end == 0)
        for (end = most; end > 0 && (static_cast<unsigned char>(text[end]) & 0xC0) == 0x80;) --end;
    return text.substr(0, end) + " ...";
}

std::string counted(std::size_t count, const char* one, const char* many) {
    return fmt::format("{} {}", count, count == 1 ? one : many);
}

class SheetMaker {
public:
    SheetMaker(const RuleBase& base, const CallSummary& call, const SheetRoom& room, const std::string& file)
        : base_(base), call_(call), diagnosis_(call.diagnosis), advice_(call.diagnosis.advice), room_(room), file_(file) {}

    Sheet make() {
        sheet_.title = "Handover of a call";
        sheet_.standing = standing_of(base_, call_);
        sheet_.notes = notes_on(base_, call_);
        dangers_not_known();
        cautions();
        in_short();
        said();
        tank();
        causes();
        steps();
        do_not();
        look_again();
        find_out();
        left_out();
        sheet_.closing = local_rules_first;
        return std::move(sheet_);
    }

private:
    [[nodiscard]] bool emergency() const { return advice_.verdict == Verdict::emergency; }
    [[nodiscard]] bool solved() const { return call_.stage == CallStage::closed && call_.helped == FollowUp::Helped::solved; }

    /// Keeps the first `most` of a list and remembers how many were left out.
    template <class T>
    void keep_first(std::vector<T>& list, std::size_t most, const char* one, const char* many) {
        if (list.size() <= most) return;
        out_.push_back(counted(list.size() - most, one, many));
        list.resize(most);
    }

    /// What could not be said of people's safety goes on to whoever takes the call over, on top.
    void dangers_not_known() {
        for (const auto sign : diagnosis_.told.not_known)
            if (asks_after_danger(base_, sign))
                sheet_.notes.insert(sheet_.notes.begin(),
                                    "Find this out before anything else is done: " + base_.signs[sign].ask);
    }

    void cautions() {
        for (const auto handle : advice_.cautions) {
            const Caution& caution = base_.cautions[handle];
            sheet_.cautions.push_back({caution_mark(sheet_.cautions.size()), caution.level, caution.name, caution.say});
        }
    }

    void in_short() {
        const auto raised = raised_causes(diagnosis_.ranking);
        if (emergency())
            sheet_.in_short = "People first. Nothing else matters until the danger above is over.";
        else if (diagnosis_.ranking.contradictory)
            sheet_.in_short =
                "The answers contradict one another: together they rule out everything that is listed. They should "
                "be gone through once more.";
        else if (diagnosis_.told.order.empty())
            sheet_.in_short = "Nothing was said yet that could be used.";
        else if (raised.empty() || raised.front()->chance < least_to_guess)
            sheet_.in_short = "It cannot be told yet: what was said points to no listed cause.";
        else if (advice_.verdict == Verdict::nothing_wrong)
            sheet_.in_short = "Nothing is wrong that needs mending: leave it alone.";
        else if (advice_.verdict == Verdict::cannot_tell)
            sheet_.in_short = "It cannot be told yet; the causes below are only the best guesses.";
        if (!emergency() && people_come_first(base_, diagnosis_.told, diagnosis_.ranking.conclusions))
            sheet_.in_short = std::string(see_to_people_first) + (sheet_.in_short.empty() ? "" : " ") + sheet_.in_short;
    }

    // ---- what was said

    void said() {
        std::size_t cut = 0;
        for (const OwnWords& own : call_.own_words) {
            const std::string words = shortened(own.words, room_.words);
            cut += words != own.words;
            const bool later = own.news || own.when.day != call_.begun.day;
            sheet_.own_words.push_back((later ? "On " + to_text(own.when.day) + ": " : std::string{}) + "\"" + words + "\"");
        }
        if (cut > 0) out_.emplace_back("a part of the caller's own words");
        std::string not_known;
        std::vector<Handle<Sign>> answered;
        for (const auto handle : diagnosis_.told.order) {
            const Observation* seen = diagnosis_.told.facts.find(handle);
            if (!seen)
                not_known += (not_known.empty() ? "" : "; ") + base_.signs[handle].name;
            else if (as_recorded(*seen).empty())
                answered.push_back(handle);
        }
        const std::size_t all = answered.size();
        keep_telling(answered, room_.answers);
        if (answered.size() < all) out_.push_back(counted(all - answered.size(), "answer", "answers"));
        for (const auto handle : answered)
            sheet_.answers.push_back(base_.signs[handle].name + ": " +
                                     in_words(base_.signs[handle], *diagnosis_.told.facts.find(handle)));
        if (!not_known.empty()) sheet_.answers.push_back("asked, but not known: " + not_known);
    }

    /// At most so many answers: before the others those that the likeliest cause is weighed by.
    void keep_telling(std::vector<Handle<Sign>>& answered, std::size_t most) const {
        const auto raised = raised_causes(diagnosis_.ranking);
        std::vector<Handle<Sign>> by_weight;
        if (!raised.empty())
            for (const BalanceLine& line : raised.front()->balance)
                if (line.sign && contains(answered, *line.sign) && !contains(by_weight, *line.sign))
                    by_weight.push_back(*line.sign);
        for (const auto sign : answered)
            if (!contains(by_weight, sign)) by_weight.push_back(sign);
        if (by_weight.size() > most) by_weight.resize(most);
        std::erase_if(answered, [&](Handle<Sign> sign) { return !contains(by_weight, sign); });
    }

    void tank() {
        if (!diagnosis_.tank) return;
        const TankSeen& tank = *diagnosis_.tank;
        sheet_.tank_heading =
            tank.record.name + ", bay " + tank.record.bays[tank.bay].name + ", by its record on " + to_text(tank.state.today);
        std::vector<std::string> lines = in_words(tank);
        keep_first(lines, room_.tank_lines, "line of the tank's record", "lines of the tank's record");
        sheet_.tank.push_back("This bay because " + tank.because + ".");
        std::ranges::move(lines, std::back_inserter(sheet_.tank));
        // What the caller says otherwise than the record is never cut: whoever goes there must know.
        for (const std::string& line : tank.overruled) sheet_.tank.push_back(line + ".");
    }

    // ---- what it probably is

    void causes() {
        // While people are in danger nothing is diagnosed.
        if (emergency() || diagnosis_.ranking.contradictory || diagnosis_.told.order.empty()) return;
        sheet_.causes_heading = call_.confirmed ? "What the answers speak for, and why" : "What it probably is, and why";
        std::size_t likely_others = 0;
        std::size_t balances_cut = 0;
        for (const RankedCause* ranked : raised_causes(diagnosis_.ranking)) {
            const bool best_guess = sheet_.causes.empty() && sheet_.other_causes.empty() && ranked->chance >= least_to_guess;
            const bool in_full_if_room = best_guess || ranked->chance >= least_chance_to_act;
            if (in_full_if_room && sheet_.causes.size() < room_.causes) {
                sheet_.causes.push_back(in_full(*ranked));
                continue;
            }
            balances_cut += in_full_if_room;
            if (ranked->chance > 0.05 || (ranked->follows_from && ranked->there >= likely_root)) {
                sheet_.other_causes.push_back(in_a_line(*ranked));
                if (ranked->there >= least_chance_to_act) likely_others = sheet_.other_causes.size();
            }
        }
        keep_first(sheet_.other_causes, std::max(room_.other_causes, likely_others), "less likely cause", "less likely causes");
        if (balances_cut > 0) out_.push_back("why in " + counted(balances_cut, "more cause", "more causes"));
        sheet_.nothing_listed =
            "Something not on the list, or nothing wrong: " + in_a_hundred(diagnosis_.ranking.nothing_listed) + ".";
    }

    [[nodiscard]] std::string in_a_line(const RankedCause& ranked) const {
        const bool consequence = ranked.follows_from && ranked.there >= likely_root;
        return base_.causes[ranked.cause].name + " - " +
               (consequence ? "probably there, as a consequence" : likelihood_words(ranked.chance));
    }

    [[nodiscard]] SheetCause in_full(const RankedCause& ranked) {
        const Cause& cause = base_.causes[ranked.cause];
        SheetCause result;
        result.name = cause.name;
        result.chance = likelihood_words(ranked.chance) + ", " + in_a_hundred(ranked.chance);
        if (ranked.follows_from)
            result.remarks.push_back("Probably a consequence of: " + base_.causes[*ranked.follows_from].name +
                                     ". Mend that first.");
        if (room_.reasons)
            result.remarks.push_back(cause.because);
        else
            reasons_cut_ = true;
        result.remarks.push_back(fmt::format("Known: {} of the {} things that matter for it.", ranked.answered, ranked.of));
        result.balance = room_.balance_lines == all_of_it ? whole_balance(ranked.balance)
                                                          : condensed_balance(ranked.balance, room_.balance_lines);
        result.together = sum_of(result.balance);
        return result;
    }

    // ---- what to do

    void steps() {
        sheet_.steps_heading = solved()                                  ? "What to do if it comes back"
                               : advice_.verdict == Verdict::cannot_tell ? "What does no harm meanwhile"
                                                                         : "What to do";
        if (advice_.steps.empty() && !emergency())
            sheet_.steps_remark =
                advice_.verdict == Verdict::nothing_wrong ? "Nothing." : "Nothing yet: first find out a little more.";
        if (!advice_.steps.empty()) sheet_.steps_remark = what_amounts_lack(diagnosis_.amounts);
        static constexpr std::array<const char*, 3> headings = {"Now", "This week", "From now on"};
        static constexpr std::array<const char*, 3> where = {" for now", " for this week", " from now on"};
        for (std::size_t when = 0; when < headings.size(); ++when) {
            std::vector<std::size_t> positions;
            for (std::size_t i = 0; i < advice_.steps.size(); ++i)
                if (base_.steps[advice_.steps[i].step].when == static_cast<When>(when)) positions.push_back(i);
            const std::size_t all = positions.size();
            keep_most_needed(positions, room_.steps[when]);
            if (positions.size() < all) out_.push_back(counted(all - positions.size(), "step", "steps") + where[when]);
            SheetSteps group{headings[when], {}};
            for (const std::size_t position : positions) group.steps.push_back(step(position));
            if (!group.steps.empty()) sheet_.steps.push_back(std::move(group));
        }
    }

    /// Steps for people's safety are always kept.
    void keep_most_needed(std::vector<std::size_t>& positions, std::size_t most) const {
        const auto for_people = [&](std::size_t i) { return base_.steps[advice_.steps[i].step].kind == StepKind::people; };
        std::vector<std::size_t> by_need = positions;
        std::ranges::stable_sort(by_need, std::greater{},
                                 [&](std::size_t i) { return for_people(i) ? 2 : advice_.steps[i].needed; });
        std::size_t kept = 0;
        std::erase_if(by_need, [&](std::size_t i) { return !for_people(i) && kept++ >= most; });
        std::erase_if(positions, [&](std::size_t i) { return !contains(by_need, i); });
    }

    [[nodiscard]] SheetStep step(std::size_t position) const {
        const PlannedStep& planned = advice_.steps[position];
        const Step& step = base_.steps[planned.step];
        SheetStep result;
        result.checks = planned.check_first;
        result.say = step.say;
        const StepAmounts measured = position < diagnosis_.amounts.size() ? diagnosis_.amounts[position] : StepAmounts{};
        for (const AmountLine& line : amount_lines(step, measured, sheet_choices)) result.amounts.push_back(line.text);
        for (std::size_t i = 0; i < advice_.cautions.size(); ++i)
            if (contains(step.cautions, advice_.cautions[i])) result.mind.push_back(caution_mark(i));
        return result;
    }

    void do_not() {
        if (emergency()) return;
        for (const DoNot& item : advice_.do_not) {
            const bool reason = room_.reasons && !item.because.empty();
            reasons_cut_ = reasons_cut_ || (!room_.reasons && !item.because.empty());
            sheet_.do_not.push_back(reason ? item.say + " " + item.because : item.say);
        }
        keep_first(sheet_.do_not, room_.do_nots, "thing not to do", "things not to do");
    }

    // ---- and then

    void look_again() {
        if (solved()) {
            sheet_.look_again_heading = "If it comes back";
            sheet_.look_again.emplace_back("Take this call up again: " + how_to_go_on(file_, true));
            return;
        }
        if (call_.look_again && !emergency()) {
            const bool hours = *advice_.look_again_days < 1;
            sheet_.look_again_heading = "Look again on " + to_text(call_.look_again->day) +
                                        (hours ? ", about " + to_text(*call_.look_again).substr(11, 5) : std::string{});
            for (const auto handle : advice_.acted_on)
                if (const std::string& expect = base_.causes[handle].expect; !expect.empty())
                    sheet_.look_again.push_back(expect);
            keep_first(sheet_.look_again, room_.expectations, "thing to expect by then", "things to expect by then");
        } else {
            sheet_.look_again_heading = "Call again";
        }
        sheet_.look_again.emplace_back(
            "At once if it gets worse. If somebody feels unwell, or there is smoke: get help first, then call.");
    }

    void find_out() {
        if (emergency() || solved()) return;
        std::vector<Handle<Sign>> signs;
        const auto add = [&](Handle<Sign> sign) {
            if (!contains(signs, sign)) signs.push_back(sign);
        };
        for (const OpenQuestion& open : diagnosis_.to_ask)
            for (const auto sign : open.signs) add(sign);
        for (const FindOut& item : advice_.find_out) add(item.sign);
        for (const Question& question : diagnosis_.ask_next) add(question.sign);
        keep_first(signs, room_.questions, "question", "questions");
        bool checks_cut = false;
        for (const auto handle : signs) {
            const Sign& sign = base_.signs[handle];
            checks_cut = checks_cut || (!room_.how_to_check && !sign.check.empty());
            sheet_.find_out.push_back({sign.ask, room_.how_to_check ? sign.check : std::string{}});
        }
        if (checks_cut) out_.emplace_back("how to check by hand");
    }

    void left_out() {
        if (reasons_cut_) out_.emplace_back("the reasons");
        if (out_.empty()) return;
        sheet_.left_out = "Left out for want of room: " + joined(out_) + ". They stand in: " + how_to_hand_over(file_, true);
    }

    const RuleBase& base_;
    const CallSummary& call_;
    const Diagnosis& diagnosis_;
    const Advice& advice_;
    SheetRoom room_;
    std::string file_;
    std::vector<std::string> out_;  ///< what was left out, in words
    bool reasons_cut_ = false;
    Sheet sheet_;
};

}  // namespace

Sheet sheet_of(const RuleBase& rule_base, const CallSummary& call, const SheetRoom& room, const std::string& file) {
    return SheetMaker(rule_base, call, room, file).make();
}

}  // namespace lidlift::cli
