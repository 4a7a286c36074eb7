// Gaps and overlaps where one number is the edge: `below 7` here and `above 7` there leaves a reading of 7 out in the cold.
#include "engine/plain_text.hpp"
#include "engine/review/logic_parts.hpp"
#include "engine/review/sayable_number.hpp"

#include <algorithm>
#include <cmath>
#include <map>
#include <set>
#include <utility>

namespace lidlift::logic {
namespace {

using Part = ConditionSite::Part;

/// A threshold nearer to a band's edge than this share of the narrower band beside that edge is probably meant to be that edge.
constexpr double beside = 0.1;

/// The ranges that a condition itself names, not those of the conclusions in it.
void collect(const Condition& condition, std::vector<Lies>& into) {
    if (const auto* negation = std::get_if<Negation>(&condition.node)) collect(negation->child.front(), into);
    if (const auto* quorum = std::get_if<Quorum>(&condition.node))
        for (const Condition& child : quorum->children) collect(child, into);
    if (const auto* lies = std::get_if<Lies>(&condition.node)) into.push_back(*lies);
}

/// A number at which something changes, and how many ranges end there.
using Ends = std::map<std::pair<Handle<Sign>, double>, int>;

Ends ends_of(const Condition& condition) {
    std::vector<Lies> ranges;
    collect(condition, ranges);
    Ends ends;
    for (const Lies& lies : ranges)
        for (const double end : {lies.range.low, lies.range.high})
            if (std::isfinite(end)) ++ends[{lies.sign, end}];
    return ends;
}

class Edges {
public:
    explicit Edges(const LogicReview& review) : review_(review), base_(review.base) {}

    void run() {
        conclusions();
        circumstances();
        for (const ConditionSite& site : review_.sites) beside_bands(site);
    }

private:
    [[nodiscard]] std::string reading(const Edge& edge) const {
        const Sign& sign = base_.signs[edge.sign];
        return quoted(sign.id) + " at exactly " +
               exact_text(edge.number, *sign.unit).value_or(quantity_to_text(edge.number, *sign.unit));
    }

    /// `low` holds just below, `high` just above, and at the edge none of `any_of_these`.
    [[nodiscard]] AnswersQuestion gap(const Edge& edge, const Condition& low, const Condition& high,
                                      const std::vector<const Condition*>& any_of_these) const {
        AnswersQuestion question{{{&low, Truth::yes, true, 0}, {&high, Truth::yes, true, 2}}, false, edge};
        for (const Condition* one : any_of_these) question.wishes.push_back({one, Truth::yes, false, 1});
        return question;
    }
    /// `low` holds up to the edge, `high` from the edge on, both at the edge.
    [[nodiscard]] AnswersQuestion overlap(const Edge& edge, const Condition& low, const Condition& high) const {
        return {{{&low, Truth::yes, true, 0},
                 {&high, Truth::yes, false, 0},
                 {&low, Truth::yes, true, 1},
                 {&high, Truth::yes, true, 1},
                 {&low, Truth::yes, false, 2},
                 {&high, Truth::yes, true, 2}},
                false,
                edge};
    }

    void conclusions() {
        const std::size_t count = base_.conclusions.size();
        std::vector<Condition> holds;
        std::map<std::pair<Handle<Sign>, double>, std::vector<std::size_t>> by_end;
        for (std::size_t i = 0; i < count; ++i) {
            holds.push_back({Concluded{{static_cast<std::uint32_t>(i)}}});
            Ends ends;
            for (const auto rule : base_.rules_for[i])
                for (const auto& [end, times] : ends_of(base_.rules[rule].when)) ends[end] += times;
            for (const auto& [end, times] : ends) {
                by_end[end].push_back(i);
                if (times < 2) continue;
                const Edge edge{end.first, end.second};
                const AnswersQuestion question = gap(edge, holds[i], holds[i], {&holds[i]});
                if (!review_.space.possible(question, false)) continue;
                const Conclusion& told = base_.conclusions[Handle<Conclusion>{static_cast<std::uint32_t>(i)}];
                review_.add(
                    "edge_gap", place_of_rules(i, edge), {told.id},
                    reading(edge) + " does not give " + quoted(told.id) + ", although a little less and a little more do",
                    "write 'at most' or 'at least' on one side", question, 1);
            }
        }
        for (const auto& [end, users] : by_end)
            for (std::size_t a = 0; a < users.size(); ++a)
                for (std::size_t b = a + 1; b < users.size(); ++b) {
                    const Edge edge{end.first, end.second};
                    if (!tell_overlap(edge, users[a], users[b], holds)) tell_overlap(edge, users[b], users[a], holds);
                }
    }

    bool tell_overlap(const Edge& edge, std::size_t low, std::size_t high, const std::vector<Condition>& holds) {
        const AnswersQuestion question = overlap(edge, holds[low], holds[high]);
        if (!review_.space.possible(question, false)) return false;
        const auto name = [&](std::size_t i) {
            return base_.conclusions[Handle<Conclusion>{static_cast<std::uint32_t>(i)}].id;
        };
        review_.add("edge_overlap", place_of_rules(high, edge), {name(high), name(low)},
                    reading(edge) + " gives " + quoted(name(low)) + " and " + quoted(name(high)) +
                        ", although a little less gives only the one and a little more only the other",
                    "write 'below' or 'above' on one side", question, 1);
        return true;
    }

    /// Of the conclusion's rules the last whose condition ends at the edge.
    [[nodiscard]] Place place_of_rules(std::size_t conclusion, const Edge& edge) const {
        Place place = base_.conclusions[Handle<Conclusion>{static_cast<std::uint32_t>(conclusion)}].place;
        for (const auto rule : base_.rules_for[conclusion])
            if (ends_of(base_.rules[rule].when).contains({edge.sign, edge.number})) place = base_.rules[rule].when_place;
        return place;
    }

    void circumstances() {
        std::map<Handle<Cause>, std::vector<const ConditionSite*>> by_cause;
        for (const ConditionSite& site : review_.sites)
            if (site.part == Part::circumstance) by_cause[*site.cause].push_back(&site);
        for (const auto& [cause, sites] : by_cause) {
            std::map<std::pair<Handle<Sign>, double>, std::vector<const ConditionSite*>> by_end;
            for (const ConditionSite* site : sites)
                for (const auto& [end, times] : ends_of(site->condition))
                    by_end[end].insert(by_end[end].end(), times > 1 ? 2U : 1U, site);
            for (const auto& [end, users] : by_end)
                if (users.size() > 1) circumstances_at({end.first, end.second}, users);
        }
    }

    void circumstances_at(const Edge& edge, const std::vector<const ConditionSite*>& users) {
        std::vector<const Condition*> all;
        for (const ConditionSite* site : users) all.push_back(&site->condition);
        bool gap_told = false;
        std::set<std::pair<const ConditionSite*, const ConditionSite*>> told;
        for (const ConditionSite* low : users)
            for (const ConditionSite* high : users) {
                const ConditionSite& later = low->place < high->place ? *high : *low;
                if (low == high && std::ranges::count(users, low) < 2) continue;
                if (!gap_told) {
                    const AnswersQuestion question = gap(edge, low->condition, high->condition, all);
                    if (review_.space.possible(question, false)) {
                        gap_told = true;
                        review_.add("edge_gap", later.place, {later.owner},
                                    reading(edge) + " is no circumstance of the cause " + quoted(later.owner) +
                                        ", although a little less and a little more are: " + low->text + "; " + high->text,
                                    "write 'at most' or 'at least' on one side", question, 1);
                    }
                }
                if (low == high || !told.insert({low, high}).second) continue;
                const AnswersQuestion question = overlap(edge, low->condition, high->condition);
                if (!review_.space.possible(question, false)) continue;
                review_.add("edge_overlap", later.place, {later.owner},
                            reading(edge) + " counts twice for the cause " + quoted(later.owner) +
                                ", although a little less and a little more count once: " + low->text + "; " + high->text,
                            "write 'below' or 'above' on one side", question, 1);
            }
    }

    void beside_bands(const ConditionSite& site) {
        std::vector<Lies> ranges;
        collect(site.condition, ranges);
        std::set<std::pair<Handle<Sign>, double>> told;
        for (const Lies& lies : ranges) {
            for (const bool low : {true, false}) {
                const double end = low ? lies.range.low : lies.range.high;
                if (!std::isfinite(end) || told.contains({lies.sign, end})) continue;
                const bool included = low ? lies.range.low_included : lies.range.high_included;
                if (beside_band(site, lies.sign, end, low, included)) told.insert({lies.sign, end});
            }
        }
    }

    /// Bands hold their lower edge and not their upper one, so `at least` and `below` agree with them.
    bool beside_band(const ConditionSite& site, Handle<Sign> handle, double end, bool low, bool included) {
        const Sign& sign = base_.signs[handle];
        if (end <= sign.plausible.low || end >= sign.plausible.high) return false;
        for (std::size_t i = 0; i + 1 < sign.answers.size(); ++i) {
            const double edge = *sign.answers[i].below;
            const auto width = [&](std::size_t band) { return sign.band(band).high - sign.band(band).low; };
            const double narrower = std::min(width(i), width(i + 1));
            if (edge == end && low != included) {
                const std::string exactly = reading({handle, end});
                const std::string as_bands = low ? "at least" : "below";
                tell_beside(site, handle, end,
                            exactly + " is called " + quoted(sign.answers[i + 1].id) + ", and " + site.in_words +
                                (low ? " leaves it out: " : " counts it with what is below: ") + site.text,
                            "write '" + as_bands + "', as the bands have it");
                return true;
            }
            if (edge != end && std::fabs(edge - end) < beside * narrower) {
                const auto between = plainest_number({std::min(edge, end), std::max(edge, end), false, false}, *sign.unit);
                tell_beside(site, handle, between.value_or(end),
                            site.in_words + " has an edge at " + quantity_to_text(end, *sign.unit) +
                                ", just beside the edge of " + quoted(sign.answers[i].id) + " and " +
                                quoted(sign.answers[i + 1].id) + " at " + quantity_to_text(edge, *sign.unit) + ": " + site.text,
                            "use the band's own edge, or say why the two differ");
                return true;
            }
        }
        return false;
    }

    void tell_beside(const ConditionSite& site, Handle<Sign> sign, double number, std::string text, std::string mend) {
        review_.add("edge_beside_band", site.place, {site.owner, base_.signs[sign].id}, std::move(text), std::move(mend));
        Facts facts;
        Observation seen;
        seen.measured = Range{number, number, true, true};
        facts.set(sign, seen);
        review_.findings.back().witness = review_.space.witness(facts);
    }

    const LogicReview& review_;
    const RuleBase& base_;
};

}  // namespace

void review_edges(const LogicReview& review) { Edges(review).run(); }

}  // namespace lidlift::logic
