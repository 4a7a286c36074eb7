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
    for (std::size_t value = 0; value < count_; ++value) values_[value] = {1 - feature_->background[value]};
    none_ = chance({values_.data(), count_});
    ratio_[0] = 1;
}

void FindingInPlay::add(Links links) {
    const Value* before = values_.data() + depth_ * count_;
    Value* now = values_.data() + ++depth_ * count_;
    std::copy(before, before + count_, now);
    for (const NoisyOr::Factor& link : links) {
        Value& value = now[link.value];
        value.not_shown *= link.not_shown;
        value.held_back *= link.held_back;
        value.linked = true;
    }
    ratio_[depth_] = chance({now, count_}) / none_;
}

double FindingInPlay::shown(const Value& value) const {
    return std::clamp((1 - value.not_shown) * value.held_back, lowest_, highest_);
}

double FindingInPlay::chance(std::span<const Value> values) const {
    const double error = finding_.error;
    if (count_ == 1) {
        if (finding_.values == all_answers(2)) return 1;
        const double reported = error + (1 - 2 * error) * shown(values[0]);
        return finding_.values == answer_set(0) ? reported : 1 - reported;
    }
    if (finding_.values == all_answers(count_)) return 1;
    double linked = 0;
    double unlinked_background = 0;
    double named_linked = 0;
    double named_unlinked = 0;
    for (std::size_t i = 0; i < count_; ++i) {
        const bool named = (finding_.values & answer_set(i)) != 0;
        if (values[i].linked) {
            const double chance = shown(values[i]);
            linked += chance;
            if (named) named_linked += chance;
        } else {
            unlinked_background += feature_->background[i];
            if (named) named_unlinked += feature_->background[i];
        }
    }
    double sum = linked;
    double total = named_linked;
    if (unlinked_background > 0) {
        const double remainder = std::max(NoisyOr::least_remainder, 1 - linked);
        sum += remainder;
        total += named_unlinked * remainder / unlinked_background;
    }
    total /= sum;
    return total * (1 - error) + error * (std::popcount(finding_.values) - total) / static_cast<double>(count_ - 1);
}

}  // namespace lidlift
