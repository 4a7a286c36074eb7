#include "engine/hearing/amounts.hpp"

#include "engine/hearing/little_words.hpp"

namespace lidlift::hearing {
namespace {

/// How far back an amount of what was fed is looked for: "lots of orange peel and onion".
constexpr std::size_t reach_of_fed_amounts = 5;

class Amount : private Surroundings {
public:
    Amount(const Surroundings& phrase, const PhraseIndex& phrases) : Surroundings(phrase), phrases_(phrases) {}

    [[nodiscard]] std::optional<std::size_t> answer() const {
        if (const auto amount = amount_said()) return answer_for(*amount);
        // "A bit soggy" is less than soggy, and nobody knows how much less.
        if (weakened() && sign_.sort != SignSort::yes_no) return std::nullopt;
        return meaning_.answer;
    }

private:
    /// The amount in the words around; none where there is none or the phrase itself holds one.
    [[nodiscard]] std::optional<std::string_view> amount_said() const {
        static const Sayings everywhere(
            "everywhere|all over|galore|in abundance|by thousand|by hundred|by dozen|in droves|all "
            "through|throughout|hundreds|thousands|in "
            "thousands|in hundreds|<many> them|have taken over|has taken over|is taking "
            "over|explosion|infestation|plague|invasion");
        if (holds_an_amount()) return std::nullopt;
        const std::size_t reach = meaning_.of_material ? reach_of_fed_amounts : reach_of_amounts;
        for (std::size_t i = match_.first; i > scene_.clause.first && i + reach >= match_.first; --i) {
            if (!free(i - 1) && !meaning_.of_material) break;
            if (is_amount(i - 1)) return word(i - 1);
        }
        if (is_a_single_one()) return few_of;
        static const Sayings rarely(
            "occasionally|sometimes|now and then|now and again|once in a while|from time to time|every so often|here and "
            "there");
        if (has_after() && everywhere.stands_at(scene_.words, match_.last)) return many_of;
        if (has_after() && rarely.stands_at(scene_.words, match_.last)) return few_of;
        return std::nullopt;
    }

    [[nodiscard]] bool holds_an_amount() const {
        static const Sayings amounts("<many>|<few>|everywhere|full|covered|infested|crawling|overrun");
        for (std::size_t i = match_.first; i < match_.last; ++i)
            if (amounts.has(word(i))) return true;
        return false;
    }

    /// "A maggot", where the phrase is "maggots".
    [[nodiscard]] bool is_a_single_one() const {
        static const Sayings one("a|one|single|1");
        const bool of_creatures = sign_.topic == "animals" || sign_.topic == "worms";
        return of_creatures && meaning_.phrase.ends_with("s") && !word(match_.last - 1).ends_with("s") && has_before() &&
               free(match_.first - 1) && one.has(word(match_.first - 1)) && phrases_.answer_of_amount(meaning_.sign, few_of);
    }

    [[nodiscard]] bool weakened() const {
        return has_before() && free(match_.first - 1) && english().weakeners.has(word(match_.first - 1));
    }

    [[nodiscard]] std::optional<std::size_t> answer_for(std::string_view amount) const {
        const Meaning* other = phrases_.find(std::string(amount) + " " + meaning_.phrase);
        if (other && other->sign == meaning_.sign) return other->answer;
        if (sign_.sort == SignSort::yes_no || !phrases_.graded(meaning_.sign)) return meaning_.answer;
        // "Loads of babies and cocoons", where "lots of cocoons" is another answer.
        if (phrases_.takes_amount(meaning_.sign, meaning_.answer, amount)) return meaning_.answer;
        const auto many = phrases_.answer_of_amount(meaning_.sign, many_of);
        const auto few = phrases_.answer_of_amount(meaning_.sign, few_of);
        if (meaning_.answer != many && meaning_.answer != few) return std::nullopt;
        return amount == many_of ? many : few;
    }

    const PhraseIndex& phrases_;
};

}  // namespace

std::optional<std::size_t> answer_with_amount(const Surroundings& phrase, const PhraseIndex& phrases) {
    return Amount(phrase, phrases).answer();
}

}  // namespace lidlift::hearing
