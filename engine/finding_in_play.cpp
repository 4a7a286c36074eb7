#include "engine/finding_in_play.hpp"

#include <algorithm>
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
        count_in(sums_[0], values_[value], value, 1);
    }
    none_ = chance(sums_[0]);
    ratio_[0] = 1;
}

void FindingInPlay::add(Links links) {
    const Value* now = values_.data() + depth_ * count_;
    Value* next = values_.data() + (depth_ + 1) * count_;
    std::copy(now, now + count_, next);
    for (const NoisyOr::Factor& link : links) next[link.value] = with(now[link.value], link);
    sums_[depth_ + 1] = sums_with(links);
    ratio_[depth_ + 1] = chance(sums_[depth_ + 1]) / none_;
    ++depth_;
}

double FindingInPlay::ratio_with(Links links) const { return chance(sums_with(links)) / none_; }

FindingInPlay::Value FindingInPlay::with(Value value, const NoisyOr::Factor& link) {
    value.not_shown *= link.not_shown;
    value.held_back *= link.held_back;
    value.linked = true;
    return value;
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
        const double chance = std::clamp((1 - value.not_shown) * value.held_back, lowest_, highest_);
        sums.linked += times * chance;
        sums.named_linked += named * chance;
    } else {
        const double background = feature_->background[position];
        sums.unlinked += times * background;
        sums.named_unlinked += named * background;
        sums.unlinked_count += times;
    }
}

double FindingInPlay::chance(const Sums& sums) const {
    if (count_ == 1) {
        // Of two values the second is the rest.
        if (finding_.values == all_answers(2)) return 1;
        const double shown = sums.unlinked_count > 0 ? std::clamp(sums.unlinked, lowest_, highest_) : sums.linked;
        const double first = finding_.error + (1 - 2 * finding_.error) * shown;
        return finding_.values == answer_set(0) ? first : 1 - first;
    }
    if (finding_.values == all_answers(count_)) return 1;
    double sum = sums.linked;
    double total = sums.named_linked;
    if (sums.unlinked_count > 0) {
        const double remainder = std::max(NoisyOr::least_remainder, 1 - sums.linked);
        sum += remainder;
        total += sums.named_unlinked * remainder / sums.unlinked;
    }
    total /= sum;
    return total * (1 - finding_.error) +
           finding_.error * (std::popcount(finding_.values) - total) / static_cast<double>(count_ - 1);
}

}  // namespace lidlift
