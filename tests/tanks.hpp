// Records of tanks for tests, written in few words, and a rule base with materials of round figures.
#pragma once

#include "engine/answers.hpp"
#include "engine/tank_record.hpp"
#include "engine/tank_state.hpp"
#include "tests/engine/short_rules.hpp"

#include <algorithm>
#include <chrono>
#include <initializer_list>
#include <stdexcept>
#include <string>
#include <utility>
#include <vector>

namespace lidlift::test {

inline Day day(int number) {  ///< day 1 is 2026-03-01
    return Day(std::chrono::year(2026) / 3 / 1) + std::chrono::days(number - 1);
}

inline std::optional<Figure> figure(double low, double typical, double high) {
    Figure figure;
    figure.value = {low, typical, high};
    return figure;
}

/// The default rules with a few materials of our own figures beside whatever else there is.
inline const RuleBase& base_with_materials() {
    static const RuleBase base = [] {
        RuleBase rules = default_base();
        const auto add = [&](const char* id, MaterialRole role, std::optional<Figure> moisture, std::optional<Figure> nitrogen,
                             std::optional<Figure> ratio, std::optional<Figure> density, std::vector<std::string> shares) {
            Material material;
            material.id = std::string("t_") + id;
            material.name = id;
            material.role = role;
            material.moisture = moisture;
            material.nitrogen = nitrogen;
            material.carbon_to_nitrogen = ratio;
            material.density = density;
            for (const std::string& sign : shares) material.shares.push_back(rules.signs.find(sign).value());
            rules.materials.add(std::move(material));
        };
        add("peelings", MaterialRole::feed, figure(80, 85, 90), figure(2, 2.5, 3), figure(12, 16, 20), figure(400, 500, 600),
            {});
        add("citrus", MaterialRole::feed, figure(75, 77, 80), figure(0.8, 1, 1.1), figure(40, 45, 50), figure(300, 400, 450),
            {"feed_citrus"});
        add("rice", MaterialRole::feed, figure(65, 68, 70), figure(1.4, 1.4, 1.4), figure(25, 30, 40), figure(700, 700, 700),
            {"feed_starch_sugar", "feed_salty"});
        add("dung", MaterialRole::dung, figure(75, 80, 85), figure(1.2, 1.5, 1.8), figure(18, 22, 25), figure(800, 900, 1000),
            {});
        add("leaves", MaterialRole::dry_matter, figure(20, 30, 40), figure(0.6, 0.9, 1.2), figure(40, 55, 80),
            figure(60, 100, 150), {});
        add("water", MaterialRole::liquid, figure(100, 100, 100), std::nullopt, std::nullopt, figure(1000, 1000, 1000), {});
        add("lime", MaterialRole::mineral, figure(0, 1, 2), std::nullopt, std::nullopt, figure(1100, 1200, 1300), {});
        return rules;
    }();
    return base;
}

/// A record, grown one entry at a time: Tank().added(1, "left", {{"peelings", 20}}).worms_in(40, "left", 3)
class Tank {
public:
    /// The trade's tank: 10 ft by 6 ft by 2.5 ft, split in two bays 3 ft wide (common practice).
    explicit Tank(const std::vector<std::string>& bays = {"left", "right"}, const RuleBase& rules = base_with_materials())
        : rules_(rules) {
        constexpr double foot = 0.3048;
        record_.name = "a tank";
        record_.length = 10 * foot;
        record_.width = 6 * foot;
        record_.height = 2.5 * foot;
        for (const std::string& name : bays)
            record_.bays.push_back({name, record_.length * record_.width / static_cast<double>(bays.size()), record_.height});
        record_.vessels.state({"bucket", 10});
    }

    using Masses = std::vector<std::pair<std::string, double>>;

    Tank& added(int on, const std::string& bay, const Masses& masses) {
        Added added;
        for (const auto& [id, kg] : masses) added.materials.push_back(by_mass(id, kg));
        return entry(on, bay, std::move(added));
    }
    /// By the bucketful, so that its mass is a range.
    Tank& buckets(int on, const std::string& bay, const std::string& id, double number) {
        const auto handle = material(id);
        const Estimate& density = rules_.materials[handle].density->value;
        const double litres = 10 * number;
        Added added;
        added.materials.push_back(
            {handle,
             {Amount::By::volume, litres, std::to_string(number) + " buckets"},
             {litres * density.low / 1000, litres * density.typical / 1000, litres * density.high / 1000}});
        return entry(on, bay, std::move(added));
    }
    Tank& sprinkled(int on, const std::string& bay, const Masses& masses) {
        Sprinkled sprinkled;
        for (const auto& [id, kg] : masses) sprinkled.materials.push_back(by_mass(id, kg));
        return entry(on, bay, std::move(sprinkled));
    }
    Tank& worms_in(int on, const std::string& bay, double kg) { return entry(on, bay, WormsIn{kg}); }
    Tank& worms_out(int on, const std::string& bay, double kg) { return entry(on, bay, WormsOut{kg}); }
    Tank& harvested(int on, const std::string& bay, double kg) {
        return entry(on, bay, Harvested{{Amount::By::mass, kg, std::to_string(kg) + " kg"}});
    }
    Tank& did(int on, const std::string& bay, const std::string& words) {
        return entry(on, bay, Did{rules_.steps.find(words), words});
    }
    /// sign=value, as `lidlift why` takes it.
    Tank& saw(int on, const std::string& bay, const std::string& sign, const std::string& value, bool read = false) {
        Told told;
        if (const auto fault = hear(told, rules_, sign, value, "")) throw std::runtime_error(fault->text);
        const auto handle = told.order.front();
        return entry(on, bay, Noted{handle, *told.facts.find(handle), read});
    }
    Tank& read(int on, const std::string& bay, const std::string& sign, const std::string& value) {
        return saw(on, bay, sign, value, true);
    }

    template <class What>
    Tank& entry(int on, const std::string& bay, What what) {
        RecordedEntry entry;
        entry.on = day(on);
        for (std::size_t i = 0; i < record_.bays.size(); ++i)
            if (record_.bays[i].name == bay) entry.bay = i;
        if (!bay.empty() && !entry.bay) throw std::runtime_error("the test's tank has no bay " + bay);
        entry.what = std::move(what);
        const auto after = std::ranges::upper_bound(record_.entries, entry.on, {}, &RecordedEntry::on);
        record_.entries.insert(after, std::move(entry));
        return *this;
    }

    [[nodiscard]] TankRecord& record() { return record_; }
    [[nodiscard]] TankState on(int number) const { return state_of(record_, rules_, day(number)); }
    /// The bay's state on a day.
    [[nodiscard]] BayState on(int number, const std::string& bay) const {
        const TankState state = on(number);
        for (std::size_t i = 0; i < record_.bays.size(); ++i)
            if (record_.bays[i].name == bay) return state.bays[i];
        throw std::runtime_error("the test's tank has no bay " + bay);
    }

private:
    [[nodiscard]] Handle<Material> material(const std::string& id) const { return rules_.materials.find("t_" + id).value(); }
    [[nodiscard]] RecordedMaterial by_mass(const std::string& id, double kg) const {
        return {material(id), {Amount::By::mass, kg, std::to_string(kg) + " kg"}, Estimate::exactly(kg)};
    }

    const RuleBase& rules_;
    TankRecord record_;
};

}  // namespace lidlift::test
