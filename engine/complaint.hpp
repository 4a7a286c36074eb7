// What is wrong with the user's input, and where; the one way in which any reader reports a mistake.
#pragma once

#include <compare>
#include <string>
#include <vector>

namespace lidlift {

/// A place in a text: file name as the user gave it, line and column counted from 1, columns in code points. Line 0: the file
/// as a whole.
struct Place {
    std::string file;
    int line = 0;
    int column = 0;
    friend auto operator<=>(const Place&, const Place&) = default;
};

/// One mistake. `text` is a sentence; `hint` is how to mend it ("did you mean ...?"), or empty. `kind` is the kind of finding
/// that a review makes of it, where that is a special one (review/kinds), or empty.
struct Complaint {
    Place place;
    std::string text;
    std::string hint;
    std::string kind = {};
    friend bool operator==(const Complaint&, const Complaint&) = default;
};

/// "file:line:column", as far as known.
[[nodiscard]] std::string to_text(const Place& place);

/// "file:line:column: text (hint)".
[[nodiscard]] std::string to_text(const Complaint& complaint);

/// Collects complaints. After `limit` of them it only counts, so that hostile input cannot flood the screen.
class Complaints {
public:
    static constexpr std::size_t limit = 50;

    void add(Place place, std::string text, std::string hint = {}, std::string kind = {});
    [[nodiscard]] bool empty() const { return list_.empty(); }
    /// Further complaints are only counted, so nobody will read them.
    [[nodiscard]] bool full() const { return list_.size() >= limit; }
    /// Sorted by file, line, column; of equal ones only the first. Ends with a count of those beyond the limit, if any.
    [[nodiscard]] std::vector<Complaint> sorted() const;

private:
    std::vector<Complaint> list_;
    std::size_t beyond_limit_ = 0;
};

}  // namespace lidlift
