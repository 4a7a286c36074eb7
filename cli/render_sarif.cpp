#include "cli/render_sarif.hpp"

#include "cli/json_parts.hpp"
#include "engine/review/kinds.hpp"

#include <map>
#include <string_view>

#include <nlohmann/json.hpp>

namespace lidlift::cli {
namespace {

using Json = nlohmann::ordered_json;

Json text(std::string_view words) { return {{"text", words}}; }

std::string sentence(std::string_view title) {
    std::string result(title);
    if (!result.empty() && result.front() >= 'a' && result.front() <= 'z')
        result.front() = static_cast<char>(result.front() - 'a' + 'A');
    return result + ".";
}

const char* level(FindingLevel level) { return level == FindingLevel::fault ? "error" : "note"; }

Json rules() {
    Json list = Json::array();
    for (const ReviewKind& kind : review_kinds())
        list.push_back({{"id", kind.id},
                        {"shortDescription", text(sentence(kind.title))},
                        {"fullDescription", text(kind.why)},
                        {"help", text(kind.why)},
                        {"defaultConfiguration", {{"level", level(kind.level)}}}});
    return list;
}

Json location(const Place& place) {
    Json physical = {{"artifactLocation", {{"uri", uri_of_path(place.file)}}}};
    if (place.line > 0) {
        physical["region"] = {{"startLine", place.line}};
        if (place.column > 0) physical["region"]["startColumn"] = place.column;
    }
    return {{"physicalLocation", std::move(physical)}};
}

/// The same finding in a later version of the files, though it stands on another line: its kind and what it is about, and
/// which of several such it is.
std::string fingerprint(const ReviewFinding& finding, std::map<std::string, int>& seen) {
    std::string key = finding.kind;
    for (const std::string& id : finding.about) key += "/" + id;
    if (finding.about.empty()) key += "/" + finding.text;
    const int times = ++seen[key];
    return times == 1 ? key : key + "#" + std::to_string(times);
}

Json result(const ReviewFinding& finding, const std::string& print) {
    const auto kinds = review_kinds();
    const ReviewKind* kind = find_review_kind(finding.kind);
    const std::string witness = witness_words(finding);
    std::string message = sentence(finding.text);
    if (!witness.empty()) message += " Answers that show it: " + witness;
    if (!finding.mend.empty()) message += (witness.empty() ? " " : ". ") + ("To mend it: " + finding.mend) + ".";
    Json json = {{"ruleId", finding.kind}};
    if (kind) json["ruleIndex"] = kind - kinds.data();
    json["level"] = level(finding.level);
    json["message"] = text(message);
    if (!finding.place.file.empty()) json["locations"] = Json::array({location(finding.place)});
    json["partialFingerprints"] = {{"kindAndEntries/v1", print}};
    if (!finding.answered_because.empty())
        json["suppressions"] = Json::array({{{"kind", "inSource"}, {"justification", finding.answered_because}}});
    return json;
}

}  // namespace

std::string uri_of_path(const std::string& path) {
    constexpr std::string_view hex = "0123456789ABCDEF";
    constexpr std::string_view kept = "-._~/!$&'()*+,;=@";
    // "a:b.yaml" would be a scheme and "//a" a machine's name.
    std::string uri;
    for (const char c : path) {
        const bool plain = (c >= 'a' && c <= 'z') || (c >= 'A' && c <= 'Z') || (c >= '0' && c <= '9');
        const auto byte = static_cast<unsigned char>(c);
        if (plain || kept.find(c) != std::string_view::npos)
            uri += c;
        else
            (uri += '%') += {hex[byte >> 4U], hex[byte & 15U]};
    }
    if (uri.starts_with("//")) uri.erase(0, uri.find_first_not_of('/') - 1);
    return uri.starts_with('/') ? "file://" + uri : uri;
}

std::string render_check_sarif(const Checked& checked) {
    Json results = Json::array();
    std::map<std::string, int> seen;
    for (const ReviewFinding& finding : checked.findings) results.push_back(result(finding, fingerprint(finding, seen)));
    const Json driver = {{"name", "lidlift"}, {"version", LIDLIFT_VERSION}, {"rules", rules()}};
    const Json run = {{"tool", {{"driver", driver}}}, {"columnKind", "unicodeCodePoints"}, {"results", std::move(results)}};
    const Json log = {{"$schema", "https://docs.oasis-open.org/sarif/sarif/v2.1.0/errata01/os/schemas/sarif-schema-2.1.0.json"},
                      {"version", "2.1.0"},
                      {"runs", Json::array({run})}};
    return dumped(log);
}

}  // namespace lidlift::cli
