// A set of words and short sayings ("used to", "no longer"), and which of them stands at a place in a text.
#pragma once

#include "engine/hearing/caller_text.hpp"

#include <cstddef>
#include <string>
#include <string_view>
#include <unordered_map>
#include <vector>

namespace lidlift::hearing {

class Sayings {
public:
    /// Each text is one word or several with single spaces, spelled as caller_text spells them.
    explicit Sayings(const std::vector<std::string_view>& texts);
    /// The same from one string, separated by '|'.
    explicit Sayings(std::string_view texts_with_bars);

    struct Found {
        std::size_t length = 0;  ///< in words; 0: none stands here
        std::size_t which = 0;   ///< position in the list
    };
    [[nodiscard]] Found longest_at(Words words, std::size_t at) const;
    [[nodiscard]] bool stands_at(Words words, std::size_t at) const { return longest_at(words, at).length > 0; }
    /// For lists of single words.
    [[nodiscard]] bool has(std::string_view word) const;

private:
    void add(std::string_view text);

    struct Saying {
        std::vector<std::string> words;
        std::size_t which;
    };
    std::unordered_map<std::string, std::vector<Saying>> by_first_word_;  ///< longest first
    std::size_t count_ = 0;
};

}  // namespace lidlift::hearing
