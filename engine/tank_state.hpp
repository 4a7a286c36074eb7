// What a tank's record comes to on one day: what lies in each bay, how it is fed, how far along it is.
#pragma once

#include "engine/heat_dose.hpp"
#include "engine/mixture.hpp"
#include "engine/tank_record.hpp"

#include <optional>
#include <string>
#include <vector>

namespace lidlift {

/// How far along a bay is, by its record.
enum class BayStage { empty, filling, resting, cooling, ready_for_worms, worm_bed, migrating, harvest_due };

/// "empty", "being filled", "worm bed" ...: for pages and for JSON.
[[nodiscard]] const char* stage_word(BayStage stage);

/// A figure from the record, and the sentence that says where it comes from ("18 kg on 6 days since 2026-03-02").
struct Stated {
    Estimate value;
    std::string how;
};

/// How much of the feed of the last 14 days a sign of the materials asks about: citrus, oil, salt ...
struct FeedShare {
    Handle<Sign> sign;
    Estimate kg;
    Estimate percent;  ///< of the feed's fresh mass
};

struct BayState {
    BayStage stage = BayStage::empty;
    std::string stage_because;
    std::vector<Portion> filled;       ///< everything since it was last empty
    std::optional<Mixture> as_filled;  ///< of all that, as it went in; none: nothing is known to be in it
    std::optional<Stated> kg;          ///< what is left of it now
    std::optional<Stated> litres;
    std::optional<Stated> depth;            ///< m
    std::optional<Stated> moisture;         ///< %, now, if anything tells
    std::optional<Stated> density;          ///< kg/m3, where a bucket was weighed lately
    std::optional<double> free_litres;      ///< up to the rim; the whole bay where the depth is not known
    std::optional<int> days_since_filling;  ///< since the last load of a resting bay, or the first of a fed one
    std::optional<int> days_since_feed;
    std::optional<int> rest_days;  ///< from the last load before the worms went in to that day, or to today
    std::optional<int> days_since_worms;
    std::optional<Stated> worms;           ///< kg alive
    double worms_put_in = 0;               ///< kg
    std::optional<double> stocking;        ///< kg put in on a square metre
    std::optional<Stated> feed_per_day;    ///< kg a day, the last 14 days
    std::optional<Stated> feed_per_area;   ///< kg a day on a square metre
    std::optional<Stated> feed_per_worms;  ///< kg a day to a kg of worms
    std::optional<Stated> layer;           ///< m, thickness of the last load if spread evenly
    std::vector<Portion> last_load;        ///< everything of the last day on which something was added
    std::vector<Portion> recent;         ///< everything added in the last 14 days, with its bedding, but not what was sprinkled
    std::optional<Mixture> feed;         ///< of all that, as it went in
    std::optional<Stated> fed;           ///< kg that worms eat of it: kitchen waste and dung
    std::vector<FeedShare> feed_shares;  ///< of `fed`, in the order of the signs
    bool fed_throughout = false;         ///< the record of the last 14 days has no hole: what it does not name was not fed
    std::optional<Stated>
        slurry_water;  ///< kg of water to a kg of fresh dung (80 % water) in what was sprinkled in the last 14 days
    std::optional<Stated> sprinkled_per_area;  ///< kg on a square metre, water and all, on the wettest of the last 14 days
    std::optional<Stated> temperature;         ///< °C, the last reading, if it is not too old
    std::optional<double> temperature_trend;   ///< K a day over the last readings
    std::optional<double> peak_temperature;    ///< °C since it was filled
    std::optional<HotTime> hot;                ///< what the readings before the worms show of a hygienising heat
    std::string hot_because;                   ///< in a sentence; a bed with worms in it shows nothing of the kind
    std::optional<Stated> ammonia_share;       ///< % of ammonia nitrogen that is gas (Emerson); from pH and temperature
    std::optional<Estimate> shrinks_to;        ///< share of the filled volume, when it is done
    std::optional<Day> worms_from;             ///< the soonest day on which worms may go in
    std::optional<Day> harvest_from, harvest_until;
};

struct TankState {
    Day today;
    std::vector<BayState> bays;  ///< as in the record
};

[[nodiscard]] TankState state_of(const TankRecord& record, const RuleBase& rule_base, Day today);

}  // namespace lidlift
