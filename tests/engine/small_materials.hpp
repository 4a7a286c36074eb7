// A rule base of a few materials with round figures, for the tests of mixtures.
#pragma once

#include "engine/rule_base_reader.hpp"
#include "tests/catch.hpp"

#include <string>
#include <utility>

namespace lidlift::test {

inline const char* const small_materials = R"(rule base: {name: Small materials, version: "1"}
sources:
  trade: {title: The trade, kind: trade, standing: from memory}
cautions:
  K03: {name: germs, level: warn, say: Wear gloves., sources: [trade]}
  K08: {name: caustic lime, level: stop, say: Wear goggles., sources: [trade]}
materials:
  kitchen_waste:
    name: Kitchen waste
    role: feed
    heard as: [food scraps, slops]
    moisture: {typical: 80 %, from: 70 %, to: 90 %, standing: read}
    nitrogen: {typical: 2 %, standing: read}
    carbon to nitrogen: {typical: 16, from: 10, to: 24, standing: from memory, disputed: yes, note: It differs from kitchen to kitchen.}
    density: {typical: 500 kg/m3, from: 250 kg/m3, to: 900 kg/m3, standing: read, disputed: yes}
    cautions: [K03]
    note: Weigh it.
    sources: [trade]
  dry_leaves:
    name: Dry leaves
    role: dry matter
    heard as: [leaf litter]
    moisture: {typical: 30 %, from: 20 %, to: 40 %, standing: read}
    nitrogen: {typical: 1 %, standing: read}
    carbon to nitrogen: {typical: 50, standing: read}
    density: {typical: 100 kg/m3, standing: read}
    sources: [trade]
  hen_manure:
    name: Hen manure
    role: dung
    moisture: {typical: 70 %, standing: read}
    nitrogen: {typical: 6 %, standing: read}
    carbon to nitrogen: {typical: 8, standing: read}
    cautions: [K03]
    keep from worms: It gives off ammonia.
    sources: [trade]
  hydrated_lime:
    name: Hydrated lime
    role: mineral
    moisture: {typical: 1 %, standing: read}
    cautions: [K08]
    sources: [trade]
  water:
    name: Water
    role: liquid
    moisture: {typical: 100 %, standing: derived}
    nitrogen: {typical: 0 %, standing: derived}
    density: {typical: 1000 kg/m3, standing: derived}
    sources: [trade]
)";

inline RuleBase read_small_materials() {
    const RuleText text{"small.yaml", small_materials};
    RuleBaseReading reading = read_rule_base({&text, 1});
    for (const Complaint& complaint : reading.complaints) FAIL(to_text(complaint));
    return std::move(reading.rule_base);
}

}  // namespace lidlift::test
