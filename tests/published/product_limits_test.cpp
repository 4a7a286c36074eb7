// India's limits for vermicompost that is sold, through the rules and the engine.
#include "engine/diagnosis.hpp"
#include "tests/catch.hpp"
#include "tests/engine/short_rules.hpp"

#include <string>
#include <vector>

namespace published_product_limits_test {

using namespace lidlift;
using namespace lidlift::test;

namespace {

/// By the default rules: is compost that is for sale and of which this is told outside India's list?
Truth outside(const std::vector<std::string>& told_words) {
    const RuleBase& base = default_base();
    Told told;
    REQUIRE_FALSE(hear_argument(told, base, "for_sale=yes"));
    for (const std::string& word : told_words) {
        const auto fault = hear_argument(told, base, word);
        REQUIRE_FALSE(fault);
    }
    const Conclusions conclusions = chain(base, told.facts);
    return conclusions.truth[base.conclusions.find("outside_india_list").value().index];
}

}  // namespace

TEST_CASE("each limit of India's list for vermicompost, met and missed by little", "[product][published]") {
    // Fertiliser (Control) Order 1985, Schedule IV, vermicompost: moisture 15.0 to 25.0 %, at least 90 % through 4.0 mm, 0.7 to
    // 0.9 g/cm3, at least 18.0 % organic carbon and 1.0 % nitrogen. Read in three copies that agree; the gazette was not seen.
    struct Limit {
        const char* good;
        const char* bad;
    };
    const std::vector<Limit> limits = {
        {"product_moisture=15 %", "product_moisture=14.9 %"}, {"product_moisture=24.9 %", "product_moisture=25.1 %"},
        {"sieve_share=90 %", "sieve_share=89.9 %"},           {"bulk_density=0.7", "bulk_density=0.69"},
        {"bulk_density=0.89", "bulk_density=0.91"},           {"organic_carbon=18 %", "organic_carbon=17.9 %"},
        {"total_nitrogen=1 %", "total_nitrogen=0.99 %"},
    };
    for (const Limit& limit : limits) {
        CAPTURE(limit.good, limit.bad);
        CHECK(outside({limit.good}) != Truth::yes);
        CHECK(outside({limit.bad}) == Truth::yes);
    }
    CHECK(outside({"product_moisture=20 %", "sieve_share=95 %", "bulk_density=0.8", "organic_carbon=20 %",
                   "total_nitrogen=1.2 %"}) == Truth::no);
    // One figure out of order is enough, and figures that nobody has leave it open.
    CHECK(outside({"product_moisture=20 %", "sieve_share=95 %", "bulk_density=0.8", "organic_carbon=10 %",
                   "total_nitrogen=1.2 %"}) == Truth::yes);
    CHECK(outside({"product_moisture=20 %"}) == Truth::unknown);
}

TEST_CASE("compost for sale outside the limits is told so", "[product][published]") {
    const Ranker ranker(default_base());
    Told told;
    for (const char* word : {"for_sale=yes", "product_moisture=45 %", "sieve_share=70 %"})
        REQUIRE_FALSE(hear_argument(told, default_base(), word));
    const Ranking ranking = ranker.rank(told.facts);
    CHECK(default_base().causes[ranking.causes.front().cause].id == "product_outside_limits");
}

}  // namespace published_product_limits_test
