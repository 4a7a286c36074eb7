// What the default rules say of a bed that is told in one line, "sign=value sign=value", and short questions to ask of the
// answer.
#pragma once

#include "engine/diagnosis.hpp"
#include "rules/default_rules.hpp"

#include <algorithm>
#include <sstream>
#include <stdexcept>
#include <string>
#include <string_view>
#include <vector>

namespace lidlift::test {

inline const RuleBase& told_rule_base() {
    static const RuleBase base = [] {
        const auto files = default_rules();
        RuleBaseReading reading = read_rule_base(files);
        if (!reading.complaints.empty()) throw std::runtime_error(to_text(reading.complaints.front()));
        return std::move(reading.rule_base);
    }();
    return base;
}

inline const Ranker& default_ranker() {
    static const Ranker ranker(told_rule_base());
    return ranker;
}

inline Told told(const std::string& line) {
    Told told;
    std::istringstream words(line);
    for (std::string word; words >> word;)
        if (const auto fault = hear_argument(told, told_rule_base(), word)) throw std::runtime_error(line + ": " + fault->text);
    return told;
}

inline Diagnosis diagnose_told(const std::string& line) { return diagnose(default_ranker(), told(line)); }

inline const std::string& id_of(Handle<Cause> cause) { return told_rule_base().causes[cause].id; }

/// The causes, likeliest first, as "overfeeding .41, acid_bed .33, ..." for messages.
inline std::string ranked_in_words(const Diagnosis& diagnosis) {
    std::string text;
    for (const RankedCause& ranked : diagnosis.ranking.causes) {
        text += id_of(ranked.cause) + " " + std::to_string(ranked.chance).substr(1, 3) + ", ";
        if (std::ranges::count(text, ',') == 4) break;
    }
    return text + "nothing listed " + std::to_string(diagnosis.ranking.nothing_listed).substr(1, 3);
}

inline std::string first_cause(const Diagnosis& diagnosis) {
    return diagnosis.ranking.causes.empty() ? "" : id_of(diagnosis.ranking.causes.front().cause);
}

/// 1 for the likeliest cause, what only follows from it not counted; 0 for one that the stage or a veto leaves out.
inline int place_of(const Diagnosis& diagnosis, std::string_view cause) {
    const auto wanted = told_rule_base().causes.find(cause);
    int place = 1;
    for (const RankedCause& ranked : diagnosis.ranking.causes) {
        if (ranked.cause == wanted) return place;
        if (ranked.follows_from != wanted) ++place;
    }
    return 0;
}

inline bool has_step(const Diagnosis& diagnosis, std::string_view id) {
    return std::ranges::any_of(diagnosis.advice.steps,
                               [&](const PlannedStep& planned) { return told_rule_base().steps[planned.step].id == id; });
}

inline bool has_kind(const Diagnosis& diagnosis, StepKind kind) {
    return std::ranges::any_of(diagnosis.advice.steps,
                               [&](const PlannedStep& planned) { return told_rule_base().steps[planned.step].kind == kind; });
}

inline bool pushes(const Diagnosis& diagnosis, const Push& push) {
    return std::ranges::any_of(diagnosis.advice.steps, [&](const PlannedStep& planned) {
        return std::ranges::find(told_rule_base().steps[planned.step].pushes, push) !=
               told_rule_base().steps[planned.step].pushes.end();
    });
}

inline bool has_caution(const Diagnosis& diagnosis, std::string_view id) {
    return std::ranges::any_of(diagnosis.advice.cautions,
                               [&](Handle<Caution> caution) { return told_rule_base().cautions[caution].id == id; });
}

/// A person is not left standing: there is something to do, or something worth looking at next.
inline bool leads_somewhere(const Diagnosis& diagnosis) {
    return !diagnosis.advice.steps.empty() || !diagnosis.ask_next.empty();
}

}  // namespace lidlift::test
