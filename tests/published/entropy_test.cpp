// Entropy and information gain on the best-known small data set: fourteen Saturday mornings, play or not.
// Quinlan, "Induction of decision trees", Machine Learning 1 (1986) 81-106; the rows read, and H = .940, gains .2467 (outlook),
// .1518 (humidity), .0481 (wind), .0292 (temperature) read; .246, .151, .048, .029 as the 1986 paper prints them: memory; nine
// digits and the sunny branch: computed.
//
// Playing is the one cause; what a morning was like without it is the background. The model wants chances above 0 and below 1,
// so a value that never occurs in one of the two classes stands at one in a million million.
#include "engine/weighing.hpp"
#include "tests/catch.hpp"
#include "tests/engine/evidence_models.hpp"
#include "tests/near.hpp"

#include <algorithm>
#include <array>
#include <cstdint>
#include <string>
#include <vector>

namespace published_entropy_test {

using namespace lidlift;
using namespace lidlift::test;

namespace {

struct Morning {
    std::array<std::string, 4> weather;  ///< outlook, temperature, humidity, wind
    bool play;
};

constexpr std::uint32_t outlook = 0;
constexpr std::uint32_t temperature = 1;
constexpr std::uint32_t humidity = 2;
constexpr std::uint32_t wind = 3;

const std::vector<Morning>& saturdays() {
    static const std::vector<Morning> rows = {
        {{"sunny", "hot", "high", "weak"}, false},        {{"sunny", "hot", "high", "strong"}, false},
        {{"overcast", "hot", "high", "weak"}, true},      {{"rain", "mild", "high", "weak"}, true},
        {{"rain", "cool", "normal", "weak"}, true},       {{"rain", "cool", "normal", "strong"}, false},
        {{"overcast", "cool", "normal", "strong"}, true}, {{"sunny", "mild", "high", "weak"}, false},
        {{"sunny", "cool", "normal", "weak"}, true},      {{"rain", "mild", "normal", "weak"}, true},
        {{"sunny", "mild", "normal", "strong"}, true},    {{"overcast", "mild", "high", "strong"}, true},
        {{"overcast", "hot", "normal", "weak"}, true},    {{"rain", "mild", "high", "strong"}, false}};
    return rows;
}

/// Share of the mornings, played or not, on which `attribute` has `value`.
double share(const std::vector<Morning>& mornings, bool play, std::uint32_t attribute, const std::string& value) {
    double of_class = 0;
    double with_value = 0;
    for (const Morning& morning : mornings) {
        of_class += morning.play == play;
        with_value += morning.play == play && morning.weather[attribute] == value;
    }
    return std::clamp(with_value / of_class, 1e-12, 1 - 1e-12);
}

EvidenceModel learnt_from(const std::vector<Morning>& mornings) {
    double played = 0;
    for (const Morning& morning : mornings) played += morning.play;
    EvidenceModel model = unclamped({played / static_cast<double>(mornings.size())}, {});
    for (std::uint32_t attribute = 0; attribute < 4; ++attribute) {
        std::vector<std::string> values;
        for (const Morning& morning : mornings)
            if (std::ranges::find(values, morning.weather[attribute]) == values.end())
                values.push_back(morning.weather[attribute]);
        Feature feature;
        for (std::uint32_t value = 0; value < values.size(); ++value) {
            feature.background.push_back(share(mornings, false, attribute, values[value]));
            if (values.size() > 2 || value == 0)
                feature.links.push_back({0, value, share(mornings, true, attribute, values[value])});
        }
        model.features.push_back(feature);
    }
    return model;
}

}  // namespace

TEST_CASE("Quinlan 1986: entropy of play", "[published]") {
    const EvidenceModel model = learnt_from(saturdays());
    const double bits = entropy(set_chances(weigh(model, {})));
    CHECK(bits == near(0.940, 0.001));       // read
    CHECK(bits == near(0.940285959, 1e-8));  // computed
}

TEST_CASE("Quinlan 1986: information gain of the four attributes", "[published]") {
    struct Row {
        std::uint32_t attribute;
        double read;
        double computed;
    };
    const std::vector<Row> rows = {{outlook, 0.2467, 0.246749820},
                                   {humidity, 0.1518, 0.151835501},
                                   {wind, 0.0481, 0.048127030},
                                   {temperature, 0.0292, 0.029222566}};
    const EvidenceModel model = learnt_from(saturdays());
    const Weighed weighed = weigh(model, {});
    for (const Row& row : rows) {
        CAPTURE(row.attribute);
        CHECK(information(model, weighed, row.attribute) == near(row.read, 0.001));
        CHECK(information(model, weighed, row.attribute) == near(row.computed, 1e-8));
    }
}

TEST_CASE("Quinlan 1986: the sunny branch", "[published]") {
    std::vector<Morning> sunny;
    for (const Morning& morning : saturdays())
        if (morning.weather[outlook] == "sunny") sunny.push_back(morning);
    REQUIRE(sunny.size() == 5);
    const EvidenceModel model = learnt_from(sunny);
    const Weighed weighed = weigh(model, {});
    CHECK(information(model, weighed, humidity) == near(0.970951, 1e-6));     // computed
    CHECK(information(model, weighed, temperature) == near(0.570951, 1e-6));  // computed
    CHECK(information(model, weighed, wind) == near(0.019973, 1e-6));         // computed
}

TEST_CASE("entropy of simple distributions", "[published]") {
    CHECK(entropy(std::vector<double>{1}) == 0);
    CHECK(entropy(std::vector<double>{0, 1, 0}) == 0);
    CHECK(entropy(std::vector<double>{0.5, 0.5}) == near(1, 1e-12));
    CHECK(entropy(std::vector<double>(8, 0.125)) == near(3, 1e-12));
    CHECK(entropy(std::vector<double>{0.5, 0.25, 0.25}) == near(1.5, 1e-12));
    CHECK(entropy(std::vector<double>{}) == 0);
}

}  // namespace published_entropy_test
