// Amounts as people measure them out: in kilograms, in litres, or in buckets and barrows whose size somebody stated.
#pragma once

#include "engine/outcome.hpp"
#include "engine/quantity.hpp"

#include <optional>
#include <string>
#include <string_view>
#include <vector>

namespace lidlift {

/// A measure of a stated size: "bucket", 10 L.
struct Vessel {
    std::string name;   ///< singular, lower case
    double litres = 0;  ///< above 0
};

class Vessels {
public:
    /// Adds a measure, or states its size anew.
    void state(Vessel vessel);
    /// By its name in the singular or plural ("bucket", "buckets", "barrow", "wheelbarrows"), or null.
    [[nodiscard]] const Vessel* find(std::string_view name) const;
    [[nodiscard]] const std::vector<Vessel>& all() const { return vessels_; }

private:
    std::vector<Vessel> vessels_;
};

/// How much of a material: a mass or a volume, and how it was written.
struct Amount {
    enum class By { mass, volume };
    By by = By::mass;
    double size = 0;      ///< kg or L; finite, not negative
    std::string written;  ///< "3 buckets"
};

/// "12 kg", "30 L", "2.5 lb", "3 buckets", "1 barrow of 80 L". A unit that is neither a mass nor a volume, a measure whose size
/// nobody stated, and a bare number are faults that say what is wanted.
[[nodiscard]] Outcome<Amount> read_amount(std::string_view text, const Vessels& vessels);

}  // namespace lidlift
