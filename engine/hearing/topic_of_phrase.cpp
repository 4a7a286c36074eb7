#include "engine/hearing/topic_of_phrase.hpp"

#include "engine/hearing/little_words.hpp"
#include "engine/hearing/sign_kinds.hpp"

#include <algorithm>

namespace lidlift::hearing {
namespace {

/// A phrase this long means what it says whatever follows: "ants going up the leg" of the stand.
constexpr std::size_t long_phrase = 4;

class Topic : private Surroundings {
public:
    explicit Topic(const Surroundings& phrase) : Surroundings(phrase) {}

    [[nodiscard]] bool is_about_its_topic(bool emergency) const {
        if (is_of_a_thing() || makes_another_thing() || smells_somehow()) return false;
        if (compared() || is_in_another_place() || is_cut_short() || is_weather()) return false;
        if (tells_a_beginning(sign_) && !tells_when_it_began()) return false;
        const std::string& topic = sign_.topic;
        if (topic == "worms")
            return is_about_worms() && (names_worms() || subject_is_known(english().worm_words) || worms_do_so());
        if (topic == "people") return !is_done_by_no_person() && (!one_word() || subject_is_known(english().person_words));
        if (topic == "heat") return !stands_around(english().weather_words) && subject_is_known(english().bed_words);
        // What smoulders smoulders, whatever it is.
        if (emergency) return true;
        if (topic == "smell" || topic == "moisture" || topic == "structure" || topic == "product")
            return subject_is_known(english().bed_words);
        if (meaning_.of_material) return !worms_are_feeding();
        if (topic == "feed")
            return !worms_are_feeding() && (!one_word() || was_put_on() || subject_is_known(english().bed_words));
        if (topic == "animals" || topic == "mould")
            return !stands_before(english().feeding_verbs) &&
                   (!one_word() || is_only_described() || subject_is_known(english().bed_words));
        // "They sit on the soil", said of flies.
        const auto before = neighbour_before();
        if (before && word(*before) == "they" && scene_.others_spoken_of) return false;
        return !one_word() || subject_is_known(english().bed_words);
    }

    /// What stands before the phrase names nothing, or names what the sign is about.
    [[nodiscard]] bool subject_is_known(const Sayings& subjects) const {
        const auto before = neighbour_before();
        static const Sayings kitchen_pails("caddy|caddies|pail|pails|dustbin|dustbins");
        if (before && kitchen_pails.has(word(*before))) return false;
        if (!before || !free(*before)) return true;
        static const Sayings not_the_bed("they|i|we|he|she|you");
        static const Sayings smelling("smell|stinks|reeks|smelly");
        const bool of_the_bed = &subjects == &english().bed_words;
        static const Sayings felt_by_hand("my|your|hand|arm|finger");
        const bool felt = std::ranges::any_of(scene_.words.subspan(match_.first, match_.length()),
                                              [](const Word& said) { return felt_by_hand.has(said.text); });
        static const Sayings there_is("have|has|had|got|see|find|found");
        // "We have no smell of ammonia" says that there is none.
        const bool only_there = has_before() && there_is.has(word(match_.first - 1));
        // "I smelt smoke": who smelt it does not matter.
        static const Sayings perceived("smell|see|saw|seen");
        const bool by_the_caller = english().speakers.has(word(*before)) && perceived.has(word(match_.first));
        if (of_the_bed && (felt || only_there || by_the_caller)) return true;
        if (of_the_bed && !one_word() && not_the_bed.has(word(*before))) return false;
        if (of_the_bed && smelling.has(word(*before))) return true;
        return english().little.has(word(*before)) || subjects.has(word(*before)) || english().weakeners.has(word(*before)) ||
               english().hedges.has(word(*before)) || scene_.words[*before].means_worms;
    }

private:
    /// "Rain got into the tank"; a name or a trade that is not known is somebody.
    [[nodiscard]] bool is_done_by_no_person() const {
        static const Sayings things(
            "rain|rainwater|water|snow|wind|air|light|sun|sunlight|soil|mud|roots|heat|cold|frost|liquid|scraps|waste|food|"
            "peel|"
            "peels|peelings|leaves|paper|cardboard|rat|rats|mouse|mice|flies|fly|ants|cockroaches|maggots|roof|lid|wall|walls|"
            "cover|bed|beds|bedding|compost|stack|windrow");
        // "My other half collapsed": only what is surely a thing is no person.
        const auto before = neighbour_before();
        return before && (things.has(word(*before)) || english().containers.has(word(*before)) ||
                          english().others_that_they_may_be.has(word(*before)) || english().worm_words.has(word(*before)) ||
                          scene_.words[*before].means_worms);
    }

    /// "I put quicklime on it"
    [[nodiscard]] bool was_put_on() const {
        static const Sayings putting(
            "put|add|added|adding|gave|give|giving|sprinkle|sprinkled|dust|dusted|use|used|using|tip|tipped|threw|mix|mixed|"
            "spread|scatter|scattered|apply|applied");
        return has_before() && free(match_.first - 1) && putting.has(word(match_.first - 1));
    }

    /// "Huge slugs", "these blasted ants": of whatever size, they are slugs and ants.
    [[nodiscard]] bool is_only_described() const {
        static const Sayings adjectives(
            "huge|enormous|massive|giant|fat|horrible|nasty|horrid|evil|dreaded|blasted|blinking|bloody|damn|damned|pesky|"
            "annoying|wretched|ordinary|normal|common|real|actual|few|various|more|new|live|two|three|four|five|six|ten|big|"
            "large|"
            "long|fast|quick|brown|reddish|african|whopping|plump|juicy");
        return has_before() && free(match_.first - 1) && adjectives.has(word(match_.first - 1));
    }

    /// "Carrier bags of peel" are no plastic in the waste; "the lid of my bin" is a lid all the same.
    [[nodiscard]] bool is_of_a_thing() const {
        if (!has_after() || word(match_.last) != "of" || word(match_.last - 1) == "out" || match_.length() >= long_phrase)
            return false;
        std::size_t thing = match_.last + 1;
        while (thing < scene_.words.size() && (word(thing) == "my" || word(thing) == "our" || word(thing) == "worm")) ++thing;
        return thing == scene_.words.size() || !english().containers.stands_at(scene_.words, thing);
    }

    /// "Ant powder", "mushroom compost"
    [[nodiscard]] bool makes_another_thing() const {
        return has_after() && free(match_.last) && english().makes_another_thing.has(word(match_.last));
    }

    /// "It smells", where it goes on with what it smells: lovely, sort of sweet, like a wood.
    [[nodiscard]] bool smells_somehow() const {
        static const Sayings goes_on_with_time_or_place(
            "when|whenever|again|now|all|in|from|at|since|every|after|near|too|there|here|inside|if|while|today|this|last|on|"
            "by|"
            "around|so");
        // "A burning smell coming up" is a smell, and does not smell.
        const bool does_smell =
            match_.length() == 2 && word(match_.last - 1) == "smell" && english().bed_words.has(word(match_.first));
        return sign_.topic == "smell" && has_after() && does_smell && free(match_.last) &&
               !goes_on_with_time_or_place.has(word(match_.last)) &&
               !english().clause_openers.stands_at(scene_.words, match_.last);
    }

    /// "Smells like cat food", "like worms": the thing itself need not be there.
    [[nodiscard]] bool compared() const {
        if (!has_before()) return false;
        const std::size_t before = match_.first - 1;
        if (!free(before)) return false;
        if (word(before) == "like") return before == scene_.clause.first || !word(before - 1).starts_with("look");
        return word(before) == "of" && before > scene_.clause.first && word(before - 1) == "smell";
    }

    /// "Ants in the kitchen", "water is pooling in the garden"
    [[nodiscard]] bool is_in_another_place() const {
        static const Sayings places(
            "in garden|in my garden|in our garden|in yard|in my yard|on lawn|in kitchen|in my kitchen|in our kitchen|in "
            "house|in my house|in "
            "our house|in shed|in street|in soil outside|in field|in basement|in pantry|next door|down road");
        static const Sayings from_elsewhere(
            "from fridge|from my fridge|from sink|from my sink|from kitchen|from next door|from neighbours|from my neighbours|"
            "from street|from toilet|from bathroom|from road|from farm next door");
        static const Sayings my_ground("garden|yard|lawn|path|pavement|flower bed|veg patch|vegetable patch|allotment");
        // "My garden is full of worms"
        if (sign_.topic == "worms" && names_worms() && stands_before(my_ground) && !stands_before(english().containers))
            return true;
        // What was harvested is stored and used in such places.
        if (sign_.topic == "product" || !has_after() || !free(match_.last)) return false;
        const std::size_t after = word(match_.last) == "coming" ? match_.last + 1 : match_.last;
        return places.stands_at(scene_.words, match_.last) ||
               (after < scene_.words.size() && from_elsewhere.stands_at(scene_.words, after));
    }

    /// "They are tiny white threads", "they are black soldier flies": that the threads are white is meant, not that the worms
    /// are tiny. "Sprayed the bin with the hose": only water.
    [[nodiscard]] bool is_cut_short() const {
        static const Sayings looks("tiny|small|thin|little|pale|white|red|big|fat|black|dark|brown|grey|yellow|purple");
        static const Sayings only_water(
            "with hose|with my hose|with a hose|with water|with some water|with rainwater|with plain water");
        static const Sayings sprayed("spray|sprayed|spraying|sprays");
        if (!has_after()) return false;
        if (sign_.topic == "worms" && match_.length() > 1 && looks.has(word(match_.last - 1)))
            return !english().little.has(word(match_.last)) && !english().clause_openers.has(word(match_.last)) &&
                   !english().worm_words.has(word(match_.last));
        return free(match_.last) && sprayed.has(word(match_.first)) && only_water.stands_at(scene_.words, match_.last);
    }

    /// "It has been really wet lately", "43 in the shade": that is the weather.
    [[nodiscard]] bool is_weather() const {
        static const Sayings times(
            "lately|outside|outdoors|out here|out there|round here|around here|all week|all month|for days|for weeks|this "
            "week|this month|this summer|this winter|this spring|this autumn|last few days|last few weeks");
        static const Sayings degrees("degrees|degree|celsius|fahrenheit|c|f");
        if (sign_.topic == "moisture") {
            const auto before = neighbour_before();
            const bool it = (before && word(*before) == "it") || word(match_.first) == "it";
            return it && has_after() && times.stands_at(scene_.words, match_.last);
        }
        if (word(match_.last - 1) != "shade" || !has_before()) return false;
        const std::string& before = word(match_.first - 1);
        return degrees.has(before) || (before.front() >= '0' && before.front() <= '9');
    }

    [[nodiscard]] bool names_worms() const { return meaning_.speaks_of_worms || english().worm_words.has(word(match_.first)); }

    /// "The worms have dived to the base", "hundreds of them resting on top": what they do there stands between.
    [[nodiscard]] bool worms_do_so() const {
        static const Sayings doing(
            "went|gone|go|sat|sit|lay|lie|hung|hang|live|lived|dived|dive|hid|hide|huddled|gathered|gather|clustered|cluster|"
            "drowned|moved|move|headed|heading|burrowed|climbed|crawled|dropped|fell|fallen|stuck|ended up|piled|bunched|"
            "congregated|congregate|concentrated|collected|settled|plastered|packed|clinging|cling|clung|resting|hanging|"
            "sitting|lying|living|hiding|diving|huddling|gathering|clustering|crawling|climbing|moving|burrowing|staying|"
            "massing|massed|swimming|wandering|roaming|squirming|wriggling|basking|sunning|found|dead|all");
        bool any = false;
        for (std::size_t i = match_.first; i > scene_.clause.first; --i) {
            const Word& before = scene_.words[i - 1];
            if (english().worm_words.has(before.text) || before.means_worms) return any;
            if (!free(i - 1) ||
                (!doing.has(before.text) && !english().little.has(before.text) && !english().strengtheners.has(before.text)))
                return false;
            if (english().speakers.has(before.text)) return false;
            any = any || doing.has(before.text);
        }
        return false;
    }

    /// A phrase such as "on the lid" counts for the worms only if nothing else can be meant.
    [[nodiscard]] bool is_about_worms() const {
        if (names_worms()) {
            const bool adjective = has_before() && english().makes_worms_doubtful.has(word(match_.first - 1));
            return !adjective;
        }
        const auto before = neighbour_before();
        if (before && english().speakers.has(word(*before))) return false;
        static const Sayings helping("do|does|did|will|can|would|have|has|had|not|never");
        std::size_t verb = match_.first;
        while (verb > scene_.clause.first && helping.has(word(verb - 1))) --verb;
        if (verb > scene_.clause.first && verb < match_.first && english().speakers.has(word(verb - 1))) return false;
        bool only_little = true;
        for (std::size_t i = match_.first; i > scene_.clause.first; --i) {
            const Word& earlier = scene_.words[i - 1];
            const bool doubtful = i - 1 > scene_.clause.first && english().makes_worms_doubtful.has(word(i - 2));
            if (english().worm_words.has(earlier.text)) return !doubtful;
            if (earlier.means_worms) return true;
            if (earlier.text == "they" || english().others_that_they_may_be.has(earlier.text)) return false;
            // "It is 40 C outside the bin" is not about worms.
            const bool figure = !earlier.text.empty() && earlier.text.front() >= '0' && earlier.text.front() <= '9';
            only_little = only_little && !figure &&
                          (!free(i - 1) || english().little.has(earlier.text) || english().hedges.has(earlier.text));
        }
        // Cocoons and babies are the worms' own, whatever was spoken of before.
        static const Sayings their_young("cocoons|cocoon|babies|hatchlings");
        const bool names_young = std::ranges::any_of(scene_.words.subspan(match_.first, match_.length()),
                                                     [](const Word& said) { return their_young.has(said.text); });
        return only_little && (names_young || !scene_.others_spoken_of);
    }

    /// "They have stopped feeding": the worms' own feeding, not the keeper's.
    [[nodiscard]] bool worms_are_feeding() const {
        static const Sayings of_the_keeper(
            "been|overfed|get|gets|getting|given|brought|bring|put|gave|give|tipped|added|threw|dumped|dump|poured|sent|send|"
            "throw");
        for (std::size_t i = scene_.clause.first; i < match_.last; ++i)
            if (of_the_keeper.has(word(i))) return false;  // "they had been overfed" tells what the keeper did
        for (std::size_t i = scene_.clause.first; i < match_.first; ++i) {
            const Word& earlier = scene_.words[i];
            if (earlier.text == "i" || earlier.text == "we") return false;
            if (earlier.text == "they" || english().worm_words.has(earlier.text)) return true;
        }
        return false;
    }

    /// The clause says nothing else, or nothing but other phrases about the trouble itself.
    [[nodiscard]] bool tells_when_it_began() const {
        static const Sayings the_trouble("it|this|started|began|happened|problem|trouble");
        bool said_of_trouble = scene_.troubles > 0;
        for (std::size_t i = scene_.clause.first; i < scene_.clause.last; ++i) {
            if (!free(i)) continue;
            said_of_trouble = said_of_trouble || the_trouble.has(word(i));
            if (word(i) == "had" || (!english().little.has(word(i)) && !the_trouble.has(word(i)))) return false;
        }
        return said_of_trouble && scene_.other_matters == 0;
    }
};

}  // namespace

bool is_about_its_topic(const Surroundings& phrase, bool emergency) { return Topic(phrase).is_about_its_topic(emergency); }

bool subject_is_known(const Surroundings& phrase, const Sayings& subjects) { return Topic(phrase).subject_is_known(subjects); }

}  // namespace lidlift::hearing
