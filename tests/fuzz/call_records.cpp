#include "engine/call_record_reader.hpp"
#include "engine/plain_text.hpp"
#include "engine/yaml_tree.hpp"
#include "tests/fuzz/invariants.hpp"
#include "tests/fuzz/targets.hpp"

void lidlift::fuzz::one_call_record(std::string_view text) {
    const std::string file = "call.yaml";
    Complaints complaints;
    const CallRecord record = read_call(text, file, complaints);
    ensure_placed(complaints.sorted(), text, file);
    if (!complaints.empty()) return;
    const std::string written = write_call(record);
    ensure(!find_bad_character(written), "a record is written that holds a bad character");
    Complaints second;
    const CallRecord again = read_call(written, file, second);
    if (written.size() > largest_file) return;
    ensure(second.empty(),
           "a record that was written cannot be read: " + (second.empty() ? "" : to_text(second.sorted().front())));
    ensure(again == record, "a record that was written reads differently");
    for (const CallEntry* entry : what_counts(record)) ensure(entry != nullptr, "nothing counts");
}
