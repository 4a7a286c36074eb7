#include "engine/bystanders.hpp"

#include <algorithm>

namespace lidlift {
namespace {

bool holds(std::span<const std::uint32_t> list, std::uint32_t one) { return std::ranges::find(list, one) != list.end(); }

}  // namespace

Bystanders::Bystanders(std::vector<double> odds, const std::vector<Pair>& never_together, int most)
    : odds_(std::move(odds)),
      apart_from_(odds_.size()),
      most_(static_cast<std::size_t>(std::clamp(most, 0, most_in_a_set))),
      stride_(most_ + 1) {
    for (const auto& [a, b] : never_together)
        if (!apart(a, b)) {
            apart_from_[a].push_back(b);
            apart_from_[b].push_back(a);
        }
    find_blocks();
    sum_up();
}

bool Bystanders::apart(std::size_t a, std::uint32_t b) const { return holds(apart_from_[a], b); }

void Bystanders::find_blocks() {
    std::vector<bool> placed(odds_.size(), false);
    for (std::uint32_t first = 0; first < odds_.size(); ++first) {
        if (placed[first]) continue;
        if (apart_from_[first].empty()) {
            free_.push_back(first);
            continue;
        }
        Block block{{first}};
        placed[first] = true;
        for (std::size_t i = 0; i < block.members.size(); ++i)
            for (const std::uint32_t other : apart_from_[block.members[i]])
                if (!placed[other]) {
                    placed[other] = true;
                    block.members.push_back(other);
                }
        blocks_.push_back(std::move(block));
    }
}

/// Every allowed set within one block.
void Bystanders::add_sets(const Block& block, std::span<const std::uint32_t> left_out, std::size_t next, double weight,
                          Positions& members, Polynomial& all, std::vector<Polynomial>* with) const {
    all[members.size()] += weight;
    if (with)
        for (const std::uint32_t member : members) (*with)[member][members.size()] += weight;
    if (members.size() == most_) return;
    for (std::size_t i = next; i < block.members.size(); ++i) {
        const std::uint32_t one = block.members[i];
        if (holds(left_out, one) || std::ranges::any_of(members, [&](auto member) { return apart(member, one); })) continue;
        members.push_back(one);
        add_sets(block, left_out, i + 1, weight * odds_[one], members, all, with);
        members.pop_back();
    }
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
    const std::size_t parts = free_.size() + blocks_.size();
    std::vector<Polynomial> with(blocks_.empty() ? 0 : odds_.size(), Polynomial{});
    Positions members;
    for (Block& block : blocks_) add_sets(block, {}, 0, 1, members, block.sets, &with);
    const auto part = [&](std::size_t i) {
        if (i >= free_.size()) return blocks_[i - free_.size()].sets;
        Polynomial one{1};
        if (most_ > 0) one[1] = odds_[free_[i]];
        return one;
    };
    std::vector<Polynomial> before(parts + 1, Polynomial{1});
    for (std::size_t i = 0; i < parts; ++i) {
        before[i + 1] = before[i];
        multiply(before[i + 1], part(i));
    }
    up_to_ = before.back();
    for (std::size_t slots = 1; slots <= most_; ++slots) up_to_[slots] += up_to_[slots - 1];
    with_.assign(odds_.size() * stride_, 0);
    const auto note = [&](std::uint32_t one, Polynomial own, const Polynomial& others) {
        multiply(own, others);
        double sum = 0;
        for (std::size_t slots = 0; slots <= most_; ++slots) with_[one * stride_ + slots] = sum += own[slots];
    };
    Polynomial after{1};
    for (std::size_t i = parts; i-- > 0;) {
        Polynomial others = before[i];
        multiply(others, after);
        if (i < free_.size()) {
            Polynomial own{};
            if (most_ > 0) own[1] = odds_[free_[i]];
            note(free_[i], own, others);
        } else {
            for (const std::uint32_t member : blocks_[i - free_.size()].members) note(member, with[member], others);
        }
        multiply(after, part(i));
    }
}

/// For one or two members by counting out and in again what is left out; for more anew. Counting out loses a digit for each
/// power of ten by which the odds of what is left out exceed 1.
double Bystanders::all_without(std::size_t slots, std::span<const std::uint32_t> left_out) const {
    if (slots == 0 || left_out.empty()) return all(slots);
    if (slots <= 2) {
        double sum = all(slots);
        for (std::size_t i = 0; i < left_out.size(); ++i) {
            sum -= with(left_out[i], slots);
            for (std::size_t j = 0; slots == 2 && j < i; ++j)
                if (!apart(left_out[i], left_out[j])) sum += odds_[left_out[i]] * odds_[left_out[j]];
        }
        return sum;
    }
    Polynomial product{1};
    for (const std::uint32_t one : free_) {
        if (holds(left_out, one)) continue;
        for (std::size_t i = slots; i > 0; --i) product[i] += product[i - 1] * odds_[one];
    }
    Positions members;
    for (const Block& block : blocks_) {
        if (std::ranges::none_of(block.members, [&](auto member) { return holds(left_out, member); })) {
            multiply(product, block.sets);
            continue;
        }
        Polynomial sets{};
        add_sets(block, left_out, 0, 1, members, sets, nullptr);
        multiply(product, sets);
    }
    double sum = 0;
    for (std::size_t i = 0; i <= slots; ++i) sum += product[i];
    return sum;
}

void Bystanders::add_each_without(std::size_t slots, std::span<const std::uint32_t> left_out, double weight,
                                  std::vector<double>& into) const {
    std::vector<std::uint32_t> out(left_out.begin(), left_out.end());
    for (std::uint32_t one = 0; one < size(); ++one) {
        if (slots == 0 || holds(left_out, one)) continue;
        if (slots == 1) {
            into[one] += weight * odds_[one];
            continue;
        }
        // Beside this one stand all that are neither left out nor apart from it.
        out.resize(left_out.size());
        for (const std::uint32_t other : apart_from_[one])
            if (!holds(left_out, other)) out.push_back(other);
        out.push_back(one);
        into[one] += weight * odds_[one] * all_without(slots - 1, out);
    }
}

}  // namespace lidlift
