#include "cli/line_answerer.hpp"

#include "cli/json_line.hpp"
#include "cli/render_json.hpp"
#include "engine/diagnosis.hpp"
#include "engine/heard_words.hpp"

#include <algorithm>
#include <utility>

namespace lidlift::cli {

LineAnswerer::LineAnswerer(const RuleBase& rule_base, std::string file, bool in_short)
    : base_(rule_base), ranker_(rule_base), phrasebook_(rule_base), file_(std::move(file)), in_short_(in_short) {}

AnsweredLines LineAnswerer::answer(const std::vector<TextLine>& lines) const {
    AnsweredLines answered;
    for (const TextLine& line : lines)
        if (line.text.find_first_not_of(" \t") != std::string::npos) answer(line, answered);
    return answered;
}

void LineAnswerer::answer(const TextLine& line, AnsweredLines& into) const {
    Complaints complaints;
    LineHead head{line.number, std::nullopt};
    const int number = static_cast<int>(std::min<std::size_t>(line.number, 2'000'000'000));
    Told told;
    HeardWords words;
    if (line.too_long) {
        complaints.add({"", number, 0}, "the line is longer than " + std::to_string(longest_json_line / 1024) + " KiB");
    } else {
        const JsonLine read = read_json_line(line.text, number, complaints);
        head.id = read.id;
        for (const YamlEntry& entry : read.told.entries) hear_entry(told, base_, entry, complaints);
        const bool blank = read.words.find_first_not_of(" \t\n") == std::string::npos;
        if (complaints.empty() && told.order.empty() && blank)
            complaints.add({"", number, 1}, "nothing was told that could be weighed",
                           "say 'told' or 'words': {\"told\": {\"squeeze\": \"stream\"}}");
        if (complaints.empty() && !blank) words = hear_words(told, base_, phrasebook_, read.words);
    }
    if (complaints.empty()) {
        const DiagnosisParts parts{.balances = !in_short_, .ask_next = !in_short_};
        const Diagnosis diagnosis =
            diagnose(ranker_, std::move(told), std::move(words.not_understood), std::move(words.to_ask), parts);
        into.objects += in_short_ ? render_short_line(base_, diagnosis, head) : render_json_line(base_, diagnosis, head);
        return;
    }
    const std::vector<Complaint> sorted = complaints.sorted();
    into.objects += render_bad_line(head, sorted);
    for (Complaint complaint : sorted) {
        complaint.place.file = file_;
        complaint.place.line = number;
        into.complaints.push_back(std::move(complaint));
    }
}

}  // namespace lidlift::cli
