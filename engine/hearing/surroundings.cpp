#include "engine/hearing/surroundings.hpp"

#include "engine/hearing/little_words.hpp"

namespace lidlift::hearing {

std::optional<std::size_t> Surroundings::neighbour_before() const {
    static const Sayings passed_over(
        "is|was|been|be|being|getting|got|gets|get|gone|went|become|becomes|became|looks|look|feels|feel|seems|seem|has|"
        "have|turned|turning|been");
    for (std::size_t i = match_.first; i > scene_.clause.first; --i) {
        const std::string& before = word(i - 1);
        if (free(i - 1) && (english().strengtheners.has(before) || passed_over.has(before))) continue;
        return i - 1;
    }
    return std::nullopt;
}

bool Surroundings::stands_before(const Sayings& sayings) const {
    for (std::size_t i = scene_.clause.first; i < match_.first; ++i)
        if (free(i) && sayings.stands_at(scene_.words, i)) return true;
    return false;
}

bool Surroundings::stands_around(const Sayings& sayings) const {
    for (std::size_t i = scene_.clause.first; i < scene_.clause.last; ++i)
        if (free(i) && sayings.stands_at(scene_.words, i)) return true;
    return false;
}

}  // namespace lidlift::hearing
