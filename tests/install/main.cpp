// What a program of someone else's does with the installed library: read the default rules, tell two things, print the
// likeliest causes.
#include <cstdio>
#include <engine/diagnosis.hpp>
#include <engine/rule_base_reader.hpp>
#include <rules/default_rules.hpp>

int main() {
    using namespace lidlift;
    const RuleBaseReading reading = read_rule_base(default_rules());
    for (const Complaint& complaint : reading.complaints) std::fprintf(stderr, "%s\n", to_text(complaint).c_str());
    if (!reading.complaints.empty()) return 1;

    Told told;
    for (const char* argument : {"smell_rotten=strong", "squeeze=stream"})
        if (const auto fault = hear_argument(told, reading.rule_base, argument)) {
            std::fprintf(stderr, "%s\n", fault->text.c_str());
            return 1;
        }

    const Ranker ranker(reading.rule_base);
    const Diagnosis diagnosis = diagnose(ranker, told);
    for (std::size_t i = 0; i < 3 && i < diagnosis.ranking.causes.size(); ++i) {
        const RankedCause& ranked = diagnosis.ranking.causes[i];
        std::printf("%.2f  %s\n", ranked.chance, reading.rule_base.causes[ranked.cause].name.c_str());
    }
    return diagnosis.ranking.causes.empty() ? 1 : 0;
}
