// What everyone brings first - a smell, worms on the walls, flies, standing water, much citrus - alone and in all pairs; what
// may be called healthy; the emergencies; and that every cause and every caution of the default rules can be reached by a story
// someone might tell.
#include "tests/catch.hpp"
#include "tests/told_beds.hpp"

#include <map>
#include <set>

namespace engine_first_symptoms_test {

using namespace lidlift;
using namespace lidlift::test;

namespace {

using Causes = std::set<std::string>;

struct Symptom {
    std::string group;  ///< answers of one group are never told together here
    std::string told;
    Causes may_be_first;  ///< what someone who knows the trade would name first, hearing only this; empty: nothing can be told
                          ///< from it
};

const std::vector<Symptom>& first_symptoms() {
    static const std::vector<Symptom> symptoms = {
        {"a smell", "bad_smell=yes", {"overfeeding", "airless_bottom", "overwatered"}},
        {"ammonia", "smell_ammonia=strong", {"too_much_nitrogen", "fresh_dung", "worms_in_too_early"}},
        {"ammonia", "smell_ammonia=faint", {"too_much_nitrogen", "fresh_dung", "worms_in_too_early", "overfeeding"}},
        {"rotten", "smell_rotten=strong", {"airless_bottom", "blocked_drain", "overwatered"}},
        {"rotten", "smell_rotten=faint", {"airless_bottom", "blocked_drain", "overwatered", "overfeeding"}},
        {"sour", "smell_sour=strong", {"acid_bed", "overfeeding"}},
        {"sour", "smell_sour=faint", {"acid_bed", "overfeeding", "feed_left_exposed"}},
        {"putrid", "smell_putrid=yes", {"meat_or_dairy_rotting"}},
        {"musty", "smell_musty=yes", {}},
        {"leaving",
         "worm_place=up_walls_lid",
         {"overfeeding", "overwatered", "airless_bottom", "worms_in_too_early", "new_worms_settling"}},
        {"leaving",
         "worms_leaving_how=mass_all_at_once",
         {"overfeeding", "overwatered", "airless_bottom", "worms_in_too_early", "new_worms_settling"}},
        {"leaving",
         "worm_place=outside_dried",
         {"overfeeding", "overwatered", "airless_bottom", "worms_in_too_early", "new_worms_settling"}},
        {"fruit flies", "fruit_flies=swarm", {"feed_left_exposed", "fruit_flies", "overfeeding"}},
        {"fruit flies", "fruit_flies=few", {"feed_left_exposed", "fruit_flies", "overfeeding"}},
        {"large flies", "house_flies=many", {"house_flies", "feed_left_exposed", "meat_or_dairy_rotting", "overfeeding"}},
        {"large flies", "maggots_white=many", {"house_flies", "feed_left_exposed", "meat_or_dairy_rotting", "overfeeding"}},
        {"gnats", "fungus_gnats=many", {"fungus_gnats", "overwatered"}},
        {"water", "standing_water=yes", {"blocked_drain", "overwatered", "rain_got_in"}},
        {"citrus", "feed_citrus=lots", {"citrus_or_pungent_feed", "acid_bed"}},
    };
    return symptoms;
}

Causes both(Causes a, const Causes& b) {
    a.insert(b.begin(), b.end());
    return a;
}

void check_never_opposed(const Diagnosis& diagnosis) {
    const RuleBase& base = told_rule_base();
    for (const PlannedStep& a : diagnosis.advice.steps)
        for (const PlannedStep& b : diagnosis.advice.steps)
            for (const Push& push : base.steps[a.step].pushes)
                for (const Push& other : base.steps[b.step].pushes) {
                    INFO(base.steps[a.step].id << " against " << base.steps[b.step].id);
                    CHECK_FALSE((push.what == other.what && push.up != other.up));
                }
}

/// Four normal findings: what a healthy bed shows to someone who looks.
const std::string healthy_story = "smell_earthy=yes squeeze=few_drops worm_place=in_feed_zone worm_young=cocoons_and_young";

}  // namespace

TEST_CASE("each of the first symptoms alone has a sensible first cause and leads somewhere", "[default rules]") {
    for (const Symptom& symptom : first_symptoms()) {
        const Diagnosis diagnosis = diagnose_told(symptom.told);
        INFO(symptom.told << "\n" << ranked_in_words(diagnosis));
        if (symptom.may_be_first.empty())
            CHECK(diagnosis.advice.verdict == Verdict::cannot_tell);
        else
            CHECK(symptom.may_be_first.contains(first_cause(diagnosis)));
        CHECK(diagnosis.advice.verdict != Verdict::nothing_wrong);
        CHECK_FALSE(diagnosis.ask_next.empty());
        check_never_opposed(diagnosis);
    }
}

TEST_CASE("any two of the first symptoms together are explained by what explains one of them, or by what they have in common",
          "[default rules]") {
    // Only told together do these point to something that neither points to alone.
    const std::map<std::set<std::string>, Causes> in_common = {
        {{"leaving", "citrus"}, {"acid_bed", "citrus_or_pungent_feed"}},
        {{"gnats", "a smell"}, {"overwatered", "airless_bottom"}},
    };
    for (const Symptom& a : first_symptoms())
        for (const Symptom& b : first_symptoms()) {
            if (&a >= &b || a.group == b.group) continue;
            Causes may_be_first = both(a.may_be_first, b.may_be_first);
            if (const auto more = in_common.find({a.group, b.group}); more != in_common.end())
                may_be_first = both(may_be_first, more->second);
            const Diagnosis diagnosis = diagnose_told(a.told + " " + b.told);
            INFO(a.told << " " << b.told << "\n" << ranked_in_words(diagnosis));
            CHECK(may_be_first.contains(first_cause(diagnosis)));
            CHECK(leads_somewhere(diagnosis));
            CHECK(diagnosis.advice.verdict != Verdict::nothing_wrong);
            CHECK_FALSE(diagnosis.ranking.contradictory);
            check_never_opposed(diagnosis);
        }
}

TEST_CASE("a bed that was looked at and found normal is left alone", "[default rules]") {
    const Diagnosis diagnosis = diagnose_told(healthy_story);
    CHECK(first_cause(diagnosis) == "healthy");
    CHECK(diagnosis.advice.verdict == Verdict::nothing_wrong);
    CHECK(has_step(diagnosis, "leave_it_alone"));
    CHECK_FALSE(has_kind(diagnosis, StepKind::lime));
    CHECK_FALSE(has_kind(diagnosis, StepKind::feed));
}

TEST_CASE("one or two normal findings do not make a bed healthy", "[default rules]") {
    for (const std::string few : {"smell_earthy=yes", "bad_smell=no", "squeeze=few_drops", "worm_dead=none",
                                  "worms_leaving_how=none_leaving", "smell_earthy=yes squeeze=few_drops"}) {
        const Diagnosis diagnosis = diagnose_told(few);
        INFO(few << "\n" << ranked_in_words(diagnosis));
        CHECK(diagnosis.advice.verdict != Verdict::nothing_wrong);
    }
}

TEST_CASE("one finding that is far from normal keeps a bed from being called healthy, however much else is normal",
          "[default rules]") {
    for (const std::string wrong : {"smell_ammonia=faint",
                                    "smell_ammonia=strong",
                                    "smell_rotten=strong",
                                    "smell_sour=strong",
                                    "smell_putrid=yes",
                                    "smell_smoke=yes",
                                    "bad_smell=yes",
                                    "standing_water=yes",
                                    "worm_dead=many",
                                    "worm_trend=gone",
                                    "worms_leaving_how=many_all_night",
                                    "bed_temperature=34",
                                    "bed_temperature=2",
                                    "hand_heat=hot",
                                    "uneaten_layer=over_5cm",
                                    "fruit_flies=swarm",
                                    "maggots_white=many",
                                    "mites_red=many",
                                    "planarians=yes",
                                    "rodents=seen",
                                    "ants=nest",
                                    "worm_move=thrashing",
                                    "worm_shape=beaded_pearls",
                                    "feed_chemical=suspected",
                                    "amendment=caustic_lime",
                                    "drain=blocked"}) {
        const Diagnosis diagnosis = diagnose_told(healthy_story + " " + wrong);
        INFO(wrong << "\n" << ranked_in_words(diagnosis));
        CHECK(diagnosis.advice.verdict != Verdict::nothing_wrong);
    }
}

TEST_CASE("no single answer is enough to say that nothing is wrong", "[default rules]") {
    for (const Sign& sign : told_rule_base().signs)
        for (std::size_t position = 0; position < sign.answers.size(); ++position) {
            const std::string line = sign.id + "=" + sign.answers[position].id;
            const Diagnosis diagnosis = diagnose_told(line);
            INFO(line << "\n" << ranked_in_words(diagnosis));
            CHECK(diagnosis.advice.verdict != Verdict::nothing_wrong);
            CHECK_FALSE(diagnosis.ranking.contradictory);
            check_never_opposed(diagnosis);
        }
}

TEST_CASE("worms that came yesterday and climb a mild bed are only settling in", "[default rules]") {
    const Diagnosis diagnosis = diagnose_told("days_since_worms=1 worm_place=up_walls_lid smell_earthy=yes");
    INFO(ranked_in_words(diagnosis));
    CHECK(first_cause(diagnosis) == "new_worms_settling");
    CHECK(diagnosis.advice.verdict == Verdict::nothing_wrong);
    CHECK(has_step(diagnosis, "let_them_settle"));
    CHECK_FALSE(has_kind(diagnosis, StepKind::lime));
    CHECK(first_cause(diagnose_told("days_since_worms=1 worm_place=up_walls_lid smell_ammonia=strong")) !=
          "new_worms_settling");
    CHECK(first_cause(diagnose_told("days_since_worms=1 worm_place=up_walls_lid hand_heat=hot")) == "worms_in_too_early");
    CHECK(first_cause(diagnose_told("days_since_worms=1 worm_place=up_walls_lid worm_dead=many")) != "new_worms_settling");
}

TEST_CASE("a sound colony that climbs before a storm is only wandering", "[default rules]") {
    const Diagnosis diagnosis = diagnose_told("weather=storm_coming worm_place=up_walls_lid smell_earthy=yes");
    INFO(ranked_in_words(diagnosis));
    CHECK(first_cause(diagnosis) == "weather_wandering");
    CHECK(diagnosis.advice.verdict == Verdict::nothing_wrong);
    CHECK(first_cause(diagnose_told("weather=storm_coming worm_place=up_walls_lid smell_ammonia=strong")) !=
          "weather_wandering");
    CHECK(first_cause(diagnose_told("weather=heavy_rain worm_place=up_walls_lid squeeze=stream")) == "rain_got_in");
}

TEST_CASE("while there is smoke, or somebody has collapsed, only people are spoken of", "[default rules]") {
    for (const std::string emergency : {"smell_smoke=yes", "person_symptom=collapsed"})
        for (const Symptom& symptom : first_symptoms()) {
            const Diagnosis diagnosis = diagnose_told(emergency + " " + symptom.told);
            INFO(emergency << " " << symptom.told);
            CHECK(diagnosis.advice.verdict == Verdict::emergency);
            for (const PlannedStep& planned : diagnosis.advice.steps)
                CHECK(told_rule_base().steps[planned.step].kind == StepKind::people);
            REQUIRE_FALSE(diagnosis.advice.cautions.empty());
            CHECK(told_rule_base().cautions[diagnosis.advice.cautions.front()].emergency);
        }
    CHECK(first_cause(diagnose_told("smell_smoke=yes")) == "heap_smouldering");
    CHECK(has_step(diagnose_told("smell_smoke=yes"), "call_fire_service"));
    CHECK(has_caution(diagnose_told("person_symptom=collapsed"), "K01b"));
}

TEST_CASE("every step belongs to a cause, and the steps of one cause never work against each other", "[default rules]") {
    const RuleBase& base = told_rule_base();
    std::set<std::string> asked_for;
    for (const Cause& cause : base.causes) {
        CHECK_FALSE(cause.steps.empty());
        for (const auto first : cause.steps) {
            asked_for.insert(base.steps[first].id);
            for (const auto second : cause.steps)
                for (const Push& push : base.steps[first].pushes)
                    for (const Push& other : base.steps[second].pushes) {
                        INFO(cause.id << ": " << base.steps[first].id << " against " << base.steps[second].id);
                        CHECK_FALSE((push.what == other.what && push.up != other.up));
                    }
        }
    }
    for (const Step& step : base.steps) {
        INFO(step.id << " is asked for by no cause");
        CHECK(asked_for.contains(step.id));
    }
}

TEST_CASE("steps that reach down into the bed or the drain carry the warning of gas, surface work does not",
          "[default rules]") {
    const auto warns = [](std::string_view id) {
        const auto step = told_rule_base().steps.find(id);
        REQUIRE(step);
        return std::ranges::any_of(told_rule_base().steps[*step].cautions,
                                   [](Handle<Caution> caution) { return told_rule_base().cautions[caution].id == "K01"; });
    };
    for (const std::string id :
         {"fork_out_black_layer", "open_the_outlet", "draw_off_water", "relay_the_base", "dig_one_hole", "empty_the_sump"}) {
        INFO(id);
        CHECK(warns(id));
    }
    for (const std::string id : {"loosen_the_top", "cover_feed", "sprinkle_in_portions", "stop_feeding", "lift_sour_part",
                                 "insulate_bed", "chop_large_pieces"}) {
        INFO(id);
        CHECK_FALSE(warns(id));
    }
    CHECK_FALSE(has_caution(diagnose_told("fruit_flies=swarm feed_cover=exposed"), "K01"));
    CHECK_FALSE(has_caution(diagnose_told("squeeze=dry_crumbles"), "K01"));
    CHECK_FALSE(has_caution(diagnose_told("feed_citrus=lots worm_avoid=avoid_new_food"), "K01"));
}

}  // namespace engine_first_symptoms_test
