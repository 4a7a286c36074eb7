// lidlift check: pages, exit codes, JSON and SARIF.
#include "cli/render_check.hpp"
#include "cli/render_sarif.hpp"
#include "engine/review/kinds.hpp"
#include "tests/cli/program.hpp"
#include "tests/engine/short_rules.hpp"
#include "tests/review/review_files.hpp"

#include <array>
#include <cstdio>
#include <cstdlib>
#include <set>
#include <sstream>

#include <nlohmann/json.hpp>

namespace cli_check_test {

using namespace lidlift;
using namespace lidlift::test;
using nlohmann::json;

namespace {

const std::string published = std::string(LIDLIFT_TESTS_FOLDER) + "/published/";

/// What the validator says: empty when the text fits the schema. Without a validator it says so, loudly, and passes.
std::string misfits(const std::string& text, const std::string& schema) {
    const TemporaryFolder folder;
    const std::string file = folder.write("file.json", text);
    const std::string command = "python3 '" + published + "validate_json.py' '" + schema + "' '" + file + "' 2>&1";
    FILE* pipe = popen(command.c_str(), "r");
    if (!pipe) throw std::runtime_error("cannot run python3");
    std::string out;
    std::array<char, 4096> buffer;
    for (std::size_t got = 0; (got = std::fread(buffer.data(), 1, buffer.size(), pipe)) > 0;) out.append(buffer.data(), got);
    const int status = pclose(pipe);
    const int exit = WIFEXITED(status) ? WEXITSTATUS(status) : -1;
    if (exit == 77 || exit == 127) {
        WARN("NOT CHECKED: there is no python3 with jsonschema (Debian: python3-jsonschema), so nothing was held against "
             << schema);
        return {};
    }
    return exit == 0 ? std::string{} : out + "exit " + std::to_string(exit);
}

Run check_file(const std::string& name, std::vector<std::string> more = {}) {
    std::vector<std::string> words = {"check", "--only-rules", review_file(name)};
    words.insert(words.end(), more.begin(), more.end());
    return run(words);
}

cli::Checked answered() {
    cli::Checked checked;
    checked.name = "made up";
    checked.version = "1";
    ReviewFinding one = finding_of("unused_sign", {"a.yaml", 3, 5});
    one.about = {"mesh"};
    one.text = "nothing uses the sign 'mesh'";
    one.mend = "let something use it";
    checked.findings.push_back(one);
    one.about = {"wound"};
    one.answered_because = "It is asked for the record.";
    checked.findings.push_back(one);
    return checked;
}

}  // namespace

TEST_CASE("a file's name that is no UTF-8 is told in JSON and in SARIF", "[cli][check]") {
    const TemporaryFolder folder;
    folder.write("\xFF.yaml", "signs:\n  moss: {ask: Is there moss?}\n");
    for (const char* format : {"json", "sarif"}) {
        const Run result = run({"check", folder.path(), "--format", format});
        CHECK(result.exit == 1);
        CHECK(result.err.empty());
        CHECK(json::parse(result.out).is_object());
    }
}

TEST_CASE("why a kind of fault matters is said once", "[cli][check]") {
    const TemporaryFolder folder;
    const std::string file = folder.write("two.yaml", "signs:\n  moss: {topic: moss}\n  algae: {topic: moss}\n");
    const Run result = run({"check", file});
    CHECK(result.exit == 1);
    const std::string page = unwrapped(result.out);
    CHECK(holds(page, "the sign 'moss' lacks the key"));
    CHECK(holds(page, "the sign 'algae' lacks the key"));
    const auto at = page.find("why it matters: Nobody can tell what was meant");
    REQUIRE(at != std::string::npos);
    CHECK(page.find("why it matters: Nobody", at + 1) == std::string::npos);
}

TEST_CASE("a sound rule base is called so and ends with 0", "[cli][check]") {
    const Run sound = check_file("good_never_true");
    check_answer(sound);
    CHECK(sound.out == "unnamed rule base, version 0: 0 faults, 0 pieces of advice.\n");
}

TEST_CASE("a fault is told with its place, why it matters, answers and a way to mend it, and ends with 1", "[cli][check]") {
    const Run found = check_file("bad_doubled_rule");
    CHECK(found.exit == 1);
    CHECK(found.err.empty());
    CHECK(is_tame(found.out));
    CHECK(holds(found.out, "FAULTS\n"));
    CHECK(holds(unwrapped(found.out), "bad_doubled_rule.yaml:35:3: the rule 'wet_again'"));
    CHECK(holds(found.out, "[doubled_rule]"));
    CHECK(holds(found.out, "  why it matters: Sooner or later"));
    CHECK(holds(found.out, "  answers that show it: squeeze=stream\n"));
    CHECK(holds(found.out, "  to mend it: keep one of the two\n"));
    CHECK(holds(found.out, "\nunnamed rule base, version 0: 1 fault, 0 pieces of advice.\n"));
}

TEST_CASE("advice alone ends with 0, and with --strict with 1", "[cli][check]") {
    const Run advice = check_file("bad_unused_sign");
    CHECK(advice.exit == 0);
    CHECK(holds(advice.out, "ADVICE\n"));
    CHECK_FALSE(holds(advice.out, "FAULTS\n"));
    CHECK(holds(advice.out, "0 faults, 1 piece of advice.\n"));
    const Run strict = check_file("bad_unused_sign", {"--strict"});
    CHECK(strict.exit == 1);
    CHECK(strict.out == advice.out);
}

TEST_CASE("what the reader refuses is a finding with its place, and ends with 1", "[cli][check]") {
    const Run refused = check_file("bad_cannot_be_read");
    CHECK(refused.exit == 1);
    CHECK(refused.err.empty());
    CHECK(holds(unwrapped(refused.out), "bad_cannot_be_read.yaml:34:31: the sign 'squeeze' has no"));
    CHECK(holds(unwrapped(refused.out), "nothing else was looked at"));
    const json page = json::parse(check_file("bad_cannot_be_read", {"--json"}).out);
    CHECK(page.at("readable") == false);
    CHECK(page.at("rule_base").is_null());
    CHECK(page.at("findings").at(0).at("line") == 34);
    CHECK(page.at("findings").at(0).at("kind") == "cannot_be_read");
    CHECK(json::parse(check_file("bad_circle", {"--json"}).out).at("findings").at(0).at("kind") == "circle");
}

TEST_CASE("rules to be checked are read after the default ones, or after those that stand in their place", "[cli][check]") {
    const TemporaryFolder folder;
    const std::string more =
        folder.write("more.yaml",
                     "cautions:\n  ZZ:\n    name: n\n    level: note\n    say: s\n    when: squeeze is stream and not "
                     "squeeze is stream\n    sources: [common_practice]\n");
    const Run after_default = run({"check", more, "--json"});
    CHECK(after_default.exit == 1);
    bool told = false;
    const json page = json::parse(after_default.out);
    for (const json& finding : page.at("findings"))
        told = told || (finding.at("kind") == "never_true" && finding.at("file") == more && finding.at("line") == 6);
    CHECK(told);
    CHECK(run({"check", "--rules", more, "--json"}).out == after_default.out);
    const Run after_other = run({"check", more, "--only-rules", review_file("good_never_true"), "--json"});
    CHECK(after_other.exit == 1);
    CHECK(json::parse(after_other.out).at("faults") == 1);
}

TEST_CASE("formats: nearest name for a wrong one, --json is --format json", "[cli][check]") {
    check_error(check_file("good_never_true", {"--format", "serif"}), 2, "sarif");
    check_error(check_file("good_never_true", {"--format", "sarif", "--json"}), 2, "exclude each other");
    CHECK(check_file("bad_never_true", {"--json"}).out == check_file("bad_never_true", {"--format", "json"}).out);
    CHECK(check_file("bad_never_true", {"--format", "text"}).out == check_file("bad_never_true").out);
    check_error(run({"check", "no_such_file.yaml"}), 3, "no_such_file.yaml");
    CHECK(holds(run({"check", "--help"}).out, "--strict"));
    CHECK(check_file("bad_never_true", {"--format", "sarif"}).exit == 1);
    CHECK(run({"check"}, {}, Stdout::full).exit == 3);
}

TEST_CASE("JSON holds what the page says", "[cli][check]") {
    const json page = json::parse(check_file("bad_edge_gap", {"--json"}).out);
    CHECK(page.at("faults") == 1);
    CHECK(page.at("advice") == 0);
    CHECK(page.at("advice_answered") == 0);
    const json& finding = page.at("findings").at(0);
    CHECK(finding.at("kind") == "edge_gap");
    CHECK(finding.at("number") == 10);
    CHECK(finding.at("level") == "fault");
    CHECK(finding.at("about") == json({"off"}));
    CHECK(finding.at("witness").size() == 2);
    CHECK(finding.at("answered").is_null());
    for (const char* key : {"title", "file", "line", "column", "text", "why", "mend"}) {
        CAPTURE(key);
        CHECK_FALSE(finding.at(key).is_null());
    }
}

TEST_CASE("every witness of the bad files can be pasted into lidlift why", "[cli][check][witness]") {
    int pasted = 0;
    for (const char* kind : {"doubled_rule", "swallowed_rule", "contradiction", "cannot_apply", "unused_conclusion", "edge_gap",
                             "edge_overlap", "edge_beside_band"}) {
        CAPTURE(kind);
        const std::string file = review_file("bad_" + std::string(kind));
        std::istringstream page(check_file("bad_" + std::string(kind)).out);
        for (std::string line; std::getline(page, line);) {
            const std::string lead = "  answers that show it: ";
            if (!line.starts_with(lead)) continue;
            ++pasted;
            const std::string command = std::string("'") + LIDLIFT_PROGRAM + "' why --only-rules '" + file + "' " +
                                        line.substr(lead.size()) + " >/dev/null";
            CAPTURE(command);
            CHECK(std::system(command.c_str()) == 0);
        }
    }
    CHECK(pasted >= 8);
}

TEST_CASE("advice that the rule base answers is counted, and listed only in full", "[cli][check]") {
    const cli::Checked checked = answered();
    const std::string page = cli::render_check_text(checked, false);
    std::string last = page.substr(page.find("made up"));
    std::replace(last.begin(), last.end(), '\n', ' ');
    CHECK(last == "made up, version 1: 0 faults, 1 piece of advice, 1 piece of advice answered in the rule base. ");
    CHECK_FALSE(holds(page, "for the record"));
    CHECK(holds(cli::render_check_text(checked, true), "  answered: It is asked for the record.\n"));
    const json sarif = json::parse(cli::render_check_sarif(checked));
    const json& results = sarif.at("runs").at(0).at("results");
    CHECK_FALSE(results.at(0).contains("suppressions"));
    CHECK(results.at(1).at("suppressions").at(0).at("justification") == "It is asked for the record.");
    CHECK(json::parse(cli::render_check_json(checked)).at("findings").at(1).at("answered") == "It is asked for the record.");
    CHECK(misfits(sarif.dump(), published + "sarif_parts.schema.json") == "");
}

TEST_CASE("of one kind so many are written out, and one more is only counted", "[cli][check]") {
    cli::Checked checked = answered();
    checked.findings.resize(1);
    checked.findings.resize(cli::most_of_one_kind, checked.findings.front());
    CHECK_FALSE(holds(cli::render_check_text(checked, false), "more [unused_sign]"));
    checked.findings.push_back(checked.findings.front());
    CHECK(holds(cli::render_check_text(checked, false), "... and 1 more [unused_sign]; --full lists them all"));
    CHECK_FALSE(holds(cli::render_check_text(checked, true), "more [unused_sign]"));
}

TEST_CASE("SARIF fits what the standard asks, for every bad file and for the default rules", "[cli][check][sarif]") {
    std::vector<std::string> names;
    for (const ReviewKind& kind : review_kinds())
        if (std::filesystem::exists(review_file("bad_" + std::string(kind.id)))) names.push_back("bad_" + std::string(kind.id));
    CHECK(names.size() >= 15);
    json runs = json::array();
    const auto look_at = [&](const std::string& text) {
        const json log = json::parse(text);
        CHECK(log.at("version") == "2.1.0");
        const json& run = log.at("runs").at(0);
        const json& rules = run.at("tool").at("driver").at("rules");
        CHECK(rules.size() == review_kinds().size());
        for (const json& result : run.at("results")) {
            const json& rule = rules.at(result.at("ruleIndex").get<std::size_t>());
            CHECK(rule.at("id") == result.at("ruleId"));
            CHECK(rule.at("defaultConfiguration").at("level") == result.at("level"));
            if (result.contains("locations"))
                CHECK(result.at("locations").at(0).at("physicalLocation").at("region").at("startLine") >= 1);
        }
        runs.push_back(run);
    };
    for (const std::string& name : names) {
        CAPTURE(name);
        const Run found = check_file(name, {"--format", "sarif"});
        CHECK(is_tame(found.out));
        look_at(found.out);
        CHECK_FALSE(runs.back().at("results").empty());
    }
    look_at(run({"check", "--format", "sarif"}).out);
    for (const json& one : runs) {
        const json log = {{"$schema", "https://example.org"}, {"version", "2.1.0"}, {"runs", {one}}};
        CHECK(misfits(log.dump(), published + "sarif_parts.schema.json") == "");
        // The published schema is not kept here; whoever has a copy can hold the output against it.
        if (const char* schema = std::getenv("LIDLIFT_SARIF_SCHEMA")) CHECK(misfits(log.dump(), schema) == "");
    }
}

TEST_CASE("the check of SARIF can fail", "[cli][check][sarif]") {
    const std::string schema = published + "sarif_parts.schema.json";
    const json good = json::parse(check_file("bad_never_true", {"--format", "sarif"}).out);
    if (const std::string first = misfits("{}", schema); first.empty()) return;  // no validator, and misfits() has said so
    const auto spoilt = [&](const std::string& pointer, const json& value) {
        json log = good;
        log[json::json_pointer(pointer)] = value;
        return misfits(log.dump(), schema);
    };
    CHECK(misfits(good.dump(), schema) == "");
    CHECK(spoilt("/version", "2.0.0") != "");
    CHECK(spoilt("/runs/0/results/0/level", "fault") != "");
    CHECK(spoilt("/runs/0/results/0/colour", "red") != "");
    CHECK(spoilt("/runs/0/results/0/message", "words") != "");
    CHECK(spoilt("/runs/0/results/0/locations/0/physicalLocation/region/startLine", 0) != "");
    CHECK(spoilt("/runs/0/results/0/locations/0/physicalLocation/artifactLocation/uri", "a b.yaml") != "");
    CHECK(spoilt("/runs/0/tool/driver/rules/1", good["/runs/0/tool/driver/rules/0"_json_pointer]) != "");
}

TEST_CASE("fingerprints tell findings apart and outlast a move to another line", "[cli][check][sarif]") {
    const auto prints = [](const std::string& text) {
        const TemporaryFolder folder;
        std::vector<std::string> result;
        const json log = json::parse(run({"check", "--only-rules", folder.write("r.yaml", text), "--format", "sarif"}).out);
        for (const json& one : log.at("runs").at(0).at("results"))
            result.push_back(one.at("partialFingerprints").at("kindAndEntries/v1"));
        return result;
    };
    const std::string text = file_text(review_file("bad_swallowed_rule"));
    const auto before = prints(text);
    CHECK(before.size() >= 2);
    CHECK(std::set<std::string>(before.begin(), before.end()).size() == before.size());
    CHECK(prints("# a line more\n\n" + text) == before);
}

TEST_CASE("paths become URI references", "[cli][check][sarif]") {
    CHECK(cli::uri_of_path("rules/a.yaml") == "rules/a.yaml");
    CHECK(cli::uri_of_path("/home/a b/ü#1.yaml") == "file:///home/a%20b/%C3%BC%231.yaml");
    CHECK(cli::uri_of_path("a:b?.yaml") == "a%3Ab%3F.yaml");
    CHECK(cli::uri_of_path("100%.yaml") == "100%25.yaml");
    CHECK(cli::uri_of_path("//server/a.yaml") == "file:///server/a.yaml");
}

TEST_CASE("hostile names reach the page only in a tame form", "[cli][check]") {
    const TemporaryFolder folder;
    const std::string path = folder.write("a\x1b]0;b\x07.yaml", "rule base: {name: n, version: 1}\ncauses: [\n");
    const Run checked = run({"check", "--only-rules", folder.path()});
    CHECK(checked.exit == 1);
    CHECK(is_tame(checked.out));
    CHECK(is_tame(run({"check", "--only-rules", folder.path(), "--json"}).out));
    CHECK(is_tame(run({"check", "--only-rules", folder.path(), "--format", "sarif"}).out));
}

TEST_CASE("check gives the same bytes every time", "[cli][check]") {
    for (const char* format : {"text", "json", "sarif"})
        CHECK(run({"check", "--format", format}).out == run({"check", "--format", format}).out);
}

}  // namespace cli_check_test
