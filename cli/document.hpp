// A long text as blocks: what the handbook says, whatever it is written out as. The writers (render_markdown, render_html,
// render_document_json) escape; nothing here does.
#pragma once

#include "engine/rule_base.hpp"

#include <string>
#include <string_view>
#include <utility>
#include <variant>
#include <vector>

namespace lidlift::cli {

/// A piece of running text in one look; with a `target` it leads to the heading with that anchor.
struct Span {
    enum class Look { plain, strong, emphasis, code };
    std::string text;
    Look look = Look::plain;
    std::string target = {};
};
using Line = std::vector<Span>;

/// Level 1 is the title, 2 a chapter, 3 a group, 4 an entry, 5 a part of an entry. `anchor` is made of letters, digits, '-' and
/// '_', is unique, and stays the same while the entry's id does. `number` ("3.2") may be empty.
struct Heading {
    int level = 1;
    std::string anchor;
    std::string number;
    std::string text;
};
struct Paragraph {
    Line text;
    bool aside = false;  ///< of lesser weight: sources, ids
};
struct Bullets {
    std::vector<Line> items;
    bool numbered = false;
};
/// Every row has as many cells as `header`; the first cell of a row names the row.
struct Table {
    std::vector<std::string> header;
    std::vector<std::vector<Line>> rows;
};
/// "label: text" lines.
struct Particulars {
    std::vector<std::pair<std::string, Line>> rows;
};
/// A caution, set off from what stands around it by its word and a frame.
struct Boxed {
    Level level = Level::note;
    Line title;
    Line text;
};
/// The list of all chapters and groups, made by the writer.
struct Contents {};

using Block = std::variant<Heading, Paragraph, Bullets, Table, Particulars, Boxed, Contents>;

struct Document {
    std::string title;
    std::vector<Block> blocks;
};

/// "STOP", "CARE" or "NOTE": a level said in a word.
[[nodiscard]] std::string_view called(Level level);

/// `text` on one line: every run of blanks and line feeds is one space, and what no terminal or page should be given is shown
/// as a visible mark. Blanks at the ends stay, since a span goes on where the one before it ended.
[[nodiscard]] std::string on_one_line(std::string_view text);

}  // namespace lidlift::cli
