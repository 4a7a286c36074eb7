#include "engine/phrasebook.hpp"

#include "engine/answers.hpp"
#include "engine/hearing/caller_text.hpp"
#include "engine/hearing/clause_frame.hpp"
#include "engine/hearing/fed_materials.hpp"
#include "engine/hearing/figures.hpp"
#include "engine/hearing/judgement.hpp"
#include "engine/hearing/kin.hpp"
#include "engine/hearing/little_words.hpp"
#include "engine/hearing/phrase_index.hpp"
#include "engine/hearing/sign_kinds.hpp"

#include <algorithm>
#include <unordered_map>
#include <utility>

namespace lidlift {

using namespace hearing;

namespace {

/// A stretch of the caller's text that is used or not used as a whole.
struct Stretch {
    std::size_t begin = 0;
    std::size_t end = 0;
    bool goes_on = false;  ///< the next stretch is parted from this one by a conjunction only
    bool says_something = false;
    bool of_now = false;      ///< says "now", "these days"
    bool well_again = false;  ///< what was told in the past tense before is over
    std::vector<Reading> readings;
    std::vector<bool> past;  ///< by reading: told in the past tense
    std::vector<OpenQuestion> to_ask;
};

/// May the phrase be heard although it shares words with weightier ones? "Black liquid from the tap" holds two that share
/// "liquid", "red mites on the worms" begins with "red mites".
bool stands_beside(const Match& match, const std::vector<Match>& others, Words words, const RuleBase& rule_base) {
    static const Sayings things("animals|feed|mould|stage");
    if (match.length() < 2 || match.meaning->holds_negation) return false;
    for (const Match& other : others) {
        if (other.last <= match.first || match.last <= other.first) continue;
        if (other.meaning->sign == match.meaning->sign || other.meaning->holds_negation) return false;
        const bool begins_it = match.first >= other.first && match.last < other.last &&
                               english().little.has(words[match.last].text) &&
                               things.has(rule_base.signs[match.meaning->sign].topic);
        const bool shares_last = match.last == other.first + 1 && match.first < other.first;
        const bool shares_first = match.first + 1 == other.last && other.last < match.last;
        if (!begins_it && !shares_last && !shares_first) return false;
        // "Tiny fruit flies everywhere" are no flies of another kind.
        const std::string& topic = rule_base.signs[match.meaning->sign].topic;
        if (!begins_it && (topic == "animals" || topic == "worms") && topic == rule_base.signs[other.meaning->sign].topic)
            return false;
        const auto own =
            shares_last ? words.subspan(match.first, match.length() - 1) : words.subspan(match.first + 1, match.length() - 1);
        if (std::ranges::all_of(own, [](const Word& word) { return english().little.has(word.text); })) return false;
    }
    return true;
}

std::vector<Match> without_overlaps(std::vector<Match> matches, Covered& covered, Words words, const RuleBase& rule_base) {
    std::ranges::stable_sort(matches, std::ranges::greater{}, &Match::weight);
    const Covered figures = covered;
    const auto in_figures = [&](const Match& match) {
        const auto first = figures.begin() + static_cast<std::ptrdiff_t>(match.first);
        const auto last = figures.begin() + static_cast<std::ptrdiff_t>(match.last);
        return std::find(first, last, true) != last;
    };
    std::vector<Match> result;
    for (const Match& match : matches) {
        const auto begin = covered.begin() + static_cast<std::ptrdiff_t>(match.first);
        const auto end = covered.begin() + static_cast<std::ptrdiff_t>(match.last);
        if (std::find(begin, end, true) != end) {
            if (in_figures(match)) continue;
            // "Standing water in the corners" is two phrases for one thing.
            const auto same = std::ranges::find_if(result, [&](const Match& other) {
                return other.meaning->sign == match.meaning->sign && other.meaning->answer == match.meaning->answer &&
                       other.first < match.last && match.first < other.last && !other.meaning->holds_negation;
            });
            const bool beside_others = std::ranges::none_of(result, [&](const Match& other) {
                return (same == result.end() || &other != &*same) && other.first < match.last && match.first < other.last;
            });
            if (same != result.end() && beside_others) {
                same->first = std::min(same->first, match.first);
                same->last = std::max(same->last, match.last);
                std::fill(begin, end, true);
                continue;
            }
            if (!stands_beside(match, result, words, rule_base)) continue;
        }
        std::fill(begin, end, true);
        result.push_back(match);
    }
    std::ranges::sort(result, {}, &Match::first);
    return result;
}

/// "The worms have all gone to the walls", "gone mad": they are not gone.
bool goes_somewhere(const Match& match, Words words) {
    static const Sayings going("gone|went|moved|left|vanished|disappeared");
    static const Sayings where_to("to|into|down|up|over|under|across|through|underneath|deep|inside|back|next");
    static const Sayings ends_there(
        "now|again|overnight|since|completely|altogether|missing|and|but|from|already|this|today|in");
    if (match.last >= words.size()) return false;
    const std::string& next = words[match.last].text;
    if (words[match.last - 1].text == "gone")
        return !ends_there.has(next) && !english().clause_openers.stands_at(words, match.last);
    return going.has(words[match.last - 1].text) && where_to.has(next);
}

/// "Flies all over", of "fruit flies all over": a kind that is named leaves nothing to ask.
void drop_where_the_kind_is_named(std::vector<Match>& matches, const RuleBase& rule_base) {
    const std::vector<Match> all = matches;
    std::erase_if(matches, [&](const Match& match) {
        const auto& kinds = rule_base.signs[match.meaning->sign].narrowed_by;
        return std::ranges::any_of(all, [&](const Match& other) {
            return other.first < match.last && match.first < other.last &&
                   std::ranges::find(kinds, other.meaning->sign) != kinds.end();
        });
    });
}

/// "The bed smells", of "the bed smells of vinegar", says nothing by itself.
void drop_vaguer_smells(std::vector<Match>& matches, Words words, const RuleBase& rule_base) {
    const auto is_smell = [&](const Match& match) { return rule_base.signs[match.meaning->sign].topic == "smell"; };
    const std::vector<Match> all = matches;
    std::erase_if(matches, [&](const Match& match) {
        return match.length() == 2 && is_smell(match) && words[match.last - 1].text == "smell" &&
               std::ranges::any_of(all, [&](const Match& other) { return other.first + 1 == match.last && is_smell(other); });
    });
}

/// "It smells", of "it smells a bit sour", and "they look", of "they look pale", say nothing by themselves.
void drop_what_goes_on(std::vector<Match>& matches, Words words, const RuleBase& rule_base) {
    std::vector<Match> kept;
    for (std::size_t i = 0; i < matches.size(); ++i) {
        bool goes_on = false;
        if (i + 1 < matches.size() && joins(words[matches[i].last - 1].text) && matches[i].last <= matches[i + 1].first) {
            const auto topic = [&](const Match& match) { return rule_base.signs[match.meaning->sign].topic; };
            const auto between = words.subspan(matches[i].last, matches[i + 1].first - matches[i].last);
            goes_on =
                topic(matches[i]) == topic(matches[i + 1]) && std::ranges::all_of(between, [](const Word& word) {
                    return english().strengtheners.has(word.text) || english().weakeners.has(word.text) || word.text == few_of;
                });
        }
        if (!goes_on) kept.push_back(matches[i]);
    }
    matches = std::move(kept);
}

/// Is the creature last named, up to this word, another than compost worms? Rotten eggs are only a smell.
bool others_spoken_of(Words words, std::size_t at, bool before) {
    static const Sayings only_a_smell("rotten|bad");
    const std::string_view previous = at > 0 ? std::string_view(words[at - 1].text) : std::string_view{};
    if (english().worm_words.has(words[at].text)) return english().makes_worms_doubtful.has(previous);
    if (english().others_that_they_may_be.has(words[at].text)) return before || !only_a_smell.has(previous);
    return before;
}

/// What one text says: cut, matched, judged.
class Listener {
public:
    Listener(const RuleBase& rule_base, const PhraseIndex& phrases, const FedMaterials& fed, std::string_view text)
        : rule_base_(rule_base),
          phrases_(phrases),
          fed_(fed),
          judge_(rule_base, phrases),
          text_(text),
          segments_(cut_into_segments(text)) {}

    std::vector<Stretch> stretches() {
        prepare_words();
        for (std::size_t s = 0; s < segments_.size(); ++s) find_phrases(s);
        std::vector<Clause> sentence;
        for (std::size_t s = 0; s < segments_.size(); ++s) {
            std::ranges::copy(cut_into_clauses(segments_[s].words, covered_[s], s), std::back_inserter(sentence));
            if (segments_[s].after == Break::comma && s + 1 < segments_.size()) continue;
            read_sentence(sentence);
            sentence.clear();
        }
        return std::move(stretches_);
    }

private:
    /// Misspelt words and "they".
    void prepare_words() {
        struct Known {
            std::string corrected;
            std::string kin;
            std::string corrected_kin;
        };
        std::unordered_map<std::string, Known> known_words;
        bool others = false;
        for (Segment& segment : segments_) {
            for (std::size_t i = 0; i < segment.words.size(); ++i) {
                Word& word = segment.words[i];
                const auto [known, is_new] = known_words.try_emplace(word.text);
                if (is_new) {
                    const std::string corrected = phrases_.corrected(word.text);
                    known->second = {corrected, kin_of(word.text), corrected.empty() ? corrected : kin_of(corrected)};
                }
                word.corrected = known->second.corrected;
                word.kin = known->second.kin;
                word.corrected_kin = known->second.corrected_kin;
                others = others_spoken_of(segment.words, i, others);
                word.means_worms = word.text == "they" && !others;
            }
        }
    }

    void find_phrases(std::size_t s) {
        const Words words = segments_[s].words;
        Covered& covered = covered_.emplace_back(words.size(), false);
        for (HeardFigure& figure : figures_.emplace_back(find_figures(rule_base_, words))) {
            const auto begin = covered.begin() + static_cast<std::ptrdiff_t>(figure.first);
            std::fill(begin, covered.begin() + static_cast<std::ptrdiff_t>(figure.last), true);
        }
        std::vector<Match> matches = phrases_.matches(words);
        std::ranges::move(fed_.matches(words), std::back_inserter(matches));
        std::erase_if(matches, [&](const Match& match) { return goes_somewhere(match, words); });
        drop_where_the_kind_is_named(matches, rule_base_);
        drop_vaguer_smells(matches, words, rule_base_);
        matches = without_overlaps(std::move(matches), covered, words, rule_base_);
        drop_what_goes_on(matches, words, rule_base_);
        matches_.push_back(std::move(matches));
    }

    void read_sentence(const std::vector<Clause>& clauses) {
        const auto frames = frames_of_sentence(segments_, covered_, clauses, fresh_scene_);
        const auto leads_in = [&](std::size_t i) {
            return i + 1 < clauses.size() ? troubles_led_in(clauses[i], clauses[i + 1]) : 0;
        };
        for (std::size_t i = 0; i < clauses.size(); ++i) {
            const Clause& clause = clauses[i];
            const Words words = segments_[clause.segment].words;
            Stretch& stretch = stretches_.emplace_back();
            stretch.begin = begin_of(clause);
            stretch.end = words[clause.last - 1].end;
            stretch.goes_on = i + 1 < clauses.size() && clauses[i + 1].segment == clause.segment;
            read_clause({.words = words,
                         .clause = clause,
                         .frame = frames[i],
                         .covered = &covered_[clause.segment],
                         .troubles = leads_in(i),
                         .others_spoken_of = others_spoken_of_},
                        stretch);
            remember_creatures(words, clause);
        }
    }

    /// "For the past few weeks, I find worms under the lid": how many phrases of the next clause, where a short clause ends at
    /// a comma.
    [[nodiscard]] int troubles_led_in(const Clause& clause, const Clause& next) const {
        constexpr std::size_t longest_lead = 8;
        if (next.segment == clause.segment || clause.last - clause.first > longest_lead) return 0;
        return static_cast<int>(std::ranges::count_if(matches_[next.segment], [&](const Match& match) {
            return next.first <= match.first && match.first < next.last && is_trouble(rule_base_.signs[match.meaning->sign]);
        }));
    }

    /// Where the clause begins, its conjunction left out.
    [[nodiscard]] std::size_t begin_of(const Clause& clause) const {
        static const Sayings conjunctions("and|but|plus|also");
        const Words words = segments_[clause.segment].words;
        const Word& first = words[clause.first];
        if (clause.first == 0) return segments_[clause.segment].begin;
        return clause.last - clause.first > 1 && conjunctions.has(first.text) ? first.end + 1 : first.begin;
    }

    void read_clause(const Scene& scene, Stretch& stretch) {
        const Clause& clause = scene.clause;
        std::vector<Match> here;
        for (const Match& match : matches_[clause.segment])
            if (clause.first <= match.first && match.first < clause.last) here.push_back(match);
        const auto verdicts = judge_.verdicts(scene, here);
        for (std::size_t i = 0; i < here.size(); ++i)
            if (verdicts[i])
                add(stretch, {here[i].meaning->sign, verdicts[i]->value, said(scene.words, verdicts[i]->first, here[i].last)},
                    verdicts[i]->past);
        stretch.well_again = scene.frame.well_again;
        stretch.of_now = scene.frame.of_now;
        for (const HeardFigure& figure : figures_[clause.segment]) {
            const bool guessed = scene.frame.use == Use::only_as_intention && scene.frame.guessed;
            if (figure.first < clause.first || figure.first >= clause.last || (scene.frame.use != Use::as_said && !guessed))
                continue;
            if (scene.frame.negates && !figure.negated) continue;
            const bool unsure = (scene.frame.unsure || (guessed && !figure.banded)) && !figure.value.ends_with(",unsure");
            add(stretch, {figure.sign, figure.value + (unsure ? ",unsure" : ""), said(scene.words, figure.first, figure.last)},
                false);
        }
        if (scene.frame.use == Use::as_said && !scene.frame.negates) open_questions(scene, stretch);
        for (std::size_t i = clause.first; i < clause.last; ++i)
            stretch.says_something = stretch.says_something || !english().little.has(scene.words[i].text);
    }

    /// Phrases that may mean several things, where no clearer one stands.
    void open_questions(const Scene& scene, Stretch& stretch) const {
        const Covered& covered = *scene.covered;
        for (std::size_t i = scene.clause.first; i < scene.clause.last; ++i) {
            const auto perhaps = phrases_.perhaps_at(scene.words.subspan(0, scene.clause.last), i);
            if (perhaps.length == 0) continue;
            const auto first = covered.begin() + static_cast<std::ptrdiff_t>(i);
            const auto last = first + static_cast<std::ptrdiff_t>(perhaps.length);
            if (std::find(first, last, true) == last)
                stretch.to_ask.push_back({said(scene.words, i, i + perhaps.length), perhaps.signs});
            i += perhaps.length - 1;
        }
    }

    static void add(Stretch& stretch, Reading reading, bool past) {
        stretch.readings.push_back(std::move(reading));
        stretch.past.push_back(past);
    }

    void remember_creatures(Words words, const Clause& clause) {
        for (std::size_t i = clause.first; i < clause.last; ++i)
            others_spoken_of_ = others_spoken_of(words, i, others_spoken_of_);
    }

    [[nodiscard]] std::string said(Words words, std::size_t first, std::size_t last) const {
        return std::string(text_.substr(words[first].begin, words[last - 1].end - words[first].begin));
    }

    const RuleBase& rule_base_;
    const PhraseIndex& phrases_;
    const FedMaterials& fed_;
    Judge judge_;
    std::string_view text_;
    std::vector<Segment> segments_;
    std::vector<Covered> covered_;
    std::vector<std::vector<Match>> matches_;
    std::vector<std::vector<HeardFigure>> figures_;
    std::vector<Stretch> stretches_;
    bool others_spoken_of_ = false;
    bool fresh_scene_ = false;  ///< the sentence before tells of a moment just past
};

/// Leaves the readings of a stretch for which `keep` (by reading, past) holds.
template <typename Keep>
void keep_readings(Stretch& stretch, const Keep& keep) {
    Stretch kept;  // readings only
    for (std::size_t i = 0; i < stretch.readings.size(); ++i) {
        if (!keep(stretch.readings[i], stretch.past[i])) continue;
        kept.readings.push_back(stretch.readings[i]);
        kept.past.push_back(stretch.past[i]);
    }
    stretch.readings = std::move(kept.readings);
    stretch.past = std::move(kept.past);
}

constexpr std::string_view guessed = ",unsure";

/// The past tense counts until the bed is said to be well again, and where nothing is said of now.
void drop_what_is_over(std::vector<Stretch>& stretches) {
    bool well_again = false;
    std::vector<Handle<Sign>> told_of_now;
    // Not std::views::reverse: clang 14 cannot read libstdc++ 12's views.
    for (auto at = stretches.rbegin(); at != stretches.rend(); ++at) {
        Stretch& stretch = *at;
        if (well_again) keep_readings(stretch, [](const Reading&, bool past) { return !past; });
        well_again = well_again || stretch.well_again;
        for (std::size_t i = 0; i < stretch.readings.size(); ++i)
            if (!stretch.past[i]) told_of_now.push_back(stretch.readings[i].sign);
    }
    for (Stretch& stretch : stretches)
        keep_readings(stretch, [&](const Reading& reading, bool past) {
            return !past || std::ranges::find(told_of_now, reading.sign) == told_of_now.end();
        });
}

/// A story told in the past tense throughout tells how it is. Where it speaks of now as well, nobody knows whether what was is
/// still so.
void doubt_what_was(const RuleBase& rule_base, std::vector<Stretch>& stretches) {
    const auto tells_of_now = [&](const Stretch& stretch) {
        for (std::size_t i = 0; i < stretch.readings.size(); ++i)
            if (!stretch.past[i] && is_trouble(rule_base.signs[stretch.readings[i].sign])) return true;
        return stretch.of_now;
    };
    if (std::ranges::none_of(stretches, tells_of_now)) return;
    for (Stretch& stretch : stretches)
        for (std::size_t i = 0; i < stretch.readings.size(); ++i)
            if (stretch.past[i] && !stretch.readings[i].value.ends_with(guessed)) stretch.readings[i].value += guessed;
}

/// A sign that was told surely leaves no room for what was guessed of it.
void drop_guesses(std::vector<Stretch>& stretches) {
    std::vector<Handle<Sign>> sure;
    for (const Stretch& stretch : stretches)
        for (const Reading& reading : stretch.readings)
            if (!reading.value.ends_with(guessed) && !reading.value.starts_with("not ")) sure.push_back(reading.sign);
    for (Stretch& stretch : stretches)
        keep_readings(stretch, [&](const Reading& reading, bool) {
            return !reading.value.ends_with(guessed) || std::ranges::find(sure, reading.sign) == sure.end();
        });
}

/// Signs that were told in two ways that exclude each other, or with a figure that cannot be.
std::vector<Handle<Sign>> contradicted(const RuleBase& rule_base, const std::vector<Stretch>& stretches) {
    Told told;
    std::vector<Handle<Sign>> result;
    for (const Stretch& stretch : stretches)
        for (const Reading& reading : stretch.readings)
            if (hear(told, rule_base, rule_base.signs[reading.sign].id, reading.value, {})) result.push_back(reading.sign);
    return result;
}

std::string_view within_limit(std::string_view text) {
    if (text.size() <= Phrasebook::longest_text) return text;
    const auto space = text.rfind(' ', Phrasebook::longest_text);
    return text.substr(0, space == std::string_view::npos ? 0 : space);
}

}  // namespace

struct Phrasebook::Inside {
    const RuleBase& rule_base;
    PhraseIndex phrases;
    FedMaterials fed;
};

Phrasebook::Phrasebook(const RuleBase& rule_base)
    : inside_(new Inside{rule_base, PhraseIndex(rule_base), FedMaterials(rule_base)}) {}
Phrasebook::~Phrasebook() = default;
Phrasebook::Phrasebook(Phrasebook&&) noexcept = default;
Phrasebook& Phrasebook::operator=(Phrasebook&&) noexcept = default;

Understanding Phrasebook::read(std::string_view text) const {
    const std::string_view used = within_limit(text);
    std::vector<Stretch> stretches = Listener(inside_->rule_base, inside_->phrases, inside_->fed, used).stretches();
    drop_what_is_over(stretches);
    doubt_what_was(inside_->rule_base, stretches);
    drop_guesses(stretches);
    const auto dropped = contradicted(inside_->rule_base, stretches);
    Understanding result;
    const Stretch* unread_from = nullptr;
    for (Stretch& stretch : stretches) {
        std::erase_if(stretch.readings,
                      [&](const Reading& reading) { return std::ranges::find(dropped, reading.sign) != dropped.end(); });
        std::ranges::move(stretch.to_ask, std::back_inserter(result.to_ask));
        for (const Reading& reading : stretch.readings) {
            const Sign& sign = inside_->rule_base.signs[reading.sign];
            if (!sign.narrowed_by.empty() && reading.value.starts_with(sign.answers.front().id))
                result.to_ask.push_back({reading.words, sign.narrowed_by});
        }
        const bool unread = stretch.readings.empty();
        std::ranges::move(stretch.readings, std::back_inserter(result.readings));
        if (unread && unread_from == nullptr && stretch.says_something) unread_from = &stretch;
        // Unread clauses that only a conjunction parts are shown as one.
        const bool goes_on = unread && stretch.goes_on && (&stretch + 1)->readings.empty();
        if (unread_from == nullptr || goes_on) continue;
        const std::size_t end = unread ? stretch.end : unread_from->end;
        result.not_understood.emplace_back(used.substr(unread_from->begin, end - unread_from->begin));
        unread_from = nullptr;
    }
    std::erase_if(result.to_ask, [&](const OpenQuestion& open) {
        return std::ranges::any_of(open.signs, [&](Handle<Sign> sign) {
            return std::ranges::find(result.readings, sign, &Reading::sign) != result.readings.end();
        });
    });
    if (used.size() < text.size())
        result.not_understood.emplace_back("(all that comes after the first " + std::to_string(used.size()) + " bytes)");
    return result;
}

}  // namespace lidlift
