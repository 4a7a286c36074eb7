// The small words of English that decide how a phrase is meant: tables, and nothing else. Spelled as caller_text spells them.
#pragma once

#include "engine/hearing/sayings.hpp"

namespace lidlift::hearing {

struct LittleWords {
    /// "no", "not", "never", "without" ...
    Sayings negators;
    /// Those that deny that there is any: "no", "without", "never", "any".
    Sayings denies_existence;
    /// "no doubt", "not only": they hold a negator and negate nothing.
    Sayings not_negating;
    /// "hardly", "nothing but", "except", "less": what they do to a phrase depends; the phrase is not used.
    Sayings unclear_before;
    /// Words that may stand between a negator and what it negates.
    Sayings between_negator_and_phrase;
    /// Words that make what is negated a matter of degree: "not much", "not very".
    Sayings degrees;
    /// "maybe", "I think", "seems".
    Sayings hedges;
    /// "should", "want to", "if", "in case": what follows has not happened.
    Sayings imagined;
    /// "Could smell", "could see": they hold a word of `imagined` and imagine nothing.
    Sayings not_imagined;
    /// "Could be", "I wonder", "afraid": a guess that it is so.
    Sayings guessed;
    /// Like `imagined`, and the rest of the sentence with it: "if", "whether", "I wonder".
    Sayings imagined_to_the_end;
    /// Verbs that begin a question when a subject follows: "is it", "should I".
    Sayings question_verbs;
    Sayings question_subjects;
    /// "what", "how": a question that takes nothing for granted. ("Why" takes what follows for granted.)
    Sayings question_words;
    /// "used to", "last year", "got rid of": it is over.
    Sayings over;
    /// "this morning", "when I opened": the past tense speaks of now.
    Sayings fresh;
    /// "now", "this year": what was over or elsewhere is no longer spoken of.
    Sayings back_to_now;
    /// "Fine", "solved": with a word of now, all that was told in the past tense is over.
    Sayings well_again;
    /// "How do I get rid of", "what can I do about": what follows is there, though it is asked, wished or denied that it goes.
    Sayings granted;
    /// "I read that", "they say", "kitchen bin": it is said of something else.
    Sayings elsewhere;
    /// "Like the book says": of this bed all the same.
    Sayings not_elsewhere;
    /// "Our last bin", "the old heap": a word of these before one of those is said of something else too.
    Sayings not_this_one;
    Sayings containers;
    Sayings other_people;
    Sayings back_to_mine;
    /// Conjunctions at which a clause ends; "and" among them.
    Sayings clause_openers;
    /// Words that give a clause a subject or a verb of its own.
    Sayings own_grammar;
    /// "really", "so", "completely": they may be left out.
    Sayings strengtheners;
    /// "a bit", "slightly", "almost": less than the phrase says.
    Sayings weakeners;

    Sayings worm_words;
    /// Creatures and people that "they" may mean.
    Sayings others_that_they_may_be;
    /// "white", "tiny", "baby" before "worms": perhaps potworms.
    Sayings makes_worms_doubtful;
    Sayings bed_words;
    Sayings person_words;
    Sayings feeding_verbs;
    Sayings speakers;
    /// "outside", "weather", "summer": warmth and cold that are not the bed's.
    Sayings weather_words;
    /// "trap", "powder": after an animal's name they make it another thing.
    Sayings makes_another_thing;
    /// Words that name nothing: articles, pronouns, prepositions, auxiliaries, plain verbs, degrees.
    Sayings little;
};

[[nodiscard]] const LittleWords& english();

}  // namespace lidlift::hearing
