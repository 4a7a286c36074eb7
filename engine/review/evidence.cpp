#include "engine/review/evidence.hpp"

#include "engine/advice.hpp"
#include "engine/noisy_or.hpp"
#include "engine/quantity.hpp"
#include "engine/review/best_case.hpp"
#include "engine/review/counted_twice.hpp"
#include "engine/review/kinds.hpp"
#include "engine/review/look_alikes.hpp"
#include "engine/words.hpp"

#include <algorithm>
#include <array>
#include <cmath>
#include <map>
#include <numeric>
#include <set>

namespace lidlift {
namespace {

/// Weights that differ by less (decibans) are the same.
constexpr double no_difference = 0.05;

class EvidenceReview {
public:
    EvidenceReview(const ReviewTools& tools, std::vector<ReviewFinding>& findings)
        : tools_(tools), base_(tools.base), findings_(findings) {}

    void review() {
        for (std::uint32_t i = 0; i < base_.causes.size(); ++i) {
            const Handle<Cause> cause{i};
            for (const Link& link : base_.causes[cause].links) says_nothing(cause, link);
            no_evidence_against(cause);
            cannot_reach_action(cause);
        }
        sign_of_most_causes();
        too_many_expected();
    }

private:
    /// The link could be taken away, and nothing would weigh differently for its cause.
    void says_nothing(Handle<Cause> cause, const Link& link) {
        const EvidenceModel& model = tools_.ranker.model();
        Feature with = model.features[feature_of(tools_.ranker, link.when)];
        std::erase_if(with.links, [&](const Feature::Link& other) { return other.cause != cause.index; });
        Feature without = with;
        std::erase_if(without.links, [&](const Feature::Link& other) { return speaks_of(link, other.value); });
        const NoisyOr told(model, with);
        const NoisyOr untold(model, without);
        const std::array<std::uint16_t, 1> alone = {static_cast<std::uint16_t>(cause.index)};
        for (std::size_t value = 0; value < with.background.size(); ++value) {
            const double change = told.chance(answer_set(value), alone, 0) / untold.chance(answer_set(value), alone, 0);
            if (std::abs(10 * std::log10(change)) >= no_difference) return;
        }
        const Cause& entry = base_.causes[cause];
        ReviewFinding finding = finding_of("says_nothing", link.place);
        finding.about = {entry.id, name_of(link.when)};
        finding.text = "the line '" + link.when_text + "', '" + link.words + "', of '" + entry.id +
                       "' changes nothing: without it every answer weighs the same";
        finding.mend = "take the line out, or say how often the cause really shows it";
        findings_.push_back(std::move(finding));
    }

    [[nodiscard]] bool speaks_of(const Link& link, std::size_t value) const {
        const auto* says = std::get_if<Says>(&link.when);
        if (!says) return true;
        const SignSort sort = base_.signs[says->sign].sort;
        // Of two values the links stand at the first, whichever they were written for.
        return sort == SignSort::several || sort == SignSort::yes_no || base_.signs[says->sign].answers.size() == 2 ||
               (says->answers & answer_set(value)) != 0;
    }

    [[nodiscard]] const std::string& name_of(const Observable& when) const {
        if (const auto* says = std::get_if<Says>(&when)) return base_.signs[says->sign].id;
        return base_.conclusions[std::get<Concluded>(when).conclusion].id;
    }

    void no_evidence_against(Handle<Cause> handle) {
        const Cause& cause = base_.causes[handle];
        if (cause.cannot_be_when || restricted_to_stages(cause)) return;
        double against = 0;
        for (const FeatureStrength& strength : tools_.strengths[handle.index]) against += strength.most_against();
        for (const Circumstance& circumstance : cause.made_likelier_by) against += std::min(0.0, circumstance.weight);
        if (against <= -least_against) return;
        ReviewFinding finding = finding_of("no_evidence_against", cause.place);
        finding.about = {cause.id};
        finding.text = "nothing speaks against '" + cause.id + "': all answers together lower it by " +
                       decibans_to_text(-against) + " at most";
        finding.mend = "link a sign that it shows 'usually' or 'almost always', or one that points against it";
        findings_.push_back(std::move(finding));
    }

    [[nodiscard]] bool restricted_to_stages(const Cause& cause) const {
        return base_.stage && (~cause.stages & all_answers(base_.signs[*base_.stage].answers.size())) != 0;
    }

    /// The least chance from which one of the cause's steps is shown.
    [[nodiscard]] double least_chance(const Cause& cause) const {
        double least = cause.steps.empty() ? least_chance_to_act : 1;
        for (const Handle<Step> step : cause.steps) least = std::min(least, base_.steps[step].needed_chance);
        return least;
    }

    void cannot_reach_action(Handle<Cause> handle) {
        const Cause& cause = base_.causes[handle];
        const double wanted = least_chance(cause);
        Facts best = best_.speaking_for(handle);
        if (best_.chance(handle, best) >= wanted) return;
        best = best_.improved(handle, std::move(best), wanted);
        if (best_.chance(handle, best) >= wanted) return;
        std::string highest;
        if (whole_rankings_++ < most_whole_rankings) {
            const RankedCause* found = nullptr;
            const Ranking ranking = tools_.ranker.rank(best);
            found = ranking.find(handle);
            if (found && found->there >= wanted) return;
            highest = found ? "reaches a chance of " + percent(found->there) : "is ruled out";
        } else {
            highest = "stays below";
        }
        ReviewFinding finding = finding_of("cannot_reach_action", cause.place);
        finding.about = {cause.id};
        finding.witness = witness_of(base_, best);
        finding.text = "even when everything speaks for it, '" + cause.id + "' " + highest +
                       (highest == "stays below" ? " the " : ", but its steps are shown from ") + percent(wanted) +
                       (highest == "stays below" ? " from which its steps are shown" : "");
        finding.mend = "link signs that point to it more strongly, or make it more common";
        findings_.push_back(std::move(finding));
    }

    static std::string percent(double chance) { return number_to_text(std::round(1000 * chance) / 10) + " %"; }

    void sign_of_most_causes() {
        if (base_.causes.size() < fewest_causes_for_shares) return;
        std::map<std::string, std::set<std::uint32_t>> causes;
        std::map<std::string, Place> places;
        for (std::uint32_t i = 0; i < base_.causes.size(); ++i)
            for (const Link& link : base_.causes[Handle<Cause>{i}].links) {
                const auto* says = std::get_if<Says>(&link.when);
                causes[name_of(link.when)].insert(i);
                places[name_of(link.when)] =
                    says ? base_.signs[says->sign].place : base_.conclusions[std::get<Concluded>(link.when).conclusion].place;
            }
        for (const auto& [id, of] : causes) {
            const double share = static_cast<double>(of.size()) / static_cast<double>(base_.causes.size());
            if (share <= most_linked) continue;
            ReviewFinding finding = finding_of("sign_of_most_causes", places[id]);
            finding.about = {id};
            finding.text = "'" + id + "' is linked to " + std::to_string(of.size()) + " of " +
                           std::to_string(base_.causes.size()) + " causes, so it hardly tells one from another";
            finding.mend = "keep the links where it says most, or split the sign into what differs";
            findings_.push_back(std::move(finding));
        }
    }

    void too_many_expected() {
        if (base_.weighing.expected_causes || base_.causes.empty()) return;
        double sum = 0;
        for (const Cause& cause : base_.causes) sum += cause.how_common;
        if (sum <= most_expected) return;
        const bool written = base_.weighing.place.line > 0;
        ReviewFinding finding = finding_of("too_many_expected", written ? base_.weighing.place : base_.causes.begin()->place);
        finding.about = {"weighing"};
        finding.text =
            "by 'how common' every bed is expected to have " + number_to_text(std::round(10 * sum) / 10) + " causes at once";
        finding.mend = "say 'expected causes: 1.5' under 'weighing', or make some causes less common";
        findings_.push_back(std::move(finding));
    }

    const ReviewTools& tools_;
    const RuleBase& base_;
    std::vector<ReviewFinding>& findings_;
    BestCases best_{tools_.answering, tools_.few, tools_.strengths};
    int whole_rankings_ = 0;
};

}  // namespace

void review_evidence(const RuleBase& rule_base, std::vector<ReviewFinding>& findings) {
    const ReviewTools tools(rule_base);
    EvidenceReview(tools, findings).review();
    review_counted_twice(tools, findings);
    review_look_alikes(tools, findings);
}

}  // namespace lidlift
