#include "engine/hearing/stems.hpp"

#include <algorithm>
#include <array>
#include <libstemmer.h>
#include <memory>

namespace lidlift::hearing {
namespace {

constexpr std::size_t shortest_stemmed = 4;  ///< letters
constexpr std::size_t longest_stemmed = 40;  ///< letters; no English word is longer

/// Words whose stem belongs to another word.
constexpr auto as_they_are = std::to_array<std::string_view>(
    {"bed",       "beds",       "bedding", "cast",     "casting", "castings",  "leaves",   "leave",    "leaving", "matted",
     "matter",    "rest",       "resting", "rested",   "living",  "lively",    "ground",   "grounds",  "meeting", "mating",
     "news",      "being",      "inside",  "insides",  "sides",   "side",      "feed",     "feeding",  "feeds",   "goods",
     "does",      "having",     "things",  "added",    "adding",  "during",    "evening",  "morning",  "nothing", "anything",
     "something", "everything", "later",   "means",    "woods",   "always",    "perhaps",  "wants",    "wanted",  "this",
     "used",      "using",      "hundred", "hundreds", "sacking", "clippings", "cuttings", "building", "setting", "sitting",
     "wedding",   "king",       "spring",  "string",   "sting",   "stinging",  "bring",    "thing",    "wing"});

/// Endings that make another kind of word of it: an adverb, an amount, a quality.
constexpr auto endings_that_stay = std::to_array<std::string_view>(
    {"ly", "ful", "ness", "ment", "able", "ible", "ation", "ity", "ous", "ive", "er", "est", "al"});

class Stemmer {
public:
    Stemmer() : stemmer_(sb_stemmer_new("english", "UTF_8"), sb_stemmer_delete) {}

    /// The word itself where the library has no answer.
    std::string stem(std::string_view word) const {
        if (!stemmer_) return std::string(word);
        const auto* letters = reinterpret_cast<const sb_symbol*>(word.data());
        const sb_symbol* stem = sb_stemmer_stem(stemmer_.get(), letters, static_cast<int>(word.size()));
        if (stem == nullptr) return std::string(word);
        return {reinterpret_cast<const char*>(stem), static_cast<std::size_t>(sb_stemmer_length(stemmer_.get()))};
    }

private:
    std::unique_ptr<sb_stemmer, decltype(&sb_stemmer_delete)> stemmer_;
};

}  // namespace

std::string stem_of(std::string_view word) {
    // A stemmer keeps its last answer inside itself, so no two threads may share one.
    static thread_local const Stemmer stemmer;
    if (word.size() < shortest_stemmed || word.size() > longest_stemmed) return std::string(word);
    if (std::ranges::find(as_they_are, word) != as_they_are.end()) return std::string(word);
    if (std::ranges::any_of(endings_that_stay, [&](std::string_view ending) { return word.ends_with(ending); }))
        return std::string(word);
    return stemmer.stem(word);
}

}  // namespace lidlift::hearing
