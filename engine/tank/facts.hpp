// The facts of one bay, topic by topic. Each adds what the record shows and keeps silent about the rest.
#pragma once

#include "engine/tank/fact_list.hpp"

namespace lidlift::tank {

/// How long what was seen counts: first surely, then with doubt, then no more, in days.
struct Lasting {
    int sure;
    int doubtful;
};
inline constexpr Lasting lasting = {2, 7};            ///< smells, moisture, worms, animals ... change within days
inline constexpr Lasting lasting_set_up = {14, 90};   ///< lid, drain, roof, mesh change when somebody changes them
inline constexpr Lasting lasting_product = {14, 60};  ///< what was found of the finished compost

/// What was seen and read lately.
void add_noted_facts(FactList& facts, const BayKnown& known);
/// Load, shares, dung, dust, bedding, slurry.
void add_feed_facts(FactList& facts, const BayKnown& known);
/// Temperature's trend, the heap's peak and course.
void add_heat_facts(FactList& facts, const BayKnown& known);
/// Stage, days, worms put in, size, what it is kept in.
void add_stage_facts(FactList& facts, const BayKnown& known);
/// The wall, the next bay, the turns.
void add_neighbour_facts(FactList& facts, const BayKnown& known);

}  // namespace lidlift::tank
