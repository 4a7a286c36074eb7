// Every record of tests/bad_tanks with the complaints that stand beside it, word for word; and records with random bytes in
// them.
#include "tests/catch.hpp"
#include "tests/engine/small_tanks.hpp"

#include <algorithm>
#include <filesystem>
#include <fstream>
#include <iterator>
#include <random>
#include <set>
#include <string>
#include <vector>

namespace engine_bad_tanks_test {

using namespace lidlift;
using namespace lidlift::test;
namespace fs = std::filesystem;

namespace {

const fs::path folder = fs::path(LIDLIFT_TESTS_FOLDER) / "bad_tanks";

std::string contents(const fs::path& path) {
    std::ifstream stream(path, std::ios::binary);
    if (!stream) FAIL("cannot read " << path.string());
    return {std::istreambuf_iterator<char>(stream), {}};
}

std::set<std::string> stems(const std::string& extension) {
    std::set<std::string> result;
    for (const auto& entry : fs::directory_iterator(folder))
        if (entry.path().extension() == extension) result.insert(entry.path().stem().string());
    return result;
}

constexpr const char* sound_record = R"(# the middle one
tank: Tank 3, by the gate
inside: {length: 10 ft, width: 6 ft, height: 2.5 ft}
bays: {left: {width: 3 ft}, right: }
dividing wall: open
bucket: 10 L
measures: {crate: 30 L}
entries:
  - {on: 2026-03-09, bay: left, added: {kitchen_waste: 3 buckets, dry_leaves: 20 kg}}
  - on: 2026-03-10
    bay: left
    sprinkled: {cow_dung: 2 kg, water: 20 L}
    note: |
      before the rain
  - {on: 2026-03-12, bay: left, read: {bed_temperature: 61 °C, drying: {vessel: 4 g, wet: 14 g, dry: 6.3 g}}}
  - {on: 2026-04-20, bay: left, worms in: 5 kg, saw: {smell: [faint], wet: {is: yes, sure: unsure}}}
  - {on: 2026-04-26, bay: right, did: [turn_heap, 'put the lid back'], harvested: 2 crates, emptied: yes}
)";

}  // namespace

TEST_CASE("every bad record gets exactly the complaints beside it", "[tank_record][bad_tanks]") {
    const auto names = stems(".yaml");
    REQUIRE(names.size() >= 30);
    for (const std::string& name : names) {
        CAPTURE(name);
        const std::string expected = contents(folder / (name + ".expected"));
        CHECK_FALSE(expected.empty());
        CHECK(tank_complaints(contents(folder / (name + ".yaml")), name + ".yaml") == expected);
    }
    CHECK(stems(".expected") == names);
    CHECK(static_cast<std::size_t>(std::distance(fs::directory_iterator(folder), {})) == 2 * names.size());
}

TEST_CASE("a record with random bytes in it is refused or read, and nothing worse", "[tank_record][bad_tanks]") {
    REQUIRE(tank_complaints(sound_record).empty());
    std::mt19937 random(20260309);  // NOLINT: the same every time
    const std::string sound = sound_record;
    const std::string marks = " \n\t\r-:,{}[]\"'#&*!|>%@`?~0123456789.\xC3\xA9\xE2\x80\xAE\x00\x1B\xFF";
    const auto below = [&](std::size_t end) { return static_cast<std::size_t>(random() % end); };
    std::size_t refused = 0;
    for (int i = 0; i < 2'000; ++i) {
        std::string text = sound;
        for (std::size_t slips = 1 + below(3); slips > 0; --slips) {
            const std::size_t at = below(text.size());
            switch (below(5)) {
                case 0:
                    text[at] = static_cast<char>(random() & 0xFF);
                    break;
                case 1:
                    text[at] = marks[below(marks.size())];
                    break;
                case 2:
                    text.insert(at, 1, marks[below(marks.size())]);
                    break;
                case 3:
                    text.erase(at, 1 + below(12));
                    break;
                default:
                    text.insert(at, text.substr(below(text.size()), below(40)));
            }
        }
        CAPTURE(i, text);
        const TankReading reading = read_tank_record(text, "t.yaml", tank_base());
        if (!reading.complaints.empty()) {
            ++refused;
            for (const Complaint& complaint : reading.complaints) REQUIRE_FALSE(complaint.text.empty());
            continue;
        }
        // What is taken is whole: places, bays and handles that whoever comes next may follow.
        REQUIRE_FALSE(reading.record.bays.empty());
        for (const RecordedEntry& entry : reading.record.entries) {
            REQUIRE((!entry.bay || *entry.bay < reading.record.bays.size()));
            REQUIRE(entry.place.line > 0);
            if (const auto* added = std::get_if<Added>(&entry.what))
                for (const RecordedMaterial& one : added->materials) {
                    REQUIRE(one.material.index < tank_base().materials.size());
                    REQUIRE((one.kg.low <= one.kg.typical && one.kg.typical <= one.kg.high));
                }
        }
    }
    CHECK(refused > 1'000);
    CHECK(refused < 2'000);
}

}  // namespace engine_bad_tanks_test
