// A tank's own record: its inside, its bays, its worms, and what was done and seen day by day. One YAML file a tank; the format
// is described in rules/TANKS.md, and what the limits below mean too.
#pragma once

#include "engine/calendar.hpp"
#include "engine/complaint.hpp"
#include "engine/estimate.hpp"
#include "engine/facts.hpp"
#include "engine/rule_base.hpp"
#include "engine/vessels.hpp"

#include <cstddef>
#include <optional>
#include <string>
#include <string_view>
#include <variant>
#include <vector>

namespace lidlift {

struct RecordedBay {
    std::string name;   ///< "left", "1"; unique in the tank
    double area = 0;    ///< m2 of floor
    double height = 0;  ///< m, from floor to rim
};

/// A material that went in, or out, or on top; by volume its mass is a range, since densities are.
struct RecordedMaterial {
    Handle<Material> material;
    Amount amount;
    Estimate kg;
};

struct Added {
    std::vector<RecordedMaterial> materials;
};
/// A slurry or water that was sprinkled; water counts as a material.
struct Sprinkled {
    std::vector<RecordedMaterial> materials;
};
struct WormsIn {
    double kg = 0;
};
struct WormsOut {
    double kg = 0;
};
/// An answer to a sign, read off an instrument or seen: what `lidlift why` takes as sign=value.
struct Noted {
    Handle<Sign> sign;
    Observation observation;
    bool read = false;  ///< with an instrument
};
/// A step of the rule base, or some other work in a person's own words.
struct Did {
    std::optional<Handle<Step>> step;
    std::string words;
};
struct Harvested {
    Amount amount;
};
/// From here on nothing is in the bay: no feed, no bedding, no worms.
struct Emptied {};
/// A sample on the scales before and after drying, each time with its vessel; kg. 0 <= vessel < dry <= wet.
struct Dried {
    double vessel = 0;
    double wet = 0;
    double dry = 0;
};
/// A measure filled to the rim on the scales; kg. 0 <= vessel < full.
struct BucketWeighed {
    double vessel = 0;
    double full = 0;
    double litres = 0;  ///< that it holds; above 0
};
/// Seeds in an extract of the compost, and as many in clean water beside it: how many sprouted (both as counts or both as
/// per cent), and the mean length of their roots in mm. None negative.
struct SeedTested {
    double sprouted = 0;
    double root = 0;
    double sprouted_in_water = 0;
    double root_in_water = 0;
};
/// Nothing but a note.
struct Remarked {};
using Happening = std::variant<Added, Sprinkled, WormsIn, WormsOut, Noted, Did, Harvested, Emptied, Dried, BucketWeighed,
                               SeedTested, Remarked>;

/// One thing that happened on one day, in one bay or in the whole tank. An entry of the file that holds several makes several
/// of these, in the order of rules/TANKS.md section 2, each with its note and place.
struct RecordedEntry {
    Day on;
    std::optional<std::size_t> bay;  ///< position in `bays`; none: the whole tank, of several bays
    Happening what;
    std::string note;
    Place place;
};

struct TankRecord {
    std::string name;
    double length = 0, width = 0, height = 0;  ///< inside, m; 0 where it was not stated
    std::vector<RecordedBay> bays;             ///< at least one
    std::optional<bool> wall_openings;         ///< does the dividing wall let worms through?
    std::string species;                       ///< as written; empty: not stated
    Vessels vessels;
    std::vector<RecordedEntry> entries;  ///< in the order of days, of one day in the order of the file
};

inline constexpr std::size_t most_entries_of_a_tank = 10'000;  ///< of the file
inline constexpr std::size_t most_bays = 12;
inline constexpr std::size_t most_measures = 20;
inline constexpr std::size_t most_materials_at_once = 50;
inline constexpr std::size_t most_works_at_once = 20;
inline constexpr std::size_t longest_bay_name = 64;  ///< characters
inline constexpr double most_kg_at_once = 100'000;
inline constexpr double most_litres_at_once = 100'000;
inline constexpr double most_kg_of_worms = 1'000;
inline constexpr double times_over_full = 2;  ///< no entry adds more than this many times what its bay holds

/// How a bay's name is compared: small letters, '_' for a blank and for '-'.
[[nodiscard]] std::string bay_key(std::string_view name);

struct TankReading {
    TankRecord record;                  ///< only to be used when there are no complaints
    std::vector<Complaint> complaints;  ///< sorted
};

/// Reads a record after rules/TANKS.md. Says nothing of days that lie ahead, since it does not know today.
[[nodiscard]] TankReading read_tank_record(std::string_view text, const std::string& file, const RuleBase& rule_base);

struct YamlNode;
/// The same from a tree that was read without complaints.
[[nodiscard]] TankReading read_tank_record(const YamlNode& tree, const RuleBase& rule_base);

}  // namespace lidlift
