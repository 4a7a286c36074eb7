// What a step's formula speaks of ("the bed", "the top 20 cm", "the last load"), found in one tank's state.
#pragma once

#include "engine/amount_formula.hpp"
#include "engine/tank_state.hpp"

#include <cstddef>
#include <optional>
#include <string>
#include <vector>

namespace lidlift {

/// The tank that amounts are reckoned for, and the bay that the diagnosis is about. Valid as long as what it points to.
struct TankContext {
    const TankRecord* record = nullptr;
    const TankState* state = nullptr;
    std::size_t bay = 0;
};

/// A load that lay longer than this has become part of the bed.
inline constexpr int days_of_last_load = 14;
/// What is at least so moist counts as wet feed, % (dry matter as it is kept lies below, kitchen waste and dung above).
inline constexpr double least_moisture_of_wet_part = 50;

/// What was found, and the sentences that say where it comes from; or what the record lacks, in words that follow "the record
/// should also hold". Where neither is, the tank has no such thing.
template <class T>
struct InTank {
    std::optional<T> value;
    std::vector<std::string> because;
    std::vector<std::string> missing;

    [[nodiscard]] explicit operator bool() const { return value.has_value(); }
};

class TankParts {
public:
    explicit TankParts(const TankContext& tank) : tank_(tank) {}

    /// The bay that plays the part: the one of the diagnosis where it does, otherwise the only one that does.
    [[nodiscard]] InTank<std::size_t> bay_of(const TankPart& part) const;
    [[nodiscard]] const BayState& state(std::size_t bay) const { return tank_.state->bays[bay]; }
    [[nodiscard]] const RecordedBay& recorded(std::size_t bay) const { return tank_.record->bays[bay]; }
    /// "the left bay".
    [[nodiscard]] std::string name_of(std::size_t bay) const;

    /// What lies there, with how moist it is now; for `carbon` as it went in, since its carbon is only known of then.
    [[nodiscard]] InTank<std::vector<Portion>> portions(const TankPart& part, bool carbon = false) const;
    [[nodiscard]] InTank<Estimate> kg(const TankPart& part) const;
    [[nodiscard]] InTank<Estimate> litres(const TankPart& part) const;
    [[nodiscard]] InTank<Estimate> m2(const TankPart& part) const;
    /// Of the dry part of the last load: what is no wet part of it.
    [[nodiscard]] InTank<std::vector<Portion>> dry_part() const;

    /// Up to the rim, L.
    [[nodiscard]] InTank<double> free_litres(std::size_t bay) const;
    /// What the gaps of a part can still take up, L.
    [[nodiscard]] InTank<double> air_litres(const TankPart& part) const;

private:
    [[nodiscard]] InTank<Estimate> share_of_top(const TankPart& part, std::size_t bay) const;
    [[nodiscard]] InTank<std::vector<Portion>> last_load(std::size_t bay) const;

    const TankContext& tank_;
};

/// Sum of the portions' volumes; none where a density is missing.
[[nodiscard]] std::optional<Estimate> litres_of(const std::vector<Portion>& portions);

}  // namespace lidlift
