#include "engine/tank_diagnosis.hpp"

#include "engine/tank/contents.hpp"
#include "engine/tank/figures_in_words.hpp"
#include "engine/tank/ranges.hpp"

#include <algorithm>
#include <cmath>
#include <utility>

namespace lidlift {
namespace {

using tank::in_words;

/// "about 270 kg (160 to 820)"; the range alone where it is no wider than its digits.
std::string about(const Estimate& value, std::string_view unit) {
    const std::string typical = tank::rounded(value.typical) + " " + std::string(unit);
    return value.is_exact() || in_words(value, unit) == typical ? in_words(value, unit)
                                                                : "about " + typical + " (" + in_words(value, "") + ")";
}

/// Less than this share of gas, in %, is told as less than this.
constexpr double hardly_any_gas = 0.1;

/// "falling by half a degree a day" is more than a probe tells; below that it is steady.
constexpr double least_trend = 0.5;  // K a day

class BayInWords {
public:
    explicit BayInWords(const TankSeen& tank) : tank_(tank), bay_(tank.state.bays[tank.bay]) {}

    std::vector<std::string> all() {
        say(capitalised(stage_word(bay_.stage)) + ": " + bay_.stage_because + ".");
        contents();
        worms();
        feed();
        heat();
        dates();
        ahead();
        return std::move(lines_);
    }

private:
    void say(std::string line) { lines_.push_back(std::move(line)); }

    [[nodiscard]] static std::string capitalised(std::string text) {
        if (!text.empty() && text[0] >= 'a' && text[0] <= 'z') text[0] = static_cast<char>(text[0] - 'a' + 'A');
        return text;
    }

    void contents() {
        if (bay_.kg) {
            std::string line = "In it: " + about(bay_.kg->value, "kg");
            if (bay_.depth) line += ", " + in_words(tank::times(bay_.depth->value, 100), "cm") + " deep";
            say(line + "; " + bay_.kg->how + ".");
        }
        if (bay_.as_filled && !bay_.days_since_worms) {
            std::string line = "As it went in: " + about(bay_.as_filled->moisture, "% water");
            if (bay_.as_filled->carbon_to_nitrogen)
                line += ", carbon to nitrogen " + about(*bay_.as_filled->carbon_to_nitrogen, "to 1");
            say(line + ".");
        }
        if (bay_.moisture && bay_.moisture->how != tank::guessed_moisture)
            say("Water now: " + in_words(bay_.moisture->value, "%") + ", " + bay_.moisture->how + ".");
    }

    void worms() {
        if (bay_.worms) say("Worms: " + in_words(bay_.worms->value, "kg") + "; " + bay_.worms->how + ".");
    }

    void feed() {
        // What went in before the worms came was the filling, and a few days are no ration.
        if (!bay_.fed || !bay_.days_since_worms || *bay_.days_since_worms < 7) return;
        std::string line = "Fed: " + bay_.fed->how;
        if (bay_.feed_per_area) line += "; " + in_words(bay_.feed_per_area->value, "kg") + " a day on a square metre";
        if (bay_.feed_per_worms) line += ", " + in_words(bay_.feed_per_worms->value, "kg") + " to a kilogram of worms";
        if (bay_.feed && bay_.feed->carbon_to_nitrogen)
            line += "; with what was mixed in, carbon to nitrogen " + about(*bay_.feed->carbon_to_nitrogen, "to 1");
        say(line + ".");
    }

    void heat() {
        if (bay_.temperature) {
            std::string line = "Warmth: " + in_words(bay_.temperature->value, "°C") + ", " + bay_.temperature->how;
            if (const auto& trend = bay_.temperature_trend) {
                if (std::abs(*trend) < least_trend)
                    line += ", steady";
                else
                    line +=
                        (*trend > 0 ? ", rising by " : ", falling by ") + tank::rounded(std::abs(*trend)) + " degrees a day";
            }
            say(line + ".");
        }
        if (!bay_.hot_because.empty() && !bay_.days_since_worms) say("Heat so far: " + bay_.hot_because + ".");
        if (bay_.ammonia_share) {
            const Estimate& share = bay_.ammonia_share->value;
            say("Of its ammonia " +
                (share.high < hardly_any_gas ? "less than " + tank::rounded(hardly_any_gas) + " %"
                 : share.is_exact()          ? "about " + tank::rounded(share.typical) + " %"
                                             : in_words(share, "%")) +
                " would be gas: " + bay_.ammonia_share->how + ".");
        }
    }

    void dates() {
        if (bay_.worms_from)
            say(*bay_.worms_from <= tank_.state.today ? "By the days, worms may go in since " + to_text(*bay_.worms_from) + "."
                                                      : "By the days, worms may go in from " + to_text(*bay_.worms_from) +
                                                            " on, if it is cool and smells of no ammonia.");
        if (bay_.harvest_from)
            say("Harvest: from " + to_text(*bay_.harvest_from) +
                (bay_.harvest_until ? " to " + to_text(*bay_.harvest_until) : std::string(" on")) + ".");
    }

    void ahead() {
        const auto count = std::ranges::count_if(tank_.record.entries,
                                                 [&](const RecordedEntry& entry) { return entry.on > tank_.state.today; });
        if (count > 0)
            say(tank::counted(static_cast<int>(count), "thing is", "things are") + " written down for days after " +
                to_text(tank_.state.today) + " and " + (count == 1 ? "does" : "do") + " not count.");
    }

    const TankSeen& tank_;
    const BayState& bay_;
    std::vector<std::string> lines_;
};

}  // namespace

double trouble(const Ranker& ranker, const Facts& facts) {
    const Ranking ranking = ranker.rank_in_brief(facts);
    for (const RankedCause& ranked : ranking.causes)  // in falling order of chance
        if (ranked.raised() && !ranked.follows_from) return ranker.rule_base().causes[ranked.cause].benign ? 0 : ranked.chance;
    return 0;
}

BayMeant bay_meant(const Ranker& ranker, const TankRecord& record, const TankState& state, const Told& told,
                   const std::optional<std::size_t>& named) {
    if (named) return {*named, record.bays.size() == 1 ? "it is the only one" : "you named it"};
    BayMeant meant = bay_meant(record, state);
    if (record.bays.size() == 1 || !told.order.empty()) return meant;
    double most = least_trouble;
    for (std::size_t i = 0; i < record.bays.size(); ++i) {
        if (state.bays[i].stage == BayStage::empty) continue;
        Told of_bay;
        add_facts(of_bay, facts_of(record, state, ranker.rule_base(), i), ranker.rule_base());
        const double here = trouble(ranker, of_bay.facts);
        if (here > most) {
            most = here;
            meant = {i, "by its record it is the one most in trouble"};
        }
    }
    return meant;
}

TankSeen look_into(const Ranker& ranker, TankRecord record, Day today, const std::optional<std::size_t>& named, Told& told) {
    TankSeen seen;
    seen.state = state_of(record, ranker.rule_base(), today);
    const BayMeant meant = bay_meant(ranker, record, seen.state, told, named);
    seen.bay = meant.bay;
    seen.because = meant.because;
    seen.overruled = add_facts(told, facts_of(record, seen.state, ranker.rule_base(), meant.bay), ranker.rule_base());
    seen.record = std::move(record);
    return seen;
}

std::vector<std::string> in_words(const TankSeen& tank) { return BayInWords(tank).all(); }

}  // namespace lidlift
