#include "engine/findings_in_play.hpp"

#include "engine/contains.hpp"
#include "engine/same_observation.hpp"

#include <algorithm>
#include <cmath>

namespace lidlift {
namespace {

constexpr std::uint32_t no_group = static_cast<std::uint32_t>(-1);

}  // namespace

FindingsInPlay::FindingsInPlay(const EvidenceModel& model, std::span<const NoisyOr> noisy_ors,
                               std::span<const Finding> findings)
    : model_(model), ties_(model.prior.size()), groups_of_(model.prior.size()), matters_of_(model.prior.size()) {
    tie(noisy_ors, findings);
    make_groups();
    find_matters();
}

void FindingsInPlay::tie(std::span<const NoisyOr> noisy_ors, std::span<const Finding> findings) {
    findings_.reserve(findings.size());
    for (std::uint32_t position = 0; position < findings.size(); ++position) {
        const NoisyOr& noisy_or = noisy_ors[findings[position].feature];
        findings_.emplace_back(model_, noisy_or, findings[position]);
        const auto factors = noisy_or.factors();
        for (auto begin = factors.begin(); begin != factors.end();) {
            auto end = begin;
            while (end != factors.end() && end->cause == begin->cause) ++end;
            ties_[begin->cause].push_back({position, {begin, end}});
            begin = end;
        }
    }
}

void FindingsInPlay::make_groups() {
    group_of_.assign(findings_.size(), no_group);
    for (std::uint32_t i = 0; i < findings_.size(); ++i) {
        if (findings_[i].group() < 0 || group_of_[i] != no_group) continue;
        Group group;
        for (std::uint32_t j = i; j < findings_.size(); ++j)
            if (findings_[j].group() == findings_[i].group()) group.findings.push_back(j);
        if (group.findings.size() == 1) continue;  // it counts in full
        for (const auto member : group.findings) group_of_[member] = static_cast<std::uint32_t>(groups_.size());
        group.factor[0] = 1;
        groups_.push_back(std::move(group));
    }
    for (std::size_t cause = 0; cause < ties_.size(); ++cause)
        for (const Tie& tie : ties_[cause])
            if (const auto group = group_of_[tie.finding]; group != no_group && !contains(groups_of_[cause], group))
                groups_of_[cause].push_back(group);
}

/// Groups are numbered first, then the findings that stand alone.
void FindingsInPlay::find_matters() {
    matter_count_ = groups_.size() + findings_.size();
    for (std::size_t cause = 0; cause < ties_.size(); ++cause) {
        matters_of_[cause] = groups_of_[cause];
        for (const Tie& tie : ties_[cause])
            if (group_of_[tie.finding] == no_group)
                matters_of_[cause].push_back(static_cast<std::uint32_t>(groups_.size()) + tie.finding);
    }
}

/// What a group multiplies the odds by, with one further cause of these ties.
double FindingsInPlay::factor_with(const Group& group, std::span<const Tie> ties) const {
    SameObservation ratios;
    for (const auto finding : group.findings) {
        const auto tie = std::ranges::find(ties, finding, &Tie::finding);
        ratios.take(tie == ties.end() ? findings_[finding].ratio() : findings_[finding].ratio_with(tie->links));
    }
    return ratios.together(model_.same_observation_counts);
}

double FindingsInPlay::as_it_counts(double gain) const { return model_.shrink == 1 ? gain : std::pow(gain, model_.shrink); }

double FindingsInPlay::add(std::uint32_t cause) {
    double gain = 1;
    for (const Tie& tie : ties_[cause]) {
        FindingInPlay& finding = findings_[tie.finding];
        finding.add(tie.links);
        if (group_of_[tie.finding] == no_group) gain *= finding.ratio() / finding.ratio_before();
    }
    for (const auto g : groups_of_[cause]) {
        Group& group = groups_[g];
        const double before = group.factor[group.depth];
        gain *= (group.factor[++group.depth] = factor_with(group, {})) / before;
    }
    return as_it_counts(gain);
}

void FindingsInPlay::take_back(std::uint32_t cause) {
    for (const Tie& tie : ties_[cause]) findings_[tie.finding].take_back();
    for (const auto group : groups_of_[cause]) --groups_[group].depth;
}

double FindingsInPlay::gain(std::uint32_t cause) const {
    double gain = 1;
    for (const Tie& tie : ties_[cause])
        if (group_of_[tie.finding] == no_group) {
            const FindingInPlay& finding = findings_[tie.finding];
            gain *= finding.ratio_with(tie.links) / finding.ratio();
        }
    for (const auto g : groups_of_[cause]) gain *= factor_with(groups_[g], ties_[cause]) / groups_[g].factor[groups_[g].depth];
    return as_it_counts(gain);
}

}  // namespace lidlift
