// The sheet that a call is handed over with: as text, as a page to print, as JSON.
#pragma once

#include "cli/handover_paper.hpp"
#include "cli/handover_sheet.hpp"
#include "cli/page.hpp"

#include <string>

namespace lidlift::cli {

/// A printer's page of text: so many lines of 80 columns.
inline constexpr std::size_t lines_of_a_page = 66;

[[nodiscard]] std::string render_handover(const Sheet& sheet, const Screen& screen);

/// One self-contained page: no script, nothing fetched, legible without colour. `layout`: on paper.
[[nodiscard]] std::string render_handover_html(const Sheet& sheet, const SheetLayout& layout);

/// All that `why --json` prints, after what the record says of the call.
[[nodiscard]] std::string render_handover_json(const RuleBase& rule_base, const CallSummary& call);

}  // namespace lidlift::cli
