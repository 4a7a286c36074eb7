// The file site.yaml: what it may hold, and every slip in it with its place.
#include "engine/site.hpp"

#include "tests/catch.hpp"

#include <string>

namespace engine_site_test {

using namespace lidlift;

namespace {

std::string complaints_of(const std::string& text) {
    std::string all;
    for (const Complaint& complaint : read_site(text, "site.yaml").complaints) all += to_text(complaint) + "\n";
    return all;
}

}  // namespace

TEST_CASE("a site's file is read", "[site]") {
    const SiteReading reading = read_site("site: Quince Lane\nhouseholds: 54\nwaste a day: 42 kg\nnote: N\n", "site.yaml");
    CHECK(reading.complaints.empty());
    CHECK(reading.site.name == "Quince Lane");
    CHECK(reading.site.households == 54);
    REQUIRE(reading.site.waste_per_day);
    CHECK(*reading.site.waste_per_day == 42);
    CHECK(reading.site.note == "N");
    CHECK(*read_site("waste a day: 100 lb\n", "s").site.waste_per_day == Approx(45.359237));
}

TEST_CASE("everything in a site's file may be left out", "[site]") {
    const SiteReading reading = read_site("", "site.yaml");
    CHECK(reading.complaints.empty());
    CHECK(reading.site.name.empty());
    CHECK_FALSE(reading.site.waste_per_day);
}

TEST_CASE("slips in a site's file are said with their place", "[site]") {
    CHECK(complaints_of("housholds: 3\n") ==
          "site.yaml:1:1: unknown key 'housholds' in the site's file (did you mean 'households'?)\n");
    CHECK(complaints_of("households: 2.5\n") == "site.yaml:1:13: 'households' is a whole number from 1 to 100000\n");
    CHECK(complaints_of("households: 0\n") != "");
    CHECK(complaints_of("households: 100000\n") == "");
    CHECK(complaints_of("households: 100001\n") != "");
    CHECK(complaints_of("waste a day: 42\n") == "site.yaml:1:14: 'waste a day' needs its unit, for instance '42 kg'\n");
    CHECK(complaints_of("waste a day: 42 L\n").find("is a weight") != std::string::npos);
    CHECK(complaints_of("waste a day: 0 kg\n") != "");
    CHECK(complaints_of("waste a day: 100 t\n") == "");
    CHECK(complaints_of("waste a day: 100.1 t\n") != "");
    CHECK(complaints_of("- 3\n").find("is a map of keys") != std::string::npos);
    CHECK(complaints_of("site: [a\n") != "");
}

}  // namespace engine_site_test
