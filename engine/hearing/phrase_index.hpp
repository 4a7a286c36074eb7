// All `heard as` phrases of a rule base, and where they stand in a caller's words.
#pragma once

#include "engine/hearing/caller_text.hpp"
#include "engine/rule_base.hpp"

#include <cstdint>
#include <optional>
#include <set>
#include <string>
#include <unordered_map>
#include <unordered_set>
#include <vector>

namespace lidlift::hearing {

/// What a phrase means. Two answers that share a phrase make it useless: it is left out.
struct Meaning {
    Handle<Sign> sign;
    std::size_t answer = 0;
    bool only_when_negated = false;  ///< "wet", from "too wet": being wet is not being too wet, but not being wet rules it out
    bool speaks_of_worms = false;    ///< the phrase itself names the worms
    bool holds_negation = false;     ///< "no smell", "won't touch the food"
    bool of_material = false;        ///< a material that somebody fed: "added fish"; see hearing/fed_materials
    bool turned_round = false;       ///< "pale worms", from "worms are pale": gives way to a phrase that was written so
    std::string phrase;              ///< as levelled, words with single spaces
    friend bool operator==(const Meaning&, const Meaning&) = default;
};

struct Match {
    std::size_t first = 0;  ///< words [first, last)
    std::size_t last = 0;
    const Meaning* meaning = nullptr;
    /// How much of the phrase was said, in half words: as it was written counts for more than in other words.
    std::size_t weight = 0;
    std::optional<std::size_t> stranger = {};  ///< a word within it that the phrase does not have
    [[nodiscard]] std::size_t length() const { return last - first; }
};

/// Words with single spaces.
[[nodiscard]] std::string join(Words words);

class PhraseIndex {
public:
    explicit PhraseIndex(const RuleBase& rule_base);

    /// The longest phrase of each sign that begins at each word: as it was written, words that only strengthen ("really") left
    /// out of account between its words; or in other words of the same kin, with small words more or fewer and,
    /// in a phrase of three words or more, one other word that says nothing of its own.
    [[nodiscard]] std::vector<Match> matches(Words words) const;
    /// The meaning of exactly this phrase.
    [[nodiscard]] const Meaning* find(const std::string& levelled_phrase) const;
    /// Is this phrase, as a trainer wrote it, of use? Not if another answer has it too.
    [[nodiscard]] bool knows(std::string_view phrase) const { return find(join(words_of_phrase(phrase))) != nullptr; }
    /// Do the answers to this sign differ by amount ("a few", "lots of")?
    [[nodiscard]] bool graded(Handle<Sign> sign) const {
        return !amounts_[sign.index].many.empty() || !amounts_[sign.index].few.empty();
    }
    /// A phrase that may mean several things, at a word: how long it is, and the signs to ask; none: zero words.
    struct Perhaps {
        std::size_t length = 0;  ///< in words
        std::vector<Handle<Sign>> signs;
    };
    [[nodiscard]] Perhaps perhaps_at(Words words, std::size_t at) const;
    /// The answer that amounts of this kind ("lots of", "a few") lead to in the phrases of a sign, where it is but one.
    [[nodiscard]] std::optional<std::size_t> answer_of_amount(Handle<Sign> sign, std::string_view amount) const;
    /// Is there a phrase for this answer that begins with that amount?
    [[nodiscard]] bool takes_amount(Handle<Sign> sign, std::size_t answer, std::string_view amount) const;
    /// Every word of these phrases stands in one phrase for `answer` that negates: [no, ammonia, smell] denies "smell of
    /// ammonia".
    [[nodiscard]] bool denied_by(const Meaning& meaning, std::size_t answer) const;
    /// The one phrase word that is one slip away from an unknown word of five letters or more, its first letter being right; or
    /// empty.
    [[nodiscard]] std::string corrected(const std::string& word) const;

private:
    using WordId = std::uint32_t;
    struct Node {
        static constexpr std::uint32_t nothing = static_cast<std::uint32_t>(-1);
        std::uint32_t meaning = nothing;  ///< in the tree's `meanings`
        bool ambiguous = false;
    };
    /// Phrases as a tree of words.
    struct Tree {
        void add(const std::vector<std::string>& words, const Meaning& meaning);
        [[nodiscard]] std::optional<std::uint32_t> step(std::uint32_t node, std::string_view word) const;
        [[nodiscard]] std::optional<WordId> known(std::string_view word) const;
        /// Of a node; none where no phrase ends there, or two that mean different things.
        [[nodiscard]] const Meaning* meaning_at(std::uint32_t node) const;
        std::vector<Node> nodes{1};
        std::vector<Meaning> meanings;
        std::unordered_map<std::uint64_t, std::uint32_t> edges;  ///< by node and word: all in one, since most have but one
        std::unordered_map<std::string, WordId> ids;
    };
    struct Walk;

    void add(const std::vector<Word>& words, const Meaning& meaning);
    void add_kin(const std::vector<Word>& words, const Meaning& meaning);
    void arrive(const Tree& tree, Words words, std::size_t at, std::uint32_t node, Walk& state) const;
    void walk(Words words, std::size_t at, std::uint32_t node, Walk& state) const;
    void walk_kin(Words words, std::size_t at, std::uint32_t node, Walk& state) const;

    Tree written_;                                                   ///< word by word
    Tree kin_;                                                       ///< kin by kin
    std::unordered_map<char, std::vector<std::string>> vocabulary_;  ///< words of five letters or more, by first letter
    struct Amounts {
        std::set<std::size_t> many;  ///< answers with a phrase that begins with "lots of"
        std::set<std::size_t> few;
    };
    std::unordered_map<std::string, std::vector<Handle<Sign>>> perhaps_;  ///< by the phrase as levelled
    std::size_t longest_perhaps_ = 0;                                     ///< in words
    std::vector<Amounts> amounts_;                                        ///< by sign
    /// Content words of the negating phrases of an answer, by sign and answer.
    std::unordered_map<std::uint64_t, std::vector<std::unordered_set<std::string>>> denials_;
};

}  // namespace lidlift::hearing
