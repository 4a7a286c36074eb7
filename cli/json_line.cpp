#include "cli/json_line.hpp"

#include "engine/plain_text.hpp"
#include "engine/reader/entry.hpp"
#include "engine/written_text.hpp"

#include <algorithm>
#include <charconv>
#include <iterator>
#include <system_error>
#include <utility>

#include <nlohmann/json.hpp>

namespace lidlift::cli {
namespace {

using Json = nlohmann::json;

/// The bytes of a line, one by one; all copies of it share one account of how far they were read.
class CountingBytes {
public:
    using iterator_category = std::input_iterator_tag;
    using value_type = char;
    using difference_type = std::ptrdiff_t;
    using pointer = const char*;
    using reference = const char&;

    CountingBytes(const char* at, const char** furthest) : at_(at), furthest_(furthest) {}
    reference operator*() const { return *at_; }
    CountingBytes& operator++() {
        *furthest_ = ++at_;
        return *this;
    }
    CountingBytes operator++(int) {
        const CountingBytes before = *this;
        ++*this;
        return before;
    }
    bool operator==(const CountingBytes& other) const { return at_ == other.at_; }
    bool operator!=(const CountingBytes& other) const { return at_ != other.at_; }

private:
    const char* at_;
    const char** furthest_;
};

/// Builds the tree that a YAML file of the same content would give, so that both mean the same. Goes no deeper than a line may,
/// and needs no stack for what is deeper.
class TreeBuilder : public nlohmann::json_sax<Json> {
public:
    TreeBuilder(std::string_view text, int number, Complaints& complaints)
        : text_(text), furthest_(text.data()), number_(number), complaints_(complaints) {}

    std::optional<YamlNode> build() {
        const CountingBytes begin(text_.data(), &furthest_);
        const CountingBytes end(text_.data() + text_.size(), &furthest_);
        const bool whole = Json::sax_parse(begin, end, this);
        if (!whole) return std::nullopt;
        return std::move(root_);
    }

    bool null() override {
        complaints_.add(place(), "null is no answer", "leave it out, or say \"?\" where it was asked but is not known");
        return take({}, false);
    }
    bool boolean(bool value) override { return take(value ? "yes" : "no", true); }
    bool number_integer(number_integer_t value) override { return take(std::to_string(value), true); }
    bool number_unsigned(number_unsigned_t value) override { return take(std::to_string(value), true); }
    bool number_float(number_float_t, const string_t& written) override { return take(written, true); }
    bool string(string_t& value) override {
        check(value);
        return take(std::move(value), false);
    }
    bool binary(binary_t&) override { return false; }
    bool start_object(std::size_t) override { return open(YamlNode::Kind::map); }
    bool start_array(std::size_t) override { return open(YamlNode::Kind::list); }
    bool end_object() override { return close(); }
    bool end_array() override { return close(); }

    bool key(string_t& name) override {
        YamlNode& map = *open_.back();
        check(name);
        key_place_ = place();
        if (map.entries.size() == most_in_a_line) return too_many();
        twice_ = map.find(name) != nullptr;
        if (twice_) complaints_.add(key_place_, "the key " + lidlift::quoted(name) + " stands there twice");
        key_ = std::move(name);
        begin_ = furthest_;
        return true;
    }

    bool parse_error(std::size_t, const std::string&, const Json::exception&) override {
        const Place at = place();
        const char* found = token_;
        const std::string_view rest = text_.substr(static_cast<std::size_t>(found - text_.data()));
        complaints_.add(at, rest.empty() ? "the line ends before its JSON does"
                                         : "this is not JSON from " + written::quoted(written::first_piece(rest)) + " on");
        return false;
    }

private:
    /// Where the piece that was read last begins: after what separates it from the one before.
    Place place() {
        token_ = std::find_if(begin_, text_.data() + text_.size(),
                              [](char c) { return !written::is_blank(c) && c != ',' && c != ':'; });
        return {"", number_, written::column_of(text_, token_)};
    }

    void check(const std::string& value) {
        if (const auto bad = find_bad_character(value)) complaints_.add(place(), "a text holds " + bad->what);
        if (value.size() > longest_text)
            complaints_.add(place(), "a text is longer than " + std::to_string(longest_text / 1024) + " KiB");
    }

    bool too_many() {
        complaints_.add(place(), "more than " + std::to_string(most_in_a_line) + " of one thing");
        return false;
    }

    /// Puts a value where it belongs; returns it there, or null where it is one too many.
    YamlNode* put(YamlNode value) {
        if (open_.empty()) {
            root_ = std::move(value);
            return &*root_;
        }
        YamlNode& around = *open_.back();
        if (around.kind == YamlNode::Kind::list) {
            if (around.items.size() == most_in_a_line) return nullptr;
            return &around.items.emplace_back(std::move(value));
        }
        if (std::exchange(twice_, false)) return &(passed_over_ = std::move(value));
        return &around.entries.emplace_back(YamlEntry{std::move(key_), key_place_, std::move(value)}).value;
    }

    bool take(std::string text, bool plain) {
        YamlNode node;
        node.place = place();
        node.text = std::move(text);
        node.plain = plain;
        const bool taken = put(std::move(node)) != nullptr || too_many();
        begin_ = furthest_;
        return taken;
    }

    bool open(YamlNode::Kind kind) {
        if (open_.size() == static_cast<std::size_t>(deepest_line)) {
            complaints_.add(place(), "nested more than " + std::to_string(deepest_line) + " deep");
            return false;
        }
        YamlNode node;
        node.kind = kind;
        node.place = place();
        YamlNode* there = put(std::move(node));
        if (!there) return too_many();
        open_.push_back(there);
        begin_ = furthest_;
        return true;
    }

    bool close() {
        open_.pop_back();
        begin_ = furthest_;
        return true;
    }

    std::string_view text_;
    const char* furthest_;              ///< read so far
    const char* begin_ = text_.data();  ///< behind the piece before
    const char* token_ = text_.data();
    int number_;
    Complaints& complaints_;
    std::optional<YamlNode> root_;
    std::vector<YamlNode*> open_;  ///< lists and maps around the next piece; each is the last of its parent, so none moves
    std::string key_;
    Place key_place_;
    bool twice_ = false;
    YamlNode passed_over_;  ///< the value of a key that stands there a second time
};

std::optional<LineId> read_id(const YamlNode& node, Complaints& complaints) {
    if (node.kind == YamlNode::Kind::text && !node.plain && node.text.size() <= longest_line_id) return node.text;
    std::int64_t number = 0;
    const char* end = node.text.data() + node.text.size();
    const auto read = std::from_chars(node.text.data(), end, number);
    const bool whole = read.ec == std::errc{} && read.ptr == end;
    if (node.kind == YamlNode::Kind::text && node.plain && whole) return number;
    complaints.add(node.place,
                   "'id' should be a text of at most " + std::to_string(longest_line_id) + " bytes, or a whole number");
    return std::nullopt;
}

}  // namespace

JsonLine read_json_line(std::string_view text, int number, Complaints& complaints) {
    JsonLine line;
    line.told.kind = YamlNode::Kind::map;
    if (const auto bad = find_bad_character(text)) {
        complaints.add({"", number, bad->column}, "the line holds " + bad->what);
        return line;
    }
    constexpr std::string_view byte_order_mark = "\xEF\xBB\xBF";
    if (text.starts_with(byte_order_mark)) {
        if (number != 1) complaints.add({"", number, 1}, "a byte-order mark stands in the middle of the file");
        text.remove_prefix(byte_order_mark.size());
    }
    const auto tree = TreeBuilder(text, number, complaints).build();
    if (!tree) return line;
    reader::Entry entry(*tree, "a line", complaints);
    if (const YamlNode* id = entry.node("id")) line.id = read_id(*id, complaints);
    if (const YamlNode* told = entry.node("told")) {
        if (told->kind == YamlNode::Kind::map)
            line.told = *told;
        else
            complaints.add(told->place, "'told' should be an object, sign to answer: {\"squeeze\": \"stream\"}");
    }
    line.words = entry.text("words");
    entry.finish();
    return line;
}

}  // namespace lidlift::cli
