// The section "causes": links, circumstances, vetoes and all that is said once a cause is likely.
#include "engine/quantity.hpp"
#include "engine/reader/resolve.hpp"
#include "engine/reader/sections.hpp"
#include "engine/words.hpp"

#include <algorithm>
#include <bit>
#include <cmath>
#include <utility>

namespace lidlift::reader {
namespace {

std::vector<std::string> link_words() {
    // How often a cause shows a sign: every frequency but "practically never", which only a background may be.
    std::vector<std::string> words = frequency_words();
    std::erase(words, "practically never");
    return words;
}

/// "6.9 dB", and the strongest word that gives no more.
std::string most_possible(double background) {
    const double most = highest_chance / background;
    std::string best;
    for (const std::string& word : odds_words())
        if (*odds_factor(word) > 1 && *odds_factor(word) <= most) best = word;
    const std::string decibels = number_to_text(std::round(100 * std::log10(most)) / 10) + " dB";
    return best.empty() ? decibels + ", less than 'slightly'" : decibels + ", '" + best + "'";
}

class CauseReader {
public:
    CauseReader(const NamedEntry& named, Cause& cause, const RuleBase& rule_base, Complaints& complaints)
        : cause_(cause),
          rule_base_(rule_base),
          complaints_(complaints),
          entry_(named.value, "the cause '" + named.id + "'", complaints) {}

    void read() {
        cause_.code = entry_.text("code");
        cause_.name = entry_.text("name", Need::required);
        if (const auto word = entry_.word("how common", commonness_words(), Need::required)) {
            cause_.how_common_words = commonness_words()[*word];
            cause_.how_common = *commonness(cause_.how_common_words);
        }
        read_stages();
        cause_.because = entry_.text("because", Need::required);
        cause_.sources = read_sources(entry_, rule_base_);
        for (const YamlNode* item : entry_.list("made likelier by")) read_circumstance(*item);
        for (const YamlNode* item : entry_.list("signs")) read_link(*item);
        check_shares();
        if (!entry_.node("signs") && !entry_.node("made likelier by"))
            entry_.complain(entry_.place(),
                            entry_.what() + " has neither 'signs' nor 'made likelier by', so nothing can point to it");
        cause_.cannot_be_when =
            read_when(entry_, "cannot be when", cause_.cannot_be_when_text, cause_.cannot_be_when_place, rule_base_);
        cause_.must_be_when =
            read_when(entry_, "must be when", cause_.must_be_when_text, cause_.must_be_when_place, rule_base_);
        cause_.not_together_with = read_names(entry_, "not together with", rule_base_.causes, "cause");
        cause_.alone = entry_.yes_no("alone");
        cause_.benign = entry_.yes_no("benign");
        cause_.brings_about = read_names(entry_, "brings about", rule_base_.causes, "cause");
        cause_.steps = read_names(entry_, "steps", rule_base_.steps, "step");
        cause_.cautions = read_names(entry_, "cautions", rule_base_.cautions, "caution");
        read_avoided();
        read_look_again();
        cause_.expect = entry_.text("expect");
        cause_.told_apart_by = entry_.text("told apart by");
        cause_.not_to_confuse_with = read_names(entry_, "not to confuse with", rule_base_.causes, "cause");
        cause_.guides_differ = entry_.text("guides differ");
        entry_.finish();
    }

private:
    void read_stages() {
        const auto items = entry_.list("stages");
        if (items.empty()) return;
        if (!rule_base_.stage) {
            entry_.complain(items.front()->place, "'stages' needs a sign named 'stage' with one of several answers");
            return;
        }
        const Sign& stage = rule_base_.signs[*rule_base_.stage];
        std::vector<std::string> known;
        for (const Answer& answer : stage.answers) known.push_back(answer.id);
        cause_.stages = 0;
        for (const YamlNode* item : items)
            if (const auto position = read_word(*item, known, complaints_)) cause_.stages |= answer_set(*position);
    }

    void read_circumstance(const YamlNode& node) {
        Entry entry(node, "a circumstance of '" + cause_.id + "'", complaints_);
        Circumstance circumstance;
        circumstance.place = node.place;
        if (const YamlNode* when = entry.node("when", Need::required)) {
            circumstance.when_text = when->text;
            if (auto condition = read_condition_node(*when, rule_base_, complaints_)) circumstance.when = std::move(*condition);
        }
        if (const auto word = entry.word("points", odds_words(), Need::required)) {
            circumstance.words = "points " + odds_words()[*word];
            circumstance.weight = 10 * std::log10(*odds_factor(odds_words()[*word]));
        }
        circumstance.sources = read_sources(entry, rule_base_, Need::optional);
        entry.finish();
        cause_.made_likelier_by.push_back(std::move(circumstance));
    }

    void read_link(const YamlNode& node) {
        Entry entry(node, "a sign of '" + cause_.id + "'", complaints_);
        Link link;
        link.place = node.place;
        const YamlNode* when = entry.node("when", Need::required);
        const auto observable = when ? read_observable(*when) : std::nullopt;
        const auto points = entry.word("points", odds_words());
        const auto seen = entry.word("seen", link_words());
        const bool one = (entry.node("points") != nullptr) != (entry.node("seen") != nullptr);
        if (!one) entry.complain(node.place, "say either 'seen' or 'points' for a sign, one of the two");
        link.sources = read_sources(entry, rule_base_, Need::optional);
        entry.finish();
        if (!observable || !one || !(points || seen)) return;
        link.when = *observable;
        link.when_text = when->text;
        if (points) {
            link.factor = *odds_factor(odds_words()[*points]);
            link.words = "points " + odds_words()[*points];
            if (!check_points(link, odds_words()[*points], when->place)) return;
        } else {
            link.seen = *frequency(link_words()[*seen]);
            link.words = "seen " + link_words()[*seen];
        }
        if (said_twice(link)) {
            complaints_.add(when->place, "'" + cause_.id + "' already has a strength for '" + link.when_text + "'");
            return;
        }
        cause_.links.push_back(std::move(link));
    }

    /// A link hangs on one observation that has a background.
    std::optional<Observable> read_observable(const YamlNode& node) {
        const auto condition = read_condition_node(node, rule_base_, complaints_);
        if (!condition) return std::nullopt;
        if (const auto* concluded = std::get_if<Concluded>(&condition->node)) {
            const Conclusion& conclusion = rule_base_.conclusions[concluded->conclusion];
            if (conclusion.seen_anyway) return *concluded;
            complaints_.add(node.place, "the conclusion '" + conclusion.id +
                                            "' needs a 'seen anyway' before a cause can list it under 'signs'");
            return std::nullopt;
        }
        const auto* says = std::get_if<Says>(&condition->node);
        if (!says) {
            complaints_.add(node.place, "a sign of a cause is a single observation, but '" + node.text + "' is more than that",
                            "compare with bands by 'is', and put combinations into a rule");
            return std::nullopt;
        }
        const Sign& sign = rule_base_.signs[says->sign];
        for (std::size_t i = 0; i < sign.answers.size(); ++i) {
            if ((says->answers & answer_set(i)) == 0 || sign.answers[i].seen_anyway) continue;
            complaints_.add(node.place,
                            "the answer '" + sign.answers[i].id + "' of the sign '" + sign.id +
                                "' has no 'seen anyway', so no cause can list it under 'signs'",
                            "give it one, or move the line to 'made likelier by'");
            return std::nullopt;
        }
        if (sign.sort == SignSort::several && std::popcount(says->answers) > 1) {
            complaints_.add(node.place, "the answers of '" + sign.id + "' can hold at once: list them one by one");
            return std::nullopt;
        }
        return *says;
    }

    bool check_points(const Link& link, const std::string& word, const Place& place) {
        bool good = true;
        const auto check = [&](double background, const std::string& what) {
            // A hair's breadth of tolerance, for 0.025 times 10^1.5 and the like.
            if (background * link.factor <= highest_chance + 1e-9) return;
            good = false;
            complaints_.add(place,
                            what + " is seen anyway in " + number_to_text(100 * background) +
                                " % of beds, so it cannot point '" + word + "'; the most it can give is " +
                                most_possible(background),
                            {}, "points_infeasible");
        };
        if (const auto* concluded = std::get_if<Concluded>(&link.when)) {
            const Conclusion& conclusion = rule_base_.conclusions[concluded->conclusion];
            check(*conclusion.seen_anyway, "'" + conclusion.id + "'");
        } else {
            const Says& says = std::get<Says>(link.when);
            const Sign& sign = rule_base_.signs[says.sign];
            for (std::size_t i = 0; i < sign.answers.size(); ++i)
                if ((says.answers & answer_set(i)) != 0)
                    check(*sign.answers[i].seen_anyway, "'" + sign.id + " is " + sign.answers[i].id + "'");
        }
        return good;
    }

    [[nodiscard]] bool said_twice(const Link& link) const {
        return std::ranges::any_of(cause_.links, [&](const Link& earlier) {
            const auto* a = std::get_if<Says>(&earlier.when);
            const auto* b = std::get_if<Says>(&link.when);
            if (a && b) {
                const bool yes_no = rule_base_.signs[a->sign].sort == SignSort::yes_no;
                return a->sign == b->sign && (yes_no || (a->answers & b->answers) != 0);
            }
            const auto* c = std::get_if<Concluded>(&earlier.when);
            const auto* d = std::get_if<Concluded>(&link.when);
            return c && d && c->conclusion == d->conclusion;
        });
    }

    /// Answers that exclude one another cannot be seen in more than 100 % of beds together.
    void check_shares() {
        std::vector<Handle<Sign>> complained;
        for (const Link& link : cause_.links) {
            const auto* first = std::get_if<Says>(&link.when);
            if (first && std::ranges::find(complained, first->sign) != complained.end()) continue;
            if (!first || rule_base_.signs[first->sign].sort == SignSort::several ||
                rule_base_.signs[first->sign].sort == SignSort::yes_no)
                continue;
            double sum = 0;
            for (const Link& other : cause_.links) {
                const auto* says = std::get_if<Says>(&other.when);
                if (says && says->sign == first->sign) sum += share(other, rule_base_.signs[says->sign], says->answers);
            }
            if (sum > 1 + 1e-9) {
                complaints_.add(link.place, "by these strengths '" + cause_.id + "' would show the answers of '" +
                                                rule_base_.signs[first->sign].id + "' in " +
                                                number_to_text(std::round(100 * sum)) +
                                                " % of beds together, but only one can be true");
                complained.push_back(first->sign);
            }
        }
    }

    static double share(const Link& link, const Sign& sign, AnswerSet answers) {
        if (link.seen) return *link.seen;
        double background = 0;
        for (std::size_t i = 0; i < sign.answers.size(); ++i)
            if ((answers & answer_set(i)) != 0) background += *sign.answers[i].seen_anyway;
        return background * link.factor;
    }

    void read_avoided() {
        for (const YamlNode* item : entry_.list("avoid")) {
            if (!require_text(*item, "an item of 'avoid'", complaints_)) continue;
            const bool sentence = item->text.find(' ') != std::string::npos;
            if (const auto clash = rule_base_.clashes.find(item->text))
                cause_.avoid.emplace_back(*clash);
            else if (sentence)
                cause_.avoid.emplace_back(item->text);
            else
                complaints_.add(item->place, "there is no clash '" + item->text + "'",
                                nearest_of(complaints_, item->text, [&] { return rule_base_.clashes.ids(); }));
        }
    }

    void read_look_again() {
        static const Unit* days = find_unit("days");
        for (const YamlNode* item : entry_.list("look again", Need::required)) {
            const auto quantity = read_quantity(item->text);
            const auto number = quantity && quantity->unit
                                    ? convert(*quantity, *days)
                                    : Outcome<double>(Fault{"a time needs its unit, for instance '3 days'", 0});
            if (!quantity)
                complaints_.add(item->place, quantity.fault().text);
            else if (!number)
                complaints_.add(item->place, number.fault().text);
            else if (*number <= 0 || *number > 366)
                complaints_.add(item->place, "'look again' should lie within a year");
            else
                cause_.look_again_days.push_back(*number);
        }
    }

    Cause& cause_;
    const RuleBase& rule_base_;
    Complaints& complaints_;
    Entry entry_;
};

}  // namespace

void read_cause(const NamedEntry& named, Cause& cause, const RuleBase& rule_base, Complaints& complaints) {
    CauseReader(named, cause, rule_base, complaints).read();
}

}  // namespace lidlift::reader
