#include "engine/gain_rows.hpp"

#include <algorithm>
#include <utility>

namespace lidlift {

GainRows::GainRows(FindingsInPlay& findings, std::span<const std::uint32_t> causes, std::span<const double> odds_alone,
                   std::span<const CauseMask> apart, std::size_t largest_set)
    : findings_(findings), causes_(causes), largest_set_(largest_set), gains_(causes.size() * (largest_set + 1)) {
    std::ranges::copy(odds_alone, gains_.begin());
    find_concerns();
    weigh_pairs(apart);
}

void GainRows::find_concerns() {
    concerned_.resize(findings_.matter_count());
    concerns_end_.assign(findings_.matter_count(), 0);
    first_slot_.reserve(causes_.size());
    for (std::size_t i = 0; i < causes_.size(); ++i) {
        first_slot_.push_back(slot_count_);
        for (const FindingsInPlay::Share& share : shares_of(i)) {
            concerned_[share.matter].set(i);
            ++concerns_end_[share.matter];
            ++slot_count_;
        }
    }
    std::size_t end = 0;
    for (std::size_t& concerns : concerns_end_) concerns = std::exchange(end, end + concerns);  // their beginning, as yet
    concerns_.resize(slot_count_);
    inverses_.reserve(slot_count_ * (largest_set_ + 1));
    for (std::uint32_t i = 0; i < causes_.size(); ++i)
        for (const FindingsInPlay::Share& share : shares_of(i)) {
            concerns_[concerns_end_[share.matter]++] = {i, inverses_.size(), &share};
            inverses_.push_back(1 / findings_.factor_with(share));
        }
    inverses_.resize(slot_count_ * (largest_set_ + 1));
}

std::span<const GainRows::Concern> GainRows::concerns_behind(std::uint32_t matter, std::size_t one) const {
    const auto begin = concerns_.begin() + static_cast<std::ptrdiff_t>(matter == 0 ? 0 : concerns_end_[matter - 1]);
    const auto end = concerns_.begin() + static_cast<std::ptrdiff_t>(concerns_end_[matter]);
    return {std::ranges::upper_bound(begin, end, one, {}, &Concern::position), end};
}

/// What each pair means to each other: 1 where nothing found has to do with both, 0 where they never stand together.
void GainRows::weigh_pairs(std::span<const CauseMask> apart) {
    const std::size_t count = causes_.size();
    pairs_.assign(count * count, 1);
    first_pair_.reserve(slot_count_);
    for (std::size_t i = 0; i < count; ++i) {
        double* pairs = pairs_.data() + i * count;
        for (const FindingsInPlay::Share& share : shares_of(i)) {
            first_pair_.push_back(shares_taken_.size());
            findings_.add(share);
            const double alone = findings_.factor(share.matter);
            for (const Concern& other : concerns_behind(share.matter, i)) {
                const double factor = findings_.factor_with(*other.share) * inverses_[other.slot];
                shares_taken_.push_back(1 / factor);
                pairs[other.position] *= findings_.as_it_counts(factor / alone);
            }
            findings_.take_back(share);
        }
        apart[i].for_each([&](std::size_t j) { pairs[j] = 0; });
    }
}

void GainRows::add(const CauseMask& set, std::size_t size, std::size_t one) {
    const std::size_t count = causes_.size();
    const double* before = gains_.data() + size * count;
    const double* pair = pairs_.data() + one * count;
    double* row = gains_.data() + (size + 1) * count;
    for (std::size_t j = one + 1; j < count; ++j) row[j] = before[j] * pair[j];
    const bool goes_on = !only_row_needed(size);
    const double* inverses = inverses_beside(size);
    double* with_one = inverses_beside(size + 1);
    if (goes_on) std::copy(inverses, inverses + slot_count_, with_one);
    std::size_t slot = first_slot_[one];
    for (const FindingsInPlay::Share& share : shares_of(one)) {
        const double* taken = shares_taken_.data() + first_pair_[slot];
        const double inverse_alone = inverses_[slot++];
        if (concerned_[share.matter].meets(set)) {
            const double of_set = findings_.factor(share.matter);
            findings_.add(share);
            // The row as it stands takes the set and the one for two that do not heed each other.
            const double unheeding = of_set / (inverse_alone * findings_.factor(share.matter));
            for (const Concern& other : concerns_behind(share.matter, one)) {
                const double factor = findings_.factor_with(*other.share);
                row[other.position] *= findings_.as_it_counts(unheeding * factor * inverses[other.slot] * *taken++);
                if (goes_on) with_one[other.slot] = 1 / factor;
            }
            if (!goes_on) findings_.take_back(share);
        } else if (goes_on) {
            for (const Concern& other : concerns_behind(share.matter, one))
                with_one[other.slot] = *taken++ * inverses_[other.slot];
            findings_.add(share);
        }
    }
}

void GainRows::take_back(std::size_t size, std::size_t one) {
    if (!only_row_needed(size)) findings_.take_back(causes_[one]);
}

}  // namespace lidlift
