// Entries of one kind, found by name or by a small typed handle, in the order in which they were read.
#pragma once

#include <compare>
#include <cstdint>
#include <limits>
#include <optional>
#include <string>
#include <string_view>
#include <unordered_map>
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

/// Entry needs a member `std::string id`. Ids are unique.
template <class Entry>
class Catalogue {
public:
    /// Adds an entry whose id is not yet there.
    Handle<Entry> add(Entry entry) {
        const Handle<Entry> handle{static_cast<std::uint32_t>(entries_.size())};
        by_id_.emplace(entry.id, handle);
        entries_.push_back(std::move(entry));
        return handle;
    }
    [[nodiscard]] std::optional<Handle<Entry>> find(std::string_view id) const {
        const auto found = by_id_.find(std::string(id));
        if (found == by_id_.end()) return std::nullopt;
        return found->second;
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

private:
    std::vector<Entry> entries_;
    std::unordered_map<std::string, Handle<Entry>> by_id_;
};

}  // namespace lidlift
