// The chapter of signs: the question, how to look, the answers and how often they are seen anyway.
#include "cli/handbook_scribe.hpp"
#include "engine/quantity.hpp"
#include "engine/words.hpp"

#include <map>

namespace lidlift::cli {
namespace {

std::string how_it_is_answered(const Sign& sign) {
    switch (sign.sort) {
        case SignSort::yes_no:
            return "yes or no";
        case SignSort::one_of:
            return "one of several";
        case SignSort::several:
            return "several at once";
        case SignSort::quantity:
            return "a measurement in " + (sign.unit->name.empty() ? "plain numbers" : std::string(sign.unit->name)) +
                   ", from " + number_to_text(sign.plausible.low) + " to " + quantity_to_text(sign.plausible.high, *sign.unit);
    }
    return {};
}

Line answer_line(const Sign& sign, std::size_t position) {
    const Answer& answer = sign.answers[position];
    Line line = code(answer.id);
    if (sign.sort == SignSort::quantity) {
        const Range range = sign.band(position);
        line = std::move(line) + plain(" " + number_to_text(range.low) + " to " + (range.high_included ? "" : "under ") +
                                       quantity_to_text(range.high, *sign.unit));
    }
    if (!answer.means.empty()) line = std::move(line) + plain(" " + answer.means);
    return line;
}

std::string background(const Answer& answer) {
    if (answer.none_of_these) return "rules out the others";
    if (!answer.seen_anyway) return "not said";
    return answer.the_rest ? "the rest (" + percent(*answer.seen_anyway) + ")" : frequency_in_words(*answer.seen_anyway);
}

std::string phrases(const Answer& answer) {
    std::string text;
    for (const std::string& phrase : answer.heard_as) text += (text.empty() ? "" : "; ") + phrase;
    for (const std::string& phrase : answer.perhaps_heard_as) text += (text.empty() ? "" : "; ") + phrase + " (perhaps)";
    return text;
}

void write_sign(Scribe& scribe, Handle<Sign> handle) {
    const Sign& sign = scribe.base.signs[handle];
    scribe.entry("sign", sign.id, capitalised(sign.name), sign.name);
    scribe.aside(code(sign.id));
    scribe.paragraph(strong(sign.ask));
    scribe.particulars({{"How to look", plain(sign.check)},
                        {"Answered with", plain(how_it_is_answered(sign))},
                        {"Effort", plain(std::string(to_word(sign.effort)))},
                        {"Do not know", plain(percent(sign.hard_to_tell))},
                        {"Same observation", plain(spoken(sign.same_observation))}});
    std::vector<std::vector<Line>> rows;
    for (std::size_t i = 0; i < sign.answers.size(); ++i) {
        const Answer& answer = sign.answers[i];
        rows.push_back({answer_line(sign, i), plain(background(answer)), plain(phrases(answer))});
    }
    scribe.table({"Answer", "Seen anyway", "Callers say"}, std::move(rows));
    const Mentioners& by = scribe.refs.of_sign[handle.index];
    scribe.particulars({{"Used in", by.empty() ? plain("nothing yet") : scribe.mentioners(by)}});
    scribe.sources(sign.sources);
}

}  // namespace

void write_signs(Scribe& scribe) {
    scribe.chapter("signs", "Signs by topic");
    scribe.paragraph(
        plain("What a person can smell, see, squeeze, measure or be asked. \"Seen anyway\" is how many of a hundred beds that "
              "people ask "
              "about show it although none of the causes of this handbook is there."));
    std::vector<std::string> topics;
    std::map<std::string, std::vector<Handle<Sign>>> by_topic;
    for (std::uint32_t i = 0; i < scribe.base.signs.size(); ++i) {
        auto& list = by_topic[scribe.base.signs[Handle<Sign>{i}].topic];
        if (list.empty()) topics.push_back(scribe.base.signs[Handle<Sign>{i}].topic);
        list.push_back({i});
    }
    for (const std::string& topic : topics) {
        scribe.group(spoken(topic));
        scribe.paragraph(scribe.links(by_topic[topic], " \xC2\xB7 "));
        for (const auto handle : by_topic[topic]) write_sign(scribe, handle);
    }
}

}  // namespace lidlift::cli
