#include "engine/hearing/judgement.hpp"

#include "engine/hearing/little_words.hpp"

#include <algorithm>
#include <array>
#include <string_view>

namespace lidlift::hearing {
namespace {

/// Signs that tell when the trouble began; "for weeks" and "last night" may be said of anything else too.
constexpr auto beginnings = std::to_array<std::string_view>({"trouble_started"});

/// How far back an amount is looked for: "loads of horrible little flies".
constexpr std::size_t reach_of_amounts = 2;
/// A phrase this short, alone in a list after a negated clause, may be negated with it.
constexpr std::size_t short_phrase = 2;

/// A phrase this long means what it says whatever follows: "ants going up the leg" of the stand.
constexpr std::size_t long_phrase = 4;
/// How far back an amount of what was fed is looked for: "lots of orange peel and onion".
constexpr std::size_t reach_of_fed_amounts = 5;

enum class Polarity { affirmed, denied, denied_to_exist, unclear };

class PhraseJudge {
public:
    PhraseJudge(const RuleBase& rule_base, const PhraseIndex& phrases, bool emergency, const Scene& scene, const Match& match)
        : phrases_(phrases),
          emergency_(emergency),
          scene_(scene),
          match_(match),
          meaning_(*match.meaning),
          sign_(rule_base.signs[meaning_.sign]) {}

    /// `polarity` is that of the phrase before, and becomes that of this one.
    std::optional<Judgement> verdict(Polarity& polarity) const {
        polarity = own_polarity(polarity);
        if (!may_be_used() || polarity == Polarity::unclear || !is_about_its_topic()) return std::nullopt;
        // "It should not be put on vegetables" tells what ought to be.
        if (scene_.frame.use == Use::only_as_intention && polarity != Polarity::affirmed) return std::nullopt;
        const auto answer = with_amount();
        if (!answer) return std::nullopt;
        auto value = polarity == Polarity::affirmed ? affirmed(*answer) : denied(*answer, polarity);
        if (!value) return std::nullopt;
        const bool past = scene_.frame.past && of_condition();
        if (past || scene_.frame.unsure || only_looks_like() || heard_for_the_danger()) *value += ",unsure";
        return Judgement{*value, said_from(), past};
    }

private:
    // ---- the clause

    [[nodiscard]] bool may_be_used() const {
        const Frame& frame = scene_.frame;
        if (frame.use == Use::not_at_all || (frame.denied_after && sign_.topic == "animals")) return false;
        if (taken_for_granted()) return true;
        if (frame.use == Use::only_as_intention)
            return sign_.heard_in_questions || is_a_question() || (emergency_ && frame.guessed);
        return meaning_.holds_negation || !frame.unclear_negation || match_.length() > short_phrase;
    }

    /// What was so need not be so any longer; what was done stays done.
    [[nodiscard]] bool of_condition() const {
        static const Sayings of_conditions("smell|moisture|heat|animals|mould|worms|structure");
        return of_conditions.has(sign_.topic);
    }

    /// Heard only because it would be dangerous not to.
    [[nodiscard]] bool heard_for_the_danger() const {
        return emergency_ && (scene_.frame.use == Use::only_as_intention ||
                              !subject_is_known(sign_.topic == "people" ? english().person_words : english().bed_words));
    }

    /// "Where did my worms go"
    [[nodiscard]] bool is_a_question() const {
        return match_.length() > short_phrase && english().question_words.stands_at(scene_.words, match_.first);
    }

    // ---- the words around

    [[nodiscard]] const std::string& word(std::size_t at) const { return scene_.words[at].text; }
    [[nodiscard]] bool has_before() const { return match_.first > scene_.clause.first; }
    [[nodiscard]] bool has_after() const { return match_.last < scene_.words.size(); }
    [[nodiscard]] bool free(std::size_t at) const { return !(*scene_.covered)[at]; }

    /// The word before the phrase, strengthening words and "is" passed over; none at the clause's beginning.
    [[nodiscard]] std::optional<std::size_t> neighbour_before() const {
        static const Sayings passed_over(
            "is|was|been|be|being|getting|got|gets|get|gone|went|become|becomes|became|looks|look|feels|feel|seems|seem|has|"
            "have|turned|turning|been");
        for (std::size_t i = match_.first; i > scene_.clause.first; --i) {
            const std::string& before = word(i - 1);
            if (free(i - 1) && (english().strengtheners.has(before) || passed_over.has(before))) continue;
            return i - 1;
        }
        return std::nullopt;
    }

    [[nodiscard]] bool stands_before(const Sayings& sayings) const {
        for (std::size_t i = scene_.clause.first; i < match_.first; ++i)
            if (free(i) && sayings.stands_at(scene_.words, i)) return true;
        return false;
    }

    // ---- negation

    [[nodiscard]] Polarity own_polarity(Polarity before) const {
        if (taken_for_granted()) return meaning_.holds_negation ? Polarity::unclear : Polarity::affirmed;
        if ((stands_before(english().unclear_before) && !having_it()) || negated_behind() || kept_away() || is_a_purpose() ||
            goes_on_with_a_thing())
            return Polarity::unclear;
        const bool after_or = has_before() && (word(match_.first - 1) == "or" || word(match_.first - 1) == "nor");
        static const Sayings or_the_like("or something|or so|or other|or whatever|or thereabouts|or what");
        const bool before_or = has_after() && word(match_.last) == "or" && !or_the_like.stands_at(scene_.words, match_.last);
        const auto negator = negator_before();
        Polarity result = Polarity::affirmed;
        if (negator.found) {
            if (restricted_behind()) return Polarity::unclear;
            result = negator.polarity;
        } else if (after_or && (before == Polarity::denied || before == Polarity::denied_to_exist)) {
            result = before;
        } else if (after_or || (before_or && !meaning_.holds_negation)) {
            return Polarity::unclear;
        }
        if (!meaning_.holds_negation) return result;
        // The phrase negates by itself; for the next one after "or" it counts as denied.
        if (result != Polarity::affirmed || restricted_behind()) return Polarity::unclear;
        return Polarity::affirmed;
    }

    /// "Worried about my bin having standing water": it has.
    [[nodiscard]] bool having_it() const {
        static const Sayings having("having|being");
        static const Sayings worry("worried about|worry about|afraid of|scared of");
        return stands_before(having) && stands_before(worry);
    }

    /// "How do I get rid of the ants", "I can't get rid of these gnats": they are there.
    [[nodiscard]] bool taken_for_granted() const {
        static const Sayings wished(
            "how|what|anything|trying|tried|can not|could not|want|need|struggling|help|way|advice|tips");
        for (std::size_t i = match_.first; i > scene_.clause.first; --i) {
            if (!free(i - 1)) return false;
            const std::size_t length = english().granted.longest_at(scene_.words, i - 1).length;
            if (length > 0 && i - 1 + length <= match_.first) return stands_around(wished);
            static const Sayings within_one("rid|of|about|with");
            if (!english().little.has(word(i - 1)) && !within_one.has(word(i - 1))) return false;
        }
        return false;
    }

    /// "I put it in the sun to warm up", "paper to soak up the wet": what is meant to be so need not be.
    [[nodiscard]] bool is_a_purpose() const {
        static const Sayings changes(
            "warm|cool|dry|soak|moisten|dampen|wet|heat|drain|keep|stay|absorb|reduce|raise|make|become|attract|feed|break");
        static const Sayings begun("begun|begins|began|beginning|starting|started|starts|start|due|seem|seems|seemed|got");
        if (!has_before() || word(match_.first - 1) != "to" || !free(match_.first - 1) || !changes.has(word(match_.first)))
            return false;
        return match_.first < scene_.clause.first + 2 || !begun.has(word(match_.first - 2));
    }

    /// "Don't feed them citrus" is no "don't feed them"; "fish tank water" is no fish.
    [[nodiscard]] bool goes_on_with_a_thing() const {
        static const Sayings of_them("them|worms|it");
        const bool cut_short = sign_.topic == "feed" && meaning_.holds_negation && of_them.has(word(match_.last - 1));
        if (!cut_short && !meaning_.of_material) return false;
        // The negation may belong to a phrase of its own.
        if (meaning_.of_material)
            for (std::size_t i = scene_.clause.first; i < match_.first; ++i)
                if (english().negators.has(word(i)) || word(i) == "stopped") return true;
        static const Sayings rests(
            "scraps|peel|peels|peelings|skins|skin|waste|bits|crusts|rinds|rind|pieces|leftovers|properly|lately|recently|"
            "weekly|"
            "last|every|once|twice|daily|together|instead|regularly|regular|anymore");
        if (!has_after() || english().little.has(word(match_.last)) || rests.has(word(match_.last))) return false;
        return cut_short || (free(match_.last) && !english().clause_openers.has(word(match_.last)));
    }

    /// "To keep the ants off"
    [[nodiscard]] bool kept_away() const {
        static const Sayings keeping("keep|keeps|kept|keeping|stop|put");
        static const Sayings away("off|out|away");
        return has_after() && free(match_.last) && away.has(word(match_.last)) && stands_before(keeping);
    }

    struct Negator {
        bool found = false;
        Polarity polarity = Polarity::affirmed;
    };
    /// Walks back over words that carry a negation along. A negator farther back than that makes the phrase unclear.
    [[nodiscard]] Negator negator_before() const {
        bool near = true;
        bool by_degree = false;
        bool existence = false;
        Negator result;
        for (std::size_t i = match_.first; i > scene_.clause.first; --i) {
            const std::string& before = word(i - 1);
            if (!free(i - 1)) {
                near = false;
                continue;
            }
            existence = existence || (near && english().denies_existence.has(before));
            if (english().negators.has(before)) {
                if (english().not_negating.stands_at(scene_.words, i - 1)) continue;
                if (result.found || !near || by_degree) return {true, Polarity::unclear};
                result = {true, existence ? Polarity::denied_to_exist : Polarity::denied};
            }
            by_degree = by_degree || english().degrees.has(before);
            near = near && (english().between_negator_and_phrase.has(before) || english().degrees.has(before));
        }
        return result;
    }

    /// The negator or the amount before the phrase, if there is one.
    [[nodiscard]] std::size_t said_from() const {
        std::size_t from = match_.first;
        for (std::size_t i = match_.first; i > scene_.clause.first && free(i - 1); --i)
            if (english().negators.has(word(i - 1)) || (i + reach_of_amounts >= match_.first && is_amount(i - 1))) from = i - 1;
        return from;
    }
    [[nodiscard]] bool is_amount(std::size_t at) const { return word(at) == many_of || word(at) == few_of; }

    /// "The smell is not there", "ants: none".
    [[nodiscard]] bool negated_behind() const {
        static const Sayings copulas("is|was|has|have|do|does|did|can|at|there");
        for (std::size_t i = match_.last; i < scene_.words.size() && i < match_.last + 3; ++i) {
            if (!free(i)) return false;
            if (english().negators.has(word(i))) return true;
            if (!copulas.has(word(i))) return false;
        }
        return false;
    }

    /// "No smell of cabbage", "no worms left in the tray": something is denied, but not all of it.
    [[nodiscard]] bool restricted_behind() const {
        static const Sayings harmless(
            "in there|in it|in here|at all|of any kind|at moment|in bin|in bed|in my bin|in our bin|in my bed|on it|of it|any "
            "more|to be seen");
        static const Sayings restricting(
            "of|like|in|on|at|inside|under|near|from|except|apart|but|other|around|round|unless|until|when|where|to|as|yet|by|"
            "than");
        return has_after() && free(match_.last) && restricting.has(word(match_.last)) &&
               !harmless.stands_at(scene_.words, match_.last);
    }

    // ---- what it is about

    [[nodiscard]] bool is_about_its_topic() const {
        if (has_after() && free(match_.last) &&
            ((word(match_.last) == "of" && word(match_.last - 1) != "out" && match_.length() < long_phrase) ||
             makes_another_thing()))
            return false;
        if (compared() || is_in_another_place() || is_cut_short()) return false;
        if (std::ranges::find(beginnings, sign_.id) != beginnings.end() && !tells_when_it_began()) return false;
        const std::string& topic = sign_.topic;
        if (topic == "worms") return is_about_worms() && (names_worms() || subject_is_known(english().worm_words));
        if (topic == "people") return subject_is_known(english().person_words) || !one_word();
        if (topic == "heat") return !stands_around(english().weather_words) && subject_is_known(english().bed_words);
        // In "the heap collapsed" the word may mean something else; "on fire" is on fire whatever it is.
        if (emergency_ && !one_word()) return true;
        if (topic == "smell" || topic == "moisture" || topic == "structure" || topic == "product")
            return subject_is_known(english().bed_words);
        if (meaning_.of_material) return !worms_are_feeding();
        if (topic == "feed") return !worms_are_feeding() && (!one_word() || subject_is_known(english().bed_words));
        if (topic == "animals" || topic == "mould")
            return !stands_before(english().feeding_verbs) && (!one_word() || subject_is_known(english().bed_words));
        // "They sit on the soil", said of flies.
        const auto before = neighbour_before();
        if (before && word(*before) == "they" && scene_.others_spoken_of) return false;
        return !one_word() || subject_is_known(english().bed_words);
    }

    /// "Looks like potworms": the caller does not know the creature.
    [[nodiscard]] bool only_looks_like() const {
        return (sign_.topic == "animals" || sign_.topic == "mould") && has_before() && word(match_.first - 1) == "like";
    }

    [[nodiscard]] bool one_word() const { return match_.length() == 1; }

    [[nodiscard]] bool makes_another_thing() const { return english().makes_another_thing.has(word(match_.last)); }

    [[nodiscard]] bool stands_around(const Sayings& sayings) const {
        for (std::size_t i = scene_.clause.first; i < scene_.clause.last; ++i)
            if (free(i) && sayings.stands_at(scene_.words, i)) return true;
        return false;
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
        if (!has_after() || !free(match_.last)) return false;
        const std::size_t after = word(match_.last) == "coming" ? match_.last + 1 : match_.last;
        return places.stands_at(scene_.words, match_.last) ||
               (after < scene_.words.size() && from_elsewhere.stands_at(scene_.words, after));
    }

    /// "They are tiny white threads": that the threads are white is meant, not that the worms are tiny. "Sprayed the bin with
    /// the hose": only water.
    [[nodiscard]] bool is_cut_short() const {
        static const Sayings sizes("tiny|small|thin|little|pale|white|red|big|fat");
        static const Sayings only_water(
            "with hose|with my hose|with a hose|with water|with some water|with rainwater|with plain water");
        static const Sayings sprayed("spray|sprayed|spraying|sprays");
        if (!has_after() || !free(match_.last)) return false;
        if (sign_.topic == "worms" && match_.length() > 1 && sizes.has(word(match_.last - 1)))
            return !english().little.has(word(match_.last)) && !english().clause_openers.has(word(match_.last)) &&
                   !english().worm_words.has(word(match_.last));
        return sprayed.has(word(match_.first)) && only_water.stands_at(scene_.words, match_.last);
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
        if (of_the_bed && (felt || only_there)) return true;
        if (of_the_bed && !one_word() && not_the_bed.has(word(*before))) return false;
        if (of_the_bed && smelling.has(word(*before))) return true;
        return english().little.has(word(*before)) || subjects.has(word(*before)) || english().weakeners.has(word(*before)) ||
               english().hedges.has(word(*before)) || scene_.words[*before].means_worms;
    }

    [[nodiscard]] bool names_worms() const { return meaning_.speaks_of_worms || english().worm_words.has(word(match_.first)); }

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

    // ---- how much

    /// The answer for the amount that stands around the phrase; none when the sign tells amounts apart and has no phrase for
    /// this one.
    [[nodiscard]] std::optional<std::size_t> with_amount() const {
        static const Sayings everywhere(
            "everywhere|all over|galore|in abundance|by thousand|by hundred|by dozen|in droves|all "
            "through|throughout|hundreds|thousands|in "
            "thousands|in hundreds|<many> them");
        const auto amount_of = [&](std::string_view amount) -> std::optional<std::size_t> {
            const Meaning* other = phrases_.find(std::string(amount) + " " + meaning_.phrase);
            if (other && other->sign == meaning_.sign) return other->answer;
            if (sign_.sort == SignSort::yes_no || !phrases_.graded(meaning_.sign)) return meaning_.answer;
            // "Loads of babies and cocoons", where "lots of cocoons" is another answer.
            if (phrases_.takes_amount(meaning_.sign, meaning_.answer, amount)) return meaning_.answer;
            const auto many = phrases_.answer_of_amount(meaning_.sign, many_of);
            const auto few = phrases_.answer_of_amount(meaning_.sign, few_of);
            if (meaning_.answer != many && meaning_.answer != few) return std::nullopt;
            return amount == many_of ? many : few;
        };
        static const Sayings amounts("<many>|<few>|everywhere|full|covered|infested|crawling|overrun");
        bool own_amount = false;
        for (std::size_t i = match_.first; i < match_.last; ++i) own_amount = own_amount || amounts.has(word(i));
        if (!own_amount) {
            const std::size_t reach = meaning_.of_material ? reach_of_fed_amounts : reach_of_amounts;
            for (std::size_t i = match_.first; i > scene_.clause.first && i + reach >= match_.first; --i) {
                if (!free(i - 1) && !meaning_.of_material) break;
                if (is_amount(i - 1)) return amount_of(word(i - 1));
            }
            static const Sayings a_single_one("a|one|single|1");
            const std::string& last = word(match_.last - 1);
            const bool of_many = meaning_.phrase.ends_with("s");  // "a maggot", where the phrase is "maggots"
            const bool of_creatures = sign_.topic == "animals" || sign_.topic == "worms";
            if (of_creatures && of_many && has_before() && free(match_.first - 1) && a_single_one.has(word(match_.first - 1)) &&
                !last.ends_with("s") && phrases_.answer_of_amount(meaning_.sign, few_of))
                return amount_of(few_of);
            if (has_after() && everywhere.stands_at(scene_.words, match_.last)) return amount_of(many_of);
        }
        const auto before = match_.first > scene_.clause.first ? match_.first - 1 : match_.first;
        const bool weakened = before < match_.first && free(before) && english().weakeners.has(word(before));
        if (weakened && sign_.sort != SignSort::yes_no) return std::nullopt;
        return meaning_.answer;
    }

    // ---- the value

    [[nodiscard]] std::optional<std::string> affirmed(std::size_t answer) const {
        if (meaning_.only_when_negated) return std::nullopt;
        return sign_.answers[answer].id;
    }

    [[nodiscard]] std::optional<std::string> denied(std::size_t answer, Polarity polarity) const {
        if (sign_.sort == SignSort::quantity || meaning_.of_material) return std::nullopt;
        if (sign_.sort == SignSort::yes_no) {
            if (answer != 0 || by_degree()) return std::nullopt;
            return sign_.answers[1].id;
        }
        if (sign_.answers[answer].id == "none" || sign_.answers[answer].none_of_these) return std::nullopt;
        if (polarity == Polarity::denied_to_exist)
            for (std::size_t none = 0; none < sign_.answers.size(); ++none)
                if ((sign_.answers[none].id == "none" || sign_.answers[none].none_of_these) &&
                    phrases_.denied_by(meaning_, none))
                    return sign_.answers[none].id;
        return "not " + sign_.answers[answer].id;
    }

    [[nodiscard]] bool by_degree() const { return has_before() && english().degrees.has(word(match_.first - 1)); }

    const PhraseIndex& phrases_;
    bool emergency_;  ///< people are in danger if it is so: a guess makes it unsure, not unheard
    const Scene& scene_;
    const Match& match_;
    const Meaning& meaning_;
    const Sign& sign_;
};

}  // namespace

bool is_trouble(const Sign& sign) {
    static const Sayings topics("smell|worms|moisture|heat|animals|mould|structure");
    return topics.has(sign.topic);
}

Judge::Judge(const RuleBase& rule_base, const PhraseIndex& phrases)
    : rule_base_(rule_base), phrases_(phrases), emergencies_(rule_base.signs.size(), false) {
    for (const Caution& caution : rule_base.cautions)
        if (caution.emergency && caution.when)
            for (const auto sign : mentioned(*caution.when).signs) emergencies_[sign.index] = true;
}

std::vector<std::optional<Judgement>> Judge::verdicts(const Scene& scene, const std::vector<Match>& matches) const {
    Scene counted = scene;  // its troubles are those of the clause that it leads in
    for (const Match& match : matches) {
        const Sign& sign = rule_base_.signs[match.meaning->sign];
        if (is_trouble(sign))
            ++counted.troubles;
        else if (std::ranges::find(beginnings, sign.id) == beginnings.end())
            ++counted.other_matters;
    }
    std::vector<std::optional<Judgement>> result;
    Polarity polarity = Polarity::affirmed;
    for (const Match& match : matches) {
        result.push_back(
            PhraseJudge(rule_base_, phrases_, emergencies_[match.meaning->sign.index], counted, match).verdict(polarity));
        if (match.meaning->holds_negation && polarity == Polarity::affirmed) polarity = Polarity::denied_to_exist;
    }
    return result;
}

}  // namespace lidlift::hearing
