// The kinds of thing that a review finds: one table, read by every output, so that each is explained in one place only.
#pragma once

#include "engine/review/finding.hpp"

#include <span>
#include <string_view>

namespace lidlift {

struct ReviewKind {
    std::string_view id;     ///< relied upon by others: in JSON, in SARIF, and in a rule base that answers a piece of advice
    int number;              ///< in the method's check list (its section 3.4, 1 to 21); 0: beyond that list
    FindingLevel level;      ///< of all its findings
    std::string_view title;  ///< a few words, without a full stop
    std::string_view why;    ///< why it matters: one or two plain sentences
};

/// All kinds, in the order in which they are explained.
[[nodiscard]] std::span<const ReviewKind> review_kinds();

/// The kind with that id, or null.
[[nodiscard]] const ReviewKind* find_review_kind(std::string_view id);

/// A finding of the kind `id`, at its kind's level. `id` is one of review_kinds().
[[nodiscard]] ReviewFinding finding_of(std::string_view id, Place place);

}  // namespace lidlift
