// A document written out: for reading as Markdown, as one HTML page, or as JSON for other programs. All text is escaped here.
#pragma once

#include "cli/document.hpp"

#include <string>

namespace lidlift::cli {

/// CommonMark with tables (as GitHub and pandoc take them). The only HTML in it are the anchors of headings.
[[nodiscard]] std::string render_markdown(const Document& document);

/// One self-contained page: no script, nothing fetched, styles for wide and narrow screens, light, dark, and A4 paper.
[[nodiscard]] std::string render_html(const Document& document);

/// {"title": ..., "blocks": [{"heading": ...}, {"paragraph": ...}, ...]}
[[nodiscard]] std::string render_document_json(const Document& document);

}  // namespace lidlift::cli
