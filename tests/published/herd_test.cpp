// Worms multiplying, against what growers' bulletins print.
#include "engine/herd.hpp"

#include "tests/catch.hpp"
#include "tests/near.hpp"

namespace published_herd_test {

using namespace lidlift;
using namespace lidlift::test;

TEST_CASE("ten kilograms of worms doubling every 60 days", "[herd][published]") {
    // Grower bulletin "Worms (Red Wigglers)", read: 640 kg after six doublings and "about 40 tonnes" after twelve.
    CHECK(biomass_after(10, 360, 60) == near(640, 1e-9));
    CHECK(biomass_after(10, 720, 60) == near(40960, 1e-6));
    // Derived: 166 kg after a year at 90 days.
    CHECK(biomass_after(10, 365, 90) == near(166, 0.5));
    CHECK(biomass_after(10, 0, 60) == 10);
}

TEST_CASE("net young of one adult in a week, by species", "[herd][published]") {
    // The weekly table after Edwards and Neuhauser, read in a copy. Eisenia fetida 10.4, Eudrilus eugeniae 6.7.
    CHECK(net_young(3.8, 0.832, 3.3) == near(10.4, 0.05));
    CHECK(net_young(3.6, 0.81, 2.3) == near(6.7, 0.05));
    // Perionyx excavatus is printed as 29.4, a misprint: its own figures give 19.4 or 19.5.
    CHECK(net_young(19.5, 0.907, 1.1) == near(19.46, 0.01));
}

TEST_CASE("what worms may have become lies between no growth and the crowd that the floor carries", "[herd]") {
    const Estimate grown = herd_after(Estimate::exactly(4), 60, 2.787);
    CHECK(grown.low == 4);
    CHECK(grown.high == near(8, 1e-9));
    CHECK((grown.low < grown.typical && grown.typical < grown.high));

    const Estimate crowded = herd_after(Estimate::exactly(4), 3650, 2.787);
    CHECK(crowded.low == 4);
    CHECK(crowded.typical == near(7.5 * 2.787, 1e-9));
    CHECK(crowded.high == near(10 * 2.787, 1e-9));

    // More than the floor carries is not made fewer, and no days change nothing.
    CHECK(herd_after(Estimate::exactly(50), 100, 2) == Estimate::exactly(50));
    CHECK(herd_after(Estimate::exactly(4), 0, 2) == Estimate::exactly(4));
    CHECK(herd_after(Estimate::exactly(4), -5, 2) == Estimate::exactly(4));
    // A floor that is not known bounds nothing.
    CHECK(herd_after(Estimate::exactly(10), 360, 0).high == near(640, 1e-9));
}

}  // namespace published_herd_test
