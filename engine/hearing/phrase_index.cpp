#include "engine/hearing/phrase_index.hpp"

#include "engine/hearing/everyday_words.hpp"
#include "engine/hearing/kin.hpp"
#include "engine/hearing/little_words.hpp"
#include "engine/hearing/stems.hpp"
#include "engine/nearest_name.hpp"

#include <algorithm>
#include <iterator>

namespace lidlift::hearing {
namespace {

constexpr std::size_t most_skipped = 2;           ///< strengthening words within one phrase
constexpr std::size_t most_between = 3;           ///< small words within one phrase said in other words
constexpr std::size_t least_around_stranger = 3;  ///< words of a phrase within which one word may stand that it does not have
constexpr std::size_t shortest_correctable = 5;   ///< letters
constexpr std::size_t shortest_alone = 8;         ///< letters: a misspelt word that is a phrase by itself

std::uint64_t key(Handle<Sign> sign, std::size_t answer) { return std::uint64_t{sign.index} << 32 | answer; }

std::uint64_t edge(std::uint32_t node, std::uint32_t word) { return std::uint64_t{node} << 32 | word; }

std::unordered_set<std::string> content_words(const std::vector<Word>& words) {
    std::unordered_set<std::string> result;
    for (const Word& word : words)
        if (!english().negators.has(word.text) && word.text != "of" && word.text != "do") result.insert(word.text);
    return result;
}

/// A word that a caller may put into a phrase without turning what it says: "covered in water drops" for "covered in drops".
bool may_be_stranger(const Word& word) {
    return !english().negators.has(word.text) && !joins(word.text) && !word.means_worms && word.kin != "worms" &&
           word.text != many_of && word.text != few_of && word.text.find_first_of("0123456789") == std::string::npos;
}

/// A word that says something of its own is no stranger within another phrase: "since the storm last night" tells of the storm.
/// What it says together with other words of that phrase says less than the whole: "the bag smells strongly of ammonia".
void leave_strangers_what_they_say(std::vector<Match>& matches) {
    const std::vector<Match> all = matches;
    std::erase_if(matches, [&](const Match& match) {
        return match.stranger && std::ranges::any_of(all, [&](const Match& other) {
                   const bool within = other.length() > 1 && !other.meaning->holds_negation && match.first <= other.first &&
                                       other.last <= match.last;
                   return !other.stranger && !within && other.first <= *match.stranger && *match.stranger < other.last;
               });
    });
}

}  // namespace

std::string join(Words words) {
    std::string result;
    for (const Word& word : words) result += (result.empty() ? "" : " ") + word.text;
    return result;
}

PhraseIndex::PhraseIndex(const RuleBase& rule_base) {
    std::size_t phrases = 0;
    for (std::uint32_t s = 0; s < rule_base.signs.size(); ++s)
        for (const Answer& answer : rule_base.signs[Handle<Sign>{s}].answers) phrases += answer.heard_as.size();
    for (Tree* tree : {&written_, &kin_}) tree->edges.reserve(2 * phrases);
    for (std::uint32_t s = 0; s < rule_base.signs.size(); ++s) {
        const Handle<Sign> sign{s};
        Amounts& amounts = amounts_.emplace_back();
        const auto& answers = rule_base.signs[sign].answers;
        for (std::size_t a = 0; a < answers.size(); ++a) {
            for (const std::string& phrase : answers[a].perhaps_heard_as) {
                const std::vector<Word> words = words_of_phrase(phrase);
                auto& signs = perhaps_[join(words)];
                if (std::ranges::find(signs, sign) == signs.end()) signs.push_back(sign);
                longest_perhaps_ = std::max(longest_perhaps_, words.size());
            }
            for (const std::string& phrase : answers[a].heard_as) {
                std::vector<Word> words = words_of_phrase(phrase);
                if (words.empty()) continue;
                Meaning meaning{.sign = sign, .answer = a, .phrase = {}};
                meaning.speaks_of_worms =
                    std::ranges::any_of(words, [](const Word& w) { return english().worm_words.has(w.text); });
                meaning.holds_negation =
                    std::ranges::any_of(words, [](const Word& w) { return english().negators.has(w.text); });
                if (meaning.holds_negation) denials_[key(sign, a)].push_back(content_words(words));
                if (words.front().text == many_of) amounts.many.insert(a);
                if (words.front().text == few_of) amounts.few.insert(a);
                add(words, meaning);
                const bool strengthened = words.front().text == "too" || words.front().text == "very";
                if (strengthened && words.size() > 1) {
                    meaning.only_when_negated = true;
                    words.erase(words.begin());
                    add(words, meaning);
                }
            }
        }
    }
    for (const auto& [word, id] : written_.ids)
        if (word.size() >= shortest_correctable) vocabulary_[word.front()].push_back(word);
}

void PhraseIndex::add(const std::vector<Word>& words, const Meaning& meaning) {
    Meaning as_written = meaning;
    as_written.phrase = join(words);
    std::vector<std::string> texts;
    for (const Word& word : words) texts.push_back(word.text);
    written_.add(texts, as_written);
    add_kin(words, as_written);
}

/// The phrase kin by kin, without what may be left out, and turned round: "worms are pale" for "pale worms" and the other way.
void PhraseIndex::add_kin(const std::vector<Word>& words, const Meaning& meaning) {
    std::vector<std::string> all;
    std::vector<std::string> needed;
    std::size_t telling = 0;
    bool joined = false;
    bool synonyms = false;
    for (const Word& word : words) {
        // "A dead worm" is one, "dead worms" are many.
        const bool left_out = may_be_left_out(word.text) && (&word != &words.front() || word.text != "a");
        all.push_back(kin_of(word.text));
        if (!left_out) needed.push_back(all.back());
        joined = joined || (joins(word.text) && needed.size() == 1);
        if (left_out || english().negators.has(word.text)) continue;
        ++telling;
        synonyms = synonyms || has_synonyms(word.text);
    }
    // Two telling words or one are too little to be said in other words; their inflections are near enough.
    if (needed.size() == 2 && telling == 2 && synonyms) return;
    // Of one word alone only its singular: "floods" are no "flooded".
    if (words.size() == 1 && !words.front().text.ends_with('s')) return;
    if (telling < 2 && (synonyms || needed.back().size() < shortest_correctable)) return;
    kin_.add(needed.size() < 2 ? all : needed, meaning);
    if (needed.size() != 2 || telling != 2 || needed.front() == needed.back()) return;
    Meaning turned = meaning;
    turned.turned_round = true;
    if (words.size() == 2) kin_.add({needed[1], std::string(joining_verb), needed[0]}, turned);
    if (words.size() == 3 && joined) kin_.add({needed[1], needed[0]}, turned);
}

void PhraseIndex::Tree::add(const std::vector<std::string>& words, const Meaning& meaning) {
    std::uint32_t at = 0;
    for (const std::string& word : words) {
        const WordId id = ids.emplace(word, static_cast<WordId>(ids.size())).first->second;
        const auto [next, is_new] = edges.emplace(edge(at, id), static_cast<std::uint32_t>(nodes.size()));
        at = next->second;
        if (is_new) nodes.emplace_back();
    }
    Node& node = nodes[at];
    const auto weight = [](const Meaning& m) { return (m.turned_round ? 1 : 0) + (m.only_when_negated ? 2 : 0); };
    if (node.meaning == Node::nothing) {
        node.meaning = static_cast<std::uint32_t>(meanings.size());
        meanings.push_back(meaning);
        return;
    }
    Meaning& known = meanings[node.meaning];
    if (weight(meaning) < weight(known)) {
        known = meaning;
        node.ambiguous = false;
    } else if (weight(meaning) == weight(known) && (known.sign != meaning.sign || known.answer != meaning.answer)) {
        node.ambiguous = true;
    }
}

const Meaning* PhraseIndex::Tree::meaning_at(std::uint32_t node) const {
    const Node& here = nodes[node];
    return here.meaning == Node::nothing || here.ambiguous ? nullptr : &meanings[here.meaning];
}

std::optional<std::uint32_t> PhraseIndex::Tree::step(std::uint32_t node, std::string_view word) const {
    const auto id = known(word);
    if (!id) return std::nullopt;
    const auto found = edges.find(edge(node, *id));
    if (found == edges.end()) return std::nullopt;
    return found->second;
}

std::optional<PhraseIndex::WordId> PhraseIndex::Tree::known(std::string_view word) const {
    const auto found = ids.find(std::string(word));
    if (found == ids.end()) return std::nullopt;
    return found->second;
}

struct PhraseIndex::Walk {
    std::size_t first = 0;
    std::vector<Match> best;  ///< of each sign
    std::size_t said = 0;     ///< words of the phrase
    std::size_t skipped = 0;
    std::size_t corrected_letters = 0;  ///< length of the corrected word, if any
    std::optional<std::size_t> stranger = {};
};

/// The words before `at` have led to `node`, the last of them as a word of the phrase.
void PhraseIndex::arrive(const Tree& tree, Words words, std::size_t at, std::uint32_t node, Walk& state) const {
    const Meaning* meaning = tree.meaning_at(node);
    const bool one_corrected_word = state.corrected_letters > 0 && at - state.first == 1;
    const bool too_short_to_correct = one_corrected_word && state.corrected_letters < shortest_alone;
    const std::size_t weight = 2 * ++state.said + (&tree == &written_ ? 1 : 0) - (state.stranger ? 1 : 0);
    const bool too_short_for_stranger = state.stranger && state.said < least_around_stranger;
    if (meaning && !too_short_to_correct && !too_short_for_stranger) {
        const Match match{state.first, at, meaning, weight, state.stranger};
        const auto same = std::ranges::find(state.best, meaning->sign, [](const Match& match) { return match.meaning->sign; });
        if (same == state.best.end())
            state.best.push_back(match);
        else if (weight > same->weight)
            *same = match;
    }
    if (&tree == &written_)
        walk(words, at, node, state);
    else
        walk_kin(words, at, node, state);
    --state.said;
}

void PhraseIndex::walk(Words words, std::size_t at, std::uint32_t node, Walk& state) const {
    if (at == words.size()) return;
    const auto step = [&](std::string_view text) {
        if (const auto next = written_.step(node, text)) arrive(written_, words, at + 1, *next, state);
    };
    const Word& word = words[at];
    step(word.text);
    if (word.text == "was") step("is");
    if (word.means_worms) step("worms");
    if (word.text == "worms") step("they");
    if (!word.corrected.empty() && state.corrected_letters == 0) {
        state.corrected_letters = word.text.size();
        step(word.corrected);
        state.corrected_letters = 0;
    }
    if (node != 0 && state.skipped < most_skipped && english().strengtheners.has(word.text)) {
        ++state.skipped;
        walk(words, at + 1, node, state);
        --state.skipped;
    }
}

void PhraseIndex::walk_kin(Words words, std::size_t at, std::uint32_t node, Walk& state) const {
    if (at == words.size()) return;
    const auto step = [&](std::string_view kin) {
        if (const auto next = kin_.step(node, kin)) arrive(kin_, words, at + 1, *next, state);
    };
    const Word& word = words[at];
    step(word.kin);
    if (word.means_worms) step("worms");
    if (word.kin == "worms") step("they");
    if (joins(word.text)) step(joining_verb);
    if (!word.corrected.empty() && state.corrected_letters == 0) {
        state.corrected_letters = word.text.size();
        step(word.corrected_kin);
        state.corrected_letters = 0;
    }
    if (node != 0 && state.skipped < most_between && may_stand_between(word.text)) {
        ++state.skipped;
        walk_kin(words, at + 1, node, state);
        --state.skipped;
    } else if (node != 0 && !state.stranger && may_be_stranger(word)) {
        state.stranger = at;
        walk_kin(words, at + 1, node, state);
        state.stranger.reset();
    }
}

std::vector<Match> PhraseIndex::matches(Words words) const {
    std::vector<Match> result;
    for (std::size_t first = 0; first < words.size(); ++first) {
        Walk state{.first = first, .best = {}};
        walk(words, first, 0, state);
        walk_kin(words, first, 0, state);
        std::ranges::move(state.best, std::back_inserter(result));
    }
    leave_strangers_what_they_say(result);
    return result;
}

const Meaning* PhraseIndex::find(const std::string& levelled_phrase) const {
    std::uint32_t at = 0;
    for (std::size_t begin = 0; begin < levelled_phrase.size();) {
        const std::size_t end = std::min(levelled_phrase.find(' ', begin), levelled_phrase.size());
        const auto next = written_.step(at, std::string_view(levelled_phrase).substr(begin, end - begin));
        if (!next) return nullptr;
        at = *next;
        begin = end + 1;
    }
    const Meaning* meaning = written_.meaning_at(at);
    return meaning && !meaning->only_when_negated ? meaning : nullptr;
}

PhraseIndex::Perhaps PhraseIndex::perhaps_at(Words words, std::size_t at) const {
    Perhaps longest;
    std::string phrase;
    for (std::size_t last = at; last < words.size() && last < at + longest_perhaps_; ++last) {
        phrase += (phrase.empty() ? "" : " ") + words[last].text;
        if (const auto found = perhaps_.find(phrase); found != perhaps_.end()) longest = {last + 1 - at, found->second};
    }
    return longest;
}

std::optional<std::size_t> PhraseIndex::answer_of_amount(Handle<Sign> sign, std::string_view amount) const {
    const auto& answers = amount == many_of ? amounts_[sign.index].many : amounts_[sign.index].few;
    if (answers.size() != 1) return std::nullopt;
    return *answers.begin();
}

bool PhraseIndex::takes_amount(Handle<Sign> sign, std::size_t answer, std::string_view amount) const {
    return (amount == many_of ? amounts_[sign.index].many : amounts_[sign.index].few).contains(answer);
}

bool PhraseIndex::denied_by(const Meaning& meaning, std::size_t answer) const {
    const auto denials = denials_.find(key(meaning.sign, answer));
    if (denials == denials_.end()) return false;
    const auto words = content_words(words_of_phrase(meaning.phrase));
    return std::ranges::any_of(denials->second, [&](const auto& denial) {
        return std::ranges::all_of(words, [&](const std::string& word) { return denial.contains(word); });
    });
}

std::string PhraseIndex::corrected(const std::string& word) const {
    // An inflection of a word that is known is no slip.
    if (kin_.ids.contains(kin_of(word)) || everyday_words().has(stem_of(word))) return {};
    if (word.size() < shortest_correctable || written_.ids.contains(word) || english().little.has(word) ||
        everyday_words().has(word))
        return {};
    const auto candidates = vocabulary_.find(word.front());
    if (candidates == vocabulary_.end()) return {};
    std::string only;
    for (const std::string& candidate : candidates->second) {
        const auto longer = std::max(word.size(), candidate.size());
        if (longer - std::min(word.size(), candidate.size()) > 1 || edit_distance(word, candidate) > 1) continue;
        if (only.empty() || (kin_of(only) == kin_of(candidate) && candidate < only))
            only = candidate;
        else if (kin_of(only) != kin_of(candidate))
            return {};
    }
    return only;
}

}  // namespace lidlift::hearing
