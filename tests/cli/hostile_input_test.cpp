// Nothing from outside reaches the terminal raw, and no rule file brings the program down.
#include "tests/cli/program.hpp"

#include <cstdint>
#include <filesystem>
#include <string>
#include <vector>

namespace cli_hostile_input_test {

using namespace lidlift::test;
using Words = std::vector<std::string>;

namespace {

/// Escape sequences, a bell, a C1 control, a bidirectional override, DEL, a stray byte.
const Words nasty = {"\x1b[31m",
                     "\x1b]0;title\x07",
                     "\xc2\x9b"
                     "31m",
                     "\xe2\x80\xae"
                     "txt",
                     "\x7f",
                     "\xff",
                     "\r",
                     "\b\b",
                     "\xe2\x81\xa6",
                     "a\nb"};

}  // namespace

TEST_CASE("control characters in arguments are refused and shown harmlessly", "[cli][hostile]") {
    for (const std::string& bad : nasty) {
        CAPTURE(bad.size(), static_cast<int>(static_cast<unsigned char>(bad[0])));
        for (const Words& words : std::vector<Words>{{"why", "squeeze=" + bad},
                                                     {"why", bad + "=stream"},
                                                     {bad},
                                                     {"why", "squeeze=stream", "--" + bad},
                                                     {"why", "--told", "/nowhere/" + bad},
                                                     {"why", "squeeze=stream", "--rules", bad},
                                                     {"show", bad},
                                                     {"show", "signs", bad}}) {
            const Run result = run(words);
            CHECK((result.exit == 2 || result.exit == 3));
            CHECK(result.out.empty());
            CHECK_FALSE(result.err.empty());
            CHECK(is_tame(result.err));
        }
        // The caller's own words may be whatever they are; nothing of them comes through raw.
        const Run words = run({"why", "squeeze=stream", "it is " + bad + " there"});
        CHECK(is_tame(words.out));
        CHECK(is_tame(words.err));
    }
}

TEST_CASE("control characters in files are refused and shown harmlessly", "[cli][hostile]") {
    const TemporaryFolder folder;
    for (const std::string& bad : nasty) {
        if (bad == "a\nb") continue;  // a line end is no more than that in a file
        CAPTURE(static_cast<int>(static_cast<unsigned char>(bad[0])));
        const std::string rules = folder.write(
            "rules.yaml", "conclusions:\n  wet: {means: \"so " + bad + "wet\"}\n  " + bad + ": {means: x}\n" + bad + ": {}\n");
        const Run result = run({"show", "conclusions", "--only-rules", rules});
        CHECK(result.exit == 2);
        CHECK(result.out.empty());
        CHECK(is_tame(result.err));
        const std::string told = folder.write("told.yaml", "signs: {squeeze: \"" + bad + "\"}\n");
        const Run heard = run({"why", "--told", told});
        CHECK(heard.exit == 2);
        CHECK(is_tame(heard.err));
    }
    for (const std::string escape : {"\\e[31m", "\\u202e", "\\x9b", "\\a", "\\0", "\\x7f"}) {
        CAPTURE(escape);
        const std::string rules = folder.write("rules.yaml", "conclusions:\n  wet: {means: \"so " + escape + "wet\"}\n");
        CHECK(run({"show", "conclusions", "--only-rules", rules}).exit == 2);
        const std::string told = folder.write("told.yaml", "note: \"" + escape + "\"\nsigns: {squeeze: \"" + escape + "\"}\n");
        const Run heard = run({"why", "--told", told});
        CHECK(heard.exit == 2);
        CHECK(is_tame(heard.err));
    }
}

TEST_CASE("tabs and line ends inside a rule's text do not tear the page", "[cli][hostile]") {
    const TemporaryFolder folder;
    const std::string rules = folder.write("rules.yaml",
                                           "signs:\n  s: {name: \"a\\tb\", ask: \"What\\n\\n\\tnow\", topic: moisture, effort: "
                                           "look, seen anyway: almost never, sources: [common_practice]}\n"
                                           "causes:\n  x: {name: \"one\\ntwo\", how common: very common, because: "
                                           "\"up\\tdown\", look again: 1 day, sources: [common_practice],\n"
                                           "    expect: \"this\\nthat\", signs: [{when: s, seen: usually}]}\n");
    for (const Words& words : std::vector<Words>{{"why", "s=yes"},
                                                 {"why", "s=yes", "--full"},
                                                 {"show", "signs"},
                                                 {"show", "signs", "s"},
                                                 {"show", "causes", "x"}}) {
        Words all = words;
        all.insert(all.end(), {"--only-rules", rules});
        const Run result = run(all);
        check_answer(result);
    }
}

TEST_CASE("a file's name is shown harmlessly wherever it is shown", "[cli][hostile]") {
    const TemporaryFolder folder;
    folder.write("evil\x1b[2J.yaml", "ruls: {}\n");
    const Run result = run({"show", "--only-rules", folder.path()});
    CHECK(result.exit == 2);
    CHECK(is_tame(result.err));
    CHECK(holds(result.err, "evil"));
}

TEST_CASE("a folder of rules never leads out of itself", "[cli][hostile]") {
    const TemporaryFolder folder;
    const TemporaryFolder elsewhere;
    const std::string sign = "signs:\n  s: {ask: Q, topic: moisture, effort: look, sources: [common_practice]}\n";
    folder.write("rules.yaml", sign);
    std::filesystem::create_directory(folder.path("within.yaml"));
    std::filesystem::create_directory_symlink(elsewhere.path(), folder.path("out"));
    const std::string outside = elsewhere.write("secret.yaml", "signs:\n  t: {ask: Q, topic: moisture}\n");
    check_answer(run({"show", "signs", "--only-rules", folder.path()}));
    for (const std::string& target : {outside, std::string("rules.yaml"), std::string("nothing.yaml")}) {
        std::filesystem::create_symlink(target, folder.path("link.yaml"));
        check_error(run({"show", "signs", "--only-rules", folder.path()}), 3,
                    "'" + folder.path("link.yaml") + "' is a link, and links in a folder are not followed");
        check_error(run({"why", "squeeze=stream", "--rules", folder.path()}), 3, "link.yaml' is a link");
        check_error(run({"try", folder.path()}), 3, "link.yaml' is a link");
        std::filesystem::remove(folder.path("link.yaml"));
    }
    // Named by itself, a link is what was named.
    std::filesystem::create_symlink(folder.path("rules.yaml"), elsewhere.path("named.yaml"));
    check_answer(run({"show", "signs", "--only-rules", elsewhere.path("named.yaml")}));
}

TEST_CASE("a folder holds a thousand rule files, not one more", "[cli][hostile]") {
    const TemporaryFolder folder;
    for (int i = 0; i < 1'000; ++i) folder.write("r" + std::to_string(i) + ".yaml", "");
    check_answer(run({"show", "--only-rules", folder.path()}));
    folder.write("last.yaml", "");
    check_error(run({"show", "--only-rules", folder.path()}), 3, "holds more than 1000 .yaml files");
}

TEST_CASE("words without end are answered or refused in time", "[cli][hostile]") {
    // An argument may be 128 KiB long; the program is ended after two minutes.
    for (const std::string part : {"not soggy and not dry, ", "((((", "1 kg dry leaves and ", "squeeze=stream,", "\xC3\xA9"}) {
        std::string words;
        while (words.size() + part.size() < 100'000) words += part;
        for (const Words& command : std::vector<Words>{
                 {"why", words}, {"why", "squeeze=" + words}, {"mix", words}, {"log", "--tank", "/nowhere/t.yaml", words}}) {
            const Run result = run(command);
            CAPTURE(command.front(), part, result.exit);
            CHECK((result.exit == 0 || result.exit == 2 || result.exit == 3));
            CHECK(is_tame(result.out));
            CHECK(is_tame(result.err));
        }
    }
}

TEST_CASE("a chain of 60,000 rules does not bring the program down", "[cli][hostile]") {
    // Ten files, six megabytes: within every limit that rules/FORMAT.md states.
    constexpr int length = 60000;
    constexpr int per_file = 6000;
    const TemporaryFolder folder;
    for (int begin = 0; begin < length; begin += per_file) {
        std::string conclusions = "conclusions:\n";
        std::string rules = "rules:\n";
        for (int i = begin; i < begin + per_file; ++i) {
            const std::string id = std::to_string(i);
            conclusions += "  c" + id + ": {means: m" + (i + 1 == length ? ", seen anyway: sometimes" : "") + "}\n";
            rules += "  r" + id + ": {when: " + (i == 0 ? "start" : "c" + std::to_string(i - 1)) + ", then: c" + id +
                     ", because: B, sources: [common_practice]}\n";
        }
        std::string text = conclusions + rules;
        if (begin == 0) text += "signs:\n  start: {ask: Q, topic: moisture, effort: look, sources: [common_practice]}\n";
        if (begin + per_file == length)
            text += "causes:\n  e: {name: N, how common: common, because: B, signs: [{when: c" + std::to_string(length - 1) +
                    ", seen: usually}], look again: 1 day, sources: [common_practice]}\n";
        folder.write("rules" + std::to_string(begin) + ".yaml", text);
    }
    // An answer, or a refusal that says why; never a crash.
    const Run result = run({"why", "start=yes", "--json", "--only-rules", folder.path()});
    CHECK((result.exit == 0 || result.exit == 2));
}

}  // namespace cli_hostile_input_test
