#include "engine/review/counted_twice.hpp"

#include "engine/answers.hpp"
#include "engine/review/kinds.hpp"

#include <algorithm>
#include <array>
#include <cmath>
#include <optional>
#include <utility>

namespace lidlift {
namespace {

/// A change of a cause's balance smaller than this (decibans) is nothing that counts.
constexpr double least_change = 1.0;
/// "very strongly": no single line of a cause can say more (decibans).
constexpr double most_weight_of_one_word = 15.0;

/// One line of a cause that answers reach: a link or a circumstance.
struct Way {
    const Link* link = nullptr;  ///< the first of those that hang on one sign's exclusive answers
    const Circumstance* circumstance = nullptr;
    Condition condition;              ///< that settles it
    std::vector<Handle<Sign>> signs;  ///< that it looks at, through rules as well; rising
    std::string group;
    std::string id;    ///< of the sign or conclusion; for a circumstance empty
    std::string text;  ///< of a circumstance, as written

    [[nodiscard]] bool direct() const { return link && std::holds_alternative<Says>(link->when); }
    [[nodiscard]] const Place& place() const { return link ? link->place : circumstance->place; }
};

/// Two ways in which one answer moves a cause.
struct Doubled {
    Handle<Sign> sign;
    Facts facts;
};

class CountedTwice {
public:
    CountedTwice(const ReviewTools& tools, std::vector<ReviewFinding>& findings)
        : tools_(tools), base_(tools.base), findings_(findings), unknown_(chain(base_, {})), alone_(base_.signs.size()) {}

    void review(Handle<Cause> handle) {
        cause_ = handle;
        const std::vector<Way> ways = ways_of(base_.causes[handle]);
        for (std::size_t i = 0; i < ways.size(); ++i)
            for (std::size_t k = i + 1; k < ways.size(); ++k) {
                const Way& a = ways[i];
                const Way& b = ways[k];
                if (a.direct() && b.direct()) continue;
                if (!a.group.empty() && a.group == b.group) continue;
                if (!a.group.empty() && !b.group.empty() && (a.direct() || b.direct())) {
                    in_two_groups(a, b);
                    continue;
                }
                if (ladder(a, b)) continue;
                if (const auto doubled = find(a, b)) counted_twice(a, b, *doubled);
            }
    }

private:
    std::vector<Handle<Sign>> signs_in(const Condition& condition) const {
        auto signs = signs_to_settle(condition, base_, {}, unknown_);
        std::ranges::sort(signs);
        return signs;
    }

    std::vector<Way> ways_of(const Cause& cause) const {
        std::vector<Way> ways;
        for (const Link& link : cause.links) {
            Way way;
            way.link = &link;
            if (const auto* says = std::get_if<Says>(&link.when)) {
                if (base_.signs[says->sign].sort != SignSort::several &&
                    std::ranges::any_of(ways, [&](const Way& earlier) { return earlier.id == base_.signs[says->sign].id; }))
                    continue;
                way.condition = {*says};
                way.group = base_.signs[says->sign].same_observation;
                way.id = base_.signs[says->sign].id;
            } else {
                const auto& concluded = std::get<Concluded>(link.when);
                way.condition = {concluded};
                way.group = base_.conclusions[concluded.conclusion].same_observation;
                way.id = base_.conclusions[concluded.conclusion].id;
            }
            way.signs = signs_in(way.condition);
            ways.push_back(std::move(way));
        }
        for (const Circumstance& circumstance : cause.made_likelier_by) {
            Way way;
            way.circumstance = &circumstance;
            way.condition = circumstance.when;
            way.text = circumstance.when_text;
            way.signs = signs_in(circumstance.when);
            ways.push_back(std::move(way));
        }
        return ways;
    }

    /// Two circumstances that are the rungs of a ladder: the one speaks for any amount, the other of one sign's greater amount
    /// alone, and together they say more than one word can ("very strongly"), so that it cannot be written with one line each.
    [[nodiscard]] bool ladder(const Way& a, const Way& b) const {
        if (!a.circumstance || !b.circumstance) return false;
        if (a.circumstance->weight + b.circumstance->weight <= most_weight_of_one_word) return false;
        return above(a, b) || above(b, a);
    }

    /// Whether some answers to the one sign of `high` make it true, each of them makes `low` true, and others `low` alone.
    [[nodiscard]] bool above(const Way& high, const Way& low) const {
        if (high.signs.size() != 1) return false;
        bool further = false;
        for (const Handle<Sign> sign : low.signs)
            for (const Answered& told : each_alone(sign)) {
                const bool on_high = evaluate(high.condition, told.facts, told.conclusions.truth) == Truth::yes;
                const bool on_low = evaluate(low.condition, told.facts, told.conclusions.truth) == Truth::yes;
                if (on_high && !on_low) return false;
                further = further || (on_low && !on_high);
            }
        return further && std::ranges::binary_search(low.signs, high.signs.front());
    }

    /// What the way adds to the cause's balance on these facts, in decibans.
    [[nodiscard]] double weight(const Way& way, const Facts& facts, const Conclusions& conclusions) const {
        if (way.circumstance)
            return evaluate(way.condition, facts, conclusions.truth) == Truth::yes ? way.circumstance->weight : 0;
        const std::uint32_t feature = feature_of(tools_.ranker, way.link->when);
        for (const Finding& finding : tools_.ranker.features().findings(facts, conclusions)) {
            if (finding.feature != feature) continue;
            const std::array<std::uint16_t, 1> alone = {static_cast<std::uint16_t>(cause_.index)};
            const EvidenceModel& model = tools_.ranker.model();
            return 10 * std::log10(chance_of(model, feature, finding.values, alone, finding.error) /
                                   chance_of(model, feature, finding.values, {}, finding.error));
        }
        return 0;
    }

    /// Answers in which one answer to a sign that both look at moves both the same way: that answer alone; or, between a sign
    /// and a conclusion that are both linked, together with others without which the conclusion is not reached.
    [[nodiscard]] std::optional<Doubled> find(const Way& a, const Way& b) const {
        std::vector<Handle<Sign>> shared;
        std::ranges::set_intersection(a.signs, b.signs, std::back_inserter(shared));
        for (const Handle<Sign> sign : shared)
            for (const Answered& told : each_alone(sign))
                if (moves_both(a, b, told, {{}, unknown_})) return Doubled{sign, told.facts};
        if (!a.link || !b.link) return std::nullopt;
        for (const Handle<Sign> sign : shared)
            for (const Observation& answer : tools_.answering.possible(sign))
                for (const Truth wanted : {Truth::yes, Truth::no})
                    if (auto facts = with_others(a, b, sign, answer, wanted)) return Doubled{sign, std::move(*facts)};
        return std::nullopt;
    }

    [[nodiscard]] std::optional<Facts> with_others(const Way& a, const Way& b, Handle<Sign> sign, const Observation& answer,
                                                   Truth wanted) const {
        Facts facts;
        facts.set(sign, answer);
        for (const Way* way : {&a, &b})
            if (!way->direct() && !tools_.answering.settle(facts, way->condition, wanted)) return std::nullopt;
        // A further answer to the same sign would be another observation.
        const Observation& seen = *facts.find(sign);
        if (seen.present != answer.present || seen.absent != answer.absent) return std::nullopt;
        Facts without = facts;
        without.forget(sign);
        Conclusions now = chain(base_, facts);
        Conclusions before = chain(base_, without);
        if (!moves_both(a, b, {facts, std::move(now)}, {std::move(without), std::move(before)})) return std::nullopt;
        return facts;
    }

    /// Answers and what follows from them.
    struct Answered {
        Facts facts;
        Conclusions conclusions;
    };

    [[nodiscard]] bool moves_both(const Way& a, const Way& b, const Answered& now, const Answered& before) const {
        const auto change = [&](const Way& way) {
            return weight(way, now.facts, now.conclusions) - weight(way, before.facts, before.conclusions);
        };
        const double first = change(a);
        const double second = change(b);
        return std::min(std::abs(first), std::abs(second)) >= least_change && (first > 0) == (second > 0);
    }

    /// Each answer to the sign and nothing else; made at the first use, since every cause asks again and following all rules
    /// takes long.
    [[nodiscard]] const std::vector<Answered>& each_alone(Handle<Sign> sign) const {
        std::vector<Answered>& all = alone_[sign.index];
        if (all.empty())
            for (const Observation& answer : tools_.answering.possible(sign)) {
                Facts facts;
                facts.set(sign, answer);
                Conclusions conclusions = chain(base_, facts);
                all.push_back({std::move(facts), std::move(conclusions)});
            }
        return all;
    }

    void counted_twice(const Way& a, const Way& b, const Doubled& doubled) {
        const Cause& cause = base_.causes[cause_];
        const std::string& sign = base_.signs[doubled.sign].id;
        ReviewFinding finding = finding_of("counted_twice", b.place());
        finding.about = {cause.id};
        if (sign != cause.id) finding.about.push_back(sign);
        for (const Way* way : {&a, &b})
            if (!way->id.empty() && std::ranges::find(finding.about, way->id) == finding.about.end())
                finding.about.push_back(way->id);
        finding.witness = witness_of(base_, doubled.facts);
        finding.text =
            "for '" + cause.id + "' one answer to '" + sign + "' counts twice: by " + as_what(a) + " and by " + as_what(b);
        finding.mend =
            a.link && b.link
                ? "keep one of the two, or put sign and conclusion under one 'same observation'"
                : "keep one of the two: what comes before the cause is a circumstance, what the cause brings about a sign";
        findings_.push_back(std::move(finding));
    }

    static std::string as_what(const Way& way) {
        if (way.direct()) return "the sign itself";
        return way.link ? "the conclusion '" + way.id + "'" : "the circumstance '" + way.text + "'";
    }

    void in_two_groups(const Way& a, const Way& b) {
        const Way& direct = a.direct() ? a : b;
        const Way& concluded = a.direct() ? b : a;
        const Handle<Sign> sign = std::get<Says>(direct.link->when).sign;
        if (!std::ranges::binary_search(concluded.signs, sign)) return;
        const Cause& cause = base_.causes[cause_];
        ReviewFinding finding = finding_of("in_two_groups", concluded.place());
        finding.about = {cause.id, direct.id, concluded.id};
        finding.text = "'" + cause.id + "' leans on the sign '" + direct.id + "' of the group '" + direct.group +
                       "' and on the conclusion '" + concluded.id + "' of the group '" + concluded.group +
                       "', which is made of that sign";
        finding.mend = "give both the same 'same observation', or keep one of the two lines";
        findings_.push_back(std::move(finding));
    }

    const ReviewTools& tools_;
    const RuleBase& base_;
    std::vector<ReviewFinding>& findings_;
    Conclusions unknown_;
    mutable std::vector<std::vector<Answered>> alone_;  ///< by sign
    Handle<Cause> cause_;
};

}  // namespace

void review_counted_twice(const ReviewTools& tools, std::vector<ReviewFinding>& findings) {
    CountedTwice review(tools, findings);
    for (std::uint32_t i = 0; i < tools.base.causes.size(); ++i) review.review({i});
}

}  // namespace lidlift
