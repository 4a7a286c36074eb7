// Entries of one kind, found by name or by a small typed handle, in the order in which they were read.
#pragma once

#include <bit>
#include <compare>
#include <cstddef>
#include <cstdint>
#include <functional>
#include <limits>
#include <optional>
#include <string>
#include <string_view>
#include <utility>
#include <vector>

namespace lidlift {

/// Names the entry at `index` of a Catalogue<Entry>; a handle of one kind cannot be used for another.
template <class Entry>
struct Handle {
    static constexpr std::uint32_t nowhere = std::numeric_limits<std::uint32_t>::max();  ///< not yet set

    std::uint32_t index = nowhere;
    friend auto operator<=>(const Handle&, const Handle&) = default;
};

/// Entry needs a member `std::string id`. Ids are unique, and stay as they are once an entry was added.
template <class Entry>
class Catalogue {
public:
    /// Room for that many entries, so that none is moved as they are added.
    void expect(std::size_t count) {
        entries_.reserve(count);
        if (slots_.size() < 2 * count) spread_over(std::bit_ceil(2 * count));
    }
    /// Adds an entry whose id is not yet there.
    Handle<Entry> add(Entry entry) {
        const Handle<Entry> handle{static_cast<std::uint32_t>(entries_.size())};
        entries_.push_back(std::move(entry));
        if (slots_.size() < 2 * entries_.size())
            spread_over(std::bit_ceil(2 * entries_.size()));
        else
            slots_[slot_of(entries_.back().id)] = handle;
        return handle;
    }
    [[nodiscard]] std::optional<Handle<Entry>> find(std::string_view id) const {
        if (slots_.empty()) return std::nullopt;
        const Handle<Entry> found = slots_[slot_of(id)];
        if (found == Handle<Entry>{}) return std::nullopt;
        return found;
    }
    [[nodiscard]] const Entry& operator[](Handle<Entry> handle) const { return entries_[handle.index]; }
    [[nodiscard]] Entry& operator[](Handle<Entry> handle) { return entries_[handle.index]; }
    [[nodiscard]] std::size_t size() const { return entries_.size(); }
    [[nodiscard]] bool empty() const { return entries_.empty(); }
    [[nodiscard]] auto begin() const { return entries_.begin(); }
    [[nodiscard]] auto end() const { return entries_.end(); }
    [[nodiscard]] std::vector<std::string> ids() const {
        std::vector<std::string> result;
        result.reserve(entries_.size());
        for (const Entry& entry : entries_) result.push_back(entry.id);
        return result;
    }
    friend bool operator==(const Catalogue& a, const Catalogue& b) { return a.entries_ == b.entries_; }

private:
    /// Where the entry of that name is noted, or the free place where it would be.
    [[nodiscard]] std::size_t slot_of(std::string_view id) const {
        std::size_t slot = std::hash<std::string_view>{}(id) % slots_.size();
        while (slots_[slot] != Handle<Entry>{} && entries_[slots_[slot].index].id != id) slot = (slot + 1) % slots_.size();
        return slot;
    }
    void spread_over(std::size_t count) {
        slots_.assign(count, Handle<Entry>{});
        for (std::uint32_t i = 0; i < entries_.size(); ++i) slots_[slot_of(entries_[i].id)] = Handle<Entry>{i};
    }

    std::vector<Entry> entries_;
    /// The handles, each near the place that its entry's name hashes to; at least half of the places are free, so that a search
    /// ends soon. A table of numbers, because a start of the program fills it and a map of names would cost as much as all
    /// else.
    std::vector<Handle<Entry>> slots_;
};

}  // namespace lidlift
