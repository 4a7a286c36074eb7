// Small random rule bases with signs, conclusions, causes and steps, the same on every machine for the same seed, and every way
// to answer them.
#pragma once

#include "tests/engine/random_models.hpp"
#include "tests/engine/short_rules.hpp"

#include <array>
#include <string>
#include <vector>

namespace lidlift::test {

struct RandomBase {
    bool conclusions = true;
    std::uint32_t causes = 3;
};

inline std::string random_strength(Dice& dice) {
    static const std::array seen = {"almost never", "sometimes", "about half the time", "usually", "almost always"};
    if (dice.one_in(3)) return std::array{"points: slightly against", "points: strongly against"}[dice.whole(0, 1)];
    return std::string("seen: ") + seen[dice.whole(0, 4)];
}

inline std::string random_background(Dice& dice) {
    return std::array{"practically never", "almost never", "sometimes", "about half the time"}[dice.whole(0, 3)];
}

/// Two yes/no signs a and b, one with three answers q, perhaps a conclusion k of them, and a circumstance sign s; causes c0, c1
/// ... with links, circumstances and vetoes, each with a step.
inline RuleBase random_base(Dice& dice, const RandomBase& wanted = {}) {
    Rules rules;
    const auto group = [&] { return dice.one_in(3) ? std::string(", same observation: g") : std::string(); };
    rules.sign("a", "seen anyway: " + random_background(dice) + group());
    rules.sign("b", "seen anyway: " + random_background(dice) + group());
    rules.sign("q",
               "answers: {q0: {means: q0, seen anyway: the rest}, q1: {means: q1, seen anyway: almost never}, "
               "q2: {means: q2, seen anyway: sometimes}}" +
                   group());
    rules.sign("s");
    const bool concluded = wanted.conclusions && dice.one_in(2);
    if (concluded) {
        rules.conclusion("k", "seen anyway: " + random_background(dice) + group());
        rules.rule("r", std::array{"a and q is q1", "b or q is q2", "not a", "at least 2 of (a, b, q is q0)"}[dice.whole(0, 3)],
                   "k");
    }
    for (std::uint32_t i = 0; i < wanted.causes; ++i) {
        const std::string id = "c" + std::to_string(i);
        std::string links;
        const auto link = [&](const std::string& when) {
            links += (links.empty() ? "" : ", ") + ("{when: " + when + ", " + random_strength(dice) + "}");
        };
        if (dice.one_in(2)) link("a");
        if (dice.one_in(2)) link(dice.one_in(4) ? "b is no" : "b");
        if (dice.one_in(2) || links.empty()) link("q is q" + std::to_string(dice.whole(1, 2)));
        if (concluded && dice.one_in(2)) link("k");
        std::string more = "how common: " + std::string(std::array{"common", "uncommon", "rare"}[dice.whole(0, 2)]);
        more += ", signs: [" + links + "], steps: [t" + std::to_string(i) + "]";
        if (dice.one_in(3))
            more += ", made likelier by: [{when: " + std::string(dice.one_in(2) ? "s" : "s is no") + ", points: moderately}]";
        if (dice.one_in(6)) more += ", cannot be when: s";
        if (dice.one_in(8) && i > 0) more += ", alone: yes";
        if (dice.one_in(5) && i > 0) more += ", brings about: [c0]";
        rules.cause(id, more);
        rules.step("t" + std::to_string(i),
                   "if wrong: " + std::string(std::array{"harmless", "costly", "drastic"}[dice.whole(0, 2)]));
    }
    if (dice.one_in(2)) rules.weighing("expected causes: 0.1, wrong when sure: 2 %, largest set: 3");
    return rules.base();
}

/// Everything that can be told, each sign answered or not; written anew, without the review's own search.
inline std::vector<Facts> all_facts(const RuleBase& base) {
    std::vector<Facts> result(1);
    for (std::uint32_t i = 0; i < base.signs.size(); ++i) {
        std::vector<Facts> longer;
        for (const Facts& facts : result) {
            longer.push_back(facts);
            for (std::size_t answer = 0; answer < base.signs[Handle<Sign>{i}].answers.size(); ++answer) {
                Observation seen;
                seen.possible = answer_set(answer);
                longer.push_back(facts);
                longer.back().set({i}, seen);
            }
        }
        result = std::move(longer);
    }
    return result;
}

}  // namespace lidlift::test
