#include "engine/reader/entry.hpp"

#include "engine/nearest_name.hpp"
#include "engine/quantity.hpp"

#include <algorithm>
#include <utility>

namespace lidlift::reader {
namespace {

constexpr std::size_t longest_id = 64;

const char* shape(YamlNode::Kind kind) {
    switch (kind) {
        case YamlNode::Kind::text:
            return "a text";
        case YamlNode::Kind::list:
            return "a list";
        case YamlNode::Kind::map:
            return "a map of keys";
    }
    return "";
}

}  // namespace

bool is_id(std::string_view text, bool capitals) {
    const auto small = [](char c) { return c >= 'a' && c <= 'z'; };
    const auto capital = [&](char c) { return capitals && c >= 'A' && c <= 'Z'; };
    if (text.empty() || text.size() > longest_id || !(small(text.front()) || capital(text.front()))) return false;
    return std::ranges::all_of(text, [&](char c) { return small(c) || capital(c) || (c >= '0' && c <= '9') || c == '_'; });
}

std::string listed(const std::vector<std::string>& words) {
    std::string result;
    for (std::size_t i = 0; i < words.size(); ++i) {
        if (i > 0) result += i + 1 == words.size() ? " or " : ", ";
        result += words[i];
    }
    return result;
}

bool require_text(const YamlNode& node, std::string_view what, Complaints& complaints) {
    if (node.kind == YamlNode::Kind::text && !node.text.empty()) return true;
    const bool empty = node.kind == YamlNode::Kind::text;
    complaints.add(node.place,
                   std::string(what) + (empty ? " is empty" : std::string(" should be a text, but is ") + shape(node.kind)));
    return false;
}

std::optional<bool> read_yes_no(const YamlNode& node, Complaints& complaints) {
    if (node.kind == YamlNode::Kind::text && node.text == "yes") return true;
    if (node.kind == YamlNode::Kind::text && node.text == "no") return false;
    complaints.add(node.place, "expected yes or no, found '" + node.text + "'");
    return std::nullopt;
}

std::optional<std::size_t> read_word(const YamlNode& node, const std::vector<std::string>& words, Complaints& complaints) {
    if (node.kind == YamlNode::Kind::text) {
        const auto found = std::ranges::find(words, node.text);
        if (found != words.end()) return static_cast<std::size_t>(found - words.begin());
    }
    if (node.kind != YamlNode::Kind::text) {
        complaints.add(node.place, std::string("expected ") + listed(words) + ", found " + shape(node.kind));
        return std::nullopt;
    }
    std::string hint = did_you_mean(node.text, words);
    complaints.add(node.place, "'" + node.text + "' is not one of: " + listed(words), std::move(hint));
    return std::nullopt;
}

Entry::Entry(const YamlNode& node, std::string what, Complaints& complaints)
    : node_(node), what_(std::move(what)), complaints_(complaints) {
    if (node_.kind != YamlNode::Kind::map)
        complaints_.add(node_.place, what_ + " should be a map of keys, but is " + shape(node_.kind));
}

const YamlNode* Entry::node(std::string_view key, Need need) {
    known_.emplace_back(key);
    if (node_.kind != YamlNode::Kind::map) return nullptr;
    const YamlNode* found = node_.find(key);
    // Of an entry that a mistake in the YAML cut off, nobody knows what it lacks.
    if (!found && need == Need::required && !node_.cut_off)
        complain(node_.place, what_ + " lacks the key '" + std::string(key) + "'");
    return found;
}

std::string Entry::text(std::string_view key, Need need) {
    const YamlNode* found = node(key, need);
    if (!found || !require_text(*found, "'" + std::string(key) + "'", complaints_)) return {};
    return found->text;
}

bool Entry::yes_no(std::string_view key, bool otherwise) {
    const YamlNode* found = node(key);
    return found ? read_yes_no(*found, complaints_).value_or(otherwise) : otherwise;
}

std::optional<std::size_t> Entry::word(std::string_view key, const std::vector<std::string>& words, Need need) {
    const YamlNode* found = node(key, need);
    if (!found) return std::nullopt;
    return read_word(*found, words, complaints_);
}

std::optional<double> Entry::number(std::string_view key, Need need) {
    const YamlNode* found = node(key, need);
    if (!found) return std::nullopt;
    const auto number = found->kind == YamlNode::Kind::text ? read_number(found->text) : std::nullopt;
    if (!number) complain(found->place, "'" + std::string(key) + "' should be a plain number, found '" + found->text + "'");
    return number;
}

std::vector<const YamlNode*> Entry::list(std::string_view key, Need need) {
    const YamlNode* found = node(key, need);
    if (!found) return {};
    std::vector<const YamlNode*> result;
    if (found->kind == YamlNode::Kind::text && !found->text.empty()) {
        result.push_back(found);
    } else if (found->kind == YamlNode::Kind::list) {
        for (const YamlNode& item : found->items) result.push_back(&item);
    } else {
        complain(found->place, "'" + std::string(key) + "' should be a list, but is " +
                                   (found->kind == YamlNode::Kind::text ? "empty" : shape(found->kind)));
    }
    return result;
}

std::vector<std::string> Entry::texts(std::string_view key) {
    std::vector<std::string> result;
    for (const YamlNode* item : list(key))
        if (require_text(*item, "an item of '" + std::string(key) + "'", complaints_)) result.push_back(item->text);
    return result;
}

void Entry::finish() {
    for (const YamlEntry& entry : node_.entries)
        if (std::ranges::find(known_, entry.key) == known_.end())
            complain(entry.key_place, "unknown key '" + entry.key + "' in " + what_, did_you_mean(entry.key, known_));
}

void Entry::complain(const Place& place, std::string text, std::string hint) {
    complaints_.add(place, std::move(text), std::move(hint));
}

}  // namespace lidlift::reader
