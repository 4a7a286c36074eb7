// The germination index against worked figures.
#include "engine/germination.hpp"

#include "tests/catch.hpp"
#include "tests/near.hpp"

namespace published_germination_test {

using namespace lidlift;
using namespace lidlift::test;

TEST_CASE("germination index: seeds up times root length against clean water", "[germination][published]") {
    // Zucconi et al. 1981; the formula from memory, the same definition read in Acta Horticulturae 933. Worked by hand.
    CHECK(germination_index({9, 40}, {10, 50}).value() == near(72, 1e-9));
    CHECK(germination_index({10, 45}, {10, 50}).value() == near(90, 1e-9));
    // As shares instead of counts, and in millimetres instead of centimetres, it is the same.
    CHECK(germination_index({90, 4}, {100, 5}).value() == near(72, 1e-9));
    CHECK(germination_index({0, 0}, {10, 50}) == 0.0);
    CHECK_FALSE(germination_index({9, 40}, {0, 50}));
    CHECK_FALSE(germination_index({9, 40}, {10, 0}));
}

TEST_CASE("what a germination index means", "[germination][published]") {
    // Below 50 % toxic, 50 to 80 % moderately so (58.4 % is called moderate), above 80 % ripe: read. Above 100 %: memory.
    CHECK(seed_verdict(12.8) == SeedVerdict::toxic);
    CHECK(seed_verdict(49.9) == SeedVerdict::toxic);
    CHECK(seed_verdict(50) == SeedVerdict::doubtful);
    CHECK(seed_verdict(58.4) == SeedVerdict::doubtful);
    CHECK(seed_verdict(80) == SeedVerdict::doubtful);
    CHECK(seed_verdict(80.1) == SeedVerdict::ripe);
    CHECK(seed_verdict(101) == SeedVerdict::stimulating);
}

}  // namespace published_germination_test
