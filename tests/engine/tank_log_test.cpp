#include "engine/tank_log.hpp"

#include "engine/yaml_text.hpp"
#include "tests/catch.hpp"
#include "tests/engine/small_tanks.hpp"

#include <random>
#include <string>
#include <vector>

namespace engine_tank_log_test {

using namespace lidlift;
using namespace lidlift::test;

namespace {

YamlNode entry_of(const std::string& yaml) {
    Complaints complaints;
    YamlNode tree = read_yaml(yaml, "entry", complaints);
    if (!complaints.empty()) FAIL("the test's own entry is wrong: " << to_text(complaints.sorted().front()));
    return tree;
}

const std::string three_buckets = "{on: 2026-03-09, bay: left, added: {kitchen_waste: 3 buckets}}";

std::string logged(const std::string& text, const std::string& entry = three_buckets) {
    const auto result = with_entry(text, "t.yaml", entry_of(entry));
    return result ? result->text : "refused: " + result.fault().text;
}

/// `whole` is `part` with `more` put into it somewhere.
bool is_put_into(const std::string& whole, const std::string& part, const std::string& more) {
    for (std::size_t at = whole.find(more); at != std::string::npos; at = whole.find(more, at + 1))
        if (whole.substr(0, at) + whole.substr(at + more.size()) == part) return true;
    return false;
}

}  // namespace

TEST_CASE("an entry is added as the last one stands", "[tank_log]") {
    CHECK(logged("tank: T\nentries:\n  - {on: 2026-03-08, did: it}\n") ==
          "tank: T\nentries:\n  - {on: 2026-03-08, did: it}\n  - " + three_buckets + "\n");
    CHECK(logged("tank: T\nentries:\n- {on: 2026-03-08, did: it}\n") ==
          "tank: T\nentries:\n- {on: 2026-03-08, did: it}\n- " + three_buckets + "\n");
    CHECK(logged("tank: T\nentries:\n    -   on: 2026-03-08\n        did: it\n") ==
          "tank: T\nentries:\n    -   on: 2026-03-08\n        did: it\n"
          "    -   on: 2026-03-09\n        bay: left\n        added: {kitchen_waste: 3 buckets}\n");
    CHECK(logged("tank: T\nentries:\n  - on: 2026-03-08\n    did: it\n  - {on: 2026-03-08, did: it}\n") ==
          "tank: T\nentries:\n  - on: 2026-03-08\n    did: it\n  - {on: 2026-03-08, did: it}\n  - " + three_buckets + "\n");
    // The dash alone on its line.
    CHECK(logged("tank: T\nentries:\n  -\n    on: 2026-03-08\n    did: it\n", "{on: 2026-03-09, did: that}") ==
          "tank: T\nentries:\n  -\n    on: 2026-03-08\n    did: it\n  - on: 2026-03-09\n    did: that\n");
}

TEST_CASE("entries that stand apart stay apart", "[tank_log]") {
    CHECK(logged("tank: T\nentries:\n  - on: 2026-03-07\n    did: it\n\n  # rain\n  - on: 2026-03-08\n    did: it\n",
                 "{on: 2026-03-09, did: it}") ==
          "tank: T\nentries:\n  - on: 2026-03-07\n    did: it\n\n  # rain\n  - on: 2026-03-08\n    did: it\n"
          "\n  - on: 2026-03-09\n    did: it\n");
}

TEST_CASE("texts that need quotes get them", "[tank_log]") {
    CHECK(logged("tank: T\nentries:\n  - {on: 2026-03-08, did: it}\n", "{on: 2026-03-09, note: 'a, b: c'}") ==
          "tank: T\nentries:\n  - {on: 2026-03-08, did: it}\n  - {on: 2026-03-09, note: 'a, b: c'}\n");
    CHECK(logged("tank: T\nentries:\n  - on: 2026-03-08\n    did: it\n", "{on: 2026-03-09, note: 'a, b'}") ==
          "tank: T\nentries:\n  - on: 2026-03-08\n    did: it\n  - on: 2026-03-09\n    note: a, b\n");
}

TEST_CASE("an entry that would be too long for one line goes on several", "[tank_log]") {
    const std::string before = "tank: T\nentries:\n  - {on: 2026-03-08, did: it}\n";
    const std::string shell = "{on: 2026-03-09, note: }";
    const std::string fits(120 - 4 - shell.size(), 'n');
    CHECK(logged(before, "{on: 2026-03-09, note: " + fits + "}") == before + "  - {on: 2026-03-09, note: " + fits + "}\n");
    CHECK(logged(before, "{on: 2026-03-09, note: " + fits + "n}") == before + "  - on: 2026-03-09\n    note: " + fits + "n\n");
}

TEST_CASE("comments stay where a person put them", "[tank_log]") {
    const std::string begin = "# top\ntank: T  # name\nentries:  # all of them\n  - on: 2026-03-08  # late\n    did: it\n";
    const std::string added = "  - on: 2026-03-09\n    did: that\n";
    for (const std::string& end :
         {std::string("\n# foot\n"), std::string("# foot\n"), std::string("\n\nnote: N  # n\n"), std::string("note: N\n"),
          std::string("# about the note\nnote: N\n"), std::string("...\n"), std::string("\n# foot\n...\n# after\n")}) {
        CAPTURE(end);
        CHECK(logged(begin + end, "{on: 2026-03-09, did: that}") == begin + added + end);
    }
    for (const std::string& with : {std::string("    # it was hot\n"), std::string("  # May\n"),
                                    std::string("\n  # ---- May ----\n"), std::string("    # a\n\n    # b\n  # c\n")}) {
        CAPTURE(with);
        CHECK(logged(begin + with, "{on: 2026-03-09, did: that}") == begin + with + added);
        CHECK(logged(begin + with + "\n# foot\nnote: N\n", "{on: 2026-03-09, did: that}") ==
              begin + with + added + "\n# foot\nnote: N\n");
    }
    CHECK(logged("tank: T\nentries:\n- {on: 2026-03-08, did: it}\n# its comment\n\n# foot\n", "{on: 2026-03-09, did: that}") ==
          "tank: T\nentries:\n- {on: 2026-03-08, did: it}\n# its comment\n- {on: 2026-03-09, did: that}\n\n# foot\n");
}

TEST_CASE("texts of several lines are not broken, whatever they look like", "[tank_log]") {
    const std::string added = "  - on: 2026-03-09\n    did: that\n";
    for (const std::string& note :
         {std::string("|\n      # no comment\n\n      # nor this\n"), std::string("|\n      one\n\n\n"),
          std::string(">\n      one\n      # two\n"), std::string("'one\n\n      # two'\n"),
          std::string("one\n      two\n      three\n"), std::string("\"one\n      - {on: x}\"\n")}) {
        for (const std::string& end : {std::string(), std::string("note: N\n"), std::string("# foot\n")}) {
            const std::string text = "tank: T\nentries:\n  - on: 2026-03-08\n    note: " + note + end;
            CAPTURE(text);
            CHECK(is_put_into(logged(text, "{on: 2026-03-09, did: that}"), text, added));
        }
    }
    // With '+' the blank lines at the end belong to the text.
    CHECK(logged("tank: T\nentries:\n  - on: 2026-03-08\n    note: |+\n      one\n\n\n", "{on: 2026-03-09, did: that}") ==
          "tank: T\nentries:\n  - on: 2026-03-08\n    note: |+\n      one\n\n\n" + added);
}

TEST_CASE("line ends and the last line's lack of one", "[tank_log]") {
    CHECK(logged("tank: T\r\nentries:\r\n  - on: 2026-03-08\r\n    did: it\r\n", "{on: 2026-03-09, did: that}") ==
          "tank: T\r\nentries:\r\n  - on: 2026-03-08\r\n    did: it\r\n  - on: 2026-03-09\r\n    did: that\r\n");
    CHECK(logged("tank: T\r\nentries:\r\n  - {on: 2026-03-08, did: it}", "{on: 2026-03-09, did: that}") ==
          "tank: T\r\nentries:\r\n  - {on: 2026-03-08, did: it}\r\n  - {on: 2026-03-09, did: that}\r\n");
    CHECK(logged("tank: T\r\nentries: [\r\n  {on: 2026-03-08, did: it}\r\n]\r\n", "{on: 2026-03-09, did: that}") ==
          "tank: T\r\nentries: [\r\n  {on: 2026-03-08, did: it},\r\n  {on: 2026-03-09, did: that}\r\n]\r\n");
    CHECK(logged("tank: T\nentries:\n  - {on: 2026-03-08, did: it}", "{on: 2026-03-09, did: that}") ==
          "tank: T\nentries:\n  - {on: 2026-03-08, did: it}\n  - {on: 2026-03-09, did: that}\n");
    CHECK(logged("tank: T\nentries:\n  - on: 2026-03-08\n    note: |\n      one", "{on: 2026-03-09, did: that}") ==
          "tank: T\nentries:\n  - on: 2026-03-08\n    note: |\n      one\n  - on: 2026-03-09\n    did: that\n");
    CHECK(logged("\xEF\xBB\xBFtank: T\nentries:\n  - {on: 2026-03-08, did: it}\n", "{on: 2026-03-09, did: that}") ==
          "\xEF\xBB\xBFtank: T\nentries:\n  - {on: 2026-03-08, did: it}\n  - {on: 2026-03-09, did: that}\n");
}

TEST_CASE("a record without entries gets its first", "[tank_log]") {
    const std::string entry = "{on: 2026-03-09, did: it}";
    CHECK(logged("tank: T\n", entry) == "tank: T\n\nentries:\n  - {on: 2026-03-09, did: it}\n");
    CHECK(logged("tank: T\n\n", entry) == "tank: T\n\nentries:\n  - {on: 2026-03-09, did: it}\n");
    CHECK(logged("tank: T", entry) == "tank: T\n\nentries:\n  - {on: 2026-03-09, did: it}\n");
    CHECK(logged("  tank: T\n  note: N\n", entry) == "  tank: T\n  note: N\n\n  entries:\n    - {on: 2026-03-09, did: it}\n");
    CHECK(logged("---\ntank: T\n...\n", entry) == "---\ntank: T\n\nentries:\n  - {on: 2026-03-09, did: it}\n...\n");
    CHECK(logged("tank: T\nnote: |+\n  one\n\n", entry) ==
          "tank: T\nnote: |+\n  one\n\nentries:\n  - {on: 2026-03-09, did: it}\n");
    CHECK(logged("tank: T\nnote: |+\n  one\n", entry) == "tank: T\nnote: |+\n  one\nentries:\n  - {on: 2026-03-09, did: it}\n");
    CHECK(logged("tank: T\nentries:\n", entry) == "tank: T\nentries:\n  - {on: 2026-03-09, did: it}\n");
    CHECK(logged("tank: T\nentries:", entry) == "tank: T\nentries:\n  - {on: 2026-03-09, did: it}\n");
    CHECK(logged("tank: T\nentries:  # soon\n  # the first\n\n# foot\nnote: N\n", entry) ==
          "tank: T\nentries:  # soon\n  # the first\n  - {on: 2026-03-09, did: it}\n\n# foot\nnote: N\n");
    CHECK(logged("entries:\ntank: T\n", entry) == "entries:\n  - {on: 2026-03-09, did: it}\ntank: T\n");
    CHECK(logged("tank: T\nentries: []\n", entry) == "tank: T\nentries:\n  - {on: 2026-03-09, did: it}\n");
    CHECK(logged("tank: T\nentries: []  # none yet\nnote: N\n", entry) ==
          "tank: T\nentries:  # none yet\n  - {on: 2026-03-09, did: it}\nnote: N\n");
    CHECK(logged("tank: T\nentries: []", entry) == "tank: T\nentries:\n  - {on: 2026-03-09, did: it}\n");
    CHECK(logged("tank: T\nentries: [ ]\n", entry) == "tank: T\nentries: [{on: 2026-03-09, did: it} ]\n");
}

TEST_CASE("a list in brackets is continued in its brackets", "[tank_log]") {
    const std::string entry = "{on: 2026-03-09, did: it}";
    CHECK(logged("tank: T\nentries: [{on: 2026-03-08, note: 'a] # b'}]  # c\n", entry) ==
          "tank: T\nentries: [{on: 2026-03-08, note: 'a] # b'}, {on: 2026-03-09, did: it}]  # c\n");
    CHECK(logged("tank: T\nentries: [{on: 2026-03-08, note: it's \"so\"}, ]\n", entry) ==
          "tank: T\nentries: [{on: 2026-03-08, note: it's \"so\"}, {on: 2026-03-09, did: it} ]\n");
    CHECK(logged("tank: T\nentries: [{on: 2026-03-08, note: 'it''s [so'}]\n", entry) ==
          "tank: T\nentries: [{on: 2026-03-08, note: 'it''s [so'}, {on: 2026-03-09, did: it}]\n");
    CHECK(logged("tank: T\nentries: [{on: 2026-03-08, note: \"\\\"[\"}]\n", entry) ==
          "tank: T\nentries: [{on: 2026-03-08, note: \"\\\"[\"}, {on: 2026-03-09, did: it}]\n");
    CHECK(logged("tank: T\nentries: [\n  {on: 2026-03-08, did: it}  # [late\n  # foot\n]\nnote: N\n", entry) ==
          "tank: T\nentries: [\n  {on: 2026-03-08, did: it},  # [late\n  {on: 2026-03-09, did: it}\n  # foot\n]\nnote: N\n");
    CHECK(logged("tank: T\nentries: [\n  {on: 2026-03-08, did: it},\n]\n", entry) ==
          "tank: T\nentries: [\n  {on: 2026-03-08, did: it},\n  {on: 2026-03-09, did: it},\n]\n");
    CHECK(logged("tank: T\nentries: [{on: 2026-03-08, did: it}\n  ]\n", entry) ==
          "tank: T\nentries: [{on: 2026-03-08, did: it},\n          {on: 2026-03-09, did: it}\n  ]\n");
    CHECK(logged("{tank: T, entries: [{on: 2026-03-08, did: it}]}\n", entry) ==
          "{tank: T, entries: [{on: 2026-03-08, did: it}, {on: 2026-03-09, did: it}]}\n");
    CHECK(logged("{tank: T, entries: []}\n", entry) == "{tank: T, entries: [{on: 2026-03-09, did: it}]}\n");
    CHECK(logged("{tank: T}\n", entry) == "{tank: T, entries: [{on: 2026-03-09, did: it}]}\n");
}

TEST_CASE("what cannot be added to is refused with the entry to be put in by hand", "[tank_log]") {
    const std::string entry = "{on: 2026-03-09, did: it}";
    for (const std::string text :
         {"", "# nothing\n", "- a\n", "tank: [\n", "tank: T\nentries: none\n", "tank: T\nentries: {a: b}\n",
          "{tank: T, entries: }\n", "tank: T\n---\ntank: U\n", "tank: &a T\n", "tank: T\ntank: U\n"}) {
        CAPTURE(text);
        const std::string said = logged(text, entry);
        CHECK(said.find("refused: 't.yaml' is written in a way that lidlift does not dare to add to (") == 0);
        CHECK(said.find("; add the entry by hand: - {on: 2026-03-09, did: it}") != std::string::npos);
    }
    std::string nearly_full = "tank: T\nentries:\n  - {on: 2026-03-08, did: it}\n#";
    nearly_full += std::string(largest_file - nearly_full.size() - 1, '.') + "\n";
    CHECK(logged(nearly_full, entry).find("would grow larger than 1024 KiB; begin a new file for this tank") !=
          std::string::npos);
}

TEST_CASE("it is said where the entry stands", "[tank_log]") {
    const auto result =
        with_entry("tank: T\nentries:\n  - on: 2026-03-08\n    did: it\n\n# foot\n", "t.yaml", entry_of(three_buckets));
    REQUIRE(result);
    CHECK(result->line == 5);
    CHECK(result->written == "  - on: 2026-03-09\n    bay: left\n    added: {kitchen_waste: 3 buckets}");
    CHECK(same_content(result->tree.find("entries")->items.back(), entry_of(three_buckets)));
}

TEST_CASE("a new record begins with its heading", "[tank_log]") {
    const std::string text =
        new_record(entry_of("{tank: 'Tank 7, north', inside: {length: 3 m, width: 2 m, height: 1 m}, bays: [a, b]}"));
    CHECK(text == "tank: Tank 7, north\ninside: {length: 3 m, width: 2 m, height: 1 m}\nbays: [a, b]\n\nentries:\n");
    CHECK(tank_complaints(text).empty());
    CHECK(logged(text, "{on: 2026-03-09, bay: a, did: it}") == text + "  - {on: 2026-03-09, bay: a, did: it}\n");
}

TEST_CASE("whatever the record looks like, an entry is added and nothing else changes", "[tank_log]") {
    std::mt19937 random(11);  // NOLINT: the same every time
    const auto one_of = [&](const std::vector<std::string>& choices) { return choices[random() % choices.size()]; };
    std::size_t added = 0;
    for (int i = 0; i < 3'000; ++i) {
        const bool crlf = random() % 4 == 0;
        const std::string margin(random() % 3 * 2, ' ');
        const std::string gap(1 + random() % 3, ' ');
        std::string text = one_of({"", "# top\n", "---\n", "\n\n"}) + "tank: T\n" +
                           one_of({"", "# c\n", "\n", "bucket: 9 L\n"}) + "entries:" + one_of({"", "  # c"}) + "\n";
        const std::size_t count = 1 + random() % 4;
        for (std::size_t item = 0; item < count; ++item) {
            text += one_of({"", "", "\n", margin + "# c\n", "\n" + margin + "# - {on: x}\n"});
            const std::string inside = margin + " " + gap;
            const std::string note =
                one_of({"'# it''s'", "\"a\\n[b\"", "x y", "it's", "|\n" + inside + "  # a\n\n" + inside + "  b",
                        ">-\n" + inside + "  a\n" + inside + "  b", "one\n" + inside + "  two", "|+\n" + inside + "  a\n\n",
                        "'a\n\n" + inside + " b'"});
            const bool many_lines = note.find('\n') != std::string::npos;
            if (many_lines || random() % 2 == 0)
                text += margin + "-" + gap + "on: 2026-03-0" + std::to_string(1 + random() % 9) + one_of({"", "  # c"}) + "\n" +
                        inside + "note: " + note + (note.ends_with('\n') ? "" : one_of({"", many_lines ? "" : "  # c"}) + "\n");
            else
                text += margin + "-" + gap + "{on: 2026-03-08, did: [a, b]}" + one_of({"", "  # }"}) + "\n";
        }
        text += one_of({"", "", margin + "  # tail\n", margin + "# tail\n", "\n# foot\n", "\n\n", "note: N\n",
                        "\n# c\nnote: N\n", "...\n"});
        if (random() % 8 == 0) text.pop_back();
        if (crlf) {
            std::string lines;
            for (const char c : text) lines += c == '\n' ? std::string("\r\n") : std::string(1, c);
            text = lines;
        }
        CAPTURE(i, text);
        const auto before = read_tank_record(text, "t.yaml", tank_base());
        REQUIRE(before.complaints.empty());
        const auto result = with_entry(text, "t.yaml", entry_of("{on: 2026-03-31, worms in: 5 kg}"));
        if (!result) UNSCOPED_INFO(result.fault().text);
        REQUIRE(result);
        ++added;
        const auto after = read_tank_record(result->text, "t.yaml", tank_base());
        REQUIRE(after.complaints.empty());
        REQUIRE(after.record.entries.size() == before.record.entries.size() + 1);
        REQUIRE(std::get<WormsIn>(after.record.entries.back().what).kg == 5);
        // All that stood there stands there still, in its order.
        std::string end = text.ends_with('\n') ? "" : crlf ? "\r\n" : "\n";
        const bool apart =
            result->text.find(crlf ? "\r\n\r\n" + result->written : "\n\n" + result->written) != std::string::npos;
        const std::string line_end = crlf ? "\r\n" : "\n";
        REQUIRE((is_put_into(result->text, text + end, result->written + line_end) ||
                 (apart && is_put_into(result->text, text + end, line_end + result->written + line_end))));
    }
    CHECK(added == 3'000);
}

}  // namespace engine_tank_log_test
