// lidlift mix as a person runs it.
#include "cli/mix.hpp"

#include "tests/cli/program.hpp"
#include "tests/engine/small_materials.hpp"
#include "tests/near.hpp"

#include <random>

#include <nlohmann/json.hpp>

namespace cli_mix_test {

using namespace lidlift::test;
using Json = nlohmann::json;

namespace {

/// Runs `lidlift mix` on the few materials with round figures.
class Mixes {
public:
    Mixes() : rules_(folder_.write("small.yaml", small_materials)) {}

    [[nodiscard]] Run run(std::vector<std::string> arguments) const {
        arguments.insert(arguments.begin(), "mix");
        arguments.insert(arguments.end(), {"--only-rules", rules_});
        return lidlift::test::run(arguments);
    }
    [[nodiscard]] Json json(std::vector<std::string> arguments) const {
        arguments.emplace_back("--json");
        const Run result = run(arguments);
        check_answer(result);
        return Json::parse(result.out);
    }
    /// On a page, however its lines break.
    [[nodiscard]] std::string page(const std::vector<std::string>& arguments) const {
        const Run result = run(arguments);
        check_answer(result);
        return unwrapped(result.out);
    }

private:
    TemporaryFolder folder_;
    std::string rules_;
};

}  // namespace

TEST_CASE("mix says what a mixture comes to, each with its range", "[cli][mix]") {
    const Mixes mixes;
    const std::string page = mixes.page({"10", "kg", "kitchen_waste", "3", "buckets", "dry_leaves", "--bucket", "10", "L"});
    CHECK(holds(page, "kitchen waste, 10 kg"));
    CHECK(holds(page, "dry leaves, 3 buckets (30 L): 3 kg"));
    CHECK(holds(page, "Mass 13 kg"));
    CHECK(holds(page, "Volume 50 L (41 to 70), rather less once it settles"));
    CHECK(holds(page, "Bulk density 260 kg/m3 (186 to 320)"));
    CHECK(holds(page, "Moisture 68 % (58 to 78)"));
    CHECK(holds(page, "C:N 28:1 (19.2:1 to 38:1)"));
    CHECK(holds(page, "Nitrogen 1.49 % of the dry matter (1.29 to 1.63), in all 0.061 kg (0.038 to 0.084)"));
    CHECK(holds(page, "Air space high"));
    CHECK(
        holds(page, "The hot resting stage: moisture too high (50 to 60 % is best, 40 to 65 % works); C:N right (25 to 35)."));
    CHECK(holds(page, "The worm stage: moisture a little low (70 to 85 % is best, 60 to 90 % works); C:N right (20 to 40)."));
    CHECK(holds(page, "Sources disagree about the C:N of kitchen waste: 10 to 24:1. It differs from kitchen to kitchen."));
    CHECK(holds(page, "Kitchen waste: Weigh it."));
    CHECK(holds(page, "moisture 80 % (70 to 90), read"));
    CHECK(holds(page, "C:N 16 (10 to 24), from memory"));
}

TEST_CASE("mix puts cautions before everything else", "[cli][mix]") {
    const Mixes mixes;
    const std::string page = mixes.page({"10 kg kitchen_waste 1 kg hydrated_lime"});
    CHECK(page.starts_with("BEFORE ANYTHING ELSE STOP caustic lime. Wear goggles. CARE germs. Wear gloves. WHAT GOES IN"));
    const Json json = mixes.json({"10 kg kitchen_waste 1 kg hydrated_lime"});
    CHECK(json["cautions"][0]["id"] == "K08");
    CHECK(json["cautions"][1]["id"] == "K03");
    // Also those of what is only to be added.
    const std::string added = mixes.page({"10 kg dry_leaves", "--reach", "60 % moisture", "--with", "kitchen_waste"});
    CHECK(added.starts_with("BEFORE ANYTHING ELSE CARE germs. Wear gloves."));
}

TEST_CASE("mix takes quotes or none, ids, names and what people say", "[cli][mix]") {
    const Mixes mixes;
    const Json first = mixes.json({"10", "kg", "kitchen_waste", "3", "kg", "dry_leaves"});
    for (const std::vector<std::string>& arguments : std::vector<std::vector<std::string>>{
             {"10 kg", "Kitchen waste", "3 kg", "Dry leaves"},
             {"10 kg kitchen waste 3 kg dry leaves"},
             {"10 kg of slops and 3 kg of leaf litter"},
             {"10kg", "food", "scraps", "3", "kg", "leaf-litter"},
         }) {
        const Json other = mixes.json(arguments);
        CHECK(other["mixture"] == first["mixture"]);
        CHECK(other["parts"][1]["material"] == "dry_leaves");
    }
}

TEST_CASE("mix says what to add, and it reaches the target when it is mixed back", "[cli][mix]") {
    const Mixes mixes;
    const Json json =
        mixes.json({"30", "kg", "kitchen_waste", "--reach", "60 % moisture", "--with", "dry_leaves", "--bucket", "10 L"});
    const Json& added = json["reach"]["add"][0];
    CHECK(json["reach"]["reached"] == true);
    CHECK(added["material"] == "dry_leaves");
    CHECK(added["kg"]["typical"].get<double>() == near(20, 1e-6));
    CHECK(added["kg"]["low"].get<double>() == near(7.5, 1e-9));
    CHECK(added["kg"]["high"].get<double>() == near(45, 1e-9));
    CHECK(added["measures"][0]["name"] == "bucket");
    CHECK(added["measures"][0]["number"]["typical"].get<double>() == near(20, 1e-6));
    CHECK(json["reach"]["then"]["moisture"]["typical"].get<double>() == near(60, 1e-7));
    const Json again = mixes.json({"30 kg kitchen_waste", added["kg"]["typical"].dump().substr(0, 15) + " kg dry_leaves"});
    CHECK(again["mixture"]["moisture"]["typical"].get<double>() == near(60, 1e-6));

    const std::string page = mixes.page(
        {"30", "kg", "kitchen_waste", "--reach", "60", "%", "moisture", "--with", "dry_leaves", "--bucket", "10", "L"});
    CHECK(holds(page,
                "WHAT TO ADD Wanted: a moisture of 60 %. Add 20 kg (7.5 to 45) of dry leaves, that is 200 L (75 to 450) or "
                "about 20 buckets (7.5 to 45). The range is wide."));
    CHECK(holds(page, "AND THEN IT IS Mass 50 kg"));
}

TEST_CASE("mix adds water where water is at hand", "[cli][mix]") {
    const Mixes mixes;
    const std::string page =
        mixes.page({"10", "kg", "dry_leaves", "--reach", "60 % moisture", "--with", "water", "--barrow", "80 L"});
    CHECK(holds(page, "Add 7.5 kg (5 to 10) of water, that is 7.5 L (5 to 10)"));
    CHECK_FALSE(holds(page, "The range is wide"));
}

TEST_CASE("mix takes the least of several materials, within their stocks", "[cli][mix]") {
    const Mixes mixes;
    const Json json = mixes.json({"30", "kg", "kitchen_waste", "--reach", "70 % moisture", "--reach", "25 to 30 C:N", "--with",
                                  "dry_leaves up to 20 kg", "--with", "water"});
    CHECK(json["reach"]["reached"] == true);
    CHECK(json["reach"]["add"][0]["stock_kg"] == 20);
    CHECK(json["reach"]["then"]["moisture"]["typical"].get<double>() == near(70, 1e-6));
    const double ratio = json["reach"]["then"]["carbon_to_nitrogen"]["typical"].get<double>();
    CHECK(ratio >= 25 - 1e-6);
    CHECK(ratio <= 30 + 1e-6);
    CHECK(json["reach"]["target"] == "a moisture of 70 % and a C:N of 25 to 30:1");
}

TEST_CASE("mix says why a target cannot be reached, and that is an answer", "[cli][mix]") {
    const Mixes mixes;
    CHECK(holds(
        mixes.page({"30", "kg", "kitchen_waste", "--reach", "25 % moisture", "--with", "dry_leaves"}),
        "It cannot be reached with these materials, because the moisture is 80 % and has to come down to 25 %, and dry leaves, "
        "at 30 %, cannot bring it below 30 %, however much goes in."));
    const Json json = mixes.json({"30", "kg", "kitchen_waste", "--reach", "resting", "--with", "water"});
    CHECK(json["reach"]["reached"] == false);
    CHECK(json["reach"]["because"] ==
          "the moisture is 80 % and has to come down to 60 %, and water, at 100 %, does not bring it that way at all");
    CHECK(json["mixture"]["kg"]["typical"] == 30);
}

TEST_CASE("mix judges by the windows of both stages, by name", "[cli][mix]") {
    const Mixes mixes;
    const Json stages = mixes.json({"30 kg kitchen_waste"})["stages"];
    CHECK(stages[0]["stage"] == "resting");
    CHECK(stages[0]["moisture"]["judged"] == "above");
    CHECK(stages[0]["carbon_to_nitrogen"]["judged"] == "below");
    CHECK(stages[0]["carbon_to_nitrogen"]["unsure"] == true);
    CHECK(stages[1]["stage"] == "worms");
    CHECK(stages[1]["moisture"]["judged"] == "right");
    CHECK(stages[1]["moisture"]["works"] == Json::array({60, 90}));
}

TEST_CASE("mix keeps from the worms what harms them", "[cli][mix]") {
    const Mixes mixes;
    CHECK(holds(mixes.page({"10 kg hen_manure 10 kg dry_leaves"}),
                "But keep it from worms, since it holds hen manure. It gives off ammonia."));
    CHECK(holds(mixes.page({"10 kg dry_leaves", "--reach", "worms", "--with", "hen_manure", "--with", "water"}),
                "Left out: hen manure, which has no place among worms. It gives off ammonia."));
    const Json json = mixes.json({"10 kg dry_leaves", "--reach", "worms", "--with", "hen_manure", "--with", "water"});
    CHECK(json["reach"]["left_out"] == Json::array({"hen_manure"}));
    CHECK(json["reach"]["stage"] == "worms");
    CHECK(mixes.json({"10 kg hen_manure"})["stages"][1]["keep_out"] == Json::array({"hen_manure"}));
    // Inside the program: urea would lower the C:N of leaves to what worms like, and would kill them.
    const Json urea =
        Json::parse(run({"mix", "30 kg dry_leaves", "--reach", "worms", "--with", "urea", "--with", "water", "--json"}).out);
    CHECK(urea["reach"]["left_out"] == Json::array({"urea"}));
    CHECK(urea["reach"]["reached"] == false);
}

TEST_CASE("mix takes measured figures in place of its own", "[cli][mix]") {
    const Mixes mixes;
    const Json json =
        mixes.json({"30 kg kitchen_waste", "--measured", "kitchen_waste moisture 82 to 84 %", "--measured", "slops C:N 20"});
    CHECK(json["mixture"]["moisture"]["low"].get<double>() == near(82, 1e-9));
    CHECK(json["mixture"]["carbon_to_nitrogen"]["high"].get<double>() == near(20, 1e-9));
    CHECK(json["materials"][0]["carbon_to_nitrogen"]["standing"] == "as you measured");
    const std::string page = mixes.page({"30 kg kitchen_waste", "--measured", "slops C:N 20"});
    CHECK(holds(page, "C:N 20, as you measured"));
    CHECK_FALSE(holds(page, "disagree about the C:N"));
}

TEST_CASE("mix refuses what it cannot use, with the nearest name", "[cli][mix]") {
    const Mixes mixes;
    const auto refused = [&](const std::vector<std::string>& arguments, const char* why) {
        check_error(mixes.run(arguments), 2, why);
    };
    refused({}, "say what is mixed");
    refused({"30 kg kitchn_waste"}, "there is no material 'kitchn_waste'; did you mean 'kitchen_waste'?");
    refused({"3 buckets dry_leaves"},
            "nobody stated how much a bucket holds: write '3 buckets of 10 L' with its size, or state it once");
    refused({"3 gal water"}, "'gal' may be a US or an imperial gallon");
    refused({"3 m2 water"}, "'3 m2' is neither a mass nor a volume");
    refused({"0 kg water"}, "all the amounts are 0");
    refused({"2 L hydrated_lime"}, "nobody knows how heavy a litre of hydrated lime is");
    refused({"3 kg water", "--bucket", "ten"}, "--bucket: 'ten' does not begin with a number");
    refused({"3 kg water", "--bucket", "10"}, "'10' has no unit");
    refused({"3 kg water", "--vessel", "sack"}, "--vessel wants a name and a size");
    refused({"3 kg water", "--vessel", "kg 10 L"}, "--vessel: 'kg' is a unit already");
    refused({"3 kg water", "--reach", "restin", "--with", "water"}, "did you mean 'resting'?");
    refused({"3 kg water", "--reach", "resting"}, "say what is at hand");
    refused({"3 kg water", "--with", "dry_leaves"}, "say what is to be reached");
    refused({"3 kg water", "--reach", "60 %", "--reach", "50 %", "--with", "water"}, "two targets for the same figure");
    refused({"3 kg water", "--reach", "60 %", "--with", "watr"}, "did you mean 'water'?");
    refused({"3 kg water", "--reach", "60 %", "--with", "water", "--with", "Water"}, "--with names water twice");
    refused({"3 kg water", "--measured", "water"}, "names no figure");
    refused({"3 kg water", "--reech", "60 %"}, "did you mean '--reach'?");
}

TEST_CASE("mix has limits", "[cli][mix]") {
    const Mixes mixes;
    std::vector<std::string> many(40, "1 kg water");
    CHECK(mixes.run(many).exit == 0);
    many.emplace_back("1 kg water");
    check_error(mixes.run(many), 2, "more than 40 materials");
    std::vector<std::string> options{"1 kg water"};
    for (int i = 0; i < 50; ++i) options.insert(options.end(), {"--vessel", "sack 40 L"});
    CHECK(mixes.run(options).exit == 0);
    options.insert(options.end(), {"--vessel", "sack 40 L"});
    check_error(mixes.run(options), 2, "more than 50 times");
}

TEST_CASE("mix stands any words", "[cli][mix]") {
    const Mixes mixes;
    std::mt19937 generator(7);
    const std::vector<std::string> pieces{"30",         "kg",    "buckets", "of",       "10",   "L",          "kitchen_waste",
                                          "dry leaves", "half",  "a",       "--reach",  "60 %", "25:1",       "worms",
                                          "--with",     "water", "up to",   "--bucket", "10 L", "--measured", "moisture",
                                          "and",        "",      "%",       "-3",       "1e3",  "0",          "999999999",
                                          "\xC3\xA9",   "'",     "--json",  "-"};
    int odd = 0;
    for (int i = 0; i < 150; ++i) {
        std::vector<std::string> arguments;
        for (std::size_t k = generator() % 12; k > 0; --k) arguments.push_back(pieces[generator() % pieces.size()]);
        const Run result = mixes.run(arguments);
        if ((result.exit != 0 && result.exit != 2) || !is_tame(result.out) || !is_tame(result.err) ||
            (result.exit == 0) != result.err.empty())
            ++odd;
    }
    CHECK(odd == 0);
}

TEST_CASE("mix knows the materials inside the program", "[cli][mix]") {
    const Run result = run({"mix", "30", "kg", "kitchen", "waste", "3", "buckets", "dry_leaves", "--bucket", "10", "L",
                            "--reach", "worms", "--with", "water", "--with", "dry_leaves"});
    check_answer(result);
    CHECK(holds(result.out, "THE MIXTURE"));
    CHECK(holds(result.out, "SOURCES"));
}

TEST_CASE("mix helps", "[cli][mix]") {
    const Run result = run({"mix", "--help"});
    check_answer(result);
    CHECK(holds(result.out, "lidlift mix 30 kg kitchen_waste 3 buckets dry_leaves --bucket 10 L"));
    CHECK(holds(run({"--help"}).out, "mix       a mixture"));
}

TEST_CASE("a number after a size or a target takes its unit with it", "[cli][mix]") {
    using lidlift::cli::with_units_joined;
    using Words = std::vector<std::string>;
    CHECK(with_units_joined({"mix", "--bucket", "10", "L", "3", "kg"}) == Words{"mix", "--bucket", "10 L", "3", "kg"});
    CHECK(with_units_joined({"--bucket", "10 L", "3"}) == Words{"--bucket", "10 L", "3"});
    CHECK(with_units_joined({"--bucket", "10L", "3"}) == Words{"--bucket", "10L", "3"});
    CHECK(with_units_joined({"--reach", "60", "%", "moisture", "x"}) == Words{"--reach", "60 % moisture", "x"});
    CHECK(with_units_joined({"--reach", "25", "C:N"}) == Words{"--reach", "25 C:N"});
    CHECK(with_units_joined({"--bucket", "10"}) == Words{"--bucket", "10"});
    CHECK(with_units_joined({"--bucket", "10", "--json"}) == Words{"--bucket", "10", "--json"});
    CHECK(with_units_joined({"--with", "10", "L"}) == Words{"--with", "10", "L"});
}

}  // namespace cli_mix_test
