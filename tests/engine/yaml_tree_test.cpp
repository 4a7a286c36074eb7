#include "engine/yaml_tree.hpp"

#include "tests/catch.hpp"

#include <string>
#include <string_view>

namespace engine_yaml_tree_test {

using namespace lidlift;
using namespace std::string_view_literals;
using Kind = YamlNode::Kind;

namespace {

struct Reading {
    YamlNode tree;
    std::vector<std::string> mistakes;  ///< "line:column text", without the hint
};

std::string at(const Place& place) { return std::to_string(place.line) + ":" + std::to_string(place.column); }

Reading read(std::string_view text) {
    Complaints complaints;
    Reading reading{read_yaml(text, "", complaints), {}};
    for (const Complaint& complaint : complaints.sorted())
        reading.mistakes.push_back(at(complaint.place) + " " + complaint.text);
    return reading;
}

/// The only mistake; else all of them.
std::string mistake(std::string_view text) {
    const Reading reading = read(text);
    if (reading.mistakes.size() == 1) return reading.mistakes[0];
    std::string all = std::to_string(reading.mistakes.size()) + " mistakes";
    for (const std::string& line : reading.mistakes) all += "\n" + line;
    return all;
}

/// The tree in one line: 'quoted', plain, [list], {key: value}.
std::string shape(const YamlNode& node) {
    if (node.kind == Kind::text) return node.plain ? node.text : "'" + node.text + "'";
    std::string inside;
    for (const YamlNode& item : node.items) inside += (inside.empty() ? "" : ", ") + shape(item);
    for (const YamlEntry& entry : node.entries) inside += (inside.empty() ? "" : ", ") + entry.key + ": " + shape(entry.value);
    return node.kind == Kind::list ? "[" + inside + "]" : "{" + inside + "}";
}

std::string sound(std::string_view text) {
    const Reading reading = read(text);
    return reading.mistakes.empty() ? shape(reading.tree) : mistake(text);
}

std::string repeated(std::string_view text, int times) {
    std::string result;
    for (int i = 0; i < times; ++i) result += text;
    return result;
}

}  // namespace

TEST_CASE("a document becomes a tree in the order of the file", "[yaml_tree]") {
    CHECK(sound("b: 1\na: [x, 'y', {k: v}]\nc:\n  - d\n  - e: f\n") == "{b: 1, a: [x, 'y', {k: v}], c: [d, {e: f}]}");
    CHECK(sound("- a\n- b\n") == "[a, b]");
    CHECK(sound("{a: [1, 2,]}") == "{a: [1, 2]}");
    CHECK(sound("---\na: b\n...\n") == "{a: b}");
}

TEST_CASE("nothing is interpreted", "[yaml_tree]") {
    CHECK(sound("[010, yes, 1e3, .inf, 0x10, 1_000]") == "[010, yes, 1e3, .inf, 0x10, 1_000]");
    CHECK(sound("[null, ~, NULL]") == "[null, ~, NULL]");
    CHECK(sound("a: null\nnull: b\n~: ~\n") == "{a: null, null: b, ~: ~}");
}

TEST_CASE("quoted and plain texts are told apart", "[yaml_tree]") {
    CHECK(sound("['yes', yes, \"yes\"]") == "['yes', yes, 'yes']");
    CHECK(sound("a: |\n  x\n  y\n") == "{a: 'x\ny\n'}");
    CHECK(sound("a: >\n  x\n  y\n") == "{a: 'x y\n'}");
    CHECK(sound("a: ''\nb: \"it's\"\nc: 'it''s'\nd: \"say \\\"x\\\"\"\n") == "{a: '', b: 'it's', c: 'it's', d: 'say \"x\"'}");
}

TEST_CASE("line ends of both sorts are taken", "[yaml_tree]") {
    CHECK(sound("a: |\r\n  x\r\n  y\r\nb: z\r\n") == "{a: 'x\ny\n', b: z}");
    CHECK(sound("a: x\r\n  y\r\n") == "{a: x y}");
}

TEST_CASE("what is left empty is an empty plain text", "[yaml_tree]") {
    CHECK(sound("a:\nb: 1\nc:\n") == "{a: , b: 1, c: }");
    CHECK(sound("a:\nnull: x\n") == "{a: , null: x}");
    CHECK(sound("k:\n- a\n-\nnull: x\n") == "{k: [a, ], null: x}");
    CHECK(sound("a:\n  b:\nnull: x\n") == "{a: {b: }, null: x}");
    CHECK(sound("{a, null, b: }") == "{a: , null: , b: }");
    const YamlNode tree = read("a: 1\n  \nkey:\nb: 1\n").tree;
    REQUIRE(tree.find("key") != nullptr);
    CHECK(tree.find("key")->plain);
    CHECK(at(tree.find("key")->place) == "3:1");
}

TEST_CASE("an empty document is an empty map", "[yaml_tree]") {
    for (const char* text : {"", "\n", "# only a comment\n", "---\n", "---\n...\n", "\xEF\xBB\xBF"}) {
        CAPTURE(text);
        CHECK(sound(text) == "{}");
    }
}

TEST_CASE("places count from one in code points", "[yaml_tree]") {
    const YamlNode tree = read("é: ü\nlist:   # Würmer\n  - 蚓\n  - {é: ü, b: 'c'}\n").tree;
    REQUIRE(tree.entries.size() == 2);
    CHECK(at(tree.place) == "1:1");
    CHECK(at(tree.entries[0].key_place) == "1:1");
    CHECK(at(tree.entries[0].value.place) == "1:4");
    const YamlNode& list = tree.entries[1].value;
    CHECK(at(tree.entries[1].key_place) == "2:1");
    CHECK(at(list.place) == "3:3");
    CHECK(at(list.items[0].place) == "3:5");
    CHECK(at(list.items[1].place) == "4:5");
    CHECK(at(list.items[1].entries[1].key_place) == "4:12");
    CHECK(at(list.items[1].entries[1].value.place) == "4:15");
}

TEST_CASE("a byte-order mark at the beginning takes no column", "[yaml_tree]") {
    const YamlNode tree = read(
                              "\xEF\xBB\xBF"
                              "a: null\n")
                              .tree;
    CHECK(shape(tree) == "{a: null}");
    CHECK(at(tree.entries[0].value.place) == "1:4");
}

TEST_CASE("places carry the file's name", "[yaml_tree]") {
    Complaints complaints;
    const YamlNode tree = read_yaml("a: 1\na: 2\n", "rules/a.yaml", complaints);
    CHECK(tree.entries[0].value.place.file == "rules/a.yaml");
    CHECK(to_text(complaints.sorted()[0]) == "rules/a.yaml:2:1: the key 'a' is given twice (first in line 1, column 1)");
}

TEST_CASE("find gives the value of a key or nothing", "[yaml_tree]") {
    const YamlNode tree = read("a: 1\nb: 2\n").tree;
    REQUIRE(tree.find("b") != nullptr);
    CHECK(tree.find("b")->text == "2");
    CHECK(tree.find("c") == nullptr);
    CHECK(YamlNode{}.find("c") == nullptr);
}

TEST_CASE("of a key given twice the first is kept", "[yaml_tree]") {
    const Reading reading = read("a: 1\nb: 2\na: {x: 1, x: 2}\n'b': 4\nc: 5\na: 6\n");
    CHECK(shape(reading.tree) == "{a: 1, b: 2, c: 5}");
    CHECK(reading.mistakes == std::vector<std::string>{
                                  "3:1 the key 'a' is given twice",
                                  "3:11 the key 'x' is given twice",
                                  "4:1 the key 'b' is given twice",
                                  "6:1 the key 'a' is given twice",
                              });
}

TEST_CASE("anchors aliases tags and merge keys are refused where they stand and reading goes on", "[yaml_tree]") {
    const Reading reading = read("a: &x 1\nb: *x\nc: !!str d\ne: {<<: {f: g}, h: i}\nj: !k l\na: again\n");
    CHECK(shape(reading.tree) == "{a: 1, b: '', c: 'd', e: {h: i}, j: 'l'}");
    REQUIRE(reading.mistakes.size() == 6);
    CHECK(reading.mistakes[0].starts_with("1:4 anchors ('&name') and aliases ('*name') are not taken"));
    CHECK(reading.mistakes[1].starts_with("2:4 anchors ('&name') and aliases ('*name') are not taken"));
    CHECK(reading.mistakes[2].starts_with("3:4 tags ('!name') are not taken"));
    CHECK(reading.mistakes[3].starts_with("4:5 merge keys ('<<') are not taken"));
    CHECK(reading.mistakes[4].starts_with("5:4 tags ('!name') are not taken"));
    CHECK(reading.mistakes[5].starts_with("6:1 the key 'a' is given twice"));
}

TEST_CASE("a list that holds itself ends", "[yaml_tree]") {
    const Reading reading = read("&a [1,*a]");
    CHECK(shape(reading.tree) == "[1, '']");
    REQUIRE(reading.mistakes.size() == 2);
    CHECK(reading.mistakes[0].starts_with("1:1 anchors"));
    CHECK(reading.mistakes[1].starts_with("1:7 anchors"));
}

TEST_CASE("an alias bomb is only a list of mistakes", "[yaml_tree]") {
    std::string bomb = "a: &a [x, x, x, x, x, x, x, x, x]\n";
    for (char name = 'b'; name <= 'i'; ++name) {
        const std::string before(1, static_cast<char>(name - 1));
        bomb += std::string(1, name) + ": &" + name + " [" + repeated("*" + before + ", ", 9) + "]\n";
    }
    const Reading reading = read(bomb);
    CHECK(reading.mistakes.size() == Complaints::limit + 1);
    CHECK(reading.mistakes.back() == "0:0 and 31 more mistakes");
    CHECK(reading.tree.entries.size() == 9);
}

TEST_CASE("an alias without its anchor is refused", "[yaml_tree]") {
    CHECK(mistake("a: *x\n") == "1:4 anchors ('&name') and aliases ('*name') are not taken");
}

TEST_CASE("a list or a map cannot be a key", "[yaml_tree]") {
    CHECK(mistake("[1]: 2\n") == "1:1 a list cannot be a key");
    CHECK(mistake("? {a: b}\n: 2\n") == "1:3 a map cannot be a key");
    CHECK(shape(read("a: 1\n[1]: {x: y}\nb: 2\n").tree) == "{a: 1, b: 2}");
}

TEST_CASE("a missing key is refused", "[yaml_tree]") {
    CHECK(mistake(": x\n") == "1:1 a key is missing here");
    CHECK(mistake("{a: 1,,b: 2}") == "1:7 a key is missing here");
}

TEST_CASE("a key without its colon is refused", "[yaml_tree]") {
    CHECK(mistake("a: 1\nb\n") == "2:1 after this a ':' is missing");
    CHECK(mistake("a:\n  é: y\n  b\n") == "3:3 after this a ':' is missing");
    CHECK(mistake("- a: 1\n  b\n- c\n") == "2:3 after this a ':' is missing");
    CHECK(mistake("a: 1\nb") == "2:1 after this a ':' is missing");
    // Where the file ends right after it, yaml-cpp gives an absent value the place of its key all the same.
    for (const char* text : {"a: 1\nb:", "a: 1\nb: ", "a: 1\nb:\n", "a: 1\n'b':"}) {
        Complaints complaints;
        const YamlNode tree = read_yaml(text, "t.yaml", complaints);
        CAPTURE(text);
        CHECK(complaints.empty());
        REQUIRE(tree.find("b"));
        CHECK(tree.find("b")->text.empty());
    }
    CHECK(sound("? a\n? null\n") == "{a: , null: }");
}

TEST_CASE("a missing item of a list in brackets is refused", "[yaml_tree]") {
    CHECK(mistake("[1,,2]") == "1:4 an item of the list is missing here");
    CHECK(mistake("[,1]") == "1:2 an item of the list is missing here");
    CHECK(sound("[1,2,]") == "[1, 2]");
    CHECK(sound("[]") == "[]");
}

TEST_CASE("a second document is refused and the first is kept", "[yaml_tree]") {
    CHECK(mistake("a: 1\n---\nb: 2\n") == "2:1 a second document begins here");
    CHECK(shape(read("a: 1\n---\nb: 2\n").tree) == "{a: 1}");
    CHECK(mistake("---\n---\n") == "2:1 a second document begins here");
    CHECK(mistake("[1] 2\n") == "1:5 this does not belong to what stands before it");
    CHECK(mistake("- a\nb: 1\n") == "2:1 this does not belong to what stands before it");
}

TEST_CASE("regression: yaml-cpp 0.7 never ended on a comma", "[yaml_tree]") {
    CHECK(mistake(",") == "1:1 this does not belong to what stands before it");
}

TEST_CASE("regression: yaml-cpp hung on these", "[yaml_tree]") {
    CHECK(mistake("[:").starts_with("1:2 a text cannot begin with this character"));
    CHECK(mistake("{:").starts_with("1:2 a text cannot begin with this character"));
}

TEST_CASE("directives are refused wherever they stand", "[yaml_tree]") {
    const std::string text = " directives ('%NAME') are not taken";
    CHECK(mistake("%FOO x\n---\na: 1\n") == "1:1" + text);
    CHECK(mistake("%YAML 1.2\n---\na: 1\n") == "1:1" + text);
    CHECK(mistake("# comment\n%TAG ! tag:x,2000:\n---\na: 1\n") == "2:1" + text);
    CHECK(mistake("%YAML 9.9\n---\na: 1\n") == "1:1" + text);
    CHECK(mistake("%YAML\n---\na: 1\n") == "1:1" + text);
    CHECK(mistake("a: 1\n%FOO x") == "2:1" + text);
}

TEST_CASE("bad characters end the reading before the parser", "[yaml_tree]") {
    CHECK(mistake("a: \x1b[31m\na: 2\n") == "1:4 here stands the control character U+001B");
    CHECK(mistake("a: b\n\nc: \xC0\xAF\n") == "3:4 here stands a byte that is not UTF-8");
    CHECK(mistake("a: \u202eb\n") == "1:4 here stands the bidirectional control U+202E");
    CHECK(mistake("a: b\0\n"sv) == "1:5 here stands the control character U+0000");
    CHECK(mistake("\xFF\xFE"
                  "a\0:\0 \0b\0"sv) == "1:1 here stands a byte that is not UTF-8");
    CHECK(mistake("\xFE\xFF\0a\0:\0 \0b"sv) == "1:1 here stands a byte that is not UTF-8");
    CHECK(shape(read("a: \x1b").tree) == "{}");
}

TEST_CASE("escapes cannot bring bad characters back", "[yaml_tree]") {
    CHECK(mistake("a: \"x\\e[31m\"\n") == "1:4 this text holds the control character U+001B");
    CHECK(mistake("a: \"\\u202e\"\n") == "1:4 this text holds the bidirectional control U+202E");
    CHECK(mistake("a: \"\\0\"\n") == "1:4 this text holds the control character U+0000");
    CHECK(mistake("a: \"\\x9b\"\n") == "1:4 this text holds the control character U+009B");
    CHECK(mistake("a: \"\\u0085\"\n") == "1:4 this text holds the control character U+0085");
    CHECK(mistake("a: \"\\N\"\n") == "1:4 this text holds a byte that is not UTF-8");  // yaml-cpp 0.7 writes the byte 85
    CHECK(mistake("a: \"\\ufeff\"\n") == "1:4 this text holds a byte-order mark U+FEFF inside the text");
    CHECK(mistake("\"\\a\": b\n") == "1:1 this text holds the control character U+0007");
    CHECK(sound("a: \"x\\ny\\tz \\u00b0C\"\n") == "{a: 'x\ny\tz °C'}");
}

TEST_CASE("a quote that is never closed is refused even at the end of the file", "[yaml_tree]") {
    CHECK(mistake("a: 1\nb: \"xy\n") == "2:4 the closing quote is missing");
    CHECK(mistake("a: 'x''\n") == "1:4 the closing quote is missing");
    CHECK(mistake("a: \"x\\\"\n") == "1:4 the closing quote is missing");
    CHECK(mistake("a: \"\n") == "1:4 the closing quote is missing");
    CHECK(mistake("a: \"") == "1:4 the closing quote is missing");
    CHECK(sound("a: 'x'''") == "{a: 'x''}");
    CHECK(sound("a: \"x\\\\\"") == "{a: 'x\\'}");
}

TEST_CASE("syntax errors are told in plain words with their place", "[yaml_tree]") {
    CHECK(mistake("a:\n  b: 1\n c: 2\n") == "3:2 this does not fit the map around it");
    CHECK(mistake("a:\n  - x\n b: 1\n") == "3:2 this does not fit the map around it");
    CHECK(mistake("a: b: c\n") == "1:5 a ':' cannot stand here");
    CHECK(mistake("a: x\n  b: y\n") == "2:4 a ':' cannot stand here");
    CHECK(mistake("a: - b\n") == "1:4 a list item ('- ') cannot begin here");
    CHECK(mistake("a: 1\n\tb: 2\n") == "2:1 a tab stands where only spaces may");
    CHECK(mistake("a: }\n") == "1:4 this bracket closes nothing");
    CHECK(mistake("a: @x\n") == "1:4 a text cannot begin with this character");
    CHECK(mistake("a: %x\n") == "1:4 a text cannot begin with this character");
    CHECK(mistake("a: [1, 2\nb: 3\n") == "2:2 a ',' or the closing ']' is missing before this");
    CHECK(mistake("a: [[[[\nb: c\n") == "3:1 a ',' or the closing ']' is missing before this");
    CHECK(mistake("é: {ü: 1\né: 3\n") == "2:2 a ',' or the closing '}' is missing before this");
    CHECK(mistake("a: {x: 1\nb: 3\n") == "2:2 a ',' or the closing '}' is missing before this");
    CHECK(mistake("a: \"\\q\"\n") == "1:7 this escape does not exist");
    CHECK(mistake("a: \"\\xzz\"\n").find("a hexadecimal digit is missing in this escape") != std::string::npos);
    // What the end of the file cuts off is at its end, not in a line that is not there.
    CHECK(mistake("b: c\na: \"\\u}\n").starts_with("2:8 a hexadecimal digit is missing in this escape"));
    CHECK(mistake("a: \"\u00e9\\u").starts_with("1:8 a hexadecimal digit is missing in this escape"));
    CHECK(mistake("a: \"\\ud800\"\n") == "1:11 this escape names no character");
    CHECK(mistake("a: |x\n") == "1:5 only a line end may follow '|' or '>'");
    CHECK(mistake("a: |0\n x\n") == "1:6 the text of a block must be indented");
    CHECK(mistake("a: \"x\n---\ny\"\n") == "2:1 the closing quote is missing before this line");
    CHECK(mistake("a: &\n") == "1:5 anchors ('&name') and aliases ('*name') are not taken");
    CHECK(mistake("a: !<tag:x y\n") == "1:11 tags ('!name') are not taken");
}

TEST_CASE("what stood before a syntax error is kept, and its mistakes too", "[yaml_tree]") {
    const Reading reading = read("a: 1\na: 2\nb: {c: [d, e]}\nf:\n  g: h\n i: j\n");
    CHECK(shape(reading.tree) == "{a: 1, b: {c: [d, e]}, f: {g: h}}");
    REQUIRE(reading.mistakes.size() == 2);
    CHECK(reading.mistakes[0].starts_with("2:1 the key 'a' is given twice"));
    CHECK(reading.mistakes[1].starts_with("6:2 this does not fit the map around it"));
}

TEST_CASE("a file may have as many bytes as the limit", "[yaml_tree]") {
    std::string text = "a: b\n";
    text += repeated("#" + std::string(1022, '-') + "\n", 1023);
    text += "#" + std::string(largest_file - text.size() - 1, '-');
    REQUIRE(text.size() == largest_file);
    CHECK(sound(text) == "{a: b}");
    CHECK(mistake(text + "-") == "0:0 the file is larger than 1048576 bytes");
}

TEST_CASE("lists and maps may nest as deep as the limit", "[yaml_tree]") {
    CHECK(read(repeated("[", 20) + repeated("]", 20)).mistakes.empty());
    CHECK(mistake(repeated("[", 21) + repeated("]", 21)) == "1:21 lists and maps are nested deeper than 20 levels");
    CHECK(read(repeated("{a: ", 20) + repeated("}", 20)).mistakes.empty());
    CHECK(mistake(repeated("{a: ", 21) + repeated("}", 21)) == "1:81 lists and maps are nested deeper than 20 levels");
    CHECK(read(repeated("- ", 20) + "x").mistakes.empty());
    CHECK(mistake(repeated("- ", 21) + "x") == "1:41 lists and maps are nested deeper than 20 levels");
}

TEST_CASE("regression: CVE-2017-5950, brackets without end", "[yaml_tree]") {
    for (const char* bracket : {"[", "{", "- ", "? ", "[{"}) {
        CAPTURE(bracket);
        const Reading reading = read(repeated(bracket, 200'000));
        REQUIRE_FALSE(reading.mistakes.empty());
        CHECK(reading.mistakes.size() == 1);
        CHECK(reading.mistakes.back().ends_with(" lists and maps are nested deeper than 20 levels"));
    }
}

TEST_CASE("a file may hold as many nodes as the limit", "[yaml_tree]") {
    const std::string text = "[" + repeated("x,", static_cast<int>(most_nodes) - 1);  // the list itself is a node
    CHECK(read(text + "]").mistakes.empty());
    CHECK(mistake(text + "x]") == "1:200000 the file holds more than 100000 texts, lists and maps");
}

TEST_CASE("keys count as nodes", "[yaml_tree]") {
    std::string text;
    for (std::size_t i = 0; i < (most_nodes - 1) / 2; ++i) text += "k" + std::to_string(i) + ": v\n";
    CHECK(read(text).mistakes.empty());
    CHECK(mistake(text + "last: v\n") == "50000:7 the file holds more than 100000 texts, lists and maps");
}

TEST_CASE("a text may be as long as the limit", "[yaml_tree]") {
    CHECK(read("a: " + std::string(longest_text, 'x')).mistakes.empty());
    CHECK(mistake("a: " + std::string(longest_text + 1, 'x')) == "1:4 this text is longer than 8192 bytes");
    CHECK(read("a: " + repeated("é", static_cast<int>(longest_text) / 2)).mistakes.empty());
    CHECK(mistake("a: " + repeated("é", static_cast<int>(longest_text) / 2) + "x") ==
          "1:4 this text is longer than 8192 bytes");
    CHECK(shape(read("a: " + std::string(longest_text + 1, 'x') + "\nb: c\n").tree).ends_with("b: c}"));
}

}  // namespace engine_yaml_tree_test
