#include "engine/yaml_text.hpp"

#include <algorithm>
#include <array>

namespace lidlift {
namespace {

bool any_of(char c, std::string_view set) { return set.find(c) != std::string_view::npos; }

/// Does `text` read back the same without quotes? Rather too often no than once too often yes.
bool can_be_plain(std::string_view text, YamlStyle style) {
    constexpr auto nulls = std::to_array<std::string_view>({"~", "null", "Null", "NULL", "<<"});
    if (text.empty() || std::ranges::find(nulls, text) != nulls.end()) return false;
    if (any_of(text.front(), " ?:,[]{}#&*!|>'\"%@`=") || any_of(text.back(), " :")) return false;
    if (text.front() == '-' && (text.size() == 1 || any_of(text[1], " -"))) return false;
    if (text.starts_with("...")) return false;
    for (std::size_t i = 0; i < text.size(); ++i) {
        const char c = text[i];
        if (any_of(c, "\n\r\t")) return false;
        if (c == ':' && (style == YamlStyle::flow || text[i + 1] == ' ')) return false;  // the last one is no ':'
        if (c == '#' && text[i - 1] == ' ') return false;                                // the first one is no '#'
        if (style == YamlStyle::flow && any_of(c, ",[]{}?")) return false;               // yaml-cpp ends a text at some '?'
    }
    return true;
}

std::string in_single_quotes(std::string_view text) {
    std::string result = "'";
    for (const char c : text) result += c == '\'' ? std::string("''") : std::string(1, c);
    return result + "'";
}

std::string in_double_quotes(std::string_view text) {
    std::string result = "\"";
    for (const char c : text) {
        switch (c) {
            case '\n':
                result += "\\n";
                break;
            case '\r':
                result += "\\r";
                break;
            case '\t':
                result += "\\t";
                break;
            case '"':
            case '\\':
                result += '\\';
                [[fallthrough]];
            default:
                result += c;
        }
    }
    return result + "\"";
}

}  // namespace

std::string yaml_scalar(std::string_view text, YamlStyle style) {
    if (can_be_plain(text, style)) return std::string(text);
    const bool breaks_or_tabs = text.find_first_of("\n\r\t") != std::string_view::npos;
    return breaks_or_tabs ? in_double_quotes(text) : in_single_quotes(text);
}

std::string yaml_on_one_line(const YamlNode& node, YamlStyle style) {
    if (node.kind == YamlNode::Kind::text) return yaml_scalar(node.text, style);
    const bool is_list = node.kind == YamlNode::Kind::list;
    std::string result;
    for (const YamlNode& item : node.items) result += (result.empty() ? "" : ", ") + yaml_on_one_line(item);
    for (const YamlEntry& entry : node.entries)
        result += (result.empty() ? "" : ", ") + yaml_scalar(entry.key, YamlStyle::flow) + ": " + yaml_on_one_line(entry.value);
    return (is_list ? "[" : "{") + result + (is_list ? "]" : "}");
}

bool same_content(const YamlNode& one, const YamlNode& other) {
    const auto same_entry = [](const YamlEntry& a, const YamlEntry& b) {
        return a.key == b.key && same_content(a.value, b.value);
    };
    return one.kind == other.kind && one.text == other.text && std::ranges::equal(one.items, other.items, same_content) &&
           std::ranges::equal(one.entries, other.entries, same_entry);
}

YamlNode yaml_text(std::string text) {
    YamlNode node;
    node.text = std::move(text);
    return node;
}

YamlNode yaml_list() {
    YamlNode node;
    node.kind = YamlNode::Kind::list;
    return node;
}

YamlNode yaml_map() {
    YamlNode node;
    node.kind = YamlNode::Kind::map;
    return node;
}

void add_key(YamlNode& map, std::string key, YamlNode value) { map.entries.push_back({std::move(key), {}, std::move(value)}); }

}  // namespace lidlift
