// A round of a site: every tank with its stages, its likely causes, its dangers and what is due, the most urgent first.
#pragma once

#include "engine/capacity.hpp"
#include "engine/diagnosis.hpp"
#include "engine/due_work.hpp"
#include "engine/site.hpp"

#include <cstddef>
#include <optional>
#include <string>
#include <vector>

namespace lidlift {

/// In the order of the round.
enum class Urgency { danger, unreadable, likely_cause, overdue, today, this_week, nothing };

/// A record as it was read; without `record` it could not be, and the complaints say why.
struct TankFile {
    std::string file;
    std::optional<TankRecord> record;
    std::vector<Complaint> complaints;
};

/// The likeliest cause in one bay that needs mending.
struct FoundCause {
    std::size_t bay = 0;
    Handle<Cause> cause;
    double chance = 0;
    std::vector<Handle<Cause>> brings;  ///< likely too, and only its consequences
};

struct TankToday {
    TankFile tank;
    TankState state;
    std::vector<std::optional<Diagnosis>> diagnoses;  ///< by bay; none for an empty one
    std::vector<FoundCause> causes;                   ///< at most one a bay, the likeliest first
    std::vector<Handle<Caution>> dangers;  ///< that what was seen calls for by itself: of level stop, or an emergency
    bool emergency = false;                ///< people first, nothing else is told
    std::vector<DueWork> due;
    std::size_t ahead = 0;  ///< things in the record that lie after the day, and are left out
    Urgency urgency = Urgency::nothing;
};

struct Round {
    Day today;
    Site site;
    std::vector<TankToday> tanks;  ///< the most urgent first; of equals by the likeliest cause, then by file
    Capacity capacity;
    /// Everything that must be read before any work of the round is done, the gravest first.
    std::vector<Handle<Caution>> cautions;
};

/// From this chance on a cause counts as found: the lower edge of "roughly even chance".
inline constexpr double found_from = likely_root;

[[nodiscard]] Round make_round(const Ranker& ranker, Site site, std::vector<TankFile> files, Day today);

/// The cautions that what was seen of a tank calls for by itself; in an emergency all that must be read.
[[nodiscard]] std::vector<Handle<Caution>> dangers_of(const TankToday& tank);

/// Those, and the ones that its due work needs.
[[nodiscard]] std::vector<Handle<Caution>> cautions_of(const TankToday& tank);

}  // namespace lidlift
