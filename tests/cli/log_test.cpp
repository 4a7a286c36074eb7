// lidlift log, as a user runs it.
#include "engine/plain_text.hpp"
#include "tests/catch.hpp"
#include "tests/cli/program.hpp"

#include <cstdlib>
#include <filesystem>
#include <set>
#include <string>
#include <vector>

#include <nlohmann/json.hpp>

namespace cli_log_test {

using namespace lidlift;
using namespace lidlift::test;
namespace fs = std::filesystem;

namespace {

const std::string record = R"(# the middle one, by the gate
tank: Tank 3
inside: {length: 10 ft, width: 6 ft, height: 2.5 ft}   # measured in May
bays: [left, right]
bucket: 10 L

entries:
  # ---- March ----
  - {on: 2026-03-09, bay: left, added: {mixed_kitchen_waste: 3 buckets}}  # by Ann

# written by whoever has the key
)";

const std::string march = "  - {on: 2026-03-09, bay: left, added: {mixed_kitchen_waste: 3 buckets}}  # by Ann\n";

/// What the record names, so that the program need not read all its own rules sixty times.
const std::string few_rules = R"(signs:
  smell_sour:
    {ask: S, topic: smell, effort: look, sources: [common_practice],
     answers: {none: {means: n, seen anyway: the rest}, faint: {means: f, seen anyway: sometimes}}}
  fruit_flies:
    {ask: F, topic: animals, effort: look, sources: [common_practice],
     answers: {none: {means: n, seen anyway: the rest}, few: {means: f, seen anyway: sometimes}}}
  bed_temperature: {ask: B, topic: heat, effort: measure, measured in: °C, plausible: -20 to 90, sources: [common_practice],
     bands: {cold: {below: 10, seen anyway: sometimes}, warm: {seen anyway: the rest}}}
steps:
  turn_heap_with_dry: {do: D, when: now, kind: air, if wrong: harmless, sources: [common_practice]}
materials:
  mixed_kitchen_waste: {name: Mixed kitchen waste, role: feed, heard as: [kitchen waste], sources: [common_practice],
     density: {typical: 600 kg/m3, from: 400 kg/m3, to: 900 kg/m3, standing: read, sources: [common_practice]}}
  dry_leaves: {name: Dry leaves, role: dry matter, sources: [common_practice],
     density: {typical: 100 kg/m3, standing: read, sources: [common_practice]}}
  cow_dung: {name: Cow dung, role: dung, sources: [common_practice],
     density: {typical: 900 kg/m3, standing: read, sources: [common_practice]}}
  water: {name: Water, role: liquid, sources: [common_practice],
     density: {typical: 1000 kg/m3, standing: read, sources: [common_practice]}}
)";

/// The record with a line more.
std::string with_line(const std::string& line) {
    std::string text = record;
    return text.insert(text.find(march) + march.size(), line + "\n");
}

Run run_log(const std::string& tank, std::vector<std::string> words) {
    words.insert(words.begin(), {"log", "--tank", tank});
    return run(words);
}

Run logged(const std::string& tank, std::vector<std::string> words) {
    static const TemporaryFolder folder;
    static const std::string rules = folder.write("few_rules.yaml", few_rules);
    words.insert(words.begin(), {"--only-rules", rules});
    return run_log(tank, words);
}

std::set<std::string> files_of(const TemporaryFolder& folder) {
    std::set<std::string> names;
    for (const auto& entry : fs::directory_iterator(folder.path())) names.insert(entry.path().filename().string());
    return names;
}

}  // namespace

TEST_CASE("log adds one line and says so", "[cli][log]") {
    const TemporaryFolder folder;
    const std::string tank = folder.write("t3.yaml", record);
    const Run result = run_log(tank, {"--bay", "left", "--on", "2026-03-10", "added", "3", "buckets", "kitchen", "waste", "2",
                                      "buckets", "dry_leaves"});
    check_answer(result);
    const std::string line = "  - {on: 2026-03-10, bay: left, added: {mixed_kitchen_waste: 3 buckets, dry_leaves: 2 buckets}}";
    CHECK(file_text(tank) == with_line(line));
    CHECK(holds(unwrapped(result.out), "Written to " + tank + ", line 10, and on the disk:"));
    CHECK(holds(result.out, "\n" + line + "\n"));
    CHECK(files_of(folder) == std::set<std::string>{"t3.yaml"});
}

TEST_CASE("log takes every kind of entry, several at once", "[cli][log]") {
    struct Example {
        std::vector<std::string> words;
        std::string written;
    };
    const std::vector<Example> examples = {
        {{"sprinkled", "2", "kg", "cow_dung", "20", "L", "water"}, "sprinkled: {cow_dung: 2 kg, water: 20 L}"},
        {{"saw", "smell_sour=faint", "fruit_flies=few,unsure"},
         "saw: {smell_sour: faint, fruit_flies: {is: few, sure: unsure}}"},
        {{"read", "bed_temperature=61 °C"}, "read: {bed_temperature: 61 °C}"},
        {{"read", "drying", "vessel=4g", "wet=14g", "dry=6.3g"}, "read: {drying: {vessel: 4g, wet: 14g, dry: 6.3g}}"},
        {{"did", "turned it"}, "did: turned it"},
        {{"did", "check", "the", "lid"}, "did: check the lid"},
        {{"did", "turn_heap_with_dry"}, "did: turn_heap_with_dry"},
        {{"worms", "in", "5", "kg"}, "worms in: 5 kg"},
        {{"harvested", "120", "kg", "emptied"}, "harvested: 120 kg, emptied: yes"},
        {{"did", "it", "--note", "before the rain, at dusk"}, "did: it, note: 'before the rain, at dusk'"},
        {{"--note", "nobody"}, "note: nobody"}};
    for (const Example& example : examples) {
        CAPTURE(example.written);
        const TemporaryFolder folder;
        const std::string tank = folder.write("t3.yaml", record);
        std::vector<std::string> words = {"--bay", "LEFT", "--on", "2026-03-10"};
        words.insert(words.end(), example.words.begin(), example.words.end());
        check_answer(logged(tank, words));
        CHECK(file_text(tank) == with_line("  - {on: 2026-03-10, bay: left, " + example.written + "}"));
    }
}

TEST_CASE("log takes today where no day is said, and tells of a day that has not come", "[cli][log]") {
    const TemporaryFolder folder;
    const std::string tank = folder.write("t3.yaml", "tank: T\n");
    check_answer(logged(tank, {"did", "it"}));
    const std::string text = file_text(tank);
    CHECK(holds(text, "  - {on: 2"));
    const Run ahead = logged(tank, {"--on", "2199-12-31", "did", "plan"});
    CHECK(ahead.exit == 0);
    CHECK(holds(ahead.err, "note: 2199-12-31 has not come yet by this computer's clock"));
    CHECK(file_text(tank) == text + "  - {on: 2199-12-31, did: plan}\n");
    check_answer(logged(tank, {"--on", "2026-03-10", "did", "it"}));
}

TEST_CASE("log --json says what was written", "[cli][log]") {
    const TemporaryFolder folder;
    const std::string tank = folder.write("t3.yaml", record);
    const Run result = logged(tank, {"--json", "--bay", "right", "--on", "2026-03-10", "worms", "in", "5", "kg"});
    check_answer(result);
    const auto json = nlohmann::json::parse(result.out);
    CHECK(json["file"] == tank);
    CHECK(json["tank"] == "Tank 3");
    CHECK(json["begun"] == false);
    CHECK(json["entries"] == 2);
    CHECK(json["line"] == 10);
    CHECK(json["entry"] == nlohmann::json({{"on", "2026-03-10"}, {"bay", "right"}, {"worms in", "5 kg"}}));
    CHECK(json["written"] == "  - {on: 2026-03-10, bay: right, worms in: 5 kg}");
}

TEST_CASE("log writes nothing of what it does not know, and names the nearest", "[cli][log]") {
    const TemporaryFolder folder;
    const std::string tank = folder.write("t3.yaml", record);
    struct Slip {
        std::vector<std::string> words;
        std::string said;
    };
    const std::vector<Slip> slips = {
        {{"--bay", "left", "added", "3", "buckets", "kitchen_wate"}, "did you mean 'mixed_kitchen_waste'?"},
        {{"--bay", "left", "added", "3", "bukets", "kitchen_waste"}, "did you mean 'buckets'?"},
        {{"--bay", "left", "added", "5000", "buckets", "kitchen_waste"}, "the bay 'left' holds 2123 L up to the rim"},
        {{"--bay", "lefft", "did", "it"}, "the tank has no bay 'lefft' (did you mean 'left'?)"},
        {{"added", "3", "kg", "dry_leaves"}, "'added' needs the bay (bay: left or right)"},
        {{"saw", "smell_sour=feint"}, "did you mean 'faint'?"},
        {{"saw", "smell_sowr=faint"}, "did you mean 'smell_sour'?"},
        {{"did", "turn_heap_with_drye"}, "did you mean 'turn_heap_with_dry'?"},
        {{"turned", "it"}, "'turned' does not say what happened"},
        {{"adde", "3", "kg", "dry_leaves"}, "did you mean 'added'?"},
        {{"--on", "2026-02-30", "did", "it"}, "--on: there is no 30th of February"},
        {{"--wait", "long", "did", "it"}, "--wait takes seconds"},
        {{"--wait", "601", "did", "it"}, "--wait takes seconds"},
        {{"--bucket", "9 L", "did", "it"}, "--bucket goes with --new"},
        {{"--new"}, "is there already"},
        {{}, "say what happened"},
        {{"--bya", "left", "did", "it"}, "there is no option '--bya' (did you mean '--bay'?)"}};
    for (const Slip& slip : slips) {
        CAPTURE(slip.said);
        check_error(logged(tank, slip.words), 2, slip.said);
        CHECK(file_text(tank) == record);
    }
    CHECK(files_of(folder) == std::set<std::string>{"t3.yaml"});
    check_error(run({"log", "did", "it"}), 2, "say which record");
    check_error(logged("-", {"did", "it"}), 2, "a record is a file");
    check_error(logged(folder.path("none.yaml"), {"did", "it"}), 3, "there is no such file; --new begins a record");
    check_error(logged(folder.path(), {"did", "it"}), 3, "it is a folder");
    check_error(logged(folder.path("no/t.yaml"), {"--new"}), 3, "its folder cannot be opened");
}

TEST_CASE("log refuses a record that it cannot read, with the places", "[cli][log]") {
    for (const std::string& bad : {record + "colour: green\n", record + "  - {on: 2026-03-10\n", record + "note: a\nnote: b\n",
                                   std::string("- a list\n"), std::string("\xFF\xFE"), std::string()}) {
        const TemporaryFolder folder;
        const std::string tank = folder.write("t3.yaml", bad);
        const Run result = logged(tank, {"--bay", "left", "did", "it"});
        check_error(result, 2, "nothing was written to '" + tank + "', since its record cannot be read; mend it first");
        CHECK(holds(result.err, "lidlift: " + tank + ":"));
        CHECK(file_text(tank) == bad);
    }
    const TemporaryFolder folder;
    const std::string tank = folder.write("large.yaml", std::string(1024 * 1024 + 1, '#'));
    check_error(logged(tank, {"did", "it"}), 3, "is larger than 1024 KiB");
    std::string full = "tank: T\nentries:\n";
    for (int i = 0; i < 10'000; ++i) full += "  - {on: 2026-03-09, did: it}\n";
    const std::string full_tank = folder.write("full.yaml", full);
    check_error(logged(full_tank, {"did", "it"}), 2, "a record holds at most 10000 entries (begin a new file for this tank)");
    CHECK(file_text(full_tank) == full);
}

TEST_CASE("log --new begins a record", "[cli][log]") {
    const TemporaryFolder folder;
    const std::string tank = folder.path("t7.yaml");
    const Run begun =
        logged(tank, {"--new", "--name", "Tank 7, north", "--inside", "10 ft x 6 ft x 2.5 ft", "--bays", "left, right",
                      "--wall", "open", "--worms", "Eisenia fetida", "--bucket", "10 L", "--barrow", "80 L"});
    check_answer(begun);
    CHECK(holds(unwrapped(begun.out), "Began the record of Tank 7, north in " + tank));
    const std::string head =
        "tank: Tank 7, north\ninside: {length: 10 ft, width: 6 ft, height: 2.5 ft}\nbays: [left, right]\ndividing wall: open\n"
        "worms: Eisenia fetida\nbucket: 10 L\nbarrow: 80 L\n\nentries:\n";
    CHECK(file_text(tank) == head);
    check_answer(logged(tank, {"--bay", "left", "--on", "2026-03-09", "added", "1", "barrow", "dry_leaves"}));
    CHECK(file_text(tank) == head + "  - {on: 2026-03-09, bay: left, added: {dry_leaves: 1 barrow}}\n");

    check_answer(logged(folder.path("t8.yaml"), {"--new", "--inside", "3 × 2 × 1 m", "--on", "2026-03-09", "did", "built it"}));
    CHECK(file_text(folder.path("t8.yaml")) ==
          "tank: t8\ninside: {length: 3 m, width: 2 m, height: 1 m}\n\nentries:\n  - {on: 2026-03-09, did: built it}\n");

    const Run json = logged(folder.path("t9.yaml"), {"--new", "--json"});
    check_answer(json);
    const auto said = nlohmann::json::parse(json.out);
    CHECK(said["begun"] == true);
    CHECK(said["entries"] == 0);
    CHECK(said["entry"].is_null());
    CHECK(said["line"].is_null());

    check_error(logged(folder.path("u.yaml"), {"--new", "--inside", "10 x 6"}), 2, "--inside is length, width and height");
    check_error(logged(folder.path("u.yaml"), {"--new", "--inside", "10 x 6 x 2"}), 2, "'length' lacks its unit");
    check_error(logged(folder.path("u.yaml"), {"--new", "--bays", "a,A"}), 2, "two bays are called 'A'");
    check_error(logged(folder.path("u.yaml"), {"--new", "--wall", "open"}), 2, "a tank of one bay has no dividing wall");
    check_error(logged(folder.path("u.yaml"), {"--new", "did"}), 2, "'did' what?");
    CHECK_FALSE(fs::exists(folder.path("u.yaml")));
}

TEST_CASE("the examples of log --help fit the page and do what they show", "[cli][log]") {
    const TemporaryFolder folder;
    const std::string tank = folder.write("t3.yaml", "tank: T\nbays: left\nbucket: 10 L\nbarrow: 80 L\n");
    const std::string help = run({"log", "--help"}).out;
    int examples = 0;
    for (std::size_t begin = 0, end = 0; (end = help.find('\n', begin)) != std::string::npos; begin = end + 1) {
        std::string line = help.substr(begin, end - begin);
        CAPTURE(line);
        CHECK(display_width(line) <= 80);
        if (line.rfind("  lidlift log ", 0) != 0) continue;
        if (holds(line, "--new")) line += " " + help.substr(end + 1, help.find('\n', end + 1) - end - 1);
        line.replace(2, 7, LIDLIFT_PROGRAM);
        ++examples;
        CHECK(std::system(("cd '" + folder.path() + "' && >out 2>&1 " + line).c_str()) == 0);
        CAPTURE(file_text(folder.path("out")));
        CHECK(holds(file_text(folder.path("out")), holds(line, "--new") ? "Began the record of Tank 7" : "Written to t3.yaml"));
    }
    CHECK(examples == 11);
    CHECK(holds(file_text(tank), "harvested: 6 barrows, emptied: yes}\n"));
}

TEST_CASE("log says when only its words could not be printed", "[cli][log]") {
    const TemporaryFolder folder;
    const std::string tank = folder.write("t.yaml", "tank: T\n");
    const Run result = run({"log", "--tank", tank, "--on", "2026-03-09", "did", "it"}, {}, Stdout::full);
    CHECK(result.exit == 3);
    CHECK(holds(result.err, "but the entry is in '" + tank + "'; do not log it again"));
    CHECK(file_text(tank) == "tank: T\n\nentries:\n  - {on: 2026-03-09, did: it}\n");
}

TEST_CASE("log shows nothing that a terminal obeys", "[cli][log]") {
    const TemporaryFolder folder;
    const std::string tank = folder.write("t.yaml", "tank: T\n");
    const Run refused = logged(tank, {"did", "a\x1B[31mb"});
    check_error(refused, 2, "an argument holds the control character U+001B");
    const Run lines = logged(tank, {"--on", "2026-03-09", "--note", "two\nlines\tand a tab"});
    CHECK(lines.exit == 0);
    CHECK(is_tame(lines.out));
    CHECK(file_text(tank) == "tank: T\n\nentries:\n  - {on: 2026-03-09, note: \"two\\nlines\\tand a tab\"}\n");
}

TEST_CASE("log with a site's own rules knows the site's own names", "[cli][log]") {
    const TemporaryFolder folder;
    const std::string rules =
        folder.write("site.yaml",
                     "signs:\n  crabs: {ask: Are there crabs, topic: animals, effort: look, seen anyway: sometimes, sources: "
                     "[common_practice]}\n");
    const std::string tank = folder.write("t.yaml", "tank: T\n");
    check_error(run_log(tank, {"saw", "crabs=yes"}), 2, "there is no sign 'crabs'");
    check_answer(run_log(tank, {"--rules", rules, "saw", "crabs=yes"}));
    check_error(run_log(tank, {"did", "it"}), 2, "there is no sign 'crabs'");
}

}  // namespace cli_log_test
