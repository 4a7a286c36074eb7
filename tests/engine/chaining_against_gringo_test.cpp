// Chaining against an independent solver: the same random rule bases, written once as YAML for lidlift and once as a logic
// program for clingo (Debian package gringo). Three values stand there as two predicates: t, surely true, and f, surely false.
#include "engine/chaining.hpp"
#include "tests/catch.hpp"
#include "tests/engine/random_models.hpp"
#include "tests/engine/short_rules.hpp"

#include <array>
#include <cstdio>
#include <filesystem>
#include <fstream>
#include <set>
#include <sstream>
#include <string>
#include <sys/wait.h>
#include <unistd.h>
#include <vector>

namespace engine_chaining_against_gringo_test {

using namespace lidlift;
using namespace lidlift::test;

namespace {

constexpr int rule_bases = 1500;
constexpr int in_one_run = 100;  ///< of the solver, whose time grows faster than its program

/// A condition as this test writes it down; nothing of the engine's own trees.
struct Expression {
    enum class Kind {
        always,
        sign,
        choice,
        conclusion,
        negation,
        conjunction,
        disjunction,
        quorum,
        sign_known,
        conclusion_known
    };
    Kind kind = Kind::always;
    std::uint32_t index = 0;        ///< of the sign, choice or conclusion
    std::vector<int> answers = {};  ///< choice: 0 to 2
    std::uint32_t wanted = 0;       ///< quorum
    std::vector<Expression> parts = {};
};

struct RandomRule {
    std::uint32_t then;
    Expression when;
};

/// Yes/no signs s0.., choices q0.. with the answers a0, a1, a2, conclusions c0.. that use only earlier ones.
struct RandomBase {
    std::vector<int> signs;              ///< 1 yes, -1 no, 0 unknown
    std::vector<std::set<int>> choices;  ///< answers that are still possible; all three: unknown
    std::uint32_t conclusions = 0;
    std::vector<RandomRule> rules;
};

Expression random_leaf(Dice& dice, const RandomBase& base, std::uint32_t below) {
    using Kind = Expression::Kind;
    const auto signs = static_cast<std::uint32_t>(base.signs.size());
    switch (dice.whole(0, 9)) {
        case 0:
            return {Kind::choice, dice.whole(0, 1), {static_cast<int>(dice.whole(0, 2))}};
        case 1:
            return {Kind::choice, dice.whole(0, 1), {0, static_cast<int>(dice.whole(1, 2))}};
        case 2:
            return {Kind::sign_known, dice.whole(0, signs - 1)};
        case 3:
            if (below > 0) return {Kind::conclusion_known, dice.whole(0, below - 1)};
            return {Kind::always};
        case 4:
        case 5:
        case 6:
            if (below > 0) return {Kind::conclusion, dice.whole(0, below - 1)};
            [[fallthrough]];
        default:
            return {Kind::sign, dice.whole(0, signs - 1)};
    }
}

Expression random_expression(Dice& dice, const RandomBase& base, std::uint32_t below, int depth) {
    using Kind = Expression::Kind;
    if (depth == 0 || dice.one_in(3)) return random_leaf(dice, base, below);
    const auto part = [&] { return random_expression(dice, base, below, depth - 1); };
    if (dice.one_in(4)) return {Kind::negation, 0, {}, 0, {part()}};
    Expression result;
    const std::uint32_t count = dice.whole(2, 3);
    for (std::uint32_t i = 0; i < count; ++i) result.parts.push_back(part());
    result.kind = std::array{Kind::conjunction, Kind::disjunction, Kind::quorum}[dice.whole(0, 2)];
    result.wanted = dice.whole(1, count);
    return result;
}

RandomBase random_base(Dice& dice) {
    RandomBase base;
    const std::uint32_t signs = dice.whole(2, 7);
    for (std::uint32_t i = 0; i < signs; ++i) base.signs.push_back(static_cast<int>(dice.whole(0, 2)) - 1);
    for (int i = 0; i < 2; ++i) {
        std::set<int> possible = {0, 1, 2};
        if (dice.one_in(4))
            possible.erase(static_cast<int>(dice.whole(0, 2)));
        else if (!dice.one_in(3))
            possible = {static_cast<int>(dice.whole(0, 2))};
        base.choices.push_back(possible);
    }
    base.conclusions = dice.whole(1, 9);
    for (std::uint32_t c = 0; c < base.conclusions; ++c) {
        const std::uint32_t rules = dice.one_in(8) ? 0 : dice.whole(1, 3);
        for (std::uint32_t r = 0; r < rules; ++r) base.rules.push_back({c, random_expression(dice, base, c, 2)});
    }
    dice.shuffle(base.rules);
    return base;
}

// ---- as lidlift reads it

std::string in_words(const Expression& e) {
    using Kind = Expression::Kind;
    const std::string n = std::to_string(e.index);
    const auto parts = [&](const std::string& between) {
        std::string text;
        for (const Expression& part : e.parts) text += (text.empty() ? "" : between) + "(" + in_words(part) + ")";
        return text;
    };
    switch (e.kind) {
        case Kind::always:
            return "always";
        case Kind::sign:
            return "s" + n;
        case Kind::choice: {
            if (e.answers.size() == 1) return "q" + n + " is a" + std::to_string(e.answers[0]);
            return "q" + n + " is any of (a" + std::to_string(e.answers[0]) + ", a" + std::to_string(e.answers[1]) + ")";
        }
        case Kind::conclusion:
            return "c" + n;
        case Kind::negation:
            return "not (" + in_words(e.parts[0]) + ")";
        case Kind::conjunction:
            return parts(" and ");
        case Kind::disjunction:
            return parts(" or ");
        case Kind::quorum:
            return "at least " + std::to_string(e.wanted) + " of (" + parts(", ") + ")";
        case Kind::sign_known:
            return "s" + n + " is known";
        case Kind::conclusion_known:
            return "c" + n + " is known";
    }
    return "";
}

Conclusions solved_by_lidlift(const RandomBase& random, RuleBase& base) {
    Rules rules;
    for (std::size_t i = 0; i < random.signs.size(); ++i) rules.sign("s" + std::to_string(i));
    for (std::size_t i = 0; i < random.choices.size(); ++i)
        rules.sign("q" + std::to_string(i), "answers: {a0: {means: a}, a1: {means: b}, a2: {means: c}}");
    for (std::uint32_t c = 0; c < random.conclusions; ++c) rules.conclusion("c" + std::to_string(c));
    int number = 0;
    for (const RandomRule& rule : random.rules)
        rules.rule("r" + std::to_string(number++), in_words(rule.when), "c" + std::to_string(rule.then));
    base = rules.base();
    std::vector<std::string> words;
    for (std::size_t i = 0; i < random.signs.size(); ++i)
        if (random.signs[i] != 0) words.push_back("s" + std::to_string(i) + (random.signs[i] > 0 ? "=yes" : "=no"));
    for (std::size_t i = 0; i < random.choices.size(); ++i) {
        const std::set<int>& possible = random.choices[i];
        if (possible.size() == 1) words.push_back("q" + std::to_string(i) + "=a" + std::to_string(*possible.begin()));
        for (int a = 0; possible.size() == 2 && a < 3; ++a)
            if (possible.count(a) == 0) words.push_back("q" + std::to_string(i) + "=not a" + std::to_string(a));
    }
    return chain(base, facts_in(base, words));
}

// ---- as clingo reads it

/// What stands behind "ct" and "cf": conclusion c of a rule base surely holds, or surely does not.
std::string conclusion_name(int base, std::uint32_t conclusion) {
    return std::to_string(base) + "_" + std::to_string(conclusion);
}

/// Writes rules for tN and fN of every part N of a condition; every part of every rule base has a number of its own. Names
/// without arguments, because clingo orders its work by the names.
class Program {
public:
    void add(int base, const RandomBase& random) {
        std::vector<std::vector<int>> bodies(random.conclusions);
        for (const RandomRule& rule : random.rules) bodies[rule.then].push_back(part(base, random, rule.when));
        for (std::uint32_t c = 0; c < random.conclusions; ++c) {
            const std::string name = conclusion_name(base, c);
            std::string all_false;
            for (const int body : bodies[c]) {
                text_ << "ct" << name << ":-" << t(body) << ".\n";
                all_false += (all_false.empty() ? "" : ",") + f(body);
            }
            if (!bodies[c].empty()) text_ << "cf" << name << ":-" << all_false << ".\n";
        }
    }
    [[nodiscard]] std::string text() const { return text_.str(); }

private:
    static std::string t(int part) { return "t" + std::to_string(part); }
    static std::string f(int part) { return "f" + std::to_string(part); }

    int part(int base, const RandomBase& random, const Expression& e) {
        using Kind = Expression::Kind;
        std::vector<int> parts;
        for (const Expression& child : e.parts) parts.push_back(part(base, random, child));
        const int me = ++parts_;
        const auto rule = [&](const std::string& head, const std::string& body) { text_ << head << ":-" << body << ".\n"; };
        const std::string conclusion = conclusion_name(base, e.index);
        switch (e.kind) {
            case Kind::always:
                text_ << t(me) << ".\n";
                break;
            case Kind::sign:
                if (random.signs[e.index] > 0) text_ << t(me) << ".\n";
                if (random.signs[e.index] < 0) text_ << f(me) << ".\n";
                break;
            case Kind::choice: {
                bool all = true, some = false;
                for (const int possible : random.choices[e.index]) {
                    const bool named = possible == e.answers.front() || possible == e.answers.back();
                    all = all && named;
                    some = some || named;
                }
                if (all) text_ << t(me) << ".\n";
                if (!some) text_ << f(me) << ".\n";
                break;
            }
            case Kind::conclusion:
                rule(t(me), "ct" + conclusion);
                rule(f(me), "cf" + conclusion);
                break;
            case Kind::negation:
                rule(t(me), f(parts[0]));
                rule(f(me), t(parts[0]));
                break;
            case Kind::conjunction:
            case Kind::disjunction: {
                const bool both = e.kind == Kind::conjunction;
                std::string all;
                for (const int child : parts) {
                    all += (all.empty() ? "" : ",") + (both ? t(child) : f(child));
                    rule(both ? f(me) : t(me), both ? f(child) : t(child));
                }
                rule(both ? t(me) : f(me), all);
                break;
            }
            case Kind::quorum: {
                std::string yes, no;
                for (const int child : parts) {
                    const std::string between = yes.empty() ? "" : ";";
                    yes += between + std::to_string(child) + ":" + t(child);
                    no += between + std::to_string(child) + ":" + f(child);
                }
                rule(t(me), "#count{" + yes + "}>=" + std::to_string(e.wanted));
                rule(f(me), "#count{" + no + "}>=" + std::to_string(parts.size() - e.wanted + 1));
                break;
            }
            case Kind::sign_known:
                text_ << (random.signs[e.index] != 0 ? t(me) : f(me)) << ".\n";
                break;
            case Kind::conclusion_known:
                rule(t(me), "ct" + conclusion);
                rule(t(me), "cf" + conclusion);
                rule(f(me), "not ct" + conclusion + ",not cf" + conclusion);
                break;
        }
        return me;
    }

    std::ostringstream text_;
    int parts_ = 0;
};

/// The atoms of the one answer set that speak of conclusions, "ct3_1" and the like.
std::set<std::string> solved_by_clingo(const std::string& program) {
    std::string folder = (std::filesystem::temp_directory_path() / "lidlift_gringo.XXXXXX").string();
    REQUIRE(mkdtemp(folder.data()) != nullptr);
    const std::string file = folder + "/program.lp";
    std::ofstream(file) << program;
    std::FILE* pipe = popen(("timeout 120 clingo --warn=none --verbose=0 --models=0 " + file + " 2>&1").c_str(), "r");
    REQUIRE(pipe != nullptr);
    std::string output;
    std::array<char, 1 << 16> buffer;
    while (const std::size_t count = std::fread(buffer.data(), 1, buffer.size(), pipe)) output.append(buffer.data(), count);
    const int status = pclose(pipe);
    std::filesystem::remove_all(folder);
    if (WEXITSTATUS(status) == 127) FAIL("clingo is missing, which checks the chaining: apt-get install gringo");
    const bool solved = output.find("SATISFIABLE") != std::string::npos && output.find("UNSATISFIABLE") == std::string::npos;
    if (!solved) FAIL("clingo could not solve the program: " << output.substr(0, 500));
    std::set<std::string> atoms;
    std::istringstream lines(output);
    int models = 0;
    for (std::string line; std::getline(lines, line);) {
        if (line == "SATISFIABLE") break;
        ++models;
        std::istringstream words(line);
        for (std::string atom; words >> atom;)
            if (atom.front() == 'c') atoms.insert(atom);
    }
    // Rule bases without circles have exactly one.
    REQUIRE(models == 1);
    return atoms;
}

}  // namespace

TEST_CASE("chaining agrees with a logic solver on 1,500 random rule bases", "[chaining][gringo]") {
    Dice dice(20261120);
    std::vector<RandomBase> bases;
    std::set<std::string> atoms;
    while (bases.size() < rule_bases) {
        Program program;
        for (int i = 0; i < in_one_run; ++i) {
            bases.push_back(random_base(dice));
            program.add(static_cast<int>(bases.size()) - 1, bases.back());
        }
        atoms.merge(solved_by_clingo(program.text()));
    }

    std::array<int, 3> seen{};
    std::string first_difference;
    for (int i = 0; i < rule_bases; ++i) {
        RuleBase base;
        const Conclusions conclusions = solved_by_lidlift(bases[static_cast<std::size_t>(i)], base);
        for (std::uint32_t c = 0; c < base.conclusions.size(); ++c) {
            const std::string name = conclusion_name(i, c);
            const bool yes = atoms.count("ct" + name) == 1;
            const bool no = atoms.count("cf" + name) == 1;
            REQUIRE_FALSE((yes && no));
            const Truth expected = yes ? Truth::yes : no ? Truth::no : Truth::unknown;
            ++seen[static_cast<std::size_t>(static_cast<int>(expected) + 1)];
            const Truth found = conclusions.truth[base.conclusions.find("c" + std::to_string(c)).value().index];
            if (found != expected && first_difference.empty()) {
                first_difference = "rule base " + std::to_string(i) + ", conclusion c" + std::to_string(c) + ":\n";
                for (const RandomRule& rule : bases[static_cast<std::size_t>(i)].rules)
                    first_difference += "c" + std::to_string(rule.then) + " when " + in_words(rule.when) + "\n";
            }
        }
    }
    CHECK(first_difference == "");
    // Each of the three values occurs often enough to mean something.
    for (const int count : seen) CHECK(count > 500);
}

}  // namespace engine_chaining_against_gringo_test
