#include "engine/due_work.hpp"

#include "engine/ration.hpp"
#include "engine/routines.hpp"
#include "engine/tank/bay_history.hpp"
#include "engine/tank/figures_in_words.hpp"
#include "engine/tank/ranges.hpp"

#include <algorithm>
#include <array>
#include <initializer_list>
#include <string_view>
#include <utility>

namespace lidlift {
namespace {

using std::chrono::days;
using tank::BayHistory;
using tank::days_in_words;
using tank::in_words;
using namespace routine;

class Bay {
public:
    Bay(const TankRecord& record, const TankState& state, const RuleBase& rule_base, std::size_t bay,
        const Diagnosis* diagnosis)
        : record_(record),
          state_(state),
          base_(rule_base),
          bay_(bay),
          diagnosis_(diagnosis),
          advice_(diagnosis ? &diagnosis->advice : nullptr),
          now_(state.bays[bay]),
          today_(state.today),
          history_(tank::history_of(record, rule_base, bay, state.today)) {}

    [[nodiscard]] std::vector<DueWork> all() {
        switch (now_.stage) {
            case BayStage::empty:
                empty();
                break;
            case BayStage::filling:
                filling();
                break;
            case BayStage::resting:
            case BayStage::cooling:
                resting();
                break;
            case BayStage::ready_for_worms:
                ready();
                break;
            case BayStage::worm_bed:
                worm_bed();
                break;
            case BayStage::migrating:
            case BayStage::harvest_due:
                handed_over();
                break;
        }
        sump();
        look_again();
        std::ranges::stable_sort(due_, [](const DueWork& a, const DueWork& b) {
            return std::pair(a.pressing, a.until) < std::pair(b.pressing, b.until);
        });
        return std::move(due_);
    }

private:
    // ---- adding
    struct Item {
        std::string say;
        std::string because;
        std::string_view step = {};
        std::vector<std::string> sources = {"common_practice"};
        bool work = true;
    };

    /// Work of one day: due from its first day on.
    void add_routine(Item item, Day from, Day until) {
        if (from > today_ + days(days_ahead)) return;
        add(std::move(item),
            until < today_   ? Pressing::overdue
            : from <= today_ ? Pressing::today
                             : Pressing::this_week,
            from, until);
    }
    /// Work with weeks of time: it is for today only when its time runs out.
    void add_job(Item item, Day from, Day until) {
        if (from > today_ + days(days_ahead)) return;
        add(std::move(item),
            until < today_              ? Pressing::overdue
            : until <= today_ + days(1) ? Pressing::today
                                        : Pressing::this_week,
            from, until);
    }
    void add(Item item, Pressing pressing, Day from, Day until) {
        DueWork due;
        due.pressing = pressing;
        due.bay = bay_;
        due.say = std::move(item.say);
        due.because = std::move(item.because);
        due.from = from;
        due.until = until;
        due.work = item.work;
        due.sources = std::move(item.sources);
        if (!item.step.empty()) due.step = base_.steps.find(item.step);
        if (due.step) {
            if (!is_allowed(*due.step, due.check_first)) return;
            due.sources.clear();
            for (const auto source : base_.steps[*due.step].sources) due.sources.push_back(base_.sources[source].id);
            due.cautions = base_.steps[*due.step].cautions;
        }
        for (std::uint32_t i = 0; i < base_.cautions.size(); ++i)
            if (calls_for({i}, lower(due.say)) && std::ranges::find(due.cautions, Handle<Caution>{i}) == due.cautions.end())
                due.cautions.push_back({i});
        due_.push_back(std::move(due));
    }

    /// May the step be taken, by its own conditions and the advice on this bay? What to make sure of goes to `check_first`.
    [[nodiscard]] bool is_allowed(Handle<Step> handle, std::string& check_first) const {
        const Step& step = base_.steps[handle];
        if (advice_)
            for (const LeftOutStep& out : advice_->left_out)
                if (out.step == handle && (out.why == LeftOutStep::Why::never_when || out.why == LeftOutStep::Why::clash ||
                                           out.why == LeftOutStep::Why::opposite))
                    return false;
        if (!step.never_when) return true;
        const Truth never = diagnosis_
                                ? evaluate(*step.never_when, diagnosis_->told.facts, diagnosis_->ranking.conclusions.truth)
                                : Truth::unknown;
        if (never == Truth::unknown) check_first = step.check_first;
        return never != Truth::yes;
    }

    [[nodiscard]] bool calls_for(Handle<Caution> caution, const std::string& lower_words) const {
        return std::ranges::any_of(base_.cautions[caution].called_for_by.words,
                                   [&](const std::string& words) { return word_begins(lower_words, words); });
    }

    // ---- what the record tells
    [[nodiscard]] std::optional<Day> last(const Routine& routine) const {
        std::optional<Day> on;
        for (const tank::Work& work : history_.work)
            if (is(*work.did, routine, base_)) on = work.on;
        return on;
    }
    [[nodiscard]] const tank::Seen* last_seen(std::string_view id) const {
        const auto sign = base_.signs.find(id);
        const tank::Seen* found = nullptr;
        for (const tank::Seen& seen : history_.seen)
            if (sign && seen.sign == *sign) found = &seen;
        return found;
    }
    /// May `answer` still be what was seen last, at most `oldest` days ago?
    [[nodiscard]] bool saw(std::string_view id, std::string_view answer, int oldest) const {
        const tank::Seen* seen = last_seen(id);
        if (!seen || days_between(seen->on, today_) > oldest) return false;
        const Sign& sign = base_.signs[seen->sign];
        const auto position = sign.find_answer(answer);
        return position && seen->observation->possible == answer_set(*position);
    }
    [[nodiscard]] std::string name(std::size_t bay) const {
        return record_.bays.size() == 1 ? "bed" : record_.bays[bay].name + " bay";
    }
    [[nodiscard]] Day filled_on() const { return today_ - days(now_.days_since_filling.value_or(0)); }
    [[nodiscard]] Day worms_on() const { return today_ - days(now_.days_since_worms.value_or(0)); }

    /// Another bay of the tank at one of these stages; the worms reach it through the wall.
    [[nodiscard]] std::optional<std::size_t> other(std::initializer_list<BayStage> stages) const {
        for (std::size_t i = 0; i < state_.bays.size(); ++i)
            if (i != bay_ && std::ranges::find(stages, state_.bays[i].stage) != stages.end()) return i;
        return std::nullopt;
    }

    // ---- stages
    /// An empty bay is begun while the bay beside it is a worm bed, so that it is ripe when that one is eaten up.
    void empty() {
        const auto bed = other({BayStage::worm_bed});
        if (!bed || other({BayStage::filling, BayStage::resting, BayStage::cooling, BayStage::ready_for_worms})) return;
        const Day worms = today_ - days(state_.bays[*bed].days_since_worms.value_or(0));
        const Day from = history_.emptied ? std::max(*history_.emptied, worms) : worms;
        add_job({"fill it with waste and dry brown stuff, well mixed, to above the openings",
                 "it rests 30 to 45 days, and the worms of the " + name(*bed) + " have been there for " +
                     days_in_words(days_between(worms, today_)),
                 "fill_next_bay"},
                from, std::max(from, worms + days(usual_most_as_bed - least_rest)));
    }

    void filling() {
        const Day first = history_.loads.empty() ? today_ : history_.loads.front().on;
        const bool full = now_.free_litres && history_.capacity() > 0 && *now_.free_litres < little_room * history_.capacity();
        add_job({full ? "finish the filling; there is hardly any room left" : "finish the filling, and then let it rest",
                 "the first load went in on " + to_text(first) + ", and a bay that gets fresh waste all the time never ripens",
                 full ? "" : "one_bay_at_a_time"},
                full ? today_ : first + days(longest_filling), first + days(latest_filling));
        probe(first);
    }

    void probe(Day begun) {
        const tank::Seen* read = last_seen("bed_temperature");
        const Day since = read ? read->on : begun;
        const bool hot = !now_.temperature || now_.temperature->value.high >= still_hot;
        const Rhythm& rhythm = hot ? probing_hot : probing_cooling;
        add_routine({"take its temperature in the middle",
                     read ? "last read on " + to_text(since) + ": " + in_words_of(*read) : "never read since it was begun",
                     "probe_heap_core"},
                    since + days(rhythm.from), since + days(rhythm.until));
    }
    [[nodiscard]] std::string in_words_of(const tank::Seen& seen) const {
        return lidlift::in_words(base_.signs[seen.sign], *seen.observation);
    }

    void resting() {
        const auto last_turn = last(turned());
        const Day since = last_turn ? std::max(*last_turn, filled_on()) : filled_on();
        const bool too_hot = now_.temperature && now_.temperature->value.high > calls_for_turning;
        const bool cool = now_.temperature && now_.temperature->value.high <= cool_enough;
        const std::string turned_when = last_turn && *last_turn >= filled_on()
                                            ? "last turned on " + to_text(*last_turn)
                                            : "filled on " + to_text(filled_on()) + " and not turned since";
        if (too_hot)
            add_routine(
                {"turn it, and wet what is dry as you lay it back",
                 "the middle read " + in_words(now_.temperature->value, "°C") + "; above 65 °C the helpful microbes die",
                 "keep_heap_in_band"},
                today_, today_);
        else if (!cool)
            add_routine({"turn it, the outside to the middle" + std::string(is_dry() ? ", and wet it as you go" : ""),
                         turned_when, is_dry() ? "wet_heap_in_lifts" : "turn_when_it_cools"},
                        since + days(turning.from), since + days(turning.until));
        probe(filled_on());
        if (now_.worms_from)
            add_job({"worms may go in from " + to_text(*now_.worms_from) + ", when it stays at 30 °C or less and smells mild",
                     "30 days after the last load, which was on " + to_text(filled_on()),
                     "",
                     {"common_practice"},
                     false},
                    *now_.worms_from, std::max(*now_.worms_from, filled_on() + days(usual_most_rest)));
    }
    [[nodiscard]] bool is_dry() const {
        return saw("squeeze", "dry_crumbles", looking.until) || (now_.moisture && now_.moisture->value.high < dry_heap);
    }

    void ready() {
        // Without a reading nobody knows that it is cool; unknown is never no.
        const bool read_cool = now_.temperature.has_value();
        const std::string once_cool =
            read_cool ? "" : "once its middle reads " + in_words(Estimate::exactly(cool_enough), "°C") + " or less, ";
        const std::string rested = "it has rested " + days_in_words(days_between(filled_on(), today_)) +
                                   (read_cool ? " and is cool" : ", and how warm it is now nobody has read");
        const Day from = now_.worms_from.value_or(today_);
        const Day until = std::max(from, filled_on() + days(usual_most_rest));
        if (const auto leaving = other({BayStage::migrating})) {
            add_routine({"feed here from now on, a strip of soft scraps along the wall, under a damp cover",
                         "the " + name(*leaving) + " gets nothing more, and the worms go where the food is", "bait_next_bay"},
                        today_, today_ + days(days_ahead));
        } else if (const auto bed = other({BayStage::worm_bed})) {
            if (state_.bays[*bed].days_since_worms.value_or(0) >= least_as_bed)
                add_job({once_cool + "let the worms of the " + name(*bed) +
                             " over: a strip of soft scraps along the wall, and no more feed there",
                         rested, "bait_next_bay"},
                        from, until);
        } else {
            add_job({once_cool + "put worms in" + enough_worms(), rested, "restock_after_pot_test"}, from, until);
        }
        const tank::Seen* read = last_seen("bed_temperature");
        if (!read || days_between(read->on, today_) >= probing_cooling.from) probe(filled_on());
    }
    /// Ndegwa 2000 (read) to 1 lb/ft2 (Sherman, read in a copy).
    [[nodiscard]] std::string enough_worms() const {
        if (history_.area <= 0) return {};
        return ", " + in_words({1.6 * history_.area, 2.5 * history_.area, 4.9 * history_.area}, "kg") + " for this floor";
    }

    void worm_bed() {
        if (!advised_feed() && !held_back()) feed();
        look_over();
        hand_over();
    }

    /// The advice has one feeding instruction at most; it stands in place of the ration.
    [[nodiscard]] bool advised_feed() {
        if (!advice_) return false;
        for (const PlannedStep& planned : advice_->steps) {
            const Step& step = base_.steps[planned.step];
            if (step.kind != StepKind::feed || step.when != When::now) continue;
            Item item{step.say, "because of what is probably wrong there", step.id};
            item.work = false;
            add(std::move(item), Pressing::today, today_, today_);
            return true;
        }
        return false;
    }

    [[nodiscard]] bool held_back() {
        std::string because;
        if (now_.temperature && now_.temperature->value.high >= too_warm_to_feed)
            because = "the bed read " + in_words(now_.temperature->value, "°C");
        else if (saw("uneaten_layer", "two_to_5cm", looking.until) || saw("uneaten_layer", "over_5cm", looking.until))
            because = in_words_of(*last_seen("uneaten_layer")) + ", seen on " + to_text(last_seen("uneaten_layer")->on);
        if (because.empty()) return false;
        add({"no feed until less than 2 cm of the last is left and the bed is cool",
             because,
             "",
             {"ncstate_mites", "common_practice"},
             false},
            Pressing::today, today_, today_);
        return true;
    }

    void feed() {
        const auto allowed =
            ration(Estimate::exactly(history_.area), now_.worms ? std::optional<Estimate>(now_.worms->value) : std::nullopt);
        const bool fed_before = now_.days_since_feed && *now_.days_since_feed <= now_.days_since_worms.value_or(0);
        const Day since = fed_before ? today_ - days(*now_.days_since_feed) : worms_on() + days(first_feed - feeding.from);
        const Day from = since + days(feeding.from);
        const int saved = std::clamp(days_between(since, std::max(from, today_)), 1, longest_saving);
        std::string say = "feed it, if less than 2 cm of the last is left";
        std::string because = fed_before ? "last fed on " + to_text(since) : "the worms went in on " + to_text(worms_on());
        if (allowed) {
            const Estimate amount = tank::times(allowed->per_day, saved);
            // A lower end near nothing tells only that the worms are not well known.
            const std::string least = amount.low > 0.1 * amount.high ? tank::rounded(amount.low) + " kg, " : "";
            say = "feed it " + least + "at most " + tank::rounded(amount.high) + " kg, if less than 2 cm of the last is left";
            because += allowed->by_worms ? "; its worms eat " : "; its floor takes ";
            because += in_words(allowed->per_day, "kg") + " a day";
        }
        add_routine({std::move(say),
                     std::move(because),
                     "",
                     {"Ndegwa, Thompson and Das 2000 (read)", "ncstate_garbage", "asotin_worms"}},
                    from, since + days(feeding.until));
    }

    /// One look for all that has not been looked at for a week.
    void look_over() {
        struct Look {
            std::string_view sign;
            const char* say;
        };
        static constexpr std::array<Look, 3> looks = {{{"uneaten_layer", "see how deep the feed lies"},
                                                       {"squeeze", "squeeze a handful"},
                                                       {"bed_temperature", "take its temperature"}}};
        std::string say;
        Day since = today_;
        bool never = false;
        for (const Look& look : looks) {
            if (!base_.signs.find(look.sign)) continue;
            const tank::Seen* seen = last_seen(look.sign);
            const bool of_this_bed = seen && seen->on >= worms_on();
            const Day on = of_this_bed ? seen->on : worms_on();
            if (days_between(on, today_) < looking.from) continue;
            say += (say.empty() ? "" : ", ") + std::string(look.say);
            never = never || !of_this_bed;
            since = std::min(since, on);
        }
        if (say.empty()) return;
        add_routine({std::move(say),
                     (never ? "not written down since the worms went in on " : "last written down on ") + to_text(since)},
                    since + days(looking.from), since + days(looking.until));
    }

    void hand_over() {
        const Day from = worms_on() + days(least_as_bed);
        const Day until = worms_on() + days(usual_most_as_bed);
        if (const auto next = other({BayStage::ready_for_worms})) {
            add_job({"hand over to the " + name(*next) + ": nothing more in here, and feed only beyond the wall",
                     "the worms went in on " + to_text(worms_on()) + ", and the " + name(*next) + " is ready",
                     "old_bay_goes_hungry"},
                    from, until);
        } else if (const auto ripening = other({BayStage::filling, BayStage::resting, BayStage::cooling});
                   ripening && today_ > until && state_.bays[*ripening].worms_from) {
            add_job({"go on with it until the " + name(*ripening) + " is ready, not before " +
                         to_text(*state_.bays[*ripening].worms_from),
                     "the worms have been here for " + days_in_words(*now_.days_since_worms) + ", but have nowhere to go yet",
                     "keep_old_bay_living",
                     {},
                     false},
                    today_, today_ + days(days_ahead));
        }
    }

    void handed_over() {
        if (now_.stage == BayStage::migrating) {
            const Day hungry = last(left_hungry()).value_or(today_ - days(now_.days_since_feed.value_or(0)));
            const tank::Seen* seen = last_seen("worms_crossing");
            const bool looked = seen && seen->on >= hungry;
            const Day since = looked ? seen->on : hungry;
            add_routine({"look beyond the wall whether the worms cross",
                         looked ? "last looked on " + to_text(since) : "it has had nothing since " + to_text(hungry),
                         "",
                         {"euless_migration", "common_practice"}},
                        since + days(crossing.from), since + days(crossing.until));
        }
        if (!now_.harvest_from) return;
        const Day until = now_.harvest_until.value_or(*now_.harvest_from + days(window_of_harvest));
        add_job({"harvest it, barrow by barrow, when it is empty of worms, in time until " + to_text(until),
                 now_.stage_because,
                 "",
                 {"agropedia_ready", "common_practice"}},
                *now_.harvest_from, until);
    }

    // ---- at any stage
    /// Told only where there is something to empty: somebody did it before, or liquid was seen to come.
    void sump() {
        const auto emptied = last(sump_emptied());
        const tank::Seen* flow = last_seen("leachate_flow");
        const bool comes = saw("leachate_flow", "steady", looking.until) || saw("leachate_flow", "sudden_surge", looking.until);
        if (!comes && !emptied) return;
        const Day since = emptied ? *emptied : flow->on - days(emptying.from);
        add_routine({"empty the sump or tray from outside",
                     emptied ? "last done on " + to_text(*emptied) : in_words_of(*flow) + ", seen on " + to_text(flow->on),
                     "empty_the_sump"},
                    since + days(emptying.from), since + days(emptying.until));
    }

    /// Days after which the causes that ask for a step are looked at again: of those acted on now, otherwise the soonest.
    [[nodiscard]] std::optional<int> again_after(Handle<Step> step) const {
        std::optional<double> soonest;
        bool of_acted_on = false;
        for (std::uint32_t i = 0; i < base_.causes.size(); ++i) {
            const Cause& cause = base_.causes[Handle<Cause>{i}];
            if (cause.benign || cause.look_again_days.empty() || std::ranges::find(cause.steps, step) == cause.steps.end())
                continue;
            const bool acted_on = advice_ && std::ranges::find(advice_->acted_on, Handle<Cause>{i}) != advice_->acted_on.end();
            if (of_acted_on && !acted_on) continue;
            if (acted_on && !of_acted_on) soonest.reset();
            of_acted_on = of_acted_on || acted_on;
            soonest = std::min(soonest.value_or(cause.look_again_days.front()), cause.look_again_days.front());
        }
        if (!soonest) return std::nullopt;
        return std::max(1, static_cast<int>(*soonest));
    }

    /// Of the remedies done lately, the one whose look fell due first and that nobody has taken.
    void look_again() {
        std::optional<DueWork> first;
        for (const tank::Work& work : history_.work) {
            if (!work.did->step || days_between(work.on, today_) > remembers_work) continue;
            const Step& step = base_.steps[*work.did->step];
            if (is(*work.did, turned(), base_) || is(*work.did, left_hungry(), base_) || is(*work.did, sump_emptied(), base_))
                continue;
            if (step.kind == StepKind::care || step.kind == StepKind::watch || step.when == When::from_now_on) continue;
            const auto after = again_after(*work.did->step);
            if (!after) continue;
            const Day from = work.on + days(*after);
            const bool looked = std::ranges::any_of(history_.seen, [&](const tank::Seen& seen) { return seen.on >= from; });
            if (looked || (first && first->from <= from)) continue;
            first.emplace();
            first->from = from;
            first->because = "on " + to_text(work.on) + " you did: " + step.say;
        }
        if (first)
            add_routine({"look again whether it helped, and write down what you see", first->because}, first->from,
                        first->from + days(2));
    }

    const TankRecord& record_;
    const TankState& state_;
    const RuleBase& base_;
    std::size_t bay_;
    const Diagnosis* diagnosis_;
    const Advice* advice_;
    const BayState& now_;
    Day today_;
    BayHistory history_;
    std::vector<DueWork> due_;
};

}  // namespace

std::vector<DueWork> due_work(const TankRecord& record, const TankState& state, const RuleBase& rule_base,
                              std::span<const Diagnosis* const> diagnoses) {
    std::vector<DueWork> all;
    const bool emergency = std::ranges::any_of(
        diagnoses, [](const Diagnosis* each) { return each && each->advice.verdict == Verdict::emergency; });
    if (emergency) return all;
    for (std::size_t i = 0; i < state.bays.size(); ++i)
        for (DueWork& due : Bay(record, state, rule_base, i, i < diagnoses.size() ? diagnoses[i] : nullptr).all())
            all.push_back(std::move(due));
    std::ranges::stable_sort(all, {}, &DueWork::pressing);
    return all;
}

}  // namespace lidlift
