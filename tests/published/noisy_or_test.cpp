// Several causes of one finding: published noisy-OR tables, and networks in which one cause explains the finding away from
// another. Status of a figure: read (in the source named), memory (source not at hand), computed (our arithmetic from the
// stated inputs).
#include "engine/weighing.hpp"
#include "tests/catch.hpp"
#include "tests/engine/evidence_models.hpp"
#include "tests/near.hpp"

#include <cstdint>
#include <utility>
#include <vector>

namespace published_noisy_or_test {

using namespace lidlift;
using namespace lidlift::test;

// Russell & Norvig, "Artificial Intelligence: A Modern Approach", fever from cold, flu and malaria; read. What keeps each from
// showing: .6, .2, .1; no leak. The model wants a background above 0, so the leak here is one in a million million.
TEST_CASE("Russell and Norvig: fever", "[published]") {
    constexpr std::uint16_t cold = 0;
    constexpr std::uint16_t flu = 1;
    constexpr std::uint16_t malaria = 2;
    const EvidenceModel model =
        unclamped({0.1, 0.1, 0.1}, {sign(1e-12, {{cold, 1 - 0.6}, {flu, 1 - 0.2}, {malaria, 1 - 0.1}})});
    const std::vector<std::pair<std::vector<std::uint16_t>, double>> table = {
        {{}, 0},       {{malaria}, 0.9},        {{flu}, 0.8},        {{flu, malaria}, 0.98},
        {{cold}, 0.4}, {{cold, malaria}, 0.94}, {{cold, flu}, 0.88}, {{cold, flu, malaria}, 0.988}};
    for (const auto& [set, chance] : table) {
        CAPTURE(set);
        CHECK(chance_of(model, 0, yes, set) == near(chance, 1e-9));
        CHECK(chance_of(model, 0, no, set) == near(1 - chance, 1e-9));
    }
}

// Documentation page of a general Bayesian-network library; read. Leak .1, .8 and .6 besides the leak; our links include it.
TEST_CASE("leaky noisy-OR of two causes", "[published]") {
    const double first = 1 - (1 - 0.1) * (1 - 0.8);
    const double second = 1 - (1 - 0.1) * (1 - 0.6);
    const EvidenceModel model = unclamped({0.1, 0.1}, {sign(0.1, {{0, first}, {1, second}})});
    using Set = std::vector<std::uint16_t>;
    CHECK(chance_of(model, 0, yes, Set{}) == near(0.1, 1e-9));
    CHECK(chance_of(model, 0, yes, Set{1}) == near(0.64, 1e-9));
    CHECK(chance_of(model, 0, yes, Set{0}) == near(0.82, 1e-9));
    CHECK(chance_of(model, 0, yes, Set{0, 1}) == near(0.928, 1e-9));
}

// MacKay, "Information Theory, Inference and Learning Algorithms" (2003), chapter 21. Earthquake .001, triggers .99 and .01,
// false alarm .001: read; burglar .001: memory. Posteriors: computed; the book's rounded .4993, .0055, .4947, .0005 and .08:
// memory.
TEST_CASE("MacKay: burglar, earthquake and alarm", "[published]") {
    constexpr std::uint32_t burglar = 0;
    constexpr std::uint32_t earthquake = 1;
    const double by_burglar = 1 - (1 - 0.001) * (1 - 0.99);
    const double by_earthquake = 1 - (1 - 0.001) * (1 - 0.01);
    EvidenceModel model = unclamped({0.001, 0.001}, {sign(0.001, {{burglar, by_burglar}, {earthquake, by_earthquake}})});
    model.largest_set = 2;
    CHECK(predicted(model, weigh(model, {}), 0)[0] == near(0.00199899, 1e-8));  // computed

    Situation alarm = found({{0, yes, 0}});
    const Weighed weighed = weigh(model, alarm);
    CHECK(weighed.nothing_listed == near(0.499253, 1e-6));                          // computed
    CHECK(the_set(weighed, {earthquake}).chance == near(0.005492, 1e-6));           // computed
    CHECK(the_set(weighed, {burglar}).chance == near(0.494760, 1e-6));              // computed
    CHECK(the_set(weighed, {burglar, earthquake}).chance == near(0.000495, 1e-6));  // computed
    CHECK(weighed.chance[burglar] == near(0.495255, 1e-6));                         // computed

    CHECK(weighed.nothing_listed == near(0.4993, 5e-5));                          // memory
    CHECK(the_set(weighed, {earthquake}).chance == near(0.0055, 5e-5));           // memory
    CHECK(the_set(weighed, {burglar}).chance == near(0.4947, 7e-5));              // memory
    CHECK(the_set(weighed, {burglar, earthquake}).chance == near(0.0005, 5e-5));  // memory

    alarm.certain = {false, true};
    CHECK(weigh(model, alarm).chance[burglar] == near(0.082723, 1e-6));  // computed
    CHECK(weigh(model, alarm).chance[burglar] == near(0.08, 0.005));     // memory
}

// The classic burglary network. P(J|B) = .849017 and P(M|B) = .6586138: read, in an archived class page that copies the table;
// P(B|j,m) = .284172: computed; the textbook's .284: memory. Its middle layer is weighed first: the alarm as a cause of the two
// calls, with the chance that it has with and without a burglary; then the burglary as a cause of "both called".
TEST_CASE("Russell and Norvig: the burglary network", "[published]") {
    const double earthquake = 0.002;
    const auto calls = [](double alarm) { return unclamped({alarm}, {sign(0.05, {{0, 0.90}}), sign(0.01, {{0, 0.70}})}); };
    const EvidenceModel with_burglary = calls(earthquake * 0.95 + (1 - earthquake) * 0.94);
    const EvidenceModel without_burglary = calls(earthquake * 0.29 + (1 - earthquake) * 0.001);

    CHECK(predicted(with_burglary, weigh(with_burglary, {}), 0)[0] == near(0.849017, 1e-6));   // read
    CHECK(predicted(with_burglary, weigh(with_burglary, {}), 1)[0] == near(0.6586138, 1e-7));  // read

    const auto both_call = [](const EvidenceModel& model) {
        const double john = predicted(model, weigh(model, {}), 0)[0];
        const double mary_after_john = predicted(model, weigh(model, found({{0, yes, 0}})), 1)[0];
        return john * mary_after_john;
    };
    const EvidenceModel burglary = one_test(0.001, both_call(with_burglary), both_call(without_burglary));
    CHECK(chance_after(burglary, yes) == near(0.284172, 1e-6));  // computed
    CHECK(chance_after(burglary, yes) == near(0.284, 0.0005));   // memory
}

// Fenton, Queen Mary University of London: strike .1, oversleeping .4; late with both .8, oversleeping only .5, strike only .6,
// neither .5: read. Norman late .8 with a strike and .1 without: memory. Strike .13 and oversleeping .41 after "late", .54 and
// .44 after "Norman late too": read; six digits: computed. The table is no noisy-OR, so its states stand as three causes of
// which one at most is there.
TEST_CASE("Fenton: late for work, a table that is no noisy-OR", "[published]") {
    constexpr std::uint32_t strike_only = 0;
    constexpr std::uint32_t overslept_only = 1;
    constexpr std::uint32_t both = 2;
    const double neither = 0.9 * 0.6;
    const auto prior = [&](double chance) { return chance / (chance + neither); };
    EvidenceModel model = unclamped({prior(0.1 * 0.6), prior(0.9 * 0.4), prior(0.1 * 0.4)},
                                    {sign(0.5, {{strike_only, 0.6}, {overslept_only, 0.5}, {both, 0.8}}),
                                     sign(0.1, {{strike_only, 0.8}, {overslept_only, 0.1}, {both, 0.8}})});
    model.largest_set = 1;
    const auto strike = [](const Weighed& weighed) { return weighed.chance[strike_only] + weighed.chance[both]; };
    const auto overslept = [](const Weighed& weighed) { return weighed.chance[overslept_only] + weighed.chance[both]; };

    const Weighed before = weigh(model, {});
    CHECK(strike(before) == near(0.1, 1e-9));
    CHECK(overslept(before) == near(0.4, 1e-9));

    const Weighed late = weigh(model, found({{0, yes, 0}}));
    CHECK(strike(late) == near(0.13, 0.005));        // read
    CHECK(overslept(late) == near(0.41, 0.005));     // read
    CHECK(strike(late) == near(0.131274, 1e-6));     // computed
    CHECK(overslept(late) == near(0.409266, 1e-6));  // computed

    const Weighed norman_too = weigh(model, found({{0, yes, 0}, {1, yes, 0}}));
    CHECK(strike(norman_too) == near(0.54, 0.01));         // read
    CHECK(overslept(norman_too) == near(0.44, 0.005));     // read
    CHECK(strike(norman_too) == near(0.547284, 1e-6));     // computed
    CHECK(overslept(norman_too) == near(0.438632, 1e-6));  // computed
}

}  // namespace published_noisy_or_test
