#include "engine/hearing/negation.hpp"

#include "engine/hearing/little_words.hpp"

namespace lidlift::hearing {
namespace {

class Negation : private Surroundings {
public:
    explicit Negation(const Surroundings& phrase) : Surroundings(phrase) {}

    [[nodiscard]] Polarity polarity(Polarity before) const {
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

private:
    /// "Worried about my bin having standing water": it has.
    [[nodiscard]] bool having_it() const {
        static const Sayings having("having|being");
        static const Sayings worry("worried about|worry about|afraid of|scared of");
        return stands_before(having) && stands_before(worry);
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
            "more|to be seen|of any sort|of any description|of any type|near it|near bin|near bed|near heap|around it|in "
            "there at all|in either|in mine|in ours|in tank|in heap|in mix|in system|in wormery");
        static const Sayings restricting(
            "of|like|in|on|at|inside|under|near|from|except|apart|but|other|around|round|unless|until|when|where|to|as|yet|by|"
            "than");
        return has_after() && free(match_.last) && restricting.has(word(match_.last)) &&
               !harmless.stands_at(scene_.words, match_.last);
    }
};

}  // namespace

Polarity polarity_of(const Surroundings& phrase, Polarity before) { return Negation(phrase).polarity(before); }

bool taken_for_granted(const Surroundings& phrase) { return Negation(phrase).taken_for_granted(); }

}  // namespace lidlift::hearing
