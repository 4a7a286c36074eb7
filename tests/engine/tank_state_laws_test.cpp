// What must hold of a record's state whatever the record says.
#include "engine/tank_facts.hpp"
#include "engine/tank_state.hpp"
#include "tests/catch.hpp"
#include "tests/near.hpp"
#include "tests/tanks.hpp"

#include <functional>
#include <random>
#include <string>
#include <vector>

namespace engine_tank_state_laws_test {

using namespace lidlift;
using namespace lidlift::test;

namespace {

constexpr int last_day = 120;

/// A made-up history of a tank of two bays: anything on any day, drawn with one number.
class RandomTank {
public:
    explicit RandomTank(std::uint32_t seed) : random_(seed) {
        const int entries = number(0, 60);
        for (int i = 0; i < entries; ++i) anything(number(1, last_day));
        // An emptied bay splits its days' entries in two, so there is one at most a bay, on a day of its own.
        if (number(0, 2) == 0) tank_.entry(last_day / 2 - 1, "left", Emptied{});
    }
    Tank& tank() { return tank_; }

    void anything(int on, const std::string& bay_or_any = {}) {
        if (on == last_day / 2 - 1) ++on;
        const std::string bay = bay_or_any.empty() ? (number(0, 1) == 0 ? "left" : "right") : bay_or_any;
        static const std::vector<std::string> materials = {"peelings", "citrus", "rice", "dung", "leaves", "lime"};
        const std::string& material = materials[static_cast<std::size_t>(number(0, 5))];
        const double amount = number(1, 400) / 4.0;
        switch (number(0, 9)) {
            case 0:
            case 1:
            case 2:
                tank_.added(on, bay, {{material, amount}});
                break;
            case 3:
                tank_.buckets(on, bay, material, number(1, 6));
                break;
            case 4:
                tank_.sprinkled(on, bay, {{"dung", 1}, {"water", amount}});
                break;
            case 5:
                tank_.worms_in(on, bay, number(1, 12) / 2.0);
                break;
            case 6:
                tank_.worms_out(on, bay, number(1, 6) / 2.0);
                break;
            case 7:
                tank_.read(on, bay, "bed_temperature", std::to_string(number(5, 75)) + " °C");
                break;
            case 8: {
                static const std::vector<std::pair<std::string, std::string>> sights = {
                    {"smell_ammonia", "strong"}, {"smell_ammonia", "none"},        {"squeeze", "stream"},
                    {"squeeze", "few_drops"},    {"worms_crossing", "nearly_all"}, {"worm_place", "in_feed_zone"}};
                const auto& [sign, answer] = sights[static_cast<std::size_t>(number(0, 5))];
                tank_.saw(on, bay, sign, answer);
                break;
            }
            default:
                tank_.did(on, bay, "turned it");
        }
    }
    int number(int from, int to) {  // not std::uniform_int_distribution, which differs from library to library
        return from + static_cast<int>(random_() % static_cast<std::uint32_t>(to - from + 1));
    }

private:
    std::mt19937 random_;
    Tank tank_;
};

/// Every figure of a bay in one text, to nine digits, with its sentences.
std::string all_of(const BayState& bay) {
    std::string text = std::string(stage_word(bay.stage)) + bay.stage_because;
    const auto number = [&](double value) {
        char buffer[40];
        std::snprintf(buffer, sizeof buffer, " %.9g", value);
        text += buffer;
    };
    const auto range = [&](const std::optional<Estimate>& value) {
        text += value ? ";" : "-";
        if (!value) return;
        number(value->low);
        number(value->typical);
        number(value->high);
    };
    const auto stated = [&](const std::optional<Stated>& value) {
        range(value ? std::optional(value->value) : std::nullopt);
        if (value) text += value->how;
    };
    const auto mixture = [&](const std::optional<Mixture>& value) {
        range(value ? std::optional(value->kg) : std::nullopt);
        range(value ? std::optional(value->moisture) : std::nullopt);
        range(value ? value->carbon_to_nitrogen : std::nullopt);
        range(value ? value->litres : std::nullopt);
    };
    const auto portions = [&](const std::vector<Portion>& list) {
        for (const Portion& portion : list) {
            text += portion.what.name;
            range(portion.kg);
        }
    };
    portions(bay.filled);
    portions(bay.last_load);
    portions(bay.recent);
    mixture(bay.as_filled);
    mixture(bay.feed);
    for (const auto* value : {&bay.kg, &bay.litres, &bay.depth, &bay.moisture, &bay.density, &bay.worms, &bay.feed_per_day,
                              &bay.feed_per_area, &bay.feed_per_worms, &bay.layer, &bay.fed, &bay.slurry_water,
                              &bay.sprinkled_per_area, &bay.temperature, &bay.ammonia_share})
        stated(*value);
    for (const auto& days : {bay.days_since_filling, bay.days_since_feed, bay.rest_days, bay.days_since_worms})
        number(days.value_or(-1));
    for (const auto& value : {bay.free_litres, bay.stocking, bay.temperature_trend, bay.peak_temperature})
        number(value.value_or(-99));
    for (const auto& value : {bay.worms_from, bay.harvest_from, bay.harvest_until}) text += value ? to_text(*value) : "-";
    for (const FeedShare& share : bay.feed_shares) range(share.percent);
    text += bay.fed_throughout ? "whole" : "holes";
    text += bay.hot_because;
    return text;
}

std::string all_of(const TankState& state) {
    std::string text;
    for (const BayState& bay : state.bays) text += all_of(bay) + "\n";
    return text;
}

std::string facts_in_words(const TankRecord& record, const TankState& state, std::size_t bay) {
    std::string text;
    const RuleBase& base = base_with_materials();
    for (const TankFact& fact : facts_of(record, state, base, bay))
        text += base.signs[fact.sign].id + "=" + as_value(base.signs[fact.sign], fact.observation) + " " +
                fact.observation.from + "\n";
    return text;
}

}  // namespace

TEST_CASE("a load written as two entries of one day is one load", "[tank][laws]") {
    for (std::uint32_t seed = 0; seed < 200; ++seed) {
        RandomTank random(seed);
        TankRecord split = random.tank().record();
        for (std::size_t i = 0; i < split.entries.size(); i += 2) {
            auto* added = std::get_if<Added>(&split.entries[i].what);
            if (!added) continue;
            for (RecordedMaterial& each : added->materials) {
                each.amount.size /= 2;
                each.kg = {each.kg.low / 2, each.kg.typical / 2, each.kg.high / 2};
            }
            split.entries.insert(split.entries.begin() + static_cast<std::ptrdiff_t>(i), split.entries[i]);
        }
        const Day today = day(random.number(1, last_day));
        CAPTURE(seed, to_text(today));
        const TankState whole = random.tank().on(days_between(day(1), today) + 1);
        const TankState halves = state_of(split, base_with_materials(), today);
        REQUIRE(all_of(whole) == all_of(halves));
        for (std::size_t bay = 0; bay < 2; ++bay)
            REQUIRE(facts_in_words(random.tank().record(), whole, bay) == facts_in_words(split, halves, bay));
    }
}

TEST_CASE("the order of one day's entries does not matter", "[tank][laws]") {
    for (std::uint32_t seed = 0; seed < 200; ++seed) {
        RandomTank random(seed);
        TankRecord turned = random.tank().record();
        std::ranges::reverse(turned.entries);
        std::ranges::stable_sort(turned.entries, {}, &RecordedEntry::on);
        const int today = random.number(1, last_day);
        CAPTURE(seed, today);
        const TankState here = random.tank().on(today);
        const TankState there = state_of(turned, base_with_materials(), day(today));
        REQUIRE(all_of(here) == all_of(there));
        for (std::size_t bay = 0; bay < 2; ++bay)
            REQUIRE(facts_in_words(random.tank().record(), here, bay) == facts_in_words(turned, there, bay));
    }
}

TEST_CASE("what is written down for later days changes nothing", "[tank][laws]") {
    for (std::uint32_t seed = 0; seed < 200; ++seed) {
        RandomTank random(seed);
        const int today = random.number(1, last_day);
        TankRecord until = random.tank().record();
        std::erase_if(until.entries, [&](const RecordedEntry& entry) { return entry.on > day(today); });
        CAPTURE(seed, today);
        REQUIRE(all_of(random.tank().on(today)) == all_of(state_of(until, base_with_materials(), day(today))));
    }
}

TEST_CASE("what happens in one bay says nothing of the other but of their turns", "[tank][laws]") {
    for (std::uint32_t seed = 0; seed < 200; ++seed) {
        RandomTank random(seed);
        const int today = random.number(1, last_day);
        // Neither worms that cross by themselves, nor the stage and harvest that hang on the other bay.
        TankRecord record = random.tank().record();
        record.wall_openings = false;
        TankRecord alone = record;
        std::erase_if(alone.entries, [](const RecordedEntry& entry) { return entry.bay == std::optional<std::size_t>(1); });
        const auto without_turns = [&](const TankRecord& of) {
            BayState bay = state_of(of, base_with_materials(), day(today)).bays[0];
            bay.stage = BayStage::empty;
            bay.stage_because.clear();
            bay.harvest_from = bay.harvest_until = std::nullopt;
            return all_of(bay);
        };
        CAPTURE(seed, today);
        REQUIRE(without_turns(record) == without_turns(alone));
    }
}

TEST_CASE("every figure of a state is in order, and no bay holds more than it can", "[tank][laws]") {
    for (std::uint32_t seed = 0; seed < 300; ++seed) {
        RandomTank random(seed);
        const int today = random.number(1, last_day);
        CAPTURE(seed, today);
        const TankState state = random.tank().on(today);
        for (std::size_t i = 0; i < 2; ++i) {
            const BayState& bay = state.bays[i];
            for (const auto* value :
                 {&bay.kg, &bay.litres, &bay.depth, &bay.moisture, &bay.worms, &bay.feed_per_day, &bay.feed_per_area,
                  &bay.feed_per_worms, &bay.layer, &bay.fed, &bay.slurry_water, &bay.temperature, &bay.ammonia_share}) {
                if (!*value) continue;
                const Estimate& range = (*value)->value;
                REQUIRE((std::isfinite(range.low) && std::isfinite(range.high)));
                REQUIRE(range.low <= range.typical);
                REQUIRE(range.typical <= range.high);
                REQUIRE_FALSE((*value)->how.empty());
            }
            const RecordedBay& walls = random.tank().record().bays[i];
            if (bay.litres) REQUIRE(bay.litres->value.high <= 1000 * walls.area * walls.height + 1e-9);
            if (bay.depth) REQUIRE(bay.depth->value.high <= walls.height + 1e-9);
            if (bay.kg) REQUIRE((bay.kg->value.low >= 0 && bay.kg->value.high <= 1100 * walls.area * walls.height + 1e-9));
            REQUIRE((bay.free_litres.value() >= 0));
            for (const FeedShare& share : bay.feed_shares)
                REQUIRE((share.percent.low >= 0 && share.percent.high <= 100 + 1e-9));
        }
    }
}

}  // namespace engine_tank_state_laws_test
