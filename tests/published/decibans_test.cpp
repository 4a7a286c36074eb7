// Weight of evidence in decibans: Turing's unit and the wartime rules of thumb.
// Status of a figure: read (in the source named), memory (source not at hand), computed (our arithmetic from the stated
// inputs).
#include "engine/weighing.hpp"
#include "engine/words.hpp"
#include "tests/catch.hpp"
#include "tests/engine/evidence_models.hpp"
#include "tests/near.hpp"

#include <cmath>
#include <utility>
#include <vector>

namespace published_decibans_test {

using namespace lidlift;
using namespace lidlift::test;

namespace {

double odds_on(double chance) { return chance / (1 - chance); }

}  // namespace

// Turing's own example; read: chance of the hypothesis 1/5, of the event 2/3 with it and 1/4 without it: factor 8/3, odds 2/3
// afterwards, about 4.26 dB.
TEST_CASE("Turing: a factor of eight thirds", "[published]") {
    const EvidenceModel model = one_test(1.0 / 5, 2.0 / 3, 1.0 / 4);
    CHECK(std::pow(10.0, weight_of(model, yes) / 10) == near(8.0 / 3, 1e-9));  // read
    CHECK(odds_on(chance_after(model, yes)) == near(2.0 / 3, 1e-9));           // read
    CHECK(weight_of(model, yes) == near(4.26, 0.005));                         // read

    CHECK(chance_after(model, yes) == near(0.400000, 1e-6));  // computed
    CHECK(weight_of(model, yes) == near(4.259687, 1e-6));     // computed
}

// One ban is a factor of ten on the odds, ten decibans; read.
TEST_CASE("one ban is ten decibans", "[published]") {
    CHECK(odds_on(probability(10)) == near(10, 1e-9));
    CHECK(decibans(10.0 / 11) == near(10, 1e-9));
    CHECK(weight_of(one_test(0.3, 0.5, 0.05), yes) == near(10, 1e-9));
}

// A wartime codebreaking report, codesandciphers.org.uk, page WFAX7103; read.
TEST_CASE("wartime report: 13, 4 and 2 decibans up", "[published]") {
    CHECK(odds_on(probability(13)) == near(20, 0.1));       // read: about 20 to 1 on
    CHECK(odds_on(probability(4)) == near(5.0 / 2, 0.05));  // read: about 5 to 2 on
    CHECK(probability(2) == near(8.0 / 13, 0.005));         // read: about 8/13 = .615

    CHECK(odds_on(probability(13)) == near(19.95, 0.005));  // exact, computed
    CHECK(odds_on(probability(4)) == near(2.512, 0.0005));  // exact, computed
    CHECK(probability(2) == near(0.613137, 1e-6));          // exact, computed
}

// Computed: chance after so many decibans from even odds.
TEST_CASE("decibans from even odds", "[published]") {
    const std::vector<std::pair<double, double>> table = {
        {3, 0.666139}, {7, 0.833662}, {10, 0.909091}, {15, 0.969347}, {20, 0.990099}};
    for (const auto& [db, chance] : table) {
        CAPTURE(db);
        CHECK(probability(db) == near(chance, 1e-6));
        CHECK(probability(-db) == near(1 - chance, 1e-6));
        CHECK(decibans(probability(db)) == near(db, 1e-9));

        Situation shifted;
        shifted.prior_shift = {db};
        CHECK(weigh(model_of({0.5}, {}), shifted).chance[0] == near(chance, 1e-6));
    }
}

}  // namespace published_decibans_test
