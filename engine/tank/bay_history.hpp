// What happened in one bay since it was last empty, up to one day: the record's entries sorted by what they are.
#pragma once

#include "engine/tank_record.hpp"

#include <optional>
#include <vector>

namespace lidlift::tank {

/// One material that went in on one day.
struct Load {
    Day on;
    Handle<Material> material;
    Estimate kg;
    Estimate litres;                     ///< loose, as it went in
    bool by_volume = false;              ///< it was measured out so, and its kg are a range
    bool sprinkled = false;              ///< as a slurry or water, not as a load
    Estimate not_harvested = {1, 1, 1};  ///< share that no harvest has taken away since
};

/// Worms that went in or out on one day.
struct WormsMoved {
    Day on;
    Estimate in;
    Estimate out;
    bool by_themselves = false;  ///< they crossed from another bay; their number is a guess
};

struct Seen {
    Day on;
    Handle<Sign> sign;
    const Observation* observation = nullptr;  ///< in the record
    bool read = false;                         ///< with an instrument
};

struct Work {
    Day on;
    const Did* did = nullptr;  ///< in the record
};

/// A figure worked out from the scales: % moisture, or kg/m3.
struct Weighed {
    Day on;
    double value = 0;
};

struct SeedTest {
    Day on;
    SeedTested test;
};

struct BayHistory {
    double area = 0;                 ///< m2; 0: not known
    double height = 0;               ///< m; 0: not known
    std::vector<Load> loads;         ///< by day, of one day by material, sprinkled last
    std::vector<WormsMoved> worms;   ///< by day
    std::vector<Seen> seen;          ///< by day
    std::vector<Seen> seen_before;   ///< before the bay was last emptied
    std::vector<Work> work;          ///< by day
    std::vector<Weighed> moistures;  ///< of dried samples
    std::vector<Weighed> densities;  ///< of weighed buckets
    std::vector<SeedTest> seed_tests;
    std::vector<Day> harvests;       ///< since it was last emptied
    std::optional<Day> emptied;      ///< when everything before went out
    std::optional<Day> first_entry;  ///< of the tank's record, whatever it says
    int ahead = 0;                   ///< entries of the tank's record that lie after the day

    [[nodiscard]] double capacity() const { return area * height * 1000; }  ///< L up to the rim; 0: not known
};

/// The history of the bay at position `bay`. What was written for the whole tank is shared by floor where it is a material or
/// worms, and holds for every bay where it was seen or done. Entries after `today` do not count. Valid as long as `record`.
[[nodiscard]] BayHistory history_of(const TankRecord& record, const RuleBase& rule_base, std::size_t bay, Day today);

/// What worms eat: kitchen waste and dung, not bedding, liquid, mineral or what is finished already.
[[nodiscard]] bool is_feed(MaterialRole role);

}  // namespace lidlift::tank
