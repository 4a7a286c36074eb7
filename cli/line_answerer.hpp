// Lines of told beds to lines of answers (rules/LINES.md); where lines come from and answers go is said in cli/why_lines.
#pragma once

#include "cli/streaming.hpp"
#include "engine/complaint.hpp"
#include "engine/phrasebook.hpp"
#include "engine/ranking.hpp"

#include <string>
#include <vector>

namespace lidlift::cli {

/// What became of some lines: objects for standard output, and mistakes for standard error.
struct AnsweredLines {
    std::string objects;
    std::vector<Complaint> complaints;
};

/// Answers lines; nothing in it changes, so that many threads may use it.
class LineAnswerer {
public:
    /// `file` is the name that complaints bear; `in_short` leaves all but ids and chances out.
    LineAnswerer(const RuleBase& rule_base, std::string file, bool in_short);

    /// One object for each line that is not blank, in their order.
    [[nodiscard]] AnsweredLines answer(const std::vector<TextLine>& lines) const;

private:
    void answer(const TextLine& line, AnsweredLines& into) const;

    const RuleBase& base_;
    const Ranker ranker_;
    const Phrasebook phrasebook_;
    std::string file_;
    bool in_short_;
};

}  // namespace lidlift::cli
