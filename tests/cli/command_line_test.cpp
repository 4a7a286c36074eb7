// The command line: commands, options, their places, help, exit codes and streams.
#include "tests/cli/program.hpp"

#include <string>
#include <sys/stat.h>
#include <vector>

namespace cli_command_line_test {

using namespace lidlift::test;
using Words = std::vector<std::string>;

namespace {

const std::string added_rules =
    "signs:\n"
    "  our_sign: {ask: Ours, topic: moisture, effort: look, seen anyway: almost never, sources: [common_practice]}\n"
    "causes:\n"
    "  our_cause: {name: Our own cause, how common: very common, because: B, look again: 1 day, sources: [common_practice],\n"
    "    signs: [{when: our_sign, seen: usually}]}\n";

}  // namespace

TEST_CASE("without arguments the program says what it can do and exits with 2", "[cli][command_line]") {
    const Run result = run({});
    CHECK(result.exit == 2);
    CHECK(result.out.empty());
    CHECK(holds(result.err, "lidlift why"));
    CHECK(holds(result.err, "lidlift show"));
}

TEST_CASE("help and version go to standard output", "[cli][command_line]") {
    for (const Words& words : std::vector<Words>{{"--help"},
                                                 {"-h"},
                                                 {"why", "--help"},
                                                 {"show", "--help"},
                                                 {"why", "-h"},
                                                 {"--help", "why"},
                                                 {"why", "squeeze=stream", "--help"}}) {
        CAPTURE(words.front(), words.back());
        const Run result = run(words);
        check_answer(result);
        CHECK(holds(result.out, "lidlift"));
    }
    const Run version = run({"--version"});
    check_answer(version);
    CHECK(version.out.substr(0, 8) == "lidlift ");
    CHECK(version.out.find('\n') == version.out.size() - 1);
}

TEST_CASE("help leads with examples and fits 80 columns", "[cli][command_line]") {
    for (const Words& words : std::vector<Words>{{"--help"}, {"why", "--help"}, {"show", "--help"}}) {
        const std::string text = run(words).out;
        CHECK(holds(text, words.front() == "show" ? "lidlift show " : "lidlift why "));
        for (std::size_t begin = 0, end = 0; (end = text.find('\n', begin)) != std::string::npos; begin = end + 1) {
            const std::string line = text.substr(begin, end - begin);
            CAPTURE(line);
            // "°" has two bytes and one column.
            CHECK(line.size() <= 80 + (holds(line, "°") ? 2 : 0));
        }
    }
}

TEST_CASE("an unknown command or option is met with the nearest known one", "[cli][command_line]") {
    struct Row {
        Words words;
        std::string nearest;
    };
    for (const Row& row : std::vector<Row>{{{"wy"}, "did you mean 'why'?"},
                                           {{"whyy", "squeeze=stream"}, "did you mean 'why'?"},
                                           {{"shwo"}, "did you mean 'show'?"},
                                           {{"--jsno", "why", "squeeze=stream"}, "did you mean '--json'?"},
                                           {{"why", "squeeze=stream", "--tolld", "x"}, "did you mean '--told'?"},
                                           {{"why", "squeeze=stream", "--only-rule=x"}, "did you mean '--only-rules'?"},
                                           {{"show", "--verison"}, "did you mean '--version'?"},
                                           {{"--json", "shwo"}, "did you mean 'show'?"}}) {
        CAPTURE(row.words.front(), row.words.back());
        check_error(run(row.words), 2, row.nearest);
    }
    check_error(run({"weigh_everything"}), 2, "weigh_everything");
    check_error(run({"why", "squeeze=stream", "--zzzz"}), 2, "--zzzz");
}

TEST_CASE("a command or an option's file left out is a wrong command line", "[cli][command_line]") {
    CHECK(run({"--json"}).exit == 2);
    CHECK(run({"why", "--told"}).exit == 2);
    CHECK(run({"why", "squeeze=stream", "--rules"}).exit == 2);
    CHECK(run({"show", "signs", "squeeze", "third"}).exit == 2);
    for (const Words& words : std::vector<Words>{{"--json"}, {"why", "--told"}, {"show", "signs", "squeeze", "third"}})
        CHECK(run(words).out.empty());
}

TEST_CASE("options come before or after arguments, with a blank or an equals sign", "[cli][command_line]") {
    const TemporaryFolder folder;
    const std::string rules = folder.write("ours.yaml", added_rules);
    const std::string told = folder.write("told.yaml", "signs: {our_sign: yes}\n");
    const std::string expected = run({"why", "our_sign=yes", "--rules", rules, "--json"}).out;
    REQUIRE(holds(expected, "our_cause"));
    for (const Words& words : std::vector<Words>{{"why", "--rules", rules, "our_sign=yes", "--json"},
                                                 {"why", "--json", "--rules", rules, "our_sign=yes"},
                                                 {"why", "--rules=" + rules, "our_sign=yes", "--json"},
                                                 {"--rules", rules, "why", "our_sign=yes", "--json"},
                                                 {"--json", "--rules", rules, "why", "our_sign=yes"},
                                                 {"--json", "why", "our_sign=yes", "--rules=" + rules}}) {
        CAPTURE(words[0], words[1], words[2]);
        const Run result = run(words);
        CHECK(result.exit == 0);
        CHECK(result.err == "");
        CHECK(result.out == expected);
    }
    for (const Words& words : std::vector<Words>{{"why", "--told", told, "squeeze=stream", "--rules", rules},
                                                 {"why", "squeeze=stream", "--told", told, "--rules", rules},
                                                 {"why", "--told", told, "--rules", rules, "squeeze=stream"}}) {
        const Run result = run(words);
        CHECK(result.exit == 0);
        CHECK(holds(result.out, "Our own cause"));
        CHECK(holds(result.out, "our sign: yes"));
        CHECK(holds(result.out, "squeeze"));
    }
}

TEST_CASE("rules are added to the default ones, or stand instead of them", "[cli][rules]") {
    const TemporaryFolder folder;
    const std::string rules = folder.write("ours.yaml", added_rules);
    CHECK(run({"why", "our_sign=yes", "squeeze=stream", "--rules", rules}).exit == 0);
    CHECK(run({"why", "our_sign=yes", "--only-rules", rules}).exit == 0);
    check_error(run({"why", "squeeze=stream", "--only-rules", rules}), 2, "there is no sign 'squeeze'");
    check_error(run({"why", "our_sign=yes"}), 2, "there is no sign 'our_sign'");
    // A folder: its .yaml files, in the order of their names.
    folder.write("notes.txt", "not: [yaml");
    CHECK(run({"why", "our_sign=yes", "--only-rules", folder.path()}).exit == 0);
    // Twice the same file is a second definition.
    check_error(run({"why", "our_sign=yes", "--rules", rules, "--rules", rules}), 2, "already defined");
    CHECK(run({"why", "our_sign=yes", "--only-rules", "-"}, added_rules).exit == 0);
}

TEST_CASE("what a rule file changes in the default rules is told on standard error", "[cli][rules]") {
    const TemporaryFolder folder;
    const std::string rules = folder.write("ours.yaml", "signs:\n  squeeze: {earlier entry: extend, ask: Squeeze it.}\n");
    const Run result = run({"why", "squeeze=stream", "--rules", rules, "--json"});
    CHECK(result.exit == 0);
    CHECK(result.out.substr(0, 1) == "{");
    CHECK(holds(result.err, "extends the sign 'squeeze'"));
}

TEST_CASE("words of which nothing is understood are answered with the first questions", "[cli][why]") {
    const Run page = run({"why", "my grandmother kept bees and sang"});
    CHECK(page.exit == 0);
    CHECK(page.err.empty());
    CHECK(holds(page.out, "I cannot tell yet: I understood none of your words"));
    CHECK(holds(page.out, "my grandmother kept bees"));
    for (const std::string sign : {"worm_place= ", "bad_smell= ", "squeeze= "}) CHECK(holds(page.out, sign));
    const Run data = run({"why", "my grandmother kept bees and sang", "--json"});
    CHECK(data.exit == 0);
    CHECK(holds(data.out, "\"verdict\": \"cannot tell, look at this next\""));
    CHECK(holds(data.out, "\"understood\": []"));
    CHECK(holds(data.out, "\"sign\": \"worm_place\""));
}

TEST_CASE("input that cannot be used exits with 2, says why and prints nothing else", "[cli][exit]") {
    const TemporaryFolder folder;
    const std::string bad_rules = folder.write("bad.yaml", "signs:\n  rain: {topic: moisture}\nruls: {}\n");
    const std::string bad_told = folder.write("told.yaml", "signs: {sqeeze: stream, squeeze: straem}\n");
    const std::string not_yaml = folder.write("broken.yaml", "signs: [\n");
    struct Row {
        Words words;
        std::string part;
    };
    for (const Row& row : std::vector<Row>{
             {{"why", "smel_rotten=strong"}, "did you mean 'smell_rotten'?"},
             {{"why", "smell_rotten=strnog"}, "did you mean 'strong'?"},
             {{"why", "bed_temperature=31 kg"}, "a temperature"},
             {{"why", "bed_temperature=31 celcius"}, "did you mean 'celsius'?"},
             {{"why", "bed_temperature=400"}, "should lie between"},
             {{"why", "bed_temperature=thirty"}, "bed_temperature"},
             {{"why", "squeeze="}, "lacks its answer"},
             {{"why", "=stream"}, "there is no sign"},
             {{"why", "squeeze=stream", "squeeze=crumbles"}, "squeeze"},
             {{"why"}, "nothing was told"},
             {{"why", " "}, "nothing was told"},
             {{"why", "grandmother sang", "smel_rotten=strong"}, "did you mean 'smell_rotten'?"},
             {{"why", "squeeze=stream", "--rules", bad_rules}, "bad.yaml:3:1: unknown section 'ruls' (did you mean 'rules'?)"},
             {{"why", "squeeze=stream", "--only-rules", not_yaml}, "broken.yaml"},
             {{"why", "--told", bad_told}, "did you mean 'squeeze'?"},
             {{"why", "--told", not_yaml}, "broken.yaml"},
             {{"show", "sings"}, "did you mean 'signs'?"},
             {{"show", "signs", "sqeeze"}, "did you mean 'squeeze'?"},
             {{"show", "causes", "zzzzzzz"}, "there is no 'zzzzzzz'"}}) {
        CAPTURE(row.words.front(), row.words.back());
        check_error(run(row.words), 2, row.part);
    }
    // Every mistake of all input in one go.
    const Run several = run({"why", "smel_rotten=strong", "squeeze=straem", "--told", bad_told});
    CHECK(holds(several.err, "smel_rotten"));
    CHECK(holds(several.err, "straem"));
    CHECK(holds(several.err, "told.yaml:1:"));
}

TEST_CASE("what cannot be read exits with 3, says why and prints nothing else", "[cli][exit]") {
    const TemporaryFolder folder;
    std::filesystem::create_directory(folder.path("empty"));
    const std::string pipe = folder.path("pipe");
    REQUIRE(mkfifo(pipe.c_str(), 0600) == 0);
    const std::string too_large = folder.write("large.yaml", "#" + std::string(1024 * 1024, 'x') + "\n");
    struct Row {
        Words words;
        std::string part;
    };
    for (const Row& row : std::vector<Row>{{{"why", "--told", folder.path("absent.yaml")}, "absent.yaml"},
                                           {{"why", "--told", folder.path()}, "it is a folder"},
                                           {{"why", "--told", pipe}, "not a regular file"},
                                           {{"why", "squeeze=stream", "--rules", folder.path("absent.yaml")}, "absent.yaml"},
                                           {{"why", "squeeze=stream", "--only-rules", folder.path("empty")}, "no .yaml file"},
                                           {{"why", "squeeze=stream", "--rules", "/dev/zero"}, "not a regular file"},
                                           {{"why", "squeeze=stream", "--rules", too_large}, "larger than"}}) {
        CAPTURE(row.words.front(), row.words.back());
        check_error(run(row.words), 3, row.part);
    }
}

TEST_CASE("what cannot be written exits with 3", "[cli][exit]") {
    const TemporaryFolder folder;
    const std::string told = folder.write("told.yaml", "signs: {squeeze: stream}\n");
    for (const Words& words : std::vector<Words>{{"why", "squeeze=stream"},
                                                 {"why", "squeeze=stream", "--json"},
                                                 {"why", "--told", told},
                                                 {"show"},
                                                 {"show", "signs"},
                                                 {"show", "signs", "squeeze"},
                                                 {"--help"},
                                                 {"--version"},
                                                 {"why", "--help"}})
        for (const Stdout how : {Stdout::full, Stdout::closed}) {
            CAPTURE(words.front(), words.back(), how == Stdout::full);
            const Run result = run(words, "", how);
            CHECK(result.exit == 3);
            CHECK(holds(result.err, "cannot write"));
        }
}

TEST_CASE("answers come from files and from standard input", "[cli][told]") {
    const std::string told = "note: said on the phone\nsigns:\n  squeeze: stream\n  smell_rotten: {is: strong, sure: unsure}\n";
    const TemporaryFolder folder;
    const std::string file = folder.write("told.yaml", told);
    const std::string expected = run({"why", "squeeze=stream", "smell_rotten=strong,unsure"}).out;
    REQUIRE_FALSE(expected.empty());
    CHECK(run({"why", "--told", file}).out == expected);
    CHECK(run({"why", "--told", "-"}, told).out == expected);
    CHECK(run({"why", "-"}, told).out == expected);
    const Run more = run({"why", "-", "standing_water=?"}, told);
    CHECK(more.exit == 0);
    check_error(run({"why", "-"}, "signs: {sqeeze: stream}\n"), 2, "standard input:1:9");
    check_error(run({"why", "-"}, ""), 2, "signs");
}

}  // namespace cli_command_line_test
