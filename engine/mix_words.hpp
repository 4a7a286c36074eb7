// What a person writes of a mixture - "30 kg kitchen waste and 3 buckets of dry leaves", "60 % moisture", "dry leaves up to 20
// kg" - as values.
#pragma once

#include "engine/materials.hpp"
#include "engine/mixture.hpp"
#include "engine/outcome.hpp"
#include "engine/vessels.hpp"
#include "engine/windows.hpp"

#include <optional>
#include <string>
#include <string_view>
#include <vector>

namespace lidlift {

/// So much of one material.
struct Load {
    Handle<Material> material;
    Amount amount;
};

inline constexpr std::size_t most_loads = 40;            ///< in one mixture
inline constexpr std::size_t longest_loads_text = 8192;  ///< bytes

/// Amounts, each with its material; "of" and "and" between them are passed over. Fault: which piece cannot be read, with the
/// nearest name.
[[nodiscard]] Outcome<std::vector<Load>> read_loads(std::string_view text, const MaterialNames& names, const Vessels& vessels);

/// A material that may be added, and how much of it there is.
struct AtHand {
    Handle<Material> material;
    std::optional<Amount> stock;
};

/// "dry leaves", "dry_leaves up to 20 kg".
[[nodiscard]] Outcome<AtHand> read_at_hand(std::string_view text, const MaterialNames& names, const Vessels& vessels);

/// What a mixture should come to, and how it was said: "a moisture of 60 %".
struct Target {
    Goal goal;
    const StageWindows* stage = nullptr;  ///< where it is what suits a stage
    std::string words;
};

/// "60 % moisture", "moisture 55 to 60 %", "60 %", "25 C:N", "C:N 25 to 30", "30:1", "resting", "worms" (the best of their
/// windows).
[[nodiscard]] Outcome<Target> read_target(std::string_view text);

/// Both; Fault where they speak of the same figure.
[[nodiscard]] Outcome<Target> both(const Target& one, const Target& other);

enum class FigureName { moisture, nitrogen, carbon_to_nitrogen, density };

/// A figure that somebody measured, in place of the rule base's.
struct MeasuredFigure {
    Handle<Material> material;
    FigureName figure = FigureName::moisture;
    Estimate value;
};

/// "kitchen waste moisture 82 %", "dry leaves density 90 to 110 kg/m3", "dry leaves C:N 60".
[[nodiscard]] Outcome<MeasuredFigure> read_measured(std::string_view text, const MaterialNames& names);

/// Puts the measured figures of `material` into `what`.
void apply(Ingredient& what, Handle<Material> material, const std::vector<MeasuredFigure>& measured);

}  // namespace lidlift
