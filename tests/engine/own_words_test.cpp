// How well callers' own words are heard, and what is asked where they may mean several things.
#include "engine/answers.hpp"
#include "engine/hearing/kin.hpp"
#include "engine/hearing/phrase_index.hpp"
#include "engine/hearing/stems.hpp"
#include "tests/catch.hpp"
#include "tests/engine/caller_sentences.hpp"
#include "tests/engine/default_phrasebook.hpp"

#include <cstdlib>

namespace engine_own_words_test {

using namespace lidlift;
using namespace lidlift::test;

namespace {

/// "words: sign, sign"
std::string asked(std::string_view text) {
    std::string result;
    for (const OpenQuestion& open : phrasebook().read(text).to_ask) {
        result += (result.empty() ? "" : "; ") + open.words + ":";
        for (const auto sign : open.signs) result += " " + default_base().signs[sign].id;
    }
    return result;
}

struct Halves {
    Score tuned;
    Score kept_back;
};

/// Of every `each` sentences the one at place `kept` is kept back: nobody looks at its misses.
Halves score(const std::string& file, std::size_t each, std::size_t kept) {
    const bool tell = std::getenv("LIDLIFT_TELL") != nullptr;
    const auto sentences = caller_sentences(file);
    Halves halves;
    for (std::size_t i = 0; i < sentences.size(); ++i) {
        const bool back = i % each == kept;
        add_score(phrasebook(), default_base(), sentences[i], tell && !back, back ? halves.kept_back : halves.tuned);
    }
    for (const auto& [name, part] : {std::pair{"tuned on", halves.tuned}, std::pair{"kept back", halves.kept_back}})
        std::cout << file << ' ' << name << ": precision " << part.precision() << " (" << part.right << " right, " << part.wrong
                  << " wrong), recall " << part.recall() << " (" << part.missed << " missed)\n";
    return halves;
}

struct Floor {
    double precision;
    double recall;
};
/// What is reached, and a little less. Of each set `size` is how many sentences there are at least.
struct SentenceSet {
    const char* file;
    std::size_t size;
    std::size_t each;  ///< see score
    std::size_t kept;
    Floor tuned;
    Floor kept_back;
};
constexpr SentenceSet sentence_sets[] = {
    {"caller_sentences.txt", 160, 3, 2, {0.97, 0.96}, {0.95, 0.85}},
    {"caller_sentences_two.txt", 220, 2, 1, {0.97, 0.90}, {0.91, 0.78}},
    {"caller_sentences_three.txt", 60, 2, 1, {0.95, 0.70}, {0.85, 0.64}},
    {"caller_sentences_four.txt", 80, 2, 1, {0.92, 0.60}, {0.70, 0.31}},
    {"caller_sentences_five.txt", 120, 2, 1, {0.75, 0.41}, {0.65, 0.23}},
};

}  // namespace

TEST_CASE("the caller sentences are read", "[phrasebook][sentences]") {
    for (const SentenceSet& set : sentence_sets) {
        CAPTURE(set.file);
        REQUIRE(caller_sentences(set.file).size() >= set.size);
        const auto halves = score(set.file, set.each, set.kept);
        CHECK(halves.tuned.precision() >= set.tuned.precision);
        CHECK(halves.tuned.recall() >= set.tuned.recall);
        CHECK(halves.kept_back.precision() >= set.kept_back.precision);
        CHECK(halves.kept_back.recall() >= set.kept_back.recall);
    }
}

TEST_CASE("the labels of the caller sentences name signs and answers of the default rules", "[phrasebook][sentences]") {
    for (const SentenceSet& set : sentence_sets)
        for (const Sentence& sentence : caller_sentences(set.file))
            for (const Expected& expected : sentence.expected)
                for (const std::string& reading : expected.readings) {
                    CAPTURE(set.file, sentence.words, reading);
                    Told told;
                    const auto equals = reading.find('=');
                    CHECK_FALSE(
                        hear(told, default_base(), reading.substr(0, equals), reading.substr(equals + 1), "").has_value());
                }
}

TEST_CASE("the default rules hold phrases enough", "[phrasebook]") {
    std::size_t phrases = 0;
    for (const Sign& sign : default_base().signs)
        for (const Answer& answer : sign.answers) phrases += answer.heard_as.size();
    CHECK(phrases >= 600);
}

TEST_CASE("what may mean several things is asked, not assumed", "[phrasebook]") {
    CHECK(heard("there are baby worms all over").empty());
    CHECK(asked("there are baby worms all over") == "baby worms: potworms worm_young");
    CHECK(asked("there are white wriggly things in it") == "white wriggly things: maggots_white potworms");
    CHECK(asked("it's so hot") == "it's so hot: hand_heat weather");
    CHECK(heard("it's so hot").empty());
    // A clearer word of the same text answers it.
    CHECK(asked("there are baby worms and cocoons and babies").empty());
    // Denied, over, or said of another bed: nothing to ask.
    for (const char* text :
         {"no baby worms", "last year we had baby worms", "my neighbour's bin has baby worms", "are there baby worms?"}) {
        CAPTURE(text);
        CHECK(asked(text).empty());
    }
}

TEST_CASE("a vague complaint leads to the question of what kind it is", "[phrasebook]") {
    CHECK(heard("it stinks") == "bad_smell=yes");
    CHECK(asked("it stinks") == "it stinks: smell_rotten smell_ammonia smell_sour");
    CHECK(asked("it stinks of vinegar").empty());
    CHECK(asked("it stinks, it smells of ammonia").empty());
    CHECK(asked("it does not smell").empty());
}

TEST_CASE("a sure word counts for more than a guess at the same sign", "[phrasebook]") {
    CHECK(heard("maybe it is too wet. it is soaking wet.") == "squeeze=stream");
    CHECK(heard("I think it is too dry. no, it is soaking wet.") == "squeeze=stream");
}

TEST_CASE("a material that somebody fed counts towards its sign", "[phrasebook]") {
    CHECK(heard("I added fish last week") == "feed_protein=some");
    CHECK(heard("we put in loads of bread") == "feed_starch_sugar=lots");
    for (const char* text : {"should I add fish?", "I never added fish", "I threw out the bread", "we added fish tank water",
                             "my neighbour put fish in hers", "they eat bread"}) {
        CAPTURE(text);
        CHECK(heard(text).empty());
    }
}

TEST_CASE("what a question takes for granted is there", "[phrasebook]") {
    CHECK(heard("How do I get rid of the ants in my bin?") == "ants=trail");
    CHECK(heard("I can't get rid of these fruit flies") == "fruit_flies=swarm");
    CHECK(heard("we have a problem with fruit flies") == "fruit_flies=swarm");
    CHECK(heard("no problem with flies") == "flies_unnamed=no");
    for (const char* text : {"How do I keep ants out?", "I got rid of the ants", "any problems with rats?"}) {
        CAPTURE(text);
        CHECK(heard(text).empty());
    }
}

TEST_CASE("what is said of another bin, or denied after all, is not heard", "[phrasebook]") {
    for (const char* text :
         {"our last bin got flooded", "my old compost heap was full of rats", "my cat's litter tray smells",
          "people warned me about rats but I've not seen one", "there is a sour smell coming from my fridge",
          "they say it should not be put on the vegetable garden", "my garden is full of worms",
          "I sprayed the bin with the hose", "I don't feed them citrus", "the flies don't drown, they just sit on the soil"}) {
        CAPTURE(text);
        CHECK(heard(text).empty());
    }
    CHECK(heard("I haven't noticed any smell") == "bad_smell=no");
    CHECK(heard("I've never seen so many maggots") == "maggots_white=many");
}

TEST_CASE("a story that is set at a moment just past tells of now until it goes farther back", "[phrasebook]") {
    CHECK(heard("On Sunday I lifted the lid. The bedding was soaking wet. The lid is dripping.") ==
          "squeeze=stream; condensation=heavy");
    CHECK(heard("The bedding was soaking wet. The worms are pale.") == "squeeze=stream,unsure; worm_colour=pale");
    CHECK(heard("On Sunday I lifted the lid. Last year there were ants. The bedding was soaking wet. The worms are pale.") ==
          "squeeze=stream,unsure; worm_colour=pale");
    CHECK(heard("the bin froze solid before I could move it") == "bed_temperature=freezing");
}

TEST_CASE("a plain complaint is heard, and gives way to what says more", "[phrasebook]") {
    CHECK(heard("the bin smells") == "bad_smell=yes");
    CHECK(heard("the bin smells of vinegar") == "smell_sour=strong");
    CHECK(heard("the bin smells lovely") == "bad_smell=no");
    CHECK(heard("the bin has flies") == "flies_unnamed=yes");
    CHECK(asked("the bin has flies") == "bin has flies: fruit_flies fungus_gnats house_flies");
    CHECK(asked("a cloud of tiny flies") == "cloud of tiny flies: fruit_flies fungus_gnats house_flies");
    CHECK(asked("there are fruit flies all over the lid").empty());
    CHECK(heard("the worms have gone") == "worm_trend=gone");
    for (const char* text : {"the worms have gone mad", "the worms have gone to the far end"}) {
        CAPTURE(text);
        CHECK(heard(text).find("worm_trend") == std::string::npos);
    }
}

TEST_CASE("food that lies in the bed was fed, and in what form does not matter", "[phrasebook]") {
    CHECK(heard("there is bread in it") == "feed_starch_sugar=some");
    CHECK(heard("the bread that someone had put in") == "feed_starch_sugar=some");
    CHECK(heard("I put fruit leftovers in") == "feed_starch_sugar=some");
    CHECK(heard("I put quicklime on it") == "amendment=caustic_lime");
    CHECK(heard("there is bread on the table").empty());
}

TEST_CASE("a heap that is hot now has been as hot as that", "[phrasebook]") {
    CHECK(heard("the pile reads 160 degrees F") == "heap_peak=160 °F");
    CHECK(heard("the pile is at 150 degrees") == "heap_peak=150 °F");  // no heap is that hot in degrees Celsius
    CHECK(heard("the pile reads 30 C").empty());
}

TEST_CASE("what belongs to somebody or something else is left there", "[phrasebook]") {
    for (const char* text : {"the neighbours have rats", "a bag of mushroom compost"}) {
        CAPTURE(text);
        CHECK(heard(text).empty());
    }
    CHECK(heard("the neighbours have complained about the smell") == "complaint=smell");
    CHECK(heard("two carrier bags of leaves").find("feed_contaminants") == std::string::npos);
    CHECK(heard("they are black soldier fly larvae") == "bsf_larvae=many");
    CHECK(heard("rain got into the tank").find("entry_planned") == std::string::npos);
    CHECK(heard("Ravi got into the tank") == "entry_planned=yes");
    CHECK(heard("these horrible slugs") == "slugs_snails=yes");
}

TEST_CASE("a time that leads in a trouble tells when it began", "[phrasebook]") {
    CHECK(heard("For the past few weeks, I find worms under the lid") == "trouble_started=for_weeks; worm_place=up_walls_lid");
    CHECK(heard("For the past few weeks, I fed them twice").find("trouble_started") == std::string::npos);
}

TEST_CASE("numbers in words are heard", "[phrasebook]") {
    CHECK(heard("we have ninety five fahrenheit in the middle of the bed") == "bed_temperature=95 °F");
    CHECK(heard("the bed is at thirty four celsius") == "bed_temperature=34 °C");
    CHECK(heard("I set up my first wormery three weeks ago") == "days_since_worms=3 weeks");
    CHECK(heard("worms arrived a fortnight ago") == "days_since_worms=2 weeks");
    CHECK(heard("the pH is five and a half") == "ph=5.5");
    CHECK(heard("we were away for three weeks").find("been_away=yes") != std::string::npos);
    CHECK(heard("it was 98 F outside") == "weather=heatwave");
    CHECK(heard("it was minus five here last night").find("weather=cold_snap") != std::string::npos);
    CHECK(heard("it was 40 degrees outside").find("bed_temperature") == std::string::npos);
    CHECK(heard("the bed is about two feet deep") == "bed_depth=from_30_to_60cm");
}

TEST_CASE("a phrase is heard in other words of the same kin", "[phrasebook]") {
    CHECK(heard("a maggot") == "maggots_white=few");
    CHECK(heard("several cockroaches") == "cockroaches=yes");
}

TEST_CASE("stems join inflections and part what only looks alike", "[hearing]") {
    using hearing::stem_of;
    CHECK(stem_of("climbing") == stem_of("climbs"));
    CHECK(stem_of("clogged") == stem_of("clogs"));
    CHECK(stem_of("dying") == stem_of("died"));
    for (const auto& [one, other] : std::vector<std::pair<std::string, std::string>>{{"bedding", "bed"},
                                                                                     {"castings", "cast"},
                                                                                     {"leaves", "leave"},
                                                                                     {"hardly", "hard"},
                                                                                     {"handful", "hand"},
                                                                                     {"matted", "mat"}}) {
        CAPTURE(one, other);
        CHECK(stem_of(one) != stem_of(other));
    }
    CHECK(stem_of("") == "");
    CHECK(stem_of(std::string(1000, 'x')) == std::string(1000, 'x'));
    CHECK(stem_of("\xff\xfe\xfd\xfc\xfb").size() <= 5);
}

TEST_CASE("synonyms share a key, and a word has but one", "[hearing]") {
    CHECK(hearing::kin_of("clogged") == hearing::kin_of("blocked"));
    CHECK(hearing::kin_of("wormery") == hearing::kin_of("tank"));
    CHECK(hearing::kin_of("sour") != hearing::kin_of("foul"));
    CHECK(hearing::kin_of("cover") != hearing::kin_of("covered"));
}

}  // namespace engine_own_words_test
