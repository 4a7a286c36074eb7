// How many diagnoses a second and core, and what their parts cost, as ratios measured in one run: lidlift_diagnoses_bench
// [ROUNDS]
//
// The shipped cases under the default rules, in processor time of this one thread, so that other work on the machine counts as
// little as possible.
#include "cli/render_json.hpp"
#include "engine/cases.hpp"
#include "engine/diagnosis.hpp"
#include "engine/rule_base_reader.hpp"
#include "rules/default_cases.hpp"
#include "rules/default_rules.hpp"
#include "tests/bench/processor_time.hpp"
#include "tests/bench/straight_line.hpp"

#include <algorithm>
#include <cmath>
#include <cstdio>
#include <cstdlib>
#include <string>
#include <vector>

namespace {

using namespace lidlift;

/// A piece of work on every case, again and again; the least time of all rounds is the one that was disturbed least.
struct Work {
    const char* name;
    int rounds;
    double least = 0;  ///< microseconds a case
};

template <class OneCase>
void measure(Work& work, const std::vector<Told>& cases, const OneCase& one_case) {
    for (int round = 0; round < work.rounds; ++round) {
        const double all = bench::milliseconds_of([&] {
            for (const Told& told : cases) one_case(told);
        });
        const double each = 1e3 * all / static_cast<double>(cases.size());
        work.least = round == 0 ? each : std::min(work.least, each);
    }
}

/// How far the ranking is from the enumeration of all sets, in chance, over some of the cases.
double furthest_from_enumeration(const Ranker& ranker, const std::vector<Told>& cases) {
    double furthest = 0;
    for (std::size_t i = 0; i < cases.size(); i += 10) {
        const Ranker::Case prepared = ranker.prepare(cases[i].facts);
        const Weighed all = weigh(prepared.model, prepared.situation);
        const Ranking fast = ranker.rank_in_brief(cases[i].facts);
        for (std::size_t cause = 0; cause < all.chance.size(); ++cause)
            furthest = std::max(furthest, std::abs(all.chance[cause] - fast.tied->chance()[cause]));
    }
    return furthest;
}

}  // namespace

int main(int argc, char** argv) {
    const int rounds = argc > 1 ? std::max(1, std::atoi(argv[1])) : 10;
    const RuleBaseReading reading = read_rule_base(default_rules());
    const RuleBase& base = reading.rule_base;
    const Ranker ranker(base);
    Complaints complaints;
    CaseResolver resolver(base);
    std::vector<Told> cases;
    for (const WrittenCase& written : read_cases(default_cases(), complaints))
        cases.push_back(resolver.resolve(written, complaints).told);
    if (!reading.complaints.empty() || !complaints.empty() || cases.empty()) return 1;
    const std::vector<Told> some(cases.begin(),
                                 cases.begin() + static_cast<std::ptrdiff_t>(std::min<std::size_t>(20, cases.size())));

    double kept = 0;  // so that nothing measured can be left out by the compiler
    Work straight{"chaining, straight-line code", rounds};
    Work chaining{"chaining", rounds};
    Work ranking{"ranking, chaining included", rounds};
    Work advice{"and steps and cautions", rounds};
    Work in_short{"and a line of JSON in short", rounds};
    Work balances{"and balance sheets instead", rounds};
    Work asking{"and the next question", 1};
    Work full{"and a line of JSON in full", 1};
    Work enumeration{"ranking by enumeration of all sets", 1};
    std::vector<Truth> truth(base.conclusions.size());
    measure(straight, cases, [&](const Told& told) {
        straight_line::chain(told.facts, truth);
        kept += static_cast<double>(truth.front());
    });
    measure(chaining, cases, [&](const Told& told) { kept += static_cast<double>(chain(base, told.facts).truth.front()); });
    for (const Told& told : cases) {
        straight_line::chain(told.facts, truth);
        if (truth != chain(base, told.facts).truth) return 1;
    }
    measure(ranking, cases, [&](const Told& told) { kept += ranker.rank_in_brief(told.facts).nothing_listed; });
    const DiagnosisParts brief{.balances = false, .ask_next = false};
    const DiagnosisParts with_balances{.balances = true, .ask_next = false};
    measure(advice, cases, [&](const Told& told) { kept += diagnose(ranker, told, {}, {}, brief).ranking.nothing_listed; });
    const cli::LineHead head{1, std::nullopt};
    const auto length = [](const std::string& text) { return static_cast<double>(text.size()); };
    measure(in_short, cases, [&](const Told& told) {
        kept += length(cli::render_short_line(base, diagnose(ranker, told, {}, {}, brief), head));
    });
    measure(balances, cases,
            [&](const Told& told) { kept += diagnose(ranker, told, {}, {}, with_balances).ranking.nothing_listed; });
    measure(asking, cases, [&](const Told& told) { kept += diagnose(ranker, told).ranking.nothing_listed; });
    measure(full, cases, [&](const Told& told) { kept += length(cli::render_json_line(base, diagnose(ranker, told), head)); });
    measure(enumeration, some, [&](const Told& told) { kept += ranker.rank(told.facts).nothing_listed; });

    std::printf("%zu cases, least of %d rounds              times ranking  a second and core  (us each)\n", cases.size(),
                rounds);
    for (const Work* work : {&straight, &chaining, &ranking, &advice, &in_short, &balances, &asking, &full, &enumeration})
        std::printf("%-42s %12.3f %18.0f %10.1f\n", work->name, work->least / ranking.least, 1e6 / work->least, work->least);
    std::printf("\nchaining / straight-line code: %.1f\n", chaining.least / straight.least);
    std::printf("ranking by enumeration / ranking: %.0f\n", enumeration.least / ranking.least);
    std::printf("furthest from the enumeration: %.1e in chance\n", furthest_from_enumeration(ranker, cases));
    return std::isfinite(kept) ? 0 : 1;
}
