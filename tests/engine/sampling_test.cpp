// Figures of one's own; the published examples stand in tests/published/mixture_published_test.cpp.
#include "engine/sampling.hpp"

#include "tests/catch.hpp"
#include "tests/near.hpp"

#include <cmath>

namespace engine_sampling_test {

using namespace lidlift;
using test::near;

TEST_CASE("weighings that cannot be right are refused", "[sampling]") {
    CHECK(moisture_by_drying(4, 4, 4).fault().text ==
          "the container with the fresh sample (4) has to weigh more than the empty one (4)");
    CHECK(moisture_by_drying(4, 14, 15).fault().text ==
          "the dried sample (15) cannot weigh more than the fresh one (14), both with the container");
    CHECK(moisture_by_drying(4, 14, 3).fault().text ==
          "the container with the dried sample (3) cannot weigh less than the empty one (4)");
    CHECK(moisture_by_drying(-1, 14, 3).fault().text == "a weight cannot be less than nothing");
    CHECK(moisture_by_drying(4, std::nan(""), 3).fault().text == "a weight cannot be less than nothing");
    CHECK(*moisture_by_drying(4, 14, 14) == 0);
    CHECK(*moisture_by_drying(4, 14, 4) == 100);
}

TEST_CASE("buckets that cannot be right are refused", "[sampling]") {
    CHECK(density_by_bucket(1, 1, 10).fault().text == "the full bucket (1 kg) has to weigh more than the empty one (1 kg)");
    CHECK(density_by_bucket(1, 10, 0).fault().text == "a bucket has to hold something");
    CHECK(density_by_bucket(1, 10, -2).fault().text == "a weight or a volume cannot be less than nothing");
    CHECK(*density_by_bucket(0, 50, 10) == near(5000, 1e-9));
    CHECK_FALSE(density_by_bucket(0, 50.1, 10));
}

TEST_CASE("moisture turns from one basis to the other and back", "[sampling]") {
    for (const double wet : {0.0, 10.0, 50.0, 75.0, 95.0})
        CHECK(wet_from_dry_basis(dry_from_wet_basis(wet)) == near(wet, 1e-9));
    CHECK(dry_from_wet_basis(75) == near(300, 1e-9));
}

TEST_CASE("carbon from ash is as good as its rule", "[sampling]") {
    const Estimate carbon = *carbon_from_ash(10);
    CHECK(carbon.typical == near(50, 1e-9));
    CHECK(carbon.low == near(45, 1e-9));
    CHECK(carbon.high == near(55, 1e-9));
    CHECK(carbon_from_ash(100)->typical == 0);
    CHECK_FALSE(carbon_from_ash(-1));
    CHECK_FALSE(carbon_from_ash(100.5));
}

}  // namespace engine_sampling_test
