// How much of what a step needs, as the trainer wrote it: names and units not yet looked up, each with its column. The grammar
// makes it; the rule base reader resolves it to an engine/amount_formula.
#pragma once

#include "engine/written_condition.hpp"

#include <optional>
#include <string>
#include <string_view>
#include <variant>
#include <vector>

namespace lidlift::written {

/// "25 to 30"; a single number is both ends.
struct Span {
    double low = 0;
    double high = 0;
    int column = 1;
    friend bool operator==(const Span&, const Span&) = default;
};

/// "3 to 5 cm".
struct Measured {
    Span size;
    Name unit;
    friend bool operator==(const Measured&, const Measured&) = default;
};

/// "the bed", "the heap" ...: one bay of the tank, by the part it plays.
enum class Where { bed, heap, bay, next_bay };
/// "the bed", "the next bay".
[[nodiscard]] std::string_view to_word(Where where);

/// What is there: a whole bay, its top, or what was put into it.
struct Part {
    enum class What { all, top, last_load, wet_part, feed_of_a_day };
    What what = What::all;
    Where where = Where::bay;  ///< all and top only
    Measured depth;            ///< top only
    int column = 1;
    friend bool operator==(const Part&, const Part&) = default;
};

/// "dry_leaves or torn_paper to bring the bed to 75 % moisture".
struct Reach {
    enum class Goal { moisture, carbon_to_nitrogen };
    std::vector<Name> of;
    Part part;
    Goal goal = Goal::moisture;
    Span to;
    friend bool operator==(const Reach&, const Reach&) = default;
};

/// "a layer of 3 to 5 cm of dry_leaves over half of the bed".
struct Layer {
    Measured depth;
    std::vector<Name> of;
    bool half = false;
    Where where = Where::bed;
    friend bool operator==(const Layer&, const Layer&) = default;
};

/// What a dose goes by: "m2 of the bed", "10 kg of worms", "bucket of the last load", "bucket of kitchen_waste to fill the next
/// bay".
struct Basis {
    double number = 1;
    Name unit;
    std::variant<Part, Name> what;
    std::optional<Where> fill;  ///< for a name only
    int column = 1;             ///< of the number, or of the unit where there is none
    friend bool operator==(const Basis&, const Basis&) = default;
};

/// "30 to 50 g of ground_limestone for each m2 of the bed".
struct Dose {
    Measured size;
    std::vector<Name> of;
    bool in_all = false;  ///< what is there already counts
    bool a_day = false;
    Basis each;
    friend bool operator==(const Dose&, const Dose&) = default;
};

/// ", at most 0.7 to 2 kg for each m2 of the bed".
struct Limit {
    Measured size;
    Basis each;
    friend bool operator==(const Limit&, const Limit&) = default;
};

struct Formula {
    std::variant<Reach, Layer, Dose> how;
    std::vector<Limit> limits;
    int portions = 1;
    friend bool operator==(const Formula&, const Formula&) = default;
};

/// The formula in the language it was written in; reading it again gives an equal one but for columns.
[[nodiscard]] std::string to_text(const Formula& amount);

}  // namespace lidlift::written
