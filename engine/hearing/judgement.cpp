#include "engine/hearing/judgement.hpp"

#include "engine/hearing/amounts.hpp"
#include "engine/hearing/little_words.hpp"
#include "engine/hearing/negation.hpp"
#include "engine/hearing/sign_kinds.hpp"
#include "engine/hearing/topic_of_phrase.hpp"

namespace lidlift::hearing {
namespace {

class PhraseJudge : private Surroundings {
public:
    /// `emergency`: people are in danger if it is so; a guess then makes it unsure, not unheard.
    PhraseJudge(const Surroundings& phrase, const PhraseIndex& phrases, bool emergency)
        : Surroundings(phrase), phrases_(phrases), emergency_(emergency) {}

    /// `polarity` is that of the phrase before, and becomes that of this one.
    std::optional<Judgement> verdict(Polarity& polarity) const {
        polarity = polarity_of(*this, polarity);
        if (!may_be_used() || polarity == Polarity::unclear || !is_about_its_topic(*this, emergency_)) return std::nullopt;
        // "It should not be put on vegetables" tells what ought to be.
        if (scene_.frame.use == Use::only_as_intention && polarity != Polarity::affirmed) return std::nullopt;
        const auto answer = answer_with_amount(*this, phrases_);
        if (!answer) return std::nullopt;
        auto value = polarity == Polarity::affirmed ? affirmed(*answer) : denied(*answer, polarity);
        if (!value) return std::nullopt;
        const bool past = scene_.frame.past && of_condition();
        if (scene_.frame.unsure || only_looks_like() || heard_for_the_danger()) *value += ",unsure";
        return Judgement{*value, said_from(), past};
    }

private:
    // ---- whether it counts

    [[nodiscard]] bool may_be_used() const {
        const Frame& frame = scene_.frame;
        if (frame.use == Use::not_at_all || (frame.denied_after && sign_.topic == "animals")) return false;
        if (taken_for_granted(*this)) return true;
        if (frame.use == Use::only_as_intention)
            return sign_.heard_in_questions || is_a_question() || (emergency_ && frame.guessed);
        return meaning_.holds_negation || !frame.unclear_negation || match_.length() > short_phrase;
    }

    /// "Where did my worms go"
    [[nodiscard]] bool is_a_question() const {
        return match_.length() > short_phrase && english().question_words.stands_at(scene_.words, match_.first);
    }

    /// What was so need not be so any longer; what was done stays done.
    [[nodiscard]] bool of_condition() const {
        static const Sayings of_conditions("smell|moisture|heat|animals|mould|worms|structure");
        return of_conditions.has(sign_.topic);
    }

    /// Heard only because it would be dangerous not to.
    [[nodiscard]] bool heard_for_the_danger() const {
        if (!emergency_) return false;
        const Sayings& subjects = sign_.topic == "people" ? english().person_words : english().bed_words;
        return scene_.frame.use == Use::only_as_intention || !subject_is_known(*this, subjects);
    }

    /// "Looks like potworms": the caller does not know the creature.
    [[nodiscard]] bool only_looks_like() const {
        return (sign_.topic == "animals" || sign_.topic == "mould") && has_before() && word(match_.first - 1) == "like";
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

    /// The negator or the amount before the phrase, if there is one.
    [[nodiscard]] std::size_t said_from() const {
        std::size_t from = match_.first;
        for (std::size_t i = match_.first; i > scene_.clause.first && free(i - 1); --i)
            if (english().negators.has(word(i - 1)) || (i + reach_of_amounts >= match_.first && is_amount(i - 1))) from = i - 1;
        return from;
    }

    const PhraseIndex& phrases_;
    bool emergency_;
};

}  // namespace

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
        else if (!tells_a_beginning(sign))
            ++counted.other_matters;
    }
    std::vector<std::optional<Judgement>> result;
    Polarity polarity = Polarity::affirmed;
    for (const Match& match : matches) {
        const Surroundings phrase(rule_base_, counted, match);
        result.push_back(PhraseJudge(phrase, phrases_, emergencies_[match.meaning->sign.index]).verdict(polarity));
        if (match.meaning->holds_negation && polarity == Polarity::affirmed) polarity = Polarity::denied_to_exist;
    }
    return result;
}

}  // namespace lidlift::hearing
