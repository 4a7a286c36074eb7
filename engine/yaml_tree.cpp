#include "engine/yaml_tree.hpp"

#include "engine/plain_text.hpp"

#include <algorithm>
#include <array>
#include <cstdint>
#include <new>
#include <optional>
#include <sstream>
#include <unordered_map>
#include <utility>

#include <yaml-cpp/eventhandler.h>
#include <yaml-cpp/exceptions.h>
#include <yaml-cpp/mark.h>
#include <yaml-cpp/parser.h>

namespace lidlift {
namespace {

constexpr std::string_view no_anchors = "anchors ('&name') and aliases ('*name') are not taken";
constexpr std::string_view no_tags = "tags ('!name') are not taken";
constexpr std::string_view no_directives = "directives ('%NAME') are not taken";

/// The text that is parsed, reached by yaml-cpp's marks, which count bytes from 0.
class Source {
public:
    Source(std::string_view text, const std::string& file) : text_(text), file_(file) {
        characters_.reserve(text.size() + 1);
        std::uint32_t count = 0;
        for (const char byte : text) {
            if ((byte & 0xC0) != 0x80) ++count;
            characters_.push_back(count);
        }
        characters_.push_back(count + 1);
    }
    [[nodiscard]] std::string_view from(const YAML::Mark& mark) const {
        return mark.is_null() ? std::string_view{} : text_.substr(std::min(static_cast<std::size_t>(mark.pos), text_.size()));
    }
    [[nodiscard]] Place place(const YAML::Mark& mark) const {
        if (mark.is_null()) return {file_, 0, 0};
        // An escape that the end cuts off is read on beyond it, lines and all.
        if (static_cast<std::size_t>(mark.pos) > text_.size()) return behind_the_last_word();
        const auto byte = static_cast<std::size_t>(mark.pos);
        const auto line_begin = byte - std::min(static_cast<std::size_t>(mark.column), byte);
        return {file_, mark.line + 1, static_cast<int>(characters_[byte] - characters_[line_begin]) + 1};
    }

private:
    [[nodiscard]] Place behind_the_last_word() const {
        const std::size_t end = text_.find_last_not_of(" \t\r\n") + 1;
        const std::size_t line_begin = text_.substr(0, end).rfind('\n') + 1;
        const auto lines = std::ranges::count(text_.substr(0, end), '\n');
        const std::uint32_t before = line_begin == 0 ? 0 : characters_[line_begin - 1];
        return {file_, static_cast<int>(lines) + 1, static_cast<int>(characters_[end - 1] - before) + 1};
    }

    std::string_view text_;
    const std::string& file_;
    std::vector<std::uint32_t> characters_;  ///< for each byte, and the end: code points up to and including it
};

/// The word that yaml-cpp took for null, since its event keeps only the place; empty: nothing was written.
std::string_view null_word(std::string_view text) {
    for (const std::string_view word : {"null", "Null", "NULL", "~"}) {
        if (!text.starts_with(word)) continue;
        const std::string_view after = text.substr(word.size());
        if (after.empty() || std::string_view(" \t\r\n,:]}").find(after.front()) != std::string_view::npos) return word;
    }
    return {};
}

/// Is the quoted text that begins `text` closed? yaml-cpp 0.7 takes the end of the file for the closing quote.
bool is_closed(std::string_view text) {
    const char quote = text.front();
    for (std::size_t i = 1; i < text.size(); ++i) {
        if (text[i] == quote && quote == '\'' && text.substr(i + 1).starts_with(quote))
            ++i;
        else if (text[i] == quote)
            return true;
        else if (text[i] == '\\' && quote == '"')
            ++i;
    }
    return false;
}

/// Thrown by the builder, through yaml-cpp, to end the reading; the complaint is already made.
struct Enough {};

/// Makes the tree of the first document from yaml-cpp's events. A tree of its own, because yaml-cpp's loses duplicate keys,
/// aliases and places.
class TreeBuilder final : public YAML::EventHandler {
public:
    TreeBuilder(const Source& source, Complaints& complaints) : source_(source), complaints_(complaints) {}

    /// What was read; of a document that broke off, what stood before.
    YamlNode take_tree() {
        while (!open_.empty()) {
            open_.back().node.cut_off = true;
            close();
        }
        return std::move(root_);
    }
    [[nodiscard]] const std::optional<YAML::Mark>& last_quoted() const { return last_quoted_; }

    void OnDocumentStart(const YAML::Mark& mark) override {
        if (++documents_ == 1) return;
        if (source_.from(mark).starts_with("---"))
            complain(mark, "a second document begins here", "a file holds one document");
        else
            complain(mark, "this does not belong to what stands before it", "check indentation, quotes and brackets");
        throw Enough{};
    }
    void OnDocumentEnd() override {}
    void OnAnchor(const YAML::Mark&, const std::string&) override {}  // OnScalar and the like tell of it, with a better place

    void OnNull(const YAML::Mark& mark, YAML::anchor_t anchor) override {
        YamlNode node = begin(YamlNode::Kind::text, mark, plain_tag, anchor);
        node.plain = true;
        if (!is_of_next_thing(node.place)) node.text = null_word(source_.from(mark));
        if (node.text.empty()) judge_absence(node, mark);
        add(std::move(node));
    }
    void OnAlias(const YAML::Mark& mark, YAML::anchor_t) override {
        YamlNode node = begin(YamlNode::Kind::text, mark, plain_tag, YAML::NullAnchor);
        complain(mark, std::string(no_anchors), "write the text out");
        add(std::move(node));
    }
    void OnScalar(const YAML::Mark& mark, const std::string& tag, YAML::anchor_t anchor, const std::string& text) override {
        YamlNode node = begin(YamlNode::Kind::text, mark, tag, anchor);
        node.text = text;
        node.plain = tag == plain_tag;
        const std::string_view written = source_.from(mark);
        const bool quoted = written.starts_with('"') || written.starts_with('\'');
        if (quoted) last_quoted_ = mark;
        if (written.substr(quoted ? 1 : 0).starts_with(text)) node.inset = quoted ? 1 : 0;
        if (text.size() > longest_text)
            complain(mark, "this text is longer than " + std::to_string(longest_text) + " bytes", "split it");
        else if (const auto bad = find_bad_character("\n" + text))  // no beginning of a file: no byte-order mark
            complain(mark, "this text holds " + bad->what, "take out the escape");
        add(std::move(node));
    }
    void OnSequenceStart(const YAML::Mark& mark, const std::string& tag, YAML::anchor_t anchor,
                         YAML::EmitterStyle::value style) override {
        open(YamlNode::Kind::list, mark, tag, anchor, style);
    }
    void OnSequenceEnd() override { end(); }
    void OnMapStart(const YAML::Mark& mark, const std::string& tag, YAML::anchor_t anchor,
                    YAML::EmitterStyle::value style) override {
        open(YamlNode::Kind::map, mark, tag, anchor, style);
    }
    void OnMapEnd() override { end(); }

private:
    static constexpr std::string_view plain_tag = "?";   // yaml-cpp's tag for a text without quotes, and for lists and maps
    static constexpr std::string_view quoted_tag = "!";  // for one in quotes or block style

    struct Key {
        std::string text;
        Place place;
        bool is_refused = false;  ///< its value is read and dropped
    };
    /// A list or map whose end has not come yet.
    struct Open {
        YamlNode node;
        bool is_flow = false;                              ///< written in [] or {}
        std::optional<Key> key = {};                       ///< of a map: the key whose value comes next
        std::unordered_map<std::string, Place> seen = {};  ///< of a map: its keys so far

        [[nodiscard]] bool expects_key() const { return node.kind == YamlNode::Kind::map && !key; }
    };

    void complain(const YAML::Mark& mark, std::string text, std::string hint = {}) {
        complaints_.add(source_.place(mark), std::move(text), std::move(hint));
    }

    /// What every node goes through, whatever its kind.
    YamlNode begin(YamlNode::Kind kind, const YAML::Mark& mark, std::string_view tag, YAML::anchor_t anchor) {
        if (++nodes_ > most_nodes) {
            complain(mark, "the file holds more than " + std::to_string(most_nodes) + " texts, lists and maps", "split it");
            throw Enough{};
        }
        if (anchor != YAML::NullAnchor) complain(mark, std::string(no_anchors), "write the text out where it is needed");
        if (!tag.empty() && tag != plain_tag && tag != quoted_tag)
            complain(mark, std::string(no_tags), "a text that begins with '!' needs quotes");
        YamlNode node;
        node.kind = kind;
        node.place = source_.place(mark);
        return node;
    }

    /// In block style the place of an absent value is that of the next thing, which stands no deeper than the list or map
    /// around it.
    [[nodiscard]] bool is_of_next_thing(const Place& place) const {
        if (open_.empty() || open_.back().is_flow || open_.back().expects_key()) return false;
        return place.column <= open_.back().node.place.column;
    }

    /// Nothing stands where a node is due: a value may be left out ("key:"), other nodes may not.
    void judge_absence(YamlNode& node, const YAML::Mark& mark) {
        if (open_.empty()) return;
        const Open& parent = open_.back();
        if (parent.expects_key()) {
            complaints_.add(node.place, "a key is missing here", "a text that holds a comma or ': ' needs quotes");
        } else if (parent.node.kind == YamlNode::Kind::list) {
            if (parent.is_flow) complaints_.add(node.place, "an item of the list is missing here", "is a comma too many?");
        } else {
            // yaml-cpp gives the key's own place only where no ':' follows, or nothing more, not even a line end.
            if (!parent.is_flow && node.place == parent.key->place && !source_.from(mark).empty())
                complaints_.add(node.place, "after this a ':' is missing",
                                "a text that goes on must be indented deeper than its key");
            node.place = parent.key->place;
        }
    }

    void open(YamlNode::Kind kind, const YAML::Mark& mark, const std::string& tag, YAML::anchor_t anchor,
              YAML::EmitterStyle::value style) {
        YamlNode node = begin(kind, mark, tag, anchor);
        if (open_.size() >= static_cast<std::size_t>(deepest_nesting)) {
            complain(mark, "lists and maps are nested deeper than " + std::to_string(deepest_nesting) + " levels");
            throw Enough{};
        }
        open_.push_back({.node = std::move(node), .is_flow = style == YAML::EmitterStyle::Flow});
    }

    void end() {
        const YamlNode& node = open_.back().node;
        if (open_.size() > 1 && open_[open_.size() - 2].expects_key())
            complaints_.add(node.place, node.kind == YamlNode::Kind::list ? "a list cannot be a key" : "a map cannot be a key",
                            "a text that begins with '[' or '{' needs quotes");
        close();
    }

    void close() {
        YamlNode node = std::move(open_.back().node);
        open_.pop_back();
        add(std::move(node));
    }

    /// Puts a finished node where it belongs.
    void add(YamlNode node) {
        if (open_.empty()) {
            root_ = std::move(node);
            return;
        }
        Open& parent = open_.back();
        if (parent.node.kind == YamlNode::Kind::list) {
            parent.node.items.push_back(std::move(node));
        } else if (!parent.key) {
            parent.key = key_from(std::move(node), parent);
        } else {
            if (!parent.key->is_refused)
                parent.node.entries.push_back({std::move(parent.key->text), std::move(parent.key->place), std::move(node)});
            parent.key.reset();
        }
    }

    Key key_from(YamlNode node, Open& map) {
        Key key{std::move(node.text), std::move(node.place), node.kind != YamlNode::Kind::text};
        if (key.is_refused) return key;
        if (node.plain && key.text == "<<") {
            complaints_.add(key.place, "merge keys ('<<') are not taken", "write the keys out");
            key.is_refused = true;
            return key;
        }
        const auto [first, is_new] = map.seen.emplace(key.text, key.place);
        if (is_new) return key;
        const Place& earlier = first->second;
        complaints_.add(key.place, "the key '" + key.text + "' is given twice",
                        "first in line " + std::to_string(earlier.line) + ", column " + std::to_string(earlier.column));
        key.is_refused = true;
        return key;
    }

    const Source& source_;
    Complaints& complaints_;
    YamlNode root_;
    std::vector<Open> open_;
    std::optional<YAML::Mark> last_quoted_;
    std::size_t nodes_ = 0;
    int documents_ = 0;
};

struct Rewording {
    std::string_view theirs;  ///< what yaml-cpp's message holds
    std::string_view text;
    std::string_view hint;
};

/// yaml-cpp's messages in the words of someone who writes rules.
Rewording reworded(std::string_view message) {
    constexpr std::string_view indentation = "check the indentation; a text that holds ': ' or begins with a sign needs quotes";
    constexpr std::string_view brackets = "a text that holds a comma, a bracket or ': ' needs quotes";
    constexpr std::string_view escapes = "write \\\\ for a backslash, or use single quotes";
    constexpr auto table = std::to_array<Rewording>({
        {"end of map flow not found", "a ',' or the closing '}' is missing before this", brackets},
        {"end of sequence flow not found", "a ',' or the closing ']' is missing before this", brackets},
        {"end of map not found", "this does not fit the map around it", indentation},
        {"end of sequence not found", "this does not fit the list around it", indentation},
        {"illegal tab", "a tab stands where only spaces may", "indent with spaces"},
        {"illegal flow end", "this bracket closes nothing", "a text that begins with a bracket needs quotes"},
        {"illegal block entry", "a list item ('- ') cannot begin here", indentation},
        {"illegal map key", "a key cannot stand here", indentation},
        {"illegal map value", "a ':' cannot stand here", indentation},
        {"unknown token", "a text cannot begin with this character", "put the text in quotes"},
        {"illegal EOF in scalar", "the closing quote is missing", ""},
        {"illegal document indicator", "the closing quote is missing before this line", ""},
        {"unexpected character in block", "only a line end may follow '|' or '>'", "put the text on the next line, indented"},
        {"zero indentation", "the text of a block must be indented", ""},
        {"unknown escape", "this escape does not exist", escapes},
        {"hex number", "a hexadecimal digit is missing in this escape", escapes},
        {"invalid unicode", "this escape names no character", escapes},
        {"anchor", no_anchors, "a text that begins with '&' or '*' needs quotes"},
        {"alias", no_anchors, "a text that begins with '&' or '*' needs quotes"},
        {"tag", no_tags, "a text that begins with '!' needs quotes"},
        {"directive", no_directives, "a line of text cannot begin with '%'"},
        {"YAML", no_directives, "a line of text cannot begin with '%'"},  // "bad YAML version" and its like
    });
    const auto found = std::ranges::find_if(
        table, [message](const Rewording& known) { return message.find(known.theirs) != std::string_view::npos; });
    return found == table.end() ? Rewording{"", "this is not sound YAML", indentation} : *found;
}

/// yaml-cpp makes no event of directives, so they are looked for in the text: lines that begin with '%'.
void refuse_directives(std::string_view text, const std::string& file, Complaints& complaints) {
    for (int line = 1; !text.empty(); ++line) {
        if (text.starts_with('%'))
            complaints.add({file, line, 1}, std::string(no_directives), "a line of text cannot begin with '%'");
        text.remove_prefix(std::min(text.find('\n'), text.size() - 1) + 1);
    }
}

/// Size and characters; what fails here is not shown to the parser.
bool is_readable(std::string_view text, const std::string& file, Complaints& complaints) {
    if (text.size() > largest_file) {
        complaints.add({file, 0, 0}, "the file is larger than " + std::to_string(largest_file) + " bytes", "split it");
        return false;
    }
    if (const auto bad = find_bad_character(text)) {
        const bool is_foreign = bad->what.find("UTF-8") != std::string::npos;
        complaints.add({file, bad->line, bad->column}, "here stands " + bad->what,
                       is_foreign ? "save the file as UTF-8" : "take it out");
        return false;
    }
    return true;
}

void parse(std::string_view text, const Source& source, TreeBuilder& builder, Complaints& complaints) {
    try {
        std::istringstream stream{std::string(text)};
        YAML::Parser parser(stream);
        // Never YAML::LoadAll: yaml-cpp 0.7 does not end on ",". A second document is only asked for in order to refuse it.
        if (parser.HandleNextDocument(builder)) parser.HandleNextDocument(builder);
    } catch (const Enough&) {
    } catch (const YAML::Exception& error) {
        const Rewording words = reworded(error.msg);
        complaints.add(source.place(error.mark), std::string(words.text), std::string(words.hint));
    }
}

}  // namespace

const YamlNode* YamlNode::find(std::string_view key) const {
    const auto found = std::ranges::find(entries, key, &YamlEntry::key);
    return found == entries.end() ? nullptr : &found->value;
}

YamlNode read_yaml(std::string_view text, const std::string& file, Complaints& complaints) {
    YamlNode tree;
    try {
        if (is_readable(text, file, complaints)) {
            if (text.starts_with("\xEF\xBB\xBF")) text.remove_prefix(3);  // as yaml-cpp does before it counts
            refuse_directives(text, file, complaints);
            const Source source(text, file);
            TreeBuilder builder(source, complaints);
            parse(text, source, builder, complaints);
            if (const auto& quoted = builder.last_quoted(); quoted && !is_closed(source.from(*quoted)))
                complaints.add(source.place(*quoted), "the closing quote is missing");
            tree = builder.take_tree();
        }
    } catch (const std::bad_alloc&) {
        throw;  // that the memory ran out is no fault of the file
    } catch (...) {
        complaints.add({file, 0, 0}, "the file could not be read");
    }
    const bool is_empty = tree.kind == YamlNode::Kind::text && tree.plain && tree.text.empty();
    if (tree.place.line == 0 || is_empty) {
        tree = {};
        tree.kind = YamlNode::Kind::map;
        tree.place = {file, 1, 1};
    }
    return tree;
}

}  // namespace lidlift
