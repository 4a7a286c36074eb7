#include "engine/call/left_open.hpp"

#include <algorithm>

namespace lidlift {
namespace {

/// Less often than not a healthy bed's caller would give the answer.
constexpr double ordinary = 0.5;

bool is_out_of_the_ordinary(const Sign& sign, const Observation& seen) {
    const AnswerSet given = sign.sort == SignSort::several ? seen.present : seen.possible;
    double anyway = 0;
    for (std::size_t i = 0; i < sign.answers.size(); ++i)
        if ((given & answer_set(i)) != 0) {
            if (sign.answers[i].none_of_these) return false;
            anyway += sign.answers[i].seen_anyway.value_or(0);
        }
    return given != 0 && anyway < ordinary;
}

}  // namespace

std::optional<OpenQuestion> left_open(const CallSoFar& call, const Phrasebook& phrasebook) {
    const auto settles = [&](Handle<Sign> sign) {
        const Observation* seen = call.told().facts.find(sign);
        return seen && is_out_of_the_ordinary(call.rule_base().signs[sign], *seen);
    };
    for (const CallEntry* entry : what_counts(call.record())) {
        const bool own_words = entry->kind == CallEntry::Kind::words || entry->kind == CallEntry::Kind::news;
        if (!own_words || entry->words.empty()) continue;
        for (const OpenQuestion& open : phrasebook.read(entry->words).to_ask) {
            if (std::ranges::any_of(open.signs, settles)) continue;
            for (const auto sign : open.signs)
                if (!call.is_answered(sign)) return OpenQuestion{open.words, {sign}};
        }
    }
    return std::nullopt;
}

}  // namespace lidlift
