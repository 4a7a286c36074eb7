#include "cli/render_json.hpp"
#include "cli/render_text.hpp"
#include "engine/diagnosis.hpp"
#include "engine/rule_base_reader.hpp"
#include "tests/fuzz/invariants.hpp"
#include "tests/fuzz/targets.hpp"

namespace lidlift::fuzz {
namespace {

/// A diagnosis with everything told that a word can tell, as a page and as JSON.
void diagnose_all(const RuleBase& base, std::string_view word) {
    Told told;
    for (const Sign& sign : base.signs) (void)hear(told, base, sign.id, word, "you said: it");
    ensure_sound(told.facts, base);
    const Ranker ranker(base);
    const Diagnosis diagnosis = diagnose(ranker, std::move(told));
    double before = 1;
    for (const RankedCause& cause : diagnosis.ranking.causes) {
        ensure(cause.chance >= 0 && cause.chance <= 1, "a chance outside of 0 and 1");
        ensure(cause.chance <= before, "causes are not in the order of their chances");
        before = cause.chance;
    }
    ensure_harmless(cli::render_text(base, diagnosis, {.full = true}));
    ensure_harmless(cli::render_json(base, diagnosis));
}

}  // namespace

void one_rule_file(std::string_view text) {
    const std::string file = "rules.yaml";
    const RuleBaseReading reading = read_rule_base(std::vector<RuleText>{{file, std::string(text)}});
    ensure_placed(reading.complaints, text, file);
    if (!reading.complaints.empty()) return;
    for (const std::string_view word : {"?", "yes", "no", "0"}) diagnose_all(reading.rule_base, word);
}

}  // namespace lidlift::fuzz
