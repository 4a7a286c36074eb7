// The trainer's bench on the files that rules/TUTORIAL.md leads up to.
#include "tests/cli/program.hpp"

#include <string>

namespace cli_our_own_site_bench_test {

using namespace lidlift::test;

namespace {
const std::string folder = LIDLIFT_TESTS_FOLDER "/../examples/our_own_site/";
}

TEST_CASE("the tutorial's cases come out right, and none without its rules", "[cli][our_own_site]") {
    const Run tried = run({"try", "--rules", folder + "crabs.yaml", folder + "crab_cases.yaml"});
    check_answer(tried);
    CHECK(holds(tried.out, "All 4 cases came out as they should."));
    check_error(run({"try", folder + "crab_cases.yaml"}), 2, "there is no cause 'land_crab_raid'");
}

TEST_CASE("what the tutorial adds makes no case worse", "[cli][our_own_site]") {
    const Run compared = run({"compare", "default", "default+" + folder + "crabs.yaml", folder + "crab_cases.yaml"});
    check_answer(compared);
    CHECK(holds(compared.out, "It failed, and now passes."));
    CHECK(holds(compared.out, "Nothing got worse."));
}

TEST_CASE("check finds the mistakes of thought in the tutorial's second try, and none in its last", "[cli][our_own_site]") {
    const Run second = run({"check", "--full", "--rules", folder + "crabs_second_try.yaml"});
    CHECK(second.exit == 1);
    CHECK(holds(second.out, "crabs_second_try.yaml:71:17:"));
    CHECK(holds(second.out, "[never_true]"));
    CHECK(holds(second.out, "[step_without_cause]"));
    const Run last = run({"check", "--full", "--rules", folder + "crabs.yaml"});
    CHECK_FALSE(holds(last.out, "our_own_site"));
}

TEST_CASE("the tutorial's cause is steady", "[cli][our_own_site]") {
    const Run steady = run({"why", "--steady", "--rules", folder + "crabs.yaml", "land_crabs=holes", "scraps_outside=yes"});
    check_answer(steady);
    CHECK(holds(steady.out, "HOW STEADY THIS IS"));
}

}  // namespace cli_our_own_site_bench_test
