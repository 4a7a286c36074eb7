// A set of causes, or of other things of which there are no more than causes that are combined, by their positions.
#pragma once

#include "engine/evidence_model.hpp"

#include <array>
#include <bit>
#include <cstddef>
#include <cstdint>

namespace lidlift {

struct CauseMask {
    std::array<std::uint64_t, 2> bits{};

    void set(std::size_t position) { bits[position / 64] |= std::uint64_t{1} << position % 64; }
    void add(const CauseMask& other) {
        bits[0] |= other.bits[0];
        bits[1] |= other.bits[1];
    }
    void remove(const CauseMask& other) {
        bits[0] &= ~other.bits[0];
        bits[1] &= ~other.bits[1];
    }
    /// What lies before `position` goes.
    void keep_from(std::size_t position) {
        if (position >= 64) bits[0] = 0;
        bits[position / 64] &= ~std::uint64_t{0} << position % 64;
    }
    [[nodiscard]] bool has(std::size_t position) const { return (bits[position / 64] >> position % 64 & 1) != 0; }
    [[nodiscard]] bool any() const { return (bits[0] | bits[1]) != 0; }
    [[nodiscard]] bool meets(const CauseMask& other) const {
        return ((bits[0] & other.bits[0]) | (bits[1] & other.bits[1])) != 0;
    }
    /// The positions, rising.
    template <class Visit>
    void for_each(const Visit& visit) const {
        for (std::size_t word = 0; word < bits.size(); ++word)
            for (std::uint64_t left = bits[word]; left != 0; left &= left - 1)
                visit(word * 64 + static_cast<std::size_t>(std::countr_zero(left)));
    }
};
static_assert(most_combined < 128);

}  // namespace lidlift
