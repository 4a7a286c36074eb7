// Findings while causes come and go: what a cause would multiply the odds by is what it does when it comes, and whatever comes
// and goes leaves no trace.
#include "engine/findings_in_play.hpp"

#include "engine/weighing.hpp"
#include "tests/catch.hpp"
#include "tests/engine/random_models.hpp"
#include "tests/near.hpp"

#include <algorithm>
#include <cmath>
#include <cstdint>
#include <vector>

namespace engine_findings_in_play_test {

using namespace lidlift;
using namespace lidlift::test;

namespace {

FindingsInPlay in_play(const EvidenceModel& model, const std::vector<NoisyOr>& noisy_ors, const Situation& situation) {
    return {model, noisy_ors, situation.findings};
}

/// In decibans, without the priors.
double evidence(const EvidenceModel& model, const Situation& situation, std::vector<std::uint16_t> causes) {
    CauseSet set;
    std::ranges::sort(causes);
    for (const auto cause : causes) set.members[set.size++] = cause;
    Situation only_found;
    only_found.findings = situation.findings;
    EvidenceModel even = model;
    std::ranges::fill(even.prior, 0.5);
    return scores(even, only_found, std::vector<CauseSet>{set}).front();
}

}  // namespace

TEST_CASE("causes that come multiply the odds as the weighing does, in any order, and go without a trace",
          "[findings_in_play]") {
    Dice dice(20261203);
    Worst worst;
    int together = 0;
    int parts = 0;
    for (int i = 0; i < 400; ++i) {
        const EvidenceModel model = random_model(dice, {});
        const Situation situation = random_situation(dice, model);
        std::vector<NoisyOr> noisy_ors;
        for (const Feature& feature : model.features) noisy_ors.emplace_back(model, feature);
        FindingsInPlay findings = in_play(model, noisy_ors, situation);
        std::vector<std::uint16_t> set;
        double product = 1;
        for (int step = 0; step < 12; ++step) {
            if (!set.empty() && (set.size() == 5 || dice.one_in(3))) {
                findings.take_back(set.back());
                set.pop_back();
                product = std::pow(10.0, evidence(model, situation, set) / 10);
                continue;
            }
            const auto cause = static_cast<std::uint16_t>(dice.whole(0, static_cast<std::uint32_t>(model.prior.size()) - 1));
            if (std::ranges::find(set, cause) != set.end()) continue;
            const double gain = findings.gain(cause);
            worst.add(findings.add(cause), gain);
            product *= gain;
            set.push_back(cause);
            together += set.size() > 1;
            worst.add(10 * std::log10(product), evidence(model, situation, set));
            if (findings.shares_of(cause).empty()) worst.add(gain, 1);
            // Of one matter alone: the same, and again without a trace.
            for (const FindingsInPlay::Share& share : findings.shares_of(cause)) {
                findings.take_back(share);
                const double before = findings.factor(share.matter);
                const double with_it = findings.factor_with(share);
                findings.add(share);
                worst.add(findings.factor(share.matter), with_it);
                parts += with_it != before;
            }
        }
    }
    CHECK(together > 500);
    CHECK(parts > 500);
    CHECK(worst.value() < 1e-9);
}

TEST_CASE("causes without a common matter do not heed each other", "[findings_in_play]") {
    Dice dice(20261204);
    Worst worst;
    int pairs = 0;
    for (int i = 0; i < 400; ++i) {
        const EvidenceModel model = random_model(dice, {.most_features = 4, .one_link_in = 4});
        const Situation situation = random_situation(dice, model);
        std::vector<NoisyOr> noisy_ors;
        for (const Feature& feature : model.features) noisy_ors.emplace_back(model, feature);
        FindingsInPlay findings = in_play(model, noisy_ors, situation);
        for (std::uint32_t a = 0; a < model.prior.size(); ++a)
            for (std::uint32_t b = 0; b < model.prior.size(); ++b) {
                const bool common = std::ranges::any_of(findings.shares_of(a), [&](const FindingsInPlay::Share& share) {
                    return std::ranges::find(findings.shares_of(b), share.matter, &FindingsInPlay::Share::matter) !=
                           findings.shares_of(b).end();
                });
                if (a == b || common || !findings.speak_of(a) || !findings.speak_of(b)) continue;
                const double alone = findings.gain(b);
                findings.add(a);
                worst.add(findings.gain(b), alone);
                findings.take_back(a);
                ++pairs;
            }
    }
    CHECK(pairs > 500);
    CHECK(worst.value() < 1e-12);
}

}  // namespace engine_findings_in_play_test
