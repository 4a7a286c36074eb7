// lidlift learn over folders of call records.
#include "tests/cli/program.hpp"

#include <nlohmann/json.hpp>

namespace cli_learn_test {

using namespace lidlift::test;
using nlohmann::json;

namespace {

/// A call about a bed that crumbles, stated to be a blocked drain at `chance`, and what it was.
std::string call(const std::string& chance, const std::string& cause, const std::string& how = "seen") {
    return "call: {state: closed, begun: 2026-03-09 14:05:00, rule base: r, version: \"1\"}\ncourse:\n"
           "  - {when: 2026-03-09 14:05:00, words: w, heard: [{sign: squeeze, is: \"dry_crumbles\"}]}\n"
           "  - {when: 2026-03-09 14:07:00, advised: {because: said to stop, causes: [{cause: blocked_drain, chance: " +
           chance +
           "}], nothing listed: 0.1, steps: [], cautions: []}}\n"
           "  - {when: 2026-03-12 09:00:00, confirmed: {causes: [" +
           cause + "], how: " + how + "}}\n";
}

}  // namespace

TEST_CASE("learn counts the calls of a folder and says what is missing", "[cli][learn]") {
    const TemporaryFolder folder;
    folder.write("a.yaml", call("0.7", "blocked_drain"));
    folder.write("b.yaml", call("0.7", "overwatered"));
    folder.write("c.yaml", call("0.9", "blocked_drain", "guess"));
    const Run run = lidlift::test::run({"learn", folder.path()});
    check_answer(run);
    const std::string page = unwrapped(run.out);
    CHECK(holds(page, "3 closed calls with a known outcome; 2 counted, and 1 left out because the cause was only guessed."));
    CHECK(holds(page, "It stood first: 1 of 2"));
    CHECK(holds(page, "likely (55-80 %): said 2 times, right 1 time - 50 in 100"));
    CHECK(holds(page, "takes 100 counted calls; there are 2."));
    CHECK(holds(page, "1 call, 19 missing"));
    const json out = json::parse(lidlift::test::run({"learn", folder.path(), "--json"}).out);
    CHECK(out.at("counted") == 2);
    CHECK(out.at("first") == 1);
    CHECK(out.at("slope").is_null());
    CHECK(out.at("links").empty());
}

TEST_CASE("learn proposes a word, and says which recorded cases it would change", "[cli][learn]") {
    const TemporaryFolder folder;
    for (int i = 0; i < 40; ++i) folder.write("call" + std::to_string(100 + i) + ".yaml", call("0.7", "blocked_drain"));
    const Run run = lidlift::test::run({"learn", folder.path()});
    check_answer(run);
    const std::string page = unwrapped(run.out);
    // Forty dry beds over blocked drains: that such a bed streams half the time cannot be right.
    CHECK(holds(page, "WORDS THAT THE CALLS SPEAK AGAINST"));
    CHECK(holds(page, "blocked_drain: squeeze is stream"));
    CHECK(holds(page, "These are proposals; nothing was changed."));
    CHECK(holds(page, "Of the recorded cases that ship,"));
}

TEST_CASE("a file's name that is no UTF-8 is no obstacle to JSON", "[cli][learn]") {
    const TemporaryFolder folder;
    std::string open_call = call("0.7", "blocked_drain");
    open_call.replace(open_call.find("closed"), 6, "open");
    folder.write("\xFF.yaml", open_call);
    const Run run = lidlift::test::run({"learn", folder.path(), "--json"});
    check_answer(run);
    CHECK(json::parse(run.out).at("left_out").size() == 1);
}

TEST_CASE("learn tells mistakes by their place and counts the rest", "[cli][learn]") {
    const TemporaryFolder folder;
    folder.write("a.yaml", call("0.7", "blocked_drain"));
    const std::string bad = folder.write("b.yaml", "call: {state: closd}\ncourse: []\n");
    const Run run = lidlift::test::run({"learn", folder.path()});
    CHECK(run.exit == 2);
    CHECK(holds(run.err, bad + ":1:"));
    CHECK(holds(run.err, "closed"));
    CHECK(holds(unwrapped(run.out), "1 counted"));
}

TEST_CASE("learn without a folder, or with one that cannot be read, says so", "[cli][learn]") {
    check_error(lidlift::test::run({"learn"}), 2, "say a folder of call records");
    check_error(lidlift::test::run({"learn", "no_such_folder_here"}), 3, "no_such_folder_here");
    const TemporaryFolder empty;
    check_error(lidlift::test::run({"learn", empty.path()}), 3, "holds no .yaml file");
}

TEST_CASE("an open call teaches nothing yet, and learn says why", "[cli][learn]") {
    const TemporaryFolder folder;
    folder.write("a.yaml", "call: {state: open, begun: 2026-03-09 14:05:00, rule base: r, version: \"1\"}\ncourse: []\n");
    const Run run = lidlift::test::run({"learn", folder.path()});
    check_answer(run);
    CHECK(holds(unwrapped(run.out), "Nothing can be learnt yet."));
    CHECK(holds(unwrapped(run.out), "the call is still open"));
}

}  // namespace cli_learn_test
