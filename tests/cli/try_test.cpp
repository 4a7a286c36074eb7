// lidlift try: the page, the JSON, the exit status and what cannot be used.
#include "engine/plain_text.hpp"
#include "tests/cli/program.hpp"

#include <sstream>
#include <string>
#include <vector>

#include <nlohmann/json.hpp>

namespace cli_try_test {

using namespace lidlift;
using namespace lidlift::test;
using nlohmann::json;
using Words = std::vector<std::string>;

namespace {

const std::string small_cases = LIDLIFT_TESTS_FOLDER "/cases_small.yaml";

std::string case_of(const std::string& id, const std::string& more) {
    return "  " + id + ": {story: S of " + id + ", written from: the trade, sources: common_practice, " + more + "}\n";
}

/// Rules of the test's own, so that no change of the shipped ones moves a place.
std::string small_rules() {
    std::string text = "rule base: {name: Small rules, version: 1}\nsigns:\n";
    for (const std::string sign : {"wet", "dusty", "musty", "oily"})
        text +=
            "  " + sign + ": {ask: W, topic: moisture, effort: look, seen anyway: almost never, sources: [common_practice]}\n";
    text += "causes:\n";
    const auto cause = [&](const std::string& id, const std::string& more) {
        text += "  " + id + ": {name: N, how common: common, because: B, look again: 1 day, sources: [common_practice], " +
                more + "}\n";
    };
    cause("blocked", "signs: [{when: wet, seen: usually}], steps: [open]");
    cause("soaked", "signs: [{when: wet, seen: about half the time}]");
    for (const std::string id : {"dusty", "musty", "oily"}) cause("is_" + id, "signs: [{when: " + id + ", seen: usually}]");
    return text +
           "steps:\n"
           "  open: {do: Open it., when: now, kind: drain, if wrong: harmless, cautions: [K01], sources: [common_practice]}\n"
           "  fork: {do: Fork it., when: now, kind: air, if wrong: harmless, sources: [common_practice]}\n"
           "cautions:\n"
           "  K01: {name: gas, level: stop, say: Do not go in., sources: [common_practice]}\n"
           "  K11: {name: salad, level: warn, say: Not on salad., sources: [common_practice]}\n";
}

const std::string right = case_of("right", "told: {dusty: yes}, expect: is_dusty");
const std::string wrong = case_of("wrong", "told: {wet: yes}, expect: soaked");
const std::string hopeless = case_of("hopeless", "told: {wet: yes}, expect: is_oily");
const std::string limed = case_of("limed", "told: {wet: yes}, never advise: [drain]");
const std::string unsaid = case_of("unsaid", "told: {wet: yes}, must say: [K11]");
const std::string undone = case_of("undone", "told: {wet: yes}, must advise: [fork]");

/// Tries the given cases under the small rules.
Run try_small(const TemporaryFolder& folder, const std::string& cases, Words more = {}) {
    Words words = {"try", folder.write("mine.yaml", "cases:\n" + cases), "--only-rules", folder.write("rules", small_rules())};
    words.insert(words.end(), more.begin(), more.end());
    return run(words);
}

std::string widest_line(const std::string& text) {
    std::string widest;
    std::istringstream stream(text);
    for (std::string line; std::getline(stream, line);)
        if (display_width(line) > display_width(widest)) widest = line;
    return widest;
}

}  // namespace

TEST_CASE("the sample cases pass", "[cli][try]") {
    const Run result = run({"try", small_cases});
    check_answer(result);
    CHECK(holds(result.out, "All 5 cases came out as they should."));
    for (const std::string part : {"published guidance", "the trade", "a recorded call", "cases_small", "5/5 100 %"}) {
        CAPTURE(part);
        CHECK(holds(result.out, part));
    }
    CHECK_FALSE(holds(result.out, "WHAT WENT WRONG"));
    CHECK(display_width(widest_line(result.out)) <= 80);
    CHECK(run({"try", "-"}, file_text(small_cases)).exit == 0);
}

TEST_CASE("a miss is shown with its place, both balances and what was told", "[cli][try]") {
    const TemporaryFolder folder;
    const std::string cases = right + wrong;
    const Run result = try_small(folder, cases);
    CHECK(result.exit == 1);
    CHECK(result.err == "");
    CHECK(display_width(widest_line(result.out)) <= 80);
    for (const std::string part : {"1 of 2 cases did not come out", "1. wrong", "mine.yaml:3:3", "S of wrong", "Told: wet=yes",
                                   "Expected first: soaked, which has", "place 2", "First is blocked (", "expected   winner",
                                   "how common it is", "together"}) {
        CAPTURE(part, result.out);
        CHECK(holds(result.out, part));
    }
    CHECK_FALSE(holds(result.out, "1. right"));
}

TEST_CASE("misses come worst first on the page as in JSON", "[cli][try]") {
    const TemporaryFolder folder;
    const std::string cases = undone + wrong + hopeless + unsaid + limed + right;
    const json answer = json::parse(try_small(folder, cases, {"--json"}).out);
    CHECK(answer.at("misses") == json({"limed", "unsaid", "hopeless", "wrong", "undone"}));
    const std::string text = try_small(folder, cases).out;
    std::size_t last = 0;
    for (const std::string id : {"1. limed", "2. unsaid", "3. hopeless", "4. wrong", "5. undone"}) {
        CAPTURE(id);
        const std::size_t at = text.find(id);
        REQUIRE(at != std::string::npos);
        CHECK(at > last);
        last = at;
    }
    CHECK(holds(text, "Advised, but must never be: open (it is 'drain')"));
    CHECK(holds(text, "Not read out, but must be: K11."));
    CHECK(holds(text, "Not advised, but must be: fork."));
}

TEST_CASE("the JSON holds the counts, every case and the coverage", "[cli][try]") {
    const TemporaryFolder folder;
    const std::string cases = right + wrong + limed;
    const Run result = try_small(folder, cases, {"--json"});
    CHECK(result.exit == 1);
    const json answer = json::parse(result.out);
    CHECK(answer.at("good") == false);
    CHECK(answer.at("all").at("cases") == 3);
    CHECK(answer.at("all").at("failed") == 2);
    CHECK(answer.at("all").at("ask_for_a_cause") == 2);
    CHECK(answer.at("all").at("first_right") == 1);
    CHECK(answer.at("all").at("among_first_three") == 2);
    CHECK(answer.at("all").at("advised_against") == 1);
    CHECK(answer.at("by_file").at(0).at("name") == folder.path("mine.yaml"));
    CHECK(answer.at("by_written_from").at(0).at("name") == "the trade");
    REQUIRE(answer.at("cases").size() == 3);
    const json& missed = answer.at("cases").at(1);
    CHECK(missed.at("id") == "wrong");
    CHECK(missed.at("passed") == false);
    CHECK(missed.at("first") == "wrong");
    CHECK(missed.at("expected") == "soaked");
    CHECK(missed.at("place") == 2);
    CHECK(missed.at("told") == json({"wet=yes"}));
    CHECK(missed.at("causes").at(0).at("id") == "blocked");
    CHECK_FALSE(missed.at("contrast").empty());
    CHECK(answer.at("cases").at(2).at("first") == "not asked");
    CHECK(answer.at("cases").at(2).at("expected").is_null());
    const json& coverage = answer.at("coverage");
    CHECK(coverage.at("causes_with_one_case") == json({"soaked", "is_dusty"}));
    CHECK(coverage.at("causes_without_case").size() + 2 == coverage.at("causes"));
}

TEST_CASE("what the cases leave untried is counted, and named when asked for", "[cli][try]") {
    const std::string counted = run({"try", small_cases}).out;
    CHECK(holds(counted, "--coverage names them"));
    CHECK_FALSE(holds(counted, "next_bay_not_ripe"));
    const Run named = run({"try", small_cases, "--coverage"});
    check_answer(named);
    CHECK(holds(named.out, "next_bay_not_ripe"));
    CHECK(display_width(widest_line(named.out)) <= 80);
}

TEST_CASE("shares let wrong first places pass, but never a danger", "[cli][try]") {
    const TemporaryFolder folder;
    const std::string half = right + wrong + undone;
    CHECK(try_small(folder, half).exit == 1);
    struct Row {
        Words options;
        int exit;
    };
    for (const Row& row : std::vector<Row>{{{"--at-least-first", "50"}, 0},
                                           {{"--at-least-first", "50 %"}, 0},
                                           {{"--at-least-first", "51"}, 1},
                                           {{"--at-least-three", "100"}, 0},
                                           {{"--at-least-first", "50", "--at-least-three", "100"}, 0},
                                           {{"--at-least-first", "50.5", "--at-least-three", "100"}, 1},
                                           {{"--at-least-first=0"}, 0}}) {
        CAPTURE(row.options.front(), row.options.back());
        const Run result = try_small(folder, half, row.options);
        CHECK(result.exit == row.exit);
        CHECK(holds(result.out, row.exit == 0 ? "enough" : "too few"));
    }
    CHECK(try_small(folder, hopeless, {"--at-least-three", "1"}).exit == 1);
    CHECK(try_small(folder, right + hopeless, {"--at-least-three", "50"}).exit == 0);
    for (const std::string& danger : {limed, unsaid})
        CHECK(try_small(folder, right + danger, {"--at-least-first", "0"}).exit == 1);
}

TEST_CASE("several files and folders are tried together", "[cli][try]") {
    const TemporaryFolder folder;
    const TemporaryFolder elsewhere;
    const std::string rules = elsewhere.write("rules.yaml", small_rules());
    const std::string more = elsewhere.write("more.yaml", "cases:\n" + wrong);
    folder.write("b.yaml", "cases:\n" + undone);
    folder.write("a.yaml", "cases:\n" + right);
    folder.write("notes.txt", "not: [yaml");
    const json answer = json::parse(run({"try", folder.path(), more, "--json", "--only-rules", rules}).out);
    CHECK(answer.at("all").at("cases") == 3);
    REQUIRE(answer.at("by_file").size() == 3);
    CHECK(answer.at("by_file").at(0).at("name") == folder.path("a.yaml"));
    CHECK(answer.at("by_file").at(2).at("name") == more);
    check_error(run({"try", folder.path(), folder.path("a.yaml"), "--only-rules", rules}), 2, "the case 'right' stands at");
}

TEST_CASE("what cannot be used is said, all of it", "[cli][try]") {
    const TemporaryFolder folder;
    const std::string bad =
        folder.write("bad.yaml", "cases:\n" + case_of("a", "told: {sqeeze: stream}, expect: blocked_drian") +
                                     case_of("b", "told: {squeeze: stream}, must say: K99"));
    const Run result = run({"try", bad});
    check_error(result, 2, "did you mean 'squeeze'?");
    CHECK(holds(result.err, "did you mean 'blocked_drain'?"));
    CHECK(holds(result.err, "bad.yaml:3:"));
    const std::string empty = folder.write("empty.yaml", "cases: {}\n");
    const std::string no_cause =
        folder.write("no_cause.yaml", "cases:\n" + case_of("a", "told: {squeeze: stream}, never advise: lime"));
    check_error(run({"try", empty}), 2, "hold no cases");
    check_error(run({"try", no_cause, "--at-least-first", "85"}), 2, "no case says which cause is expected");
    check_error(run({"try", small_cases, "--at-least-first", "most"}), 2, "takes a share in per cent");
    check_error(run({"try", small_cases, "--at-least-three", "101"}), 2, "takes a share in per cent");
    check_error(run({"try", "-", "-"}), 2, "only once");
    check_error(run({"try", small_cases, "--coverge"}), 2, "did you mean '--coverage'?");
    check_error(run({"try", "--only-rules", bad}), 2, "say which cases");
    check_error(run({"try", folder.path("absent.yaml")}), 3, "absent.yaml");
    check_error(run({"try", "-"}, "cases: [\n"), 2, "standard input");
}

TEST_CASE("a site's own rules are tried with its own cases", "[cli][try]") {
    const TemporaryFolder folder;
    const std::string rules = folder.write(
        "ours.yaml",
        "signs:\n  our_sign: {ask: Ours, topic: moisture, effort: look, seen anyway: almost never, sources: "
        "[common_practice]}\n"
        "causes:\n  our_cause: {name: Our own cause, how common: very common, because: B, look again: 1 day, sources: "
        "[common_practice], signs: [{when: our_sign, seen: usually}]}\n");
    const std::string cases =
        folder.write("cases.yaml", "cases:\n" + case_of("ours", "told: {our_sign: yes}, expect: our_cause"));
    CHECK(run({"try", cases, "--rules", rules}).exit == 0);
    CHECK(run({"try", cases, "--only-rules", rules}).exit == 0);
    CHECK(run({"try", cases}).exit == 2);
}

TEST_CASE("what cannot be written of tried cases exits with 3", "[cli][try]") {
    for (const Stdout how : {Stdout::full, Stdout::closed}) {
        const Run result = run({"try", small_cases}, "", how);
        CHECK(result.exit == 3);
        CHECK(holds(result.err, "cannot write"));
    }
}

}  // namespace cli_try_test
