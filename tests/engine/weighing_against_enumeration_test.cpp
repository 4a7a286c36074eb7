// The weighing against the slow second implementation, on random small models (the method's acceptance test 5).
//
// A feature with more than two values is defined so, in both: values that at least one cause of the set links to get the
// noisy-OR of their links; values that no cause of the set links to share what those leave of 1, but at least 0.01, in
// proportion to their backgrounds; then all are divided by their sum.
#include "engine/weighing.hpp"
#include "tests/catch.hpp"
#include "tests/engine/evidence_models.hpp"
#include "tests/engine/random_models.hpp"
#include "tests/engine/weighing_oracle.hpp"
#include "tests/near.hpp"

#include <algorithm>
#include <array>
#include <cstdint>
#include <map>
#include <string>
#include <vector>

namespace engine_weighing_against_enumeration_test {

using namespace lidlift;
using namespace lidlift::test;

namespace {

/// How many of the random models hold each thing, so that none of them can silently drop out of the comparison.
class Coverage {
public:
    void count(const EvidenceModel& model, const Situation& situation, const oracle::Posterior& posterior) {
        const auto feature_of = [&](const Finding& finding) -> const Feature& { return model.features[finding.feature]; };
        const auto& findings = situation.findings;
        add("several values", std::ranges::any_of(findings, [&](auto& f) { return feature_of(f).background.size() > 2; }));
        add("plain", std::ranges::any_of(findings, [&](auto& f) { return feature_of(f).background.size() == 2; }));
        add("unsure", std::ranges::any_of(findings, [](auto& f) { return f.error > 0; }));
        add("grouped", std::ranges::count_if(findings, [&](auto& f) { return feature_of(f).group == 0; }) > 1);
        add("never together", !model.never_together.empty());
        add("alone", !model.alone.empty());
        add("shifted", !situation.prior_shift.empty());
        add("ruled out", std::ranges::find(situation.ruled_out, true) != situation.ruled_out.end());
        add("certain", std::ranges::find(situation.certain, true) != situation.certain.end());
        add("shrunk", model.shrink != 1);
        add("unclamped", model.lowest == 0);
        add("ten causes", model.prior.size() == 10);
        add("no set allowed", posterior.sets.empty());
    }
    void check() const {
        for (const auto& [what, models] : counts_) {
            CAPTURE(what);
            CHECK(models >= 20);
        }
    }

private:
    void add(const std::string& what, bool present) { counts_[what] += present; }
    std::map<std::string, int> counts_;
};

void check_against_enumeration(const EvidenceModel& model, const Situation& situation, const oracle::Posterior& expected) {
    const Weighed weighed = weigh(model, situation);
    REQUIRE(weighed.sets.size() == expected.sets.size());
    REQUIRE(weighed.chance.size() == expected.chance.size());
    Worst score;
    Worst chance;
    for (const CauseSet& set : weighed.sets) {
        const auto same = expected.sets.find(bits(set));
        REQUIRE(same != expected.sets.end());
        score.add(set.score, same->second.score);
        chance.add(set.chance, same->second.chance);
    }
    for (std::size_t cause = 0; cause < expected.chance.size(); ++cause)
        chance.add(weighed.chance[cause], expected.chance[cause]);
    chance.add(weighed.nothing_listed, expected.nothing_listed);
    CHECK(score.value() < 1e-9);
    CHECK(chance.value() < 1e-9);
}

void check_many(std::uint64_t seed, int models, bool all_subsets) {
    Dice dice(seed);
    Coverage coverage;
    for (int i = 0; i < models; ++i) {
        CAPTURE(seed, i);
        EvidenceModel model = random_model(dice);
        model.largest_set = all_subsets ? static_cast<int>(model.prior.size()) : 3;
        const Situation situation = random_situation(dice, model);
        const oracle::Posterior expected = oracle::enumerate(model, situation);
        coverage.count(model, situation, expected);
        check_against_enumeration(model, situation, expected);
    }
    coverage.check();
}

}  // namespace

TEST_CASE("as many causes at once as there are: equal to the enumeration of all subsets", "[weighing][enumeration]") {
    check_many(20240501, 2000, true);
}

TEST_CASE("at most three causes at once: equal to the enumeration of all small subsets", "[weighing][enumeration]") {
    check_many(20240502, 2000, false);
}

TEST_CASE("chance of a report, prediction and balance lines: equal to the enumeration", "[weighing][enumeration]") {
    Dice dice(20240503);
    const Extras few{.most_causes = 5};
    for (int i = 0; i < 300; ++i) {
        CAPTURE(i);
        const EvidenceModel model = random_model(dice, few);
        const double error = dice.of(std::array{0.0, 0.1});
        const Weighed weighed = weigh(model, {});
        Worst chance;
        Worst prediction;
        Worst line;
        for (std::uint32_t feature = 0; feature < model.features.size(); ++feature) {
            const std::size_t count = model.features[feature].background.size();
            std::vector<double> expected(count, 0);
            for (const CauseSet& set : weighed.sets) {
                for (AnswerSet values = 1; values <= all_answers(count); ++values) {
                    const double report = oracle::chance_of_report(model, {feature, values, error}, bits(set));
                    chance.add(chance_of(model, feature, values, set.causes(), error), report);
                }
                for (std::size_t value = 0; value < count; ++value)
                    expected[value] +=
                        set.chance * oracle::chance_of_report(model, {feature, answer_set(value), error}, bits(set));
            }
            const std::vector<double> seen = predicted(model, weighed, feature, error);
            REQUIRE(seen.size() == count);
            for (std::size_t value = 0; value < count; ++value) prediction.add(seen[value], expected[value]);

            const Situation one_finding = found({{feature, random_values(dice, model.features[feature]), error}});
            for (std::uint32_t cause = 0; cause < model.prior.size(); ++cause) {
                const double prior = oracle::score(model, {}, oracle::Subset{1} << cause);
                const double weight = oracle::score(model, one_finding, oracle::Subset{1} << cause) - prior;
                line.add(balance_of(model, one_finding, cause).lines.at(0), weight);
            }
        }
        CHECK(chance.value() < 1e-12);
        CHECK(prediction.value() < 1e-12);
        CHECK(line.value() < 1e-9);
    }
}

}  // namespace engine_weighing_against_enumeration_test
