#include "engine/finding_in_play.hpp"

#include <bit>

namespace lidlift {

FindingInPlay::FindingInPlay(const EvidenceModel& model, const NoisyOr& noisy_or, const Finding& finding)
    : feature_(&noisy_or.feature()),
      finding_(finding),
      lowest_(model.lowest),
      highest_(model.highest),
      count_(noisy_or.value_count() == 2 ? 1 : noisy_or.value_count()),
      values_(count_ * (most_in_a_set + 1)) {
    for (std::size_t value = 0; value < count_; ++value) {
        values_[value] = {1 - feature_->background[value]};
        if (!two_valued()) count_in(sums_[0], values_[value], value, 1);
    }
    const std::size_t answers = noisy_or.value_count();
    if (finding_.values == all_answers(answers)) {
        offset_ = 1;  // it says nothing
    } else {
        // As in NoisyOr::reported. What it would be under none of the listed causes counts as 1.
        const double others = static_cast<double>(answers - 1);
        slope_ = 1 - finding_.error - finding_.error / others;
        offset_ = finding_.error * std::popcount(finding_.values) / others;
        if (two_valued() && finding_.values != answer_set(0)) {
            offset_ += slope_;
            slope_ = -slope_;
        }
        const double none = ratio_with({});
        offset_ /= none;
        slope_ /= none;
    }
    ratio_[0] = 1;
}

void FindingInPlay::add(Links links) {
    const Value* now = values_.data() + depth_ * count_;
    Value* next = values_.data() + (depth_ + 1) * count_;
    std::copy(now, now + count_, next);
    for (const NoisyOr::Factor& link : links) next[link.value] = with(now[link.value], link);
    if (!two_valued()) sums_[depth_ + 1] = sums_with(links);
    ++depth_;
    ratio_[depth_] = ratio_with({});
}

/// Values that no cause in play is linked to share what the others leave.
double FindingInPlay::named(const Sums& sums) const {
    if (sums.unlinked_count == 0) return sums.named_linked / sums.linked;
    const double remainder = std::max(NoisyOr::least_remainder, 1 - sums.linked);
    // named_linked + named_unlinked * remainder / unlinked, over linked + remainder, with one division
    return (sums.named_linked * sums.unlinked + sums.named_unlinked * remainder) / (sums.unlinked * (sums.linked + remainder));
}

/// Only the values to which the further cause is linked change.
FindingInPlay::Sums FindingInPlay::sums_with(Links links) const {
    Sums sums = sums_[depth_];
    const Value* now = values_.data() + depth_ * count_;
    for (const NoisyOr::Factor& link : links) {
        count_in(sums, now[link.value], link.value, -1);
        count_in(sums, with(now[link.value], link), link.value, 1);
    }
    return sums;
}

/// Counts one value in (`times` 1) or out (-1).
void FindingInPlay::count_in(Sums& sums, const Value& value, std::size_t position, int times) const {
    const double named = (finding_.values & answer_set(position)) != 0 ? times : 0;
    if (value.linked) {
        const double chance = shown(value);
        sums.linked += times * chance;
        sums.named_linked += named * chance;
    } else {
        const double background = feature_->background[position];
        sums.unlinked += times * background;
        sums.named_unlinked += named * background;
        sums.unlinked_count += times;
    }
}

}  // namespace lidlift
