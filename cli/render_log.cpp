#include "cli/render_log.hpp"

#include "cli/json_parts.hpp"
#include "cli/page.hpp"

#include <algorithm>
#include <string_view>

#include <nlohmann/json.hpp>

namespace lidlift::cli {
namespace {

using Json = nlohmann::ordered_json;

std::size_t entries_of(const YamlNode& tree) {
    const YamlNode* entries = tree.find("entries");
    return entries ? entries->items.size() : 0;
}

Json as_json(const YamlNode& node) {
    if (node.kind == YamlNode::Kind::text) return node.text;
    Json json = node.kind == YamlNode::Kind::list ? Json::array() : Json::object();
    for (const YamlNode& item : node.items) json.push_back(as_json(item));
    for (const YamlEntry& entry : node.entries) json[entry.key] = as_json(entry.value);
    return json;
}

}  // namespace

std::string render_log(const LogReport& report) {
    Page page;
    if (report.begun) page.paragraph("", "Began the record of " + report.tank + " in " + report.file + ".");
    if (!report.has_entry) return page.take();
    page.paragraph("", "Written to " + report.file + ", line " + std::to_string(report.logged.line) + ", and on the disk:");
    page.empty_line();
    std::string_view written = report.logged.written;
    while (!written.empty()) {
        const std::size_t end = std::min(written.find('\n'), written.size());
        std::string_view line = written.substr(0, end);
        if (line.ends_with('\r')) line.remove_suffix(1);
        page.unbroken("", line);
        written.remove_prefix(std::min(end + 1, written.size()));
    }
    return page.take();
}

std::string render_log_json(const LogReport& report) {
    Json json;
    json["file"] = report.file;
    json["tank"] = report.tank;
    json["begun"] = report.begun;
    json["entries"] = entries_of(report.logged.tree);
    json["line"] = report.has_entry ? Json(report.logged.line) : Json(nullptr);
    json["entry"] = report.has_entry ? as_json(report.logged.tree.find("entries")->items.back()) : Json(nullptr);
    json["written"] = report.logged.written;
    return dumped(json);
}

}  // namespace lidlift::cli
