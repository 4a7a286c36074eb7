// JUnit XML: well-formed whatever the texts hold, and what every reader of the format expects in it.
#include "cli/render_junit.hpp"
#include "tests/catch.hpp"
#include "tests/cli/program.hpp"
#include "tests/cli/xml.hpp"

#include <list>
#include <string>
#include <vector>

namespace cli_junit_test {

using namespace lidlift;
using namespace lidlift::test;

namespace {

/// A report of cases with the given ids and results, each in the file that stands before its '/'.
class Reported {
public:
    void add(const std::string& file, const std::string& id, const std::string& story, const TrialResult& result) {
        WrittenCase& written = written_.emplace_back();
        written.id = id;
        written.place = {file, 7, 3};
        written.story = story;
        results_.push_back(result);
        report.tried.push_back({&written, &results_.back()});
        report.scores = score(report.tried);
    }
    cli::TrialReport report;

private:
    std::list<WrittenCase> written_;
    std::list<TrialResult> results_;
};

TrialResult passing() { return {}; }

TrialResult failing(const std::string& step) {
    TrialResult result;
    result.advised_against = {{step, "lime"}};
    result.not_said = {"K01"};
    result.told = {"wet=yes"};
    return result;
}

}  // namespace

TEST_CASE("a report is one suite a file and one testcase a case", "[junit]") {
    Reported made;
    made.add("cases/a.yaml", "one", "S", passing());
    made.add("cases/a.yaml", "two", "It limed.", failing("dust"));
    made.add("cases/b.yaml", "three", "S", passing());
    const XmlNode root = parse_xml(cli::render_junit(made.report));
    CHECK(root.name == "testsuites");
    CHECK(root.attributes.at("tests") == "3");
    CHECK(root.attributes.at("failures") == "1");
    CHECK(root.attributes.at("errors") == "0");
    REQUIRE(root.children.size() == 2);
    CHECK(root.children[0].attributes.at("name") == "cases/a.yaml");
    CHECK(root.children[0].attributes.at("tests") == "2");
    CHECK(root.children[0].attributes.at("failures") == "1");
    CHECK(root.children[1].attributes.at("failures") == "0");
    const XmlNode& one = root.children[0].children.at(0);
    CHECK(one.name == "testcase");
    CHECK(one.attributes.at("classname") == "cases/a.yaml");
    CHECK(one.attributes.at("name") == "one");
    CHECK(one.attributes.at("time") == "0");
    CHECK(one.children.empty());
    const XmlNode& failure = root.children[0].children.at(1).children.at(0);
    CHECK(failure.name == "failure");
    CHECK(failure.attributes.at("message") == "Advised, but must never be: dust (it is 'lime').");
    CHECK(failure.attributes.at("type") == "advised what must never be");
    for (const std::string part : {"cases/a.yaml:7:3", "It limed.", "wet=yes", "must never be: dust", "must be: K01"}) {
        CAPTURE(part);
        CHECK(holds(failure.text, part));
    }
}

TEST_CASE("no text can break the XML", "[junit]") {
    const std::string nasty =
        "<&>\"' ]]> <!-- --> &amp; \x1b[31m \x07 \xff\xfe \xc0\x80 \xe2\x80\xae tab\tline\nend \xef\xbf\xbe \xf0\x9f\xaa\xb1";
    CHECK_FALSE(is_tame(nasty));
    Reported made;
    made.add("a " + nasty + ".yaml", "one", nasty, failing(nasty));
    const std::string xml = cli::render_junit(made.report);
    CHECK(is_tame(xml));
    const XmlNode root = parse_xml(xml);
    const std::string classname = root.children.at(0).children.at(0).attributes.at("classname");
    CHECK(holds(classname, "<&>\"' ]]> <!-- --> &amp;"));
    CHECK(holds(classname, "\xf0\x9f\xaa\xb1"));
    CHECK(holds(classname, "\\x1b"));
    const std::string text = root.children[0].children[0].children.at(0).text;
    CHECK(holds(text, "<&>\"' ]]> <!-- --> &amp;"));
    CHECK(holds(text, "line\nend"));
    CHECK(holds(text, "\\u202e"));
}

TEST_CASE("the test's own reader of XML refuses what is not well-formed", "[junit]") {
    for (const std::string bad : {"<a>", "<a></b>", "<a x=1/>", "<a x=\"1\" x=\"2\"/>", "<a>&nope;</a>", "<a>&</a>", "<a/><b/>",
                                  "<a x=\"<\"/>", "<a>\x01</a>", "<a>]]></a>", "text", "<a x=\"1\"y=\"2\"/>"}) {
        CAPTURE(bad);
        CHECK_THROWS(parse_xml(bad));
    }
    CHECK(parse_xml("<?xml version=\"1.0\"?>\n<a x=\"&#10;&lt;\">t<b/></a>\n").attributes.at("x") == "\n<");
}

TEST_CASE("the program writes JUnit XML beside its text", "[cli][junit]") {
    const TemporaryFolder folder;
    const std::string cases = folder.write(
        "mine.yaml",
        "cases:\n  wrong: {story: 'Says \"stop\" & <goes>', told: {squeeze: stream}, expect: bed_too_dry, written from: the "
        "trade, sources: common_practice}\n");
    const std::string xml = folder.path("out.xml");
    const Run result = run({"try", cases, "--junit", xml});
    CHECK(result.exit == 1);
    CHECK(holds(result.out, "WHAT WENT WRONG"));
    const XmlNode root = parse_xml(file_text(xml));
    CHECK(root.attributes.at("failures") == "1");
    CHECK(holds(root.children.at(0).children.at(0).children.at(0).text, "Says \"stop\" & <goes>"));
    // Written anew, not added to.
    CHECK(run({"try", cases, "--junit", xml, "--json"}).exit == 1);
    CHECK(parse_xml(file_text(xml)).attributes.at("tests") == "1");
    check_error(run({"try", cases, "--junit", folder.path("absent/out.xml")}), 3, "cannot write");
    check_error(run({"try", cases, "--junit", "/dev/full"}), 3, "cannot write");
    check_error(run({"try", "--junit", cases}), 2, "would not write over");
    CHECK(file_text(cases).substr(0, 6) == "cases:");
}

}  // namespace cli_junit_test
