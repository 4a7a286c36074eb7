// What must hold of the weighing whatever the model: lines add up, order and detours leave no trace, support never hurts, a
// question's worth is the entropy it is expected to take away. On random models (the method's acceptance tests 4 and 6 to 10).
#include "engine/weighing.hpp"
#include "engine/words.hpp"
#include "tests/catch.hpp"
#include "tests/engine/evidence_models.hpp"
#include "tests/engine/random_models.hpp"
#include "tests/engine/weighing_oracle.hpp"
#include "tests/near.hpp"

#include <algorithm>
#include <array>
#include <cmath>
#include <numeric>
#include <vector>

namespace engine_weighing_laws_test {

using namespace lidlift;
using namespace lidlift::test;

namespace {

/// Equal to the last bit.
bool identical(const Weighed& a, const Weighed& b) {
    const auto same_set = [](const CauseSet& x, const CauseSet& y) {
        return bits(x) == bits(y) && x.score == y.score && x.chance == y.chance;
    };
    return std::ranges::equal(a.sets, b.sets, same_set) && a.chance == b.chance && a.nothing_listed == b.nothing_listed;
}

/// The line "shared with other causes" from the scores of all sets: what the sets with the cause gain over the cause alone,
/// less what the sets without it gain over the empty set.
double shared_line(const oracle::Posterior& posterior, double cause_alone, std::uint32_t cause) {
    double with = 0;
    double without = 0;
    for (const auto& [set, scored] : posterior.sets) {
        if (oracle::has(set, cause))
            with += std::pow(10.0, (scored.score - cause_alone) / 10);
        else
            without += std::pow(10.0, scored.score / 10);
    }
    return 10 * std::log10(with / without);
}

}  // namespace

TEST_CASE("the lines of a balance and the shared line add up to the total", "[weighing][laws]") {
    Dice dice(4);
    const Extras few{.most_causes = 6};
    int balances = 0;
    for (int i = 0; i < 1000; ++i) {
        const EvidenceModel model = random_model(dice, few);
        Situation situation;
        situation.findings = random_findings(dice, model);
        const Weighed weighed = weigh(model, situation);
        const oracle::Posterior posterior = oracle::enumerate(model, situation);
        Worst difference;
        for (std::uint32_t cause = 0; cause < model.prior.size(); ++cause) {
            // So near to certain, 1 - P itself no longer has nine digits.
            if (weighed.chance[cause] > 1 - 1e-5) continue;
            const Balance balance = balance_of(model, situation, cause);
            const double lines = std::accumulate(balance.lines.begin(), balance.lines.end(), balance.prior);
            const double shared = shared_line(posterior, the_set(weighed, {cause}).score, cause);
            difference.add(lines + shared, decibans(weighed.chance[cause]));
            difference.add(lines, balance.sum());
            ++balances;
        }
        CAPTURE(i);
        CHECK(difference.value() < 1e-9);
    }
    CHECK(balances > 1000);
}

TEST_CASE("one cause at a time is Bayes's rule over the single causes and none of them", "[weighing][laws]") {
    Dice dice(6);
    for (int i = 0; i < 300; ++i) {
        CAPTURE(i);
        const std::uint32_t causes = dice.whole(1, 8);
        const std::uint32_t signs = dice.whole(1, 6);
        std::vector<double> hypothesis(causes + 1, 1.0);  // the last: none of them
        EvidenceModel model;
        model.largest_set = 1;
        for (std::uint32_t cause = 0; cause < causes; ++cause) {
            model.prior.push_back(dice.between(0.01, 0.5));
            hypothesis[cause] = model.prior[cause] / (1 - model.prior[cause]);
        }
        Situation situation;
        for (std::uint32_t s = 0; s < signs; ++s) {
            const double background = dice.between(0.01, 0.9);
            const bool present = dice.one_in(2);
            std::vector<Shows> links;
            for (std::uint32_t h = 0; h <= causes; ++h) {
                double chance = background;
                if (h < causes && dice.one_in(2)) links.push_back({h, chance = dice.between(0.01, 0.985)});
                hypothesis[h] *= present ? chance : 1 - chance;
            }
            model.features.push_back(sign(background, links));
            situation.findings.push_back({s, present ? yes : no, 0});
        }
        const double sum = std::accumulate(hypothesis.begin(), hypothesis.end(), 0.0);
        const Weighed weighed = weigh(model, situation);
        for (std::uint32_t cause = 0; cause < causes; ++cause)
            CHECK(weighed.chance[cause] == near(hypothesis[cause] / sum, 1e-12));
        CHECK(weighed.nothing_listed == near(hypothesis[causes] / sum, 1e-12));
    }
}

TEST_CASE("the order of findings does not show, not even in the last bit", "[weighing][laws]") {
    Dice dice(7);
    int shuffled = 0;
    for (int i = 0; i < 300; ++i) {
        CAPTURE(i);
        EvidenceModel model = random_model(dice, {.most_causes = 6});
        model.features.push_back(model.features.front());  // two of a group with exactly the same weight
        Situation situation = random_situation(dice, model);
        const Weighed first = weigh(model, situation);
        const Balance balance = balance_of(model, situation, 0);
        Situation other = situation;
        dice.shuffle(other.findings);
        CHECK(identical(weigh(model, other), first));
        const Balance other_balance = balance_of(model, other, 0);
        for (std::size_t line = 0; line < situation.findings.size(); ++line) {
            const auto moved = std::ranges::find(other.findings, situation.findings[line].feature, &Finding::feature);
            const auto to = static_cast<std::size_t>(moved - other.findings.begin());
            CHECK(other_balance.lines[to] == balance.lines[line]);
            CHECK(other_balance.discounted[to] == balance.discounted[line]);
            shuffled += to != line;
        }
    }
    CHECK(shuffled > 300);
}

TEST_CASE("an answer taken back leaves no trace", "[weighing][laws]") {
    Dice dice(8);
    int changed = 0;
    for (int i = 0; i < 300; ++i) {
        CAPTURE(i);
        const EvidenceModel model = random_model(dice, {.most_causes = 6, .apart = false});
        Situation situation;
        situation.findings = random_findings(dice, model);
        if (situation.findings.empty()) continue;
        const Finding last = situation.findings.back();
        situation.findings.pop_back();
        const Weighed before = weigh(model, situation);
        situation.findings.push_back(last);
        changed += !identical(weigh(model, situation), before);
        situation.findings.pop_back();
        CHECK(identical(weigh(model, situation), before));
    }
    CHECK(changed > 100);
}

TEST_CASE("looking ahead with some of the sets: their chances as if no other were allowed", "[weighing][laws]") {
    Dice dice(12);
    int with_some = 0;
    int without_any = 0;
    for (int i = 0; i < 300; ++i) {
        CAPTURE(i);
        const EvidenceModel model = random_model(dice, {.most_causes = 6});
        std::vector<CauseSet> sets = weigh(model, {}).sets;
        std::erase_if(sets, [&](const CauseSet&) { return dice.one_in(2); });
        dice.shuffle(sets);
        const Situation ahead = random_situation(dice, model);
        std::vector<double> chances;
        double total = 0;
        for (const double score : scores(model, ahead, sets)) total += chances.emplace_back(std::pow(10.0, score / 10));
        for (double& chance : chances) chance /= total;

        const Weighed all = weigh(model, ahead);
        double sum = 0;
        std::vector<double> expected;
        for (const CauseSet& set : sets) {
            const auto same = std::ranges::find(all.sets, bits(set), bits);
            expected.push_back(same == all.sets.end() ? 0 : same->chance);
            sum += expected.back();
        }
        if (sum == 0) {
            CHECK(total == 0);
            ++without_any;
            continue;
        }
        REQUIRE(chances.size() == sets.size());
        Worst difference;
        for (std::size_t set = 0; set < sets.size(); ++set) difference.add(chances[set], expected[set] / sum);
        CHECK(difference.value() < 1e-9);
        ++with_some;
    }
    CHECK(with_some > 100);
    CHECK(without_any > 20);
}

TEST_CASE("an answer that leaves every value possible says nothing", "[weighing][laws]") {
    Dice dice(88);
    for (int i = 0; i < 300; ++i) {
        CAPTURE(i);
        const EvidenceModel model = random_model(dice, {.most_causes = 6});
        const Weighed before = weigh(model, {});
        Situation everything;
        for (std::uint32_t feature = 0; feature < model.features.size(); ++feature)
            everything.findings.push_back(
                {feature, all_answers(model.features[feature].background.size()), dice.of(std::array{0.0, 0.1})});
        const Weighed after = weigh(model, everything);
        REQUIRE(after.sets.size() == before.sets.size());
        Worst difference;
        for (std::size_t set = 0; set < before.sets.size(); ++set)
            difference.add(after.sets[set].score, before.sets[set].score);
        CHECK(difference.value() < 1e-9);
    }
}

TEST_CASE("a further supporting sign never lowers a cause in its own balance, grouped or not", "[weighing][laws]") {
    Dice dice(9);
    int supporting = 0;
    int discounted = 0;
    for (int i = 0; i < 4000; ++i) {
        CAPTURE(i);
        const EvidenceModel model = random_model(dice, {.most_causes = 1, .most_features = 8, .one_link_in = 1});
        Situation situation;
        situation.findings = random_findings(dice, model);
        if (situation.findings.empty()) continue;
        const Finding further = situation.findings.back();
        if (balance_of(model, found({further}), 0).lines[0] <= 0) continue;
        const Balance with = balance_of(model, situation, 0);
        const double chance_with = weigh(model, situation).chance[0];
        situation.findings.pop_back();
        const double lower = 1e-12;  // rounding
        CHECK(with.sum() >= balance_of(model, situation, 0).sum() - lower);
        CHECK(chance_with >= weigh(model, situation).chance[0] - lower);
        ++supporting;
        discounted += with.discounted.back();
    }
    CHECK(supporting > 200);
    CHECK(discounted > 50);
}

TEST_CASE("the worth of a question is the entropy its answers are expected to take away", "[weighing][laws]") {
    Dice dice(10);
    int plain = 0;
    int several_values = 0;
    for (int i = 0; i < 300; ++i) {
        const EvidenceModel model = random_model(dice, {.most_causes = 6, .groups = false, .shrink = false});
        Situation situation = random_situation(dice, model);
        const auto asked = dice.whole(0, static_cast<std::uint32_t>(model.features.size()) - 1);
        std::erase_if(situation.findings, [&](const Finding& finding) { return finding.feature == asked; });
        const double error = dice.of(std::array{0.0, 0.0, 0.1, 0.25});
        CAPTURE(i, asked, error);

        const Weighed before = weigh(model, situation);
        if (before.sets.empty()) continue;
        const std::vector<double> answers = predicted(model, before, asked, error);
        CHECK(std::accumulate(answers.begin(), answers.end(), 0.0) == near(1, 1e-12));
        double expected_entropy = 0;
        for (std::size_t answer = 0; answer < answers.size(); ++answer) {
            Situation after = situation;
            after.findings.push_back({asked, answer_set(answer), error});
            expected_entropy += answers[answer] * entropy(set_chances(weigh(model, after)));
        }
        const double drop = entropy(set_chances(before)) - expected_entropy;
        CHECK(information(model, before, asked, error) == near(drop, 1e-9));
        if (drop > 1e-3) ++(answers.size() == 2 ? plain : several_values);
    }
    CHECK(plain > 30);
    CHECK(several_values > 30);
}

TEST_CASE("the values of a choice add up to one under every set of causes", "[weighing][laws]") {
    Dice dice(11);
    for (int i = 0; i < 300; ++i) {
        CAPTURE(i);
        const EvidenceModel model = random_model(dice, {.most_causes = 5});
        const Weighed weighed = weigh(model, {});
        Worst difference;
        for (std::uint32_t feature = 0; feature < model.features.size(); ++feature) {
            for (const CauseSet& set : weighed.sets) {
                double sum = 0;
                for (std::size_t value = 0; value < model.features[feature].background.size(); ++value) {
                    const double chance = chance_of(model, feature, answer_set(value), set.causes(), 0.1);
                    if (chance < 0 || chance > 1) FAIL("a chance of " << chance);
                    sum += chance;
                }
                difference.add(sum, 1);
            }
        }
        CHECK(difference.value() < 1e-12);
    }
}

}  // namespace engine_weighing_laws_test
