#include "cli/handover.hpp"

#include "cli/conversation.hpp"
#include "cli/files.hpp"
#include "cli/handover_paper.hpp"
#include "cli/render_handover.hpp"
#include "cli/tank_file.hpp"
#include "engine/call_record_reader.hpp"
#include "engine/call_summary.hpp"
#include "engine/yaml_tree.hpp"

#include <algorithm>
#include <filesystem>
#include <optional>
#include <utility>

namespace lidlift::cli {
namespace {

/// A call's record, or the exit code after the reasons were printed.
struct ReadCall {
    std::optional<CallRecord> record;
    int exit = done;
};

ReadCall read_call_file(const std::string& path) {
    const auto text = read_file(path, largest_file);
    if (!text) {
        print_error(text.fault().text);
        return {std::nullopt, cannot_read_or_write};
    }
    Complaints complaints;
    CallRecord record = read_call(*text, path == "-" ? "standard input" : path, complaints);
    if (print_complaints(complaints.sorted())) return {std::nullopt, unusable_input};
    return {std::move(record), done};
}

/// What is handed out tells nothing of the folders of the desk it comes from.
std::string name_of_file(const std::string& path) {
    return path == "-" ? "CALL_FILE" : std::filesystem::path(path).filename().string();
}

/// A page of text is smaller than a sheet of paper in small letters, so it grows longer rather than be cut beyond this.
constexpr std::size_t least_room_of_text = 7;

/// The sheet with as much on it as goes on one page of text.
std::string text_sheet(const RuleBase& base, const CallSummary& call, const std::string& file, bool full) {
    const auto fits = [&](const SheetRoom& room) {
        const std::string text = render_handover(sheet_of(base, call, room, file), {});
        return static_cast<std::size_t>(std::ranges::count(text, '\n')) <= lines_of_a_page;
    };
    std::size_t room = 0;
    while (!full && room < least_room_of_text && !fits(sheet_rooms[room])) ++room;
    return render_handover(sheet_of(base, call, sheet_rooms[room], file), screen_of_output());
}

/// The same on one sheet of paper.
std::string html_sheet(const RuleBase& base, const CallSummary& call, const std::string& file, bool full) {
    Sheet sheet;
    for (const SheetRoom& room : sheet_rooms) {
        sheet = sheet_of(base, call, room, file);
        if (const auto layout = layout_that_fits(sheet)) return render_handover_html(sheet, *layout);
        if (full) break;
    }
    return render_handover_html(sheet, {});
}

}  // namespace

int handover(const Options& options, const HandoverOptions& handover_options) {
    if (options.json && handover_options.html) {
        print_error("--html and --json are two kinds of output; say one of them");
        return unusable_input;
    }
    if (handover_options.call == "-" && handover_options.tank == "-") {
        print_error("only one of the call and the tank's record can come from standard input");
        return unusable_input;
    }
    const Loaded loaded = load_rule_base(options);
    if (!loaded.rule_base) return loaded.exit;
    const RuleBase& base = *loaded.rule_base;
    ReadCall call = read_call_file(handover_options.call);
    if (!call.record) return call.exit;

    const std::string& named = handover_options.tank;
    const std::string path = named.empty() ? call.record->tank : named;
    if (path.empty() && !handover_options.bay.empty()) {
        print_error("--bay is about a tank's record, and the call has none; name it with --tank FILE");
        return unusable_input;
    }
    std::optional<CallTank> tank;
    if (!path.empty()) {
        call.record->tank = path;
        // The bay that the call was about, unless another is named.
        const std::string& bay = handover_options.bay.empty() && named.empty() ? call.record->bay : handover_options.bay;
        LoadedTank read = path == "-" && named.empty() ? LoadedTank{} : load_tank(path, bay, {}, base);
        if (read.record)
            tank = CallTank{std::move(*read.record), read.bay};
        else if (!named.empty() || !handover_options.bay.empty())
            return read.exit;
        else
            print_error("the sheet goes without what the tank's record tells; --tank FILE names it anew");
    }

    const Ranker ranker(base);
    const CallSummary summary = summary_of(*call.record, ranker, Phrasebook(base), std::move(tank));
    const std::string file = name_of_file(handover_options.call);
    const std::string output = options.json            ? render_handover_json(base, summary)
                               : handover_options.html ? html_sheet(base, summary, file, handover_options.full)
                                                       : text_sheet(base, summary, file, handover_options.full);
    return print(output) ? done : cannot_read_or_write;
}

}  // namespace lidlift::cli
