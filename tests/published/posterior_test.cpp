// The chance of one cause from a test's sensitivity, specificity and the chance before it.
// Status of a figure: read (in the source named), memory (source not at hand), computed (our arithmetic from the stated
// inputs).
#include "engine/weighing.hpp"
#include "engine/words.hpp"
#include "tests/catch.hpp"
#include "tests/engine/evidence_models.hpp"
#include "tests/near.hpp"

#include <array>
#include <cmath>
#include <cstdint>

namespace published_posterior_test {

using namespace lidlift;
using namespace lidlift::test;

namespace {

/// Odds factor of an answer: the likelihood ratio, from the decibans that the engine counts for it.
double ratio(const EvidenceModel& model, AnswerSet answer) { return std::pow(10.0, weight_of(model, answer) / 10); }

/// Odds from decibans.
double odds(double decibans) { return std::pow(10.0, decibans / 10); }

}  // namespace

// Caraguel & Vanderstichel, Evid. Based Med. 18 (2013) 125-128, figure captions; read. Nomogram: Fagan, NEJM 293 (1975) 257.
// Sensitivity .75, specificity .96, prior 2 %: positive about 28 %, negative about 0.6 %, LR+ about 19, LR- about 0.25, read
// off the chart.
TEST_CASE("Fagan nomogram, magnetic resonance example", "[published]") {
    const EvidenceModel model = one_test(0.02, 0.75, 1 - 0.96);
    CHECK(100 * chance_after(model, yes) == near(28, 0.5));  // read
    CHECK(100 * chance_after(model, no) == near(0.6, 0.1));  // read
    CHECK(ratio(model, yes) == near(19, 0.5));               // read
    CHECK(ratio(model, no) == near(0.25, 0.02));             // read

    CHECK(chance_after(model, yes) == near(0.276753, 1e-6));  // computed
    CHECK(chance_after(model, no) == near(0.005287, 1e-6));   // computed
    CHECK(ratio(model, yes) == near(18.75, 1e-6));            // computed
    CHECK(ratio(model, no) == near(0.260417, 1e-6));          // computed
}

// MSD Manual; read. Sensitivity .60, specificity .70, the post-test chance must reach 25 %: LR+ = 2, pre-test chance about .14.
TEST_CASE("Fagan nomogram run backwards", "[published]") {
    CHECK(ratio(one_test(0.5, 0.60, 1 - 0.70), yes) == near(2, 1e-9));  // read
    const double before = probability(decibans(0.25) - weight_of(one_test(0.5, 0.60, 1 - 0.70), yes));
    CHECK(before == near(0.14, 0.005));     // read
    CHECK(before == near(0.142857, 1e-6));  // computed
    CHECK(chance_after(one_test(before, 0.60, 1 - 0.70), yes) == near(0.25, 1e-9));
}

// "Math in Society", section on Bayes; read: 180 of 278 = .647. Incidence 2 %, false negatives 10 %, false positives 1 %.
TEST_CASE("incidence of two in a hundred", "[published]") {
    const EvidenceModel model = one_test(0.02, 0.90, 0.01);
    CHECK(chance_after(model, yes) == near(180.0 / 278, 1e-9));  // read
    CHECK(chance_after(model, yes) == near(0.647482, 1e-6));     // computed
}

// "Math in Society", section on Bayes; read: .0196. Incidence 0.1 %, sensitivity 100 %, false positives 5 %. The model takes
// chances below 1 only.
TEST_CASE("incidence of one in a thousand and a test that misses nothing", "[published]") {
    const EvidenceModel model = one_test(0.001, 1 - 1e-12, 0.05);
    CHECK(chance_after(model, yes) == near(0.0196, 5e-5));    // read
    CHECK(chance_after(model, yes) == near(0.019627, 1e-6));  // computed
}

// "Mammogram Math"; read: about 32 %. 95 % detected, 1 % false positives, prevalence 0.5 %.
TEST_CASE("prevalence of one in two hundred", "[published]") {
    const EvidenceModel model = one_test(0.005, 0.95, 0.01);
    CHECK(100 * chance_after(model, yes) == near(32, 0.5));   // read
    CHECK(chance_after(model, yes) == near(0.323129, 1e-6));  // computed
}

// Diagnosis worksheet of ktclearinghouse.ca, ferritin and iron deficiency: 731 with / 270 without and positive, 78 with / 1500
// without and negative. Read: sensitivity 90 %, specificity 85 %, LR+ 6, LR- .12, positive predictive value 73 %, negative 95
// %, prior 31 %, pre-test odds .45, post-test odds 2.7, post-test chance 73 %. The sheet's LR- comes from rounding first, hence
// its wider tolerance.
TEST_CASE("ferritin and iron deficiency, a two-by-two table", "[published]") {
    const double a = 731;
    const double b = 270;
    const double c = 78;
    const double d = 1500;
    const EvidenceModel model = one_test((a + c) / (a + b + c + d), a / (a + c), b / (b + d));
    const double prior = weigh(model, {}).chance[0];
    CHECK(100 * chance_of(model, 0, yes, std::array<std::uint16_t, 1>{0}) == near(90, 0.5));  // read
    CHECK(100 * chance_of(model, 0, no, {}) == near(85, 0.5));                                // read
    CHECK(ratio(model, yes) == near(6, 0.1));                                                 // read
    CHECK(ratio(model, no) == near(0.12, 0.01));                                              // read
    CHECK(100 * chance_after(model, yes) == near(73, 0.5));                                   // read
    CHECK(100 * (1 - chance_after(model, no)) == near(95, 0.5));                              // read
    CHECK(100 * prior == near(31, 0.5));                                                      // read
    CHECK(odds(decibans(prior)) == near(0.45, 0.01));                                         // read
    CHECK(odds(decibans(chance_after(model, yes))) == near(2.7, 0.05));                       // read

    // All computed.
    CHECK(chance_of(model, 0, yes, std::array<std::uint16_t, 1>{0}) == near(0.903585, 1e-6));
    CHECK(chance_of(model, 0, no, {}) == near(0.847458, 1e-6));
    CHECK(ratio(model, yes) == near(5.923499, 1e-6));
    CHECK(ratio(model, no) == near(0.113770, 1e-6));
    CHECK(chance_after(model, yes) == near(0.730270, 1e-6));
    CHECK(1 - chance_after(model, no) == near(0.950570, 1e-6));
    CHECK(prior == near(0.313688, 1e-6));
    CHECK(odds(decibans(prior)) == near(0.457062, 1e-6));
    CHECK(weight_of(model, yes) == near(7.73, 0.005));
    CHECK(weight_of(model, no) == near(-9.44, 0.005));
}

}  // namespace published_posterior_test
