#include "engine/review/look_alikes.hpp"

#include "engine/review/evidence.hpp"
#include "engine/review/kinds.hpp"

#include <algorithm>
#include <cmath>
#include <limits>
#include <set>

namespace lidlift {
namespace {

constexpr double infinite = std::numeric_limits<double>::infinity();

/// The greatest difference that one value makes; a feature that only one of them is linked to has weight 0 for the other.
double difference(const FeatureStrength* a, const FeatureStrength* b) {
    const std::size_t count = (a ? a : b)->weights.size();
    double most = 0;
    for (std::size_t value = 0; value < count; ++value)
        most = std::max(most, std::abs((a ? a->weights[value] : 0) - (b ? b->weights[value] : 0)));
    return most;
}

/// Calls `take(feature, difference)` for every feature that one of them is linked to.
template <class Take>
void for_each_difference(const std::vector<FeatureStrength>& a, const std::vector<FeatureStrength>& b, const Take& take) {
    for (auto x = a.begin(), y = b.begin(); x != a.end() || y != b.end();) {
        const bool first = x != a.end() && (y == b.end() || x->feature <= y->feature);
        const bool second = y != b.end() && (x == a.end() || y->feature <= x->feature);
        const FeatureStrength& one = first ? *x : *y;
        take(one.feature, difference(first ? &*x : nullptr, second ? &*y : nullptr));
        if (first) ++x;
        if (second) ++y;
    }
}

/// What a circumstance adds when it is surely told, decibans: a sure answer may be wrong as well.
double told_surely(const ReviewTools& tools, double weight) {
    const double wrong = tools.base.weighing.wrong_when_sure;
    return 10 * std::log10((1 - wrong) * std::pow(10.0, weight / 10) + wrong);
}

/// Calls `take(circumstance, difference)` for every circumstance of `a` that `b` lacks, and with `both` for those that both
/// have.
template <class Take>
void for_each_circumstance(const ReviewTools& tools, const Cause& a, const Cause& b, bool both, const Take& take) {
    for (const Circumstance& circumstance : a.made_likelier_by) {
        const auto same = std::ranges::find(b.made_likelier_by, circumstance.when_text, &Circumstance::when_text);
        if (same == b.made_likelier_by.end())
            take(circumstance, std::abs(told_surely(tools, circumstance.weight)));
        else if (both)
            take(circumstance, std::abs(told_surely(tools, circumstance.weight) - told_surely(tools, same->weight)));
    }
}

bool told_apart_by_a_veto(const Cause& a, const Cause& b) {
    return (a.stages & b.stages) == 0 || a.cannot_be_when_text != b.cannot_be_when_text ||
           a.must_be_when_text != b.must_be_when_text;
}

/// One clear difference is enough, so that most pairs of a large rule base are done with at the first.
bool clearly_apart(const ReviewTools& tools, Handle<Cause> a, Handle<Cause> b) {
    const Cause& first = tools.base.causes[a];
    const Cause& second = tools.base.causes[b];
    if (told_apart_by_a_veto(first, second)) return true;
    bool apart = false;
    for_each_difference(tools.strengths[a.index], tools.strengths[b.index],
                        [&](std::uint32_t, double difference) { apart = apart || difference >= least_distance; });
    return apart;
}

/// What a person without instruments can find out.
class Checkable {
public:
    explicit Checkable(const ReviewTools& tools) : tools_(tools) {}

    [[nodiscard]] bool sign(Handle<Sign> sign) const { return tools_.base.signs[sign].effort <= Effort::dig; }
    /// It can be found out that `condition` holds; or, with `either`, that it does not.
    [[nodiscard]] bool condition(const Condition& condition, bool either) const {
        const AllowedSigns allowed = [&](Handle<Sign> handle) { return sign(handle); };
        Facts facts;
        if (tools_.answering.settle(facts, condition, Truth::yes, allowed)) return true;
        return either && tools_.answering.settle(facts, condition, Truth::no, allowed);
    }
    [[nodiscard]] bool link(const Observable& when) const {
        if (const auto* says = std::get_if<Says>(&when)) return sign(says->sign);
        return condition({std::get<Concluded>(when)}, true);
    }

private:
    const ReviewTools& tools_;
};

bool told_apart_without_instruments(const ReviewTools& tools, Handle<Cause> a, Handle<Cause> b) {
    const Cause& first = tools.base.causes[a];
    const Cause& second = tools.base.causes[b];
    if ((first.stages & second.stages) == 0) return true;
    const Checkable checkable(tools);
    bool apart = false;
    for_each_difference(tools.strengths[a.index], tools.strengths[b.index], [&](std::uint32_t feature, double difference) {
        if (apart || difference < least_distance) return;
        for (const Cause* cause : {&first, &second})
            for (const Link& link : cause->links)
                if (feature_of(tools.ranker, link.when) == feature && checkable.link(link.when)) apart = true;
    });
    const auto circumstance = [&](const Circumstance& one, double difference) {
        apart = apart || (difference >= least_distance && checkable.condition(one.when, false));
    };
    for_each_circumstance(tools, first, second, true, circumstance);
    for_each_circumstance(tools, second, first, false, circumstance);
    const auto veto = [&](const std::optional<Condition>& when, const std::string& text, const std::string& other) {
        apart = apart || (when && text != other && checkable.condition(*when, false));
    };
    veto(first.cannot_be_when, first.cannot_be_when_text, second.cannot_be_when_text);
    veto(second.cannot_be_when, second.cannot_be_when_text, first.cannot_be_when_text);
    veto(first.must_be_when, first.must_be_when_text, second.must_be_when_text);
    veto(second.must_be_when, second.must_be_when_text, first.must_be_when_text);
    return apart;
}

}  // namespace

double distance_between(const ReviewTools& tools, Handle<Cause> a, Handle<Cause> b) {
    const Cause& first = tools.base.causes[a];
    const Cause& second = tools.base.causes[b];
    if (told_apart_by_a_veto(first, second)) return infinite;
    double sum = 0;
    for_each_difference(tools.strengths[a.index], tools.strengths[b.index],
                        [&](std::uint32_t, double difference) { sum += difference; });
    const auto circumstance = [&](const Circumstance&, double difference) { sum += difference; };
    for_each_circumstance(tools, first, second, true, circumstance);
    for_each_circumstance(tools, second, first, false, circumstance);
    return sum;
}

void review_look_alikes(const ReviewTools& tools, std::vector<ReviewFinding>& findings) {
    const auto count = static_cast<std::uint32_t>(tools.base.causes.size());
    std::set<std::pair<std::uint32_t, std::uint32_t>> not_apart;
    for (std::uint32_t i = 0; i < count; ++i)
        for (std::uint32_t k = i + 1; k < count; ++k) {
            if (clearly_apart(tools, {i}, {k})) continue;
            const double distance = distance_between(tools, {i}, {k});
            if (distance >= least_distance) continue;
            not_apart.emplace(i, k);
            const Cause& a = tools.base.causes[Handle<Cause>{i}];
            const Cause& b = tools.base.causes[Handle<Cause>{k}];
            ReviewFinding finding = finding_of("cannot_be_told_apart", a.place);
            finding.about = {a.id, b.id};
            finding.text = "'" + a.id + "' and '" + b.id + "' cannot be told apart: all answers together move them only " +
                           decibans_to_text(distance) + " from each other";
            finding.mend = "give one of them a sign that the other does not bring about, or make one cause of the two";
            findings.push_back(std::move(finding));
        }
    std::set<std::pair<std::uint32_t, std::uint32_t>> looked_at;
    for (std::uint32_t i = 0; i < count; ++i)
        for (const Handle<Cause> other : tools.base.causes[Handle<Cause>{i}].not_to_confuse_with) {
            const auto pair = std::minmax(i, other.index);
            if (i == other.index || not_apart.contains(pair) || !looked_at.insert(pair).second) continue;
            if (told_apart_without_instruments(tools, {i}, other)) continue;
            const Cause& a = tools.base.causes[Handle<Cause>{i}];
            const Cause& b = tools.base.causes[other];
            ReviewFinding finding = finding_of("look_alikes_need_instruments", a.place);
            finding.about = {a.id, b.id};
            finding.text = "'" + a.id + "' is not to be confused with '" + b.id +
                           "', but no single sign that can be looked at, touched or dug for tells them apart by " +
                           decibans_to_text(least_distance);
            finding.mend = "link a sign of effort look, touch or dig to one of them, 'strongly' or 'usually' against the other";
            findings.push_back(std::move(finding));
        }
}

}  // namespace lidlift
