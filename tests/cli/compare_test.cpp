// lidlift compare: two rule bases over cases, as the program runs it.
#include "engine/plain_text.hpp"
#include "tests/cli/program.hpp"

#include <sstream>
#include <string>
#include <vector>

#include <nlohmann/json.hpp>

namespace cli_compare_test {

using namespace lidlift;
using namespace lidlift::test;
using nlohmann::json;

namespace {

/// Two causes of a wet bed; the caution hangs on the step against the first.
std::string rules(const std::string& seen, const std::string& cautions, const std::string& more = {}) {
    return "rule base: {name: Small, version: 1}\n"
           "signs:\n"
           "  wet: {ask: W, topic: moisture, effort: look, seen anyway: almost never, sources: [common_practice]}\n"
           "causes:\n"
           "  blocked: {name: Blocked, how common: common, because: B, look again: 1 day, sources: [common_practice], steps: "
           "[open], signs: [{when: wet, seen: " +
           seen +
           "}]}\n"
           "  soaked: {name: Soaked, how common: common, because: B, look again: 1 day, sources: [common_practice], signs: "
           "[{when: wet, seen: about half the time}]}\n" +
           more +
           "steps:\n"
           "  open: {do: Open it., when: now, kind: drain, if wrong: harmless, cautions: [" +
           cautions +
           "], sources: [common_practice]}\n"
           "cautions:\n"
           "  K01: {name: gas, level: stop, say: Do not go in., sources: [common_practice]}\n";
}

const std::string cases =
    "cases:\n"
    "  wet_one: {story: It is wet., told: {wet: yes}, expect: blocked, written from: the trade, sources: common_practice}\n"
    "  dry_one: {story: It is not., told: {wet: no}, never advise: [lime], written from: the trade, sources: "
    "common_practice}\n";

struct Folder : TemporaryFolder {
    std::string old_rules = write("old.yaml", rules("usually", "K01"));
    std::string weaker = write("weaker.yaml", rules("sometimes", "K01"));
    std::string careless = write("careless.yaml", rules("usually", ""));
    std::string two_cases = write("cases.yaml", cases);
};

std::string widest_line(const std::string& text) {
    std::string widest;
    std::istringstream stream(text);
    for (std::string line; std::getline(stream, line);)
        if (display_width(line) > display_width(widest)) widest = line;
    return widest;
}

}  // namespace

TEST_CASE("nothing changes between a rule base and itself", "[cli][compare]") {
    const Folder folder;
    const Run same = run({"compare", folder.old_rules, folder.old_rules, folder.two_cases});
    check_answer(same);
    CHECK(holds(same.out, "None was added, removed or changed."));
    CHECK(holds(same.out, "2 cases, 2 of them unchanged."));
    CHECK(holds(same.out, "Nothing got worse."));
    const Run shipped = run({"compare", "default", "default", LIDLIFT_TESTS_FOLDER "/cases_small.yaml"});
    check_answer(shipped);
    CHECK(holds(shipped.out, "5 cases, 5 of them unchanged."));
}

TEST_CASE("a case that newly fails is worse", "[cli][compare]") {
    const Folder folder;
    const Run result = run({"compare", folder.old_rules, folder.weaker, folder.two_cases});
    CHECK(result.exit == 1);
    CHECK(result.err == "");
    CHECK(display_width(widest_line(result.out)) <= 80);
    for (const std::string part :
         {"changed: causes blocked.", "1. wet_one", "It passed, and now fails.", "First cause: blocked", "-> soaked",
          "2 cases, 0 of them unchanged", "First place right in 1 of 1 before, in 0 now", "Worse: 1 newly fails"}) {
        CAPTURE(part, result.out);
        CHECK(holds(result.out, part));
    }
    const Run back = run({"compare", folder.weaker, folder.old_rules, folder.two_cases});
    check_answer(back);
    CHECK(holds(back.out, "It failed, and now passes."));
}

TEST_CASE("a lost caution is said first and exits with 1", "[cli][compare]") {
    const Folder folder;
    const Run result = run({"compare", folder.old_rules, folder.careless, folder.two_cases});
    CHECK(result.exit == 1);
    CHECK(holds(result.out, "! Caution lost: K01 (stop, gas)"));
    const json answer = json::parse(run({"compare", folder.old_rules, folder.careless, folder.two_cases, "--json"}).out);
    CHECK(answer.at("got_worse") == true);
    CHECK(answer.at("entries") == json({{{"section", "steps"}, {"id", "open"}, {"how", "changed"}}}));
    CHECK(answer.at("cases") == 2);
    CHECK(answer.at("unchanged") == 1);
    REQUIRE(answer.at("changed").size() == 1);
    CHECK(answer.at("changed").at(0).at("cautions_lost") == json({"K01"}));
    CHECK(answer.at("changed").at(0).at("worse") == true);
    CHECK(answer.at("changed").at(0).at("after").at("passed") == true);
    CHECK(answer.at("before").at("first_right") == 1);
}

TEST_CASE("a rule base may be several files, and a file may be called default", "[cli][compare]") {
    const Folder folder;
    const std::string more = folder.write("more.yaml",
                                          "causes:\n  slurry: {name: Slurry, how common: rare, because: B, look again: 1 day, "
                                          "signs: [{when: wet, seen: sometimes}], sources: [common_practice]}\n");
    const Run added = run({"compare", folder.old_rules, folder.old_rules + "+" + more, folder.two_cases});
    check_answer(added);
    CHECK(holds(added.out, "added: causes slurry."));
    // --rules comes after both.
    const Run both = run({"compare", folder.old_rules, folder.old_rules, folder.two_cases, "--rules", more});
    check_answer(both);
    CHECK(holds(both.out, "None was added"));
    const std::string plus = folder.write("a+b.yaml", rules("usually", "K01"));
    CHECK(run({"compare", plus, folder.old_rules, folder.two_cases}).exit == 0);
    const std::string named_default = folder.write("default", rules("usually", "K01"));
    const Run own = run({"compare", named_default, folder.old_rules, folder.two_cases});
    check_answer(own);
    CHECK(holds(own.out, "None was added"));
    const std::string site = folder.write(
        "site.yaml",
        "signs:\n  ours: {ask: O, topic: moisture, effort: look, seen anyway: sometimes, sources: [common_practice]}\n"
        "causes:\n  our_cause: {name: Ours, how common: rare, because: B, look again: 1 day, sources: [common_practice], "
        "signs: "
        "[{when: ours, seen: usually}]}\n");
    const Run mixed = run({"compare", "default", "default+" + site, LIDLIFT_TESTS_FOLDER "/cases_small.yaml"});
    check_answer(mixed);
    CHECK(holds(mixed.out, "added: signs ours; causes our_cause."));
}

TEST_CASE("what only one side can read is said, and the rest compared", "[cli][compare]") {
    const Folder folder;
    const std::string more = folder.write("more.yaml", rules("usually", "K01",
                                                             "  slurry: {name: Slurry, how common: rare, because: B, look "
                                                             "again: 1 day, signs: [{when: wet, seen: sometimes}], sources: "
                                                             "[common_practice]}\n") +
                                                           "conclusions: {}\n");
    const std::string new_cases =
        folder.write("new_cases.yaml",
                     "cases:\n  c: {story: S, told: {wet: yes}, expect: [blocked, slurry], written from: the trade, sources: "
                     "common_practice}\n");
    const Run result = run({"compare", folder.old_rules, more, new_cases});
    check_answer(result);
    CHECK(holds(result.out, "The old rule base cannot read:"));
    CHECK(holds(result.out, "there is no cause 'slurry'"));
    const std::string typo = folder.write(
        "typo.yaml",
        "cases:\n  c: {story: S, told: {wett: yes}, expect: blocked, written from: the trade, sources: common_practice}\n");
    check_error(run({"compare", folder.old_rules, more, typo}), 2, "did you mean 'wet'?");
}

TEST_CASE("compare says what it lacks or cannot use", "[cli][compare]") {
    const Folder folder;
    check_error(run({"compare"}), 2, "say two rule bases");
    check_error(run({"compare", "default"}), 2, "say two rule bases");
    check_error(run({"compare", "default", "default", folder.two_cases, "--only-rules", folder.old_rules}), 2, "--only-rules");
    check_error(run({"compare", folder.old_rules, folder.path("absent.yaml"), folder.two_cases}), 3, "absent.yaml");
    check_error(run({"compare", folder.old_rules, folder.old_rules, folder.path("absent.yaml")}), 3, "absent.yaml");
    check_error(run({"compare", folder.old_rules, folder.two_cases, folder.two_cases}), 2, "unknown section 'cases'");
    check_error(run({"compare", folder.old_rules, folder.old_rules, folder.write("empty.yaml", "cases: {}\n")}), 2,
                "hold no cases");
    check_error(run({"compare", folder.old_rules, "-", "-"}), 2, "only once");
    CHECK(run({"compare", folder.old_rules, "-", folder.two_cases}, rules("usually", "K01")).exit == 0);
}

TEST_CASE("what cannot be written of a comparison exits with 3", "[cli][compare]") {
    const Folder folder;
    for (const Stdout how : {Stdout::full, Stdout::closed})
        CHECK(run({"compare", folder.old_rules, folder.weaker, folder.two_cases}, "", how).exit == 3);
}

}  // namespace cli_compare_test
