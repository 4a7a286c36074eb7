// The rhythm of the work at a tank: how often what comes round, and which steps and words of a record are that work. Figures
// are days unless said otherwise; where no source stands, it is common practice.
#pragma once

#include "engine/rule_base.hpp"
#include "engine/tank_record.hpp"

#include <array>
#include <string>
#include <string_view>
#include <vector>

namespace lidlift::routine {

/// So many days after the last time it may be done again, and is late.
struct Rhythm {
    int from = 0;
    int until = 0;
};

// ---- the resting heap
inline constexpr Rhythm turning = {5, 8};        ///< three or four turnings in two to three weeks (IASRI, read)
inline constexpr double calls_for_turning = 65;  ///< °C; above it the helpful microbes die (step keep_heap_in_band)
inline constexpr Rhythm probing_hot = {2, 3};    ///< every second day (step probe_heap_core)
inline constexpr Rhythm probing_cooling = {3, 5};
inline constexpr double still_hot = 40;    ///< °C
inline constexpr double cool_enough = 30;  ///< °C, for worms
inline constexpr double dry_heap = 45;     ///< % water; below it a heap slows down
inline constexpr int least_rest = 30;      ///< a filled bay rests 30 to 45 days
inline constexpr int usual_most_rest = 45;
inline constexpr int longest_filling = 14;  ///< a bay that gets fresh waste for longer never ripens all at once
inline constexpr int latest_filling = 21;
inline constexpr double little_room = 0.15;  ///< of the height

// ---- the worm bed
inline constexpr Rhythm feeding = {2, 7};       ///< 2-3 days when warm, 7 in an open barn (Sherman, read in a copy)
inline constexpr int first_feed = 7;            ///< the first feed a week after the worms (Virginia master gardeners, read)
inline constexpr int longest_saving = 4;        ///< a feed after a long gap is no larger than one for so many days
inline constexpr double too_warm_to_feed = 30;  ///< °C; breeding stops (Edwards, Table 18.3, read)
inline constexpr Rhythm looking = {5, 8};       ///< once a week
inline constexpr int least_as_bed = 28;         ///< four to six weeks from worms to harvest
inline constexpr int usual_most_as_bed = 42;
inline constexpr Rhythm crossing = {7, 14};   ///< look whether the worms cross: one week to two (cause worms_do_not_cross)
inline constexpr int window_of_harvest = 14;  ///< where the record names only the day from which on

// ---- at any stage
inline constexpr Rhythm emptying = {
    2, 4};  ///< the tray every second day, the sump twice a week (steps empty_the_sump, tip_out_water)
inline constexpr int remembers_work = 30;  ///< a look again that nobody took is told for so long

/// Work that comes round: the steps of the rule base that are it, and how people write it in their own words.
struct Routine {
    std::vector<std::string_view> steps;
    std::vector<std::string_view> words;  ///< beginnings of words, lower case
};
[[nodiscard]] const Routine& turned();
[[nodiscard]] const Routine& sump_emptied();
[[nodiscard]] const Routine& left_hungry();
[[nodiscard]] bool is(const Did& did, const Routine& routine, const RuleBase& rule_base);

/// Steps that due work itself refers to. A site's own rule base may lack some; a test holds that the shipped one has them.
inline constexpr std::array<std::string_view, 11> steps_to_do = {
    "turn_when_it_cools",     "wet_heap_in_lifts",   "keep_heap_in_band",  "probe_heap_core",
    "fill_next_bay",          "one_bay_at_a_time",   "bait_next_bay",      "empty_the_sump",
    "restock_after_pot_test", "old_bay_goes_hungry", "keep_old_bay_living"};

/// Does a word of `text` begin with `beginning`, which may be several words?
[[nodiscard]] bool word_begins(std::string_view text, std::string_view beginning);
[[nodiscard]] std::string lower(std::string text);

}  // namespace lidlift::routine
