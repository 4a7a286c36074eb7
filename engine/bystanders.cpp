#include "engine/bystanders.hpp"

#include <algorithm>

namespace lidlift {

Bystanders::Bystanders(std::vector<double> odds, const std::vector<Pair>& never_together, int most)
    : odds_(std::move(odds)),
      apart_from_(odds_.size()),
      most_(static_cast<std::size_t>(std::clamp(most, 0, most_in_a_set))),
      stride_(most_ + 1) {
    for (const auto& [a, b] : never_together) {
        apart_from_[a].set(b);
        apart_from_[b].set(a);
    }
    find_blocks();
    sum_up();
}

void Bystanders::find_blocks() {
    CauseMask placed;
    for (std::uint32_t first = 0; first < odds_.size(); ++first) {
        if (placed.has(first)) continue;
        if (!apart_from_[first].any()) {
            free_.push_back(first);
            continue;
        }
        Block block;
        block.members.set(first);
        for (CauseMask open = block.members; open.any();) {
            CauseMask next;
            open.for_each([&](std::size_t one) { next.add(apart_from_[one]); });
            next.remove(block.members);
            block.members.add(next);
            open = next;
        }
        placed.add(block.members);
        blocks_.push_back(block);
    }
}

/// Adds up, by number of members, what the allowed sets weigh together that are made of a set of `size` members by those of
/// `left`.
void Bystanders::add_larger(const CauseMask& left, std::size_t size, double weight, Polynomial& sums,
                            std::vector<Polynomial>* with) const {
    if (size == most_) return;
    left.for_each([&](std::size_t one) {
        const double with_one = weight * odds_[one];
        if (size + 1 == most_) {
            sums[most_] += with_one;
            if (with) (*with)[one][most_] += with_one;
            return;
        }
        CauseMask behind = left;
        behind.keep_from(one + 1);
        behind.remove(apart_from_[one]);
        Polynomial larger{};
        larger[size + 1] = with_one;
        if (behind.any()) add_larger(behind, size + 1, with_one, larger, with);
        for (std::size_t i = size + 1; i <= most_; ++i) {
            sums[i] += larger[i];
            if (with) (*with)[one][i] += larger[i];
        }
    });
}

/// The empty set included.
Bystanders::Polynomial Bystanders::sum_of(const CauseMask& block, std::vector<Polynomial>* with) const {
    Polynomial sets{1};
    add_larger(block, 0, 1, sets, with);
    return sets;
}

void Bystanders::multiply(Polynomial& by, const Polynomial& factor) const {
    for (std::size_t i = stride_; i-- > 0;) {
        by[i] *= factor[0];
        for (std::size_t j = 1; j <= i; ++j) by[i] += by[i - j] * factor[j];
    }
}

/// The sums for all sets. Blocks, and those that are free, have nothing to do with one another, so that their sums multiply
/// like polynomials; what stands beside one of them is the product of all before it and all after it. Only positive numbers are
/// added, so nothing is lost.
void Bystanders::sum_up() {
    std::vector<Polynomial> with(blocks_.empty() ? 0 : odds_.size(), Polynomial{});
    for (Block& block : blocks_) block.sets = sum_of(block.members, &with);
    const std::size_t parts = free_.size() + blocks_.size();
    const auto multiply_by_part = [&](Polynomial& by, std::size_t i) {
        if (i >= free_.size()) return multiply(by, blocks_[i - free_.size()].sets);
        for (std::size_t k = most_; k > 0; --k) by[k] += by[k - 1] * odds_[free_[i]];
    };
    std::vector<double> before;  // by part, then number of members
    before.reserve(parts * stride_);
    up_to_ = {1};
    for (std::size_t i = 0; i < parts; ++i) {
        before.insert(before.end(), up_to_.begin(), up_to_.begin() + static_cast<std::ptrdiff_t>(stride_));
        multiply_by_part(up_to_, i);
    }
    for (std::size_t slots = 1; slots <= most_; ++slots) up_to_[slots] += up_to_[slots - 1];
    with_.resize(odds_.size() * stride_);
    Polynomial after{1};
    for (std::size_t i = parts; i-- > 0;) {
        Polynomial others{};
        std::copy_n(before.begin() + static_cast<std::ptrdiff_t>(i * stride_), stride_, others.begin());
        multiply(others, after);
        if (i < free_.size()) {
            double* sums = with_.data() + free_[i] * stride_;
            for (std::size_t slots = 1; slots <= most_; ++slots)
                sums[slots] = sums[slots - 1] + odds_[free_[i]] * others[slots - 1];
        } else {
            blocks_[i - free_.size()].members.for_each([&](std::size_t member) {
                multiply(with[member], others);
                double* sums = with_.data() + member * stride_;
                sums[0] = with[member][0];
                for (std::size_t slots = 1; slots <= most_; ++slots) sums[slots] = sums[slots - 1] + with[member][slots];
            });
        }
        multiply_by_part(after, i);
    }
}

/// For one or two members by counting out and in again what is left out; for more anew. Counting out loses a digit for each
/// power of ten by which the odds of what is left out exceed 1.
double Bystanders::all_without(std::size_t slots, const CauseMask& left_out) const {
    if (slots == 0 || !left_out.any()) return all(slots);
    if (slots <= 2) {
        double sum = all(slots);
        left_out.for_each([&](std::size_t one) {
            sum -= with(one, slots);
            if (slots == 1) return;
            CauseMask others = left_out;
            others.keep_from(one + 1);
            others.remove(apart_from_[one]);
            others.for_each([&](std::size_t other) { sum += odds_[one] * odds_[other]; });
        });
        return sum;
    }
    Polynomial product{1};
    for (const std::uint32_t one : free_) {
        if (left_out.has(one)) continue;
        for (std::size_t i = slots; i > 0; --i) product[i] += product[i - 1] * odds_[one];
    }
    for (const Block& block : blocks_) {
        CauseMask left = block.members;
        left.remove(left_out);
        multiply(product, block.members.meets(left_out) ? sum_of(left, nullptr) : block.sets);
    }
    double sum = 0;
    for (std::size_t i = 0; i <= slots; ++i) sum += product[i];
    return sum;
}

void Bystanders::add_each_without(std::size_t slots, const CauseMask& left_out, double weight,
                                  std::vector<double>& into) const {
    if (slots == 0) return;
    for (std::uint32_t one = 0; one < size(); ++one) {
        if (left_out.has(one)) continue;
        // Beside this one stand all that are neither left out nor apart from it.
        CauseMask out = left_out;
        out.add(apart_from_[one]);
        out.set(one);
        into[one] += weight * odds_[one] * all_without(slots - 1, out);
    }
}

}  // namespace lidlift
