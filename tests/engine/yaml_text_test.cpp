#include "engine/yaml_text.hpp"

#include "tests/catch.hpp"

#include <random>
#include <string>

namespace engine_yaml_text_test {

using namespace lidlift;

namespace {

YamlNode read(const std::string& text) {
    Complaints complaints;
    YamlNode tree = read_yaml(text, "t.yaml", complaints);
    CAPTURE(text);
    if (!complaints.empty()) FAIL(to_text(complaints.sorted().front()));
    return tree;
}

}  // namespace

TEST_CASE("plain texts stay plain", "[yaml_text]") {
    for (const std::string text :
         {"3 buckets", "61 °C", "2026-03-09", "-5 °C", "yes", "010", "it's wet", "a-b_c", "28 to 32 °C", "5%"}) {
        CHECK(yaml_scalar(text, YamlStyle::flow) == text);
        CHECK(yaml_scalar(text, YamlStyle::block) == text);
    }
    CHECK(yaml_scalar("Tank 3, by the gate", YamlStyle::block) == "Tank 3, by the gate");
    CHECK(yaml_scalar("Tank 3, by the gate", YamlStyle::flow) == "'Tank 3, by the gate'");
    CHECK(yaml_scalar("it's: here", YamlStyle::flow) == "'it''s: here'");
    CHECK(yaml_scalar("two\nlines \"here\"", YamlStyle::block) == "\"two\\nlines \\\"here\\\"\"");
    CHECK(yaml_scalar("", YamlStyle::block) == "''");
    CHECK(yaml_scalar("?", YamlStyle::block) == "'?'");
}

TEST_CASE("every text reads back the same wherever it stands", "[yaml_text]") {
    std::mt19937 random(7);  // NOLINT: the same every time
    const std::string marks = " \n\t:,{}[]\"'#&*!|>%@`?~-=.\\<ab1_\xC3\xA9 :#'";
    for (int i = 0; i < 20'000; ++i) {
        std::string text;
        for (std::size_t length = random() % 9; length > 0; --length) {
            const char c = marks[random() % marks.size()];
            text += c == '\xC3' || c == '\xA9' ? std::string("\xC3\xA9") : std::string(1, c);
        }
        YamlNode inner = yaml_list();
        inner.items.push_back(yaml_text(text));
        YamlNode map = yaml_map();
        add_key(map, "a", yaml_text(text));
        add_key(map, "b", inner);
        if (text != "a" && text != "b") add_key(map, text, yaml_text("x"));
        Complaints complaints;
        const YamlNode flow = read_yaml(yaml_on_one_line(map), "t.yaml", complaints);
        CAPTURE(text, yaml_on_one_line(map));
        REQUIRE(complaints.empty());
        REQUIRE(same_content(flow, map));
        const YamlNode block = read_yaml("a: " + yaml_scalar(text, YamlStyle::block) + "\n", "t.yaml", complaints);
        REQUIRE(complaints.empty());
        REQUIRE(block.find("a")->text == text);
    }
}

TEST_CASE("content is the same or not", "[yaml_text]") {
    CHECK(same_content(read("a: [1, 'x']\nb: {c: d}"), read("a:\n  - '1'\n  - x\nb:\n  c: d")));
    CHECK_FALSE(same_content(read("a: 1\nb: 2"), read("b: 2\na: 1")));
    CHECK_FALSE(same_content(read("a: [1]"), read("a: 1")));
    CHECK_FALSE(same_content(read("a: [1]"), read("a: [1, 1]")));
    CHECK_FALSE(same_content(read("a: {b: c}"), read("a: {b: d}")));
    CHECK_FALSE(same_content(read("a: b"), read("a2: b")));
}

}  // namespace engine_yaml_text_test
