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
    bool sprinkled = false;              ///< as a slurry or water, not as a load
    Estimate not_harvested = {1, 1, 1};  ///< share that no harvest has taken away since
};

/// Worms that went in (kg above 0) or out (below).
struct WormsMoved {
    Day on;
    double kg = 0;
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

struct BayHistory {
    double area = 0;                 ///< m2; 0: not known
    double height = 0;               ///< m; 0: not known
    std::vector<Load> loads;         ///< by day, of one day by material, sprinkled last
    std::vector<WormsMoved> worms;   ///< by day
    std::vector<Seen> seen;          ///< by day
    std::vector<Work> work;          ///< by day
    std::vector<Day> harvests;       ///< that left something
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
