#include "engine/tank_log.hpp"

#include "engine/plain_text.hpp"
#include "engine/yaml_text.hpp"

#include <algorithm>
#include <optional>
#include <span>
#include <utility>
#include <vector>

namespace lidlift {
namespace {

constexpr std::string_view byte_order_mark = "\xEF\xBB\xBF";
constexpr std::size_t usual_indent = 2;
constexpr std::size_t longest_record_line =
    120;  ///< columns; a longer entry goes on several lines even where the last one does not

/// Lines of a text by the bytes at which they begin; the places of a tree as bytes.
class Lines {
public:
    explicit Lines(std::string_view text) : text_(text) {
        begins_.push_back(text.starts_with(byte_order_mark) ? byte_order_mark.size() : 0);
        for (std::size_t i = 0; i < text.size(); ++i)
            if (text[i] == '\n') begins_.push_back(i + 1);
    }
    /// Lines from 0; one past the last stands for the end of the text.
    [[nodiscard]] std::size_t count() const { return begins_.size() - (begins_.back() == text_.size() ? 1 : 0); }
    [[nodiscard]] std::size_t begin(std::size_t line) const { return line < begins_.size() ? begins_[line] : text_.size(); }
    /// Without the line end.
    [[nodiscard]] std::string_view line(std::size_t number) const {
        std::string_view line = text_.substr(begin(number), begin(number + 1) - begin(number));
        while (line.ends_with('\n') || line.ends_with('\r')) line.remove_suffix(1);
        return line;
    }
    [[nodiscard]] std::size_t indent(std::size_t number) const {
        const std::string_view text = line(number);
        return std::min(text.find_first_not_of(" \t"), text.size());
    }
    [[nodiscard]] bool is_blank(std::size_t number) const { return indent(number) == line(number).size(); }
    [[nodiscard]] bool is_comment(std::size_t number) const { return line(number).substr(indent(number)).starts_with('#'); }
    /// Byte of a place, whose column counts code points.
    [[nodiscard]] std::size_t byte(const Place& place) const {
        std::size_t at = begin(static_cast<std::size_t>(place.line) - 1);
        for (int column = 1; column < place.column && at < text_.size(); ++column) do
                ++at;
            while (at < text_.size() && (text_[at] & 0xC0) == 0x80);
        return at;
    }

private:
    std::string_view text_;
    std::vector<std::size_t> begins_;
};

/// From an opening bracket on: where its fellow stands, and where what stands between them ends.
struct Brackets {
    std::size_t close = 0;  ///< byte of the closing bracket
    std::size_t content_end =
        0;  ///< byte after the last thing that is no blank, comment or comma; after the opening bracket if none
    bool is_empty = true;
    bool ends_with_comma = false;  ///< "[a, b,]"
};

/// Byte of the quote that ends the quoted text beginning at `open`; past the end where none does.
std::size_t end_of_quoted(std::string_view text, std::size_t open) {
    const char quote = text[open];
    std::size_t i = open + 1;
    for (; i < text.size(); ++i) {
        const bool escapes = quote == '"' ? text[i] == '\\' : text.substr(i, 2) == "''";
        if (escapes)
            ++i;
        else if (text[i] == quote)
            break;
    }
    return i;
}

std::optional<Brackets> find_fellow(std::string_view text, std::size_t open) {
    Brackets result{0, open + 1};
    int depth = 0;
    char before = '\0';  // the last character that is no blank
    for (std::size_t i = open; i < text.size(); ++i) {
        const char c = text[i];
        if (c == ' ' || c == '\t' || c == '\n' || c == '\r') continue;
        if (c == '#' && i > 0 && std::string_view(" \t\n\r").find(text[i - 1]) != std::string_view::npos) {
            i = std::min(text.find('\n', i), text.size()) - 1;
            continue;
        }
        // A quote begins a quoted text only where a text may begin; within a plain text it is a letter ("it's").
        if ((c == '"' || c == '\'') && std::string_view("[{,:").find(before) != std::string_view::npos) {
            i = end_of_quoted(text, i);
        } else if (c == '[' || c == '{') {
            ++depth;
        } else if ((c == ']' || c == '}') && --depth == 0) {
            result.close = i;
            return result;
        }
        before = c;
        if (i == open) continue;
        result.ends_with_comma = depth == 1 && c == ',';
        if (result.ends_with_comma) continue;
        result.content_end = i + 1;
        result.is_empty = false;
    }
    return std::nullopt;
}

/// The line that the first `...` at its beginning makes, or the number of lines.
std::size_t last_line_of_document(const Lines& lines, std::size_t from) {
    for (std::size_t line = from; line < lines.count(); ++line)
        if (lines.line(line) == "..." || lines.line(line).starts_with("... ")) return line;
    return lines.count();
}

/// The last line on which anything in `node` begins.
int last_place(const YamlNode& node) {
    int line = node.place.line;
    for (const YamlNode& item : node.items) line = std::max(line, last_place(item));
    for (const YamlEntry& entry : node.entries) line = std::max({line, entry.key_place.line, last_place(entry.value)});
    return line;
}

/// Where something could be put in, and what; several until one of them reads back right.
struct Insertion {
    std::size_t at = 0;
    std::string text;
    std::size_t dropped = 0;           ///< bytes behind `at` that it replaces
    std::optional<std::size_t> comma;  ///< put a comma there too; before `at`
    std::string written;               ///< the entry within `text`
};

class Inserter {
public:
    Inserter(std::string_view text, const YamlNode& root, const YamlNode& entry)
        : text_(text),
          root_(root),
          entry_(entry),
          lines_(text),
          line_end_(text.find("\r\n") != std::string_view::npos ? "\r\n" : "\n") {}

    /// The likeliest first; a fault where there is none.
    [[nodiscard]] Outcome<std::vector<Insertion>> candidates() const {
        const bool flow_root = text_at(root_.place) == '{';
        const YamlNode* entries = root_.find("entries");
        if (!entries && flow_root) return into_brackets(root_, "entries: [" + flow() + "]");
        if (!entries) return new_key();
        if (entries->kind == YamlNode::Kind::list) {
            if (text_at(entries->place) != '[') return into_block(*entries);
            if (entries->items.empty() && !flow_root)
                if (auto begun = instead_of_empty_brackets(*entries)) return std::vector<Insertion>{std::move(*begun)};
            return into_brackets(*entries, flow());
        }
        if (entries->kind == YamlNode::Kind::text && entries->plain && entries->text.empty() && !flow_root) return below_key();
        return Fault{"'entries' is no list", 0};
    }

private:
    [[nodiscard]] char text_at(const Place& place) const {
        const std::size_t at = lines_.byte(place);
        return at < text_.size() ? text_[at] : '\0';
    }
    [[nodiscard]] std::string flow() const { return yaml_on_one_line(entry_); }
    [[nodiscard]] static std::size_t line_of(const Place& place) { return static_cast<std::size_t>(place.line) - 1; }
    [[nodiscard]] std::size_t root_indent() const { return static_cast<std::size_t>(root_.place.column) - 1; }

    /// An item of a block list, all its lines but the last with their ends; `gap` columns from the dash to what follows.
    [[nodiscard]] std::string item(std::size_t indent, std::size_t gap, bool one_line) const {
        const std::string margin(indent, ' ');
        const std::string dash = "-" + std::string(gap - 1, ' ');
        if (const std::string line = margin + dash + flow(); one_line && display_width(line) <= longest_record_line)
            return line;
        std::string result;
        for (const YamlEntry& one : entry_.entries)
            result += (result.empty() ? margin + dash : line_end_ + margin + std::string(gap, ' ')) +
                      yaml_scalar(one.key, YamlStyle::block) + ": " + yaml_on_one_line(one.value, YamlStyle::block);
        return result;
    }

    /// The line before which the key after `entries` begins, or the end.
    [[nodiscard]] std::size_t end_of_entries() const {
        const auto entries = std::ranges::find(root_.entries, "entries", &YamlEntry::key);
        if (entries == root_.entries.end()) return last_line_of_document(lines_, 0);
        const auto next = entries + 1;
        const std::size_t end = next == root_.entries.end() ? lines_.count() : line_of(next->key_place);
        return std::min(end, last_line_of_document(lines_, line_of(entries->key_place)));
    }

    /// Places after `from`, a line, and before `end`: behind the last line that says something and the comments that go with
    /// it; behind everything but blank lines; behind everything. The first is right unless what looks like a comment is part
    /// of a text of several lines.
    [[nodiscard]] std::vector<std::size_t> lines_to_try(std::size_t from, std::size_t end, std::size_t dash) const {
        std::size_t said = from;
        std::size_t all = from;
        for (std::size_t line = from; line < end; ++line) {
            if (lines_.is_blank(line)) continue;
            all = line;
            if (!lines_.is_comment(line)) said = line;
        }
        std::size_t with_comments = said;
        for (std::size_t line = said + 1; line < end; ++line) {
            if (lines_.is_blank(line)) continue;
            const bool adjoins = line == with_comments + 1;
            const bool belongs = lines_.indent(line) >= dash && (lines_.indent(line) > 0 || adjoins);
            if (!lines_.is_comment(line) || !belongs) break;
            with_comments = line;
        }
        return {with_comments + 1, all + 1, end};
    }

    /// Insertions of `piece` (`before` it, once) at the beginnings of lines.
    [[nodiscard]] std::vector<Insertion> at_lines(const std::vector<std::size_t>& lines, const std::string& before,
                                                  const std::string& piece) const {
        std::vector<Insertion> result;
        for (const std::size_t line : lines) result.push_back({lines_.begin(line), before + piece + line_end_, 0, {}, piece});
        return result;
    }

    [[nodiscard]] std::vector<Insertion> into_block(const YamlNode& entries) const {
        const std::size_t dash = static_cast<std::size_t>(entries.place.column) - 1;
        const YamlNode& last = entries.items.back();
        const std::size_t begins = line_of(last.place);
        const bool beside_dash = lines_.indent(begins) == dash && static_cast<std::size_t>(last.place.column) > dash + 2;
        const std::size_t gap = beside_dash ? static_cast<std::size_t>(last.place.column) - 1 - dash : usual_indent;
        const std::string piece = item(dash, gap, text_at(last.place) == '{');
        const auto from = static_cast<std::size_t>(std::max(last_place(last), 1)) - 1;
        const std::string before = entries.items.size() > 1 && stands_apart(begins) ? line_end_ : "";
        const std::vector<std::size_t> lines = lines_to_try(from, end_of_entries(), dash);
        auto result = at_lines(lines, before, piece);
        if (!before.empty())  // a blank line may be one too many where a text ends with some
            for (Insertion& one : at_lines(lines, "", piece)) result.push_back(std::move(one));
        return result;
    }

    /// Is there a blank line above this one, or above the comments on top of it?
    [[nodiscard]] bool stands_apart(std::size_t line) const {
        while (line > 0 && lines_.is_comment(line - 1)) --line;
        return line > 0 && lines_.is_blank(line - 1);
    }

    [[nodiscard]] std::vector<Insertion> below_key() const {
        const auto entries = std::ranges::find(root_.entries, "entries", &YamlEntry::key);
        const std::size_t dash = root_indent() + usual_indent;
        return at_lines(lines_to_try(line_of(entries->key_place), end_of_entries(), dash), "", item(dash, usual_indent, true));
    }

    [[nodiscard]] std::vector<Insertion> new_key() const {
        const std::size_t end = end_of_entries();
        const std::string margin(root_indent(), ' ');
        const std::string piece = item(root_indent() + usual_indent, usual_indent, true);
        const bool blank_above = end > 0 && lines_.is_blank(end - 1);
        auto result = at_lines({end}, (blank_above ? "" : line_end_) + margin + "entries:" + line_end_, piece);
        for (Insertion& one : at_lines({end}, margin + "entries:" + line_end_, piece)) result.push_back(std::move(one));
        return result;
    }

    /// "entries: []" becomes a list that one can go on with by hand.
    [[nodiscard]] std::optional<Insertion> instead_of_empty_brackets(const YamlNode& entries) const {
        const std::size_t open = lines_.byte(entries.place);
        const std::size_t line = line_of(entries.place);
        const auto key = std::ranges::find(root_.entries, "entries", &YamlEntry::key);
        if (text_.substr(open, 2) != "[]" || line_of(key->key_place) != line) return std::nullopt;
        std::size_t begin = open;
        while (begin > 0 && text_[begin - 1] == ' ') --begin;
        const std::size_t rest = open + 2;
        const std::size_t next = lines_.begin(line + 1);
        const std::string_view behind = text_.substr(rest, next - rest);  // perhaps a comment, and the line end
        const std::string piece = item(root_indent() + usual_indent, usual_indent, true);
        return Insertion{begin, std::string(behind) + piece + line_end_, next - begin, {}, piece};
    }

    /// Behind what stands in the brackets or braces of `node`.
    [[nodiscard]] Outcome<std::vector<Insertion>> into_brackets(const YamlNode& node, const std::string& piece) const {
        const std::size_t open = lines_.byte(node.place);
        const auto brackets = find_fellow(text_, open);
        if (!brackets) return Fault{"the closing bracket was not found", 0};
        if (brackets->is_empty) return std::vector<Insertion>{{open + 1, piece, 0, {}, piece}};
        const std::size_t line_break = text_.find('\n', brackets->content_end);
        if (line_break >= brackets->close) {  // the closing bracket stands on the last item's line
            const std::size_t at =
                brackets->ends_with_comma ? text_.find(',', brackets->content_end) + 1 : brackets->content_end;
            return std::vector<Insertion>{{at, (brackets->ends_with_comma ? " " : ", ") + piece, 0, {}, piece}};
        }
        const Place& last = node.items.empty() ? node.entries.back().key_place : node.items.back().place;
        const bool beside_bracket = last.line == node.place.line;
        const std::string margin(beside_bracket ? static_cast<std::size_t>(last.column) - 1 : lines_.indent(line_of(last)),
                                 ' ');
        const std::string end = brackets->ends_with_comma ? "," : "";
        Insertion result{line_break + 1, margin + piece + end + line_end_, 0, {}, margin + piece};
        if (!brackets->ends_with_comma) result.comma = brackets->content_end;
        return std::vector<Insertion>{std::move(result)};
    }

    std::string_view text_;
    const YamlNode& root_;
    const YamlNode& entry_;
    Lines lines_;
    std::string line_end_;
};

std::string applied(std::string_view text, const Insertion& insertion) {
    std::string result(text);
    result.replace(insertion.at, insertion.dropped, insertion.text);
    if (insertion.comma) result.insert(*insertion.comma, ",");
    return result;
}

/// Does `after` hold exactly what `before` holds, and `entry` at the end of its entries?
bool is_as_meant(const YamlNode& before, const YamlNode& after, const YamlNode& entry) {
    const std::size_t keys = before.entries.size() + (before.find("entries") ? 0 : 1);
    if (after.kind != YamlNode::Kind::map || after.entries.size() != keys) return false;
    for (std::size_t i = 0; i < keys; ++i) {
        const YamlEntry& now = after.entries[i];
        if (now.key != (i < before.entries.size() ? before.entries[i].key : "entries")) return false;
        if (now.key != "entries") {
            if (!same_content(before.entries[i].value, now.value)) return false;
            continue;
        }
        const YamlNode none;
        const auto& earlier = i < before.entries.size() ? before.entries[i].value.items : none.items;
        const auto& items = now.value.items;
        if (now.value.kind != YamlNode::Kind::list || items.size() != earlier.size() + 1) return false;
        if (!std::ranges::equal(earlier, std::span(items).first(earlier.size()), same_content)) return false;
        if (!same_content(items.back(), entry)) return false;
    }
    return true;
}

Fault refusal(const std::string& file, const YamlNode& entry, const std::string& why) {
    return {"'" + file + "' is written in a way that lidlift does not dare to add to (" + why + "); add the entry by hand: - " +
                yaml_on_one_line(entry),
            0};
}

}  // namespace

Outcome<Logged> with_entry(std::string_view text, const std::string& file, const YamlNode& entry) {
    Complaints complaints;
    const YamlNode tree = read_yaml(text, file, complaints);
    if (!complaints.empty()) return refusal(file, entry, to_text(complaints.sorted().front()));
    return with_entry(text, tree, file, entry);
}

Outcome<Logged> with_entry(std::string_view text, const YamlNode& tree, const std::string& file, const YamlNode& entry) {
    if (tree.kind != YamlNode::Kind::map || tree.entries.empty()) return refusal(file, entry, "it is no map");
    if (!text.ends_with('\n')) {
        // A last line without its end gets one, whatever is put in; what stands on it may read a little otherwise then.
        const std::string whole = std::string(text) + (text.find("\r\n") != std::string_view::npos ? "\r\n" : "\n");
        return with_entry(whole, file, entry);
    }
    const auto candidates = Inserter(text, tree, entry).candidates();
    if (!candidates) return refusal(file, entry, candidates.fault().text);
    for (const Insertion& insertion : *candidates) {
        Logged logged{applied(text, insertion), insertion.written, 0, {}};
        if (logged.text.size() > largest_file)
            return Fault{"'" + file + "' would grow larger than " + std::to_string(largest_file / 1024) +
                             " KiB; begin a new file for this tank",
                         0};
        Complaints complaints;
        logged.tree = read_yaml(logged.text, file, complaints);
        if (!complaints.empty() || !is_as_meant(tree, logged.tree, entry)) continue;
        logged.line = logged.tree.find("entries")->items.back().place.line;
        return logged;
    }
    return refusal(file, entry, "read again with the entry in it, it would not say the same as before");
}

std::string new_record(const YamlNode& heading) {
    std::string text;
    for (const YamlEntry& one : heading.entries)
        text += yaml_scalar(one.key, YamlStyle::block) + ": " + yaml_on_one_line(one.value, YamlStyle::block) + "\n";
    return text + "\nentries:\n";
}

}  // namespace lidlift
