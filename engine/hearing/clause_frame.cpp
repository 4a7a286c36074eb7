#include "engine/hearing/clause_frame.hpp"

#include "engine/hearing/little_words.hpp"

#include <algorithm>

namespace lidlift::hearing {
namespace {

/// One clause with what is needed to judge it.
class ClauseView {
public:
    ClauseView(Words words, const Covered& covered, const Clause& clause)
        : words_(words.subspan(0, clause.last)), covered_(covered), first_(clause.first) {}

    /// Does any of the sayings stand here, outside phrases?
    [[nodiscard]] bool holds(const Sayings& sayings) const {
        for (std::size_t i = first_; i < words_.size(); ++i)
            if (!covered_[i] && sayings.stands_at(words_, i)) return true;
        return false;
    }
    /// The same, within phrases too.
    [[nodiscard]] bool holds_anywhere(const Sayings& sayings) const {
        for (std::size_t i = first_; i < words_.size(); ++i)
            if (sayings.stands_at(words_, i)) return true;
        return false;
    }

    [[nodiscard]] bool negates() const {
        for (std::size_t i = first_; i < words_.size(); ++i) {
            if (covered_[i]) continue;
            if (const auto harmless = english().not_negating.longest_at(words_, i); harmless.length > 0)
                i += harmless.length - 1;
            else if (english().negators.has(words_[i].text))
                return true;
        }
        return false;
    }

    /// "I could smell ammonia" imagines nothing.
    [[nodiscard]] bool imagines() const {
        for (std::size_t i = first_; i < words_.size(); ++i) {
            if (covered_[i]) continue;
            if (const auto real = english().not_imagined.longest_at(words_, i); real.length > 0)
                i += real.length - 1;
            else if (english().imagined.stands_at(words_, i))
                return true;
        }
        return false;
    }

    /// "Gone" before a phrase is only "become".
    [[nodiscard]] bool is_over() const {
        for (std::size_t i = first_; i < words_.size(); ++i) {
            if (covered_[i] || !english().over.stands_at(words_, i)) continue;
            // "It stood a month before we put the worms in" tells an order, not an end.
            static const Sayings only_order(
                "before we put|before i put|before we added|before i added|before we tipped|before they went in|before i could|"
                "before we could|before i got|before we got");
            if (only_order.stands_at(words_, i)) continue;
            if (words_[i].text != "gone" || i + 1 == words_.size() || !covered_[i + 1]) return true;
        }
        return false;
    }

    [[nodiscard]] bool is_past() const {
        for (std::size_t i = first_; i < words_.size(); ++i) {
            // "Worms were escaping" is the phrase "worms are escaping", said in the past tense.
            if (words_[i].text == "was" || words_[i].past) return true;
            if (covered_[i]) continue;
            if (words_[i].text == "had" && (i == first_ || words_[i - 1].text != "have")) return true;
        }
        return false;
    }

    [[nodiscard]] bool is_of_others() const {
        static const Sayings of_the_cat("litter tray|litter box");  // "cat's litter" is a phrase
        for (std::size_t i = first_; i < words_.size(); ++i) {
            if (const auto here = english().not_elsewhere.longest_at(words_, i); here.length > 0)
                i += here.length - 1;
            else if (of_the_cat.stands_at(words_, i) ||
                     (!covered_[i] && (english().elsewhere.stands_at(words_, i) || is_another_container(i))))
                return true;
        }
        for (std::size_t i = first_; i < words_.size(); ++i)
            if (!covered_[i] && ((words_[i].possessive && english().other_people.has(words_[i].text)) || others_have_it(i)))
                return true;
        return false;
    }

    /// "I think", "probably", and nothing else.
    [[nodiscard]] bool only_hedges() const { return says_only(english().hedges); }
    /// "Years ago that was"
    [[nodiscard]] bool says_only_that_it_is_over() const { return says_only(english().over); }

    /// Words of phrases count here: "should I spray" is a question and a phrase.
    enum class Opening { statement, question, why };
    [[nodiscard]] Opening opening() const {
        std::size_t i = first_;
        // "Smell also is there" tells; it does not ask.
        if (i > 0 && i < words_.size() && words_[i].text == "also") return Opening::statement;
        while (i < words_.size() && leads_in(words_[i].text)) ++i;
        if (i >= words_.size()) return Opening::statement;
        static const Sayings proposals("why not|why would|why should|why do not");
        // "Can you tell me why they climb" asks as "why do they climb" does.
        static const Sayings lead_to_why(
            "can you tell me why|could you tell me why|do you know why|does anyone know why|please tell me why|any idea "
            "why|any ideas why|no idea why");
        if (lead_to_why.stands_at(words_, i)) return Opening::why;
        if (words_[i].text == "why") return proposals.stands_at(words_, i) ? Opening::question : Opening::why;
        if (english().question_words.stands_at(words_, i)) return Opening::question;
        const std::size_t verb = english().question_verbs.longest_at(words_, i).length;
        const bool subject = verb > 0 && i + verb < words_.size() && english().question_subjects.has(words_[i + verb].text);
        return subject ? Opening::question : Opening::statement;
    }

    /// "But ours has never had any", "but I have not seen one"
    [[nodiscard]] bool denies_what_came_before() const {
        static const Sayings such("one|any|none|them");
        if (!opens_with_contrast() || !such.has(words_.back().text)) return false;
        for (std::size_t i = first_; i < words_.size(); ++i)
            if (covered_[i]) return false;
        return negates();
    }

    [[nodiscard]] bool opens_with_contrast() const {
        static const Sayings contrasts("but|although|though|however");
        return first_ < words_.size() && contrasts.has(words_[first_].text);
    }

private:
    /// One of the sayings, and beside them only small words.
    [[nodiscard]] bool says_only(const Sayings& sayings) const {
        if (!holds(sayings)) return false;
        for (std::size_t i = first_; i < words_.size(); ++i) {
            const auto one = sayings.longest_at(words_, i);
            if (one.length > 0)
                i += one.length - 1;
            else if (covered_[i] || !english().little.has(words_[i].text))
                return false;
        }
        return true;
    }

    /// "The neighbours have rats"; but what they have complained of, seen or said may well be here.
    [[nodiscard]] bool others_have_it(std::size_t at) const {
        static const Sayings others("neighbours have|neighbours had|neighbour has|neighbour had|friend has|friends have");
        static const Sayings did(
            "complain|complained|been|seen|found|noticed|started|begun|told|said|asked|not|no|never|also|already|just|now|"
            "reported|threatened|smelled|mentioned|had|got|put|thrown|given");
        return others.stands_at(words_, at) && at + 2 < words_.size() && !did.has(words_[at + 2].text);
    }

    /// "Our last bin", "the old compost heap"
    [[nodiscard]] bool is_another_container(std::size_t at) const {
        return english().not_this_one.has(words_[at].text) && at + 1 < words_.size() &&
               english().containers.stands_at(words_, at + 1);
    }

    static bool leads_in(std::string_view word) {
        static const Sayings words("and|but|so|also|then|please|hi|hello|hey|well|sir|madam|or|anyway|ok|fine|help");
        return words.has(word);
    }

    Words words_;
    const Covered& covered_;
    std::size_t first_;
};

/// What one clause hands on to the next of its sentence.
class SentenceReader {
public:
    SentenceReader(bool fresh) : fresh_(fresh) {}

    Frame next(const ClauseView& clause, bool questioned, bool over_now) {
        const bool contrast = clause.opens_with_contrast();
        const bool goes_on = any_before_ && !contrast && !clause.holds_anywhere(english().own_grammar) && !clause.negates();
        if (contrast || clause.holds(english().back_to_mine)) of_others_ = false;
        of_others_ = of_others_ || clause.is_of_others();
        imagined_to_the_end_ = imagined_to_the_end_ || questioned || clause.holds(english().imagined_to_the_end);
        guessed_to_the_end_ = !questioned && (guessed_to_the_end_ || (imagined_to_the_end_ && clause.holds(english().guessed)));

        Frame frame;
        const bool goes_on_past = goes_on && !clause.holds_anywhere(english().back_to_now);
        const bool over = clause.is_over() || over_now || (goes_on_past && over_);
        const bool imagined = imagined_to_the_end_ || clause.imagines() || (goes_on && imagined_);
        if (imagined) frame.use = Use::only_as_intention;
        if (over || of_others_) frame.use = Use::not_at_all;
        frame.unsure = clause.holds(english().hedges) || (goes_on && unsure_);
        frame.past = !fresh_ && (clause.is_past() || (goes_on_past && past_));
        frame.of_now = clause.holds(english().back_to_now);
        frame.guessed = !questioned && (guessed_to_the_end_ || clause.holds(english().guessed));
        frame.well_again = !imagined && !clause.negates() && frame.of_now && clause.holds_anywhere(english().well_again);
        frame.negates = clause.negates();
        frame.unclear_negation = goes_on && negation_before_;

        any_before_ = true;
        over_ = over;
        imagined_ = imagined;
        unsure_ = frame.unsure;
        past_ = frame.past;
        negation_before_ = frame.negates || frame.unclear_negation;
        return frame;
    }
    void negated_within_phrase() { negation_before_ = true; }

private:
    bool fresh_;
    bool any_before_ = false;
    bool of_others_ = false;
    bool imagined_to_the_end_ = false;
    bool guessed_to_the_end_ = false;
    bool imagined_ = false;
    bool over_ = false;
    bool unsure_ = false;
    bool past_ = false;
    bool negation_before_ = false;
};

/// "It was soggy, but now it is dry", "but I fixed that": a later clause of the sentence sets now against then.
bool is_over_now(const std::vector<ClauseView>& views, std::size_t at) {
    if (!views[at].is_past() || views[at].holds(english().back_to_now)) return false;
    bool contrast = false;
    for (std::size_t later = at + 1; later < views.size(); ++later) {
        contrast = contrast || views[later].opens_with_contrast();
        if (contrast && (views[later].holds_anywhere(english().back_to_now) || views[later].is_over())) return true;
    }
    return false;
}

}  // namespace

std::vector<Clause> cut_into_clauses(Words words, const Covered& covered, std::size_t segment) {
    std::vector<Clause> clauses;
    std::size_t first = 0;
    for (std::size_t i = 1; i < words.size(); ++i) {
        if (covered[i] || i == first || !english().clause_openers.stands_at(words, i)) continue;
        clauses.push_back({segment, first, i});
        first = i;
    }
    clauses.push_back({segment, first, words.size()});
    return clauses;
}

std::vector<Frame> frames_of_sentence(const std::vector<Segment>& segments, const std::vector<Covered>& covered,
                                      const std::vector<Clause>& clauses, bool& fresh_scene) {
    std::vector<ClauseView> views;
    // A story that is set at a moment just past stays there until the caller goes farther back.
    bool fresh = fresh_scene;
    bool asks_why = false;
    std::size_t question_from = clauses.size();
    for (const Clause& clause : clauses) {
        const ClauseView& view = views.emplace_back(segments[clause.segment].words, covered[clause.segment], clause);
        fresh = fresh || view.holds_anywhere(english().fresh);
        const auto opening = view.opening();
        asks_why = asks_why || opening == ClauseView::Opening::why;
        if (opening == ClauseView::Opening::question) question_from = std::min(question_from, views.size() - 1);
    }
    fresh_scene = fresh && std::ranges::none_of(views, [](const ClauseView& view) { return view.is_over(); });
    const bool ends_in_question = segments[clauses.back().segment].after == Break::question_mark;
    if (ends_in_question && !asks_why && question_from == clauses.size())
        while (question_from > 0 && clauses[question_from - 1].segment == clauses.back().segment) --question_from;

    SentenceReader reader(fresh);
    std::vector<Frame> frames;
    for (std::size_t i = 0; i < clauses.size(); ++i) {
        frames.push_back(reader.next(views[i], i >= question_from, is_over_now(views, i)));
        if (views[i].holds_anywhere(english().negators)) reader.negated_within_phrase();
    }
    for (std::size_t i = 0; i + 1 < clauses.size(); ++i) frames[i].denied_after = views[i + 1].denies_what_came_before();
    // "When I had a bin in my last flat it was always sopping, years ago that was."
    for (std::size_t i = 1; i < clauses.size(); ++i)
        if (views[i].says_only_that_it_is_over()) frames[i - 1].use = Use::not_at_all;
    // "A fox, I think, had the lid off": what stands around such a clause is a guess.
    for (std::size_t i = 0; i < clauses.size(); ++i) {
        if (!views[i].only_hedges()) continue;
        if (i > 0) frames[i - 1].unsure = true;
        if (i + 1 < clauses.size()) frames[i + 1].unsure = true;
    }
    return frames;
}

}  // namespace lidlift::hearing
