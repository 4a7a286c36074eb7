// A rule base of a handful of entries, and cases for it.
#pragma once

#include "engine/cases.hpp"
#include "engine/trial.hpp"
#include "tests/engine/short_rules.hpp"

#include <stdexcept>
#include <string>
#include <vector>

namespace lidlift::test {

/// A bed can be blocked (wet, K01, open), airless (smells, loosen, lime_it) or dry.
inline Rules small_rules() {
    return Rules()
        .sign("wet", "seen anyway: almost never, answers: {yes: {means: wet, heard as: [soaking wet]}, no: {means: not wet}}")
        .sign("smell",
              "answers: {none: {means: n, seen anyway: the rest}, faint: {means: f, seen anyway: sometimes}, strong: "
              "{means: s, seen anyway: almost never}}")
        .sign("heat",
              "measured in: °C, plausible: -20 to 90, bands: {cold: {below: 10, seen anyway: sometimes}, warm: {seen "
              "anyway: the rest}}")
        .cause("blocked", "signs: [{when: wet, seen: usually}], steps: [open]")
        .cause("airless", "signs: [{when: smell is strong, seen: usually}], steps: [loosen, lime_it], cautions: [K02]")
        .cause("dry",
               "how common: occasional, signs: [{when: wet, points: strongly against}, {when: heat is warm, seen: "
               "almost always}]")
        .step("open", "kind: drain, pushes: [moisture down], cautions: [K01]")
        .step("loosen", "kind: air, pushes: [air up]")
        .step("lime_it", "kind: lime, pushes: [ph up]")
        .caution("K01", "level: stop")
        .caution("K02", "level: warn")
        .caution("K03", "level: note");
}

inline const RuleBase& small_base() {
    static const RuleBase base = small_rules().base();
    return base;
}

/// A file with one case for each of `cases`, "name: {...}"; what every case must have is filled in.
inline std::string case_file(const std::vector<std::string>& cases) {
    std::string text = "cases:\n";
    for (const std::string& one : cases) {
        const auto brace = one.find('{');
        text += "  " + one.substr(0, brace) + "{story: S, written from: the trade, sources: [common_practice], " +
                one.substr(brace + 1) + "\n";
    }
    return text;
}

/// All complaints of reading and resolving, one a line.
inline std::string case_complaints(const RuleBase& base, const std::vector<RuleText>& files) {
    Complaints complaints;
    CaseResolver resolver(base);
    for (const WrittenCase& written : read_cases(files, complaints)) (void)resolver.resolve(written, complaints);
    std::string text;
    for (const Complaint& complaint : complaints.sorted()) text += to_text(complaint) + "\n";
    return text;
}

inline std::vector<WrittenCase> written_cases(const std::string& text) {
    Complaints complaints;
    auto cases = read_cases(std::vector<RuleText>{{"cases.yaml", text}}, complaints);
    if (!complaints.empty())
        throw std::runtime_error("the test's own cases are wrong: " + to_text(complaints.sorted().front()));
    return cases;
}

inline Case resolved_case(const RuleBase& base, const WrittenCase& written) {
    Complaints complaints;
    Case resolved = CaseResolver(base).resolve(written, complaints);
    if (!complaints.empty())
        throw std::runtime_error("the test's own cases are wrong: " + to_text(complaints.sorted().front()));
    return resolved;
}

/// The result of "name: {...}" under `base`.
inline TrialResult tried(const RuleBase& base, const std::string& one) {
    const WrittenCase written = written_cases(case_file({one})).at(0);
    return try_case(Ranker(base), written, resolved_case(base, written));
}

}  // namespace lidlift::test
