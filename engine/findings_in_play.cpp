#include "engine/findings_in_play.hpp"

#include "engine/same_observation.hpp"

#include <utility>

namespace lidlift {

FindingsInPlay::FindingsInPlay(const EvidenceModel& model, std::span<const NoisyOr> noisy_ors,
                               std::span<const Finding> findings)
    : model_(model) {
    make_matters(noisy_ors, findings);
    make_shares(noisy_ors, findings);
}

void FindingsInPlay::make_matters(std::span<const NoisyOr> noisy_ors, std::span<const Finding> findings) {
    const auto group_of = [&](std::uint32_t told) { return noisy_ors[findings[told].feature].feature().group; };
    findings_.reserve(findings.size());
    told_.reserve(findings.size());
    matters_.reserve(findings.size());
    std::vector<bool> taken(findings.size(), false);
    for (std::uint32_t first = 0; first < findings.size(); ++first) {
        if (taken[first]) continue;
        Matter matter{static_cast<std::uint32_t>(told_.size()), 0};
        for (std::uint32_t told = first; told < findings.size(); ++told) {
            if (told != first && (group_of(told) < 0 || group_of(told) != group_of(first))) continue;
            taken[told] = true;
            findings_.emplace_back(model_, noisy_ors[findings[told].feature], findings[told]);
            told_.push_back(told);
        }
        matter.end = static_cast<std::uint32_t>(told_.size());
        matters_.push_back(matter);
    }
}

void FindingsInPlay::make_shares(std::span<const NoisyOr> noisy_ors, std::span<const Finding> findings) {
    const auto for_each_tie = [&](std::uint32_t finding, const auto& visit) {
        const auto factors = noisy_ors[findings[told_[finding]].feature].factors();
        for (auto begin = factors.begin(); begin != factors.end();) {
            auto end = begin;
            while (end != factors.end() && end->cause == begin->cause) ++end;
            visit(begin->cause, FindingInPlay::Links{begin, end});
            begin = end;
        }
    };
    std::vector<std::uint32_t> tie_end(model_.prior.size(), 0);  // by cause
    for (std::uint32_t finding = 0; finding < findings_.size(); ++finding)
        for_each_tie(finding, [&](std::uint32_t cause, FindingInPlay::Links) { ++tie_end[cause]; });
    std::uint32_t count = 0;
    for (std::uint32_t& end : tie_end) end = std::exchange(count, count + end);  // where the cause's ties begin, as yet
    ties_.resize(count);
    for (std::uint32_t finding = 0; finding < findings_.size(); ++finding)
        for_each_tie(finding, [&](std::uint32_t cause, FindingInPlay::Links links) {
            ties_[tie_end[cause]++] = {finding, links};
        });

    shares_.reserve(count);
    share_begin_.reserve(tie_end.size() + 1);
    std::uint32_t begin = 0;
    for (const std::uint32_t end : tie_end) {
        share_begin_.push_back(static_cast<std::uint32_t>(shares_.size()));
        std::uint32_t matter = 0;
        for (; begin < end; begin = shares_.back().end) {
            while (matters_[matter].end <= ties_[begin].finding) ++matter;
            Share share{matter, begin, begin};
            while (share.end < end && ties_[share.end].finding < matters_[matter].end) ++share.end;
            shares_.push_back(share);
        }
    }
    share_begin_.push_back(static_cast<std::uint32_t>(shares_.size()));
}

/// Of findings that tell of one observation, those of the share with the cause that has it.
double FindingsInPlay::of_group(const Matter& matter, const Share& with) const {
    const Tie* tie = ties_.data() + with.begin;
    const Tie* end = ties_.data() + with.end;
    SameObservation ratios;
    for (std::uint32_t finding = matter.begin; finding < matter.end; ++finding) {
        const bool tied = tie != end && tie->finding == finding;
        ratios.take(tied ? findings_[finding].ratio_with(tie->links) : findings_[finding].ratio());
        if (tied) ++tie;
    }
    return ratios.together(model_.same_observation_counts);
}

void FindingsInPlay::add(const Share& share) {
    for (std::uint32_t tie = share.begin; tie < share.end; ++tie) findings_[ties_[tie].finding].add(ties_[tie].links);
    Matter& matter = matters_[share.matter];
    const bool one = matter.end - matter.begin == 1;
    matter.factor[++matter.depth] =
        one ? findings_[matter.begin].ratio() : of_group(matter, {share.matter, share.end, share.end});
}

void FindingsInPlay::take_back(const Share& share) {
    for (std::uint32_t tie = share.begin; tie < share.end; ++tie) findings_[ties_[tie].finding].take_back();
    --matters_[share.matter].depth;
}

double FindingsInPlay::add(std::uint32_t cause) {
    double change = 1;
    for (const Share& share : shares_of(cause)) {
        const double before = factor(share.matter);
        add(share);
        change *= factor(share.matter) / before;
    }
    return as_it_counts(change);
}

void FindingsInPlay::take_back(std::uint32_t cause) {
    for (const Share& share : shares_of(cause)) take_back(share);
}

double FindingsInPlay::gain(std::uint32_t cause) const {
    double change = 1;
    for (const Share& share : shares_of(cause)) change *= factor_with(share) / factor(share.matter);
    return as_it_counts(change);
}

}  // namespace lidlift
