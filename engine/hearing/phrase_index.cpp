#include "engine/hearing/phrase_index.hpp"

#include "engine/hearing/everyday_words.hpp"
#include "engine/hearing/little_words.hpp"
#include "engine/nearest_name.hpp"

#include <algorithm>

namespace lidlift::hearing {
namespace {

constexpr std::size_t most_skipped = 2;          ///< strengthening words within one phrase
constexpr std::size_t shortest_correctable = 5;  ///< letters
constexpr std::size_t shortest_alone = 8;        ///< letters: a misspelt word that is a phrase by itself

std::uint64_t key(Handle<Sign> sign, std::size_t answer) { return std::uint64_t{sign.index} << 32 | answer; }

std::unordered_set<std::string> content_words(const std::vector<Word>& words) {
    std::unordered_set<std::string> result;
    for (const Word& word : words)
        if (!english().negators.has(word.text) && word.text != "of" && word.text != "do") result.insert(word.text);
    return result;
}

}  // namespace

std::string join(Words words) {
    std::string result;
    for (const Word& word : words) result += (result.empty() ? "" : " ") + word.text;
    return result;
}

PhraseIndex::PhraseIndex(const RuleBase& rule_base) {
    for (std::uint32_t s = 0; s < rule_base.signs.size(); ++s) {
        const Handle<Sign> sign{s};
        bool amounts = false;
        const auto& answers = rule_base.signs[sign].answers;
        for (std::size_t a = 0; a < answers.size(); ++a) {
            for (const std::string& phrase : answers[a].heard_as) {
                std::vector<Word> words = words_of_phrase(phrase);
                if (words.empty()) continue;
                Meaning meaning{.sign = sign, .answer = a, .phrase = {}};
                meaning.speaks_of_worms =
                    std::ranges::any_of(words, [](const Word& w) { return english().worm_words.has(w.text); });
                meaning.holds_negation =
                    std::ranges::any_of(words, [](const Word& w) { return english().negators.has(w.text); });
                if (meaning.holds_negation) denials_[key(sign, a)].push_back(content_words(words));
                amounts = amounts || words.front().text == many_of || words.front().text == few_of;
                add(words, meaning);
                const bool strengthened = words.front().text == "too" || words.front().text == "very";
                if (strengthened && words.size() > 1) {
                    meaning.only_when_negated = true;
                    words.erase(words.begin());
                    add(words, meaning);
                }
            }
        }
        graded_.push_back(amounts);
    }
    for (const auto& [word, id] : ids_)
        if (word.size() >= shortest_correctable) vocabulary_[word.front()].push_back(word);
}

void PhraseIndex::add(const std::vector<Word>& words, Meaning meaning) {
    meaning.phrase = join(words);
    std::uint32_t at = 0;
    for (const Word& word : words) {
        const WordId id = ids_.emplace(word.text, static_cast<WordId>(ids_.size())).first->second;
        const auto [next, is_new] = nodes_[at].next.emplace(id, static_cast<std::uint32_t>(nodes_.size()));
        at = next->second;
        if (is_new) nodes_.emplace_back();
    }
    Node& node = nodes_[at];
    const auto same_answer = [&](const Meaning& other) { return other.sign == meaning.sign && other.answer == meaning.answer; };
    if (!node.meaning || (node.meaning->only_when_negated && !meaning.only_when_negated)) {
        node.meaning = std::move(meaning);
    } else if (!same_answer(*node.meaning) && node.meaning->only_when_negated == meaning.only_when_negated) {
        node.ambiguous = true;
    }
}

struct PhraseIndex::Walk {
    Match best;
    std::size_t skipped = 0;
    std::size_t corrected_letters = 0;  ///< length of the corrected word, if any
};

/// The words before `at` have led to `node`, the last of them as a word of the phrase.
void PhraseIndex::arrive(Words words, std::size_t at, std::uint32_t node, Walk& state) const {
    const Node& here = nodes_[node];
    const bool one_corrected_word = state.corrected_letters > 0 && at - state.best.first == 1;
    const bool too_short_to_correct = one_corrected_word && state.corrected_letters < shortest_alone;
    if (here.meaning && !here.ambiguous && !too_short_to_correct && at - state.best.first > state.best.length()) {
        state.best.last = at;
        state.best.meaning = &*here.meaning;
    }
    walk(words, at, node, state);
}

void PhraseIndex::walk(Words words, std::size_t at, std::uint32_t node, Walk& state) const {
    if (at == words.size()) return;
    const auto step = [&](std::string_view text) {
        const auto id = known(text);
        if (!id) return;
        const auto& next = nodes_[node].next;
        if (const auto found = next.find(*id); found != next.end()) arrive(words, at + 1, found->second, state);
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

std::vector<Match> PhraseIndex::matches(Words words) const {
    std::vector<Match> result;
    for (std::size_t first = 0; first < words.size(); ++first) {
        Walk state{.best = {first, first, nullptr}};
        walk(words, first, 0, state);
        if (state.best.meaning) result.push_back(state.best);
    }
    return result;
}

const Meaning* PhraseIndex::find(const std::string& levelled_phrase) const {
    std::uint32_t at = 0;
    for (std::size_t begin = 0; begin < levelled_phrase.size();) {
        const std::size_t end = std::min(levelled_phrase.find(' ', begin), levelled_phrase.size());
        const auto id = known(std::string_view(levelled_phrase).substr(begin, end - begin));
        if (!id) return nullptr;
        const auto next = nodes_[at].next.find(*id);
        if (next == nodes_[at].next.end()) return nullptr;
        at = next->second;
        begin = end + 1;
    }
    const Node& node = nodes_[at];
    return node.meaning && !node.ambiguous && !node.meaning->only_when_negated ? &*node.meaning : nullptr;
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
    if (word.size() < shortest_correctable || ids_.contains(word) || english().little.has(word) || everyday_words().has(word))
        return {};
    const auto candidates = vocabulary_.find(word.front());
    if (candidates == vocabulary_.end()) return {};
    std::string only;
    for (const std::string& candidate : candidates->second) {
        const auto longer = std::max(word.size(), candidate.size());
        if (longer - std::min(word.size(), candidate.size()) > 1 || edit_distance(word, candidate) > 1) continue;
        if (!only.empty()) return {};
        only = candidate;
    }
    return only;
}

std::optional<PhraseIndex::WordId> PhraseIndex::known(std::string_view word) const {
    const auto found = ids_.find(std::string(word));
    if (found == ids_.end()) return std::nullopt;
    return found->second;
}

}  // namespace lidlift::hearing
