// The fast weighing against the enumeration of all sets: random models, and the default rules on the shipped cases.
#include "engine/tied_sets.hpp"

#include "engine/cases.hpp"
#include "engine/ranking.hpp"
#include "engine/rule_base_reader.hpp"
#include "rules/default_cases.hpp"
#include "rules/default_rules.hpp"
#include "tests/catch.hpp"
#include "tests/engine/evidence_models.hpp"
#include "tests/engine/random_models.hpp"
#include "tests/engine/weighing_oracle.hpp"
#include "tests/near.hpp"

#include <algorithm>
#include <cstdint>
#include <functional>
#include <vector>

namespace engine_tied_sets_test {

using namespace lidlift;
using namespace lidlift::test;

namespace {

TiedSets tied_sets(const EvidenceModel& model, const Situation& situation) {
    std::vector<NoisyOr> noisy_ors;
    for (const Feature& feature : model.features) noisy_ors.emplace_back(model, feature);
    return {model, noisy_ors, model.prior, situation};
}

double chance_of_any(const Weighed& weighed, const std::vector<bool>& wanted) {
    double chance = 0;
    for (const CauseSet& set : weighed.sets)
        if (std::ranges::any_of(set.causes(), [&](auto cause) { return wanted[cause]; })) chance += set.chance;
    return chance;
}

/// The sets one by one, those of `fast` first; both from the same chance on.
void check_same_sets(const TiedSets& fast, const Weighed& all, double from) {
    std::vector<CauseSet> expected;
    for (const CauseSet& set : all.sets)
        if (set.chance >= from) expected.push_back(set);
    const std::vector<CauseSet> seen = fast.sets_from(from * (1 - 1e-9));
    Worst chance;
    Worst score;
    std::size_t found = 0;
    for (const CauseSet& set : expected)
        for (const CauseSet& same : seen)
            if (std::ranges::equal(same.causes(), set.causes())) {
                ++found;
                chance.add(same.chance, set.chance);
                score.add(same.score, set.score);
            }
    CHECK(found == expected.size());
    CHECK(seen.size() <= found + 1);  // one may lie on the edge
    CHECK(std::ranges::is_sorted(seen, likelier));
    CHECK(chance.value() < 1e-9);
    CHECK(score.value() < 1e-9);
}

/// As few sets as reach a share, or as many as are wanted; none that is less likely than one that is left out.
void check_likeliest(const TiedSets& fast, const Weighed& all, Dice& dice) {
    const double share = dice.between(0.05, 0.95);
    const auto most = static_cast<std::size_t>(dice.whole(0, 6));
    std::vector<double> chances;
    for (const CauseSet& set : all.sets) chances.push_back(set.chance);
    std::ranges::sort(chances, std::greater{});
    const std::vector<CauseSet> few = fast.likeliest(share, most);
    double before = 0;
    Worst chance;
    for (std::size_t i = 0; i < few.size(); ++i) {
        if (i + 1 < few.size()) before += few[i].chance;
        chance.add(few[i].chance, i < chances.size() ? chances[i] : 2);
    }
    CHECK(chance.value() < 1e-9);
    CHECK(few.size() <= most);
    CHECK((few.empty() || before < share));
    const double sum = few.empty() ? 0 : before + few.back().chance;
    CHECK((few.size() == std::min(most, chances.size()) || sum >= share - 1e-9));
}

void check_same(const TiedSets& fast, const Weighed& all, Dice& dice) {
    REQUIRE(fast.none_possible() == all.sets.empty());
    REQUIRE(fast.chance().size() == all.chance.size());
    Worst chance;
    for (std::size_t cause = 0; cause < all.chance.size(); ++cause) chance.add(fast.chance()[cause], all.chance[cause]);
    chance.add(fast.nothing_listed(), all.nothing_listed);
    CHECK(chance.value() < 1e-9);
    Worst any;
    for (int i = 0; i < 4; ++i) {
        std::vector<bool> wanted(all.chance.size());
        for (std::size_t cause = 0; cause < wanted.size(); ++cause) wanted[cause] = dice.one_in(3);
        any.add(fast.chance_of_any(wanted), chance_of_any(all, wanted));
    }
    CHECK(any.value() < 2 * TiedSets::left_out_share);
    check_same_sets(fast, all, 1e-3);
    check_likeliest(fast, all, dice);
}

/// Sparse models, so that there are bystanders, some of them apart from one another and from tied causes.
void check_models(std::uint64_t seed, const Extras& extras, int largest_set) {
    Dice dice(seed);
    int with_bystanders = 0;
    int with_neighbours = 0;
    for (int i = 0; i < 1500; ++i) {
        CAPTURE(seed, i);
        EvidenceModel model = random_model(dice, extras);
        model.largest_set = largest_set;
        const Situation situation = random_situation(dice, model);
        std::vector<bool> tied(model.prior.size());
        for (const Finding& finding : situation.findings)
            for (const Feature::Link& link : model.features[finding.feature].links) tied[link.cause] = true;
        with_bystanders += std::ranges::count(tied, false) > 1;
        with_neighbours +=
            std::ranges::any_of(model.never_together, [&](const auto& pair) { return tied[pair.first] != tied[pair.second]; });
        const TiedSets fast = tied_sets(model, situation);
        check_same(fast, weigh(model, situation), dice);
        for (std::uint32_t cause = 0; cause < model.prior.size(); ++cause)
            if (situation.ruled_out.empty() || !situation.ruled_out[cause]) {
                const double alone = balance_of(model, situation, cause).sum();
                CHECK(10 * std::log10(fast.odds_alone(cause)) == near(alone, 1e-9));
            }
    }
    CHECK(with_bystanders >= 200);
    CHECK(with_neighbours >= 50);
}

}  // namespace

TEST_CASE("sets of tied causes and their bystanders weigh what all sets weigh", "[tied_sets][enumeration]") {
    for (const int largest : {0, 1, 2, 3, 4, 10}) {
        check_models(20261100 + static_cast<std::uint64_t>(largest), {}, largest);
        check_models(20261200 + static_cast<std::uint64_t>(largest), {.most_features = 3, .one_link_in = 6}, largest);
    }
}

TEST_CASE("default rules, shipped cases: the fast weighing is the enumeration", "[tied_sets][enumeration][default]") {
    const RuleBaseReading reading = read_rule_base(default_rules());
    REQUIRE(reading.complaints.empty());
    const Ranker ranker(reading.rule_base);
    Complaints complaints;
    const auto written = read_cases(default_cases(), complaints);
    CaseResolver resolver(reading.rule_base);
    Dice dice(20261130);
    for (std::size_t i = 0; i < written.size(); i += 12) {
        CAPTURE(written[i].id);
        const Ranker::Case prepared = ranker.prepare(resolver.resolve(written[i], complaints).told.facts);
        check_same(tied_sets(prepared.model, prepared.situation), weigh(prepared.model, prepared.situation), dice);
    }
    CHECK(complaints.empty());
}

TEST_CASE("more causes than are combined: those beyond are weighed alone, as in the enumeration", "[tied_sets][enumeration]") {
    Dice dice(20261131);
    EvidenceModel model;
    for (std::size_t i = 0; i < most_combined + 20; ++i) model.prior.push_back(dice.between(0.001, 0.2));
    for (int f = 0; f < 3; ++f) {
        model.features.push_back({.background = {0.1, 0.9}, .links = {}});
        for (std::uint32_t cause = 0; cause < model.prior.size(); ++cause)
            if (dice.one_in(10)) model.features.back().links.push_back({cause, 0, dice.of(frequencies)});
    }
    const Situation situation = found({{0, 1, 0.02}, {1, 2, 0.1}, {2, 1, 0}});
    model.largest_set = 2;
    check_same(tied_sets(model, situation), weigh(model, situation), dice);
}

TEST_CASE("a hundred answers for one cause do not overflow", "[tied_sets]") {
    EvidenceModel model;
    model.prior = {0.1, 0.2};
    Situation situation;
    for (std::uint32_t f = 0; f < 200; ++f) {
        model.features.push_back({.background = {0.001, 0.999}, .links = {{0, 0, 0.99}}});
        situation.findings.push_back({f, 1, 0});
    }
    const TiedSets fast = tied_sets(model, situation);
    const Weighed all = weigh(model, situation);
    CHECK(fast.chance()[0] == near(all.chance[0], 1e-12));
    CHECK(fast.chance()[1] == near(all.chance[1], 1e-12));
    CHECK(fast.chance_of_any({false, true}) == near(all.chance[1], 1e-12));
}

}  // namespace engine_tied_sets_test
