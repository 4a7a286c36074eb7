#include "engine/hearing/sayings.hpp"

#include <algorithm>

namespace lidlift::hearing {
namespace {

std::vector<std::string> parts(std::string_view text, char separator) {
    std::vector<std::string> result;
    for (std::size_t begin = 0; begin <= text.size();) {
        const std::size_t end = std::min(text.find(separator, begin), text.size());
        if (end > begin) result.emplace_back(text.substr(begin, end - begin));
        begin = end + 1;
    }
    return result;
}

}  // namespace

Sayings::Sayings(const std::vector<std::string_view>& texts) {
    for (const std::string_view text : texts) add(text);
}

Sayings::Sayings(std::string_view texts_with_bars) {
    for (const std::string& text : parts(texts_with_bars, '|')) add(text);
}

void Sayings::add(std::string_view text) {
    Saying saying{parts(text, ' '), count_++};
    auto& list = by_first_word_[saying.words.front()];
    list.insert(std::ranges::find_if(list, [&](const Saying& other) { return other.words.size() < saying.words.size(); }),
                std::move(saying));
}

Sayings::Found Sayings::longest_at(Words words, std::size_t at) const {
    if (at >= words.size()) return {};
    const auto list = by_first_word_.find(words[at].text);
    if (list == by_first_word_.end()) return {};
    for (const Saying& saying : list->second) {
        const std::size_t length = saying.words.size();
        if (length > words.size() - at) continue;
        if (std::ranges::equal(saying.words, words.subspan(at, length), {}, {}, &Word::text)) return {length, saying.which};
    }
    return {};
}

bool Sayings::has(std::string_view word) const {
    const auto list = by_first_word_.find(std::string(word));
    return list != by_first_word_.end() && list->second.back().words.size() == 1;
}

}  // namespace lidlift::hearing
