#include "engine/nearest_name.hpp"

#include <algorithm>
#include <numeric>

namespace lidlift {
namespace {

/// The name as people remember it: letter case and the kind of gap between words left out of account.
std::string folded(std::string_view name) {
    std::string result(name);
    for (char& c : result) {
        if (c >= 'A' && c <= 'Z') c = static_cast<char>(c - 'A' + 'a');
        if (c == ' ' || c == '-') c = '_';
    }
    return result;
}

bool is_beginning(std::string_view part, std::string_view whole) { return part.size() >= 3 && whole.starts_with(part); }

/// One of the words that `whole` is made of.
bool is_word_of(std::string_view part, std::string_view whole) {
    return part.size() >= 3 && ("_" + std::string(whole) + "_").find("_" + std::string(part) + "_") != std::string::npos;
}

/// The shortest name that has `wanted` for one of its words.
const std::string* shortest_with_word(std::string_view wanted, const std::vector<std::string>& known) {
    const std::string* shortest = nullptr;
    for (const std::string& candidate : known)
        if (is_word_of(wanted, folded(candidate)) && (shortest == nullptr || candidate.size() < shortest->size()))
            shortest = &candidate;
    return shortest;
}

}  // namespace

std::size_t edit_distance(std::string_view a, std::string_view b) {
    // Three rows of the table are alive: a swap of neighbours looks back by two.
    std::vector<std::size_t> before(b.size() + 1), above(b.size() + 1), row(b.size() + 1);
    std::iota(row.begin(), row.end(), std::size_t{0});
    for (std::size_t i = 1; i <= a.size(); ++i) {
        before.swap(above);
        above.swap(row);
        row[0] = i;
        for (std::size_t j = 1; j <= b.size(); ++j) {
            const std::size_t replaced = above[j - 1] + (a[i - 1] == b[j - 1] ? 0 : 1);
            row[j] = std::min({replaced, above[j] + 1, row[j - 1] + 1});
            if (i > 1 && j > 1 && a[i - 1] == b[j - 2] && a[i - 2] == b[j - 1]) row[j] = std::min(row[j], before[j - 2] + 1);
        }
    }
    return row[b.size()];
}

std::optional<std::string> nearest_name(std::string_view name, const std::vector<std::string>& known) {
    const std::string wanted = folded(name);
    // Something of the name must stay: "x" is no slip for "C".
    const std::size_t most = wanted.size() < 2 ? 0 : std::max<std::size_t>(wanted.size() / 3, 1);
    const std::string* nearest = nullptr;
    std::size_t nearest_distance = 0;
    for (const std::string& candidate : known) {
        const std::string other = folded(candidate);
        const bool begins = is_beginning(wanted, other) || is_beginning(other, wanted);
        const std::size_t longer = std::max(wanted.size(), other.size());
        const std::size_t shorter = std::min(wanted.size(), other.size());
        if (!begins && longer - shorter > most) continue;  // a distance is at least the difference in length
        const std::size_t distance = begins ? longer - shorter : edit_distance(wanted, other);
        if ((begins || distance <= most) && (nearest == nullptr || distance < nearest_distance)) {
            nearest = &candidate;
            nearest_distance = distance;
        }
    }
    if (nearest == nullptr) nearest = shortest_with_word(wanted, known);
    if (nearest == nullptr) return std::nullopt;
    return *nearest;
}

std::string did_you_mean(std::string_view name, const std::vector<std::string>& known) {
    const std::optional<std::string> nearest = nearest_name(name, known);
    return nearest ? "did you mean '" + *nearest + "'?" : "";
}

}  // namespace lidlift
