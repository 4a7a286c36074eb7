#include "engine/learning.hpp"

#include "engine/chaining.hpp"
#include "engine/words.hpp"

#include <algorithm>
#include <array>
#include <cmath>
#include <functional>
#include <map>

namespace lidlift {
namespace {

/// Edges of the likelihood scale of engine/words.
constexpr std::array<double, 8> likelihood_edges = {0.01, 0.05, 0.20, 0.45, 0.55, 0.80, 0.95, 0.99};

double log_odds(double chance) {
    const double bounded = with_finite_odds(chance);
    return std::log(bounded / (1 - bounded));
}

bool is_one_of(Handle<Cause> cause, const std::vector<Handle<Cause>>& causes) {
    return std::ranges::find(causes, cause) != causes.end();
}

/// The share of beds without any cause that show what a link hangs on.
double background(const RuleBase& base, const Observable& when) {
    if (const auto* concluded = std::get_if<Concluded>(&when))
        return base.conclusions[concluded->conclusion].seen_anyway.value_or(0);
    const auto& says = std::get<Says>(when);
    const Sign& sign = base.signs[says.sign];
    double sum = 0;
    for (std::size_t i = 0; i < sign.answers.size(); ++i)
        if ((says.answers & answer_set(i)) != 0) sum += sign.answers[i].seen_anyway.value_or(0);
    return sum;
}

bool same_observable(const Observable& a, const Observable& b) {
    if (a.index() != b.index()) return false;
    if (const auto* concluded = std::get_if<Concluded>(&a)) return concluded->conclusion == std::get<Concluded>(b).conclusion;
    return std::get<Says>(a).sign == std::get<Says>(b).sign;
}

/// The word of `words` whose number lies nearest to `value` on the scale that `scaled` makes.
std::string nearest_word(const std::vector<std::string>& words, const std::function<double(const std::string&)>& number,
                         const std::function<double(double)>& scaled, double value) {
    return *std::ranges::min_element(words, {},
                                     [&](const std::string& word) { return std::abs(scaled(number(word)) - scaled(value)); });
}

class Counting {
public:
    Counting(const RuleBase& base, std::span<const ClosedCall> calls) : base_(base) {
        learnt_.closed = calls.size();
        for (const ClosedCall& call : calls) {
            if (call.confirmed == Confirmed::guess)
                ++learnt_.guesses;
            else
                counted_.push_back({&call, chain(base, call.facts)});
        }
        learnt_.counted = counted_.size();
    }

    Learnt count() {
        places();
        stated_chances();
        links();
        causes();
        return std::move(learnt_);
    }

private:
    struct Counted {
        const ClosedCall* call;
        Conclusions conclusions;
    };

    void places() {
        double ranks = 0;
        for (const Counted& counted : counted_) {
            const ClosedCall& call = *counted.call;
            if (call.causes.empty()) {
                ++learnt_.none_listed;
                continue;
            }
            ++learnt_.with_cause;
            const auto found =
                std::ranges::find_if(call.stated, [&](const StatedChance& s) { return is_one_of(s.cause, call.causes); });
            const auto place = static_cast<std::size_t>(found - call.stated.begin());
            learnt_.first += place == 0 && found != call.stated.end() ? 1 : 0;
            learnt_.among_three += place < 3 && found != call.stated.end() ? 1 : 0;
            ranks += static_cast<double>(place + 1);
        }
        if (learnt_.with_cause > 0) learnt_.mean_rank = ranks / static_cast<double>(learnt_.with_cause);
    }

    void stated_chances() {
        std::vector<Forecast> forecasts;
        for (const Counted& counted : counted_)
            for (const StatedChance& stated : counted.call->stated)
                forecasts.push_back({stated.chance, is_one_of(stated.cause, counted.call->causes)});
        learnt_.forecasts = forecasts.size();
        learnt_.brier = brier(forecasts, likelihood_edges);
        for (const Bin& bin : binned(forecasts, likelihood_edges))
            if (bin.count > 0)
                learnt_.words.push_back({likelihood_words(bin.mean_chance), bin, wilson(bin.came_true, bin.count)});
        if (learnt_.counted < least_calls_for_the_slope) return;
        learnt_.slope = recalibrate(forecasts);
        if (learnt_.slope) learnt_.slope->slope = std::clamp(learnt_.slope->slope, least_slope, greatest_slope);
    }

    void links() {
        for (std::uint32_t c = 0; c < base_.causes.size(); ++c) {
            const Cause& cause = base_.causes[Handle<Cause>{c}];
            for (std::size_t l = 0; l < cause.links.size(); ++l) {
                ++learnt_.links_in_all;
                LinkCount count = counted_link({c}, l);
                (count.there >= least_calls_for_a_link ? learnt_.links : learnt_.nearest).push_back(std::move(count));
            }
        }
        std::ranges::stable_sort(learnt_.links, {}, [](const LinkCount& link) { return link.proposed.empty(); });
        std::erase_if(learnt_.nearest, [](const LinkCount& link) { return link.there == 0; });
        std::ranges::stable_sort(learnt_.nearest, std::greater{}, &LinkCount::there);
        if (learnt_.nearest.size() > most_nearest)
            learnt_.nearest.erase(learnt_.nearest.begin() + most_nearest, learnt_.nearest.end());
    }

    LinkCount counted_link(Handle<Cause> handle, std::size_t position) const {
        const Link& link = base_.causes[handle].links[position];
        LinkCount count{.cause = handle, .link = position, .interval = {}, .ratios = {}, .proposed = {}};
        const Condition when = std::visit([](const auto& observable) { return Condition{observable}; }, link.when);
        for (const auto& [call, conclusions] : counted_) {
            const bool there = call->causes.size() == 1 && call->causes.front() == handle;
            if (!there && !without(*call, link.when)) continue;
            const Truth seen = evaluate(when, call->facts, conclusions.truth);
            if (seen == Truth::unknown) continue;
            ++(there ? count.there : count.without);
            if (seen == Truth::yes) ++(there ? count.there_seen : count.without_seen);
        }
        const double anyway = background(base_, link.when);
        count.chance_now = link.seen.value_or(std::min(highest_chance, anyway * link.factor));
        count.interval = wilson(count.there_seen, count.there);
        const auto number = [](std::size_t n) { return static_cast<double>(n); };
        if (count.there > 0 && count.without > 0)
            count.ratios =
                likelihood_ratios({number(count.there_seen), number(count.without_seen), number(count.there - count.there_seen),
                                   number(count.without - count.without_seen)});
        if (count.there >= least_calls_for_a_link && !count.interval.holds(count.chance_now)) propose(count, link, anyway);
        return count;
    }

    /// None of the call's causes is linked to the same observation: it shows how often that is seen anyway.
    [[nodiscard]] bool without(const ClosedCall& call, const Observable& when) const {
        return std::ranges::none_of(call.causes, [&](Handle<Cause> cause) {
            return std::ranges::any_of(base_.causes[cause].links,
                                       [&](const Link& link) { return same_observable(link.when, when); });
        });
    }

    /// The word nearest to what the counts and the old word together say; nothing where that is the word it has.
    static void propose(LinkCount& count, const Link& link, double anyway) {
        const double share = updated_share(count.chance_now, count.there_seen, count.there, cases_behind_a_link);
        if (link.seen) {
            const auto number = [](const std::string& word) { return *frequency(word); };
            std::vector<std::string> words = frequency_words();
            std::erase(words, "practically never");  // which only a background may be
            const std::string word = nearest_word(words, number, log_odds, share);
            count.proposed = "seen " + word;
            count.proposed_chance = *frequency(word);
        } else {
            const auto number = [](const std::string& word) { return *odds_factor(word); };
            const auto scaled = [](double factor) { return std::log(factor); };
            const std::string word = nearest_word(odds_words(), number, scaled, share / anyway);
            count.proposed = "points " + word;
            count.proposed_chance = anyway * *odds_factor(word);
        }
        // A background leaves no room for every word (rules/FORMAT.md): what the reader would refuse is not proposed.
        if (count.proposed == link.words || count.proposed_chance > highest_chance) count.proposed.clear();
    }

    void causes() {
        std::map<std::uint32_t, std::size_t> confirmed;
        for (const Counted& counted : counted_)
            for (const Handle<Cause> cause : counted.call->causes) ++confirmed[cause.index];
        for (const auto& [index, times] : confirmed) {
            CauseCount count{{index}, times, wilson(times, learnt_.counted), {}};
            const Cause& cause = base_.causes[count.cause];
            if (learnt_.counted >= least_calls_for_the_slope && !count.interval.holds(cause.how_common)) {
                const double share = updated_share(cause.how_common, times, learnt_.counted, cases_behind_a_prior);
                const auto number = [](const std::string& word) { return *commonness(word); };
                const std::string word = nearest_word(commonness_words(), number, log_odds, share);
                if (*commonness(word) != cause.how_common) count.proposed = word;
            }
            learnt_.causes.push_back(std::move(count));
        }
        std::ranges::stable_sort(learnt_.causes, std::greater{}, &CauseCount::confirmed);
    }

    const RuleBase& base_;
    std::vector<Counted> counted_;
    Learnt learnt_;
};

}  // namespace

Learnt learn_from(const RuleBase& rule_base, std::span<const ClosedCall> calls) { return Counting(rule_base, calls).count(); }

RuleBase with_proposals(RuleBase rule_base, const Learnt& learnt) {
    for (const LinkCount& count : learnt.links) {
        if (count.proposed.empty()) continue;
        Link& link = rule_base.causes[count.cause].links[count.link];
        const double anyway = background(rule_base, link.when);
        if (link.seen)
            link.seen = count.proposed_chance;
        else
            link.factor = count.proposed_chance / anyway;
        link.words = count.proposed;
    }
    for (const CauseCount& count : learnt.causes) {
        if (count.proposed.empty()) continue;
        Cause& cause = rule_base.causes[count.cause];
        cause.how_common = *commonness(count.proposed);
        cause.how_common_words = count.proposed;
    }
    return rule_base;
}

}  // namespace lidlift
