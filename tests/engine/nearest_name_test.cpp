#include "engine/nearest_name.hpp"

#include "tests/catch.hpp"

#include <algorithm>
#include <string>
#include <vector>

namespace engine_nearest_name_test {

using namespace lidlift;

namespace {

/// The definition of optimal string alignment, without any table.
std::size_t distance_by_definition(std::string_view a, std::string_view b) {
    if (a.empty()) return b.size();
    if (b.empty()) return a.size();
    std::size_t best = distance_by_definition(a.substr(1), b.substr(1)) + (a[0] == b[0] ? 0 : 1);
    best = std::min(best, distance_by_definition(a.substr(1), b) + 1);
    best = std::min(best, distance_by_definition(a, b.substr(1)) + 1);
    if (a.size() > 1 && b.size() > 1 && a[0] == b[1] && a[1] == b[0])
        best = std::min(best, distance_by_definition(a.substr(2), b.substr(2)) + 1);
    return best;
}

/// All words over two letters of at most four letters.
std::vector<std::string> short_words() {
    std::vector<std::string> words{""};
    for (std::size_t i = 0; i < words.size(); ++i)
        if (words[i].size() < 4)
            for (const char letter : {'a', 'b'}) words.push_back(words[i] + letter);
    return words;
}

}  // namespace

TEST_CASE("edit distance of known pairs", "[nearest_name]") {
    CHECK(edit_distance("", "") == 0);
    CHECK(edit_distance("worm", "worm") == 0);
    CHECK(edit_distance("", "worm") == 4);
    CHECK(edit_distance("worm", "") == 4);
    CHECK(edit_distance("worm", "warm") == 1);
    CHECK(edit_distance("worm", "worms") == 1);
    CHECK(edit_distance("worm", "wrom") == 1);
    CHECK(edit_distance("kitten", "sitting") == 3);
    CHECK(edit_distance("ca", "abc") == 3);  // the pair that tells this distance from the unrestricted one
}

TEST_CASE("edit distance agrees with its definition on all short words", "[nearest_name]") {
    int wrong = 0;
    for (const std::string& a : short_words())
        for (const std::string& b : short_words()) wrong += edit_distance(a, b) != distance_by_definition(a, b);
    CHECK(wrong == 0);
}

TEST_CASE("a third of the characters may be wrong and no more", "[nearest_name]") {
    const std::vector<std::string> known = {"abcdef"};
    CHECK(nearest_name("abcdxy", known) == "abcdef");
    CHECK_FALSE(nearest_name("abcxyz", known).has_value());
    CHECK(nearest_name("xbc", {"abc"}) == "abc");
    CHECK_FALSE(nearest_name("xyc", {"abc"}).has_value());
    CHECK(nearest_name("no", {"on"}) == "on");
}

TEST_CASE("something of the name must stay", "[nearest_name]") {
    CHECK_FALSE(nearest_name("x", {"C"}).has_value());
    CHECK_FALSE(nearest_name("", {"C", "drain"}).has_value());
    CHECK(nearest_name("c", {"C"}) == "C");
}

TEST_CASE("letter case and the gap between words do not count", "[nearest_name]") {
    CHECK(nearest_name("SMELL-AMMONIA", {"smell_rotten", "smell_ammonia"}) == "smell_ammonia");
    CHECK(nearest_name("smell ammonia", {"smell_ammonia"}) == "smell_ammonia");
}

TEST_CASE("where nothing is near, a whole word of a name is enough", "[nearest_name]") {
    const std::vector<std::string> known = {"smell_ammonia_again", "smell_ammonia", "bed_temperature", "temperate"};
    CHECK(nearest_name("ammonia", known) == "smell_ammonia");
    CHECK(nearest_name("Temperature", {"heap_peak", "bed_temperature"}) == "bed_temperature");
    CHECK_FALSE(nearest_name("ammon", {"smell_ammonia"}).has_value());
    CHECK_FALSE(nearest_name("of", {"smell_of_earth"}).has_value());
}

TEST_CASE("a beginning of three characters is enough", "[nearest_name]") {
    CHECK(nearest_name("tem", {"smell", "temperature"}) == "temperature");
    CHECK_FALSE(nearest_name("te", {"temperature"}).has_value());
    CHECK(nearest_name("temperature_of_the_bed", {"temperature"}) == "temperature");
}

TEST_CASE("the nearest wins and the first of equals", "[nearest_name]") {
    CHECK(nearest_name("drainn", {"draining", "drain"}) == "drain");
    CHECK(nearest_name("wxrm", {"worm", "warm"}) == "worm");
    CHECK(nearest_name("wxrm", {"warm", "worm"}) == "warm");
    CHECK_FALSE(nearest_name("worm", {}).has_value());
}

TEST_CASE("the question is asked only when there is something to ask", "[nearest_name]") {
    CHECK(did_you_mean("sqeeze", {"smell", "squeeze"}) == "did you mean 'squeeze'?");
    CHECK(did_you_mean("zzzzzz", {"smell", "squeeze"}).empty());
}

}  // namespace engine_nearest_name_test
