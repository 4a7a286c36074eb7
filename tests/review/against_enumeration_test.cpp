// The review of conditions against something slow and plain: every way to answer a few signs is tried, one after the other,
// with the engine's own chaining, on random rule bases.
#include "engine/chaining.hpp"
#include "engine/review/answers_space.hpp"
#include "engine/review/clause_solver.hpp"
#include "tests/engine/random_models.hpp"
#include "tests/engine/short_rules.hpp"
#include "tests/review/review_files.hpp"

#include <array>
#include <map>
#include <set>

namespace review_against_enumeration_test {

using namespace lidlift;
using namespace lidlift::test;

namespace {

constexpr int rule_bases = 1000;
constexpr int conclusions_in_all = 4;
constexpr int highest_number = 3;  ///< the quantity lies between 0 and this; conditions cut it at whole numbers

/// One way to answer: what is typed for each sign, empty for unknown; and the number, where there is one.
struct Way {
    std::vector<std::string> typed;
    bool all_known = true;
    std::optional<double> number;
};

struct RandomRules {
    bool with_number = false;
    bool with_several = false;
    std::vector<std::pair<std::string, int>> rules;  ///< condition, conclusion
    std::vector<std::pair<int, int>> excludes;
};

std::string random_part(Dice& dice, const RandomRules& rules, int below) {
    const std::string number = std::to_string(dice.whole(0, highest_number));
    switch (dice.whole(0, 11)) {
        case 0:
        case 1:
            return "a";
        case 2:
            return "q is q" + std::to_string(dice.whole(0, 2));
        case 3:
            return "q is any of (q0, q" + std::to_string(dice.whole(1, 2)) + ")";
        case 4:
            return dice.one_in(2) ? "q is known" : "a is unknown";
        case 5:
        case 6:
            if (!rules.with_several) return "a";
            return std::array{"m is m0", "m is m1", "m is none", "m is any of (m0, m1)", "m is known"}[dice.whole(0, 4)];
        case 7:
            if (!rules.with_number) return "q is q2";
            return "n between " + number + " and " + std::to_string(highest_number);
        case 8:
        case 9:
            if (!rules.with_number) return "q is q1";
            return std::array{"n above ", "n below ", "n at least ", "n at most "}[dice.whole(0, 3)] + number;
        default:
            if (below == 0) return "a";
            return "c" + std::to_string(dice.whole(0, static_cast<std::uint32_t>(below) - 1)) +
                   (dice.one_in(4) ? " is known" : "");
    }
}

std::string random_condition(Dice& dice, const RandomRules& rules, int below, int depth) {
    if (depth == 0 || dice.one_in(3)) return random_part(dice, rules, below);
    const auto part = [&] { return "(" + random_condition(dice, rules, below, depth - 1) + ")"; };
    switch (dice.whole(0, 4)) {
        case 0:
            return "not " + part();
        case 1:
            return part() + " or " + part();
        case 2:
            return "at least 2 of (" + part() + ", " + part() + ", " + part() + ")";
        default:
            return part() + " and " + part();
    }
}

RandomRules random_rules(Dice& dice) {
    RandomRules result;
    result.with_number = !dice.one_in(3);
    result.with_several = !dice.one_in(3);
    for (int conclusion = 0; conclusion < conclusions_in_all; ++conclusion) {
        const std::uint32_t count = dice.one_in(8) ? 0 : dice.whole(1, 3);
        for (std::uint32_t i = 0; i < count; ++i)
            result.rules.emplace_back(random_condition(dice, result, conclusion, static_cast<int>(dice.whole(1, 2))),
                                      conclusion);
        if (conclusion > 0 && dice.one_in(2))
            result.excludes.emplace_back(conclusion, dice.whole(0, static_cast<std::uint32_t>(conclusion) - 1));
    }
    return result;
}

RuleBase as_base(const RandomRules& random) {
    Rules rules;
    rules.sign("a").sign("q", "answers: {q0: {means: q0}, q1: {means: q1}, q2: {means: q2}}");
    if (random.with_several)
        rules.sign("m",
                   "several at once: yes, answers: {m0: {means: m0}, m1: {means: m1}, none: {means: n, none of these: yes}}");
    if (random.with_number) rules.sign("n", "measured in: days, plausible: 0 to " + std::to_string(highest_number));
    for (int i = 0; i < conclusions_in_all; ++i) {
        std::string excluded;
        for (const auto& [one, other] : random.excludes)
            if (one == i) excluded = "excludes: [c" + std::to_string(other) + "]";
        rules.conclusion("c" + std::to_string(i), excluded);
    }
    for (std::size_t i = 0; i < random.rules.size(); ++i)
        rules.rule("r" + std::to_string(i), random.rules[i].first, "c" + std::to_string(random.rules[i].second));
    return rules.base();
}

/// Every combination of "unknown" and single answers; written out by hand, nothing of the review's own domains.
std::vector<Way> all_ways(const RandomRules& random) {
    struct Answer {
        std::string value;  ///< empty: unknown
        bool full = true;
    };
    std::vector<std::pair<std::string, std::vector<Answer>>> signs = {
        {"a", {{"", false}, {"yes"}, {"no"}}},
        {"q", {{"", false}, {"q0"}, {"q1"}, {"q2"}}},
    };
    if (random.with_several)
        signs.push_back({"m",
                         {{"", false},
                          {"m0", false},  // and m1 unknown
                          {"m1", false},
                          {"m0,m1"},
                          {"m0,not m1"},
                          {"m1,not m0"},
                          {"none"},
                          {"not m0", false},
                          {"not m1", false},
                          {"not none", false},
                          {"not m0,not none", false},
                          {"not m1,not none", false},
                          {"not m0,not m1", false}}});
    if (random.with_number) {
        std::vector<Answer> numbers = {{"", false}};
        for (int half = 0; half <= 2 * highest_number; ++half)
            numbers.push_back({std::to_string(half / 2) + (half % 2 == 1 ? ".5" : "")});
        signs.push_back({"n", numbers});
    }
    std::vector<Way> ways = {{}};
    for (const auto& [sign, answers] : signs) {
        std::vector<Way> longer;
        for (const Way& way : ways)
            for (const Answer& answer : answers) {
                Way next = way;
                next.all_known = next.all_known && answer.full;
                if (!answer.value.empty()) {
                    next.typed.push_back(sign + "=" + answer.value);
                    if (sign == "n") next.number = std::stod(answer.value);
                }
                longer.push_back(std::move(next));
            }
        ways = std::move(longer);
    }
    return ways;
}

/// Facts are the same for every rule base with the same signs, so they are heard once.
const std::vector<std::pair<Way, Facts>>& facts_of_all_ways(const RandomRules& random, const RuleBase& base) {
    static std::map<std::pair<bool, bool>, std::vector<std::pair<Way, Facts>>> known;
    auto& result = known[{random.with_several, random.with_number}];
    if (result.empty())
        for (const Way& way : all_ways(random)) result.emplace_back(way, facts_in(base, way.typed));
    return result;
}

/// By way, the truth of each rule and each conclusion.
struct Table {
    std::vector<std::vector<Truth>> rules;
    std::vector<std::vector<Truth>> conclusions;
};

Table table_of(const RuleBase& base, const std::vector<std::pair<Way, Facts>>& ways) {
    Table table;
    for (const auto& [way, facts] : ways) {
        const Conclusions conclusions = chain(base, facts);
        std::vector<Truth> rules;
        for (const Rule& rule : base.rules) rules.push_back(evaluate(rule.when, facts, conclusions.truth));
        table.rules.push_back(std::move(rules));
        table.conclusions.push_back(conclusions.truth);
    }
    return table;
}

std::set<std::string> told(const std::vector<ReviewFinding>& findings, const std::set<std::string>& kinds) {
    std::set<std::string> ids;
    for (const ReviewFinding& finding : findings)
        if (kinds.count(finding.kind) == 1) ids.insert(finding.about.front());
    return ids;
}

}  // namespace

TEST_CASE("never true, always true, covered, contradicting and gaps agree with trying every answer", "[review][enumeration]") {
    Dice dice(20261125);
    std::map<std::string, int> times;
    for (int run = 0; run < rule_bases; ++run) {
        const RandomRules random = random_rules(dice);
        const RuleBase base = as_base(random);
        const auto& ways = facts_of_all_ways(random, base);
        const Table table = table_of(base, ways);
        const auto findings = review(base);
        for (const ReviewFinding& finding : findings) ++times[finding.kind];

        std::string listing;
        for (const Rule& rule : base.rules)
            listing += rule.id + ": " + rule.when_text + " -> " + base.conclusions[rule.then].id + "\n";
        CAPTURE(run, listing);

        // Never true: no way makes it so. (Because of itself or because of a conclusion: two kinds, one fact.)
        std::set<std::string> never;
        std::vector<bool> never_true;
        for (std::size_t r = 0; r < base.rules.size(); ++r) {
            bool any = false;
            for (const auto& row : table.rules) any = any || row[r] == Truth::yes;
            never_true.push_back(!any);
            if (!any) never.insert("r" + std::to_string(r));
        }
        CHECK(told(findings, {"never_true", "cannot_apply"}) == never);

        // Always true: no way makes it false, every full way makes it true.
        const auto always = [&](std::size_t r) {
            for (std::size_t w = 0; w < ways.size(); ++w)
                if (table.rules[w][r] == Truth::no || (ways[w].first.all_known && table.rules[w][r] != Truth::yes))
                    return false;
            return true;
        };
        std::set<std::string> always_true;
        bool rests_on_another = false;
        for (std::size_t r = 0; r < base.rules.size(); ++r) {
            if (!always(r)) continue;
            // Where it rests on a rule that is always true, near or far, only that one is told.
            std::vector<std::size_t> open = {r};
            while (!open.empty()) {
                const Condition& when = base.rules[Handle<Rule>{static_cast<std::uint32_t>(open.back())}].when;
                open.pop_back();
                for (const auto used : mentioned(when).conclusions)
                    for (const auto rule : base.rules_for[used.index]) {
                        rests_on_another = rests_on_another || always(rule.index);
                        open.push_back(rule.index);
                    }
            }
            always_true.insert("r" + std::to_string(r));
        }
        const auto told_always = told(findings, {"always_true"});
        if (!rests_on_another) CHECK(told_always == always_true);
        for (const std::string& id : told_always) CHECK(always_true.count(id) == 1);
        CHECK(told_always.empty() == always_true.empty());

        // Covered: wherever it is true one of the others of its conclusion is, the later of two equal ones first.
        std::set<std::string> covered;
        for (const auto& rules : base.rules_for) {
            std::vector<std::uint32_t> left;
            for (const auto rule : rules)
                if (!never_true[rule.index]) left.push_back(rule.index);
            for (std::size_t i = left.size(); i-- > 0;) {
                bool needed = left.size() == 1;
                for (const auto& row : table.rules) {
                    bool by_other = false;
                    for (const auto other : left) by_other = by_other || (other != left[i] && row[other] == Truth::yes);
                    needed = needed || (row[left[i]] == Truth::yes && !by_other);
                }
                if (needed) continue;
                covered.insert("r" + std::to_string(left[i]));
                left.erase(left.begin() + static_cast<std::ptrdiff_t>(i));
            }
        }
        CHECK(told(findings, {"doubled_rule", "swallowed_rule"}) == covered);

        // Contradicting: two conclusions that exclude each other both hold.
        std::set<std::string> contradicting;
        for (const auto& [one, other] : random.excludes)
            for (const auto& row : table.conclusions)
                if (row[static_cast<std::size_t>(one)] == Truth::yes && row[static_cast<std::size_t>(other)] == Truth::yes)
                    contradicting.insert("c" + std::to_string(one));
        CHECK(told(findings, {"contradiction"}) == contradicting);

        // Gaps: true half a day before and after a whole number, with all else the same, and not at the number.
        if (random.with_number) {
            std::map<std::vector<std::string>, std::map<double, std::size_t>> others;
            for (std::size_t w = 0; w < ways.size(); ++w) {
                if (!ways[w].first.number) continue;
                auto rest = ways[w].first.typed;
                rest.pop_back();  // the number is told last
                others[rest][*ways[w].first.number] = w;
            }
            std::set<std::string> gaps;
            for (const auto& entry : others)
                for (int number = 1; number < highest_number; ++number)
                    for (int c = 0; c < conclusions_in_all; ++c) {
                        const auto truth_at = [&](double n) {
                            return table.conclusions[entry.second.at(n)][static_cast<std::size_t>(c)];
                        };
                        if (truth_at(number - 0.5) == Truth::yes && truth_at(number + 0.5) == Truth::yes &&
                            truth_at(number) != Truth::yes)
                            gaps.insert("c" + std::to_string(c));
                    }
            // Only numbers at which two ranges of the conclusion's own rules end are looked at, so that some are not told.
            for (const std::string& id : told(findings, {"edge_gap"})) CHECK(gaps.count(id) == 1);
        }
    }
    // The test is worth something only while all of these come about.
    for (const char* kind : {"never_true", "always_true", "doubled_rule", "swallowed_rule", "contradiction", "edge_gap"}) {
        CAPTURE(kind, times[kind]);
        CHECK(times[kind] >= 5);
    }
}

TEST_CASE("gaps and overlaps at the edges of numbers agree with trying every number", "[review][enumeration]") {
    Dice dice(42);
    int gaps = 0;
    int overlaps = 0;
    for (int run = 0; run < rule_bases; ++run) {
        // Two conclusions of two rules each: a comparison, perhaps with a yes/no sign.
        std::vector<std::pair<std::string, int>> written;
        std::map<std::pair<int, int>, int> times;
        for (int r = 0; r < 4; ++r) {
            const int number = static_cast<int>(dice.whole(1, highest_number - 1));
            const std::string comparison = std::array{"above ", "below ", "at least ", "at most "}[dice.whole(0, 3)];
            const std::string beside = std::array{"", "", " and a", " and not a"}[dice.whole(0, 3)];
            written.emplace_back("n " + comparison + std::to_string(number) + beside, r / 2);
            ++times[{r / 2, number}];
        }
        Rules rules;
        rules.sign("n", "measured in: days, plausible: 0 to " + std::to_string(highest_number)).sign("a");
        rules.conclusion("c0").conclusion("c1");
        for (std::size_t r = 0; r < written.size(); ++r)
            rules.rule("r" + std::to_string(r), written[r].first, "c" + std::to_string(written[r].second));
        const RuleBase base = rules.base();

        const auto truths = [&](double number, const std::string& a) {
            std::vector<std::string> words = {"n=" + number_to_text(number)};
            if (!a.empty()) words.push_back("a=" + a);
            return chain(base, facts_in(base, words)).truth;
        };
        std::set<std::string> gap;
        bool overlap = false;
        for (int number = 1; number < highest_number; ++number)
            for (const char* a : {"", "yes", "no"}) {
                const auto below = truths(number - 0.5, a);
                const auto at = truths(number, a);
                const auto above = truths(number + 0.5, a);
                for (const std::size_t c : {0U, 1U}) {
                    const bool looked_at = times[{static_cast<int>(c), number}] >= 2;
                    if (looked_at && below[c] == Truth::yes && above[c] == Truth::yes && at[c] != Truth::yes)
                        gap.insert("c" + std::to_string(c));
                    const std::size_t d = 1 - c;
                    const bool both_look = times[{0, number}] > 0 && times[{1, number}] > 0;
                    overlap =
                        overlap || (both_look && below[c] == Truth::yes && below[d] != Truth::yes && at[c] == Truth::yes &&
                                    at[d] == Truth::yes && above[c] != Truth::yes && above[d] == Truth::yes);
                }
            }
        const auto findings = review(base);
        CAPTURE(run, written[0].first, written[1].first, written[2].first, written[3].first);
        CHECK(told(findings, {"edge_gap"}) == gap);
        CHECK(told(findings, {"edge_overlap"}).empty() == !overlap);
        gaps += !gap.empty();
        overlaps += overlap;
    }
    CHECK(gaps >= 20);
    CHECK(overlaps >= 20);
}

TEST_CASE("every witness to a random rule base is what the engine finds as well", "[review][enumeration][witness]") {
    Dice dice(7);
    int witnesses = 0;
    for (int run = 0; run < rule_bases; ++run) {
        const RuleBase base = as_base(random_rules(dice));
        CAPTURE(run);
        for (const ReviewFinding& finding : review(base)) {
            if (finding.witness.empty()) continue;
            CAPTURE(finding.text);
            const Conclusions conclusions = chain(base, facts_in(base, typed(finding)));
            const auto conclusion = [&](const std::string& id) { return conclusions.truth[base.conclusions.find(id)->index]; };
            const auto rule = [&](const std::string& id) {
                const Rule& found = base.rules[*base.rules.find(id)];
                return evaluate(found.when, facts_in(base, typed(finding)), conclusions.truth);
            };
            ++witnesses;
            if (finding.kind == "doubled_rule" || (finding.kind == "swallowed_rule" && finding.about.size() == 2)) {
                CHECK(rule(finding.about[0]) == Truth::yes);
                CHECK(rule(finding.about[1]) == Truth::yes);
            } else if (finding.kind == "swallowed_rule") {
                CHECK(rule(finding.about[0]) == Truth::yes);
                CHECK(conclusion(base.conclusions[base.rules[*base.rules.find(finding.about[0])].then].id) == Truth::yes);
            } else if (finding.kind == "contradiction") {
                CHECK(conclusion(finding.about[0]) == Truth::yes);
                CHECK(conclusion(finding.about[1]) == Truth::yes);
            } else if (finding.kind == "edge_gap") {
                CHECK(conclusion(finding.about[0]) != Truth::yes);
            } else if (finding.kind == "edge_overlap") {
                CHECK(conclusion(finding.about[0]) == Truth::yes);
                CHECK(conclusion(finding.about[1]) == Truth::yes);
            } else if (finding.kind == "unused_conclusion") {
                CHECK(conclusion(finding.about[0]) == Truth::yes);
            } else {
                FAIL_CHECK("a witness of a kind that this test does not know: " << finding.kind);
            }
        }
    }
    CHECK(witnesses > 1000);
}

TEST_CASE("answers found for single conditions are what the engine finds as well", "[review][enumeration]") {
    Dice dice(11);
    int found_some = 0;
    for (int run = 0; run < rule_bases; ++run) {
        const RandomRules random = random_rules(dice);
        const RuleBase base = as_base(random);
        const auto& ways = facts_of_all_ways(random, base);
        const Table table = table_of(base, ways);
        logic::AnswersSpace space(base);
        for (std::size_t r = 0; r < base.rules.size(); ++r)
            for (const Truth truth : {Truth::no, Truth::unknown, Truth::yes}) {
                const logic::AnswersQuestion question{{{&base.rules[Handle<Rule>{static_cast<std::uint32_t>(r)}].when, truth}}};
                const auto found = space.find(question);
                bool any = false;
                for (const auto& row : table.rules) any = any || row[r] == truth;
                CAPTURE(run, random.rules[r].first, static_cast<int>(truth));
                CHECK((found.found == logic::Found::yes) == any);
                if (found.found != logic::Found::yes) continue;
                ++found_some;
                CHECK(logic::engine_agrees(base, question, found.beds));
                const auto shorter = space.shortened(question, found.beds);
                CHECK(logic::engine_agrees(base, question, shorter));
                CHECK(shorter.front().known().size() <= found.beds.front().known().size());
            }
        CHECK(space.undecided() == 0);
    }
    CHECK(found_some > 5000);
}

TEST_CASE("the clause solver agrees with trying every assignment", "[review][clauses]") {
    using namespace lidlift::logic;
    Dice dice(3);
    int possible = 0;
    int impossible = 0;
    for (int run = 0; run < 3000; ++run) {
        const std::uint32_t variables = dice.whole(1, 10);
        const std::uint32_t count = dice.whole(1, 45);
        std::vector<std::vector<Literal>> clauses;
        for (std::uint32_t i = 0; i < count; ++i) {
            std::vector<Literal> clause;
            const std::uint32_t length = dice.whole(1, 4);
            for (std::uint32_t j = 0; j < length; ++j) clause.push_back(2 * dice.whole(0, variables - 1) + dice.whole(0, 1));
            clauses.push_back(clause);
        }
        const auto met = [&](const auto& holds) {
            for (const auto& clause : clauses)
                if (std::none_of(clause.begin(), clause.end(), holds)) return false;
            return true;
        };
        bool any = false;
        for (std::uint32_t bits = 0; bits < (1U << variables) && !any; ++bits)
            any = met([&](Literal literal) { return ((bits >> (literal / 2)) & 1U) != literal % 2; });
        ClauseSolver solver;
        for (std::uint32_t i = 0; i < variables; ++i) CHECK(solver.new_literal() == 2 * i);
        for (const auto& clause : clauses) solver.add(clause);
        std::uint64_t work = 1'000'000;
        const Decided decided = solver.solve(work);
        CAPTURE(run);
        CHECK(decided == (any ? Decided::satisfiable : Decided::unsatisfiable));
        if (decided == Decided::satisfiable) CHECK(met([&](Literal literal) { return solver.holds(literal); }));
        ++(any ? possible : impossible);
    }
    CHECK(possible > 500);
    CHECK(impossible > 500);
}

TEST_CASE("the clause solver gives up when its work is used up, and says so", "[review][clauses]") {
    using namespace lidlift::logic;
    const auto pigeons = [](std::uint32_t count, std::uint32_t holes, std::uint64_t work) {
        ClauseSolver solver;
        std::vector<std::vector<Literal>> in(count);
        for (auto& row : in)
            for (std::uint32_t h = 0; h < holes; ++h) row.push_back(solver.new_literal());
        for (const auto& row : in) solver.add(row);
        for (std::uint32_t h = 0; h < holes; ++h)
            for (std::uint32_t p = 0; p < count; ++p)
                for (std::uint32_t other = p + 1; other < count; ++other)
                    solver.add({negated(in[p][h]), negated(in[other][h])});
        return solver.solve(work);
    };
    CHECK(pigeons(5, 4, 1'000'000) == Decided::unsatisfiable);
    CHECK(pigeons(5, 5, 1'000'000) == Decided::satisfiable);
    CHECK(pigeons(14, 13, 1'000'000) == Decided::given_up);
}

}  // namespace review_against_enumeration_test
