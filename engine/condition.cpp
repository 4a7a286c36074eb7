#include "engine/condition.hpp"

#include "engine/facts.hpp"

#include <algorithm>

namespace lidlift {
namespace {

Truth value(const Says& says, const Facts& facts) {
    const Observation* seen = facts.find(says.sign);
    if (!seen) return Truth::unknown;
    if (seen->present != 0 || seen->absent != 0) {
        if ((seen->present & says.answers) != 0) return Truth::yes;
        return (says.answers & ~seen->absent) == 0 ? Truth::no : Truth::unknown;
    }
    if (seen->possible == 0) return Truth::unknown;
    if ((seen->possible & ~says.answers) == 0) return Truth::yes;
    return (seen->possible & says.answers) == 0 ? Truth::no : Truth::unknown;
}

Truth value(const Lies& lies, const Facts& facts) {
    const Observation* seen = facts.find(lies.sign);
    if (!seen || !seen->measured) return Truth::unknown;
    if (lies.range.contains(*seen->measured)) return Truth::yes;
    return lies.range.meets(*seen->measured) ? Truth::unknown : Truth::no;
}

Truth concluded(Handle<Conclusion> conclusion, std::span<const Truth> conclusions) {
    return conclusion.index < conclusions.size() ? conclusions[conclusion.index] : Truth::unknown;
}

Truth quorum(const Quorum& quorum, const Facts& facts, std::span<const Truth> conclusions) {
    const int count = static_cast<int>(quorum.children.size());
    int yes = 0;
    int no = 0;
    for (const Condition& child : quorum.children) {
        const Truth truth = evaluate(child, facts, conclusions);
        yes += truth == Truth::yes;
        no += truth == Truth::no;
        // Settled; what the other children are can change nothing.
        if (yes >= quorum.wanted || count - no < quorum.wanted) break;
    }
    return at_least(quorum.wanted, count, yes, no);
}

template <class Visit>
void for_each_part(const Condition& condition, const Visit& visit) {
    if (const auto* negation = std::get_if<Negation>(&condition.node)) {
        for_each_part(negation->child.front(), visit);
    } else if (const auto* quorum = std::get_if<Quorum>(&condition.node)) {
        for (const Condition& child : quorum->children) for_each_part(child, visit);
    } else {
        visit(condition);
    }
}

template <class T>
void add_once(std::vector<T>& list, const T& item) {
    if (std::ranges::find(list, item) == list.end()) list.push_back(item);
}

void collect_deciders(const Condition& condition, const Facts& facts, std::span<const Truth> conclusions,
                      std::vector<const Condition*>& into) {
    const Truth whole = evaluate(condition, facts, conclusions);
    if (whole == Truth::unknown) return;
    if (const auto* negation = std::get_if<Negation>(&condition.node)) {
        collect_deciders(negation->child.front(), facts, conclusions, into);
    } else if (const auto* quorum = std::get_if<Quorum>(&condition.node)) {
        // To be true `wanted` true children suffice; to be false, all but `wanted - 1` false ones.
        const int count = static_cast<int>(quorum->children.size());
        int needed = whole == Truth::yes ? quorum->wanted : count - quorum->wanted + 1;
        for (const Condition& child : quorum->children) {
            if (needed <= 0) break;
            if (evaluate(child, facts, conclusions) != whole) continue;
            collect_deciders(child, facts, conclusions, into);
            --needed;
        }
    } else {
        into.push_back(&condition);
    }
}

void add_mention(const Condition& part, Mentions& into) {
    if (const auto* says = std::get_if<Says>(&part.node)) add_once(into.signs, says->sign);
    if (const auto* lies = std::get_if<Lies>(&part.node)) add_once(into.signs, lies->sign);
    if (const auto* known = std::get_if<SignKnown>(&part.node)) add_once(into.signs, known->sign);
    if (const auto* concluded = std::get_if<Concluded>(&part.node)) add_once(into.conclusions, concluded->conclusion);
    if (const auto* known = std::get_if<ConclusionKnown>(&part.node)) add_once(into.conclusions, known->conclusion);
}

void collect_undecided(const Condition& condition, const Facts& facts, std::span<const Truth> conclusions, Mentions& into) {
    // A part of a settled branch can change nothing, so only unsettled branches are entered.
    if (evaluate(condition, facts, conclusions) != Truth::unknown) return;
    if (const auto* negation = std::get_if<Negation>(&condition.node)) {
        collect_undecided(negation->child.front(), facts, conclusions, into);
    } else if (const auto* quorum = std::get_if<Quorum>(&condition.node)) {
        for (const Condition& child : quorum->children) collect_undecided(child, facts, conclusions, into);
    } else {
        add_mention(condition, into);
    }
}

}  // namespace

bool Range::contains(const Range& other) const {
    const bool low_fits = low < other.low || (low == other.low && (low_included || !other.low_included));
    const bool high_fits = high > other.high || (high == other.high && (high_included || !other.high_included));
    return low_fits && high_fits;
}

bool Range::meets(const Range& other) const {
    const auto before = [](const Range& a, const Range& b) {
        return a.high < b.low || (a.high == b.low && !(a.high_included && b.low_included));
    };
    return !before(*this, other) && !before(other, *this);
}

Range Range::shared_with(const Range& other) const {
    Range result = *this;
    if (other.low > low) result.low = other.low, result.low_included = other.low_included;
    if (other.low == low) result.low_included = low_included && other.low_included;
    if (other.high < high) result.high = other.high, result.high_included = other.high_included;
    if (other.high == high) result.high_included = high_included && other.high_included;
    return result;
}

Truth evaluate(const Condition& condition, const Facts& facts, std::span<const Truth> conclusions) {
    struct Evaluate {
        const Facts& facts;
        std::span<const Truth> conclusions;
        Truth operator()(const Says& node) const { return value(node, facts); }
        Truth operator()(const Lies& node) const { return value(node, facts); }
        Truth operator()(const Concluded& node) const { return concluded(node.conclusion, conclusions); }
        Truth operator()(const SignKnown& node) const { return truth(facts.find(node.sign) != nullptr); }
        Truth operator()(const ConclusionKnown& node) const {
            return truth(concluded(node.conclusion, conclusions) != Truth::unknown);
        }
        Truth operator()(const Negation& node) const { return !evaluate(node.child.front(), facts, conclusions); }
        Truth operator()(const Quorum& node) const { return quorum(node, facts, conclusions); }
    };
    return std::visit(Evaluate{facts, conclusions}, condition.node);
}

Mentions mentioned(const Condition& condition) {
    Mentions result;
    for_each_part(condition, [&](const Condition& part) { add_mention(part, result); });
    return result;
}

std::vector<const Condition*> deciders(const Condition& condition, const Facts& facts, std::span<const Truth> conclusions) {
    std::vector<const Condition*> result;
    collect_deciders(condition, facts, conclusions, result);
    return result;
}

Mentions undecided(const Condition& condition, const Facts& facts, std::span<const Truth> conclusions) {
    Mentions result;
    collect_undecided(condition, facts, conclusions, result);
    return result;
}

}  // namespace lidlift
