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

inline constexpr double largest_vessel = 5'000;      ///< L; a lorry's skip and no more
inline constexpr std::size_t longest_measure = 30;   ///< bytes of a measure's name
inline constexpr double largest_amount = 1'000'000;  ///< kg or L in one amount

/// A measure from its name in the singular or plural ("buckets") and its size ("10 L", "2 gal_us"). Fault: the name is a unit,
/// or no plain word; the size is no volume, or beyond the limits.
[[nodiscard]] Outcome<Vessel> read_vessel(std::string_view name, std::string_view size);

class Vessels {
public:
    /// Adds a measure, or states its size anew.
    void state(Vessel vessel);
    /// By its name in the singular or plural ("bucket", "buckets", "barrow", "wheelbarrows"), or null. A wheelbarrow is a
    /// barrow and a pail is a bucket, unless they were stated apart.
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

/// "12 kg", "30 L", "2.5 lb", "3 buckets", "half a bucket", "1 barrow of 80 L", "2 sacks of 15 kg". A unit that is neither a
/// mass nor a volume, a measure whose size nobody stated, and a bare number are faults that say what is wanted.
[[nodiscard]] Outcome<Amount> read_amount(std::string_view text, const Vessels& vessels);

/// Whether `word` may end an amount: a unit of mass or volume, a stated measure, or what people usually measure out with. For
/// telling an amount from the material's name after it.
[[nodiscard]] bool is_measure(std::string_view word, const Vessels& vessels);

/// "3 buckets", "about 3.5 buckets": `litres` in the measure, rounded to halves from 1 on and to two digits below.
[[nodiscard]] std::string in_vessels(double litres, const Vessel& vessel);

}  // namespace lidlift
