// What stands on the sheet that a call is handed over with: every part worded, nothing laid out.
#pragma once

#include "cli/balance_lines.hpp"
#include "cli/handover_room.hpp"
#include "engine/call_summary.hpp"

#include <string>
#include <vector>

namespace lidlift::cli {

struct SheetCaution {
    std::string mark;  ///< by which the steps name it: "A", "B" ...
    Level level = Level::note;
    std::string name;
    std::string say;
};

/// One cause, with its balance as far as there is room.
struct SheetCause {
    std::string name;
    std::string chance;                ///< "likely (55-80 %), about 71 in 100"
    std::vector<std::string> remarks;  ///< what it follows from, how much is known, why it happens
    std::vector<BalancePoints> balance;
    int together = 0;  ///< what the balance adds up to
};

struct SheetStep {
    std::vector<std::string> checks;  ///< what to make sure of before
    std::string say;
    std::vector<std::string> amounts;
    std::vector<std::string> mind;  ///< the marks of the cautions that it needs
};
struct SheetSteps {
    std::string when;  ///< "Now"
    std::vector<SheetStep> steps;
};

/// Something still worth looking at.
struct SheetQuestion {
    std::string ask;
    std::string how;  ///< to check by hand
};

struct Sheet {
    std::string title;
    std::vector<std::string> standing;  ///< when the call was, how it stands, what came of it
    std::vector<std::string> notes;     ///< what differs from what was advised then, and what could not be used
    std::vector<SheetCaution> cautions;
    std::string in_short;
    std::vector<std::string> own_words;
    std::vector<std::string> answers;
    std::string tank_heading;
    std::vector<std::string> tank;  ///< what its record says
    std::string causes_heading;
    std::vector<SheetCause> causes;
    std::vector<std::string> other_causes;
    std::string nothing_listed;
    std::string steps_heading;
    std::vector<SheetSteps> steps;
    std::string steps_remark;
    std::vector<std::string> do_not;
    std::string look_again_heading;
    std::vector<std::string> look_again;
    std::vector<SheetQuestion> find_out;
    std::string left_out;  ///< for want of room, and where to find it
    std::string closing;
};

/// `file` is the name of the call's file, as it would be typed.
[[nodiscard]] Sheet sheet_of(const RuleBase& rule_base, const CallSummary& call, const SheetRoom& room,
                             const std::string& file);

}  // namespace lidlift::cli
