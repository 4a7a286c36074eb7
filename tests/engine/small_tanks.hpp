// A rule base of a handful of signs, steps and materials, and tank records for it.
#pragma once

#include "engine/tank_record.hpp"
#include "tests/engine/short_rules.hpp"

#include <stdexcept>
#include <string>
#include <utility>
#include <vector>

namespace lidlift::test {

/// Materials by id and density (low, typical, high; kg/m3); vinegar has none.
inline const RuleBase& tank_base() {
    static const RuleBase base = [] {
        RuleBase made =
            Rules()
                .sign("smell",
                      "answers: {none: {means: n, seen anyway: the rest}, faint: {means: f, seen anyway: sometimes}, strong: "
                      "{means: s, seen anyway: almost never}}")
                .sign("animals",
                      "several at once: yes, answers: {flies: {means: fl, seen anyway: sometimes}, mites: {means: mi, seen "
                      "anyway: sometimes}, none: {means: no, none of these: yes}}")
                .sign("wet", "seen anyway: sometimes")
                .sign("bed_temperature",
                      "measured in: °C, plausible: -20 to 90, bands: {cold: {below: 10, seen anyway: sometimes}, warm: {seen "
                      "anyway: the rest}}")
                .sign("ph", "measured in: pH, plausible: 0 to 14")
                .step("turn_heap")
                .step("open_the_outlet", "kind: drain")
                .base();
        const auto add = [&](const std::string& id, const std::string& name, std::optional<Estimate> density) {
            Material material;
            material.id = id;
            material.name = name;
            if (density) {
                material.density.emplace();
                material.density->value = *density;
            }
            made.materials.add(std::move(material));
        };
        add("water", "Water", Estimate::exactly(1000));
        add("kitchen_waste", "Mixed kitchen waste", Estimate{400, 600, 900});
        add("dry_leaves", "Dry fallen leaves", Estimate{50, 100, 150});
        add("cow_dung", "Cow dung", Estimate{800, 900, 1000});
        add("vinegar", "Vinegar", std::nullopt);
        return made;
    }();
    return base;
}

/// All complaints about a record, one a line.
inline std::string tank_complaints(const std::string& text, const std::string& file = "tank.yaml") {
    std::string all;
    for (const Complaint& complaint : read_tank_record(text, file, tank_base()).complaints) all += to_text(complaint) + "\n";
    return all;
}

inline TankRecord tank_of(const std::string& text) {
    TankReading reading = read_tank_record(text, "tank.yaml", tank_base());
    if (!reading.complaints.empty()) throw std::runtime_error("the test's own record is wrong:\n" + tank_complaints(text));
    return std::move(reading.record);
}

/// The record of a tank with the given entries, one a line without its dash: "{on: 2026-03-09, did: it}".
inline TankRecord tank_with(const std::vector<std::string>& entries, const std::string& head = {}) {
    std::string text = "tank: T\n" + head + "entries:\n";
    for (const std::string& entry : entries) text += "  - " + entry + "\n";
    return tank_of(text);
}

}  // namespace lidlift::test
