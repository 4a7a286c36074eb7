// How much of the ammonia in water is there as a gas, which is what stings and what kills worms.
#pragma once

namespace lidlift {

/// Share (0 to 1) of total ammonia nitrogen that is un-ionised, after Emerson, Russo, Lund & Thurston 1975, J. Fish. Res. Board
/// Can. 32:2379-2383: pKa = 0.09018 + 2729.92/T (K). For 0 to 50 °C and fresh water; compost liquor is salty, so its share is
/// rather smaller than this. Temperatures beyond are taken as 0 or 50 °C.
[[nodiscard]] double un_ionised_share(double ph, double celsius);

inline constexpr double coldest_for_ammonia = 0;
inline constexpr double hottest_for_ammonia = 50;

}  // namespace lidlift
