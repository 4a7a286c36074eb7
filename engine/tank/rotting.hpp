// How much of what was put in is left after some days: a simple model with wide bounds, since nobody weighs a bay.
//
// Dry matter falls towards a rest that rots only over years, d(t) = rest + (1 - rest) e^(-t/T). The typical course keeps 35 %
// in the end (our own choice) and goes through the 46 % lost in 29 days of Soares 2012 (potato peel, grass and straw; read); it
// then loses 26 % in 12 days, where Kumar 2010 found 33 % of the volatile solids (read), which are four fifths or more of the
// dry matter. The slow course takes twice as long and keeps half, the fast one takes two thirds of the time and keeps 30 %: our
// own bounds, for cold and for warm, well-aired beds. Volume goes the same way, towards the 30 to 60 % less that is given for
// heaps (read, from a weak place).
#pragma once

#include "engine/estimate.hpp"

namespace lidlift::tank {

/// Share of the dry matter that is left `days` after it went in, between 0 and 1. 1 for days <= 0.
[[nodiscard]] Estimate dry_matter_left(int days);

/// Share of the volume as filled that is left.
[[nodiscard]] Estimate volume_left(int days);

/// Share of the volume as filled that there is in the end.
[[nodiscard]] Estimate volume_in_the_end();

/// % of fresh mass: what drains and dries as it lies leaves a bed between these; material that went in drier stays as it is. No
/// source: the low end is the least that worms bear and the high end the wettest that drains no more (Edwards, Table 18.3).
[[nodiscard]] Estimate moisture_settled(const Estimate& as_filled);

}  // namespace lidlift::tank
