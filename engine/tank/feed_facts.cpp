#include "engine/tank/contents.hpp"
#include "engine/tank/facts.hpp"
#include "engine/tank/feeding.hpp"
#include "engine/tank/figures_in_words.hpp"
#include "engine/tank/ranges.hpp"

#include <algorithm>
#include <map>
#include <set>

namespace lidlift::tank {
namespace {

/// kg of feed a day to a kg of worms, as the question itself draws the lines (half is the rule of thumb, Ndegwa 2000 has 0.75
/// and 1.25).
const std::vector<FromOn> ration_scale = {{"light", 0}, {"normal", 0.25}, {"heavy", 0.6}, {"very_heavy", 1.0}};

/// A ration is told only over so many days and more.
constexpr int least_days_of_a_ration = 7;

/// kg a day on a square metre that is the published ceiling of a mature bed; where worms are not counted, more is too much
/// anyway.
constexpr double most_on_a_square_metre = 2.0;

/// % of the feed's fresh mass from which it is some, and lots. Of what harms in smaller amounts a tenth is lots: leftovers hold
/// 1 to 2 % salt, and kitchen waste harms from 0.2 % on (IJERPH 2019, read). The rest is common practice, no source.
constexpr double some_from = 2;
constexpr double lots_from = 20;
constexpr double lots_of_strong_from = 10;
const std::set<std::string_view> strong = {"feed_onion_spice", "feed_salty", "feed_oily", "feed_protein"};

/// Days without feed that are long, and those after which the record is surely not merely late.
constexpr int days_without_feed = 14;
constexpr int long_without_feed = 21;

/// The last feed is big at so many times the usual one, or as a layer thicker than 5 cm (Kerala, read); "lately" is within a
/// week.
constexpr double big_load = 3;
constexpr double thick_layer = 0.05;
constexpr int lately = 7;
/// The last week's feed against that of the three weeks before.
constexpr double more_than_usual = 1.5;
constexpr int usual_days = 21;
constexpr std::size_t least_feeds_to_compare = 3;

/// kg of water to a kg of fresh dung. 1 to 1 up to 1 to 20 is published; thicker than 1 to 2 lies on top like batter (common
/// practice).
constexpr double surely_thick = 1.5;
constexpr double surely_thin = 3;
/// kg on a square metre in a day that is more than a sprinkling (common practice).
constexpr double surely_sprinkled = 5;
constexpr double surely_drenched = 10;

/// Litres of dry brown material to a litre of wet food: one to two is a fair share (the question's own words).
const std::vector<FromOn> browns_scale = {{"low", 0}, {"balanced", 0.7}, {"high", 3}};
/// C:N of the feed: 20 to 40 is the working range, 25 gave the best product (Ndegwa & Thompson 2000, read).
const std::vector<FromOn> ratio_scale = {{"low", 0}, {"balanced", 20}, {"high", 40}};

/// "Fresh cow dung" -> "fresh cow dung"; "FYM" stays.
std::string in_a_sentence(const std::string& name) {
    std::string words = name;
    const bool capitals = words.size() > 1 && words[1] >= 'A' && words[1] <= 'Z';
    if (!capitals && !words.empty() && words[0] >= 'A' && words[0] <= 'Z') words[0] = static_cast<char>(words[0] - 'A' + 'a');
    return words;
}

/// "onion skin, ginger and garlic"
std::string names_of(const std::set<Handle<Material>>& materials, const RuleBase& rule_base) {
    std::string names;
    std::size_t left = materials.size();
    for (const auto material : materials) {
        --left;
        names += (names.empty() ? "" : left == 0 ? " and " : ", ") + in_a_sentence(rule_base.materials[material].name);
    }
    return names;
}

class FeedFacts {
public:
    FeedFacts(FactList& facts, const BayKnown& known)
        : facts_(facts),
          known_(known),
          now_(known.now()),
          today_(known.state.today),
          first_(today_ - std::chrono::days(feed_window - 1)) {
        for (const Load& load : known.history.loads) {
            if (!load.sprinkled && is_feed(role(load))) {
                feeds_.push_back(load);
                if (load.on >= first_) fed_.push_back(load);
            }
            if (load.on >= first_) recent_.push_back(load);
        }
    }

    void add() {
        if (now_.days_since_worms) {
            ration();
            compared_with_usual();
        }
        shares();
        told_by_materials();
        browns();
        slurry();
    }

private:
    [[nodiscard]] MaterialRole role(const Load& load) const { return material(load).role; }
    /// A record with holes may lack feeds.
    [[nodiscard]] Sureness if_whole() const { return now_.fed_throughout ? Sureness::sure : Sureness::unsure; }
    [[nodiscard]] std::string gaps() const { return now_.fed_throughout ? "" : "; the record may lack some feeds"; }
    /// Feeds that were given to worms: those before they came were the filling.
    [[nodiscard]] std::map<Day, double> feeds_by_day() const {
        const Day since = today_ - std::chrono::days(*now_.days_since_worms);
        std::map<Day, double> by_day;
        for (const Load& load : feeds_)
            if (load.on > since) by_day[load.on] += load.kg.typical;
        return by_day;
    }

    void ration() {
        if (std::min(now_.days_since_feed.value_or(0), *now_.days_since_worms) >= days_without_feed) {
            facts_.answer("feed_load", {"none"}, "the last feed went in on " + to_text(feeds_.back().on), Sureness::unsure);
            return;
        }
        const int days = std::min(feed_window - 1, *now_.days_since_worms) + 1;
        if (!now_.feed_per_day || days < least_days_of_a_ration) return;
        if (now_.feed_per_worms) {
            Estimate ration = now_.feed_per_worms->value;
            if (!now_.fed_throughout) ration.high = std::numeric_limits<double>::infinity();
            facts_.on_scale("feed_load", ration, ration_scale,
                            in_words(now_.feed_per_worms->value, "kg") +
                                " a day to a kilogram of worms: " + now_.feed_per_worms->how + gaps(),
                            if_whole());
        } else if (now_.feed_per_area && now_.feed_per_area->value.low > most_on_a_square_metre) {
            facts_.answer("feed_load", {"heavy", "very_heavy"},
                          in_words(now_.feed_per_area->value, "kg") + " a day on a square metre: " + now_.feed_per_area->how,
                          Sureness::unsure);
        }
    }

    void compared_with_usual() {
        const std::map<Day, double> by_day = feeds_by_day();
        if (by_day.empty()) return;
        const auto [last_day, last_kg] = *by_day.rbegin();
        const int ago = days_between(last_day, today_);
        if (ago >= long_without_feed) {
            facts_.answer("feed_lately", {"none_for_long"}, "the last feed went in on " + to_text(last_day), Sureness::unsure);
            return;
        }
        if (ago > lately) return;
        std::vector<double> usual;
        double last_week = 0;
        double weeks_before = 0;
        for (const auto& [on, kg] : by_day) {
            const int age = days_between(on, today_);
            if (age < lately) last_week += kg;
            if (age >= lately && age < lately + usual_days) {
                usual.push_back(kg);
                weeks_before += kg;
            }
        }
        const Day begin = today_ - std::chrono::days(lately + usual_days - 1);
        const bool long_enough = *now_.days_since_worms >= lately + usual_days && known_.history.loads.front().on <= begin;
        if (usual.size() >= least_feeds_to_compare) {
            std::ranges::sort(usual);
            const double middle = usual[usual.size() / 2];
            if (last_kg >= big_load * middle) {
                facts_.answer("feed_lately", {"big_load_at_once"},
                              in_words(Estimate::exactly(last_kg), "kg") + " on " + to_text(last_day) + ", where " +
                                  in_words(Estimate::exactly(middle), "kg") + " at a time was usual");
                return;
            }
        }
        if (now_.layer && now_.layer->value.low > thick_layer && last_load_is_feed(last_day)) {
            facts_.answer("feed_lately", {"big_load_at_once"},
                          "a layer of " + in_words(times(now_.layer->value, 100), "cm") + " on " + to_text(last_day));
            return;
        }
        if (usual.size() < least_feeds_to_compare || !long_enough || !now_.fed_throughout) return;
        const double usual_week = weeks_before * lately / usual_days;
        const std::string how = in_words(Estimate::exactly(last_week), "kg") + " in the last week, " +
                                in_words(Estimate::exactly(usual_week), "kg") + " a week in the three before";
        if (last_week >= more_than_usual * usual_week)
            facts_.answer("feed_lately", {"more_than_usual"}, how);
        else if (last_week * more_than_usual >= usual_week)
            facts_.answer("feed_lately", {"as_usual"}, how);
    }

    [[nodiscard]] bool last_load_is_feed(Day day) const {
        double feed = 0;
        double all = 0;
        for (const Load& load : known_.history.loads) {
            if (load.on != day || load.sprinkled) continue;
            all += load.litres.typical;
            if (is_feed(role(load))) feed += load.litres.typical;
        }
        return feed > 0.5 * all;
    }

    /// What is mixed holds whatever it holds: a material whose id in the rules begins with "mixed".
    [[nodiscard]] bool is_mixed(const Load& load) const { return material(load).id.starts_with("mixed"); }
    /// Peelings are peelings of something; only what the rules count towards a sign is surely nothing else.
    [[nodiscard]] bool is_named(const Load& load) const {
        return !material(load).shares.empty() || !material(load).tells.empty();
    }
    [[nodiscard]] const Material& material(const Load& load) const { return known_.rule_base.materials[load.material]; }

    void shares() {
        if (!now_.fed) return;
        const std::string in_all = in_words(now_.fed->value, "kg") + " of feed since " + to_text(fed_.front().on);
        const bool mixed = std::ranges::any_of(fed_, [&](const Load& load) { return is_mixed(load); });
        const bool named = std::ranges::all_of(fed_, [&](const Load& load) { return is_named(load); });
        std::set<Handle<Sign>> asked;
        for (const Material& material : known_.rule_base.materials)
            asked.insert(material.shares.begin(), material.shares.end());
        for (const auto sign : asked) {
            const std::string& id = known_.rule_base.signs[sign].id;
            const auto share = std::ranges::find(now_.feed_shares, sign, &FeedShare::sign);
            if (share == now_.feed_shares.end()) {
                if (now_.fed_throughout && !mixed)
                    facts_.answer(id, {"none"}, "none in " + in_all, named ? Sureness::sure : Sureness::unsure);
                continue;
            }
            std::set<Handle<Material>> materials;
            for (const Load& load : fed_)
                if (const auto& of = material(load).shares; std::ranges::find(of, sign) != of.end())
                    materials.insert(load.material);
            Estimate percent = share->percent;
            // Named or not, what is mixed holds some of everything.
            if (mixed)
                percent = {std::max(percent.low, some_from), std::max(percent.typical, some_from),
                           std::max(percent.high, some_from)};
            facts_.on_scale(
                id, percent,
                {{"none", 0}, {"some", some_from}, {"lots", strong.contains(id) ? lots_of_strong_from : lots_from}},
                in_words(share->kg, "kg") + " of " + names_of(materials, known_.rule_base) + " in " + in_all + gaps(),
                if_whole());
        }
    }

    /// Answers that giving a material is by itself: dung, lime. None of them is said only of a record without holes.
    void told_by_materials() {
        struct Given {
            AnswerSet answers = 0;
            std::set<Handle<Material>> materials;
            Day last;
        };
        std::map<Handle<Sign>, Given> given;
        for (const Load& load : recent_)
            for (const Says& says : known_.rule_base.materials[load.material].tells) {
                Given& entry = given[says.sign];
                entry.answers |= says.answers;
                entry.materials.insert(load.material);
                entry.last = load.on;
            }
        for (const auto& [handle, entry] : given) {
            const Sign& sign = known_.rule_base.signs[handle];
            Observation observation;
            (sign.sort == SignSort::several ? observation.present : observation.possible) = entry.answers;
            if (observation.possible == all_answers(sign.answers.size())) continue;
            observation.from = names_of(entry.materials, known_.rule_base) + ", last on " + to_text(entry.last);
            facts_.set(handle, std::move(observation));
        }
        const auto dung = known_.rule_base.signs.find("feed_dung");
        if (dung && now_.fed_throughout && !given.contains(*dung))
            facts_.answer("feed_dung", {"none"}, "none in " + now_.fed->how);
    }

    /// By the bucket against the wet food, and by carbon to nitrogen; where the two disagree, either may be right. A bed by its
    /// feed, a heap by all that went in.
    void browns() {
        const bool bed = now_.days_since_worms.has_value();
        const auto& mixture = bed ? now_.feed : now_.as_filled;
        double wet = 0;
        double dry = 0;
        for (const Load& load : bed ? recent_ : known_.history.loads) {
            if (load.sprinkled) continue;
            if (is_feed(role(load))) wet += load.litres.typical;
            if (role(load) == MaterialRole::dry_matter) dry += load.litres.typical;
        }
        if (!mixture || !(wet > 0)) return;
        std::set<std::string_view> by_bucket = {on(browns_scale, dry / wet)};
        std::string how = dry > 0 ? rounded(dry / wet) + " buckets of dry material to a bucket of wet food" : "no dry material";
        if (mixture->carbon_to_nitrogen) {
            const double ratio = mixture->carbon_to_nitrogen->typical;
            by_bucket.insert(on(ratio_scale, ratio));
            how += ", carbon to nitrogen about " + rounded(ratio);
        }
        // Low by one and high by the other leaves all open, and nothing is said.
        if (by_bucket.contains("low") && by_bucket.contains("high")) return;
        facts_.answer("bedding_carbon", {by_bucket.begin(), by_bucket.end()},
                      how + (bed ? " in the last two weeks" : " as filled"), bed ? if_whole() : Sureness::sure);
    }

    [[nodiscard]] static std::string_view on(const std::vector<FromOn>& scale, double figure) {
        std::string_view answer = scale.front().answer;
        for (const FromOn& step : scale)
            if (figure >= step.from) answer = step.answer;
        return answer;
    }

    void slurry() {
        if (!now_.slurry_water) {
            if (!now_.sprinkled_per_area && now_.fed_throughout)
                facts_.answer("slurry", {"none"}, "none sprinkled since " + to_text(first_), Sureness::unsure);
            return;
        }
        const Estimate& water = now_.slurry_water->value;
        const double most = now_.sprinkled_per_area ? now_.sprinkled_per_area->value.typical : 0;
        std::vector<std::string_view> answers;
        if (water.typical < surely_thin) answers.emplace_back("thick");
        if (water.typical >= surely_thick) {
            if (most < surely_drenched) answers.emplace_back("sprinkled");
            if (most >= surely_sprinkled) answers.emplace_back("watery");
        }
        facts_.answer("slurry", answers,
                      "1 part of fresh dung to about " + rounded(water.typical) + " of water, " + now_.slurry_water->how +
                          (most > 0 ? ", at most " + rounded(most) + " kg on a square metre in a day" : ""));
    }

    FactList& facts_;
    const BayKnown& known_;
    const BayState& now_;
    Day today_;
    Day first_;
    std::vector<Load> feeds_;   ///< all that worms eat
    std::vector<Load> fed_;     ///< of that, what went in within the window
    std::vector<Load> recent_;  ///< everything of the window
};

}  // namespace

void add_feed_facts(FactList& facts, const BayKnown& known) {
    if (!known.history.loads.empty()) FeedFacts(facts, known).add();
}

}  // namespace lidlift::tank
