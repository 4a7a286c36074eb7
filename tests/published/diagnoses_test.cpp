// Diagnoses that any extension worker would agree with, each beside the published page it comes from and how far that page was
// read. "read for this test" means by the writer of this file, in a stored copy; "read for the notes" means by those who
// compiled the notes that the rules were written from. The cases are told in our own words. Names of steps and causes: lidlift
// show steps, lidlift show causes.
#include "tests/catch.hpp"
#include "tests/told_beds.hpp"

namespace published_diagnoses_test {

using namespace lidlift;
using namespace lidlift::test;

namespace {

struct Published {
    std::string says;    ///< what the page says, in our own words
    std::string source;  ///< where, and how far it was read
    std::string told;
    std::string cause;
    int at_most_place = 1;              ///< 1: it must come first; 2: among the first two
    std::vector<std::string> steps;     ///< must all be among the steps
    std::vector<StepKind> kinds;        ///< must all be among the kinds of step
    std::vector<StepKind> never_kinds;  ///< must not be
    std::vector<Push> never_pushes;     ///< must not be
    std::vector<std::string> cautions;  ///< must all be read out
};

constexpr Push wetter{Pushed::moisture, true}, drier{Pushed::moisture, false}, more_feed{Pushed::feed, true},
    more_worms{Pushed::worms, true}, less_acid{Pushed::ph, true}, more_cover{Pushed::cover, true}, warmer{Pushed::heat, true};

const std::vector<Published>& published() {
    static const std::vector<Published> cases = {
        {"a smell comes from more food than the worms can eat: stop feeding, take the bad part out, cover with fresh paper",
         "RecycleWorks, San Mateo County, worm trouble shooting table; whole page read for this test. Oregon Metro says the "
         "same; whole page read for this test.",
         "bad_smell=yes feed_load=very_heavy uneaten_layer=over_5cm",
         "overfeeding",
         1,
         {"stop_feeding", "lift_sour_part", "cover_with_dry_bedding"},
         {StepKind::feed, StepKind::remove, StepKind::dry_matter},
         {StepKind::lime, StepKind::worms},
         {more_feed, more_worms},
         {}},

        {"liquid stands in the bin: see that the drainage holes are open and take it up with dry bedding",
         "Oregon Metro, worm bin trouble shooting; whole page read for this test. City of Euless, Texas, on drawing liquid "
         "off; beginning read for this test.",
         "standing_water=yes drain=blocked bad_smell=yes",
         "blocked_drain",
         1,
         {"open_the_outlet", "add_dry_bedding"},
         {StepKind::drain, StepKind::dry_matter},
         {StepKind::lime},
         {wetter, more_worms},
         {"K01", "K09"}},

        {"food is four fifths water; a wet bin with too little bedding wants dry paper, and juicy food held back",
         "City of Euless, Texas, excess water; beginning read for this test",
         "squeeze=stream bedding_carbon=low drain=clear",
         "overwatered",
         1,
         {"add_dry_bedding", "hold_juicy_feed", "stop_watering"},
         {StepKind::dry_matter},
         {StepKind::lime},
         {wetter, more_feed},
         {"K09"}},

        {"fruit flies come to food that lies open: bury it under shredded paper; a vinegar trap with soap takes the grown ones",
         "RecycleWorks, San Mateo County; whole page read for this test. Oregon Metro on the trap; whole page read for this "
         "test.",
         "fruit_flies=swarm feed_cover=exposed",
         "feed_left_exposed",
         1,
         {"cover_feed", "trap_outside_bed"},
         {StepKind::dry_matter, StepKind::pests},
         {StepKind::lime},
         {},
         {"K13", "K14"}},

        {"worms die in an acid bin: take the citrus out; powdered limestone, never caustic, slaked or hydrated lime",
         "RecycleWorks, San Mateo County; whole page read for this test",
         "ph=4.5 feed_citrus=lots smell_sour=strong smell_ammonia=none",
         "acid_bed",
         1,
         {"lift_sour_part", "dust_with_carbonate"},
         {StepKind::remove, StepKind::lime},
         {},
         {more_worms, more_feed},
         {"K08"}},

        {"caustic, slaked and hydrated lime kill worms",
         "RecycleWorks, San Mateo County; whole page read for this test",
         "amendment=caustic_lime worm_dead=many",
         "alkaline_shock",
         1,
         {"scrape_off_powder", "lure_to_clean_side"},
         {StepKind::remove},
         {StepKind::lime},
         {less_acid},
         {"K08"}},

        {"worms try to leave a bin that is too dry: add moisture",
         "RecycleWorks, San Mateo County; whole page read for this test",
         "worm_place=up_walls_lid squeeze=dry_crumbles",
         "bed_too_dry",
         1,
         {"sprinkle_in_portions"},
         {StepKind::water},
         {StepKind::lime},
         {drier},
         {}},

        {"worms try to leave a bin that is too wet: add shredded dry paper",
         "RecycleWorks, San Mateo County; whole page read for this test",
         "worm_place=up_walls_lid squeeze=stream",
         "overwatered",
         1,
         {"add_dry_bedding"},
         {StepKind::dry_matter},
         {StepKind::lime},
         {wetter, more_worms},
         {}},

        {"heat above 90 F (32 C) can kill worms: shade and insulate, move the bin",
         "Oregon Metro; whole page read for this test",
         "bed_temperature=34 weather=heatwave sun=direct",
         "sun_or_heatwave",
         1,
         {"shade_and_wet_sacks", "feed_lightly_in_heat"},
         {StepKind::heat, StepKind::feed},
         {StepKind::lime},
         {more_cover, more_worms, warmer, more_feed},
         {"K20"}},

        {"frost can kill worms: pack straw or leaves round the bin, or take it into a shed; worms eat less in the cold",
         "Oregon Metro; whole page read for this test. NC State Extension, mite pests, on feeding in the cold; about half read "
         "for this test.",
         "bed_temperature=3 weather=cold_snap",
         "too_cold",
         1,
         {"insulate_bed", "halve_feed_in_cold"},
         {StepKind::heat, StepKind::feed},
         {StepKind::lime},
         {more_feed},
         {}},

        {"masses of mites go with too much water, too much food, and feed that ferments: less of both, and lime of carbonate "
         "only for what is acid",
         "NC State Extension, Sherman and Bambara, controlling mite pests in earthworm beds; about half read for this test",
         "mites_white=carpet uneaten_layer=over_5cm squeeze=stream",
         "overfeeding",
         1,
         {"stop_feeding"},
         {StepKind::feed},
         {},
         {wetter, more_feed},
         {}},

        {"a pile that smells of ammonia has too much green; lime would drive more of it off",
         "eXtension, do I need to add lime to my compost; whole page read for this test. Pile chart of an unknown office "
         "(Scribd 59759219); beginning read for this test.",
         "stage=resting smell_ammonia=strong feed_green=lots",
         "too_much_nitrogen",
         1,
         {"mix_in_carbon"},
         {StepKind::dry_matter},
         {StepKind::lime, StepKind::worms},
         {less_acid, more_cover, more_worms},
         {"K02"}},

        {"damp and warm only in the middle: the pile is too small; gather more and insulate it",
         "Pile chart of an unknown office (Scribd 59759219); beginning read for this test. Hillsborough County Extension, "
         "Florida, 2014: under a cubic yard; whole answer read for this test.",
         "stage=resting heap_peak=30 heap_size=small_lt_0_4m3 squeeze=holds_no_drop",
         "heap_too_small",
         1,
         {"join_batches", "insulate_heap"},
         {StepKind::heat},
         {StepKind::lime},
         {more_worms},
         {}},

        {"the pile is dry throughout and cold: turn it and add water as you go",
         "Pile chart of an unknown office (Scribd 59759219); beginning read for this test. Langston University, mortality "
         "compost; read for the notes.",
         "stage=resting heap_peak=30 squeeze=dry_crumbles",
         "heap_too_dry_or_lean",
         1,
         {"wet_heap_in_lifts"},
         {StepKind::water},
         {StepKind::lime},
         {drier},
         {}},

        {"the pile smells of rotten eggs: wet and without air; turn it and add coarse dry stuff",
         "Pile chart of an unknown office (Scribd 59759219); beginning read for this test. Langston University, mortality "
         "compost; read for the notes.",
         "stage=resting heap_peak=30 squeeze=stream smell_rotten=strong",
         "heap_too_wet",
         1,
         {"turn_heap_with_dry"},
         {StepKind::air},
         {StepKind::lime, StepKind::worms},
         {wetter, more_worms},
         {"K01"}},

        {"dung with urine, or not yet rested, is hot and sharp and kills worms: keep it off, let it ferment first",
         "Kaplan and others 1980 (ammonium and salt), abstract read for the notes; ICAR e-course (IASRI) on two to three weeks "
         "of rest, part read for the notes",
         "feed_dung=fresh hand_heat=hot smell_ammonia=strong",
         "fresh_dung",
         1,
         {"scrape_off_dung", "open_the_cover"},
         {StepKind::remove},
         {StepKind::lime, StepKind::worms},
         {less_acid, more_worms, more_cover},
         {"K02", "K03"}},

        {"meat and dairy stink and draw pests: keep them out",
         "Oregon Metro; whole page read for this test. Asotin County, Washington; read for the notes.",
         "smell_putrid=yes feed_protein=lots",
         "meat_or_dairy_rotting",
         1,
         {"lift_out_meat", "cover_thick"},
         {StepKind::remove},
         {StepKind::lime},
         {more_feed},
         {"K03"}},

        {"fill the bin with castings and the worms fare badly: move them to fresh bedding and harvest",
         "University of Illinois Extension, worm care; read for the notes",
         "casting_share=mostly worm_trend=falling",
         "spent_bed",
         1,
         {"fresh_bedding_one_half"},
         {StepKind::dry_matter},
         {StepKind::lime},
         {more_feed},
         {}},

        {"ants live in a bed that is too dry: moisten it; no bait with arsenic",
         "Pittwater Council and NSW government guides, in part, read for the notes; RecycleWorks on baits, whole page read for "
         "this test",
         "ants=nest squeeze=dry_crumbles stage=worm_bed",
         "bed_too_dry",
         1,
         {"sprinkle_in_portions"},
         {StepKind::water},
         {},
         {drier},
         {}},

        {"lower layers without air smell: loosen gently, add bedding, mind the air holes",
         "Oregon Metro; whole page read for this test",
         "smell_rotten=strong smell_where=bottom texture=compacted",
         "airless_bottom",
         1,
         {"loosen_the_top", "fork_out_black_layer"},
         {StepKind::air},
         {StepKind::lime, StepKind::worms},
         {wetter, more_worms, more_cover},
         {"K01"}},
    };
    return cases;
}

}  // namespace

TEST_CASE("what published trouble-shooting pages say comes out of the default rules", "[published][default rules]") {
    REQUIRE(published().size() >= 10);
    for (const Published& page : published()) {
        const Diagnosis diagnosis = diagnose_told(page.told);
        INFO(page.told << "\npublished: " << page.says << "\nin: " << page.source << "\nfound: " << ranked_in_words(diagnosis));
        CHECK(place_of(diagnosis, page.cause) >= 1);
        CHECK(place_of(diagnosis, page.cause) <= page.at_most_place);
        CHECK(diagnosis.advice.verdict == Verdict::act);
        for (const std::string& step : page.steps) {
            INFO("step " << step);
            CHECK(has_step(diagnosis, step));
        }
        for (const StepKind kind : page.kinds) {
            INFO("a step of kind " << to_word(kind));
            CHECK(has_kind(diagnosis, kind));
        }
        for (const StepKind kind : page.never_kinds) {
            INFO("no step of kind " << to_word(kind));
            CHECK_FALSE(has_kind(diagnosis, kind));
        }
        for (const Push& push : page.never_pushes) {
            INFO("no step that pushes " << to_text(push));
            CHECK_FALSE(pushes(diagnosis, push));
        }
        for (const std::string& caution : page.cautions) {
            INFO("caution " << caution);
            CHECK(has_caution(diagnosis, caution));
        }
    }
}

TEST_CASE("whoever goes into a pit after a collapsed person is the next to die: nobody is sent in",
          "[published][default rules]") {
    // NIOSH FACE 9228: a worker and then the uncle who went in after him died; summary read for this test. NIOSH Alert 90-103;
    // opening read for this test.
    const Diagnosis diagnosis = diagnose_told("person_symptom=collapsed smell_rotten=strong standing_water=yes");
    CHECK(diagnosis.advice.verdict == Verdict::emergency);
    REQUIRE_FALSE(diagnosis.advice.cautions.empty());
    CHECK(told_rule_base().cautions[diagnosis.advice.cautions.front()].id == "K01b");
    for (const PlannedStep& planned : diagnosis.advice.steps)
        CHECK(told_rule_base().steps[planned.step].kind == StepKind::people);
}

TEST_CASE("smoke from a large, dry, unturned pile: the fire service, and hands off", "[published][default rules]") {
    // waste360, What causes compost fires (large, dry, unturned, unwatched piles); beginning read for this test. Composting
    // Handbook 2022, part read for the notes.
    const Diagnosis diagnosis = diagnose_told("smell_smoke=yes heap_size=large_gt_1m3 turning=never squeeze=dry_crumbles");
    CHECK(first_cause(diagnosis) == "heap_smouldering");
    CHECK(diagnosis.advice.verdict == Verdict::emergency);
    CHECK(has_step(diagnosis, "call_fire_service"));
    CHECK(has_caution(diagnosis, "K10"));
    for (const PlannedStep& planned : diagnosis.advice.steps)
        CHECK(told_rule_base().steps[planned.step].kind == StepKind::people);
}

TEST_CASE("lime is never put on a bed that smells of ammonia, whatever else is told", "[published][default rules]") {
    // eXtension, do I need to add lime to my compost; whole page read for this test.
    for (const std::string ammonia :
         {"smell_ammonia=faint", "smell_ammonia=strong", "smell_ammonia=faint,unsure", "smell_ammonia=strong,guess"})
        for (const std::string acid : {"ph=4.5 smell_sour=strong", "smell_sour=strong feed_citrus=lots",
                                       "potworms=masses mites_white=carpet", "fruit_flies=swarm", ""}) {
            const Diagnosis diagnosis = diagnose_told(ammonia + " " + acid);
            INFO(ammonia << " " << acid << "\n" << ranked_in_words(diagnosis));
            CHECK_FALSE(has_kind(diagnosis, StepKind::lime));
            CHECK_FALSE(pushes(diagnosis, less_acid));
        }
}

}  // namespace published_diagnoses_test
