#include "engine/rule_base.hpp"

#include <algorithm>

namespace lidlift {

std::optional<std::size_t> Sign::find_answer(std::string_view answer) const {
    for (std::size_t i = 0; i < answers.size(); ++i)
        if (answers[i].id == answer) return i;
    return std::nullopt;
}

Range Sign::band(std::size_t position) const {
    Range range = plausible;
    if (position > 0) range.low = *answers[position - 1].below;
    if (answers[position].below) {
        range.high = *answers[position].below;
        range.high_included = false;
    }
    return range;
}

AnswerSet Sign::bands_meeting(const Range& range) const {
    AnswerSet result = 0;
    for (std::size_t i = 0; i < answers.size(); ++i)
        if (band(i).meets(range)) result |= answer_set(i);
    return result;
}

bool matches(const StepGroup& group, const Step& step, Handle<Step> handle) {
    if (const auto* kind = std::get_if<StepKind>(&group)) return step.kind == *kind;
    if (const auto* one = std::get_if<Handle<Step>>(&group)) return handle == *one;
    return std::ranges::find(step.pushes, std::get<Push>(group)) != step.pushes.end();
}

const std::vector<std::string>& effort_words() {
    static const std::vector<std::string> words = {"look", "touch", "dig", "measure", "wait"};
    return words;
}
const std::vector<std::string>& when_words() {
    static const std::vector<std::string> words = {"now", "this week", "from now on"};
    return words;
}
const std::vector<std::string>& step_kind_words() {
    static const std::vector<std::string> words = {"people", "air",  "drain", "heat",  "remove", "dry_matter", "water",
                                                   "feed",   "lime", "pests", "worms", "watch",  "care"};
    return words;
}
const std::vector<std::string>& pushed_words() {
    static const std::vector<std::string> words = {"moisture", "air", "heat", "feed", "ph", "worms", "cover", "salt", "mixing"};
    return words;
}
const std::vector<std::string>& level_words() {
    static const std::vector<std::string> words = {"stop", "warn", "note"};
    return words;
}

const std::vector<std::string>& standing_words() {
    static const std::vector<std::string> words = {"read", "from memory", "derived", "common practice"};
    return words;
}
const std::vector<std::string>& material_role_words() {
    static const std::vector<std::string> words = {"feed", "dry matter", "dung", "liquid", "mineral", "finished"};
    return words;
}

std::string_view to_word(SignSort sort) {
    switch (sort) {
        case SignSort::yes_no:
            return "yes or no";
        case SignSort::one_of:
            return "one of several";
        case SignSort::several:
            return "several at once";
        case SignSort::quantity:
            return "quantity";
    }
    return {};
}
std::string_view to_word(Effort effort) { return effort_words()[static_cast<std::size_t>(effort)]; }
std::string_view to_word(When when) { return when_words()[static_cast<std::size_t>(when)]; }
std::string_view to_word(StepKind kind) { return step_kind_words()[static_cast<std::size_t>(kind)]; }
std::string_view to_word(Pushed pushed) { return pushed_words()[static_cast<std::size_t>(pushed)]; }
std::string_view to_word(Level level) { return level_words()[static_cast<std::size_t>(level)]; }
std::string_view to_word(Standing standing) { return standing_words()[static_cast<std::size_t>(standing)]; }
std::string_view to_word(MaterialRole role) { return material_role_words()[static_cast<std::size_t>(role)]; }
std::string to_text(const Push& push) { return std::string(to_word(push.what)) + (push.up ? " up" : " down"); }

}  // namespace lidlift
