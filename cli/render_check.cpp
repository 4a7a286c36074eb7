#include "cli/render_check.hpp"

#include "cli/json_parts.hpp"
#include "cli/page.hpp"
#include "engine/review/kinds.hpp"

#include <algorithm>
#include <map>

#include <nlohmann/json.hpp>

namespace lidlift::cli {
namespace {

using Json = nlohmann::ordered_json;

std::string counted(std::size_t number, const std::string& one, const std::string& many) {
    return std::to_string(number) + " " + (number == 1 ? one : many);
}

/// `first`: of its kind; what the kind means is said once.
void put_finding(Page& page, const ReviewFinding& finding, bool first) {
    const ReviewKind* kind = find_review_kind(finding.kind);
    const std::string place = to_text(finding.place);
    page.empty_line();
    page.paragraph("", (place.empty() ? std::string{} : place + ": ") + finding.text + " [" + finding.kind + "]");
    if (kind && first) page.paragraph("  why it matters: ", kind->why);
    if (!finding.witness.empty()) page.unbroken("  answers that show it: ", witness_words(finding));
    if (!finding.mend.empty()) page.paragraph("  to mend it: ", finding.mend);
    if (!finding.answered_because.empty()) page.paragraph("  answered: ", finding.answered_because);
}

/// Which of the findings a part of the page tells of.
enum class Shown { faults, advice, answered };

bool belongs(const ReviewFinding& finding, Shown shown) {
    if (finding.level == FindingLevel::fault) return shown == Shown::faults;
    return shown == (finding.answered_because.empty() ? Shown::advice : Shown::answered);
}

void put_findings(Page& page, const std::vector<ReviewFinding>& findings, Shown shown, bool full) {
    std::map<std::string, std::size_t> told;
    for (const ReviewFinding& finding : findings)
        if (belongs(finding, shown) && (++told[finding.kind] <= most_of_one_kind || full))
            put_finding(page, finding, told[finding.kind] == 1);
    for (const auto& [kind, times] : told) {
        if (full || times <= most_of_one_kind) continue;
        page.empty_line();
        page.paragraph("",
                       "... and " + std::to_string(times - most_of_one_kind) + " more [" + kind + "]; --full lists them all");
    }
}

}  // namespace

Counts count(const std::vector<ReviewFinding>& findings) {
    Counts counts;
    for (const ReviewFinding& finding : findings)
        ++(finding.level == FindingLevel::fault ? counts.faults
           : finding.answered_because.empty()   ? counts.advice
                                                : counts.answered);
    return counts;
}

std::string witness_words(const ReviewFinding& finding) {
    std::string words;
    for (const WitnessAnswer& answer : finding.witness) {
        const bool plain = std::ranges::all_of(answer.value, [](char c) {
            return (c >= 'a' && c <= 'z') || (c >= '0' && c <= '9') || c == '_' || c == ',' || c == '.';
        });
        words += (words.empty() ? "" : " ") + answer.sign + "=" + (plain ? answer.value : "\"" + answer.value + "\"");
    }
    return words;
}

std::string render_check_text(const Checked& checked, bool full) {
    const Counts counts = count(checked.findings);
    Page page;
    if (counts.faults > 0) page.heading("FAULTS");
    put_findings(page, checked.findings, Shown::faults, full);
    if (!checked.readable) {
        page.empty_line();
        page.paragraph("", "The rules cannot be used as they are, so nothing else was looked at.");
    }
    if (counts.advice > 0) page.heading("ADVICE");
    put_findings(page, checked.findings, Shown::advice, full);
    if (full && counts.answered > 0) {
        page.heading("ADVICE THAT THE RULE BASE ANSWERS");
        put_findings(page, checked.findings, Shown::answered, full);
    }
    if (counts.faults + counts.advice > 0 || (full && counts.answered > 0)) page.empty_line();
    const auto pieces = [](std::size_t number) { return counted(number, "piece of advice", "pieces of advice"); };
    std::string last = checked.name + ", version " + checked.version + ": " + counted(counts.faults, "fault", "faults") + ", " +
                       pieces(counts.advice);
    if (!checked.readable) last = counted(counts.faults, "fault", "faults");
    if (counts.answered > 0) last += ", " + pieces(counts.answered) + " answered in the rule base";
    page.paragraph("", last + ".");
    return page.take();
}

std::string render_check_json(const Checked& checked) {
    const Counts counts = count(checked.findings);
    Json findings = Json::array();
    for (const ReviewFinding& finding : checked.findings) {
        const ReviewKind* kind = find_review_kind(finding.kind);
        const bool has_line = finding.place.line > 0;
        Json witness = Json::array();
        for (const WitnessAnswer& answer : finding.witness) witness.push_back({{"sign", answer.sign}, {"value", answer.value}});
        findings.push_back({{"kind", finding.kind},
                            {"number", kind && kind->number > 0 ? Json(kind->number) : Json(nullptr)},
                            {"level", finding.level == FindingLevel::fault ? "fault" : "advice"},
                            {"title", kind ? Json(kind->title) : Json(nullptr)},
                            {"file", finding.place.file.empty() ? Json(nullptr) : Json(finding.place.file)},
                            {"line", has_line ? Json(finding.place.line) : Json(nullptr)},
                            {"column", has_line && finding.place.column > 0 ? Json(finding.place.column) : Json(nullptr)},
                            {"about", finding.about},
                            {"text", finding.text},
                            {"why", kind ? Json(kind->why) : Json(nullptr)},
                            {"witness", std::move(witness)},
                            {"mend", finding.mend.empty() ? Json(nullptr) : Json(finding.mend)},
                            {"answered", finding.answered_because.empty() ? Json(nullptr) : Json(finding.answered_because)}});
    }
    const Json rule_base = checked.readable ? Json({{"name", checked.name}, {"version", checked.version}}) : Json(nullptr);
    const Json page = {
        {"rule_base", rule_base},  {"readable", checked.readable},       {"faults", counts.faults},
        {"advice", counts.advice}, {"advice_answered", counts.answered}, {"findings", std::move(findings)},
    };
    return dumped(page);
}

}  // namespace lidlift::cli
