#include "engine/phrasebook.hpp"

#include "engine/hearing/phrase_index.hpp"
#include "tests/catch.hpp"
#include "tests/engine/default_phrasebook.hpp"
#include "tests/engine/short_rules.hpp"

#include <algorithm>
#include <string>
#include <vector>

namespace engine_phrasebook_test {

using namespace lidlift;
using namespace lidlift::test;

namespace {

std::vector<std::string> left_over(std::string_view text) { return phrasebook().read(text).not_understood; }

}  // namespace

TEST_CASE("the example of the main job is read", "[phrasebook]") {
    const auto understanding = phrasebook().read("it reeks of rotten eggs, they are all up the walls and it is not wet on top");
    REQUIRE(understanding.readings.size() == 2);
    CHECK(default_base().signs[understanding.readings[0].sign].id == "smell_rotten");
    CHECK(understanding.readings[0].value == "strong");
    CHECK(understanding.readings[0].words == "reeks of rotten eggs");
    CHECK(default_base().signs[understanding.readings[1].sign].id == "worm_place");
    CHECK(understanding.not_understood == std::vector<std::string>{"it is not wet on top"});
}

TEST_CASE("a negated phrase says the opposite only where there is one", "[phrasebook]") {
    CHECK(heard("there are no centipedes") == "centipedes=no");
    CHECK(heard("I have not seen any beetles") == "beetles_grubs=no");
    CHECK(heard("no smell of ammonia") == "smell_ammonia=none");
    CHECK(heard("no ants or mites") == "ants=none; mites_white=none");
    CHECK(heard("it is not soggy") == "squeeze=not stream");
    CHECK(heard("not wet") == "squeeze=not stream");
    CHECK(heard("it's wet") == "");
    CHECK(heard("the worms are not eating, they do not climb") == "worm_avoid=avoid_new_food");
    CHECK(heard("no smell") == "bad_smell=no");
    CHECK(heard("it doesn't smell") == "bad_smell=no");
}

TEST_CASE("a negation that may reach less or more than the phrase leaves it unread", "[phrasebook]") {
    CHECK(heard("no smell of cabbage") == "");
    CHECK(heard("not much ammonia smell") == "");
    CHECK(heard("not many fruit flies") == "fruit_flies=not swarm");
    CHECK(heard("hardly any ants") == "");
    CHECK(heard("no ants, mites") == "ants=none");
    CHECK(heard("I can't get rid of the ants") == "ants=trail");  // they are there
    CHECK(heard("I can't stand the stench") == "bad_smell=yes");  // it is there
    CHECK(heard("I have had no problem with ants") == "");
    CHECK(heard("not only ants") == "ants=trail");
    CHECK(heard("no worms left in the top tray") == "");
    CHECK(heard("it is not without ants") == "");
}

TEST_CASE("hedges make a reading unsure", "[phrasebook]") {
    CHECK(heard("maybe it is waterlogged") == "squeeze=stream,unsure");
    CHECK(heard("I think it smells of vinegar") == "smell_sour=strong,unsure");
    CHECK(heard("I think it is soggy, and it smells of vinegar") == "squeeze=stream,unsure; smell_sour=strong");
    CHECK(heard("they look like potworms") == "potworms=few,unsure");
}

TEST_CASE("what is over, elsewhere, asked or imagined is not read", "[phrasebook]") {
    for (const char* text :
         {"it used to smell of ammonia", "last year we had ants", "it was soggy but I fixed that",
          "at first there were fruit flies", "my neighbour's bin is full of maggots", "I read that mites are normal",
          "the kitchen pail stinks", "we got rid of the ants", "should I add garden lime?", "if it smells sour I stop",
          "could it be fruit flies", "fruit flies?", "is it too wet, soggy even?", "I want to add garden lime",
          "are these ants or termites", "I wonder whether it is too dry"}) {
        CAPTURE(text);
        CHECK(heard(text).empty());
        CHECK_FALSE(left_over(text).empty());
    }
    CHECK(heard("it used to smell of ammonia but now it smells sour") == "smell_sour=strong");
    CHECK(heard("can you tell me why the worms are trying to escape") == "worm_place=up_walls_lid");
    CHECK(heard("I could see maggots everywhere") == "maggots_white=many");
    CHECK(heard("It stinks, what should I do?") == "bad_smell=yes");
    CHECK(heard("why does it smell of ammonia?") == "smell_ammonia=strong");
}

TEST_CASE("the past tense tells how it is, unless it is over or set against now", "[phrasebook]") {
    CHECK(heard("the bed was too wet") == "squeeze=stream");
    CHECK(heard("the worms were climbing the walls") == "worm_place=up_walls_lid");
    CHECK(heard("it smelled of rotten eggs") == "smell_rotten=strong");
    CHECK(heard("there were fruit flies everywhere") == "fruit_flies=swarm");
    CHECK(heard("I lifted the lid and it was soggy") == "squeeze=stream");
    CHECK(heard("they had been overfed") == "feed_load=very_heavy");
    CHECK(heard("there were fruit flies everywhere. The bed is too wet.") == "fruit_flies=swarm,unsure; squeeze=stream");
    CHECK(heard("there were fruit flies everywhere. I have a lid on it now.") == "fruit_flies=swarm,unsure");
    CHECK(heard("the bed was too wet until last week").empty());
    CHECK(heard("it was too wet, but now it is dry").empty());
    CHECK(heard("the bed was too wet. It is fine now.").empty());
    CHECK(heard("the bed was too wet. It is not fine now.") == "squeeze=stream,unsure");
    CHECK(heard("the bed was too wet. It is bone dry.") == "squeeze=dry_crumbles");
    CHECK(heard("the bed was too wet. The bed was too dry.").empty());
}

TEST_CASE("smoke and fire are heard whatever is burning, as a guess and in the past tense", "[phrasebook]") {
    for (const char* text :
         {"the heap is on fire", "the heap caught fire", "the pile is smouldering", "the muck is smoking and steaming",
          "bluish smoke", "smoke is coming from the heap", "there is a burnt smell", "it smells like something burning",
          "the compost smells burnt", "it is scorched inside"}) {
        CAPTURE(text);
        // What is burning - a drum, a windrow - may be heard beside it.
        CHECK(heard(text).ends_with("smell_smoke=yes"));
    }
    CHECK(heard("there was smoke coming out of it") == "smell_smoke=yes");
    for (const char* text : {"I think it is smouldering", "it could be smouldering", "I am afraid the heap is on fire",
                             "the straw in the shed is on fire"}) {
        CAPTURE(text);
        CHECK(heard(text) == "smell_smoke=yes,unsure");
    }
    for (const char* text : {"the heap was on fire last year", "the neighbour's heap is on fire", "could it be on fire?",
                             "no smoke comes out", "if it is on fire I call you"}) {
        CAPTURE(text);
        CHECK(heard(text).find("smell_smoke=yes") == std::string::npos);
    }
}

TEST_CASE("other dangers are heard in plain words", "[phrasebook]") {
    CHECK(heard("a rat has been digging") == "rodents=seen");
    CHECK(heard("I saw a mouse") == "rodents=seen");
    CHECK(heard("there are droppings beside it") == "rodents=droppings_burrows");
    CHECK(heard("the bottom smells of rotten eggs") == "smell_rotten=strong");
    CHECK(heard("it smells sharply of ammonia") == "smell_ammonia=strong");
    CHECK(heard("stinging eyes") == "smell_ammonia=strong");
    for (const char* text :
         {"my husband collapsed by the tank", "my other half has collapsed", "somebody collapsed in the pit"}) {
        CAPTURE(text);
        CHECK(heard(text).find("person_symptom=collapsed") != std::string::npos);
    }
    for (const char* text :
         {"my heap has collapsed", "the bed collapsed", "rats get into the tank", "the scraps go in the tank"}) {
        CAPTURE(text);
        CHECK(heard(text).find("person_symptom") == std::string::npos);
        CHECK(heard(text).find("entry_planned") == std::string::npos);
    }
    CHECK(heard("he went down into the sump and he isn't answering").find("entry_planned=yes") != std::string::npos);
    CHECK(heard("there is a burning smell coming from the bottom").find("smell_smoke=yes") != std::string::npos);
}

TEST_CASE("people down in a pit, and whoever swallowed something, are heard in plain words", "[phrasebook]") {
    for (const char* text :
         {"a man is down in the sump", "my brother went down in the sump and he's not answering",
          "grandpa went into the tank to clear the drain and we can't hear him any more", "a worker is stuck in the tank",
          "he stepped into the sump and went limp", "he is in the tank and does not move"}) {
        CAPTURE(text);
        CHECK(heard(text).find("person_symptom=collapsed") != std::string::npos);
    }
    for (const char* text : {"the worms are all down in the sump", "the worms are stuck in the tank", "a worm went limp"}) {
        CAPTURE(text);
        CHECK(heard(text).find("person_symptom") == std::string::npos);
    }
    for (const char* text : {"my boy drank from the leachate bucket", "a kid put compost in his mouth",
                             "my daughter ate rat poison we put by the tank", "he swallowed some of it"}) {
        CAPTURE(text);
        CHECK(heard(text).find("person_symptom=swallowed") != std::string::npos);
    }
    for (const char* text : {"the heap smokes", "flames came out of it", "the heap is glowing at night"}) {
        CAPTURE(text);
        CHECK(heard(text).find("smell_smoke=yes") != std::string::npos);
    }
}

TEST_CASE("heaps, piles and trays are spoken of as beds are", "[phrasebook]") {
    for (const char* text : {"the heap stinks", "the pile stinks", "the tumbler stinks", "the pit stinks", "the manure stinks",
                             "the composter stinks"}) {
        CAPTURE(text);
        CHECK(heard(text).find("bad_smell=yes") != std::string::npos);
    }
    CHECK(heard("the castings stink") == "smell_where=product_heap");
}

TEST_CASE("asking about a dangerous plan tells of the plan", "[phrasebook]") {
    CHECK(heard("can I climb into the tank to clear it?") == "entry_planned=yes");
    CHECK(heard("should I spray them?") == "pesticide_idea=yes");
}

TEST_CASE("one word for two things is read only where it is clear which", "[phrasebook]") {
    CHECK(heard("mould on the lid").empty());
    CHECK(heard("there are mites and they are all on the lid") == "mites_white=few");
    CHECK(heard("the worms are all on the lid") == "worm_place=up_walls_lid");
    CHECK(heard("baby worms").empty());
    CHECK(heard("white worms under the lid").find("worm_place") == std::string::npos);
    CHECK(heard("hot inside the garage").empty());
    CHECK(heard("they have stopped feeding").empty());
    CHECK(heard("I stopped feeding them") == "feed_load=none");
    CHECK(heard("I stopped eating meat").empty());
    CHECK(heard("the shelf collapsed").empty());
    CHECK(heard("my husband collapsed") == "person_symptom=collapsed");
    CHECK(heard("bird droppings").empty());
    CHECK(heard("smells like cat food").empty());
    CHECK(heard("I feed them mushrooms").empty());
    CHECK(heard("ant powder") == "feed_chemical=suspected");
    CHECK(heard("overnight it gets cold").empty());
    CHECK(heard("water is pooling in the garden").empty());
    CHECK(heard("there were ants in the kitchen").empty());
    CHECK(heard("my old bin was soggy; this one is bone dry") == "squeeze=dry_crumbles");
}

TEST_CASE("amounts choose the answer, or none", "[phrasebook]") {
    CHECK(heard("there are loads of mites") == "mites_white=carpet");
    CHECK(heard("condensation all over the lid") == "condensation=heavy");
    CHECK(heard("mites everywhere") == "mites_white=carpet");
    CHECK(heard("a few mites") == "mites_white=few");
    CHECK(heard("one or two fruit flies") == "fruit_flies=few");
    CHECK(heard("a bit soggy").empty());
}

TEST_CASE("answers that contradict each other are both left to be asked", "[phrasebook]") {
    CHECK(heard("it is too wet. it is too dry.").empty());
    CHECK(left_over("it is too wet. it is too dry.") == std::vector<std::string>{"it is too wet", "it is too dry"});
    CHECK(heard("too wet or too dry").empty());
}

TEST_CASE("a clause that breaks off after a measure is read to its end and no further", "[phrasebook]") {
    for (const char* text :
         {"under six inches of", "6 inches of", "there are 6 inches of.", "about 3 cm of, well", "2 inches"}) {
        CAPTURE(text);
        CHECK(heard(text).find("uneaten_layer") == std::string::npos);
    }
}

TEST_CASE("numbers are read with their unit and next to what they measure", "[phrasebook]") {
    CHECK(heard("the bed is at 31 degrees C") == "bed_temperature=31 °C");
    CHECK(heard("the probe says 31°C") == "bed_temperature=31 °C");
    CHECK(heard("95F inside the bin") == "bed_temperature=95 °F");
    CHECK(heard("28-32 C in the bed") == "bed_temperature=28 to 32 °C");
    CHECK(heard("the bed went from 20 C to 35 C").empty());
    CHECK(heard("the bed is at 40 degrees").empty());
    CHECK(heard("it is 40 C outside the bin") == "weather=heatwave");
    CHECK(heard("the bed is at 900 C").empty());
    CHECK(heard("the heap reached 65 C") == "heap_peak=65 °C");
    CHECK(heard("worms arrived two weeks ago") == "days_since_worms=2 weeks");
    CHECK(heard("I added more worms 3 days ago").find("days_since_worms") == std::string::npos);
    CHECK(heard("about 10 days ago I fed them") == "days_since_feed=10 days,unsure");
}

TEST_CASE("one slip in a long word is forgiven, a short word is not guessed", "[phrasebook]") {
    CHECK(heard("it smells of amonia") == "smell_ammonia=strong");
    CHECK(heard("condensaton") == "condensation=light");
    CHECK(heard("it is wateerlogged") == "squeeze=stream");
    CHECK(heard("what is the matter").empty());
    CHECK(heard("antz").empty());
    CHECK(heard("the worms are doing great").empty());
    CHECK(heard("worms are lying there, drying, laying, living").empty());
}

TEST_CASE("one more word within a phrase of three is forgiven, unless it says something of its own", "[phrasebook]") {
    const RuleBase base = Rules()
                              .sign("dew", "answers: {yes: {means: dew, heard as: [lid covered in drops]}}")
                              .sign("storm", "answers: {yes: {means: a storm, heard as: [thunderstorm]}}")
                              .base();
    const Phrasebook book(base);
    const auto signs = [&](std::string_view text) {
        std::string result;
        for (const Reading& reading : book.read(text).readings)
            result += (result.empty() ? "" : " ") + base.signs[reading.sign].id;
        return result;
    };
    CHECK(signs("the lid is covered in drops") == "dew");
    CHECK(signs("the lid is covered in water drops") == "dew");
    CHECK(signs("the lid is covered in big water drops").empty());
    CHECK(signs("the lid is covered in no drops").empty());
    CHECK(signs("the lid is covered in 3 drops").empty());
    CHECK(signs("the lid is covered in thunderstorm drops") == "storm");
}

TEST_CASE("what is said of other days, other places and the weather is not said of the bed", "[phrasebook]") {
    CHECK(heard("I had a bin in my last flat and it was always sopping, years ago that was").empty());
    CHECK(heard("the caretaker before me let it go bone dry").empty());
    CHECK(heard("it has been really wet lately").empty());
    CHECK(heard("it has been really wet") == "squeeze=stream");
    CHECK(heard("it's 43 in the shade").find("sun=") == std::string::npos);
    CHECK(heard("it stands in the shade") == "sun=shade");
}

TEST_CASE("what the worms do somewhere tells where they are", "[phrasebook]") {
    CHECK(heard("the worms have dived to the base") == "worm_place=deep_bottom");
    CHECK(heard("hundreds of worms resting on the lid").find("worm_place=up_walls_lid") != std::string::npos);
    CHECK(heard("worms eat the food at the base").find("worm_place") == std::string::npos);
    CHECK(heard("nearly all my worms are dead") == "worm_dead=many");
}

TEST_CASE("an ending that is written with an apostrophe hides nothing", "[phrasebook]") {
    CHECK(heard("the bin's soggy") == heard("the bin is soggy"));
    CHECK(heard("the bin's soggy") == "squeeze=stream");
    CHECK(heard("I can't understand why it stinks of ammonia") == "smell_ammonia=strong");
    CHECK(heard("we never found a rat near it") == "rodents=none");
    CHECK(heard("the bags are warming up in the shed") == "reheats=yes");
}

TEST_CASE("words are shown as they were typed", "[phrasebook]") {
    const auto understanding = phrasebook().read("Well, it REEKS like Rotten Eggs!");
    REQUIRE(understanding.readings.size() == 1);
    CHECK(understanding.readings[0].words == "REEKS like Rotten Eggs");
    CHECK(left_over("my grandmother kept bees and sang, there are ants") ==
          std::vector<std::string>{"my grandmother kept bees and sang"});
    CHECK(heard("it doesn\u2019t smell") == "bad_smell=no");
    CHECK(phrasebook().read("it is really not soggy").readings.at(0).words == "not soggy");
    CHECK(phrasebook().read("we have no smell of ammonia").readings.at(0).words == "no smell of ammonia");
}

TEST_CASE("no phrase of the default rule base belongs to two answers", "[phrasebook]") {
    const hearing::PhraseIndex index(default_base());
    std::vector<std::string> lost;
    for (const Sign& sign : default_base().signs)
        for (const Answer& answer : sign.answers)
            for (const std::string& phrase : answer.heard_as)
                if (!index.knows(phrase)) lost.push_back(phrase);
    CAPTURE(lost);
    CHECK(lost.empty());
}

TEST_CASE("a rule base without the signs that figures speak of is read all the same", "[phrasebook]") {
    const RuleBase empty;
    const auto understanding = Phrasebook(empty).read("the bed is at 31 C and worms arrived 3 days ago");
    CHECK(understanding.readings.empty());
    CHECK(understanding.not_understood == std::vector<std::string>{"the bed is at 31 C and worms arrived 3 days ago"});
}

TEST_CASE("hostile text is read in bounded time", "[phrasebook]") {
    for (const std::string unit : {"no ", "a", "fed today ", "worms ", "so really ", "not ants or ", "?", ",", "'", "-1",
                                   "1 c ", "\xc3\xa9", "smells like like ", "<many> ", "amonia "}) {
        std::string text;
        while (text.size() < 3 * Phrasebook::longest_text) text += unit;
        CHECK(phrasebook().read(text).not_understood.size() <= 2 * Phrasebook::longest_text);
    }
    CHECK(left_over(std::string(10000, 'x')).size() == 1);
    CHECK(left_over("").empty());
    CHECK(left_over("...?!").empty());
}

}  // namespace engine_phrasebook_test
