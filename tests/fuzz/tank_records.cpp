#include "engine/plain_text.hpp"
#include "engine/tank_diagnosis.hpp"
#include "engine/tank_log.hpp"
#include "engine/tank_record.hpp"
#include "tests/fuzz/invariants.hpp"
#include "tests/fuzz/targets.hpp"

namespace lidlift::fuzz {
namespace {

const Ranker& ranker() {
    static const Ranker made(default_base());
    return made;
}

/// {on: 2026-03-09, did: it}
YamlNode small_entry() {
    const auto word = [](std::string text) {
        YamlNode node;
        node.text = std::move(text);
        return node;
    };
    YamlNode entry;
    entry.kind = YamlNode::Kind::map;
    entry.entries.push_back({"on", {}, word("2026-03-09")});
    entry.entries.push_back({"did", {}, word("it")});
    return entry;
}

/// One entry more: what stood there still stands there, line for line, and the record has one entry more.
void log_one(std::string_view text, const std::string& file, std::size_t entries) {
    const auto logged = with_entry(text, file, small_entry());
    if (!logged) {
        ensure_harmless(for_terminal(logged.fault().text));
        return;
    }
    const TankReading again = read_tank_record(logged->text, file, default_base());
    // One entry more may be more than a record can hold, in bytes or in entries; nothing else may be wrong with it.
    if (!again.complaints.empty()) {
        ensure(again.complaints.size() == 1 && (entries + 1 > most_entries_of_a_tank || logged->text.size() > largest_file),
               "an entry spoils the record: " + to_text(again.complaints.front()));
        return;
    }
    ensure(again.record.entries.size() == entries + 1, "an entry was lost");
}

}  // namespace

void one_tank_record(std::string_view text) {
    const std::string file = "tank.yaml";
    TankReading reading = read_tank_record(text, file, default_base());
    ensure_placed(reading.complaints, text, file);
    if (!reading.complaints.empty()) return;
    log_one(text, file, reading.record.entries.size());
    for (std::size_t bay = 0; bay < reading.record.bays.size(); ++bay) {
        Told told;
        const TankSeen seen = look_into(ranker(), reading.record, *read_day("2026-03-20"), bay, told);
        for (const std::string& sentence : in_words(seen)) ensure_harmless(for_terminal(sentence));
        ensure_sound(told.facts, default_base());
    }
}

}  // namespace lidlift::fuzz
