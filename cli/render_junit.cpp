#include "cli/render_junit.hpp"

#include "engine/plain_text.hpp"

#include <fmt/format.h>

namespace lidlift::cli {
namespace {

std::string attribute(std::string_view name, std::string_view value) {
    return fmt::format(" {}=\"{}\"", name, xml_text(value));
}

std::string counts(std::size_t tests, std::size_t failures) {
    return fmt::format(" tests=\"{}\" failures=\"{}\" errors=\"0\" skipped=\"0\" time=\"0\"", tests, failures);
}

/// A word for the sort of failure, the gravest first.
const char* failure_type(const TrialResult& result) {
    if (!result.advised_against.empty()) return "advised what must never be";
    if (!result.not_said.empty()) return "caution missing";
    if (result.first == First::wrong) return "wrong first cause";
    return "step missing";
}

std::string testcase(const Tried& tried) {
    const WrittenCase& written = *tried.written;
    std::string xml =
        "    <testcase" + attribute("classname", written.place.file) + attribute("name", written.id) + " time=\"0\"";
    const auto faults = faults_of(*tried.result);
    if (faults.empty()) return xml + "/>\n";
    std::string told;
    for (const std::string& word : tried.result->told) told += " " + word;
    xml += ">\n      <failure" + attribute("message", faults.front()) + attribute("type", failure_type(*tried.result)) + ">";
    xml += xml_text(to_text(written.place) + "\n" + written.story + "\nTold:" + told + "\n");
    for (const std::string& fault : faults) xml += xml_text(fault) + "\n";
    return xml + "</failure>\n    </testcase>\n";
}

}  // namespace

std::string xml_text(std::string_view text) {
    std::string result;
    // What XML cannot hold (controls, bytes that are not UTF-8, noncharacters) is made visible first.
    for (const char c : for_terminal(text, true)) {
        switch (c) {
            case '&':
                result += "&amp;";
                break;
            case '<':
                result += "&lt;";
                break;
            case '>':
                result += "&gt;";
                break;
            case '"':
                result += "&quot;";
                break;
            case '\'':
                result += "&apos;";
                break;
            case '\n':
                result += "&#10;";  // in an attribute a bare line feed would be read as a space
                break;
            case '\t':
                result += "&#9;";
                break;
            default:
                result += c;
        }
    }
    return result;
}

std::string render_junit(const TrialReport& report) {
    const Score& all = report.scores.all;
    std::string xml = "<?xml version=\"1.0\" encoding=\"UTF-8\"?>\n<testsuites" + attribute("name", "lidlift try") +
                      counts(all.cases, all.failed) + ">\n";
    for (const NamedScore& file : report.scores.by_file) {
        xml += "  <testsuite" + attribute("name", file.name) + counts(file.score.cases, file.score.failed) + ">\n";
        for (const Tried& tried : report.tried)
            if (tried.written->place.file == file.name) xml += testcase(tried);
        xml += "  </testsuite>\n";
    }
    return xml + "</testsuites>\n";
}

}  // namespace lidlift::cli
