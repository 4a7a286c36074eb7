// A tank's own record: its inside, its bays, its worms, and what was done and seen day by day. One YAML file a tank; the format
// is described in rules/TANKS.md.
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
using Happening = std::variant<Added, Sprinkled, WormsIn, WormsOut, Noted, Did, Harvested>;

/// One thing that happened on one day, in one bay or in the whole tank.
struct RecordedEntry {
    Day on;
    std::optional<std::size_t> bay;  ///< position in `bays`; none: the whole tank
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

inline constexpr std::size_t most_entries_of_a_tank = 20'000;

struct TankReading {
    TankRecord record;                  ///< only to be used when there are no complaints
    std::vector<Complaint> complaints;  ///< sorted
};

[[nodiscard]] TankReading read_tank_record(std::string_view text, const std::string& file, const RuleBase& rule_base);

}  // namespace lidlift
